package strokewright.estimate;

import java.util.Arrays;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import strokewright.costing.CostingFormula;
import strokewright.forming.FormingFormula;
import strokewright.quantity.Arithmetic;
import strokewright.quantity.Formula;

/** Every formula that can stand in the trace of an estimate, by the name it has there. */
public final class Formulas {

    private static final Map<String, Formula> BY_CODE =
            Stream.<Formula[]>of(
                            Arithmetic.values(),
                            FormingFormula.values(),
                            CostingFormula.values(),
                            StandardFormula.values())
                    .flatMap(Arrays::stream)
                    .collect(Collectors.toUnmodifiableMap(Formula::code, Function.identity()));

    private Formulas() {}

    public static Optional<Formula> named(String code) {
        return Optional.ofNullable(BY_CODE.get(code));
    }
}
