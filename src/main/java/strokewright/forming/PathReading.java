package strokewright.forming;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** SVG path data as pieces: straights, arcs and Béziers. */
final class PathReading extends Pen {

    /** Ends that come so near the start close the line, mm. */
    private static final double CLOSED_WITHIN_MM = 0.01;

    /** Pieces shorter than this are nothing, mm. */
    private static final double NOTHING_MM = 1e-6;

    private static final double LONGEST_MM = 100_000;

    private static final int MOST_PIECES = 50_000;

    private final List<Drawn> drawn = new ArrayList<>();
    private List<Piece> pieces = new ArrayList<>();
    private double handleX; // where the last Bézier pulled, mirrored by the smooth commands
    private double handleY;
    private char last = ' ';
    private double longest;

    private PathReading() {}

    /** One part of the path, drawn without lifting the pen. */
    record Drawn(List<Piece> pieces, boolean closed) {}

    /**
     * @throws IllegalArgumentException with what is wrong, in words
     */
    static List<Drawn> read(String path) {
        PathReading reading = new PathReading();
        reading.follow(path);
        if (reading.drawn.isEmpty()) {
            throw new IllegalArgumentException("draws nothing: has no line and no curve");
        }
        return List.copyOf(reading.drawn);
    }

    /** One command of the path, with mathematics enough to lay it out. */
    sealed interface Piece permits Line, Curve {

        double x();

        double y();

        double toX();

        double toY();

        double lengthMm();

        /** A length that it is not longer than; not a number where it cannot be told. */
        double atMostMm();

        /** Direction at the start and at the end, radians. */
        double heading();

        double toHeading();

        default boolean straight() {
            return this instanceof Line;
        }

        /** Cuts a curve into bits of at most 2 mm or 2°, each with its mean curvature. */
        void cut(Bits bits);

        static Piece line(double x, double y, double toX, double toY) {
            return new Line(x, y, toX, toY);
        }

        /** An arc of this length and curvature, or a straight, from a point in a direction. */
        static Piece arc(double x, double y, double heading, double length, double curvature) {
            if (curvature == 0) {
                return new Line(
                        x, y, x + length * Math.cos(heading), y + length * Math.sin(heading));
            }
            double r = 1 / curvature;
            double centreX = x - r * Math.sin(heading);
            double centreY = y + r * Math.cos(heading);
            double from = Math.atan2(y - centreY, x - centreX);
            return new Curve(
                    new Ellipse(
                            centreX,
                            centreY,
                            Math.abs(r),
                            Math.abs(r),
                            0,
                            from,
                            length * curvature));
        }

        /** How far the line turns from one piece to the next, −π to π. */
        static double turn(Piece before, Piece after) {
            return Math.IEEEremainder(after.heading() - before.toHeading(), 2 * Math.PI);
        }
    }

    /** Takes the bits of a curve one after the other. */
    interface Bits {
        void add(double length, double curvature, double x, double y, double toX, double toY);
    }

    record Line(double x, double y, double toX, double toY) implements Piece {

        @Override
        public double lengthMm() {
            return Math.hypot(toX - x, toY - y);
        }

        @Override
        public double atMostMm() {
            return lengthMm();
        }

        @Override
        public double heading() {
            return Math.atan2(toY - y, toX - x);
        }

        @Override
        public double toHeading() {
            return heading();
        }

        @Override
        public void cut(Bits bits) {
            bits.add(lengthMm(), 0, x, y, toX, toY);
        }
    }

    /** A curve given by a parameter from 0 to 1. */
    interface Parametric {
        double x(double t);

        double y(double t);

        /** How fast x and y run; the direction where the curve stands still is left to others. */
        double speedX(double t);

        double speedY(double t);

        /** A length that the curve is not longer than. */
        double atMostMm();

        /** How far it may turn at most, radians. */
        double atMostTurning();
    }

    record Curve(Parametric curve) implements Piece {

        private static final double LONGEST_BIT_MM = 2;
        private static final double MOST_TURNING = Math.toRadians(2);
        private static final double ASIDE = 1e-6;
        private static final int FEWEST_BITS = 8;
        private static final int MOST_BITS_FOR_TURNING = 2000;

