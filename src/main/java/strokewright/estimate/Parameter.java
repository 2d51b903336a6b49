package strokewright.estimate;

import org.hipparchus.distribution.RealDistribution;
import org.hipparchus.distribution.continuous.BetaDistribution;
import org.hipparchus.distribution.continuous.TriangularDistribution;
import org.jspecify.annotations.Nullable;

/**
 * One figure that nobody knows exactly. A log-normal one is a factor with median 1; a three-point
 * one is the figure itself.
 *
 * @param name in words, the same for whatever moves together
 * @param sigma of a log-normal one: standard deviation of the natural logarithm
 */
record Parameter(
        String name, Spread.Kind kind, double sigma, double low, double mode, double high) {

    static Parameter logNormal(String name, double sigma) {
        return new Parameter(name, Spread.Kind.LOG_NORMAL, sigma, 0, 1, 0);
    }

    /** Minutes per unit of a time standard, or the factor on them. */
    static Parameter of(String name, @Nullable Spread spread, double minutes, double otherwise) {
        if (spread == null) {
            return logNormal(name, otherwise);
        }
        return spread.kind() == Spread.Kind.LOG_NORMAL
                ? logNormal(name, spread.sigma())
                : new Parameter(name, spread.kind(), 0, spread.low(), minutes, spread.high());
    }

    boolean isFactor() {
        return kind == Spread.Kind.LOG_NORMAL;
    }

    boolean isCertain() {
        return isFactor() && sigma == 0;
    }

    /**
     * The same shape on the interval from 0 to 1, whose quantiles are dear to reckon; null for a
     * log-normal one.
     *
     * <p>Beta of three-point estimates: α = 1 + 4(m − a)/(b − a), β = 1 + 4(b − m)/(b − a), Clark
     * 1962, Operations Research 10(3).
     */
    @Nullable RealDistribution onUnit() {
        double m = (mode - low) / (high - low);
        return switch (kind) {
            case LOG_NORMAL -> null;
            case TRIANGULAR -> new TriangularDistribution(0, m, 1);
            case BETA -> new BetaDistribution(1 + 4 * m, 1 + 4 * (1 - m));
        };
    }

    /** At so many standard deviations of a normal figure: the quantile with the same chance. */
    double at(double z) {
        if (isFactor()) {
            return StrictMath.exp(sigma * z);
        }
        return low + (high - low) * onUnit().inverseCumulativeProbability(NormalScores.below(z));
    }
}
