package strokewright.learning;

import com.fasterxml.jackson.annotation.JsonProperty;

/** What holds the strain of a pass back. */
enum Held {
    @JsonProperty("bite")
    BITE,
    @JsonProperty("work")
    WORK,
    /** First the bite, then the work; or the one in one row and the other in another. */
    @JsonProperty("both")
    BOTH
}
