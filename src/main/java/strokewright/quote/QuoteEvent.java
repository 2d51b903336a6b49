package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Money;

/**
 * One line of a quote's history.
 *
 * @param revision which one; null of a note
 * @param net of the revision, of the order, or the price that was told
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record QuoteEvent(
        Instant at,
        String by,
        Kind kind,
        @Nullable Integer revision,
        @Nullable Money net,
        @Nullable String text) {

    public enum Kind {
        @JsonProperty("begun")
        BEGUN("begun"),
        @JsonProperty("issued")
        ISSUED("issued"),
        @JsonProperty("accepted")
        ACCEPTED("accepted"),
        @JsonProperty("declined")
        DECLINED("declined"),
        @JsonProperty("withdrawn")
        WITHDRAWN("withdrawn"),
        @JsonProperty("taken-back")
        TAKEN_BACK("taken back"),
        @JsonProperty("price-told")
        PRICE_TOLD("price told"),
        @JsonProperty("note")
        NOTE("note");

        private final String words;

        Kind(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }
}
