package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonProperty;
import jakarta.persistence.AttributeConverter;
import java.util.Locale;

/** Where a quote, or one of its revisions, stands. */
public enum State {
    /** Being worked on; priced anew each time it is saved. */
    @JsonProperty("draft")
    DRAFT,
    /** Given to the customer; never changes again. */
    @JsonProperty("issued")
    ISSUED,
    /** Ordered. */
    @JsonProperty("accepted")
    ACCEPTED,
    /** The customer said no. */
    @JsonProperty("declined")
    DECLINED,
    /** Issued, and its last day has passed without an answer. Told by the date, never stored. */
    @JsonProperty("lapsed")
    LAPSED,
    /** The shop does not offer it any more. */
    @JsonProperty("withdrawn")
    WITHDRAWN;

    /** As it is stored, sent and shown. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    static State of(String word) {
        return valueOf(word.toUpperCase(Locale.ROOT));
    }

    /** How it stands in the database. */
    static final class InWords implements AttributeConverter<State, String> {

        @Override
        public String convertToDatabaseColumn(State state) {
            return state.word();
        }

        @Override
        public State convertToEntityAttribute(String word) {
            return of(word);
        }
    }
}
