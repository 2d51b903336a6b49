package strokewright.shopbook;

import java.util.Locale;
import java.util.Optional;
import org.springframework.stereotype.Component;
import strokewright.access.Documents;
import strokewright.estimate.ShopBook;
import strokewright.web.Numbers;

/** The draft of the next edition for other features: what it would change before it is adopted. */
@Component
public class NextEdition {

    private final Drafts drafts;
    private final Documents documents;

    NextEdition(Drafts drafts, Documents documents) {
        this.drafts = drafts;
        this.documents = documents;
    }

    /**
     * A page that tells something about the draft; declared as a bean, linked where it is adopted.
     */
    public record Page(String label, String path) {}

    /**
     * The draft as the book that it would become, numbered after the edition that it was begun
     * from; empty where there is no draft, or one with faults.
     */
    public Optional<ShopBook> ifUsable() {
        if (drafts.facts().isEmpty()) {
            return Optional.empty();
        }
        Draft draft = drafts.now();
        DraftReading reading =
                DraftReading.of(draft, draft.with(Numbers.of(Locale.ROOT)), documents);
        return reading.faults().isEmpty()
                ? Optional.of(reading.book().withEdition(draft.base() + 1))
                : Optional.empty();
    }
}
