package strokewright.quote;

import strokewright.estimate.Estimate;
import strokewright.estimate.TakeOff;

/**
 * One item of a revision with what it was reckoned to.
 *
 * @param position counted from one
 * @param option offered beside the quote; not in its total
 */
public record PricedItem(
        int position, String title, boolean option, TakeOff takeOff, Estimate estimate) {

    /** What is quoted: the main quantity's figures. */
    Estimate.ForQuantity main() {
        return estimate.quantities().stream()
                .filter(q -> q.quantity() == takeOff.mainQuantity())
                .findFirst()
                .orElseThrow(() -> new IllegalStateException("no main quantity in " + title));
    }
}
