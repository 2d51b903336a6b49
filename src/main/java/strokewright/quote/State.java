package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonProperty;
import jakarta.persistence.AttributeConverter;
import java.util.Locale;

/** Where a revision of a quote stands. */
public enum State {
    /** Being worked on; priced anew each time it is saved. */
    @JsonProperty("draft")
    DRAFT,
    /** Given to the customer; never changes again. */
    @JsonProperty("issued")
    ISSUED;

    /** As it is stored, sent and shown. */
    String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** How it stands in the database. */
    static final class InWords implements AttributeConverter<State, String> {

        @Override
        public String convertToDatabaseColumn(State state) {
            return state.word();
        }

        @Override
        public State convertToEntityAttribute(String word) {
            return State.valueOf(word.toUpperCase(Locale.ROOT));
        }
    }
}
