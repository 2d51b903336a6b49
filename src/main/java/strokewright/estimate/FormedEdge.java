package strokewright.estimate;

import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Operation.CurveEdge;
import strokewright.estimate.Operation.Dish;
import strokewright.estimate.Operation.FollowOutline;
import strokewright.estimate.Operation.Formed;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.Operation.TurnFlange;
import strokewright.estimate.ShopBook.Times;
import strokewright.forming.Bend;
import strokewright.forming.Edges;
import strokewright.forming.FormingFormula;
import strokewright.forming.Outline;
import strokewright.forming.Stretch;
import strokewright.quantity.Working;

/**
 * An edge that one forming operation makes, as other work on it sees it; lengths, joints and
 * stations of all repeats.
 *
 * @param lengthMm along heel, bend line, outline or rim
 * @param stretchedMm how much of it is stretched, and how far
 * @param joints where it closes on itself; the repeats of a curved edge are flanges of one strip
 * @param openEnds ends that are run out
 * @param heightMm of the flange; 0 for a rim
 * @param radiiMm that a template is cut to
 * @param stations that the final check looks at
 */
record FormedEdge(
        Formed work,
        double lengthMm,
        List<Stretched> stretchedMm,
        int joints,
        int openEnds,
        double heightMm,
        List<Double> radiiMm,
        double stations) {

    /** From here on a curve closes on itself; drawings round to the half degree. */
    static final double CLOSED_DEG = 359.5;

    /** A stretch of more radii is no row of arcs but a free curve, which has one template. */
    private static final int MOST_RADII = 4;

    /**
     * @param strain of its outermost row
     */
    record Stretched(double lengthMm, double strain) {}

    /** Null where the operation makes no edge. */
    static @Nullable FormedEdge of(Formed work, Times times) {
        if (work instanceof CurveEdge edge) {
            return of(edge, times);
        }
        if (work instanceof TurnFlange flange) {
            return of(flange, times);
        }
        if (work instanceof FollowOutline follow) {
            return of(follow, LaidOutline.of(follow, times), times);
        }
        return work instanceof Dish dish ? of(dish, times) : null;
    }

    static boolean closes(CurveEdge edge) {
        return Math.toDegrees(edge.lengthMm() / edge.radiusMm()) >= CLOSED_DEG;
    }

    private static FormedEdge of(CurveEdge edge, Times times) {
        Edges.CurvedEdge shape =
                new Edges.CurvedEdge(
                        edge.sense() == Sense.SHRINK,
                        edge.lengthMm(),
                        edge.radiusMm(),
                        edge.startRadiusMm() == null ? 0 : 1 / edge.startRadiusMm(),
                        edge.heightMm());
        double length = edge.lengthMm() * edge.count();
        boolean closes = closes(edge);
        return new FormedEdge(
                edge,
                length,
                stretched(edge.sense(), length, shape.edgeStrain(edge.heightMm(), edge.radiusMm())),
                closes ? 1 : 0,
                closes ? 0 : 2,
                edge.heightMm(),
                List.of(edge.radiusMm()),
                edge.count() * stations(edge.lengthMm(), times.arcStationMm()));
    }

    /** On a disc or a panel: it has no end to be run out and nothing to be joined. */
    private static FormedEdge of(TurnFlange flange, Times times) {
        double sweep = Math.toRadians(flange.sweepDeg());
        Edges.TurnedFlange shape =
                new Edges.TurnedFlange(
                        flange.sense() == Sense.SHRINK,
                        flange.radiusMm(),
                        flange.heightMm(),
                        Math.toRadians(flange.angleDeg()),
                        sweep);
        double one = sweep * flange.radiusMm();
        return new FormedEdge(
                flange,
                one * flange.count(),
                stretched(
                        flange.sense(),
                        one * flange.count(),
                        shape.edgeStrain(flange.heightMm(), flange.radiusMm())),
                0,
                0,
                flange.heightMm(),
                List.of(flange.radiusMm()),
                flange.count() * stations(one, times.arcStationMm()));
    }

    private static FormedEdge of(FollowOutline follow, LaidOutline laid, Times times) {
        int count = follow.count();
        double one = laid.outline().lengthMm();
        int closed = (int) laid.outline().runs().stream().filter(Outline.Run::closed).count();
        return new FormedEdge(
                follow,
                one * count,
                laid.stretches().stream()
                        .filter(s -> !s.shrink())
                        .map(
                                s ->
                                        new Stretched(
                                                s.bentMm() * count,
                                                new Edges.OutlinedEdge(s, follow.heightMm())
                                                        .strainAt(follow.heightMm())))
                        .toList(),
                closed * count,
                2 * (laid.outline().runs().size() - closed) * count,
                follow.heightMm(),
                laid.stretches().stream().flatMap(s -> radii(s).stream()).toList(),
                count * stations(one, times.outlineStationMm()));
    }

    private static List<Double> radii(Stretch stretch) {
        List<Bend> bends = stretch.bends();
        return bends.size() > MOST_RADII
                ? List.of(1 / stretch.tightest())
                : bends.stream().map(b -> 1 / b.curvature()).toList();
    }

    private static FormedEdge of(Dish dish, Times times) {
        Working aside = new Working();
        Edges.Cap cap = cap(dish, aside);
        return new FormedEdge(
                dish,
                Math.PI * dish.diameterMm() * dish.count(),
                List.of(),
                0,
                0,
                0,
                List.of(cap.sphereRadiusMm()),
                dish.count()
                        * FormingFormula.AREA_STATIONS.apply(
                                times.areaStationsAtLeast(),
                                cap.areaMm2(aside),
                                times.areaStationMm()));
    }

    static Edges.Cap cap(Dish dish, Working working) {
        return Edges.Cap.of(
                dish.diameterMm(), dish.depthMm(), dish.rimShare(), dish.trimMm(), working);
    }

    private static List<Stretched> stretched(Sense sense, double lengthMm, double strain) {
        return sense == Sense.STRETCH ? List.of(new Stretched(lengthMm, strain)) : List.of();
    }

    private static double stations(double lengthMm, double stationMm) {
        return FormingFormula.ARC_STATIONS.apply(lengthMm, stationMm);
    }
}
