package strokewright.job;

import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Faults;

/**
 * A day's presence as it is entered: when somebody came and left, or the minutes alone. It takes
 * the place of what was entered of that day before.
 *
 * @param id made where it is entered, so that sending it again adds nothing
 * @param user sign-in name of whoever was there; oneself when left out
 * @param day today when left out
 * @param went left out while somebody is still there; before {@code came} it is the next day's
 */
public record PresenceEntry(
        @Nullable UUID id,
        @Nullable String user,
        @Nullable LocalDate day,
        @Nullable LocalTime came,
        @Nullable LocalTime went,
        @Nullable Double breakMinutes,
        @Nullable Double minutes,
        @Nullable String note) {

    private static final int DAY = 24 * 60;

    Faults faults(LocalDate today) {
        Faults faults = new Faults();
        faults.present("/id", id, "a UUID of your own making, the same when it is sent again");
        faults.withinIfGiven("/minutes", minutes, 0, DAY);
        faults.textIfGiven("/note", note);
        if (day != null && day.isAfter(today)) {
            faults.add("/day", "is still to come: " + today + " or before");
        }
        if (day != null && day.isBefore(today.minusYears(1))) {
            faults.add("/day", "is too long ago: " + today.minusYears(1) + " or after");
        }
        if (came == null) {
            requireMinutes(faults);
        } else {
            requireTimes(faults);
        }
        return faults;
    }

    private void requireMinutes(Faults faults) {
        if (went != null) {
            faults.add("/came", "is missing: when somebody came who left");
        } else if (minutes == null) {
            faults.add("/came", "or the minutes of the day are missing");
        }
        if (breakMinutes != null && went == null) {
            faults.add("/breakMinutes", "belongs to times: the minutes are without breaks");
        }
    }

    private void requireTimes(Faults faults) {
        if (minutes != null) {
            faults.add("/minutes", "follow from the times: leave them out");
        }
        faults.withinIfGiven("/breakMinutes", breakMinutes, 0, DAY);
        if (came.equals(went)) {
            faults.add("/went", "must differ from when somebody came");
        } else if (went != null && breakMinutes != null && breakMinutes > span()) {
            faults.add("/breakMinutes", "is longer than the time between");
        }
    }

    /**
     * Without the break; null while somebody is still there. In the night in which the clocks go
     * forward or back an hour is not there, or is there twice.
     */
    @Nullable Double minutesThere(LocalDate on, ZoneId zone) {
        if (came == null) {
            return minutes;
        }
        if (went == null) {
            return null;
        }
        LocalDate until = went.isBefore(came) ? on.plusDays(1) : on;
        Duration there =
                Duration.between(on.atTime(came).atZone(zone), until.atTime(went).atZone(zone));
        return Math.max(0, there.toSeconds() / 60.0 - (breakMinutes == null ? 0 : breakMinutes));
    }

    private double span() {
        double between = Duration.between(came, went).toSeconds() / 60.0;
        return between < 0 ? between + DAY : between;
    }
}
