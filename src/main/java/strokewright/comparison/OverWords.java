package strokewright.comparison;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Money;
import strokewright.web.Numbers;

/** Differences from the plan in words: over is worse, under is better. */
public final class OverWords {

    private final Numbers numbers;

    OverWords(Numbers numbers) {
        this.numbers = numbers;
    }

    static String word(BigDecimal over) {
        return over.signum() > 0 ? "over" : over.signum() < 0 ? "under" : "as planned";
    }

    /** "1.50 over", "0.20 under", "as planned"; hours with two digits. */
    public String hours(BigDecimal over) {
        return said(over.setScale(2, RoundingMode.HALF_UP), 2);
    }

    /** The same of an amount, to the cent. */
    public String money(Money over) {
        return said(over.amount(), over.amount().scale());
    }

    /** The same; nothing where there is no difference. */
    public String part(@Nullable Money over) {
        return over == null || over.isZero() ? "" : money(over);
    }

    /** An amount without its currency. */
    public String amount(Money amount) {
        return numbers.show(amount.amount(), amount.amount().scale());
    }

    /** "12.5 %", "3.0 % loss". */
    public String percent(BigDecimal percent) {
        return numbers.show(percent.abs(), 1) + "\u00a0%" + (percent.signum() < 0 ? " loss" : "");
    }

    /** Whether a cause of any line is drawn. */
    public boolean anyCauses(List<ComparisonViews.WorkView> work) {
        return work.stream().anyMatch(v -> v.causes() != null);
    }

    private String said(BigDecimal over, int digits) {
        return over.signum() == 0
                ? "as planned"
                : numbers.show(over.abs().doubleValue(), digits) + " " + word(over);
    }
}
