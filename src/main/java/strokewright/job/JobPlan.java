package strokewright.job;

import java.util.List;
import strokewright.quote.PricedItem;

/**
 * What a job was released with; it never changes.
 *
 * @param items with how many of each
 * @param steps what people book on, over all items
 */
public record JobPlan(List<Planned> items, List<Step> steps) {

    public JobPlan {
        items = List.copyOf(items);
        steps = List.copyOf(steps);
    }

    /** So many of an item. */
    public record Planned(PricedItem item, int quantity) {}
}
