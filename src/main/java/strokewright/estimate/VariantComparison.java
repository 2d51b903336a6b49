package strokewright.estimate;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Finding;
import strokewright.quantity.Money;

/**
 * Variants of a take-off beside it, quantity by quantity.
 *
 * @param mainSize what {@code diameterMm} or {@code lengthMm} changes; null where neither can
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record VariantComparison(
        @Nullable Integer shopBookEdition,
        @Nullable MainSize mainSize,
        Base base,
        List<Beside> variants) {

    public VariantComparison {
        variants = List.copyOf(variants);
    }

    /** The take-off as it is. */
    public record Base(boolean feasible, List<Finding> findings, List<At> quantities) {}

    /**
     * @param hours person-hours for the whole quantity, as planned
     * @param cost total, before profit
     */
    public record At(int quantity, double hours, Money cost, Money priceEach) {}

    /**
     * One variant.
     *
     * @param takeOff complete, to go on with
     * @param notes what followed from the change and what stayed
     * @param findings all of this take-off
     * @param appeared those that the base has not at the same place
     * @param vanished those that only the base has
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Beside(
            String name,
            Variant change,
            TakeOff takeOff,
            List<Finding> notes,
            boolean feasible,
            List<Finding> findings,
            List<Finding> appeared,
            List<Finding> vanished,
            List<Against> quantities) {}

    /** One quantity of a variant, and what it has more than the base; less is below zero. */
    public record Against(
            int quantity,
            double hours,
            Money cost,
            Money priceEach,
            More hoursMore,
            MoreMoney costMore,
            MoreMoney priceEachMore) {}

    /**
     * @param percent of the base; null where that is zero
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record More(double by, @Nullable Double percent) {

        public static More of(double base, double other) {
            return new More(other - base, base == 0 ? null : (other - base) / base * 100);
        }
    }

    /**
     * @param percent of the base; null where that is zero
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record MoreMoney(Money by, @Nullable Double percent) {

        public static MoreMoney of(Money base, Money other) {
            return new MoreMoney(
                    other.minus(base),
                    More.of(base.amount().doubleValue(), other.amount().doubleValue()).percent());
        }
    }
}
