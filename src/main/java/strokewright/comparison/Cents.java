package strokewright.comparison;

import static strokewright.costing.CostingFormula.PERCENT_OF;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Currency;
import java.util.List;
import strokewright.costing.Adding;
import strokewright.quantity.Money;

/** Amounts of one currency, rounded to its smallest coin. */
record Cents(Currency currency) {

    Money zero() {
        return Money.zero(currency);
    }

    Money of(BigDecimal exact) {
        return Money.rounded(exact, currency);
    }

    Money of(Money paid) {
        return Money.rounded(paid.amount(), currency);
    }

    Money percentOf(BigDecimal base, double percent) {
        return of(PERCENT_OF.exact(base, BigDecimal.valueOf(percent)));
    }

    /** Rounds the whole, then the parts so that they add up to it. */
    List<BigDecimal> parts(List<BigDecimal> exact) {
        if (exact.isEmpty()) {
            return List.of();
        }
        BigDecimal whole = exact.stream().reduce(BigDecimal.ZERO, BigDecimal::add);
        return Adding.upTo(whole.setScale(zero().amount().scale(), RoundingMode.HALF_UP), exact);
    }
}
