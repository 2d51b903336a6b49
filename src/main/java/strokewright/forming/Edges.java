package strokewright.forming;

import static strokewright.forming.FormingFormula.*;
import static strokewright.quantity.Why.Input.computed;
import static strokewright.quantity.Why.Input.drawing;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import strokewright.quantity.Formula;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/**
 * From the shape of an edge to its rows. Rows are counted from the edge inwards, a jaw apart; each
 * is judged at its own height, and a row with less strain than is worth working is left out, but
 * never the outermost. Lists have the outermost row last.
 */
public final class Edges {

    private Edges() {}

    /**
     * A flanged strip or angle curved in the plane of its flange; the heel keeps its length.
     *
     * @param shrink flange inside the curve (needs height &lt; radius) or outside
     * @param lengthMm heel length
     * @param radiusMm heel radius to reach
     * @param startCurvature 1 / heel radius to start from, 1/mm; 0 for a straight strip
     * @param heightMm flange height
     */
    public record CurvedEdge(
            boolean shrink,
            double lengthMm,
            double radiusMm,
            double startCurvature,
            double heightMm) {

        public List<Row> rows(double jawMm, double minimumStrain, Working working) {
            return Edges.rows(
                    heights(heightMm, jawMm, minimumStrain, y -> edgeStrain(y, radiusMm)),
                    y ->
                            working.figure(
                                    "strains",
                                    strainFormula(),
                                    drawing("y", y, "mm"),
                                    drawing("R", radiusMm, "mm"),
                                    drawing("k₀", startCurvature, "1/mm")),
                    y -> lengthMm);
        }

        /** Strain at the outermost row of a flange of another height at another radius. */
        public double edgeStrain(double height, double radius) {
            return strainFormula().apply(height, radius, startCurvature);
        }

        public double bandMm2() {
            return lengthMm * heightMm;
        }

        private Formula strainFormula() {
            return shrink ? CURVE_EDGE_SHRINK_STRAIN : CURVE_EDGE_STRETCH_STRAIN;
        }
    }

    /**
     * A stretch of an outline with a flange along it.
     *
     * @param heightMm flange height
     */
    public record OutlinedEdge(Stretch stretch, double heightMm) {

        /** Heights of the rows, judged where the outline is tightest; outermost last. */
        public List<Double> heights(double jawMm, double minimumStrain) {
            return Edges.heights(heightMm, jawMm, minimumStrain, this::strainAt);
        }

        /** The largest strain of each row, and the length of the stretch. */
        public List<Row> rows(List<Double> heights, Working working) {
            return Edges.rows(
                    heights,
                    y ->
                            working.figure(
                                    "strains",
                                    strainFormula(),
                                    drawing("y", y, "mm"),
                                    drawing("R", 1 / stretch.tightest(), "mm"),
                                    drawing("k₀", 0, "1/mm")),
                    y -> stretch.lengthMm());
        }

        /** Strain of the outermost row at another height. */
        public double strainAt(double height) {
            return strainFormula().apply(height, 1 / stretch.tightest(), 0);
        }

        /** Strain of the outermost row at one bit; infinite where the flange does not fit in. */
        public double strainAt(Outline.Bit bit) {
            double radius = 1 / Math.abs(bit.curvature());
            return stretch.shrink() && heightMm >= radius
                    ? Double.POSITIVE_INFINITY
                    : strainFormula().apply(heightMm, radius, 0);
        }

        public double bandMm2() {
            return stretch.bentMm() * heightMm;
        }

        private Formula strainFormula() {
            return stretch.shrink() ? CURVE_EDGE_SHRINK_STRAIN : CURVE_EDGE_STRETCH_STRAIN;
        }
    }

    /**
     * A flange turned up on a curved edge.
     *
     * @param shrink outer edge (shrink), or hole and concave edge (stretch, needs height &lt;
     *     radius)
     * @param radiusMm radius at the bend line
     * @param heightMm flange height
     * @param angle how far it is turned up, radians, at most π/2
     * @param sweep how far round it runs, radians
     */
    public record TurnedFlange(
            boolean shrink, double radiusMm, double heightMm, double angle, double sweep) {

        public List<Row> rows(double jawMm, double minimumStrain, Working working) {
            return Edges.rows(
                    heights(heightMm, jawMm, minimumStrain, y -> edgeStrain(y, radiusMm)),
                    y ->
                            working.figure(
                                    "strains",
                                    shrink ? TURN_FLANGE_SHRINK_STRAIN : TURN_FLANGE_STRETCH_STRAIN,
                                    drawing("y", y, "mm"),
                                    drawing("R", radiusMm, "mm"),
                                    drawing("α", angle, "rad")),
                    y ->
                            working.figure(
                                    "rowLengthMm",
                                    shrink ? TURN_FLANGE_SHRINK_LENGTH : TURN_FLANGE_STRETCH_LENGTH,
                                    drawing("θ", sweep, "rad"),
                                    drawing("R", radiusMm, "mm"),
                                    drawing("y", y, "mm")));
        }

        public double edgeStrain(double height, double radius) {
            return (shrink ? TURN_FLANGE_SHRINK_STRAIN : TURN_FLANGE_STRETCH_STRAIN)
                    .apply(height, radius, angle);
        }

        public double bendLineMm(Working working) {
            return working.figure(
                    "bendLineMm",
                    ARC_LENGTH,
                    drawing("θ", sweep, "rad"),
                    drawing("R", radiusMm, "mm"));
        }

        public double bandMm2() {
            double outside = shrink ? radiusMm + heightMm : radiusMm;
            double inside = shrink ? radiusMm : radiusMm - heightMm;
            return sweep / 2 * (outside * outside - inside * inside);
        }
    }

