package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Faults;

/**
 * How a customer pays, and what comes off the price. A percentage that is left out is that of the
 * shop book's price scheme, which the price allows for.
 *
 * @param days from the invoice on; 0 at once
 * @param settlementDiscountPercent for who pays early
 * @param settlementDays how early
 * @param tradeDiscountPercent off the list price
 * @param stages shares of the whole in the order in which they fall due; empty for one sum
 */
@JsonInclude(JsonInclude.Include.NON_EMPTY)
public record Payment(
        @Nullable Integer days,
        @Nullable Double settlementDiscountPercent,
        @Nullable Integer settlementDays,
        @Nullable Double tradeDiscountPercent,
        List<Stage> stages) {

    private static final int MOST_DAYS = 365;
    static final int MOST_STAGES = 10;
    private static final double MOST_DISCOUNT = 50;

    static final Payment UNSAID = new Payment(null, null, null, null, List.of());

    public Payment {
        stages = stages == null ? List.of() : Collections.unmodifiableList(new ArrayList<>(stages));
    }

    /**
     * One part of the sum.
     *
     * @param when it falls due, such as "with the order" or "on delivery"
     */
    public record Stage(@Nullable String when, @Nullable Double percent) {}

    /** What is unsaid here is as said there. */
    Payment or(Payment usual) {
        return new Payment(
                days == null ? usual.days : days,
                settlementDiscountPercent == null
                        ? usual.settlementDiscountPercent
                        : settlementDiscountPercent,
                settlementDays == null ? usual.settlementDays : settlementDays,
                tradeDiscountPercent == null ? usual.tradeDiscountPercent : tradeDiscountPercent,
                stages.isEmpty() ? usual.stages : stages);
    }

    void check(Faults faults, String at) {
        faults.withinIfGiven(at + "/days", days, 0, MOST_DAYS);
        faults.withinIfGiven(
                at + "/settlementDiscountPercent", settlementDiscountPercent, 0, MOST_DISCOUNT);
        faults.withinIfGiven(at + "/settlementDays", settlementDays, 0, MOST_DAYS);
        if (days != null && settlementDays != null && settlementDays > days) {
            faults.add(
                    at + "/settlementDays", "must be at most the " + days + " days to pay in all");
        }
        faults.withinIfGiven(at + "/tradeDiscountPercent", tradeDiscountPercent, 0, MOST_DISCOUNT);
        if (faults.size(at + "/stages", stages, 0, MOST_STAGES) && !stages.isEmpty()) {
            stages(faults, at + "/stages");
        }
    }

    private void stages(Faults faults, String at) {
        double sum = 0;
        boolean all = true;
        for (int i = 0; i < stages.size(); i++) {
            Stage stage = stages.get(i);
            String here = at + "/" + i;
            if (!faults.present(here, stage, "a stage with when and percent")) {
                all = false;
                continue;
            }
            faults.text(here + "/when", stage.when);
            all &= faults.over(here + "/percent", stage.percent, 0, 100);
            sum += stage.percent == null ? 0 : stage.percent;
        }
        if (all && Math.abs(sum - 100) > 1e-9) {
            faults.add(at, "make " + shown(sum) + " %: all stages together must make 100 %");
        }
    }

    private static String shown(double percent) {
        return java.math.BigDecimal.valueOf(percent)
                .setScale(2, java.math.RoundingMode.HALF_UP)
                .stripTrailingZeros()
                .toPlainString();
    }
}
