package strokewright.learning;

import java.util.List;
import strokewright.web.Drawing;
import strokewright.web.Numbers;

/** What was quoted against what it took, both on logarithmic axes, with a quarter either way. */
final class ScatterPicture {

    private static final double SIZE = 460;
    private static final double LEFT = 52;
    private static final double RIGHT = 16;
    private static final double TOP = 24;
    private static final double BOTTOM = 44;
    private static final double QUARTER = 0.25;
    private static final double[] HOURS = {
        0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000
    };

    private final List<Replay.Point> points;
    private final Numbers numbers;
    private final double low;
    private final double high;

    ScatterPicture(List<Replay.Point> points, Numbers numbers) {
        this.points = points;
        this.numbers = numbers;
        double least = Double.MAX_VALUE;
        double most = 0;
        for (Replay.Point p : points) {
            least = Math.min(least, Math.min(p.actualHours(), p.quotedHours()));
            most = Math.max(most, Math.max(p.actualHours(), p.quotedHours()));
            if (p.learnedHours() != null) {
                least = Math.min(least, p.learnedHours());
                most = Math.max(most, p.learnedHours());
            }
        }
        low = Math.log(least) - 0.15;
        high = Math.log(most) + 0.15;
    }

    String draw() {
        Drawing drawing =
                new Drawing(
                        SIZE,
                        SIZE,
                        "scatter",
                        "Quoted against actual hours",
                        points.size()
                                + " jobs: hours that they took over hours as quoted (circles) and"
                                + " as estimated with what had been learned until then (filled).");
        double bottom = SIZE - BOTTOM;
        for (double hours : HOURS) {
            double at = Math.log(hours);
            if (at > low && at < high) {
                drawing.line("grid", x(at), TOP, x(at), bottom)
                        .line("grid", LEFT, y(at), SIZE - RIGHT, y(at))
                        .text("m", x(at), bottom + 18, numbers.show(hours))
                        .text("n", LEFT - 6, y(at) + 4, numbers.show(hours));
            }
        }
        drawing.line("ink", x(low), y(low), x(high), y(high));
        double up = -Math.log(1 - QUARTER);
        double down = Math.log(1 + QUARTER);
        drawing.line("thin dashed", x(low), y(low + up), x(high - up), y(high))
                .line("thin dashed", x(low + down), y(low), x(high), y(high - down));
        for (Replay.Point p : points) {
            if (p.learnedHours() != null) {
                drawing.arc(
                        "fill",
                        x(Math.log(p.learnedHours())),
                        y(Math.log(p.actualHours())),
                        2.5,
                        0,
                        360);
            }
            drawing.arc(
                    "ink", x(Math.log(p.quotedHours())), y(Math.log(p.actualHours())), 3.5, 0, 360);
        }
        drawing.line("thin", LEFT, TOP, LEFT, bottom)
                .line("thin", LEFT, bottom, SIZE - RIGHT, bottom)
                .text("n soft", SIZE - RIGHT, SIZE - 6, "estimated hours")
                .text("soft", 4, 14, "actual hours");
        return drawing.svg();
    }

    private double x(double log) {
        return LEFT + (SIZE - LEFT - RIGHT) * (log - low) / (high - low);
    }

    private double y(double log) {
        return SIZE - BOTTOM - (SIZE - BOTTOM - TOP) * (log - low) / (high - low);
    }
}
