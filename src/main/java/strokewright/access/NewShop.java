package strokewright.access;

import java.time.ZoneId;
import java.util.Currency;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Faults;

/**
 * What has to be known to open a shop; nothing of it is checked yet.
 *
 * @param currency ISO 4217, such as EUR
 * @param timeZone of the tz database, such as Europe/Berlin: says in which year a quote is made
 */
public record NewShop(@Nullable String name, @Nullable String currency, @Nullable String timeZone) {

    Faults faults(Faults faults) {
        faults.text("/name", name);
        if (Currency.getAvailableCurrencies().stream()
                .noneMatch(known -> known.getCurrencyCode().equals(currency))) {
            faults.add("/currency", "must be a currency code such as EUR");
        }
        if (timeZone == null || !ZoneId.getAvailableZoneIds().contains(timeZone)) {
            faults.add("/timeZone", "must be a time zone such as Europe/Berlin");
        }
        return faults;
    }
}
