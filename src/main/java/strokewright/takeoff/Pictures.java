package strokewright.takeoff;

import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;
import strokewright.estimate.LaidOutline;
import strokewright.estimate.Operation;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.ShopBook;
import strokewright.web.Drawing;
import strokewright.web.Numbers;

/** The pictures of a take-off and its estimate, each with the same said in words. */
public final class Pictures {

    private static final double WIDTH = 230;
    private static final double HEIGHT = 176;

    private final Numbers numbers;

    public Pictures(Numbers numbers) {
        this.numbers = numbers;
    }

    /** The shape that an operation makes, with its dimensions; null where there is none to see. */
    @Nullable String shape(Operation operation, String id) {
        if (operation instanceof Operation.CurveEdge edge && edge.radiusMm() > edge.heightMm()) {
            return curvedEdge(edge, id);
        }
        if (operation instanceof Operation.TurnFlange flange) {
            return turnedFlange(flange, id);
        }
        if (operation instanceof Operation.Dish dish && dish.depthMm() <= dish.diameterMm() / 2) {
            return dish(dish, id);
        }
        return null;
    }

    /** The outline that is followed, with its strain; null without one. */
    public @Nullable String outline(
            @Nullable Operation operation, Estimate.Line line, ShopBook book, String id) {
        return operation instanceof Operation.FollowOutline follow && line.outline() != null
                ? OutlinePicture.of(
                        LaidOutline.of(follow, book.times()), line.outline(), numbers, id)
                : null;
    }

    private String curvedEdge(Operation.CurveEdge edge, String id) {
        boolean inside = edge.sense() == Sense.SHRINK;
        double outer = inside ? edge.radiusMm() : edge.radiusMm() + edge.heightMm();
        double inner = inside ? edge.radiusMm() - edge.heightMm() : edge.radiusMm();
        double sweep = Math.toDegrees(edge.lengthMm() / edge.radiusMm());
        boolean closed = sweep > 359.5;
        double drawn = Math.min(sweep, 360);
        String words =
                (closed ? "Full ring" : "Arc of " + degrees(sweep))
                        + ", outside Ø "
                        + mm(2 * outer)
                        + ", flange of "
                        + mm(edge.heightMm())
                        + (inside ? " inside, shrunk" : " outside, stretched")
                        + ", heel radius "
                        + mm(edge.radiusMm())
                        + ", heel length "
                        + mm(edge.lengthMm())
                        + ".";
        Drawing drawing = new Drawing(WIDTH, HEIGHT, id, closed ? "Ring" : "Arc", words);
        double x = 96;
        double y = 90;
        double big = 68;
        double small = big * inner / outer;
        double from = closed ? 0 : 90 - drawn / 2;
        // the heel is the strong line, the flange's edge the other
        drawing.arc(inside ? "ink" : "thin", x, y, big, from, closed ? 360 : drawn);
        drawing.arc(inside ? "thin" : "ink", x, y, small, from, closed ? 360 : drawn);
        if (!closed) {
            end(drawing, x, y, small, big, from);
            end(drawing, x, y, small, big, from + drawn);
        }
        drawing.line("centre", x - 9, y, x + 9, y).line("centre", x, y - 9, x, y + 9);
        if (closed) {
            drawing.dimension(x - big, y, x + big, y, "");
            drawing.text("m", x - small / 2, y - 5, "Ø " + plain(2 * outer));
        } else {
            double at = Math.toRadians(from + drawn / 2);
            drawing.line("dim", x, y, x + big * Math.cos(at), y - big * Math.sin(at));
            drawing.arrowhead(x + big * Math.cos(at), y - big * Math.sin(at), -at);
            drawing.text("", x + 6, y - small * 0.45, "R " + plain(outer));
            drawing.text("m", x, y + (drawn > 180 ? 16 : 20), degrees(sweep));
        }
        // height, measured at the right
        double right = x + big;
        if (closed) {
            drawing.line("dim", x + small, y, x + small, y + 46)
                    .line("dim", right, y, right, y + 46);
            drawing.dimension(x + small, y + 42, right, y + 42, "");
            drawing.line("dim", right, y + 42, right + 12, y + 42);
            drawing.text("", right + 14, y + 46, plain(edge.heightMm()));
        } else {
            drawing.text("n", WIDTH - 4, HEIGHT - 8, "flange " + plain(edge.heightMm()));
        }
        return drawing.svg();
    }

