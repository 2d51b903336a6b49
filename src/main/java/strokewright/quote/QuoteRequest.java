package strokewright.quote;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Route;
import strokewright.estimate.Routes;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.estimate.TakeOffCheck;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;

/**
 * What somebody wants quoted.
 *
 * @param contact to whom at the customer's
 * @param title the first item's when left out
 */
record QuoteRequest(
        @Nullable CustomerChoice customer,
        @Nullable String contact,
        @Nullable String title,
        Terms terms,
        List<Item> items) {

    private static final int MOST_ITEMS = 50;
    private static final int LAST_POSITION = 9999;

    QuoteRequest {
        terms = terms == null ? Terms.UNSAID : terms;
        items = items == null ? List.of() : Collections.unmodifiableList(new ArrayList<>(items));
    }

    /**
     * @param position where it stands in the quote; in order when left out
     * @param title the take-off's when left out
     * @param option offered beside the quote; not in its total
     * @param alternatives other routes of it, at most five; kept with the item and not priced for
     *     the customer
     */
    record Item(
            @Nullable Integer position,
            @Nullable String title,
            @Nullable Boolean option,
            @Nullable TakeOff takeOff,
            @Nullable List<Route> alternatives) {

        Item {
            alternatives =
                    alternatives == null
                            ? List.of()
                            : Collections.unmodifiableList(new ArrayList<>(alternatives));
        }

        static Item of(PricedItem item) {
            return new Item(
                    item.position(),
                    item.title(),
                    item.option(),
                    item.takeOff(),
                    item.alternatives());
        }

        /** The same with a quantity as its main one. */
        Item forQuantity(Integer quantity) {
            return new Item(
                    position, title, option, takeOff.withMainQuantity(quantity), alternatives);
        }

        @Nullable String called() {
            return title != null || takeOff == null ? title : takeOff.title();
        }
    }

    /** What asks for a stored revision as it stands. */
    static QuoteRequest of(QuoteDocument quote) {
        return new QuoteRequest(
                new CustomerChoice(quote.customer().id(), null, null),
                quote.contact(),
                quote.title(),
                quote.terms(),
                quote.items().stream().map(Item::of).toList());
    }

    /** The same with other items. */
    QuoteRequest with(List<Item> others) {
        return new QuoteRequest(customer, contact, title, terms, others);
    }

    /** The same for another inquiry. */
    QuoteRequest forAnotherInquiry() {
        return new QuoteRequest(customer, contact, title, terms.forAnotherInquiry(), items);
    }

    /**
     * The same to be offered anew: with a new last day, and with further quantities.
     *
     * @param quantities by position
     * @throws InvalidInput for a position that there is not
     */
    QuoteRequest forNewRevision(Map<Integer, Integer> quantities) {
        Faults faults = new Faults();
        quantities.keySet().stream()
                .filter(p -> items.stream().noneMatch(item -> p.equals(item.position)))
                .forEach(p -> faults.add("/quantities/" + p, "is no position of the quote"));
        faults.throwIfAny();
        return new QuoteRequest(
                customer,
                contact,
                title,
                terms.withValidUntil(null),
                items.stream()
                        .map(
                                item ->
                                        quantities.containsKey(item.position)
                                                ? item.forQuantity(quantities.get(item.position))
                                                : item)
                        .toList());
    }

    /** Every fault of the whole request, with this edition of the shop book. */
    Faults faults(ShopBook book) {
        Faults faults = new Faults();
        if (faults.present("/customer", customer, "an id, or a name")) {
            customer.check(faults, "/customer");
        }
        faults.textIfGiven("/contact", contact);
        faults.textIfGiven("/title", title);
        terms.check(faults, "/terms");
        if (faults.size("/items", items, 1, MOST_ITEMS)) {
            for (int i = 0; i < items.size(); i++) {
                if (faults.present("/items/" + i, items.get(i), "an item")) {
                    item(faults, "/items/" + i, items.get(i), book);
                }
            }
            List<Item> positioned =
                    items.stream().map(i -> i == null || i.position == null ? null : i).toList();
            faults.distinct("/items", positioned, Item::position, "/position");
        }
        return faults;
    }

    private static void item(Faults faults, String at, Item item, ShopBook book) {
        faults.withinIfGiven(at + "/position", item.position, 1, LAST_POSITION);
        if (faults.present(at + "/takeOff", item.takeOff, "a take-off")) {
            TakeOffCheck.faults(item.takeOff, book)
                    .forEach(f -> faults.add(at + "/takeOff" + f.pointer(), f.message()));
            faults.text(at + "/title", item.called());
        }
        alternatives(faults, at + "/alternatives", item.alternatives, book);
    }

    private static void alternatives(
            Faults faults, String at, List<Route> alternatives, ShopBook book) {
        if (faults.size(at, alternatives, 0, Routes.MOST - 1)) {
            Routes.check(at, alternatives, book, faults);
            faults.distinct(at, alternatives, Route::name, "/name");
        }
    }
}
