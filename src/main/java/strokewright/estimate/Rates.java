package strokewright.estimate;

import static strokewright.quantity.Why.Input.computed;

import java.math.BigDecimal;
import java.util.Currency;
import java.util.HashMap;
import java.util.Map;
import java.util.Objects;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import strokewright.costing.CostingFormula;
import strokewright.estimate.ShopBook.Times;
import strokewright.estimate.ShopBook.WorkCentre;
import strokewright.quantity.Money;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/**
 * Rates and allowances that are charged: stated ones as they stand, the others built from their
 * basis, with the building written into the working once.
 */
final class Rates {

    private final ShopBook book;
    private final Working working;
    private final Currency currency;
    private final Map<String, Input> known = new HashMap<>();

    Rates(ShopBook book, Working working) {
        this.book = book;
        this.working = working;
        this.currency = Objects.requireNonNull(book.currency());
    }

    /** Of a person's hour there, "rate" in the working. */
    Input labour(WorkCentre centre) {
        String figure = centre.name() + ".labourRate";
        return known(
                figure,
                () ->
                        centre.isLabourDerived()
                                ? toTheCent(
                                        figure,
                                        centre.labourBasis()
                                                .perProductiveHour(
                                                        working,
                                                        centre.name() + ".labour.",
                                                        origin(centre.origin())),
                                        centre.labourIn(currency))
                                : stated(centre.labourRate()));
    }

    /** Of an hour at the machine there, "rate" in the working; null where nothing is charged. */
    @Nullable Input machine(WorkCentre centre) {
        if (centre.machineRate() == null && centre.machineBasis() == null) {
            return null;
        }
        String figure = centre.name() + ".machineRate";
        return known(
                figure,
                () ->
                        centre.isMachineDerived()
                                ? toTheCent(
                                        figure,
                                        centre.machineBasis()
                                                .perHour(
                                                        working,
                                                        centre.name() + ".machine.",
                                                        origin(centre.origin())),
                                        centre.machineIn(currency))
                                : stated(centre.machineRate()));
    }

    Input machineAllowance() {
        Times times = book.times();
        return known(
                "machineAllowance",
                () ->
                        times.machineAllowancePercent() != null
                                ? allowance(times.machineAllowancePercent())
                                : computed(
                                        "allowance",
                                        times.machineAllowanceBasis()
                                                .percent(
                                                        working,
                                                        "machine.",
                                                        origin(times.origin())),
                                        "%"));
    }

    Input benchAllowance() {
        Times times = book.times();
        return known(
                "benchAllowance",
                () ->
                        times.benchAllowancePercent() != null
                                ? allowance(times.benchAllowancePercent())
                                : computed(
                                        "allowance",
                                        times.benchAllowanceBasis()
                                                .percent(working, "bench.", origin(times.origin())),
                                        "%"));
    }

    private Input known(String figure, Supplier<Input> made) {
        Input input = known.get(figure);
        if (input == null) {
            input = made.get();
            known.put(figure, input);
        }
        return input;
    }

    /** The rate that is charged is the one that {@link WorkCentre} says, written down here. */
    private Input toTheCent(String figure, double exact, Money rounded) {
        BigDecimal coin = Money.zero(currency).amount().ulp();
        double rate =
                working.figure(
                        figure,
                        CostingFormula.RATE_TO_THE_CENT,
                        computed("rate", exact, "/h"),
                        computed("smallest coin", coin.doubleValue(), ""));
        if (rounded.amount().doubleValue() != rate) {
            throw new IllegalStateException(figure + " is " + rate + " and " + rounded);
        }
        return computed("rate", rate, "/h");
    }

    private Input stated(Money rate) {
        return new Input("rate", rate.amount().doubleValue(), "/h", origin(null));
    }

    private Input allowance(double percent) {
        return new Input("allowance", percent, "%", origin(null));
    }

    private String origin(@Nullable String origin) {
        return Bench.origin(book, origin);
    }
}
