package strokewright.comparison;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import strokewright.costing.HoursByCause;
import strokewright.web.Drawing;

/**
 * Causes of a step's difference in hours: what went over lies right of the line, one after the
 * other, what went under left of it; each named beneath.
 */
final class CausePicture {

    private static final double WIDTH = 420;
    private static final double BAR = 18;
    private static final double ROW = 18;
    private static final double TOP = 4;
    private static final double NAME = 30;
    private static final double KEY = 20;
    private static final double KEY_HIGH = 12;
    private static final BigDecimal LEAST = new BigDecimal("0.005");

    private CausePicture() {}

    /**
     * @param said "0.30 h over"
     */
    record Cause(String name, BigDecimal hours, String said) {}

    /**
     * How far bars reach to both sides, so that all of a page have one scale.
     *
     * @param over hours, with {@code under} more than none
     */
    record Reach(double over, double under) {

        static Reach of(List<List<Cause>> all) {
            double over = all.stream().mapToDouble(c -> sum(c, 1)).max().orElse(0);
            double under = all.stream().mapToDouble(c -> sum(c, -1)).max().orElse(0);
            return over + under == 0 ? new Reach(1, 0) : new Reach(over, under);
        }
    }

    /** Those that make a hundredth of an hour. */
    static List<Cause> of(HoursByCause causes, OverWords words) {
        List<Cause> all = new ArrayList<>();
        add(all, "Pieces", causes.pieces(), words);
        add(all, "Passes", causes.passes(), words);
        add(all, "Minutes per pass", causes.minutesPerPass(), words);
        add(all, "Checks", causes.checks(), words);
        add(all, "Tool changes", causes.toolChanges(), words);
        add(all, "Set-up", causes.setUp(), words);
        add(all, "Rework", causes.rework(), words);
        add(all, "Minutes of the work", causes.work(), words);
        add(all, "Not split", causes.notSplit(), words);
        return all;
    }

    private static void add(
            List<Cause> all, String name, @Nullable BigDecimal hours, OverWords words) {
        if (hours != null && hours.abs().compareTo(LEAST) >= 0) {
            all.add(new Cause(name, hours, words.hours(hours)));
        }
    }

    static String drawn(List<Cause> causes, String id, String of, Reach reach) {
        String description =
                causes.stream().map(c -> c.name + " " + c.said).collect(Collectors.joining("; "))
                        + ", hours.";
        Drawing drawing =
                new Drawing(
                        WIDTH,
                        TOP + BAR + 8 + causes.size() * ROW,
                        id,
                        "Causes, " + of,
                        description);
        double scale = (WIDTH - 4) / (reach.over + reach.under);
        double zero = 2 + reach.under * scale;
        double right = zero;
        double left = zero;
        for (int i = 0; i < causes.size(); i++) {
            Cause cause = causes.get(i);
            double width = Math.abs(cause.hours.doubleValue()) * scale;
            if (cause.hours.signum() > 0) {
                box(drawing, i, right, TOP, width, BAR);
                right += width;
            } else {
                left -= width;
                box(drawing, i, left, TOP, width, BAR);
            }
            double y = TOP + BAR + 8 + i * ROW;
            box(drawing, i, 2, y + 3, KEY, KEY_HIGH);
            drawing.text("", NAME, y + 14, cause.name);
            drawing.text("n", WIDTH - 2, y + 14, cause.said);
        }
        drawing.line("ink", zero, 0, zero, TOP + BAR + 4);
        return drawing.svg();
    }

    private static double sum(List<Cause> causes, int sign) {
        return causes.stream()
                .filter(c -> c.hours.signum() == sign)
                .mapToDouble(c -> Math.abs(c.hours.doubleValue()))
                .sum();
    }

    /** Looks tell neighbours apart, in print without colour too. */
    private static void box(
            Drawing drawing, int n, double x, double y, double width, double height) {
        switch (n % 4) {
            case 0 -> drawing.bar("fill-soft", x, y, width, height);
            case 1 -> drawing.hatched(x, y, width, height);
            case 2 -> drawing.bar("fill-tint", x, y, width, height);
            default -> drawing.bar("open", x, y, width, height);
        }
    }
}
