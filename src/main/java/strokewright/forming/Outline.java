package strokewright.forming;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import strokewright.forming.PathReading.Piece;

/**
 * A line to follow in the plane: runs of bits, each with its length and its curvature, and the
 * corners between them. A bit is a short stretch with one curvature; a straight is a bit without.
 *
 * <p>A smooth curve may be drawn as arcs, as Béziers or as many short straights: where straights
 * meet at less than 30° and stay within 1 mm of the curve they stand for, their turning is spread
 * over them, so that it does not matter how finely a curve was cut.
 *
 * @param runs one for each part of the line that is drawn without lifting the pen
 */
public record Outline(List<Run> runs) {

    /** Straights that meet at more stand for a corner. */
    private static final double CORNER = Math.toRadians(30);

    /** Straights that leave the curve further stand for themselves, mm. */
    private static final double FURTHEST_FROM_CURVE_MM = 1;

    /** Short straights are joined up to this length: digits left off drown. */
    private static final double JOINED_MM = 25;

    private static final double JOINED_TURN = Math.toRadians(8);

    /** So much longer than its neighbour, and so far from the curve: not of the curve, mm. */
    private static final double LONGER = 3;

    private static final double STRAIGHT_FROM_MM = 0.25;

    private static final double SMOOTHLY = 0.1;

    /** Kinks under this between curves are slips of drawing, not corners. */
    private static final double KINK = Math.toRadians(1);

    public Outline {
        runs = List.copyOf(runs);
    }

    /**
     * A part of the line, drawn without lifting the pen.
     *
     * @param closed whether it ends where it began
     * @param turning radians, corners included; ±2π for a closed line that does not cross itself
     */
    public record Run(List<Bit> bits, List<Corner> corners, boolean closed, double turning) {

        public Run {
            bits = List.copyOf(bits);
            corners = List.copyOf(corners);
        }

        public double lengthMm() {
            return bits.stream().mapToDouble(Bit::lengthMm).sum();
        }

        /** Lengths from corner to corner; the whole of a line without any. */
        public List<Double> betweenCornersMm() {
            List<Double> lengths = new ArrayList<>();
            double from = 0;
            for (Corner corner : corners) {
                lengths.add(corner.atMm() - from);
                from = corner.atMm();
            }
            double rest = lengthMm() - from;
            if (closed && !lengths.isEmpty()) {
                lengths.set(0, lengths.get(0) + rest);
            } else {
                lengths.add(rest);
            }
            return lengths;
        }
    }

    /**
     * A short stretch of one curvature.
     *
     * @param atMm where it begins along the run
     * @param curvature 1/mm, positive where it turns from x towards y
     * @param x where it begins, mm
     * @param toX where it ends, mm
     * @param ofStraights whether its curvature was told from how straights meet
     */
    public record Bit(
            double atMm,
            double lengthMm,
            double curvature,
            double x,
            double y,
            double toX,
            double toY,
            boolean ofStraights) {

        Bit bent(double otherCurvature) {
            return new Bit(atMm, lengthMm, otherCurvature, x, y, toX, toY, ofStraights);
        }

        boolean tighterThan(double radiusMm) {
            return Math.abs(curvature) * radiusMm > 1 + 1e-9;
        }
    }

    /**
     * A place that is too tight to be formed: to fold or to join.
     *
     * @param atMm where it is along the run
     * @param angle how far it turns, radians, positive from x towards y
     */
    public record Corner(double atMm, double x, double y, double angle) {}

    /**
     * @param path SVG path data (W3C, SVG 1.1 chapter 8), lengths in mm
     * @param smallestRadiusMm tighter bends are corners
     * @throws IllegalArgumentException with what is wrong with the path, in words
     */
    public static Outline ofPath(String path, double smallestRadiusMm) {
        List<Run> runs = new ArrayList<>();
        for (PathReading.Drawn drawn : PathReading.read(path)) {
            runs.add(run(drawn.pieces(), drawn.closed(), smallestRadiusMm));
        }
        return new Outline(runs);
    }

    /**
     * Arcs and straights one after the other, each going on in the direction of the last.
     *
     * @param segments length and signed curvature of each
     */
    public static Outline ofSegments(List<Bend> segments, double smallestRadiusMm) {
        List<Piece> pieces = new ArrayList<>();
        double x = 0;
        double y = 0;
        double heading = 0;
        for (Bend segment : segments) {
            Piece piece = Piece.arc(x, y, heading, segment.lengthMm(), segment.curvature());
            pieces.add(piece);
            x = piece.toX();
            y = piece.toY();
            heading += segment.lengthMm() * segment.curvature();
        }
        return new Outline(List.of(run(pieces, false, smallestRadiusMm)));
    }

    public double lengthMm() {
        return runs.stream().mapToDouble(Run::lengthMm).sum();
    }

