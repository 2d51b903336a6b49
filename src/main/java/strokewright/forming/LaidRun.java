package strokewright.forming;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import strokewright.forming.Outline.Bit;
import strokewright.forming.Outline.Corner;
import strokewright.forming.Outline.Run;
import strokewright.forming.PathReading.Piece;

/**
 * Lays the pieces of a drawn line out as bits with a curvature each, and finds the corners.
 *
 * <p>A smooth curve may be drawn as arcs, as Béziers or as many short straights: where straights
 * meet at less than 30° and stay within 1 mm of the curve they stand for, their turning is spread
 * over them, so that it does not matter how finely a curve was cut. All these bounds are assumed.
 */
final class LaidRun {

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

    /** Turning under this is none, radians. */
    private static final double NO_TURNING = 1e-6;

    /** Kinks under this between curves are slips of drawing, not corners. */
    private static final double KINK = Math.toRadians(1);

    private final List<Piece> pieces;
    private final boolean closed;
    private final double smallestRadiusMm;
    private final List<Bit> bits = new ArrayList<>();
    private final List<Corner> corners = new ArrayList<>();
    private final double[] turn; // at the start of each piece
    private final boolean[] smooth;
    private double at;

    private LaidRun(List<Piece> pieces, boolean closed, double smallestRadiusMm) {
        this.closed = closed;
        this.smallestRadiusMm = smallestRadiusMm;
        this.pieces = joined(closed ? startedAtABreak(pieces) : pieces);
        this.turn = new double[this.pieces.size()];
        this.smooth = new boolean[this.pieces.size()];
    }

    /** The inside is on the side to which it turns on the whole. */
    static Run drawn(List<Piece> pieces, boolean closed, double smallestRadiusMm) {
        LaidRun laid = new LaidRun(pieces, closed, smallestRadiusMm);
        laid.lay();
        return laid.run(laid.turning() > -NO_TURNING ? 1 : -1);
    }

    /** The inside is on the side of turns from x towards y, whichever way the whole turns. */
    static Run signed(List<Piece> pieces, double smallestRadiusMm) {
        LaidRun laid = new LaidRun(pieces, false, smallestRadiusMm);
        laid.lay();
        return laid.run(1);
    }

    private void lay() {
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
    }

    private double turning() {
        return bits.stream().mapToDouble(b -> b.lengthMm() * b.curvature()).sum()
                + corners.stream().mapToDouble(Corner::angle).sum();
    }

    private Run run(int inside) {
        double turning = turning();
        sharpen();
        tooTight();
        corners.sort(Comparator.comparingDouble(Corner::atMm));
        return new Run(bits, corners, closed, turning, inside);
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
     * A turn at a joint is a mean over both its sides, so a bit of straights is flatter than the
     * curve where that bends most. Undone to second order where the curvature runs smoothly: the
     * mean of two hats a length L apart has the variance 5/12·L².
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
    private void tooTight() {
        int i = 0;
        while (i < bits.size()) {
            Bit first = bits.get(i);
            if (!first.tighterThan(smallestRadiusMm)) {
                i++;
                continue;
            }
            int from = i;
            double angle = 0;
            while (i < bits.size()
                    && bits.get(i).tighterThan(smallestRadiusMm)
                    && bits.get(i).curvature() * first.curvature() > 0) {
                angle += bits.get(i).lengthMm() * bits.get(i).curvature();
                i++;
            }
            Bit middle = bits.get((from + i - 1) / 2);
            corners.add(
                    new Corner(
                            middle.atMm() + middle.lengthMm() / 2,
                            (middle.x() + middle.toX()) / 2,
                            (middle.y() + middle.toY()) / 2,
                            angle));
            for (int j = from; j < i; j++) {
                bits.set(j, bits.get(j).bent(0));
            }
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
