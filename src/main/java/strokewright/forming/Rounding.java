package strokewright.forming;

/** Counting whole things: the next whole number up, forgiving the last digits of a double. */
final class Rounding {

    private Rounding() {}

    static double up(double value) {
        return Math.ceil(value - 1e-9);
    }
}
