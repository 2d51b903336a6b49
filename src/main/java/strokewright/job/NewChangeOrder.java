package strokewright.job;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook;
import strokewright.quantity.Faults;
import strokewright.quantity.Money;

/**
 * More that was agreed on a running job.
 *
 * @param id made by whoever sends it, so that sending it again adds nothing
 * @param title the first item's when left out
 * @param reason why more is done
 * @param net what the customer pays for it in all, before tax; as estimated when left out
 */
record NewChangeOrder(
        @Nullable UUID id,
        @Nullable String title,
        @Nullable String reason,
        @Nullable Money net,
        List<Wanted> items) {

    NewChangeOrder {
        items = items == null ? List.of() : Collections.unmodifiableList(new ArrayList<>(items));
    }

    Faults faults(ShopBook book) {
        Faults faults = new Faults();
        NewJob.title(faults, title);
        if (reason == null || reason.isBlank()) {
            faults.add("/reason", "is missing: why more is done, in a few words");
        }
        NewJob.reason(faults, reason);
        faults.payableIfGiven("/net", net, book.currency());
        Wanted.check(faults, items, book);
        return faults;
    }
}
