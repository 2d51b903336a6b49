package strokewright.job;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import strokewright.job.Booking.Sort;
import strokewright.job.Booking.What;
import strokewright.quantity.Faults;

/**
 * A stretch of work as it is entered. Without minutes and end a clock starts.
 *
 * @param id made by whoever enters it, so that sending it again adds nothing
 * @param step of the job; left out for the whole job and for indirect hours
 * @param what run when left out and a step is given, else the whole job
 * @param workedOn the day of the start, or today, when left out
 * @param sort of the work, of a booking on the whole job
 * @param startedAt when it began, by the clock of where it was entered; now when left out
 * @param endedAt when it ended, of a stretch that is sent afterwards
 * @param paused whether such a stretch was left off
 */
public record BookingEntry(
        @Nullable UUID id,
        @Nullable Integer step,
        @Nullable What what,
        @Nullable Double minutes,
        @Nullable Integer pieces,
        @Nullable Integer scrapped,
        @Nullable Integer passes,
        @Nullable Integer checks,
        @Nullable Boolean withHelper,
        @Nullable String reason,
        @Nullable String note,
        @Nullable LocalDate workedOn,
        @Nullable Sort sort,
        @Nullable Instant startedAt,
        @Nullable Instant endedAt,
        @Nullable Boolean paused) {

    /** A clock that has run for longer was probably forgotten; assumed, no shift is so long. */
    static final Duration PROBABLY_FORGOTTEN = Duration.ofHours(12);

    /** Clocks of phones differ that much; assumed. */
    private static final Duration CLOCKS_DIFFER = Duration.ofMinutes(5);

    /** So long a phone may be without a connection; assumed. */
    private static final Duration KEPT_AT_MOST = Duration.ofDays(14);

    /** Kept to a hundredth; less would be nothing. */
    private static final double LEAST_MINUTES = 0.01;

    private static final int MOST_MINUTES = 24 * 60;
    private static final int MOST_COUNTED = 1_000_000;
    private static final int LONGEST_NOTE = 2000;

    /** Of a clock that is stopped without anything counted. */
    static final BookingEntry UNSAID =
            new BookingEntry(
                    null, null, null, null, null, null, null, null, null, null, null, null, null,
                    null, null, null);

    /** Of a pause: counted is at the end. */
    BookingEntry withoutCounts() {
        return new BookingEntry(
                id, step, what, minutes, null, null, null, null, null, reason, note, workedOn, sort,
                null, endedAt, null);
    }

    BookingEntry withId(UUID id) {
        return new BookingEntry(
                id,
                step,
                what,
                minutes,
                pieces,
                scrapped,
                passes,
                checks,
                withHelper,
                reason,
                note,
                workedOn,
                sort,
                startedAt,
                endedAt,
                paused);
    }

    BookingEntry ofSort(@Nullable Sort sort) {
        return new BookingEntry(
                id,
                step,
                what,
                minutes,
                pieces,
                scrapped,
                passes,
                checks,
                withHelper,
                reason,
                note,
                workedOn,
                sort,
                startedAt,
                endedAt,
                paused);
    }

    /** A correction that says no day belongs to the day of what was wrong. */
    BookingEntry onTheDayOf(Booking wrong) {
        return new BookingEntry(
                id,
                step,
                what,
                minutes,
                pieces,
                scrapped,
                passes,
                checks,
                withHelper,
                reason,
                note,
                workedOn == null ? wrong.workedOn() : workedOn,
                sort,
                null,
                null,
                null);
    }

    /** What it is when it does not say so. */
    What kind(boolean onAJob) {
        if (what != null) {
            return what;
        }
        return onAJob ? (step == null ? What.WHOLE_JOB : What.RUN) : What.INDIRECT;
    }

    boolean startsClock() {
        return minutes == null && endedAt == null;
    }

    Faults faults(boolean onAJob, Instant now) {
        Faults faults = entered(onAJob);
        if (minutes != null) {
            faults.within("/minutes", minutes, LEAST_MINUTES, MOST_MINUTES);
        }
        counts(faults);
        times(faults, now);
        if (isPaused() && endedAt == null) {
            faults.add("/paused", "belongs to a stretch that has ended: say endedAt too");
        }
        return faults;
    }

    boolean isPaused() {
        return Boolean.TRUE.equals(paused);
    }

    /** In the place of one that was wrong; nothing is left of one that never was. */
    Faults faultsOfCorrection(boolean onAJob) {
        Faults faults = entered(onAJob);
        if (faults.present("/minutes", minutes, "how long it really was; 0 if it never was")) {
            faults.within("/minutes", minutes, 0, MOST_MINUTES);
        }
        counts(faults);
        if (startedAt != null || endedAt != null) {
            faults.add(
                    startedAt != null ? "/startedAt" : "/endedAt",
                    "is not corrected: say the minutes");
        }
        return faults;
    }

    /** Nobody books for tomorrow; what is entered late is at most a year old. */
    static void day(Faults faults, @Nullable LocalDate day, LocalDate today) {
        if (day != null && day.isAfter(today)) {
            faults.add("/workedOn", "is still to come: " + today + " or before");
        }
        if (day != null && day.isBefore(today.minusYears(1))) {
            faults.add("/workedOn", "is too long ago: " + today.minusYears(1) + " or after");
        }
    }

    private void times(Faults faults, Instant now) {
        if (startedAt == null) {
            if (endedAt != null) {
                faults.add("/startedAt", "is missing: when it began");
            }
            return;
        }
        if (startedAt.isBefore(now.minus(KEPT_AT_MOST))) {
            faults.add(
                    "/startedAt",
                    "is more than %d days ago: enter the minutes of that day"
                            .formatted(KEPT_AT_MOST.toDays()));
        }
        requirePast(faults, "/startedAt", startedAt, now);
        if (endedAt == null) {
            if (minutes != null) {
                faults.add("/minutes", "belong to a stretch that has ended: say endedAt too");
            }
            return;
        }
        end(faults, startedAt, now);
    }

    /** Of a clock that ran since then. */
    void end(Faults faults, Instant since, Instant now) {
        if (endedAt != null) {
            requirePast(faults, "/endedAt", endedAt, now);
            if (endedAt.isBefore(since)) {
                faults.add("/endedAt", "must be after the start, " + since);
            }
        }
        if (minutes != null) {
            faults.within("/minutes", minutes, LEAST_MINUTES, MOST_MINUTES);
        } else if (isTooLong(since, endedAt(now))) {
            faults.add(
                    "/minutes",
                    "is missing: the clock ran for more than 12 hours; how long was it really?");
        }
    }

    static boolean isTooLong(Instant from, Instant to) {
        return Duration.between(from, to).compareTo(PROBABLY_FORGOTTEN) > 0;
    }

    private static void requirePast(Faults faults, String pointer, Instant time, Instant now) {
        if (time.isAfter(now.plus(CLOCKS_DIFFER))) {
            faults.add(pointer, "is still to come: look at the clock of the phone");
        }
    }

    /** Never after now, whatever the phone's clock says. */
    Instant startedAt(Instant now) {
        return startedAt == null || startedAt.isAfter(now) ? now : startedAt;
    }

    /** Never after now. */
    Instant endedAt(Instant now) {
        return endedAt == null || endedAt.isAfter(now) ? now : endedAt;
    }

    private Faults entered(boolean onAJob) {
        Faults faults = new Faults();
        faults.present("/id", id, "a UUID of your own making, the same when it is sent again");
        What kind = kind(onAJob);
        if (onAJob == (kind == What.INDIRECT)) {
            faults.add(
                    "/what",
                    onAJob
                            ? "is indirect: that belongs to no job"
                            : "must be indirect: anything else belongs to a job");
        }
        if ((kind == What.RUN || kind == What.SET_UP) && step == null) {
            faults.add("/step", "is missing: the number of a step of the job");
        }
        if ((kind == What.INDIRECT || kind == What.WHOLE_JOB) && step != null) {
            faults.add("/step", "belongs to run, set-up or rework: leave it out");
        }
        if ((kind == What.REWORK || kind == What.INDIRECT)
                && (reason == null || reason.isBlank())) {
            faults.add("/reason", "is missing: why, in a few words");
        }
        if (sort != null && kind != What.WHOLE_JOB) {
            faults.add("/sort", "belongs to whole-job: leave it out");
        }
        return faults;
    }

    /** What was counted, and what was told. */
    void counts(Faults faults) {
        faults.withinIfGiven("/pieces", pieces, 0, MOST_COUNTED);
        faults.withinIfGiven("/scrapped", scrapped, 0, MOST_COUNTED);
        faults.withinIfGiven("/passes", passes, 0, MOST_COUNTED);
        faults.withinIfGiven("/checks", checks, 0, MOST_COUNTED);
        faults.textIfGiven("/reason", reason);
        if (note != null && note.length() > LONGEST_NOTE) {
            faults.add("/note", "is too long: at most " + LONGEST_NOTE + " characters");
        }
    }
}
