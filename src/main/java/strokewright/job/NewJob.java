package strokewright.job;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook;
import strokewright.quantity.Faults;
import strokewright.quantity.Money;
import strokewright.quote.CustomerChoice;

/**
 * A job to be released: from an accepted quote, or without one with items of its own.
 *
 * @param quote number of an accepted quote; all but the promised date is then left out
 * @param kind verbal, repair or warranty of a job without a quote
 * @param title the first item's when left out
 * @param reason what was said, or what went wrong
 * @param net agreed price before tax of all items; as estimated when left out, nothing for warranty
 * @param dueOn when the job is promised
 */
record NewJob(
        @Nullable String quote,
        @Nullable JobKind kind,
        @Nullable CustomerChoice customer,
        @Nullable String title,
        @Nullable String reason,
        @Nullable Money net,
        List<Wanted> items,
        @Nullable LocalDate dueOn) {

    static final int LONGEST_REASON = 2000;

    NewJob {
        items = items == null ? List.of() : Collections.unmodifiableList(new ArrayList<>(items));
    }

    static NewJob of(String quote, @Nullable LocalDate dueOn) {
        return new NewJob(quote, null, null, null, null, null, List.of(), dueOn);
    }

    boolean isOrdered() {
        return quote != null;
    }

    Faults faults(ShopBook book) {
        Faults faults = new Faults();
        if (quote == null && kind == null) {
            faults.add(
                    "/quote",
                    "is missing: the number of an accepted quote, or a kind (verbal, repair,"
                            + " warranty) with items");
        } else if (quote != null) {
            nothingBesides(faults);
        } else {
            unquoted(faults, book);
        }
        return faults;
    }

    private void nothingBesides(Faults faults) {
        String left = "stands in the quote: leave it out";
        if (kind != null && kind != JobKind.QUOTE) {
            faults.add("/kind", "must be quote, or be left out, with a quote");
        }
        absent(faults, "/customer", customer, left);
        absent(faults, "/title", title, left);
        absent(faults, "/net", net, left);
        absent(faults, "/items", items.isEmpty() ? null : items, left);
    }

    private static void absent(
            Faults faults, String at, @Nullable Object value, String whatInstead) {
        if (value != null) {
            faults.add(at, whatInstead);
        }
    }

    private void unquoted(Faults faults, ShopBook book) {
        if (kind == JobKind.QUOTE) {
            faults.add("/quote", "is missing: the number of an accepted quote");
        }
        if (faults.present("/customer", customer, "an id, or a name")) {
            customer.check(faults, "/customer");
        }
        title(faults, title);
        reason(faults, reason);
        faults.payableIfGiven("/net", net, book.currency());
        Wanted.check(faults, items, book);
    }

    static void reason(Faults faults, @Nullable String reason) {
        if (reason != null && reason.length() > LONGEST_REASON) {
            faults.add("/reason", "is too long: at most " + LONGEST_REASON + " characters");
        }
    }

    static void title(Faults faults, @Nullable String title) {
        if (title != null) {
            faults.text("/title", title);
        }
    }
}