    public List<Corner> corners() {
        return runs.stream().flatMap(r -> r.corners().stream()).toList();
    }

    /**
     * The stretches to work, each of one sense: neighbours of one sense are one stretch, with the
     * straights between them; a corner ends a stretch.
     *
     * @param flangeInside whether the flange is on the side to which a run turns on the whole
     * @param senseByTurn a turn from x towards y shrinks, whichever way the whole turns
     * @param worthACurvature straighter than this counts as straight, 1/mm
     */
    public List<Stretch> stretches(
            boolean flangeInside, boolean senseByTurn, double worthACurvature) {
        List<Stretch> stretches = new ArrayList<>();
        for (Run run : runs) {
            double inside = senseByTurn || run.turning() > -1e-6 ? 1 : -1;
            stretches.addAll(Stretch.of(run, flangeInside ? inside : -inside, worthACurvature));
        }
        return stretches;
    }

    private static Run run(List<Piece> pieces, boolean closed, double smallestRadiusMm) {
        return new Laying(pieces, closed, smallestRadiusMm).run();
    }

    /** Lays the pieces out as bits, and finds the corners. */
    private static final class Laying {
        private final List<Piece> pieces;
        private final boolean closed;
        private final double smallestRadiusMm;
        private final List<Bit> bits = new ArrayList<>();
        private final List<Corner> corners = new ArrayList<>();
        private final double[] turn; // at the start of each piece
        private final boolean[] smooth;
        private double at;

        Laying(List<Piece> pieces, boolean closed, double smallestRadiusMm) {
            this.closed = closed;
            this.smallestRadiusMm = smallestRadiusMm;
            this.pieces = joined(closed ? startedAtABreak(pieces) : pieces);
            this.turn = new double[this.pieces.size()];
            this.smooth = new boolean[this.pieces.size()];
        }

        Run run() {
            int n = pieces.size();
            for (int i = closed ? 0 : 1; i < n; i++) {
                Piece before = pieces.get((i + n - 1) % n);
                Piece after = pieces.get(i);
                turn[i] = Piece.turn(before, after);
                smooth[i] = spread(before, after);
                if (!smooth[i] && Math.abs(turn[i]) <= KINK) {
                    turn[i] = 0;
                }
            }
            for (int i = 0; i < n; i++) {
                Piece piece = pieces.get(i);
                if (!smooth[i] && turn[i] != 0) {
                    corners.add(new Corner(at, piece.x(), piece.y(), turn[i]));
                }
                if (piece.straight()) {
                    int next = (i + 1) % n;
                    double turned =
                            (smooth[i] ? share(i, n) * turn[i] : 0)
                                    + ((closed || next > 0) && smooth[next]
                                            ? (1 - share(next, n)) * turn[next]
                                            : 0);
                    straight(piece, turned);
                } else {
                    piece.cut(
                            (length, curvature, x, y, toX, toY) -> {
                                bits.add(new Bit(at, length, curvature, x, y, toX, toY, false));
                                at += length;
                            });
                }
            }
            double turning =
                    bits.stream().mapToDouble(b -> b.lengthMm() * b.curvature()).sum()
                            + corners.stream().mapToDouble(Corner::angle).sum();
            sharpen();
            return tooTight(turning);
        }

        /** What the piece after a joint takes of the turn there; the one before takes the rest. */
        private double share(int joint, int n) {
            double before = pieces.get((joint + n - 1) % n).lengthMm();
            double after = pieces.get(joint).lengthMm();
            double longer = Math.max(before, after);
            boolean longerIsStraight =
                    longer > LONGER * Math.min(before, after)
                            && Math.abs(turn[joint]) * longer * longer / (before + after) / 4
                                    > STRAIGHT_FROM_MM;
            if (longerIsStraight) {
                return after < before ? 1 : 0;
            }
            return after / (after + before);
        }

        private void straight(Piece piece, double turned) {
            double chord = piece.lengthMm();
            double half = Math.abs(turned) / 2;
            double length = half < 1e-9 ? chord : chord * half / Math.sin(half);
            bits.add(
                    new Bit(
                            at,
                            length,
                            turned / length,
                            piece.x(),
                            piece.y(),
                            piece.toX(),
                            piece.toY(),
                            true));
            at += length;
        }

        /**
         * A turn at a joint is a mean over both its sides, so a bit of straights is flatter than
         * the curve where that bends most. Undone to second order where the curvature runs
         * smoothly: the mean of two hats a length L apart has the variance 5/12·L².
         */
        private void sharpen() {
            List<Bit> flat = List.copyOf(bits);
            for (int i = 1; i + 1 < flat.size(); i++) {
                Bit before = flat.get(i - 1);
                Bit bit = flat.get(i);
                Bit after = flat.get(i + 1);
                double second = before.curvature() - 2 * bit.curvature() + after.curvature();
                if (bit.ofStraights()
                        && before.ofStraights()
                        && after.ofStraights()
                        && alike(before.lengthMm(), bit.lengthMm())
                        && alike(after.lengthMm(), bit.lengthMm())
                        && Math.abs(second) < SMOOTHLY * Math.abs(bit.curvature())) {
                    bits.set(i, bit.bent(bit.curvature() - 5.0 / 24 * second));
                }
            }
        }

