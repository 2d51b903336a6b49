package strokewright.quote;

import java.util.List;
import strokewright.quantity.Money;

/**
 * A quote that nobody has issued yet, as it was saved last.
 *
 * @param edition that it was saved with
 * @param methodVersion that it was saved with
 * @param net of all items but options, before tax
 */
public record OpenDraft(
        QuoteNumber number,
        int revision,
        String customer,
        String title,
        int edition,
        int methodVersion,
        Money net,
        Terms terms,
        List<PricedItem> items) {

    public OpenDraft {
        items = List.copyOf(items);
    }
}