    private static void end(
            Drawing drawing, double x, double y, double small, double big, double degrees) {
        double at = Math.toRadians(degrees);
        drawing.line(
                "ink",
                x + small * Math.cos(at),
                y - small * Math.sin(at),
                x + big * Math.cos(at),
                y - big * Math.sin(at));
    }

    /** A section through the middle: flanges up on an outer edge, or up around a hole. */
    private String turnedFlange(Operation.TurnFlange flange, String id) {
        boolean outer = flange.sense() == Sense.SHRINK;
        String words =
                (outer ? "Section: flange of " : "Section: flange around a hole, ")
                        + mm(flange.heightMm())
                        + " turned up by "
                        + degrees(flange.angleDeg())
                        + " at a radius of "
                        + mm(flange.radiusMm())
                        + ", running round "
                        + degrees(flange.sweepDeg())
                        + ".";
        Drawing drawing = new Drawing(WIDTH, HEIGHT, id, "Flange", words);
        double x = 100;
        double floor = 104;
        double bend = outer ? 62 : 34;
        double scale = bend / flange.radiusMm();
        double height = Math.max(12, Math.min(64, flange.heightMm() * scale));
        double tilt = Math.toRadians(flange.angleDeg());
        double lean = height * Math.cos(tilt) * (outer ? 1 : -1);
        double up = height * Math.sin(tilt);
        for (int side = -1; side <= 1; side += 2) {
            double foot = x + side * bend;
            drawing.line("ink", foot, floor, foot + side * lean, floor - up);
            drawing.line("ink", foot, floor, outer ? x : x + side * 92, floor);
        }
        drawing.line("centre", x, floor - 76, x, floor + 14);
        drawing.line("dim", x - bend, floor + 4, x - bend, floor + 36);
        drawing.line("dim", x + bend, floor + 4, x + bend, floor + 36);
        drawing.dimension(
                x - bend, floor + 32, x + bend, floor + 32, "Ø " + plain(2 * flange.radiusMm()));
        double right = x + bend + Math.max(lean, 0) + (outer ? 16 : 40);
        drawing.line("dim", x + bend + lean + 3, floor - up, right + 4, floor - up);
        if (outer) {
            drawing.line("dim", x + bend + 3, floor, right + 4, floor);
        }
        drawing.dimension(right, floor, right, floor - up, plain(flange.heightMm()));
        return drawing.svg();
    }

    private String dish(Operation.Dish dish, String id) {
        double radius =
                (dish.diameterMm() * dish.diameterMm() / 4 + dish.depthMm() * dish.depthMm())
                        / (2 * dish.depthMm());
        Drawing drawing =
                new Drawing(
                        WIDTH,
                        HEIGHT,
                        id,
                        "Dish",
                        "Section of a dish, Ø "
                                + mm(dish.diameterMm())
                                + ", "
                                + mm(dish.depthMm())
                                + " deep, sphere radius "
                                + mm(radius)
                                + ".");
        double x = 92;
        double rim = 34;
        double half = 70;
        double scale = half / (dish.diameterMm() / 2);
        double depth = dish.depthMm() * scale;
        double r = radius * scale;
        double halfAngle = Math.toDegrees(Math.asin(Math.min(1, half / r)));
        drawing.arc("ink", x, rim - (r - depth), r, 270 - halfAngle, 2 * halfAngle);
        drawing.line("thin", x - half, rim, x + half, rim);
        drawing.line("centre", x, rim - 10, x, rim + depth + 12);
        drawing.line("dim", x - half, rim - 3, x - half, rim - 20);
        drawing.line("dim", x + half, rim - 3, x + half, rim - 20);
        drawing.dimension(x - half, rim - 16, x + half, rim - 16, "Ø " + plain(dish.diameterMm()));
        double right = x + half + 18;
        drawing.line("dim", x + half + 3, rim, right + 4, rim);
        drawing.line("dim", x + 4, rim + depth, right + 4, rim + depth);
        drawing.dimension(right, rim, right, rim + depth, plain(dish.depthMm()));
        return drawing.svg();
    }

    private String mm(double value) {
        return plain(value) + " mm";
    }

    private String plain(double value) {
        return numbers.show(Math.round(value * 10) / 10.0);
    }

    private String degrees(double value) {
        return numbers.show(Math.round(value * 10) / 10.0) + "°";
    }
}
