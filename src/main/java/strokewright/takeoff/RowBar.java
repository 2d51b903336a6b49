package strokewright.takeoff;

import static strokewright.web.Drawing.plain;

import java.util.List;
import java.util.stream.DoubleStream;
import strokewright.takeoff.PriceSteps.Step;
import strokewright.takeoff.Spreading.Band;

/**
 * Bars in the cells of a table, all rows on one scale. They hold no text and are hidden from
 * readers of the screen: their row says the same in figures.
 */
public final class RowBar {

    private static final double WIDTH = 160;
    private static final double EDGE = 3;

    private final double low;
    private final double high;

    private RowBar(double low, double high) {
        this.low = low;
        this.high = high > low ? high : low + 1;
    }

    /** A scale on which all these have room. */
    static RowBar over(DoubleStream values) {
        double[] all = values.toArray();
        return new RowBar(
                DoubleStream.of(all).min().orElse(0), DoubleStream.of(all).max().orElse(1));
    }

    /** A scale from nothing on. */
    static RowBar fromZero(DoubleStream values) {
        return over(DoubleStream.concat(DoubleStream.of(0), values));
    }

    /** A scale with nothing in its middle. */
    public static RowBar around(DoubleStream values) {
        double most = values.map(Math::abs).max().orElse(1);
        return new RowBar(-most, most == 0 ? 1 : most);
    }

    private double x(double value) {
        double share = (value - low) / (high - low);
        return EDGE + Math.min(1, Math.max(0, share)) * (WIDTH - 2 * EDGE);
    }

    // Steps: stretched to the height of their row, so that they join ------------------------------

    static List<String> steps(List<Step> steps) {
        RowBar scale =
                fromZero(
                        steps.stream()
                                .flatMapToDouble(
                                        s ->
                                                DoubleStream.of(
                                                        s.from().amount().doubleValue(),
                                                        s.to().amount().doubleValue())));
        List<String> bars = new java.util.ArrayList<>();
        for (int i = 0; i < steps.size(); i++) {
            bars.add(scale.step(steps.get(i), i == 0, i == steps.size() - 1));
        }
        return bars;
    }

    /** What runs past the rows that a step consists of. */
    static List<String> past(List<Step> steps) {
        RowBar scale = fromZero(steps.stream().mapToDouble(s -> s.to().amount().doubleValue()));
        return steps.stream()
                .map(
                        s ->
                                stretched(
                                        line("thin", scale.x(0), 0, 100)
                                                + line(
                                                        "dim",
                                                        scale.x(s.to().amount().doubleValue()),
                                                        0,
                                                        100)))
                .toList();
    }

    private String step(Step step, boolean first, boolean last) {
        double from = x(step.from().amount().doubleValue());
        double to = x(step.to().amount().doubleValue());
        boolean down = !step.sum() && step.amount().amount().signum() < 0;
        String look = step.sum() ? "fill" : down ? "open dashed" : "fill-soft";
        double begun = step.sum() ? to : from;
        return stretched(
                line("thin", x(0), 0, 100)
                        + (first ? "" : line("dim", begun, 0, 20))
                        + box(look, Math.min(from, to), 20, Math.max(1, Math.abs(to - from)), 60)
                        + (last ? "" : line("dim", to, 80, 100)));
    }

    // Bands and swings: as high as they are, however wide
    // ------------------------------------------

    /**
     * From P10 to P90, with P50, mean and P80.
     *
     * @param reckoned where the figure of the estimate is
     * @param offered a line across; NaN for none
     */
    String band(Band band, double reckoned, double offered) {
        double left = x(band.p10());
        double right = x(band.p90());
        StringBuilder svg = new StringBuilder(box("fill-soft", left, 6, right - left, 12));
        if (offered < band.p90()) { // false for NaN
            double loss = Math.max(left, x(offered));
            svg.append(hatch(loss, 6, right - loss, 12));
        }
        svg.append(line("ink", x(band.p50()), 6, 18));
        svg.append(line("hidden-line", x(band.p80()), 3, 21));
        svg.append(
                "<circle class=\"ring-ink\" cx=\"%s\" cy=\"12\" r=\"2.6\"/>"
                        .formatted(plain(x(band.mean()))));
        svg.append(triangle(x(reckoned), 19));
        if (!Double.isNaN(offered)) {
            svg.append(line("accent", x(offered), 1, 26));
        }
        return even(svg.toString());
    }

    /** From low to high past a line at the plan. */
    String swing(double from, double to, double plan) {
        double left = x(Math.min(from, to));
        double right = x(Math.max(from, to));
        return even(
                box("fill-soft", left, 6, Math.max(1, right - left), 12)
                        + line("ink", x(plan), 1, 25));
    }

    /** From a line in the middle: more is full and to the right, less is empty and to the left. */
    public String more(double by) {
        double left = x(Math.min(0, by));
        double right = x(Math.max(0, by));
        return even(
                (by == 0
                                ? ""
                                : box(
                                        by > 0 ? "fill" : "open",
                                        left,
                                        7,
                                        Math.max(1, right - left),
                                        12))
                        + line("ink", x(0), 1, 25));
    }

    // Pieces --------------------------------------------------------------------------------------

    private static String stretched(String content) {
        return "<svg class=\"row-bar stretched\" aria-hidden=\"true\" viewBox=\"0 0 160 100\""
                + " preserveAspectRatio=\"none\">"
                + content
                + "</svg>";
    }

    private static String even(String content) {
        return "<svg class=\"row-bar\" aria-hidden=\"true\" viewBox=\"0 0 160 27\">"
                + content
                + "</svg>";
    }

    private static String box(String look, double x, double y, double width, double height) {
        return "<rect class=\"%s\" x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\"/>"
                .formatted(look, plain(x), plain(y), plain(Math.max(0, width)), plain(height));
    }

    private static String line(String look, double x, double from, double to) {
        return "<path class=\"%s\" d=\"M%s %sV%s\"/>"
                .formatted(look, plain(x), plain(from), plain(to));
    }

    private static String triangle(double x, double y) {
        return "<path class=\"arrow\" d=\"M%s %sl4 7h-8z\"/>".formatted(plain(x), plain(y));
    }

    private static String hatch(double x, double y, double width, double height) {
        StringBuilder lines = new StringBuilder();
        for (double from = x - height; from < x + width; from += 4) {
            double left = Math.max(from, x);
            double right = Math.min(from + height, x + width);
            if (right > left) {
                lines.append(
                        "M%s %sL%s %s"
                                .formatted(
                                        plain(left),
                                        plain(y + height - (left - from)),
                                        plain(right),
                                        plain(y + height - (right - from))));
            }
        }
        return "<path class=\"thin\" d=\"" + lines + "\"/>";
    }
}
