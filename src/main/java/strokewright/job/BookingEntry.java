package strokewright.job;

import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import strokewright.job.Booking.What;
import strokewright.quantity.Faults;

/**
 * A stretch of work as it is entered. Without minutes a clock starts now.
 *
 * @param id made by whoever enters it, so that sending it again adds nothing
 * @param step of the job; left out for the whole job and for indirect hours
 * @param what run when left out and a step is given, else the whole job
 * @param workedOn today when left out
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
        @Nullable LocalDate workedOn) {

    private static final int MOST_MINUTES = 24 * 60;
    private static final int MOST_COUNTED = 1_000_000;
    private static final int LONGEST_NOTE = 2000;

    /** Of a clock that is stopped without anything counted. */
    static final BookingEntry UNSAID =
            new BookingEntry(
                    null, null, null, null, null, null, null, null, null, null, null, null);

    /** What it is when it does not say so. */
    What kind(boolean onAJob) {
        if (what != null) {
            return what;
        }
        return onAJob ? (step == null ? What.WHOLE_JOB : What.RUN) : What.INDIRECT;
    }

    Faults faults(boolean onAJob) {
        Faults faults = new Faults();
        faults.present("/id", id, "a UUID of your own making, the same when it is sent again");
        counts(faults);
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
        return faults;
    }

    /** Minutes and what was counted. */
    void counts(Faults faults) {
        if (minutes != null) {
            faults.over("/minutes", minutes, 0, MOST_MINUTES);
        }
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
