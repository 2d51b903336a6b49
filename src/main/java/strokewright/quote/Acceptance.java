package strokewright.quote;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Faults;

/**
 * An order as it comes in. Everything may be left out: then the items that are no options are
 * ordered today, each at its main quantity.
 *
 * @param orderNumber the customer's
 * @param date of the order
 * @param items what is ordered, where it differs from the offer; options only when they stand here
 * @param validUntil needed once the offer has lapsed: its new last day
 */
public record Acceptance(
        @Nullable String orderNumber,
        @Nullable LocalDate date,
        List<Item> items,
        @Nullable LocalDate validUntil,
        @Nullable String note) {

    static final Acceptance AS_OFFERED = new Acceptance(null, null, List.of(), null, null);

    public Acceptance {
        orderNumber = CustomerCard.tidy(orderNumber);
        note = CustomerCard.tidy(note);
        items = items == null ? List.of() : Collections.unmodifiableList(new ArrayList<>(items));
    }

    /**
     * @param quantity one that the revision has a price for; the main one when left out
     */
    public record Item(@Nullable Integer position, @Nullable Integer quantity) {}

    /** What it orders of these items. */
    List<Order.Line> lines(List<PricedItem> offered, Faults faults) {
        if (items.isEmpty()) {
            List<Order.Line> lines =
                    offered.stream()
                            .filter(item -> !item.option())
                            .map(i -> new Order.Line(i.position(), i.takeOff().mainQuantity()))
                            .toList();
            if (lines.isEmpty()) {
                faults.add("/items", "is missing: the offer has options alone, so name them");
            }
            return lines;
        }
        List<Order.Line> lines = new ArrayList<>();
        for (int i = 0; i < items.size(); i++) {
            line(items.get(i), "/items/" + i, offered, faults, lines);
        }
        faults.distinct("/items", items, item -> item.position, "/position");
        lines.sort(java.util.Comparator.comparingInt(Order.Line::position));
        return lines;
    }

    private static void line(
            @Nullable Item item,
            String at,
            List<PricedItem> offered,
            Faults faults,
            List<Order.Line> lines) {
        if (!faults.present(at, item, "a position of the offer")
                || !faults.present(at + "/position", item.position, "a position of the offer")) {
            return;
        }
        PricedItem priced =
                offered.stream()
                        .filter(o -> o.position() == item.position)
                        .findFirst()
                        .orElse(null);
        if (priced == null) {
            faults.add(
                    at + "/position",
                    "is no item of the offer; there are: "
                            + listed(offered.stream().map(PricedItem::position).toList()));
            return;
        }
        int quantity = item.quantity == null ? priced.takeOff().mainQuantity() : item.quantity;
        if (priced.at(quantity).isEmpty()) {
            faults.add(
                    at + "/quantity",
                    "has no price in this revision: one of "
                            + listed(priced.takeOff().quantities())
                            + ", or price it in a new revision");
            return;
        }
        lines.add(new Order.Line(item.position, quantity));
    }

    private static String listed(List<Integer> numbers) {
        return String.join(", ", numbers.stream().map(String::valueOf).toList());
    }

    Faults faults() {
        Faults faults = new Faults();
        faults.textIfGiven("/orderNumber", orderNumber);
        Terms.prose(faults, "/note", note);
        return faults;
    }
}
