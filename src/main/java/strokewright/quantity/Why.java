package strokewright.quantity;

import java.util.List;

/**
 * Where a figure comes from: the formula by name and its inputs, enough to recompute it by hand.
 *
 * @param figure name of the figure, as in the result that carries it
 * @param formula name of the formula ({@link Formula#code()})
 * @param inputs in the order in which the formula takes them
 */
public record Why(String figure, String formula, List<Input> inputs, double value) {

    public Why {
        inputs = List.copyOf(inputs);
    }

    /**
     * One input of a formula.
     *
     * @param unit as printed, empty for a plain number
     * @param origin "drawing", "shop book" with its edition and origin, "computed", or "learned"
     */
    public record Input(String name, double value, String unit, String origin) {

        public static Input drawing(String name, double value, String unit) {
            return new Input(name, value, unit, "drawing");
        }

        public static Input computed(String name, double value, String unit) {
            return new Input(name, value, unit, "computed");
        }
    }
}
