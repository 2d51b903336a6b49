package strokewright.quote;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Faults;

/**
 * A customer's no, or the shop's own.
 *
 * @param date today when left out
 * @param reason needed of a customer's no
 */
public record Declining(
        @Nullable LocalDate date,
        Outcome.@Nullable Reason reason,
        @Nullable String competition,
        @Nullable String note) {

    public Declining {
        competition = CustomerCard.tidy(competition);
        note = CustomerCard.tidy(note);
    }

    static final Declining UNSAID = new Declining(null, null, null, null);

    Faults faults(boolean reasonNeeded) {
        Faults faults = new Faults();
        if (reasonNeeded) {
            faults.present("/reason", reason, "why it was declined");
        }
        faults.textIfGiven("/competition", competition);
        Terms.prose(faults, "/note", note);
        return faults;
    }
}
