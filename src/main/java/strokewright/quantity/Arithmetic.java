package strokewright.quantity;

import java.util.Locale;
import java.util.function.ToDoubleFunction;

/** Plain arithmetic that every calculation shares. */
public enum Arithmetic implements Formula {
    SUM("sum of the inputs", Arithmetic::sum),
    COUNT_TIMES_SUM("first input × sum of the others", x -> x[0] * (sum(x) - x[0]));

    private final String text;
    private final ToDoubleFunction<double[]> function;

    Arithmetic(String text, ToDoubleFunction<double[]> function) {
        this.text = text;
        this.function = function;
    }

    @Override
    public String code() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    @Override
    public String text() {
        return text;
    }

    @Override
    public String source() {
        return "arithmetic";
    }

    @Override
    public double apply(double... inputs) {
        return function.applyAsDouble(inputs);
    }

    private static double sum(double[] x) {
        double sum = 0;
        for (double value : x) {
            sum += value;
        }
        return sum;
    }
}
