package strokewright.whatif;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBookCheck;
import strokewright.quantity.Fault;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;
import strokewright.quote.QuoteNumber;

/**
 * Which other book the open drafts are tried with: the draft of the next edition, or the current
 * edition with a few changes, made one after the other.
 *
 * @param before only drafts with a lower number; null for the newest
 * @param most drafts to look at; {@link #MOST_DRAFTS} when left out
 */
record EffectAsked(
        @Nullable Boolean draftEdition,
        @Nullable List<BookChange> changes,
        @Nullable String before,
        @Nullable Integer most) {

    static final int MOST_CHANGES = 50;
    static final int MOST_DRAFTS = 300;

    EffectAsked {
        changes = changes == null ? null : Collections.unmodifiableList(new ArrayList<>(changes));
    }

    boolean ofDraftEdition() {
        return Boolean.TRUE.equals(draftEdition);
    }

    int drafts() {
        return most == null ? MOST_DRAFTS : most;
    }

    /**
     * @throws InvalidInput unless one of the two ways is asked for
     */
    void requireUsable() {
        Faults faults = new Faults();
        if (ofDraftEdition() == (changes != null)) {
            faults.add(
                    "/changes",
                    "state what changes, or draftEdition true for the draft of the next edition");
        } else if (changes != null) {
            faults.size("/changes", changes, 1, MOST_CHANGES);
        }
        faults.withinIfGiven("/most", most, 1, MOST_DRAFTS);
        if (before != null && QuoteNumber.read(before).isEmpty()) {
            faults.add("/before", "must be the number of a quote, like Q-2026-0001");
        }
        faults.throwIfAny();
    }

    /**
     * The book with every change.
     *
     * @throws InvalidInput with every fault of the changes
     */
    ShopBook changed(ShopBook book) {
        ShopBook changed = book;
        Faults faults = new Faults();
        for (int i = 0; i < changes.size(); i++) {
            String at = "/changes/" + i;
            BookChange change = changes.get(i);
            int before = faults.all().size();
            if (!faults.present(at, change, "one change")) {
                continue;
            }
            change.check(at, changed, faults);
            if (faults.all().size() > before) {
                continue;
            }
            ShopBook made = change.in(changed);
            List<Fault> unusable = ShopBookCheck.faults(made);
            if (unusable.isEmpty()) {
                changed = made;
            } else {
                faults.add(
                        at,
                        "would leave a shop book that cannot be used: %s %s"
                                .formatted(unusable.get(0).pointer(), unusable.get(0).message()));
            }
        }
        faults.throwIfAny();
        return changed;
    }
}
