package strokewright.shopbook;

import jakarta.persistence.EntityManager;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import org.springframework.context.event.EventListener;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.transaction.support.TransactionSynchronization;
import org.springframework.transaction.support.TransactionSynchronizationManager;
import strokewright.access.ShopOpened;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBookCheck;
import strokewright.quantity.Fault;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;
import strokewright.web.Problem;
import strokewright.web.VersionTag;

/** The shop book of whoever is signed in: read, and carried on in numbered editions. */
@Component
public class ShopBooks {

    private final EntityManager entities;
    private final JdbcClient sql;
    private final Shops shops;
    private final StarterBook starter;
    private final Clock clock;
    private final BookCache cache = new BookCache();

    ShopBooks(
            EntityManager entities, JdbcClient sql, Shops shops, StarterBook starter, Clock clock) {
        this.entities = entities;
        this.sql = sql;
        this.shops = shops;
        this.starter = starter;
        this.clock = clock;
    }

    /** The edition with the highest number; it says itself which that is. */
    @Transactional(readOnly = true)
    public ShopBook current() {
        return read(currentEdition());
    }

    /**
     * @throws Problem 404 when there is no such edition
     */
    @Transactional(readOnly = true)
    public ShopBook edition(int n) {
        return read(n);
    }

    /** Editions below {@code before}, newest first. */
    @Transactional(readOnly = true)
    List<EditionEntry> list(int before, int most) {
        return sql.sql(
                        """
                        select e.n, l.display_name, e.added_at, e.note
                        from shop_book_edition e
                        join login l on l.shop_id = e.shop_id and l.id = e.added_by
                        where e.shop_id = ? and e.n < ?
                        order by e.n desc
                        limit ?
                        """)
                .params(SignedIn.current().shopId(), before, most)
                .query(
                        (row, number) ->
                                new EditionEntry(
                                        row.getInt(1),
                                        row.getString(2),
                                        row.getObject(3, OffsetDateTime.class).toInstant(),
                                        row.getString(4)))
                .list();
    }

    /**
     * Adds the next edition, unless the book is the current one, figure for figure.
     *
     * @param wanted the whole book; {@code edition} left out, or that of the current one
     * @param ifMatch the ETag of the edition that it was made from
     * @param note why, at most 200 characters
     * @throws InvalidInput with every fault of the book
     * @throws Problem 428 without {@code ifMatch}, 412 when another edition was added meanwhile
     */
    @Transactional
    public Change change(ShopBook wanted, @Nullable String ifMatch, @Nullable String note) {
        requireUsable(wanted, note);
        oneAtATime();
        int n = currentEdition();
        new VersionTag(n).mustMatch(ifMatch);
        ShopBook current = read(n);
        requireSame(wanted, current);
        return carriedOn(current, wanted, note);
    }

    /**
     * As {@link #change}, made from whatever edition is the current one then.
     *
     * @throws InvalidInput with every fault of the changed book
     */
    @Transactional
    public Change carryOn(UnaryOperator<ShopBook> change, String note) {
        oneAtATime();
        ShopBook current = read(currentEdition());
        ShopBook wanted = change.apply(current);
        requireUsable(wanted, note);
        return carriedOn(current, wanted, note);
    }

    private Change carriedOn(ShopBook current, ShopBook wanted, @Nullable String note) {
        int n = current.edition();
        if (wanted.withEdition(n).equals(current)) {
            return new Change(current, false);
        }
        return new Change(add(n + 1, wanted, note == null ? "" : note.strip()), true);
    }

    /**
     * @param added false when the book was the current one already
     */
    public record Change(ShopBook book, boolean added) {}

    @EventListener
    void begin(ShopOpened opened) {
        add(1, starter.in(shops.current().currency()), "Starter book");
    }

    private static void requireUsable(ShopBook wanted, @Nullable String note) {
        Faults faults = new Faults();
        for (Fault fault : ShopBookCheck.faults(wanted)) {
            faults.add(fault.pointer(), fault.message());
        }
        faults.textIfGiven("?note", note);
        faults.throwIfAny();
    }

    private static void requireSame(ShopBook wanted, ShopBook current) {
        Faults faults = new Faults();
        if (wanted.edition() != null && !wanted.edition().equals(current.edition())) {
            faults.add(
                    "/edition",
                    "must be left out, or be "
                            + current.edition()
                            + ": the edition that this one carries on");
        }
        if (!wanted.currency().equals(current.currency())) {
            faults.add("/currency", "must stay " + current.currency() + ": it is the shop's");
        }
        faults.throwIfAny();
    }

    /**
     * Two owners at once: the second waits here, and then sees the first's edition. Only those who
     * change the book wait; readers and new rows that refer to the shop do not.
     */
    void oneAtATime() {
        sql.sql("select id from shop where id = ? for no key update")
                .param(SignedIn.current().shopId())
                .query(UUID.class)
                .single();
    }

    private int currentEdition() {
        return Optional.ofNullable(
                        entities.createQuery("select max(e.n) from Edition e", Integer.class)
                                .getSingleResult())
                .orElseThrow(() -> Problem.notFound("A shop book"));
    }

    private ShopBook read(int n) {
        ShopBook known = cache.get(SignedIn.current().shopId(), n);
        if (known != null) {
            return known;
        }
        Edition edition = entities.find(Edition.class, n);
        if (edition == null) {
            throw Problem.notFound("Edition " + n + " of the shop book");
        }
        remember(edition.book());
        return edition.book();
    }

    private ShopBook add(int n, ShopBook book, String note) {
        Instant now = clock.instant().truncatedTo(ChronoUnit.MICROS);
        Edition edition = new Edition(n, book, SignedIn.current().userId(), now, note);
        entities.persist(edition);
        entities.flush();
        return edition.book();
    }

    /** Only once it is sure that the edition stays: one that is rolled back is never heard of. */
    private void remember(ShopBook book) {
        UUID shopId = SignedIn.current().shopId();
        TransactionSynchronizationManager.registerSynchronization(
                new TransactionSynchronization() {
                    @Override
                    public void afterCommit() {
                        cache.put(shopId, book);
                    }
                });
    }
}
