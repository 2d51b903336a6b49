package strokewright.learning;

import java.util.Arrays;

/**
 * Values by their mean and the sum of squares about it, so that many digits that all values have in
 * common cost no accuracy.
 */
record Sample(int n, double mean, double squares) {

    /** Of one value and more: twice through them, then corrected (Chan, Golub, LeVeque 1983). */
    static Sample of(double[] values) {
        double first = values[0];
        double mean = first + Arrays.stream(values).map(v -> v - first).average().orElseThrow();
        double off = 0;
        double squares = 0;
        for (double value : values) {
            off += value - mean;
            squares += (value - mean) * (value - mean);
        }
        return new Sample(values.length, mean, squares - off * off / values.length);
    }

    /** Of two values and more. */
    double deviation() {
        return Math.sqrt(squares / (n - 1));
    }
}