    /**
     * A disc dished to a spherical cap: the rim is gathered, the crown stretched.
     *
     * @param baseRadiusMm a, half the base diameter
     * @param depthMm H ≤ a
     * @param sphereRadiusMm R
     * @param meridianMm S, from the pole to the rim along the surface
     * @param rimShare s, how much of the shape comes from gathering the rim (assumed)
     * @param blankDiameterMm with trim
     */
    public record Cap(
            double baseRadiusMm,
            double depthMm,
            double sphereRadiusMm,
            double meridianMm,
            double rimShare,
            double blankDiameterMm) {

        /**
         * @param rimShare null to make the blank the one of equal area
         * @param trimMm added to the blank diameter
         */
        public static Cap of(
                double diameterMm,
                double depthMm,
                @org.jspecify.annotations.Nullable Double rimShare,
                double trimMm,
                Working working) {
            Input a = drawing("a", diameterMm / 2, "mm");
            Input h = drawing("H", depthMm, "mm");
            Input d = drawing("d", diameterMm, "mm");
            double sphere = working.figure("sphereRadiusMm", SPHERE_RADIUS, a, h);
            double meridian =
                    working.figure("meridianMm", MERIDIAN, computed("R", sphere, "mm"), a);
            Input s = computed("S", meridian, "mm");
            Input share =
                    rimShare != null
                            ? drawing("s", rimShare, "")
                            : computed("s", equalAreaShare(a, h, d, s, working), "");
            double blank =
                    working.figure(
                            "blankDiameterMm",
                            DISH_BLANK,
                            share,
                            s,
                            d,
                            drawing("trim", trimMm, "mm"));
            return new Cap(a.value(), depthMm, sphere, meridian, share.value(), blank);
        }

        private static double equalAreaShare(
                Input a, Input h, Input d, Input meridian, Working working) {
            double equalArea = working.figure("equalAreaBlankMm", EQUAL_AREA_BLANK, a, h);
            return working.figure(
                    "rimShare", EQUAL_AREA_RIM_SHARE, computed("D", equalArea, "mm"), d, meridian);
        }

        public List<Row> rings(double jawMm, double minimumStrain, Working working) {
            return Edges.rows(
                    heights(meridianMm, jawMm, minimumStrain, this::ringStrain),
                    u ->
                            working.figure(
                                    "strains",
                                    RIM_STRAIN,
                                    computed("s", rimShare, ""),
                                    computed("u", u, "mm"),
                                    computed("R", sphereRadiusMm, "mm")),
                    u -> working.figure("rowLengthMm", RING_LENGTH, computed("u", u, "mm")));
        }

        private double ringStrain(double u) {
            return RIM_STRAIN.apply(rimShare, u, sphereRadiusMm);
        }

        public double crownStrain(Working working) {
            return working.figure(
                    "crown.strain",
                    CROWN_STRAIN,
                    computed("s", rimShare, ""),
                    drawing("a", baseRadiusMm, "mm"),
                    drawing("H", depthMm, "mm"));
        }

        public double areaMm2(Working working) {
            return working.figure(
                    "crown.areaMm2",
                    CAP_AREA,
                    drawing("a", baseRadiusMm, "mm"),
                    drawing("H", depthMm, "mm"));
        }
    }

    /** Heights of the rows worth working, innermost first. */
    private static List<Double> heights(
            double height, double jaw, double minimumStrain, DoubleUnaryOperator strain) {
        List<Double> fromTheEdge = new ArrayList<>();
        for (int j = 0; height - j * jaw > 0; j++) {
            double y = height - j * jaw;
            if (j > 0 && !(strain.applyAsDouble(y) >= minimumStrain)) {
                break; // strain falls from the edge inwards
            }
            fromTheEdge.add(y);
        }
        Collections.reverse(fromTheEdge);
        return fromTheEdge;
    }

    private static List<Row> rows(
            List<Double> heights, DoubleUnaryOperator strain, DoubleUnaryOperator length) {
        return heights.stream()
                .map(y -> new Row(strain.applyAsDouble(y), length.applyAsDouble(y)))
                .toList();
    }
}
