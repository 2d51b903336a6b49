package strokewright.estimate;

/** What each parameter is in each trial. */
interface Draws {

    int trials();

    /** One entry a trial; not to be changed. */
    default double[] of(Parameter parameter) {
        return of(parameter, 1);
    }

    /** The same to a power, for factors. */
    double[] of(Parameter parameter, double exponent);
}
