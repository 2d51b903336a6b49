package strokewright.whatif;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import strokewright.estimate.ShopBook;
import strokewright.quantity.InvalidInput;
import strokewright.quote.OpenDraft;
import strokewright.quote.OpenDrafts;
import strokewright.quote.QuoteNumber;
import strokewright.shopbook.NextEdition;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Problem;

/**
 * Reckons the open drafts with another book and stores nothing. Not transactional: drafts are read
 * in blocks, each in a transaction of its own that has ended when the block is reckoned.
 */
@Component
class Effects {

    private static final int BLOCK = 25;

    /** It takes a core for seconds: one at a time leaves the others to whoever is typing. */
    private final Semaphore turn = new Semaphore(1, true);

    private static final int MOST_SECONDS_TO_WAIT = 10;

    private final OpenDrafts drafts;
    private final ShopBooks books;
    private final NextEdition next;

    Effects(OpenDrafts drafts, ShopBooks books, NextEdition next) {
        this.drafts = drafts;
        this.books = books;
        this.next = next;
    }

    /**
     * @throws InvalidInput with every fault of what is asked
     * @throws Problem 409 when there is no draft of the next edition that could be adopted, 503
     *     when others are at it
     */
    Effect of(EffectAsked asked) {
        asked.requireUsable();
        ShopBook now = books.current();
        ShopBook then = asked.ofDraftEdition() ? draft() : asked.changed(now);
        return inTurn(() -> reckoned(asked, now, then));
    }

    /**
     * The draft of the next edition as a book.
     *
     * @param trouble why there is none to try; null with a book
     */
    record NextBook(@Nullable ShopBook book, @Nullable String trouble) {}

    NextBook nextBook() {
        int current = books.current().edition();
        ShopBook draft = next.ifUsable().orElse(null);
        if (draft == null) {
            return new NextBook(
                    null,
                    "There is no draft of the next edition, or it has faults to clear first.");
        }
        if (draft.edition() != current + 1) {
            return new NextBook(
                    null,
                    "The draft was begun from edition %d; meanwhile edition %d was added. Take that over into the draft first."
                            .formatted(draft.edition() - 1, current));
        }
        return new NextBook(draft, null);
    }

    private ShopBook draft() {
        NextBook draft = nextBook();
        if (draft.book == null) {
            throw Problem.wrongState(String.valueOf(draft.trouble));
        }
        return draft.book;
    }

    private Effect reckoned(EffectAsked asked, ShopBook now, ShopBook then) {
        QuoteNumber begin =
                asked.before() == null ? null : QuoteNumber.read(asked.before()).orElseThrow();
        int open = drafts.count(begin);
        List<Effect.OfQuote> quotes = new ArrayList<>();
        QuoteNumber before = begin;
        boolean more = true;
        while (more && quotes.size() < asked.drafts()) {
            int size = Math.min(BLOCK, asked.drafts() - quotes.size());
            List<OpenDraft> block = drafts.read(before, size);
            block.forEach(d -> quotes.add(Effect.on(d, now, then)));
            more = block.size() == size;
            before = block.isEmpty() ? before : block.get(block.size() - 1).number();
        }
        int all = Math.max(open, quotes.size()); // somebody may begin or issue one meanwhile
        return Effect.of(
                now,
                asked.ofDraftEdition() ? then.edition() : null,
                more ? all : quotes.size(),
                more && all > quotes.size() ? String.valueOf(before) : null,
                quotes);
    }

    private Effect inTurn(Supplier<Effect> work) {
        if (!tookTurn()) {
            throw Problem.unavailable(null);
        }
        try {
            return work.get();
        } finally {
            turn.release();
        }
    }

    private boolean tookTurn() {
        try {
            return turn.tryAcquire(MOST_SECONDS_TO_WAIT, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }
}
