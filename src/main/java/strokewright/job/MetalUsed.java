package strokewright.job;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.Grade;
import strokewright.quantity.Money;
import strokewright.sheet.Mass;

/**
 * Metal of a job, weighed with the shop book of the day on which it was written down; a later book
 * changes nothing of it.
 *
 * @param takenKg all that was taken
 * @param backKg went back to stock
 * @param cost what the job bears, before tax: what was paid less what the offcut is worth
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record MetalUsed(
        @JsonUnwrapped MetalEntry entry,
        @Nullable String family,
        double takenKg,
        double backKg,
        Money cost) {

    static MetalUsed of(MetalEntry entry, ShopBook book) {
        Grade grade = book.grade(entry.grade()).orElseThrow();
        double taken = takenKg(entry, grade);
        double back = backKg(entry, grade);
        return new MetalUsed(entry, grade.family(), taken, back, cost(entry, taken, back));
    }

    private static double takenKg(MetalEntry entry, Grade grade) {
        if (entry.kg() != null) {
            return entry.kg();
        }
        return entry.isNothing()
                ? 0
                : entry.count() * kg(entry.lengthMm(), entry.widthMm(), entry, grade);
    }

    private static double backKg(MetalEntry entry, Grade grade) {
        if (entry.offcutKg() != null) {
            return entry.offcutKg();
        }
        return entry.offcutLengthMm() == null
                ? 0
                : kg(entry.offcutLengthMm(), entry.offcutWidthMm(), entry, grade);
    }

    private static double kg(double lengthMm, double widthMm, MetalEntry entry, Grade grade) {
        return Mass.kg(lengthMm * widthMm, entry.thicknessMm(), grade.densityKgM3());
    }

    private static Money cost(MetalEntry entry, double taken, double back) {
        Money paid = entry.paid();
        if (entry.offcutValue() != null) {
            return paid.minus(entry.offcutValue());
        }
        double share = taken == 0 ? 0 : Math.min(1, back / taken);
        return paid.minus(Money.rounded(paid.amount().doubleValue() * share, paid.currency()));
    }

    /** What the job took. */
    public double netKg() {
        return takenKg - backKg;
    }
}
