package strokewright.job;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;

/** Moments as the clock on the shop's wall shows them. */
record ShopTimes(ZoneId zone, LocalDate today) {

    /** Such as 10:42, with its date when it was not today. */
    public String of(@Nullable Instant moment) {
        if (moment == null) {
            return "";
        }
        LocalDateTime at = LocalDateTime.ofInstant(moment, zone).truncatedTo(ChronoUnit.MINUTES);
        return at.toLocalDate().equals(today)
                ? at.toLocalTime().toString()
                : at.toLocalDate() + " " + at.toLocalTime();
    }

    /** Such as "today" or 2026-03-02. */
    public String day(LocalDate day) {
        return day.equals(today)
                ? "today"
                : day.equals(today.minusDays(1)) ? "yesterday" : day.toString();
    }
}
