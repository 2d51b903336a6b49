package strokewright.quote;

import java.util.Currency;
import java.util.List;
import java.util.Objects;
import java.util.function.IntFunction;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.office.Look;
import strokewright.takeoff.Spreading;
import strokewright.takeoff.Spreading.Band;

/** The part of a workings sheet that says how hours, cost and price may turn out. */
record SpreadRows(Grid grid, List<ForQuantity> quantities, Currency currency, Look money) {

    static void write(Grid grid, List<ForQuantity> quantities, Currency currency, Look money) {
        new SpreadRows(grid, quantities, currency, money).write();
    }

    /** As it was reckoned: a spreadsheet has no part in it. */
    private void write() {
        List<Spreading> spreads =
                quantities.stream().map(Spreading::of).filter(Objects::nonNull).toList();
        if (spreads.size() < quantities.size()) {
            return;
        }
        Look hours = Look.number(2);
        grid.quantityHeads("How it may turn out", "as stored", "");
        percentiles("hours", "Hours", "h, all of it", hours, i -> spreads.get(i).hours());
        percentiles(
                "cost", "Cost", currency + ", without profit", money, i -> spreads.get(i).cost());
        percentiles(
                "price", "Price", currency + ", before tax", money, i -> spreads.get(i).price());
        grid.values(
                "net",
                "Net price",
                "offer less discounts and commission",
                money,
                i -> spreads.get(i).net().amount());
        if (quantities.stream().allMatch(q -> q.lossChance() != null)) {
            grid.values(
                    "loss",
                    "Chance of loss, %",
                    "that the cost is more than the net price",
                    Look.number(1),
                    i -> quantities.get(i).lossChance() * 100);
        }
    }

    private void percentiles(
            String name, String label, String words, Look look, IntFunction<Band> of) {
        grid.values(name + " p10", label + ", P10", words, look, i -> of.apply(i).p10());
        grid.values(
                name + " p50",
                label + ", P50",
                "half the time enough",
                look,
                i -> of.apply(i).p50());
        grid.values(name + " mean", label + ", mean", "on average", look, i -> of.apply(i).mean());
        grid.values(
                name + " p65",
                label + ", P65",
                "two times in three enough",
                look,
                i -> of.apply(i).p65());
        grid.values(
                name + " p80",
                label + ", P80",
                "four times in five enough",
                look,
                i -> of.apply(i).p80());
        grid.values(
                name + " p90",
                label + ", P90",
                "nine times in ten enough",
                look,
                i -> of.apply(i).p90());
    }
}
