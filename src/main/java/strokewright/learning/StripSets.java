package strokewright.learning;

import jakarta.persistence.EntityManager;
import jakarta.persistence.LockModeType;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.estimate.ShopBook;
import strokewright.quantity.Fault;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Severity;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Numbers;
import strokewright.web.Problem;

/** The test strips of the shop of whoever is signed in. */
@Component
class StripSets {

    private final EntityManager entities;
    private final ShopBooks books;
    private final Shops shops;
    private final Clock clock;

    StripSets(EntityManager entities, ShopBooks books, Shops shops, Clock clock) {
        this.entities = entities;
        this.books = books;
        this.shops = shops;
        this.clock = clock;
    }

    /**
     * Fits them with the current edition of the shop book and keeps both, also when nothing can be
     * fitted: the findings say why.
     *
     * @throws InvalidInput with every fault
     */
    @Transactional
    public StripSetDocument enter(TestStrips notes) {
        ShopBook book = books.current();
        StripFit fit = StripFit.of(notes, book);
        StripSet set =
                new StripSet(
                        UUID.randomUUID(),
                        book.edition(),
                        notes.withFamily(TestStripsCheck.family(notes, book)),
                        fit,
                        now(),
                        SignedIn.current().userId());
        entities.persist(set);
        return document(set);
    }

    /**
     * @throws Problem 404 when there is none
     */
    @Transactional(readOnly = true)
    public StripSetDocument get(UUID id) {
        return document(find(id, LockModeType.NONE));
    }

    /**
     * Newest first.
     *
     * @param before only what comes after this one in the list; null from the start on
     */
    @Transactional(readOnly = true)
    public List<StripSetDocument.Entry> list(@Nullable Mark before, int most) {
        return entities.createQuery(
                        """
                        from StripSet s
                        where :first = true or s.enteredAt < :at or s.enteredAt = :at and s.id < :id
                        order by s.enteredAt desc, s.id desc
                        """,
                        StripSet.class)
                .setParameter("first", before == null)
                .setParameter("at", before == null ? Instant.EPOCH : before.enteredAt())
                .setParameter("id", before == null ? new UUID(0, 0) : before.id())
                .setMaxResults(most)
                .getResultStream()
                .map(set -> document(set).entry())
                .toList();
    }

    /** Place in the list. */
    record Mark(Instant enteredAt, UUID id) {}

    /**
     * What adopting it now would change; empty when nothing can be adopted.
     *
     * @throws Problem 404 when there is none
     */
    @Transactional(readOnly = true)
    public Optional<Adoption> proposed(UUID id) {
        StripSet set = find(id, LockModeType.NONE);
        ShopBook book = books.current();
        return set.fit().refused() || !sameBasis(set, book)
                ? Optional.empty()
                : Optional.of(Adoption.of(set.notes(), set.fit(), book, day(set)));
    }

    /**
     * Brings the fitted figures into the next edition of the shop book; once that was done, a
     * repeat does nothing.
     *
     * @throws Problem 404 when there is none, 409 when nothing could be fitted, or when the shop
     *     book has changed in what the fit rests on
     */
    @Transactional
    public StripSetDocument adopt(UUID id) {
        StripSet set = find(id, LockModeType.PESSIMISTIC_WRITE);
        if (set.adoptedEdition() == null) {
            requireFitted(set.fit());
            ShopBooks.Change change =
                    books.carryOn(
                            book -> {
                                requireSameBasis(set, book);
                                return Adoption.of(set.notes(), set.fit(), book, day(set)).in(book);
                            },
                            note(set));
            set.adopted(change.book().edition(), now(), SignedIn.current().userId());
        }
        return document(set);
    }

    private static void requireFitted(StripFit fit) {
        if (fit.refused()) {
            StripWords words = new StripWords(Numbers.of(Locale.ENGLISH));
            throw Problem.wrongState(
                    "Nothing was fitted from these strips, so there is nothing to adopt.",
                    fit.findings().stream()
                            .filter(f -> f.severity() == Severity.REFUSAL)
                            .map(f -> new Fault(f.pointer(), words.text(f)))
                            .toList());
        }
    }

    private static void requireSameBasis(StripSet set, ShopBook book) {
        if (!sameBasis(set, book)) {
            throw Problem.wrongState(
                    "The shop book has changed since in what this fit rests on (tool, machine,"
                            + " grade or limits). Enter the strips again.");
        }
    }

    /** Whether the same notes would be fitted to the same figures by this edition. */
    private static boolean sameBasis(StripSet set, ShopBook book) {
        if (set.edition() == book.edition()) {
            return true;
        }
        try {
            StripFit again = StripFit.of(set.notes(), book);
            return Objects.equals(again.biteStrain(), set.fit().biteStrain())
                    && Objects.equals(again.strokeWorkJ(), set.fit().strokeWorkJ())
                    && Objects.equals(again.feedEfficiency(), set.fit().feedEfficiency());
        } catch (InvalidInput gone) {
            return false;
        }
    }

    private String note(StripSet set) {
        String note =
                "Test strips of "
                        + day(set)
                        + ": "
                        + set.notes().tool()
                        + ", "
                        + set.notes().family();
        return note.codePointCount(0, note.length()) <= 200 ? note : "Test strips of " + day(set);
    }

    private LocalDate day(StripSet set) {
        return LocalDate.ofInstant(set.enteredAt(), shops.current().timeZone());
    }

    private StripSet find(UUID id, LockModeType lock) {
        StripSet set = entities.find(StripSet.class, id, lock);
        if (set == null) {
            throw Problem.notFound("A set of test strips " + id);
        }
        return set;
    }

    private StripSetDocument document(StripSet set) {
        return StripSetDocument.of(set, shops.nameOf(set.enteredBy()));
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
