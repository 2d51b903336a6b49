package strokewright.job;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook;
import strokewright.quantity.Faults;
import strokewright.quantity.Money;

/**
 * Metal that was taken for a job: so many sheets or blanks of a size, or so many kilograms.
 *
 * @param id made by whoever sends it, so that sending it again adds nothing
 * @param item position of the item that it was for; null for the job as a whole
 * @param grade code in the shop book
 * @param count sheets or blanks; 0 in a correction of what was not taken at all
 * @param kg weighed, all together; reckoned from size and count when left out
 * @param paid for all of it, before tax
 * @param offcutKg went back to stock; reckoned from its size when left out
 * @param offcutValue what the offcut is worth; its share of what was paid when left out
 * @param usedOn today when left out
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record MetalEntry(
        @Nullable UUID id,
        @Nullable Integer item,
        @Nullable String grade,
        @Nullable Double thicknessMm,
        @Nullable Double lengthMm,
        @Nullable Double widthMm,
        @Nullable Integer count,
        @Nullable Double kg,
        @Nullable Money paid,
        @Nullable Double offcutLengthMm,
        @Nullable Double offcutWidthMm,
        @Nullable Double offcutKg,
        @Nullable Money offcutValue,
        @Nullable String note,
        @Nullable LocalDate usedOn) {

    private static final double LONGEST_MM = 100_000;
    private static final double MOST_KG = 1_000_000;
    private static final int MOST = 1_000_000;

    public MetalEntry {
        paid = padded(paid);
        offcutValue = padded(offcutValue);
    }

    static @Nullable Money padded(@Nullable Money money) {
        return money == null ? null : money.padded();
    }

    MetalEntry on(LocalDate day) {
        return usedOn != null
                ? this
                : new MetalEntry(
                        id,
                        item,
                        grade,
                        thicknessMm,
                        lengthMm,
                        widthMm,
                        count,
                        kg,
                        paid,
                        offcutLengthMm,
                        offcutWidthMm,
                        offcutKg,
                        offcutValue,
                        note,
                        day);
    }

    Faults faults(ShopBook book) {
        Faults faults = new Faults();
        faults.present("/id", id, "a UUID of your own making, the same when it is sent again");
        if (faults.present("/grade", grade, "a grade of the shop book")
                && book.grade(grade).isEmpty()) {
            faults.add("/grade", "is no grade of the shop book");
        }
        faults.overIfGiven("/thicknessMm", thicknessMm, 0, 100);
        faults.overIfGiven("/lengthMm", lengthMm, 0, LONGEST_MM);
        faults.overIfGiven("/widthMm", widthMm, 0, LONGEST_MM);
        faults.withinIfGiven("/count", count, 0, MOST);
        faults.withinIfGiven("/kg", kg, 0, MOST_KG);
        if (kg == null && !isNothing() && !sized()) {
            faults.add(
                    "/kg", "is missing: the mass, or thicknessMm, lengthMm, widthMm and a count");
        }
        faults.present("/paid", paid, "an amount before tax");
        faults.payableIfGiven("/paid", paid, book.currency());
        faults.payableIfGiven("/offcutValue", offcutValue, book.currency());
        faults.overIfGiven("/offcutLengthMm", offcutLengthMm, 0, LONGEST_MM);
        faults.overIfGiven("/offcutWidthMm", offcutWidthMm, 0, LONGEST_MM);
        faults.withinIfGiven("/offcutKg", offcutKg, 0, MOST_KG);
        if (kg != null && kg == 0 && paid != null && paid.amount().signum() > 0) {
            faults.add("/kg", "must be over 0 where something was paid");
        }
        if (offcutValue != null
                && paid != null
                && offcutValue.amount().compareTo(paid.amount()) > 0) {
            faults.add("/offcutValue", "is more than what was paid");
        }
        if ((offcutLengthMm == null) != (offcutWidthMm == null)) {
            faults.add(
                    offcutLengthMm == null ? "/offcutLengthMm" : "/offcutWidthMm",
                    "is missing: an offcut has a length and a width");
        }
        if (offcutLengthMm != null && thicknessMm == null && offcutKg == null) {
            faults.add("/thicknessMm", "is missing: the offcut's mass hangs on it");
        }
        if (faults.none()) {
            MetalUsed used = MetalUsed.of(this, book);
            if (used.backKg() > used.takenKg() * (1 + 1e-9)) {
                faults.add("/offcutKg", "is more than what was taken");
            }
        }
        BillEntry.note(faults, note);
        return faults;
    }

    /** What was not taken at all. */
    boolean isNothing() {
        return count != null && count == 0;
    }

    private boolean sized() {
        return thicknessMm != null && lengthMm != null && widthMm != null && count != null;
    }

    /** As people say it: 2 of 2000 × 1000 × 1.5 mm. */
    public String size() {
        if (lengthMm == null || widthMm == null || thicknessMm == null) {
            return thicknessMm == null ? "" : plain(thicknessMm) + " mm";
        }
        return "%s%s × %s × %s mm"
                .formatted(
                        count == null ? "" : count + " of ",
                        plain(lengthMm),
                        plain(widthMm),
                        plain(thicknessMm));
    }

    private static String plain(double mm) {
        return BigDecimal.valueOf(mm).stripTrailingZeros().toPlainString();
    }
}
