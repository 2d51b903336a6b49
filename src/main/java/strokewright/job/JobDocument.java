package strokewright.job;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Money;

/**
 * A job as it stands.
 *
 * @param number e.g. J-2026-0001
 * @param quote number of the quote that was ordered
 * @param reason of a job without a quote: what was said, or what went wrong
 * @param net what the customer pays for a job without a quote; null to the floor
 * @param items of the job and of its change orders
 * @param steps what time is booked on, those of change orders last; planned minutes are for the
 *     whole quantity
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record JobDocument(
        String number,
        JobState state,
        JobKind kind,
        String title,
        String customer,
        @Nullable String quote,
        @Nullable String reason,
        @Nullable Money net,
        int shopBookEdition,
        @Nullable LocalDate dueOn,
        Instant releasedAt,
        String releasedBy,
        @Nullable Instant finishedAt,
        List<Item> items,
        List<Step> steps,
        @JsonInclude(JsonInclude.Include.NON_EMPTY) List<ChangeOrder> changeOrders) {

    public JobDocument {
        items = List.copyOf(items);
        steps = List.copyOf(steps);
        changeOrders = List.copyOf(changeOrders);
    }

    /**
     * So many of an item.
     *
     * @param made good pieces that became of it; null until the job is finished
     * @param changeOrder null of what the job was released with
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Item(
            int position,
            String title,
            int quantity,
            @Nullable Integer made,
            @Nullable Integer changeOrder) {}
}
