package strokewright.access;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import strokewright.quantity.Fault;

/** The first fault of each field, by the field's name in the form. */
final class FieldFaults {

    private FieldFaults() {}

    static Map<String, String> of(List<Fault> faults) {
        return faults.stream()
                .collect(
                        Collectors.toMap(
                                fault -> fault.pointer().substring(1),
                                Fault::message,
                                (first, second) -> first));
    }
}