        @Override
        public double x() {
            return curve.x(0);
        }

        @Override
        public double y() {
            return curve.y(0);
        }

        @Override
        public double toX() {
            return curve.x(1);
        }

        @Override
        public double toY() {
            return curve.y(1);
        }

        @Override
        public double lengthMm() {
            double length = 0;
            int steps = steps();
            for (int i = 0; i < steps; i++) {
                length += length((double) i / steps, (double) (i + 1) / steps);
            }
            return length;
        }

        @Override
        public double atMostMm() {
            return curve.atMostMm();
        }

        @Override
        public double heading() {
            return headingAt(0, ASIDE);
        }

        @Override
        public double toHeading() {
            return headingAt(1, 1 - ASIDE);
        }

        @Override
        public void cut(Bits bits) {
            int steps = steps();
            double heading = heading();
            for (int i = 0; i < steps; i++) {
                double from = (double) i / steps;
                double to = (double) (i + 1) / steps;
                double next = i + 1 == steps ? toHeading() : headingAt(to, to - ASIDE);
                double length = length(from, to);
                if (length > NOTHING_MM) {
                    double turned = Math.IEEEremainder(next - heading, 2 * Math.PI);
                    bits.add(
                            length,
                            turned / length,
                            curve.x(from),
                            curve.y(from),
                            curve.x(to),
                            curve.y(to));
                    heading = next;
                }
            }
        }

        private int steps() {
            return (int)
                    Math.max(
                            FEWEST_BITS,
                            Math.ceil(
                                    Math.max(
                                            curve.atMostMm() / LONGEST_BIT_MM,
                                            Math.min(
                                                    MOST_BITS_FOR_TURNING,
                                                    curve.atMostTurning() / MOST_TURNING))));
        }

        private double headingAt(double t, double aside) {
            double dx = curve.speedX(t);
            double dy = curve.speedY(t);
            if (Math.hypot(dx, dy) < 1e-9 * curve.atMostMm()) {
                // a handle lies on its end: take the direction of what is next to it
                double sign = Math.signum(aside - t);
                dx = sign * (curve.x(aside) - curve.x(t));
                dy = sign * (curve.y(aside) - curve.y(t));
                double sx = curve.speedX(aside);
                double sy = curve.speedY(aside);
                return Math.hypot(sx, sy) > 0 ? Math.atan2(sy, sx) : Math.atan2(dy, dx);
            }
            return Math.atan2(dy, dx);
        }

        /** Gauss and Legendre's rule with five points. */
        private double length(double from, double to) {
            double half = (to - from) / 2;
            double middle = (to + from) / 2;
            double sum = 0;
            for (int i = 0; i < GAUSS_AT.length; i++) {
                double t = middle + half * GAUSS_AT[i];
                sum += GAUSS_WEIGHT[i] * Math.hypot(curve.speedX(t), curve.speedY(t));
            }
            return half * sum;
        }

        private static final double[] GAUSS_AT = {
            0, 0.5384693101056831, -0.5384693101056831, 0.9061798459386640, -0.9061798459386640
        };
        private static final double[] GAUSS_WEIGHT = {
            0.5688888888888889,
            0.4786286704993665,
            0.4786286704993665,
            0.2369268850561891,
            0.2369268850561891
        };
    }

    /** A Bézier of third degree. */
    private record Bezier(
            double x0, double y0, double x1, double y1, double x2, double y2, double x3, double y3)
            implements Parametric {

        @Override
        public double x(double t) {
            return at(x0, x1, x2, x3, t);
        }

        @Override
        public double y(double t) {
            return at(y0, y1, y2, y3, t);
        }

        @Override
        public double speedX(double t) {
            return speed(x0, x1, x2, x3, t);
        }

        @Override
        public double speedY(double t) {
            return speed(y0, y1, y2, y3, t);
        }

        @Override
        public double atMostMm() {
            return Math.hypot(x1 - x0, y1 - y0)
                    + Math.hypot(x2 - x1, y2 - y1)
                    + Math.hypot(x3 - x2, y3 - y2);
        }

        @Override
        public double atMostTurning() {
            return turn(x1 - x0, y1 - y0, x2 - x1, y2 - y1)
                    + turn(x2 - x1, y2 - y1, x3 - x2, y3 - y2);
        }

        /** Between two sides of its polygon; a curve turns no more than that. */
        private static double turn(double ax, double ay, double bx, double by) {
            if (ax == 0 && ay == 0 || bx == 0 && by == 0) {
                return Math.PI; // a handle lies on its end
            }
            return Math.abs(Math.atan2(ax * by - ay * bx, ax * bx + ay * by));
        }

        private static double at(double a, double b, double c, double d, double t) {
            double s = 1 - t;
            return s * s * s * a + 3 * s * s * t * b + 3 * s * t * t * c + t * t * t * d;
        }

        private static double speed(double a, double b, double c, double d, double t) {
            double s = 1 - t;
            return 3 * (s * s * (b - a) + 2 * s * t * (c - b) + t * t * (d - c));
        }
    }

