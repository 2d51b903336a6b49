package strokewright.sheet;

import java.util.Locale;
import java.util.function.ToDoubleFunction;
import strokewright.quantity.Formula;

/** What is bought of sheet, each figure by name. Lengths in mm, areas in mm², masses in kg. */
public enum SheetFormula implements Formula {
    SHEET_MASS(
            "length × width × thickness × density / 10⁹",
            "geometry",
            x -> Mass.kg(x[0] * x[1], x[2], x[3])),
    BLANK_AREA(
            "Σ pieces × length × width; inputs in threes",
            "geometry",
            x -> {
                double sum = 0;
                for (int i = 0; i < x.length; i += 3) {
                    sum += x[i] * x[i + 1] * x[i + 2];
                }
                return sum;
            }),
    BOUGHT_KG("sheets × mass of a sheet", "arithmetic", x -> x[0] * x[1]),
    SHEET_YIELD(
            "area of blanks / (sheets × length × width) × 100",
            "arithmetic",
            x -> x[0] / (x[1] * x[2] * x[3]) * 100),
    KEPT_SHARE(
            "area of kept offcuts / (sheets × length × width)",
            "arithmetic",
            x -> x[0] / (x[1] * x[2] * x[3]));

    private final String text;
    private final String source;
    private final ToDoubleFunction<double[]> function;

    SheetFormula(String text, String source, ToDoubleFunction<double[]> function) {
        this.text = text;
        this.source = source;
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
        return source;
    }

    @Override
    public double apply(double... inputs) {
        return function.applyAsDouble(inputs);
    }
}
