package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonProperty;

/**
 * A sentence that a quote could say to its customer.
 *
 * @param because why it is offered, for the shop
 * @param taken whether the quote says it already
 */
public record Suggestion(Kind kind, String text, String because, boolean taken) {

    public enum Kind {
        @JsonProperty("assumption")
        ASSUMPTION,
        @JsonProperty("exclusion")
        EXCLUSION,
        @JsonProperty("metal-price-basis")
        METAL_PRICE_BASIS
    }
}