        private static boolean alike(double a, double b) {
            return a < 1.5 * b && b < 1.5 * a;
        }

        /** Bends tighter than can be formed are corners, as if they were kinks. */
        private Run tooTight(double turning) {
            List<Bit> kept = new ArrayList<>();
            for (int i = 0; i < bits.size(); i++) {
                Bit bit = bits.get(i);
                if (!bit.tighterThan(smallestRadiusMm)) {
                    kept.add(bit);
                    continue;
                }
                double angle = bit.lengthMm() * bit.curvature();
                int first = i;
                while (i + 1 < bits.size()
                        && bits.get(i + 1).tighterThan(smallestRadiusMm)
                        && bits.get(i + 1).curvature() * bit.curvature() > 0) {
                    i++;
                    angle += bits.get(i).lengthMm() * bits.get(i).curvature();
                }
                Bit middle = bits.get((first + i) / 2);
                corners.add(
                        new Corner(
                                middle.atMm() + middle.lengthMm() / 2,
                                (middle.x() + middle.toX()) / 2,
                                (middle.y() + middle.toY()) / 2,
                                angle));
                for (int j = first; j <= i; j++) {
                    Bit tight = bits.get(j);
                    kept.add(tight.bent(0));
                }
            }
            corners.sort(Comparator.comparingDouble(Corner::atMm));
            return new Run(kept, corners, closed, turning);
        }
    }

    /** Whether two straights stand for a curve that passes through their joint. */
    private static boolean spread(Piece before, Piece after) {
        if (!before.straight() || !after.straight()) {
            return false;
        }
        double turn = Math.abs(Piece.turn(before, after));
        double shorter = Math.min(before.lengthMm(), after.lengthMm());
        return turn < CORNER && shorter * turn / 8 <= FURTHEST_FROM_CURVE_MM;
    }

    /** A closed line begins at a corner or a change from straight to curve, if it has one. */
    private static List<Piece> startedAtABreak(List<Piece> pieces) {
        int n = pieces.size();
        for (int i = 0; i < n; i++) {
            Piece before = pieces.get((i + n - 1) % n);
            if (!spread(before, pieces.get(i))) {
                List<Piece> turned = new ArrayList<>(pieces);
                Collections.rotate(turned, -i);
                return turned;
            }
        }
        return pieces;
    }

    /**
     * Short straights of one curve made into longer ones that still stay close to it. A remainder
     * at the end goes to the one before it: lengths that differ much tell curvatures badly.
     */
    private static List<Piece> joined(List<Piece> pieces) {
        List<Piece> joined = new ArrayList<>();
        int i = 0;
        boolean goesOn = false; // whether the last one added belongs to the same curve
        while (i < pieces.size()) {
            int last = i;
            if (pieces.get(i).straight()) {
                last = joinedTo(pieces, i);
            }
            Piece whole = whole(pieces.get(i), pieces.get(last));
            boolean ends =
                    last + 1 == pieces.size() || !spread(pieces.get(last), pieces.get(last + 1));
            Piece before = joined.isEmpty() ? null : joined.get(joined.size() - 1);
            if (goesOn && ends && whole.lengthMm() < before.lengthMm() / 2) {
                joined.set(joined.size() - 1, whole(before, whole));
            } else {
                joined.add(whole);
            }
            goesOn = !ends;
            i = last + 1;
        }
        return joined;
    }

    private static Piece whole(Piece first, Piece last) {
        return first == last ? first : Piece.line(first.x(), first.y(), last.toX(), last.toY());
    }

    /** The last of the pieces that make one straight with the first. */
    private static int joinedTo(List<Piece> pieces, int first) {
        double turned = 0;
        int last = first;
        while (last + 1 < pieces.size() && spread(pieces.get(last), pieces.get(last + 1))) {
            Piece next = pieces.get(last + 1);
            double turn = turned + Piece.turn(pieces.get(last), next);
            int joints = last + 1 - first;
            double ofTheCurve = Math.abs(turn) * (joints + 1) / joints;
            double here = pieces.get(last).lengthMm();
            if (ofTheCurve > JOINED_TURN
                    || whole(pieces.get(first), next).lengthMm() > JOINED_MM
                    || Math.max(here, next.lengthMm()) > LONGER * Math.min(here, next.lengthMm())) {
                break;
            }
            turned = turn;
            last++;
        }
        return last;
    }
}
