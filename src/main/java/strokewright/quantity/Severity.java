package strokewright.quantity;

import com.fasterxml.jackson.annotation.JsonProperty;

/** How much a {@link Finding} weighs. */
public enum Severity {
    /** Good to know. */
    @JsonProperty("note")
    NOTE,
    /** The figures stand, but somebody should look. */
    @JsonProperty("doubt")
    DOUBT,
    /** The work cannot be done as described; the item can be saved but not issued. */
    @JsonProperty("refusal")
    REFUSAL
}
