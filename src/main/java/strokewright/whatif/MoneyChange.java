package strokewright.whatif;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Currency;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook.PriceBreak;
import strokewright.estimate.ShopBook.Sheet;
import strokewright.quantity.Faults;
import strokewright.quantity.Money;

/**
 * How an amount changes: to another one, by so much, or by a share of it. One of the three is
 * stated.
 */
record MoneyChange(@Nullable Money to, @Nullable Money by, @Nullable Double byPercent) {

    /** As many decimals as a shop book holds. */
    private static final int DECIMALS = 6;

    private static final int SHOWN_DECIMALS = 2;
    private static final double LOWEST_PERCENT = -99;
    private static final double HIGHEST_PERCENT = 1000;
    private static final BigDecimal DEAREST = BigDecimal.valueOf(1_000_000);

    /**
     * @param at pointer of the change
     * @param now what changes; null where it is not known, or where it is several
     */
    void check(String at, @Nullable Money now, Currency currency, Faults faults) {
        int stated = (to == null ? 0 : 1) + (by == null ? 0 : 1) + (byPercent == null ? 0 : 1);
        if (stated != 1) {
            faults.add(at + "/byPercent", "state one of to, by and byPercent");
            return;
        }
        faults.withinIfGiven(at + "/byPercent", byPercent, LOWEST_PERCENT, HIGHEST_PERCENT);
        if (!usable(at, currency, faults) || now == null || by == null) {
            return;
        }
        BigDecimal then = now.amount().add(by.amount());
        if (then.signum() < 0 || then.compareTo(DEAREST) > 0) {
            faults.add(
                    at + "/by/amount",
                    "must lead to an amount from 0 to 1000000; now it is " + now);
        }
    }

    private boolean usable(String at, Currency currency, Faults faults) {
        Money money = to == null ? by : to;
        if (money == null) {
            return true;
        }
        String field = at + (to == null ? "/by" : "/to");
        if (!money.currency().equals(currency)) {
            faults.add(field + "/currency", "must be " + currency + ", as in the shop book");
            return false;
        }
        BigDecimal lowest = to == null ? DEAREST.negate() : BigDecimal.ZERO;
        if (money.amount().compareTo(lowest) < 0 || money.amount().compareTo(DEAREST) > 0) {
            faults.add(field + "/amount", "must be from " + lowest + " to " + DEAREST);
            return false;
        }
        if (money.amount().scale() > DECIMALS) {
            faults.add(field + "/amount", "must have at most 6 decimals");
            return false;
        }
        return true;
    }

    Money of(Money now) {
        if (to != null) {
            return to;
        }
        return by != null ? now.plus(by) : times(now, factor());
    }

    private BigDecimal factor() {
        return BigDecimal.ONE.add(BigDecimal.valueOf(byPercent).movePointLeft(2));
    }

    private static Money times(Money now, BigDecimal factor) {
        BigDecimal exact =
                now.amount()
                        .multiply(factor)
                        .setScale(DECIMALS, RoundingMode.HALF_UP)
                        .stripTrailingZeros();
        return new Money(
                exact.scale() < SHOWN_DECIMALS ? exact.setScale(SHOWN_DECIMALS) : exact,
                now.currency());
    }

    /** Of a line of sheet with all its prices; breaks follow another price in proportion. */
    Sheet of(Sheet sheet) {
        return new Sheet(
                sheet.grade(),
                sheet.thicknessMm(),
                sheet.lengthMm(),
                sheet.widthMm(),
                sheet.pricePerKg() == null ? null : of(sheet.pricePerKg()),
                sheet.pricePerSheet() == null ? null : of(sheet.pricePerSheet()),
                sheet.breaks().stream()
                        .map(b -> new PriceBreak(b.from(), ofBreak(b.price(), sheet)))
                        .toList(),
                sheet.origin());
    }

    private Money ofBreak(Money price, Sheet sheet) {
        if (to == null) {
            return of(price);
        }
        Money first = sheet.pricePerSheet() == null ? sheet.pricePerKg() : sheet.pricePerSheet();
        return first.isZero()
                ? to
                : times(price, to.amount().divide(first.amount(), MathContext.DECIMAL64));
    }
}
