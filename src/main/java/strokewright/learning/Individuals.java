package strokewright.learning;

/**
 * Chart of single values. Limits are three standard deviations off, judged by how far neighbours
 * lie apart, so that a slow drift does not widen them.
 *
 * @param movingRange mean difference of neighbours
 */
record Individuals(double centre, double movingRange) {

    /** Mean range of two normal values in standard deviations: 2/√π, rounded as in the tables. */
    private static final double D2 = 1.128;

    /** Upper limit of moving ranges of two in mean ranges. */
    private static final double D4 = 3.267;

    /** Of two values and more. */
    static Individuals of(double[] values) {
        double ranges = 0;
        for (int i = 1; i < values.length; i++) {
            ranges += Math.abs(values[i] - values[i - 1]);
        }
        return new Individuals(Sample.of(values).mean(), ranges / (values.length - 1));
    }

    double sigma() {
        return movingRange / D2;
    }

    double lower() {
        return centre - 3 * sigma();
    }

    double upper() {
        return centre + 3 * sigma();
    }

    double mostRange() {
        return D4 * movingRange;
    }
}
