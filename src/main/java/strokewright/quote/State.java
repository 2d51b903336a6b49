package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonProperty;

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
        return name().toLowerCase(java.util.Locale.ROOT);
    }
}
