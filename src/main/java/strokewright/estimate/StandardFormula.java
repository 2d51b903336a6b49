package strokewright.estimate;

import java.util.Locale;
import java.util.function.ToDoubleFunction;
import strokewright.quantity.Formula;

/** How a time standard's amount becomes minutes. */
enum StandardFormula implements Formula {
    ONCE("set-up + minutes per unit × amount, once for the order", x -> x[0] + x[1] * x[2]),
    EACH("minutes per unit × amount", x -> x[0] * x[1]),
    PROPOSED("amount of the geometry × factor of the rule", x -> x[0] * x[1]),
    EACH_OF_CLASS(
            "minutes per unit × amount × factor of the tolerance class", x -> x[0] * x[1] * x[2]);

    private final String text;
    private final ToDoubleFunction<double[]> function;

    StandardFormula(String text, ToDoubleFunction<double[]> function) {
        this.text = text;
        this.function = function;
    }

    @Override
    public String code() {
        return "standard-" + name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    @Override
    public String text() {
        return text;
    }

    @Override
    public String source() {
        return "the shop's time standard";
    }

    @Override
    public double apply(double... inputs) {
        return function.applyAsDouble(inputs);
    }
}
