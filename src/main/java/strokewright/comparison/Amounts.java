package strokewright.comparison;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.Currency;
import strokewright.quantity.Money;

/** Quoted for what was ordered, planned for what was made, and actual; to the cent. */
public record Amounts(Money quoted, Money planned, Money actual) {

    static Amounts none(Currency currency) {
        Money none = Money.zero(currency);
        return new Amounts(none, none, none);
    }

    /** Actual less planned for what was made; over is positive. */
    @JsonProperty
    public Money over() {
        return actual.minus(planned);
    }

    Amounts plus(Amounts more) {
        return new Amounts(
                quoted.plus(more.quoted), planned.plus(more.planned), actual.plus(more.actual));
    }

    boolean isNothing() {
        return quoted.isZero() && planned.isZero() && actual.isZero();
    }
}
