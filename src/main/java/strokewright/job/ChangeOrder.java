package strokewright.job;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Money;

/**
 * More that was agreed on a running job, with a plan of its own that never changes.
 *
 * @param n counted from one within the job
 * @param net what the customer pays for it; null to the floor
 * @param plan its items' positions and steps go on from those before
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record ChangeOrder(
        int n,
        UUID id,
        String title,
        String reason,
        @Nullable Money net,
        int shopBookEdition,
        Instant agreedAt,
        String agreedBy,
        @JsonIgnore JobPlan plan) {

    ChangeOrder withoutNet() {
        return new ChangeOrder(
                n, id, title, reason, null, shopBookEdition, agreedAt, agreedBy, plan);
    }
}
