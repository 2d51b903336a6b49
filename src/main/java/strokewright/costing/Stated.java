package strokewright.costing;

import org.jspecify.annotations.Nullable;
import strokewright.quantity.Formula;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/**
 * A build-up from what the owner stated; what may be left out counts as nothing.
 *
 * @param prefix of the names of its figures
 */
record Stated(Working working, String prefix, String origin) {

    /** Only the figure counts, nobody reads the working. */
    static Stated unread() {
        return new Stated(new Working(), "", "");
    }

    Input of(String name, @Nullable Double value, String unit) {
        return new Input(name, value == null ? 0 : value, unit, origin);
    }

    double figure(String figure, Formula formula, Input... inputs) {
        return working.figure(prefix + figure, formula, inputs);
    }

    /** A figure that goes into the next one. */
    Input step(String name, String figure, Formula formula, String unit, Input... inputs) {
        return Input.computed(name, figure(figure, formula, inputs), unit);
    }
}
