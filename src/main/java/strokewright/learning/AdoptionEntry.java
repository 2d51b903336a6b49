package strokewright.learning;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * An adoption of learned factors.
 *
 * @param shopBookEdition that it made; the current one when nothing was new
 * @param added false when the book had it all already
 * @param adoptedAt null when nothing was new
 * @param undoneEdition the edition that has what stood there before
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record AdoptionEntry(
        int shopBookEdition,
        boolean added,
        Adopted adopted,
        @Nullable Instant adoptedAt,
        @Nullable String adoptedBy,
        @Nullable Integer undoneEdition) {}
