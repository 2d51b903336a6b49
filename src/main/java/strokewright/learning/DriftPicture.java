package strokewright.learning;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import strokewright.learning.Drift.Alarm;
import strokewright.learning.Drift.Point;
import strokewright.web.Drawing;
import strokewright.web.Numbers;

/**
 * One subject's charts under each other, job by job: booked over estimated with the mean and the
 * limits that a single job is judged by; the smoothed mean (EWMA) between its limits; and the sums
 * that give the signal (CUSUM).
 */
final class DriftPicture {

    private static final double WIDTH = 640;
    private static final double HEIGHT = 410;
    private static final double LEFT = 56;
    private static final double RIGHT = 96;
    private static final Panel SINGLE = new Panel(26, 186);
    private static final Panel SMOOTHED = new Panel(222, 282);
    private static final Panel SUMMED = new Panel(318, 382);
    private static final double[] FACTORS = {0.2, 0.33, 0.5, 0.7, 1, 1.4, 2, 3, 5};

    private record Panel(double top, double bottom) {

        double at(double share) {
            return bottom - (bottom - top) * share;
        }
    }

    private final Drift drift;
    private final List<Point> points;
    private final String name;
    private final String id;
    private final Numbers numbers;
    private final double low;
    private final double high;
    private final double widest;
    private final double most;
    private final Set<Integer> alarms = new HashSet<>();

    DriftPicture(Drift drift, String name, String id, Numbers numbers) {
        this.drift = drift;
        this.points = drift.points();
        this.name = name;
        this.id = id;
        this.numbers = numbers;
        double least = 0;
        double largest = 0;
        double sum = Drift.LIMIT;
        double wide = 0;
        for (Point p : points) {
            double limit = p.centre() == null ? 0 : 3 * p.sigma();
            double centre = p.centre() == null ? p.y() : p.centre();
            least = Math.min(least, Math.min(p.y(), centre - limit));
            largest = Math.max(largest, Math.max(p.y(), centre + limit));
            sum = Math.max(sum, Math.max(p.up(), p.down()));
            wide = Math.max(wide, Math.max(p.ewmaWidth(), Math.abs(p.ewma())));
        }
        low = least - 0.08;
        high = largest + 0.08;
        most = 1.12 * sum;
        widest = wide == 0 ? 1 : 1.15 * wide;
        drift.alarms().forEach(a -> alarms.add(a.at()));
    }

    String draw() {
        Drawing drawing = new Drawing(WIDTH, HEIGHT, "drift-" + id, name, description());
        axes(drawing);
        single(drawing);
        smoothed(drawing);
        summed(drawing);
        for (Alarm alarm : drift.alarms()) {
            double top = SINGLE.top - 6;
            drawing.line("red", x(alarm.at()), top, x(alarm.at()), SUMMED.bottom)
                    .line("centre", x(alarm.since()), top, x(alarm.since()), SUMMED.bottom)
                    .text("m warn", x(alarm.at()), top - 4, alarm.slower() ? "slower" : "faster");
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
        for (Panel panel : List.of(SINGLE, SMOOTHED, SUMMED)) {
            drawing.line("thin", LEFT, panel.top, LEFT, panel.bottom);
        }
        drawing.line("thin", LEFT, SUMMED.bottom, WIDTH - RIGHT, SUMMED.bottom)
                .text("soft", 4, SINGLE.top - 12, "each job, booked over estimated")
                .text("soft", 4, SMOOTHED.top - 10, "smoothed (EWMA)")
                .text("soft", 4, SUMMED.top - 10, "summed up (CUSUM): longer (line), less (dashed)")
                .text("soft", LEFT, HEIGHT - 8, "job " + points.get(0).job())
                .text(
                        "n soft",
                        WIDTH - RIGHT,
                        HEIGHT - 8,
                        "job " + points.get(points.size() - 1).job());
    }

    private void single(Drawing drawing) {
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
        for (int i = 0; i < points.size(); i++) {
            Point p = points.get(i);
            drawing.arc(p.standsOut() ? "red" : "ink", x(i), y(p.y()), 3, 0, 360);
        }
    }

    private void smoothed(Drawing drawing) {
        double zero = SMOOTHED.at(0.5);
        drawing.line("grid", LEFT, zero, WIDTH - RIGHT, zero);
        line(drawing, "ink", p -> e(p.ewma()));
        line(drawing, "accent dashed", p -> e(p.ewmaWidth()));
        line(drawing, "accent dashed", p -> e(-p.ewmaWidth()));
        Point last = points.get(points.size() - 1);
        if (last.centre() != null) {
            drawing.text("soft", WIDTH - RIGHT + 6, e(last.ewmaWidth()) + 4, "its limit");
        }
    }

    private void summed(Drawing drawing) {
        drawing.line("red dashed", LEFT, s(Drift.LIMIT), WIDTH - RIGHT, s(Drift.LIMIT))
                .text("soft", WIDTH - RIGHT + 6, s(Drift.LIMIT) + 4, "signal");
        line(drawing, "ink", p -> s(p.up()));
        line(drawing, "ink dashed", p -> s(p.down()));
    }

    /** Through points that are judged one after the other; a signal starts everything anew. */
    private void line(Drawing drawing, String look, ToDoubleFunction<Point> at) {
        StringBuilder data = new StringBuilder();
        boolean begins = true;
        for (int i = 0; i < points.size(); i++) {
            if (points.get(i).centre() == null) {
                begins = true;
                continue;
            }
            data.append(begins ? "M" : "L")
                    .append(Drawing.plain(x(i)))
                    .append(' ')
                    .append(Drawing.plain(at.applyAsDouble(points.get(i))));
            begins = alarms.contains(i);
        }
        if (!data.isEmpty()) {
            drawing.path(look, data.toString());
        }
    }

    private double x(int i) {
        return LEFT + 8 + (WIDTH - LEFT - RIGHT - 16) * i / Math.max(1, points.size() - 1.0);
    }

    private double y(double value) {
        return SINGLE.at((value - low) / (high - low));
    }

    private double e(double mean) {
        return SMOOTHED.at(0.5 + mean / (2 * widest));
    }

    private double s(double sum) {
        return SUMMED.at(sum / most);
    }
}
