package strokewright.job;

import com.fasterxml.jackson.annotation.JsonProperty;
import jakarta.persistence.AttributeConverter;
import java.util.Locale;

/** Where a job stands. */
public enum JobState {
    /** Planned and given to the floor; nobody has begun. */
    @JsonProperty("released")
    RELEASED,
    @JsonProperty("in-work")
    IN_WORK,
    /** Made; bookings may still come in. */
    @JsonProperty("finished")
    FINISHED,
    /** Compared with its plan; nothing is booked any more. */
    @JsonProperty("closed")
    CLOSED;

    /** As it is stored, sent and, without the hyphen, shown. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    static JobState of(String word) {
        return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
    }

    /** How it stands in the database. */
    static final class InWords implements AttributeConverter<JobState, String> {

        @Override
        public String convertToDatabaseColumn(JobState state) {
            return state.word();
        }

        @Override
        public JobState convertToEntityAttribute(String word) {
            return of(word);
        }
    }
}
