package strokewright.web;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;

/**
 * What a typed text was read as, or else what would be right instead. Both are null for an empty
 * field.
 */
public record Reading(@Nullable BigDecimal value, @Nullable String fault) {

    private static final BigDecimal LARGEST = BigDecimal.valueOf(Integer.MAX_VALUE);

    static final Reading EMPTY = new Reading(null, null);

    static Reading of(BigDecimal value) {
        return new Reading(value, null);
    }

    static Reading fault(String whatWouldBeRight) {
        return new Reading(null, whatWouldBeRight);
    }

    Reading map(UnaryOperator<BigDecimal> change) {
        return value == null ? this : of(change.apply(value));
    }

    Reading times(BigDecimal factor) {
        return map(v -> v.multiply(factor, MathContext.DECIMAL64));
    }

    public @Nullable Double asDouble() {
        return value == null ? null : Double.valueOf(value.doubleValue());
    }

    /** Of a whole number; what no int holds becomes the one nearest to it. */
    public @Nullable Integer asInteger() {
        return value == null
                ? null
                : Integer.valueOf(value.min(LARGEST).max(LARGEST.negate()).intValue());
    }
}
