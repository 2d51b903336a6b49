package strokewright.estimate;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.Comparator;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Operation.CurveEdge;
import strokewright.estimate.Operation.Dish;
import strokewright.estimate.Operation.FollowOutline;
import strokewright.estimate.Operation.TurnFlange;
import strokewright.estimate.TakeOff.Part;
import strokewright.forming.Outline;

/**
 * The size that an item is known by, as "Ø 600" or "1200 long".
 *
 * @param mm as it is in the take-off
 * @param part index of the part that it is taken from
 */
public record MainSize(Kind kind, double mm, int part) {

    /** From here on something is round rather than bent; drawings round to the half degree. */
    private static final double ROUND_RAD = Math.toRadians(179.5);

    /** What is measured. */
    public enum Kind {
        /** Of what runs half round or more, at its heel or bend line; of a dish its mouth. */
        @JsonProperty("diameter")
        DIAMETER,
        /** Twice the largest radius of what is bent less far. */
        @JsonProperty("bend")
        BEND,
        /** The larger extent of an outline. */
        @JsonProperty("outline")
        OUTLINE,
        /** The longer side of a blank, or along a fold. */
        @JsonProperty("length")
        LENGTH
    }

    /**
     * The largest diameter: of what runs at least half round, else of any bend, else the extent of
     * an outline; else the longest blank.
     *
     * @param only index of the part to look at; all when null
     */
    public static Optional<MainSize> of(TakeOff takeOff, @Nullable Integer only, ShopBook book) {
        return diameter(takeOff, only, book).or(() -> length(takeOff, only));
    }

    /** Without the longest blank. */
    static Optional<MainSize> diameter(TakeOff takeOff, @Nullable Integer only, ShopBook book) {
        return Stream.of(Kind.DIAMETER, Kind.BEND, Kind.OUTLINE)
                .map(kind -> largest(kind, takeOff, only, book))
                .flatMap(Optional::stream)
                .findFirst();
    }

    private static Optional<MainSize> largest(
            Kind kind, TakeOff takeOff, @Nullable Integer only, ShopBook book) {
        return parts(takeOff, only)
                .mapToObj(
                        i ->
                                takeOff.parts().get(i).operations().stream()
                                        .map(o -> size(o, i, book))
                                        .flatMap(Optional::stream))
                .flatMap(sizes -> sizes)
                .filter(size -> size.kind == kind)
                .max(Comparator.comparingDouble(MainSize::mm));
    }

    private static IntStream parts(TakeOff takeOff, @Nullable Integer only) {
        return only == null ? IntStream.range(0, takeOff.parts().size()) : IntStream.of(only);
    }

    private static Optional<MainSize> size(Operation operation, int part, ShopBook book) {
        if (operation instanceof Dish dish) {
            return Optional.of(new MainSize(Kind.DIAMETER, dish.diameterMm(), part));
        }
        if (operation instanceof TurnFlange flange) {
            return Optional.of(
                    bent(2 * flange.radiusMm(), Math.toRadians(flange.sweepDeg()), part));
        }
        if (operation instanceof CurveEdge edge) {
            return Optional.of(bent(2 * edge.radiusMm(), edge.lengthMm() / edge.radiusMm(), part));
        }
        if (operation instanceof FollowOutline follow) {
            double extent =
                    extent(LaidOutline.outline(follow, book.times().smallestWorkableRadiusMm()));
            return extent > 0
                    ? Optional.of(new MainSize(Kind.OUTLINE, extent, part))
                    : Optional.empty();
        }
        return Optional.empty();
    }

    private static MainSize bent(double diameter, double sweep, int part) {
        return new MainSize(sweep >= ROUND_RAD ? Kind.DIAMETER : Kind.BEND, diameter, part);
    }

    private static double extent(Outline outline) {
        double[] x = places(outline, true);
        double[] y = places(outline, false);
        return Math.max(x[1] - x[0], y[1] - y[0]);
    }

    /** Smallest and largest. */
    private static double[] places(Outline outline, boolean x) {
        double[] bounds = {Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY};
        for (Outline.Run run : outline.runs()) {
            for (Outline.Bit bit : run.bits()) {
                double from = x ? bit.x() : bit.y();
                double to = x ? bit.toX() : bit.toY();
                bounds[0] = Math.min(bounds[0], Math.min(from, to));
                bounds[1] = Math.max(bounds[1], Math.max(from, to));
            }
        }
        return bounds;
    }

    /** Of the parts that can be made longer: those that nothing round is worked on. */
    static Optional<MainSize> length(TakeOff takeOff, @Nullable Integer only) {
        return parts(takeOff, only)
                .filter(i -> lengthMm(takeOff.parts().get(i)) > 0)
                .mapToObj(i -> new MainSize(Kind.LENGTH, lengthMm(takeOff.parts().get(i)), i))
                .max(Comparator.comparingDouble(MainSize::mm));
    }

    /** The longer side of the blank, else along the fold; 0 where neither can be made longer. */
    static double lengthMm(Part part) {
        boolean bound =
                part.operations().stream()
                        .anyMatch(
                                o ->
                                        o instanceof Dish
                                                || o instanceof TurnFlange
                                                || o instanceof FollowOutline);
        if (bound) {
            return 0;
        }
        if (part.blank() != null) {
            return part.blank().longerMm();
        }
        return part.fold() == null ? 0 : part.fold().lengthMm();
    }
}
