package strokewright.comparison;

import java.util.List;
import java.util.stream.Collectors;
import strokewright.quantity.Money;
import strokewright.web.Drawing;
import strokewright.web.Numbers;

/**
 * How one sum became another: a bar for each sum from nothing, between them what was added or taken
 * away, each beginning where the one above ended.
 */
final class BridgePicture {

    private static final double WIDTH = 440;
    private static final double LEFT = 128;
    private static final double RIGHT = 338;
    private static final double ROW = 26;
    private static final double BAR = 14;

    private BridgePicture() {}

    /**
     * @param sum a bar from nothing; else a step from where the one above ended
     * @param said the amount in words
     */
    record Step(String name, Money amount, boolean sum, boolean worse, String said) {}

    static String of(List<Step> steps, String id, String title, Numbers numbers) {
        String description =
                steps.stream().map(s -> s.name + " " + s.said).collect(Collectors.joining("; "))
                        + ".";
        Drawing drawing = new Drawing(WIDTH, steps.size() * ROW + 8, id, title, description);
        double low = 0;
        double high = 0;
        double at = 0;
        for (Step step : steps) {
            at = step.sum ? amount(step) : at + amount(step);
            low = Math.min(low, at);
            high = Math.max(high, at);
        }
        double scale = high > low ? (RIGHT - LEFT) / (high - low) : 1;
        double zero = LEFT - low * scale;
        drawing.line("thin", zero, 0, zero, steps.size() * ROW);
        at = 0;
        for (int i = 0; i < steps.size(); i++) {
            Step step = steps.get(i);
            double from = step.sum ? 0 : at;
            double to = from + amount(step);
            double y = i * ROW + 6;
            double left = zero + Math.min(from, to) * scale;
            double width = Math.abs(to - from) * scale;
            drawing.text(step.sum ? "strong" : "", 0, y + 11, step.name);
            if (step.sum) {
                drawing.bar("fill-tint", left, y, width, BAR);
            } else if (step.worse) {
                drawing.hatched(left, y, width, BAR);
            } else {
                drawing.bar("fill-soft", left, y, width, BAR);
            }
            drawing.text("n", WIDTH, y + 11, step.said);
            if (i < steps.size() - 1) {
                drawing.line("hidden-line", zero + to * scale, y + BAR, zero + to * scale, y + ROW);
            }
            at = to;
        }
        return drawing.svg();
    }

    private static double amount(Step step) {
        return step.amount.amount().doubleValue();
    }
}
