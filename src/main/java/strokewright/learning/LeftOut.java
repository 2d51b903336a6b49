package strokewright.learning;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import org.jspecify.annotations.Nullable;

/**
 * Work that nothing is learned from, with the reason.
 *
 * @param kind of work; null of the whole job
 * @param minutes booked
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record LeftOut(
        String job,
        @Nullable String kind,
        @Nullable String family,
        Reason reason,
        String words,
        double minutes) {

    enum Reason {
        @JsonProperty("rework")
        REWORK("Rework: the reserve pays for it."),
        @JsonProperty("warranty")
        WARRANTY("Warranty: work put right, not made anew."),
        @JsonProperty("scope-changed")
        SCOPE_CHANGED("The scope changed: a change order came in between."),
        @JsonProperty("given-up")
        GIVEN_UP("Some of it was given up: there are hours without pieces."),
        @JsonProperty("clock-runs")
        CLOCK_RUNS("A clock still runs on it."),
        @JsonProperty("not-reckonable")
        NOT_RECKONABLE("This edition of the shop book cannot reckon it."),
        @JsonProperty("whole-job")
        WHOLE_JOB("Booked on the whole job, without saying what was done."),
        @JsonProperty("mostly-whole-job")
        MOSTLY_WHOLE_JOB("Too much of it was booked on the whole job."),
        @JsonProperty("short")
        SHORT("Under 10 minutes estimated."),
        @JsonProperty("not-booked")
        NOT_BOOKED("Not booked."),
        @JsonProperty("partly-booked")
        PARTLY_BOOKED("Less than half of its steps were booked."),
        @JsonProperty("not-estimated")
        NOT_ESTIMATED("This edition of the shop book plans no such work for it."),
        @JsonProperty("implausible")
        IMPLAUSIBLE("More than ten times off: probably booked on the wrong step.");

        private final String words;

        Reason(String words) {
            this.words = words;
        }
    }

    static LeftOut job(String job, Reason reason, double minutes) {
        return new LeftOut(job, null, null, reason, reason.words, minutes);
    }

    static LeftOut work(String job, Observation.Cell cell, Reason reason, double minutes) {
        return new LeftOut(job, cell.kind(), cell.family(), reason, reason.words, minutes);
    }
}
