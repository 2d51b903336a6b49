package strokewright.quantity;

import java.util.List;

/** What was sent cannot be worked with; carries every fault of one stage together. */
public class InvalidInput extends RuntimeException {

    private final List<Fault> faults;

    public InvalidInput(List<Fault> faults) {
        super(faults.toString());
        this.faults = List.copyOf(faults);
    }

    public InvalidInput(String pointer, String message) {
        this(List.of(new Fault(pointer, message)));
    }

    public List<Fault> faults() {
        return faults;
    }

    /** The same of a part of a larger document, which begins at the pointer. */
    public InvalidInput under(String pointer) {
        return new InvalidInput(
                faults.stream().map(f -> new Fault(pointer + f.pointer(), f.message())).toList());
    }
}