    /**
     * An arc of an ellipse, which may be a circle.
     *
     * @param turned how far the axes are turned
     * @param from where on the ellipse it begins
     * @param through how far round it runs, signed
     */
    record Ellipse(
            double centreX,
            double centreY,
            double radiusX,
            double radiusY,
            double turned,
            double from,
            double through)
            implements Parametric {

        /**
         * A half arc whose radius was rounded up in its seventh digit is still half, not a tenth of
         * a degree less.
         */
        private static final double HALF_WITHIN = 1e-6;

        /** From end points to centre: SVG 1.1, F.6.5 and F.6.6. */
        static Ellipse between(
                double x1,
                double y1,
                double radiusX,
                double radiusY,
                double degrees,
                boolean large,
                boolean sweep,
                double x2,
                double y2) {
            double turned = Math.toRadians(degrees);
            double cos = Math.cos(turned);
            double sin = Math.sin(turned);
            double halfX = (x1 - x2) / 2;
            double halfY = (y1 - y2) / 2;
            double u = cos * halfX + sin * halfY;
            double v = -sin * halfX + cos * halfY;
            double rx = Math.abs(radiusX);
            double ry = Math.abs(radiusY);
            double reach = u * u / (rx * rx) + v * v / (ry * ry);
            boolean half = reach > 1 - HALF_WITHIN;
            if (half) { // too small to reach: made just large enough
                rx *= Math.sqrt(reach);
                ry *= Math.sqrt(reach);
            }
            double rest = half ? 0 : 1 / reach - 1;
            double factor = (large == sweep ? -1 : 1) * Math.sqrt(rest);
            double cu = factor * rx * v / ry;
            double cv = -factor * ry * u / rx;
            double from = Math.atan2((v - cv) / ry, (u - cu) / rx);
            double to = Math.atan2((-v - cv) / ry, (-u - cu) / rx);
            double through = to - from;
            if (sweep && through < 0) {
                through += 2 * Math.PI;
            } else if (!sweep && through > 0) {
                through -= 2 * Math.PI;
            }
            return new Ellipse(
                    cos * cu - sin * cv + (x1 + x2) / 2,
                    sin * cu + cos * cv + (y1 + y2) / 2,
                    rx,
                    ry,
                    turned,
                    from,
                    through);
        }

        @Override
        public double x(double t) {
            double a = from + through * t;
            return centreX
                    + radiusX * Math.cos(a) * Math.cos(turned)
                    - radiusY * Math.sin(a) * Math.sin(turned);
        }

        @Override
        public double y(double t) {
            double a = from + through * t;
            return centreY
                    + radiusX * Math.cos(a) * Math.sin(turned)
                    + radiusY * Math.sin(a) * Math.cos(turned);
        }

        @Override
        public double speedX(double t) {
            double a = from + through * t;
            return through
                    * (-radiusX * Math.sin(a) * Math.cos(turned)
                            - radiusY * Math.cos(a) * Math.sin(turned));
        }

        @Override
        public double speedY(double t) {
            double a = from + through * t;
            return through
                    * (-radiusX * Math.sin(a) * Math.sin(turned)
                            + radiusY * Math.cos(a) * Math.cos(turned));
        }

        @Override
        public double atMostMm() {
            return Math.abs(through) * Math.max(radiusX, radiusY);
        }

        @Override
        public double atMostTurning() {
            return Math.abs(through) * Math.max(radiusX, radiusY) / Math.min(radiusX, radiusY);
        }
    }

