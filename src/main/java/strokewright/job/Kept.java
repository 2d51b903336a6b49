package strokewright.job;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Something that was written down on a job and is never changed, only corrected by another.
 *
 * @param by who wrote it down
 * @param replaces the one that it corrects
 * @param replacedBy the correction that counts instead
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record Kept<T>(
        @JsonUnwrapped T entry,
        String by,
        Instant at,
        @Nullable UUID replaces,
        @Nullable UUID replacedBy) {

    public boolean counts() {
        return replacedBy == null;
    }
}
