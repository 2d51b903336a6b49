package strokewright.estimate;

import strokewright.quantity.InvalidInput;

/** Take-off and shop book in, estimate out. */
public final class Estimating {

    private Estimating() {}

    /**
     * @throws InvalidInput naming every fault of the take-off, if it cannot be worked with
     */
    public static Estimate estimate(TakeOff takeOff, ShopBook book) {
        throw new UnsupportedOperationException("not yet");
    }
}
