package strokewright.comparison;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.math.BigDecimal;

/**
 * Quoted for what was ordered, planned for what was made, and actual; hours, or kilograms.
 *
 * @param planned with the edition that the job was planned with
 */
public record Figures(BigDecimal quoted, BigDecimal planned, BigDecimal actual) {

    static final Figures NONE = new Figures(BigDecimal.ZERO, BigDecimal.ZERO, BigDecimal.ZERO);

    /** Actual less planned for what was made; over is positive. */
    @JsonProperty
    public BigDecimal over() {
        return actual.subtract(planned);
    }

    Figures plus(Figures more) {
        return new Figures(
                quoted.add(more.quoted), planned.add(more.planned), actual.add(more.actual));
    }

    boolean isNothing() {
        return quoted.signum() == 0 && planned.signum() == 0 && actual.signum() == 0;
    }
}
