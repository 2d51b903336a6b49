package strokewright.forming;

/**
 * Diameters of flat discs for round parts that the operations themselves do not state. Two rules:
 *
 * <ul>
 *   <li><b>developed</b>: every line from the middle outwards keeps its length, as a bend's neutral
 *       line does (common practice, no source); it agrees with the rows of a turned flange, whose
 *       flat edge lies at radius + height;
 *   <li><b>equal area</b>: the sheet keeps its thickness everywhere (published: blank formulas of
 *       deep drawing, e.g. Romanovski). It is smaller, since a gathered flange thickens.
 * </ul>
 *
 * The developed disc is the larger one: what is too much is trimmed, what is missing is scrap.
 */
public final class FlatDisc {

    private FlatDisc() {}

    /** Developed: d + 2 h, however far the flange is turned, since h runs along it. */
    public static double ofFlangedDiscMm(double diameterMm, double flangeMm) {
        return diameterMm + 2 * flangeMm;
    }

    /** √(d² + 4 d h), for a flange turned up by 90°. */
    public static double equalAreaOfFlangedDiscMm(double diameterMm, double flangeMm) {
        return Math.sqrt(diameterMm * diameterMm + 4 * diameterMm * flangeMm);
    }

    /** A bowl whose flat collar keeps its size while the middle is stretched: d + 2 w. */
    public static double ofCollaredBowlMm(double diameterMm, double collarMm) {
        return diameterMm + 2 * collarMm;
    }

    /** √((d + 2 w)² + 4 H²), if the collar were drawn in and nothing stretched. */
    public static double equalAreaOfCollaredBowlMm(
            double diameterMm, double depthMm, double collarMm) {
        return Math.hypot(diameterMm + 2 * collarMm, 2 * depthMm);
    }
}
