package strokewright.quote;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;

/**
 * What goes out with a delivery note. Everything may be left out: then all that was ordered goes
 * out at once, today. Nothing is kept of it: how much went out before is for the shop to know.
 *
 * @param delivery counted from one for each order
 * @param items what goes out of the order, where it is not all
 */
record Delivering(@Nullable Integer delivery, @Nullable LocalDate date, List<Item> items) {

    static final Delivering ALL = new Delivering(null, null, List.of());

    private static final int MOST_DELIVERIES = 999;

    Delivering {
        items = items == null ? List.of() : Collections.unmodifiableList(new ArrayList<>(items));
    }

    /**
     * @param quantity at most what was ordered, which it is when left out
     */
    record Item(@Nullable Integer position, @Nullable Integer quantity) {}

    int numbered() {
        return delivery == null ? 1 : delivery;
    }

    /** Identification number of the note, e.g. Q-2026-0001-D2. */
    String number(String quote) {
        return quote + "-D" + numbered();
    }

    /**
     * In the order of their positions.
     *
     * @throws InvalidInput with every fault
     */
    List<Order.Line> lines(Order order) {
        Faults faults = new Faults();
        faults.withinIfGiven("/delivery", delivery, 1, MOST_DELIVERIES);
        List<Order.Line> lines = new ArrayList<>();
        for (int i = 0; i < items.size(); i++) {
            line("/items/" + i, items.get(i), order, faults, lines);
        }
        faults.distinct("/items", items, item -> item == null ? null : item.position, "/position");
        faults.throwIfAny();
        lines.sort(java.util.Comparator.comparingInt(Order.Line::position));
        return items.isEmpty() ? order.items() : lines;
    }

    private static void line(
            String at, @Nullable Item item, Order order, Faults faults, List<Order.Line> lines) {
        if (!faults.present(at, item, "a position of the order")
                || !faults.present(at + "/position", item.position, "a position of the order")) {
            return;
        }
        Integer ordered = order.quantity(item.position).orElse(null);
        if (ordered == null) {
            faults.add(at + "/position", "was not ordered");
        } else if (faults.withinIfGiven(at + "/quantity", item.quantity, 1, ordered)) {
            lines.add(
                    new Order.Line(item.position, item.quantity == null ? ordered : item.quantity));
        }
    }
}
