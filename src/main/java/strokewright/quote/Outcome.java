package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * What became of a revision.
 *
 * @param date on which it was decided
 * @param reason why not; null of an order
 * @param note in the words of whoever wrote it down
 * @param competition who or what was preferred, as far as it was told
 * @param order of an accepted revision
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record Outcome(
        Kind kind,
        LocalDate date,
        @Nullable Reason reason,
        @Nullable String note,
        @Nullable String competition,
        @Nullable Order order) {

    public enum Kind {
        @JsonProperty("accepted")
        ACCEPTED(State.ACCEPTED),
        @JsonProperty("declined")
        DECLINED(State.DECLINED),
        @JsonProperty("withdrawn")
        WITHDRAWN(State.WITHDRAWN);

        private final State state;

        Kind(State state) {
            this.state = state;
        }

        State state() {
            return state;
        }
    }

    /** Why a customer said no. */
    public enum Reason {
        @JsonProperty("price")
        PRICE("price"),
        @JsonProperty("lead-time")
        LEAD_TIME("lead time"),
        @JsonProperty("workmanship")
        WORKMANSHIP("finish or accuracy"),
        @JsonProperty("put-off")
        PUT_OFF("put off or dropped"),
        @JsonProperty("made-themselves")
        MADE_THEMSELVES("made it themselves"),
        @JsonProperty("no-answer")
        NO_ANSWER("no answer"),
        @JsonProperty("other")
        OTHER("other");

        private final String words;

        Reason(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }
}
