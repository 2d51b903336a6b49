package strokewright.estimate;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.hipparchus.distribution.RealDistribution;
import org.hipparchus.distribution.continuous.NormalDistribution;

/**
 * Standard normal figures in the middle of strata of equal chance. The library reckons without the
 * processor's own functions, so that they are the same everywhere.
 */
final class NormalScores {

    static final double P10 = -1.2815515655446004;
    static final double P90 = 1.2815515655446004;

    private static final RealDistribution NORMAL = new NormalDistribution();
    private static final int MOST_KEPT = 8;
    private static final Map<Integer, double[]> KEPT = new ConcurrentHashMap<>();

    private NormalScores() {}

    /** Chance of less than z. */
    static double below(double z) {
        return NORMAL.cumulativeProbability(z);
    }

    /** Rising; not to be changed. */
    static double[] of(int strata) {
        double[] kept = KEPT.get(strata);
        if (kept != null) {
            return kept;
        }
        double[] scores = new double[strata];
        for (int i = 0; i < (strata + 1) / 2; i++) {
            double z = i == strata - 1 - i ? 0 : score((i + 0.5) / strata);
            scores[i] = z;
            scores[strata - 1 - i] = -z;
        }
        if (KEPT.size() < MOST_KEPT) {
            KEPT.put(strata, scores);
        }
        return scores;
    }

    private static double score(double chance) {
        return NORMAL.inverseCumulativeProbability(chance);
    }
}
