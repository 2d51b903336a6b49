package strokewright.job;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook;
import strokewright.quantity.Faults;
import strokewright.quantity.Money;

/**
 * A bill for what was bought out for a job.
 *
 * @param id made by whoever sends it, so that sending it again adds nothing
 * @param name what was bought
 * @param extra name of the planned extra that it pays for; null of what nobody planned
 * @param supplier whose bill
 * @param number of the bill
 * @param amount before tax
 * @param billedOn today when left out
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record BillEntry(
        @Nullable UUID id,
        @Nullable String name,
        @Nullable String extra,
        @Nullable String supplier,
        @Nullable String number,
        @Nullable Money amount,
        @Nullable String note,
        @Nullable LocalDate billedOn) {

    private static final int LONGEST_NOTE = 2000;

    public BillEntry {
        amount = MetalEntry.padded(amount);
    }

    BillEntry on(LocalDate day) {
        return billedOn != null
                ? this
                : new BillEntry(id, name, extra, supplier, number, amount, note, day);
    }

    Faults faults(ShopBook book) {
        Faults faults = new Faults();
        faults.present("/id", id, "a UUID of your own making, the same when it is sent again");
        faults.text("/name", name);
        faults.textIfGiven("/extra", extra);
        faults.textIfGiven("/supplier", supplier);
        faults.textIfGiven("/number", number);
        faults.present("/amount", amount, "an amount before tax");
        faults.payableIfGiven("/amount", amount, book.currency());
        note(faults, note);
        return faults;
    }

    static void note(Faults faults, @Nullable String note) {
        if (note != null && note.length() > LONGEST_NOTE) {
            faults.add("/note", "is too long: at most " + LONGEST_NOTE + " characters");
        }
    }
}
