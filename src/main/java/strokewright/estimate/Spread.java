package strokewright.estimate;

import com.fasterxml.jackson.annotation.JsonProperty;
import org.jspecify.annotations.Nullable;

/**
 * How sure a time standard is of its minutes per unit, which stay the median of a log-normal spread
 * and the most likely value of a three-point one.
 *
 * @param sigma of a log-normal spread: standard deviation of the natural logarithm
 * @param low least minutes per unit of a three-point spread
 * @param high most minutes per unit of a three-point spread
 */
public record Spread(
        @Nullable Kind kind, @Nullable Double sigma, @Nullable Double low, @Nullable Double high) {

    public enum Kind {
        @JsonProperty("log-normal")
        LOG_NORMAL,
        @JsonProperty("triangular")
        TRIANGULAR,
        /** The beta distribution of three-point estimates, with shape 4. */
        @JsonProperty("beta")
        BETA
    }
}
