package strokewright.learning;

import java.util.List;
import java.util.function.ToDoubleFunction;
import strokewright.learning.Drift.Alarm;
import strokewright.learning.Drift.Point;
import strokewright.web.Drawing;
import strokewright.web.Numbers;

/**
 * One subject's chart: above, each job's booked over estimated with the mean and the limits that it
 * is judged by; below, the sums that give the signal, and the smoothed mean.
 */
final class DriftPicture {

    private static final double WIDTH = 640;
    private static final double HEIGHT = 330;
    private static final double LEFT = 56;
    private static final double RIGHT = 96;
    private static final double TOP = 26;
    private static final double PARTED = 196;
    private static final double LOWER = 224;
    private static final double BOTTOM = 300;
    private static final double[] FACTORS = {0.2, 0.33, 0.5, 0.7, 1, 1.4, 2, 3, 5};

    private final Drift drift;
    private final List<Point> points;
    private final String name;
    private final String id;
    private final Numbers numbers;
    private final double low;
    private final double high;
    private final double most;

    DriftPicture(Drift drift, String name, String id, Numbers numbers) {
        this.drift = drift;
        this.points = drift.points();
        this.name = name;
        this.id = id;
        this.numbers = numbers;
        double least = 0;
        double largest = 0;
        double sum = Drift.LIMIT;
        for (Point p : points) {
            double limit = p.centre() == null ? 0 : 3 * p.sigma();
            double centre = p.centre() == null ? p.y() : p.centre();
            least = Math.min(least, Math.min(p.y(), centre - limit));
            largest = Math.max(largest, Math.max(p.y(), centre + limit));
            sum = Math.max(sum, Math.max(p.up(), p.down()));
        }
        low = least - 0.08;
        high = largest + 0.08;
        most = 1.12 * sum;
    }

    String draw() {
        Drawing drawing = new Drawing(WIDTH, HEIGHT, "drift-" + id, name, description());
        axes(drawing);
        judged(drawing);
        for (int i = 0; i < points.size(); i++) {
            Point p = points.get(i);
            drawing.arc(p.standsOut() ? "red" : "ink", x(i), y(p.y()), 3, 0, 360);
        }
        sums(drawing);
        for (Alarm alarm : drift.alarms()) {
            drawing.line("red", x(alarm.at()), TOP - 6, x(alarm.at()), BOTTOM)
                    .line("centre", x(alarm.since()), TOP - 6, x(alarm.since()), BOTTOM)
                    .text("m warn", x(alarm.at()), TOP - 10, alarm.slower() ? "slower" : "faster");
        }
        return drawing.svg();
    }

    private String description() {
        return name
                + ": "
                + points.size()
                + " jobs in the order in which they were finished. "
                + (drift.alarms().isEmpty()
                        ? "No signal."
                        : String.join(
                                " ",
                                drift.alarms().stream()
                                        .map(a -> DriftWords.of(drift, a))
                                        .toList()));
    }

    private void axes(Drawing drawing) {
        for (double factor : FACTORS) {
            double at = Math.log(factor);
            if (at > low && at < high) {
                drawing.line(factor == 1 ? "thin" : "grid", LEFT, y(at), WIDTH - RIGHT, y(at))
                        .text("n", LEFT - 6, y(at) + 4, "× " + numbers.show(factor));
            }
        }
        drawing.line("thin", LEFT, TOP, LEFT, PARTED)
                .line("thin", LEFT, LOWER, LEFT, BOTTOM)
                .line("thin", LEFT, BOTTOM, WIDTH - RIGHT, BOTTOM)
                .text("soft", 4, 14, "booked over estimated")
                .text("soft", LEFT, HEIGHT - 6, "job " + points.get(0).job())
                .text(
                        "n soft",
                        WIDTH - RIGHT,
                        HEIGHT - 6,
                        "job " + points.get(points.size() - 1).job());
    }

    private void judged(Drawing drawing) {
        line(drawing, "accent", p -> y(p.centre()));
        line(drawing, "accent dashed", p -> y(p.centre() + 3 * p.sigma()));
        line(drawing, "accent dashed", p -> y(p.centre() - 3 * p.sigma()));
        Point last = points.get(points.size() - 1);
        if (last.centre() != null) {
            drawing.text("soft", WIDTH - RIGHT + 6, y(last.centre()) + 4, "mean before")
                    .text(
                            "soft",
                            WIDTH - RIGHT + 6,
                            y(last.centre() + 3 * last.sigma()) + 4,
                            "one job’s limit");
        }
    }

    private void sums(Drawing drawing) {
        drawing.line("red dashed", LEFT, s(Drift.LIMIT), WIDTH - RIGHT, s(Drift.LIMIT))
                .text("soft", WIDTH - RIGHT + 6, s(Drift.LIMIT) + 4, "signal")
                .text("soft", 4, LOWER - 8, "summed up: longer (line), less (dashed)");
        line(drawing, "ink", p -> s(p.up()));
        line(drawing, "ink dashed", p -> s(p.down()));
    }

    /** Through all points that are judged. */
    private void line(Drawing drawing, String look, ToDoubleFunction<Point> at) {
        StringBuilder data = new StringBuilder();
        for (int i = 0; i < points.size(); i++) {
            if (points.get(i).centre() != null) {
                data.append(data.isEmpty() ? "M" : "L")
                        .append(Drawing.plain(x(i)))
                        .append(' ')
                        .append(Drawing.plain(at.applyAsDouble(points.get(i))));
            }
        }
        if (!data.isEmpty()) {
            drawing.path(look, data.toString());
        }
    }

    private double x(int i) {
        return LEFT + 8 + (WIDTH - LEFT - RIGHT - 16) * i / Math.max(1, points.size() - 1.0);
    }

    private double y(double value) {
        return PARTED - (PARTED - TOP) * (value - low) / (high - low);
    }

    private double s(double sum) {
        return BOTTOM - (BOTTOM - LOWER) * sum / most;
    }
}
