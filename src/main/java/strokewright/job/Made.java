package strokewright.job;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import strokewright.job.JobPlan.Planned;
import strokewright.quantity.Faults;

/**
 * How many good pieces became of each item when a job is finished.
 *
 * @param made of an item that is not named, as many as were ordered
 */
record Made(List<Item> made) {

    static final Made AS_ORDERED = new Made(List.of());

    private static final int MOST_PIECES = 100_000;

    Made {
        made = made == null ? List.of() : Collections.unmodifiableList(new ArrayList<>(made));
    }

    /**
     * @param position of the item in the job
     * @param quantity 0 of what was given up
     */
    record Item(@Nullable Integer position, @Nullable Integer quantity) {}

    Faults faults(List<Planned> items) {
        Faults faults = new Faults();
        Set<Integer> seen = new HashSet<>();
        for (int i = 0; i < made.size(); i++) {
            String at = "/made/" + i;
            Item item = made.get(i);
            if (!faults.present(at, item, "a position with a quantity")) {
                continue;
            }
            if (faults.present(at + "/position", item.position, "of an item of the job")) {
                if (items.stream().noneMatch(p -> p.item().position() == item.position)) {
                    faults.add(at + "/position", "is no item of the job");
                } else if (!seen.add(item.position)) {
                    faults.add(at + "/position", "is named twice");
                }
            }
            faults.within(at + "/quantity", item.quantity, 0, MOST_PIECES);
        }
        return faults;
    }

    int of(Planned planned) {
        return made.stream()
                .filter(m -> m.position == planned.item().position())
                .map(Item::quantity)
                .findFirst()
                .orElse(planned.quantity());
    }

    /** Every item by its position, in the order of the job. */
    Made filled(List<Planned> items) {
        return new Made(items.stream().map(p -> new Item(p.item().position(), of(p))).toList());
    }
}
