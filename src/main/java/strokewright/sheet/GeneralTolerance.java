package strokewright.sheet;

import java.util.OptionalDouble;

/**
 * General tolerances of ISO 2768-1:1989 by class: what a size without a tolerance of its own may be
 * off, plus or minus. A step ends at its upper limit: 6 mm belong to "over 3 up to 6", anything
 * above to "over 6 up to 30". Below 0.5 mm and above the last step there is none: the tolerance has
 * to be stated beside the size.
 *
 * <p>Tables 1 (linear sizes) and 2 (external radii and chamfer heights) were seen in public copies;
 * table 3 (angles) is quoted from memory.
 */
public enum GeneralTolerance {
    /** Fine. */
    F(
            new double[] {0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, Double.NaN},
            new double[] {0.2, 0.5, 1},
            new double[] {60, 30, 20, 10, 5}),
    /** Medium. */
    M(
            new double[] {0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2},
            new double[] {0.2, 0.5, 1},
            new double[] {60, 30, 20, 10, 5}),
    /** Coarse. */
    C(
            new double[] {0.2, 0.3, 0.5, 0.8, 1.2, 2, 3, 4},
            new double[] {0.4, 1, 2},
            new double[] {90, 60, 30, 15, 10}),
    /** Very coarse. */
    V(
            new double[] {Double.NaN, 0.5, 1, 1.5, 2.5, 4, 6, 8},
            new double[] {0.4, 1, 2},
            new double[] {180, 120, 60, 30, 20});

    /** The smallest size, mm, that the tables hold. */
    public static final double SMALLEST_MM = 0.5;

    /** The largest linear size, mm, that any class holds; class f ends at 2000. */
    public static final double LARGEST_MM = 4000;

    private static final double[] LINEAR_UP_TO = {3, 6, 30, 120, 400, 1000, 2000, LARGEST_MM};
    private static final double[] EDGE_UP_TO = {3, 6, Double.POSITIVE_INFINITY};
    private static final double[] ANGLE_UP_TO = {10, 50, 120, 400, Double.POSITIVE_INFINITY};

    private final double[] linear;
    private final double[] edge;
    private final double[] angleMinutes;

    GeneralTolerance(double[] linear, double[] edge, double[] angleMinutes) {
        this.linear = linear;
        this.edge = edge;
        this.angleMinutes = angleMinutes;
    }

    /**
     * Table 1: lengths, widths, diameters, distances, inside radii.
     *
     * @return ± mm; empty where the table has none for this class and size
     */
    public OptionalDouble linearMm(double nominalMm) {
        return nominalMm >= SMALLEST_MM
                ? step(LINEAR_UP_TO, linear, nominalMm)
                : OptionalDouble.empty();
    }

    /**
     * What linear sizes of table 1 have to be more than, mm; for most classes 0.5 itself counts.
     */
    public double linearFromMm() {
        return Double.isNaN(linear[0]) ? LINEAR_UP_TO[0] : SMALLEST_MM;
    }

    /** The largest linear size of table 1, mm. */
    public double linearUpToMm() {
        int last = linear.length - 1;
        return Double.isNaN(linear[last]) ? LINEAR_UP_TO[last - 1] : LINEAR_UP_TO[last];
    }

    /**
     * Table 2: external radii and chamfer heights.
     *
     * @return ± mm; empty below 0.5 mm
     */
    public OptionalDouble edgeMm(double nominalMm) {
        return nominalMm >= SMALLEST_MM
                ? step(EDGE_UP_TO, edge, nominalMm)
                : OptionalDouble.empty();
    }

    /**
     * Table 3: angles, by the shorter of their legs.
     *
     * @return ± degrees; empty without a leg
     */
    public OptionalDouble angleDeg(double shorterLegMm) {
        OptionalDouble minutes =
                shorterLegMm > 0
                        ? step(ANGLE_UP_TO, angleMinutes, shorterLegMm)
                        : OptionalDouble.empty();
        return minutes.isPresent()
                ? OptionalDouble.of(minutes.getAsDouble() / 60)
                : OptionalDouble.empty();
    }

    private static OptionalDouble step(double[] upTo, double[] tolerances, double size) {
        for (int i = 0; i < upTo.length; i++) {
            if (size <= upTo[i]) {
                return Double.isNaN(tolerances[i])
                        ? OptionalDouble.empty()
                        : OptionalDouble.of(tolerances[i]);
            }
        }
        return OptionalDouble.empty();
    }
}
