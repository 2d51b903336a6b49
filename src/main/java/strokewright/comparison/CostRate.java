package strokewright.comparison;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Currency;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Faults;
import strokewright.quantity.Money;

/**
 * What an hour of a person costs the shop from a day on.
 *
 * @param validFrom the first day worked that it is for
 * @param perHour all that a productive hour costs; null where from that day on nothing is said, so
 *     that the rate of the work centre counts
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record CostRate(@Nullable LocalDate validFrom, @Nullable Money perHour) {

    private static final BigDecimal MOST = BigDecimal.valueOf(100_000);
    private static final int MOST_DIGITS = 4;
    private static final LocalDate FIRST = LocalDate.of(2000, 1, 1);
    private static final LocalDate LAST = LocalDate.of(2999, 12, 31);

    Faults faults(Currency currency) {
        Faults faults = new Faults();
        if (faults.present("/validFrom", validFrom, "the first day that it is for")
                && (validFrom.isBefore(FIRST) || validFrom.isAfter(LAST))) {
            faults.add("/validFrom", "must be from " + FIRST + " to " + LAST);
        }
        if (perHour != null) {
            if (!perHour.currency().equals(currency)) {
                faults.add("/perHour/currency", "must be the shop's: " + currency);
            }
            if (perHour.amount().signum() < 0 || perHour.amount().compareTo(MOST) > 0) {
                faults.add("/perHour", "must be 0 to 100,000 an hour");
            } else if (perHour.amount().stripTrailingZeros().scale() > MOST_DIGITS) {
                faults.add("/perHour", "has more than 4 digits after the point");
            }
        }
        return faults;
    }
}
