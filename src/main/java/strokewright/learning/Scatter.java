package strokewright.learning;

/**
 * How jobs scatter about the mean of their kind, over all kinds, as jobs come in: each job against
 * the mean of those before it.
 */
final class Scatter {

    private static final double ASSUMED = 0.20;
    private static final double ASSUMED_CASES = 3;

    /** What all kinds together say of one of them counts as so many of its own jobs at most. */
    private static final double MOST_CASES = 8;

    private double squares = ASSUMED_CASES * ASSUMED * ASSUMED;
    private double cases = ASSUMED_CASES;

    /**
     * @param n jobs of its kind before this one
     * @param off y less their mean; one that is far off is left out
     */
    void add(int n, double off) {
        if (n > 0) {
            double most = Drift.FARTHEST * Drift.FARTHEST * squares / cases;
            double square = off * off * n / (n + 1);
            if (square <= most) {
                squares += square;
                cases++;
            }
        }
    }

    Drift.Beforehand known() {
        return new Drift.Beforehand(Math.sqrt(squares / cases), Math.min(cases, MOST_CASES));
    }
}
