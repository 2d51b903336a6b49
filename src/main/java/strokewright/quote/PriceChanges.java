package strokewright.quote;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Money;

/**
 * What a quote's prices differ in from the ones that it came from, and why.
 *
 * @param from of the quote and revision that it came from
 * @param netBefore of all items but options, before tax; null in another currency
 * @param rows of quantities whose price differs, and of items that came or went
 */
record PriceChanges(
        String from, @Nullable Money netBefore, Money net, List<Row> rows, List<String> why) {

    /**
     * One quantity of an item.
     *
     * @param before in all; null of what was not priced before
     * @param now null of what is no longer in it
     */
    record Row(
            int position,
            String title,
            @Nullable Integer quantity,
            @Nullable Money before,
            @Nullable Money now,
            boolean main) {}

    static PriceChanges between(QuoteDocument before, QuoteDocument now) {
        List<Row> rows = new ArrayList<>();
        for (PricedItem item : now.items()) {
            rows(at(before, item.position()), item, rows);
        }
        before.items().stream()
                .filter(old -> at(now, old.position()) == null)
                .forEach(old -> rows.add(gone(old)));
        boolean same = before.total().net().currency().equals(now.total().net().currency());
        return new PriceChanges(
                before.number() + ", revision " + before.revision(),
                same ? before.total().net() : null,
                now.total().net(),
                rows,
                why(before, now));
    }

    private static void rows(@Nullable PricedItem before, PricedItem now, List<Row> rows) {
        now.estimate()
                .quantities()
                .forEach(
                        q -> {
                            Money offer = q.price().offer();
                            Money old =
                                    before == null
                                            ? null
                                            : before.at(q.quantity())
                                                    .map(b -> b.price().offer())
                                                    .orElse(null);
                            if (!offer.equals(old)) {
                                rows.add(
                                        new Row(
                                                now.position(),
                                                now.title(),
                                                q.quantity(),
                                                old,
                                                offer,
                                                q.quantity() == now.takeOff().mainQuantity()));
                            }
                        });
    }

    private static Row gone(PricedItem old) {
        return new Row(
                old.position(),
                old.title(),
                old.takeOff().mainQuantity(),
                old.main().price().offer(),
                null,
                true);
    }

    private static @Nullable PricedItem at(QuoteDocument quote, int position) {
        return quote.items().stream()
                .filter(i -> i.position() == position)
                .findFirst()
                .orElse(null);
    }

    private static List<String> why(QuoteDocument before, QuoteDocument now) {
        List<String> why = new ArrayList<>();
        if (before.shopBookEdition() != now.shopBookEdition()) {
            why.add(
                    "Shop book edition %d instead of %d."
                            .formatted(now.shopBookEdition(), before.shopBookEdition()));
        }
        if (before.methodVersion() != now.methodVersion()) {
            why.add("A later method of reckoning.");
        }
        if (!discounts(before).equals(discounts(now))) {
            why.add("Other discounts in the terms.");
        }
        List<String> other =
                now.items().stream()
                        .filter(i -> workDiffers(at(before, i.position()), i))
                        .map(i -> String.valueOf(i.position()))
                        .toList();
        if (!other.isEmpty()) {
            why.add("Other work or metal in item " + String.join(", ", other) + ".");
        }
        if (now.items().stream().anyMatch(i -> mainDiffers(at(before, i.position()), i))) {
            why.add("Another main quantity.");
        }
        if (now.items().stream().anyMatch(i -> optionDiffers(at(before, i.position()), i))) {
            why.add("What is an option has changed.");
        }
        if (now.items().size() != before.items().size()) {
            why.add("Items came or went.");
        }
        return why;
    }

    private static List<@Nullable Double> discounts(QuoteDocument quote) {
        Payment payment = quote.terms().payment();
        return java.util.Arrays.asList(
                payment.settlementDiscountPercent(), payment.tradeDiscountPercent());
    }

    /** Whatever was typed into the take-off, but for the quantities. */
    private static boolean workDiffers(@Nullable PricedItem before, PricedItem now) {
        return before != null
                && !before.takeOff()
                        .withMainQuantityAlone()
                        .equals(
                                now.takeOff()
                                        .withMainQuantity(before.takeOff().mainQuantity())
                                        .withMainQuantityAlone());
    }

    private static boolean mainDiffers(@Nullable PricedItem before, PricedItem now) {
        return before != null
                && !Objects.equals(before.takeOff().mainQuantity(), now.takeOff().mainQuantity());
    }

    private static boolean optionDiffers(@Nullable PricedItem before, PricedItem now) {
        return before != null && before.option() != now.option();
    }
}
