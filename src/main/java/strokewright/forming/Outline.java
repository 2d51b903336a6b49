package strokewright.forming;

import java.util.ArrayList;
import java.util.List;
import strokewright.forming.PathReading.Piece;

/**
 * A line to follow in the plane: runs of bits, each with its length and its curvature, and the
 * corners between them. A bit is a short stretch with one curvature; a straight is a bit without.
 *
 * @param runs one for each part of the line that is drawn without lifting the pen
 */
public record Outline(List<Run> runs) {

    public Outline {
        runs = List.copyOf(runs);
    }

    /**
     * A part of the line, drawn without lifting the pen.
     *
     * @param closed whether it ends where it began
     * @param turning radians, corners included; ±2π for a closed line that does not cross itself
     * @param inside 1 where its inside is on the side of turns from x towards y, else −1
     */
    public record Run(
            List<Bit> bits, List<Corner> corners, boolean closed, double turning, int inside) {

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
            runs.add(LaidRun.drawn(drawn.pieces(), drawn.closed(), smallestRadiusMm));
        }
        return new Outline(runs);
    }

    /**
     * Arcs and straights one after the other, each going on in the direction of the last. The
     * inside of positive curvatures is the inside of the whole.
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
        return new Outline(List.of(LaidRun.signed(pieces, smallestRadiusMm)));
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
     * @param flangeInside whether the flange is on the inside of each run
     * @param worthACurvature straighter than this counts as straight, 1/mm
     */
    public List<Stretch> stretches(boolean flangeInside, double worthACurvature) {
        return runs.stream()
                .flatMap(
                        r ->
                                Stretch.of(
                                        r, flangeInside ? r.inside() : -r.inside(), worthACurvature)
                                        .stream())
                .toList();
    }
}
