package strokewright.quantity;

import com.fasterxml.jackson.annotation.JsonFormat;
import com.fasterxml.jackson.annotation.JsonIgnore;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Currency;

/**
 * An exact amount in one currency (ISO 4217). Arithmetic keeps every digit; rounding is asked for
 * by name. In JSON {@code {"amount":"12.34","currency":"EUR"}}, the amount as text so that no
 * reader makes a binary fraction of it.
 */
public record Money(
        @JsonFormat(shape = JsonFormat.Shape.STRING) BigDecimal amount, Currency currency) {

    public Money {
        if (amount.scale() < 0) {
            amount = amount.setScale(0); // 1E+2 would not survive a round trip through jsonb
        }
    }

    public static Money of(String amount, String currency) {
        return new Money(new BigDecimal(amount), Currency.getInstance(currency));
    }

    public static Money zero(Currency currency) {
        return new Money(BigDecimal.ZERO.setScale(minorDigits(currency)), currency);
    }

    /**
     * Rounds half up to the currency's minor unit.
     *
     * @throws ArithmeticException if the value is not finite
     */
    public static Money rounded(double value, Currency currency) {
        if (!Double.isFinite(value)) {
            throw new ArithmeticException("not an amount of money: " + value);
        }
        return rounded(BigDecimal.valueOf(value), currency);
    }

    public static Money rounded(BigDecimal value, Currency currency) {
        return new Money(value.setScale(minorDigits(currency), RoundingMode.HALF_UP), currency);
    }

    public Money plus(Money other) {
        return new Money(amount.add(same(other).amount), currency);
    }

    public Money minus(Money other) {
        return new Money(amount.subtract(same(other).amount), currency);
    }

    public Money times(long factor) {
        return new Money(amount.multiply(BigDecimal.valueOf(factor)), currency);
    }

    @JsonIgnore // else it would be written as a field that no reader knows
    public boolean isZero() {
        return amount.signum() == 0;
    }

    /** Can be paid: it has no part of the smallest coin. */
    @JsonIgnore
    public boolean isPayable() {
        return amount.stripTrailingZeros().scale() <= minorDigits(currency);
    }

    /** 12.5 as 12.50; what cannot be paid stays as it is. */
    public Money padded() {
        return isPayable() ? rounded(amount, currency) : this;
    }

    private Money same(Money other) {
        if (!currency.equals(other.currency)) {
            throw new IllegalArgumentException(
                    "cannot mix " + currency + " with " + other.currency);
        }
        return other;
    }

    /** Yen have none, most have two, dinars three; currencies without a minor unit count as two. */
    static int minorDigits(Currency currency) {
        return currency.getDefaultFractionDigits() < 0 ? 2 : currency.getDefaultFractionDigits();
    }

    @Override
    public String toString() {
        return amount.toPlainString() + " " + currency;
    }
}
