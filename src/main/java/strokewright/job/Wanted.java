package strokewright.job;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.estimate.TakeOffCheck;
import strokewright.job.JobPlan.Planned;
import strokewright.quantity.Fault;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.quote.PricedItem;
import strokewright.takeoff.FindingWords;

/**
 * So many of an item that no quote priced.
 *
 * @param title the take-off's when left out
 * @param quantity 1 to 100,000; the take-off's main quantity when left out
 */
record Wanted(@Nullable String title, @Nullable Integer quantity, @Nullable TakeOff takeOff) {

    private static final int MOST_ITEMS = 50;
    private static final int MOST_PIECES = 100_000;

    int pieces() {
        return quantity == null ? takeOff.mainQuantity() : quantity;
    }

    @Nullable String called() {
        return title != null || takeOff == null ? title : takeOff.title();
    }

    static void check(Faults faults, List<Wanted> items, ShopBook book) {
        if (!faults.size("/items", items, 1, MOST_ITEMS)) {
            return;
        }
        for (int i = 0; i < items.size(); i++) {
            String at = "/items/" + i;
            Wanted item = items.get(i);
            if (faults.present(at, item, "an item")
                    && faults.present(at + "/takeOff", item.takeOff, "a take-off")) {
                TakeOffCheck.faults(item.takeOff, book)
                        .forEach(f -> faults.add(at + "/takeOff" + f.pointer(), f.message()));
                faults.withinIfGiven(at + "/quantity", item.quantity, 1, MOST_PIECES);
                faults.text(at + "/title", item.called());
            }
        }
    }

    /**
     * With the estimate of their quantity.
     *
     * @param before the last position that the job has already
     * @throws InvalidInput for what shows only while it is reckoned, and for what cannot be made as
     *     described
     */
    static List<Planned> planned(List<Wanted> items, ShopBook book, int before) {
        List<Planned> planned =
                IntStream.range(0, items.size())
                        .mapToObj(i -> items.get(i).planned(book, before + i + 1, "/items/" + i))
                        .toList();
        List<Fault> refusals = new ArrayList<>();
        for (int i = 0; i < items.size(); i++) {
            refusals.addAll(
                    FindingWords.refusals(
                            "/items/" + i + "/takeOff", planned.get(i).item().estimate()));
        }
        if (!refusals.isEmpty()) {
            throw new InvalidInput(refusals);
        }
        return planned;
    }

    private Planned planned(ShopBook book, int position, String at) {
        TakeOff meant = takeOff.withMainQuantity(pieces()).withMainQuantityAlone();
        try {
            return new Planned(
                    new PricedItem(
                            position,
                            called().strip(),
                            false,
                            meant,
                            Estimating.estimate(meant, book),
                            List.of()),
                    pieces());
        } catch (InvalidInput e) {
            throw e.under(at + "/takeOff");
        }
    }

    /** What the items cost the customer, before tax. */
    static Money net(List<Planned> items) {
        return items.stream()
                .map(p -> p.item().at(p.quantity()).orElseThrow().price().offer())
                .reduce(Money::plus)
                .orElseThrow();
    }
}
