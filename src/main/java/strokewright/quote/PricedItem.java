package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Optional;
import strokewright.estimate.Estimate;
import strokewright.estimate.Route;
import strokewright.estimate.TakeOff;

/**
 * One item of a revision with what it was reckoned to.
 *
 * @param position counted from one
 * @param option offered beside the quote; not in its total
 * @param alternatives other routes of it, not priced for the customer
 */
public record PricedItem(
        int position,
        String title,
        boolean option,
        TakeOff takeOff,
        Estimate estimate,
        @JsonInclude(JsonInclude.Include.NON_EMPTY) List<Route> alternatives) {

    public PricedItem {
        alternatives = alternatives == null ? List.of() : List.copyOf(alternatives);
    }

    /** The same, reckoned otherwise. */
    public PricedItem with(Estimate other) {
        return new PricedItem(position, title, option, takeOff, other, alternatives);
    }

    /** What is quoted: the main quantity's figures. */
    public Estimate.ForQuantity main() {
        return at(takeOff.mainQuantity())
                .orElseThrow(() -> new IllegalStateException("no main quantity in " + title));
    }

    /** The figures of a quantity; empty of one that was not priced. */
    public Optional<Estimate.ForQuantity> at(int quantity) {
        return estimate.quantities().stream().filter(q -> q.quantity() == quantity).findFirst();
    }
}
