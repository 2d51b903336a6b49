package strokewright.learning;

/**
 * Exponentially weighted mean of values: z = λx + (1 − λ) of the one before. Roberts 1959,
 * Technometrics 1.
 */
final class Ewma {

    private final double lambda;
    private final double target;
    private double mean;
    private double forgotten = 1;

    Ewma(double lambda, double target) {
        this.lambda = lambda;
        this.target = target;
        this.mean = target;
    }

    double add(double value) {
        mean = lambda * value + (1 - lambda) * mean;
        forgotten *= (1 - lambda) * (1 - lambda);
        return mean;
    }

    double mean() {
        return mean;
    }

    /** Standard deviation of the mean so far, of values with this one. */
    double sigma(double ofOne) {
        return ofOne * Math.sqrt(lambda / (2 - lambda) * (1 - forgotten));
    }

    /** Whether it is so many of its standard deviations off the target. */
    boolean isOff(double widths, double sigma) {
        return Math.abs(mean - target) > widths * sigma(sigma);
    }
}
