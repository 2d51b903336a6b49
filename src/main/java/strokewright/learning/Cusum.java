package strokewright.learning;

/**
 * Sums of what values lie above and below their target by more than an allowance, never under zero.
 * Page 1954, Biometrika 41.
 */
final class Cusum {

    private final double target;
    private final double allowance;
    private final double limit;
    private double up;
    private double down;
    private int seen;
    private int upSince;
    private int downSince;

    /**
     * @param allowance half the shift that is looked for
     * @param limit a sum beyond it is a signal
     */
    Cusum(double target, double allowance, double limit) {
        this.target = target;
        this.allowance = allowance;
        this.limit = limit;
    }

    void add(double value) {
        if (up == 0) {
            upSince = seen;
        }
        if (down == 0) {
            downSince = seen;
        }
        up = Math.max(0, up + value - target - allowance);
        down = Math.max(0, down + target - value - allowance);
        seen++;
    }

    /** From the next value on as if nothing had been. */
    void restart() {
        up = 0;
        down = 0;
    }

    double up() {
        return up;
    }

    double down() {
        return down;
    }

    boolean signals() {
        return up > limit || down > limit;
    }

    /** How full the fuller sum is; over one is a signal. */
    double share() {
        return Math.max(up, down) / limit;
    }

    /** The value with which the fuller sum began to rise, counted from zero. */
    int since() {
        return up >= down ? upSince : downSince;
    }
}
