package strokewright.estimate;

import java.util.List;
import strokewright.quantity.Fault;

/** What a usable shop book looks like. */
public final class ShopBookCheck {

    private ShopBookCheck() {}

    /** Every fault, each with its pointer and what would be right; empty when it can be used. */
    public static List<Fault> faults(ShopBook book) {
        throw new UnsupportedOperationException("not yet");
    }
}
