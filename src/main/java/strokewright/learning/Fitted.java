package strokewright.learning;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import org.jspecify.annotations.Nullable;

/**
 * A figure that readings give, with its 95 % interval; or, where they only show that it is not less
 * than something, that bound.
 *
 * @param low equal to {@code value} where that is a bound
 * @param high null where {@code value} is a bound
 * @param bound null where {@code value} is the best estimate
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record Fitted(double value, double low, @Nullable Double high, @Nullable Bound bound) {

    enum Bound {
        @JsonProperty("lower")
        LOWER
    }

    static Fitted between(double low, double value, double high) {
        return new Fitted(value, low, high, null);
    }

    /**
     * @param half of the interval's width, of the logarithm
     */
    static Fitted within(double value, double half) {
        return between(value * Math.exp(-half), value, value * Math.exp(half));
    }

    static Fitted atLeast(double value) {
        return new Fitted(value, value, null, Bound.LOWER);
    }

    Fitted times(double factor) {
        return new Fitted(value * factor, low * factor, high == null ? null : high * factor, bound);
    }
}
