package strokewright.forming;

/**
 * How many passes a strain takes. Two things hold what one pass can put in: the bite b (largest
 * strain without wrinkling or marking) and the plastic work W that the strokes of one pass give per
 * sheet area. The form is assumed; b and W are measured with test strips.
 */
public final class Passes {

    private Passes() {}

    /**
     * N = ∫₀^ε max(1/b, t·σ(x)/W) dx with σ(x) = K·(ε₀ + x)ⁿ, in closed form because σ only rises.
     *
     * @param strain true strain to reach, ε ≥ 0
     * @param offset ε₀, the strain that the metal has behind it
     * @param k strength coefficient K, MPa
     * @param n hardening exponent
     * @param thickness mm
     * @param workPerArea W, N/mm
     * @param bite b, true strain
     * @return passes, not yet rounded up
     */
    public static double needed(
            double strain,
            double offset,
            double k,
            double n,
            double thickness,
            double workPerArea,
            double bite) {
        double byBite = heldByBite(strain, offset, k, n, thickness, workPerArea, bite);
        double byWork =
                thickness
                        * k
                        / (workPerArea * (n + 1))
                        * (Math.pow(offset + strain, n + 1) - Math.pow(offset + byBite, n + 1));
        return byBite / bite + byWork;
    }

    /**
     * The other way round: the strain that so many passes reach, the x at which N(x) is their
     * number.
     *
     * @param passes whole or not, ≥ 0
     */
    public static double strainAfter(
            double passes,
            double offset,
            double k,
            double n,
            double thickness,
            double workPerArea,
            double bite) {
        double parting =
                heldByBite(Double.POSITIVE_INFINITY, offset, k, n, thickness, workPerArea, bite);
        if (passes <= parting / bite) {
            return passes * bite;
        }
        double work = (passes - parting / bite) * workPerArea * (n + 1) / (thickness * k);
        return Math.pow(Math.pow(offset + parting, n + 1) + work, 1 / (n + 1)) - offset;
    }

    /** ε_c, the first part of the strain: there the bite holds a pass back, after it the work. */
    public static double heldByBite(
            double strain,
            double offset,
            double k,
            double n,
            double thickness,
            double workPerArea,
            double bite) {
        double parting = Math.pow(workPerArea / (thickness * bite * k), 1 / n) - offset;
        return Math.max(0, Math.min(strain, parting));
    }
}
