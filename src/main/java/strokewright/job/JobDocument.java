package strokewright.job;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A job as it stands.
 *
 * @param number e.g. J-2026-0001
 * @param quote number of the quote that was ordered
 * @param steps what time is booked on; planned minutes are for the whole quantity
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record JobDocument(
        String number,
        JobState state,
        String kind,
        String title,
        String customer,
        @Nullable String quote,
        int shopBookEdition,
        @Nullable LocalDate dueOn,
        Instant releasedAt,
        String releasedBy,
        List<Made> items,
        List<Step> steps) {

    public JobDocument {
        items = List.copyOf(items);
        steps = List.copyOf(steps);
    }

    /** So many of an item. */
    public record Made(int position, String title, int quantity) {}
}
