package strokewright.job;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Locale;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * One stretch of work as it was booked. A clock that still runs has a start and no minutes.
 *
 * @param id made where it was entered
 * @param workerId of whoever worked; what an hour of theirs costs hangs on it
 * @param who worked
 * @param job number; null of indirect hours
 * @param step of the job; null where only the whole job is known
 * @param work what the step is called
 * @param sort of the work, of a booking on the whole job; never used below the job
 * @param source how finely the time is known
 * @param paused the stretch was left off, and what was counted stands with a later one
 * @param minutes elapsed, of one person
 * @param withHelper two people for the whole stretch
 * @param reason of rework, or what indirect hours went to
 * @param enteredBy whoever entered it, for others too
 * @param replaces the booking that this one corrects
 * @param replacedBy the correction that counts instead
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record Booking(
        UUID id,
        @JsonIgnore UUID workerId,
        String who,
        @Nullable String job,
        @Nullable Integer step,
        @Nullable String work,
        What what,
        @Nullable Sort sort,
        Source source,
        boolean paused,
        @Nullable Instant startedAt,
        @Nullable Instant endedAt,
        @Nullable Double minutes,
        @Nullable Integer pieces,
        @Nullable Integer scrapped,
        @Nullable Integer passes,
        @Nullable Integer checks,
        boolean withHelper,
        @Nullable String reason,
        @Nullable String note,
        LocalDate workedOn,
        Instant enteredAt,
        String enteredBy,
        @Nullable UUID replaces,
        @Nullable UUID replacedBy) {

    /** What the time went to. */
    public enum What {
        @JsonProperty("run")
        RUN("Work"),
        @JsonProperty("set-up")
        SET_UP("Set-up"),
        @JsonProperty("rework")
        REWORK("Rework"),
        /** Booked on the job without saying what was done. */
        @JsonProperty("whole-job")
        WHOLE_JOB("Whole job"),
        /** On no job: cleaning, waiting, maintenance. */
        @JsonProperty("indirect")
        INDIRECT("No job");

        private final String words;

        What(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }

        /** As it is stored and sent. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }

        static What of(String word) {
            return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
        }
    }

    /** What kind of work it was, told by people who book per job. */
    public enum Sort {
        @JsonProperty("forming")
        FORMING("Forming"),
        @JsonProperty("other")
        OTHER("Other work"),
        @JsonProperty("set-up")
        SET_UP("Set-up");

        private final String words;

        Sort(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }

        /** As it is stored and sent. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }

        static Sort of(String word) {
            return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
        }
    }

    /** Where the time comes from, the finest first. */
    public enum Source {
        /** Timed from start to stop. */
        @JsonProperty("clock")
        CLOCK,
        /** Said by a person. */
        @JsonProperty("minutes")
        MINUTES,
        /** Read from a time sheet. */
        @JsonProperty("sheet")
        SHEET;

        String word() {
            return name().toLowerCase(Locale.ROOT);
        }

        static Source of(String word) {
            return valueOf(word.toUpperCase(Locale.ROOT));
        }
    }

    public boolean runs() {
        return startedAt != null && endedAt == null;
    }
}
