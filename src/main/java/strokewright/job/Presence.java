package strokewright.job;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * When somebody was there on a day, as it was entered.
 *
 * @param workerId of whoever was there
 * @param came by the clock on the shop's wall; null where only minutes are known
 * @param went before {@code came} where it was the next day; null while somebody is still there
 * @param breakMinutes taken off
 * @param minutes there without the break; null while somebody is still there
 * @param counts false once the day was entered anew
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record Presence(
        UUID id,
        @JsonIgnore UUID workerId,
        String who,
        LocalDate day,
        @Nullable LocalTime came,
        @Nullable LocalTime went,
        @Nullable Double breakMinutes,
        @Nullable Double minutes,
        @Nullable String note,
        Instant enteredAt,
        String enteredBy,
        boolean counts) {

    /** Whether somebody came and has not left. */
    public boolean isOpen() {
        return came != null && went == null;
    }
}
