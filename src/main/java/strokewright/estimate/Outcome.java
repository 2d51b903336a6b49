package strokewright.estimate;

import java.util.Arrays;
import java.util.Currency;
import java.util.function.DoubleUnaryOperator;
import strokewright.costing.PriceScheme;
import strokewright.quantity.Money;

/** Person-hours and total cost of one quantity over all trials, each from least to most. */
record Outcome(double[] hours, double[] cost) {

    Outcome {
        Arrays.sort(hours);
        Arrays.sort(cost);
    }

    Estimate.Hours hours(double plan) {
        return new Estimate.Hours(
                plan,
                mean(hours),
                at(hours, 0.10),
                at(hours, 0.50),
                at(hours, 0.65),
                at(hours, 0.80),
                at(hours, 0.90));
    }

    /** Hours that a price is made from. */
    double priced(PriceScheme.From from, double plan) {
        return switch (from) {
            case PLAN -> plan;
            case MEAN -> mean(hours);
            case P65 -> at(hours, 0.65);
            case P80 -> at(hours, 0.80);
        };
    }

    /**
     * @param priceOf what is asked for so much total cost; never less for more
     */
    Estimate.Spreads spreads(DoubleUnaryOperator priceOf, Currency currency) {
        double[] price = Arrays.stream(cost).map(priceOf).toArray();
        return new Estimate.Spreads(band(cost, currency), band(price, currency));
    }

    /** Share of the trials that cost more than this. */
    double over(double amount) {
        int low = 0;
        int high = cost.length;
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (cost[middle] <= amount) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return (double) (cost.length - low) / cost.length;
    }

    private static Estimate.Band band(double[] sorted, Currency currency) {
        return new Estimate.Band(
                money(mean(sorted), currency),
                money(at(sorted, 0.10), currency),
                money(at(sorted, 0.50), currency),
                money(at(sorted, 0.65), currency),
                money(at(sorted, 0.80), currency),
                money(at(sorted, 0.90), currency));
    }

    static Money money(double amount, Currency currency) {
        return Money.rounded(java.math.BigDecimal.valueOf(amount), currency);
    }

    private static double mean(double[] sorted) {
        return Arrays.stream(sorted).sum() / sorted.length;
    }

    /** Between the two nearest trials, which stand for the middles of their strata. */
    static double at(double[] sorted, double share) {
        double place = Math.max(0, Math.min(sorted.length - 1, share * sorted.length - 0.5));
        int below = (int) Math.min(sorted.length - 2, Math.floor(place));
        if (below < 0) {
            return sorted[0];
        }
        return sorted[below] + (place - below) * (sorted[below + 1] - sorted[below]);
    }
}