    private void finish(boolean closedByCommand) {
        boolean closed = closedByCommand;
        if (!pieces.isEmpty()) {
            double gap = Math.hypot(x - startX, y - startY);
            if (closedByCommand && gap > CLOSED_WITHIN_MM) {
                add(Piece.line(x, y, startX, startY));
            }
            closed |= pieces.size() > 1 && gap <= CLOSED_WITHIN_MM;
            drawn.add(new Drawn(List.copyOf(pieces), closed));
            pieces = new ArrayList<>();
        }
    }

    private void add(Piece piece) {
        if (pieces.size() + drawn.size() >= MOST_PIECES) {
            throw new IllegalArgumentException(
                    String.format(Locale.ROOT, "has more than %,d pieces", MOST_PIECES));
        }
        longest += piece.atMostMm();
        if (!(longest < LONGEST_MM)) {
            throw new IllegalArgumentException("reaches further than 100 m: lengths are in mm");
        }
        if (piece.lengthMm() > NOTHING_MM) {
            pieces.add(piece);
        }
    }

    @Override
    void line(double toX, double toY) {
        add(Piece.line(x, y, toX, toY));
        last = 'l';
    }

    private void bezier(
            double x1, double y1, double x2, double y2, double toX, double toY, char command) {
        if (onOneLine(x1, y1, x2, y2, toX, toY)) {
            line(toX, toY);
        } else {
            add(new Curve(new Bezier(x, y, x1, y1, x2, y2, toX, toY)));
        }
        last = command;
    }

    /** Drawing programs write straights as Béziers too. */
    private boolean onOneLine(double x1, double y1, double x2, double y2, double toX, double toY) {
        double chord = Math.hypot(toX - x, toY - y);
        return chord > 0
                && off(x1, y1, toX, toY, chord) < 1e-4
                && off(x2, y2, toX, toY, chord) < 1e-4
                && along(x1, y1, toX, toY, chord)
                && along(x2, y2, toX, toY, chord);
    }

    private double off(double px, double py, double toX, double toY, double chord) {
        return Math.abs((toX - x) * (py - y) - (toY - y) * (px - x)) / chord;
    }

    private boolean along(double px, double py, double toX, double toY, double chord) {
        double share = ((toX - x) * (px - x) + (toY - y) * (py - y)) / chord / chord;
        return share >= 0 && share <= 1;
    }

    @Override
    void cubic(double x1, double y1, double x2, double y2, double toX, double toY) {
        bezier(x1, y1, x2, y2, toX, toY, 'c');
        handleX = x2;
        handleY = y2;
    }

    @Override
    void smoothCubic(double x2, double y2, double toX, double toY) {
        cubic(mirroredX('c'), mirroredY('c'), x2, y2, toX, toY);
    }

    @Override
    void quadratic(double px, double py, double toX, double toY) {
        // the same curve in the third degree
        bezier(
                x + 2.0 / 3 * (px - x),
                y + 2.0 / 3 * (py - y),
                toX + 2.0 / 3 * (px - toX),
                toY + 2.0 / 3 * (py - toY),
                toX,
                toY,
                'q');
        handleX = px;
        handleY = py;
    }

    @Override
    void smoothQuadratic(double toX, double toY) {
        quadratic(mirroredX('q'), mirroredY('q'), toX, toY);
    }

    @Override
    void arc(
            double rx,
            double ry,
            double degrees,
            boolean large,
            boolean sweep,
            double toX,
            double toY) {
        add(new Curve(Ellipse.between(x, y, rx, ry, degrees, large, sweep, toX, toY)));
        last = 'a';
    }

    @Override
    public void endPath() {
        finish(false);
    }

    @Override
    void move(double toX, double toY) {
        finish(false);
        last = 'm';
    }

    @Override
    void close() {
        finish(true);
        last = 'z';
    }

    private double mirroredX(char command) {
        return last == command ? 2 * x - handleX : x;
    }

    private double mirroredY(char command) {
        return last == command ? 2 * y - handleY : y;
    }
}
