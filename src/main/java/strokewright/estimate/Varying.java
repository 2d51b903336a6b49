package strokewright.estimate;

/**
 * Minutes of one piece or of one job from trial to trial: what a machine paces, and all the rest
 * with the job's factor in it.
 */
interface Varying {

    /** Adds to arrays with one entry a trial. */
    void add(Draws draws, double[] paced, double[] hand);
}
