package strokewright.estimate;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.math.BigDecimal;
import java.util.Currency;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import strokewright.costing.BuildUp;
import strokewright.costing.MarketPrice;
import strokewright.costing.PriceScheme;
import strokewright.quantity.Money;
import strokewright.quantity.Why;

/**
 * What a price each that the market pays leaves of one quantity. What is shown adds up to the cent:
 * the offer is the discounts, the commission and what is left; that is total cost, urgency and
 * profit.
 *
 * @param priceEach before tax
 * @param priceInStep what the scheme's rounding makes of it
 * @param ownPriceEach what the shop would ask
 * @param left of the offer after discounts and commission
 * @param profit negative for a loss
 * @param profitPercent of total cost; null where nothing costs anything
 * @param schemeProfitPercent what the scheme asks for
 * @param minimumOrder the least that the shop asks for an order, where the offer is under it
 * @param labourHours person-hours that the price is made from
 * @param machineHours the same at the machines
 * @param atSchemeProfit hours at which the scheme's profit would be left; null without hours
 * @param atNoProfit hours at which no profit would be left; null without hours
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record AtMarketPrice(
        int quantity,
        Money priceEach,
        Money priceInStep,
        Money ownPriceEach,
        Money offer,
        Money tradeDiscount,
        Money settlementDiscount,
        Money commission,
        Money left,
        Money total,
        Money urgency,
        Money profit,
        @Nullable Double profitPercent,
        double schemeProfitPercent,
        @Nullable Money minimumOrder,
        double labourHours,
        double machineHours,
        @Nullable HoursLeft atSchemeProfit,
        @Nullable HoursLeft atNoProfit,
        List<Why> why) {

    public AtMarketPrice {
        why = List.copyOf(why);
    }

    /**
     * Hours that may be taken, labour and machine in the proportion of the plan.
     *
     * @param share of the planned hours; 0 where metal and extras alone cost more than is left
     */
    public record HoursLeft(double share, double labourHours, double machineHours) {}

    static AtMarketPrice of(
            int quantity,
            BuildUp planned,
            MarketPrice market,
            double labourHours,
            double machineHours,
            ShopBook book,
            List<Why> why) {
        Currency currency = Objects.requireNonNull(book.currency());
        PriceScheme scheme = Objects.requireNonNull(book.priceScheme());
        Money offer = Money.rounded(market.offer(), currency);
        Money left = Money.rounded(market.left(), currency);
        List<Money> off =
                Cents.addingUp(
                        offer.minus(left),
                        market.tradeDiscount(),
                        market.settlementDiscount(),
                        market.commission());
        Money total = Money.rounded(planned.total(), currency);
        List<Money> gain = Cents.addingUp(left.minus(total), market.profit(), market.urgency());
        return new AtMarketPrice(
                quantity,
                Money.rounded(market.priceEach(), currency),
                Money.rounded(market.inStep(), currency),
                Money.rounded(planned.priceEach(), currency),
                offer,
                off.get(0),
                off.get(1),
                off.get(2),
                left,
                total,
                gain.get(1),
                gain.get(0),
                market.profitPercent() == null ? null : market.profitPercent().doubleValue(),
                scheme.profitPercent(),
                market.underMinimum() ? scheme.minimumOrder() : null,
                labourHours,
                machineHours,
                hours(market.shareAtProfit(), labourHours, machineHours),
                hours(market.shareAtNone(), labourHours, machineHours),
                why);
    }

    private static @Nullable HoursLeft hours(
            @Nullable BigDecimal share, double labourHours, double machineHours) {
        return share == null
                ? null
                : new HoursLeft(
                        share.doubleValue(),
                        share.doubleValue() * labourHours,
                        share.doubleValue() * machineHours);
    }
}
