package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Faults;

/**
 * How the goods get to the customer. What it costs is an item of the quote like other work.
 *
 * @param place where to; the customer's delivery address when left out
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record Delivery(Kind kind, @Nullable String place) {

    public enum Kind {
        @JsonProperty("collected")
        COLLECTED("Collected from the workshop"),
        @JsonProperty("delivered")
        DELIVERED("Delivered"),
        @JsonProperty("delivered-and-fitted")
        DELIVERED_AND_FITTED("Delivered and fitted on site");

        private final String words;

        Kind(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }

    void check(Faults faults, String at) {
        faults.present(at + "/kind", kind, "one of collected, delivered, delivered-and-fitted");
        faults.textIfGiven(at + "/place", place);
    }
}
