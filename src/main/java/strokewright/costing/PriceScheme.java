package strokewright.costing;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.math.BigDecimal;
import java.util.Currency;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Money;

/**
 * How a shop comes from cost to price. Percentages as people say them, 8 for 8 %; left out means
 * none.
 *
 * @param priceFrom which hours; the mean when left out, because hours are skewed
 * @param materialOverheadPercent on material; in the simple scheme the mark-up on material
 * @param productionOverheadPercent on labour
 * @param administrationPercent on manufacturing cost
 * @param salesPercent on manufacturing cost
 * @param profitPercent on total cost
 * @param settlementDiscountPercent share of the price that it is taken off
 * @param commissionPercent share of the same price
 * @param tradeDiscountPercent share of the list price
 * @param taxPercent on the offer
 * @param roundEachTo the price each is rounded to a multiple of this: 0.01, 0.50, 1 or 5
 * @param minimumOrder least that an order costs, before tax
 * @param urgencyPercent on total cost and profit
 * @param boughtOutHandlingPercent on bought-out work that states no handling of its own
 */
public record PriceScheme(
        Kind kind,
        From priceFrom,
        Double materialOverheadPercent,
        Double productionOverheadPercent,
        Double administrationPercent,
        Double salesPercent,
        Double profitPercent,
        Double settlementDiscountPercent,
        Double commissionPercent,
        Double tradeDiscountPercent,
        Double taxPercent,
        String roundEachTo,
        @Nullable Money minimumOrder,
        Double urgencyPercent,
        Double boughtOutHandlingPercent) {

    public PriceScheme {
        kind = kind == null ? Kind.SIMPLE : kind;
        priceFrom = priceFrom == null ? From.MEAN : priceFrom;
        materialOverheadPercent = zeroOr(materialOverheadPercent);
        productionOverheadPercent = zeroOr(productionOverheadPercent);
        administrationPercent = zeroOr(administrationPercent);
        salesPercent = zeroOr(salesPercent);
        profitPercent = zeroOr(profitPercent);
        settlementDiscountPercent = zeroOr(settlementDiscountPercent);
        commissionPercent = zeroOr(commissionPercent);
        tradeDiscountPercent = zeroOr(tradeDiscountPercent);
        taxPercent = zeroOr(taxPercent);
        roundEachTo = roundEachTo == null ? "0.01" : roundEachTo;
        urgencyPercent = zeroOr(urgencyPercent);
        boughtOutHandlingPercent = zeroOr(boughtOutHandlingPercent);
    }

    public enum Kind {
        /** Hourly rates, a mark-up on material, profit, tax. */
        @JsonProperty("simple")
        SIMPLE,
        /** The full build-up with overheads and discounts. */
        @JsonProperty("surcharge")
        SURCHARGE
    }

    /** Which hours the price is made from. */
    public enum From {
        @JsonProperty("plan")
        PLAN,
        @JsonProperty("mean")
        MEAN,
        @JsonProperty("p65")
        P65,
        @JsonProperty("p80")
        P80
    }

    /** The percentages that are reckoned with: the simple scheme knows four of them. */
    @JsonIgnore
    public PriceScheme effective() {
        return kind == Kind.SURCHARGE
                ? this
                : new PriceScheme(
                        kind,
                        priceFrom,
                        materialOverheadPercent,
                        0.0,
                        0.0,
                        0.0,
                        profitPercent,
                        0.0,
                        0.0,
                        0.0,
                        taxPercent,
                        roundEachTo,
                        minimumOrder,
                        urgencyPercent,
                        boughtOutHandlingPercent);
    }

    /** Whether discounts and commission together leave something of a price. */
    public boolean leavesSomething() {
        return tradeDiscountPercent < 100 && commissionPercent + settlementDiscountPercent < 100;
    }

    /** The same for a customer who has it otherwise; null leaves what the shop usually does. */
    public PriceScheme with(
            @Nullable Double settlementDiscount,
            @Nullable Double tradeDiscount,
            @Nullable Double tax) {
        return new PriceScheme(
                kind,
                priceFrom,
                materialOverheadPercent,
                productionOverheadPercent,
                administrationPercent,
                salesPercent,
                profitPercent,
                settlementDiscount == null ? settlementDiscountPercent : settlementDiscount,
                commissionPercent,
                tradeDiscount == null ? tradeDiscountPercent : tradeDiscount,
                tax == null ? taxPercent : tax,
                roundEachTo,
                minimumOrder,
                urgencyPercent,
                boughtOutHandlingPercent);
    }

    /** The same with another profit, which may be a loss. */
    PriceScheme withProfit(Double percent) {
        return new PriceScheme(
                kind,
                priceFrom,
                materialOverheadPercent,
                productionOverheadPercent,
                administrationPercent,
                salesPercent,
                percent,
                settlementDiscountPercent,
                commissionPercent,
                tradeDiscountPercent,
                taxPercent,
                roundEachTo,
                minimumOrder,
                urgencyPercent,
                boughtOutHandlingPercent);
    }

    /** Never finer than the currency's minor unit. */
    BigDecimal roundingStep(Currency currency) {
        return new BigDecimal(roundEachTo).max(Money.zero(currency).amount().ulp());
    }

    private static Double zeroOr(@Nullable Double given) {
        return given == null ? Double.valueOf(0) : given;
    }
}
