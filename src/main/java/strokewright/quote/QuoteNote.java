package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.Instant;
import java.util.Currency;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Faults;
import strokewright.quantity.Money;

/**
 * What was said or agreed on the way to an order; written down once and never changed.
 *
 * @param at given by the service's clock
 * @param by given by the service
 * @param toldNet a price before tax that was told, as on the phone
 * @param toldTo whom
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record QuoteNote(
        @Nullable Instant at,
        @Nullable String by,
        @Nullable String text,
        @Nullable Money toldNet,
        @Nullable String toldTo) {

    /**
     * @param shops the currency of the shop
     */
    Faults faults(Currency shops) {
        Faults faults = new Faults();
        if (at != null) {
            faults.add("/at", "is given by the service: leave it out");
        }
        if (by != null) {
            faults.add("/by", "is given by the service: leave it out");
        }
        if (toldNet == null && (text == null || text.isBlank())) {
            faults.add("/text", "is missing: what is to be noted, or a told price");
        }
        if (toldNet == null && toldTo != null) {
            faults.add("/toldNet", "is missing: the price that was told");
        }
        faults.payableIfGiven("/toldNet", toldNet, shops);
        Terms.prose(faults, "/text", text);
        faults.textIfGiven("/toldTo", toldTo);
        return faults;
    }

    /** What is kept as its text: of a told price alone the fact. */
    String kept() {
        return text == null || text.isBlank() ? "Price told" : text.strip();
    }
}
