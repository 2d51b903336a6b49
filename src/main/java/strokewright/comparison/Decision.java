package strokewright.comparison;

import com.fasterxml.jackson.annotation.JsonProperty;

/**
 * Something that waits for the owner.
 *
 * @param link page on which to act
 */
public record Decision(Code code, String message, String link) {

    public enum Code {
        @JsonProperty("forgotten-clock")
        FORGOTTEN_CLOCK,
        @JsonProperty("job-over-plan")
        JOB_OVER_PLAN,
        @JsonProperty("job-late")
        JOB_LATE,
        @JsonProperty("jobs-to-close")
        JOBS_TO_CLOSE,
        @JsonProperty("jobs-to-release")
        JOBS_TO_RELEASE,
        @JsonProperty("quotes-lapsing")
        QUOTES_LAPSING,
        @JsonProperty("jobs-incomplete")
        JOBS_INCOMPLETE,
        @JsonProperty("people-without-rate")
        PEOPLE_WITHOUT_RATE,
        /** A kind of work or a metal takes longer or shorter than it did. */
        @JsonProperty("drift")
        DRIFT,
        /** Finished jobs propose factors that differ from those in use. */
        @JsonProperty("factors-to-adopt")
        FACTORS_TO_ADOPT
    }
}
