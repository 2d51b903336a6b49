package strokewright.takeoff;

import java.math.MathContext;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.quantity.Money;

/**
 * How hours, cost and price of one quantity spread, for all of it.
 *
 * @param net what is left of the offer after discounts and commission, before tax
 */
public record Spreading(ForQuantity quantity, Band hours, Band cost, Band price, Money net) {

    /** Percentiles and mean of one figure. */
    public record Band(double p10, double p50, double mean, double p65, double p80, double p90) {

        private static Band of(Estimate.Band band) {
            return new Band(
                    value(band.p10()),
                    value(band.p50()),
                    value(band.mean()),
                    value(band.p65()),
                    value(band.p80()),
                    value(band.p90()));
        }

        private static double value(Money money) {
            return money.amount().doubleValue();
        }

        Band each(int pieces) {
            return new Band(
                    p10 / pieces,
                    p50 / pieces,
                    mean / pieces,
                    p65 / pieces,
                    p80 / pieces,
                    p90 / pieces);
        }
    }

    /** Null for estimates that were made before spread was reckoned. */
    public static @Nullable Spreading of(ForQuantity quantity) {
        Estimate.Hours hours = quantity.hours();
        if (quantity.spread() == null || hours.p10() == null) {
            return null;
        }
        return new Spreading(
                quantity,
                new Band(
                        hours.p10(),
                        hours.p50(),
                        hours.mean(),
                        hours.p65(),
                        hours.p80(),
                        hours.p90()),
                Band.of(quantity.spread().cost()),
                Band.of(quantity.spread().price()),
                net(quantity));
    }

    /** Earlier estimates did not keep it: the steps of the list price tell what share it is. */
    private static Money net(ForQuantity quantity) {
        Estimate.Price price = quantity.price();
        if (price.net() != null) {
            return price.net();
        }
        Money list =
                price.beforeDiscounts()
                        .plus(price.settlementDiscount())
                        .plus(price.commission())
                        .plus(price.tradeDiscount());
        return list.isZero()
                ? price.offer()
                : Money.rounded(
                        price.offer()
                                .amount()
                                .multiply(price.beforeDiscounts().amount())
                                .divide(list.amount(), MathContext.DECIMAL128),
                        list.currency());
    }
}
