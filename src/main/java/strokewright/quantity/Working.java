package strokewright.quantity;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** The sheet of working beside a calculation: computes figures and keeps why they are so. */
public final class Working {

    private final List<Why> lines = new ArrayList<>();

    /** Computes a figure by its formula and writes it down. */
    public double figure(String figure, Formula formula, Why.Input... inputs) {
        double[] values = new double[inputs.length];
        for (int i = 0; i < inputs.length; i++) {
            values[i] = inputs[i].value();
        }
        double value = formula.apply(values);
        note(figure, formula, value, inputs);
        return value;
    }

    /** Writes down a figure that its formula computed in decimals elsewhere. */
    public void note(String figure, Formula formula, double value, Why.Input... inputs) {
        lines.add(new Why(figure, formula.code(), Arrays.asList(inputs), value));
    }

    public List<Why> lines() {
        return List.copyOf(lines);
    }
}
