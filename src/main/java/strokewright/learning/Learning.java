package strokewright.learning;

import jakarta.persistence.EntityManager;
import jakarta.persistence.LockModeType;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.estimate.ShopBook;
import strokewright.job.JobRecord;
import strokewright.job.JobRecords;
import strokewright.learning.Adopted.Swap;
import strokewright.learning.Factors.Won;
import strokewright.quantity.InvalidInput;
import strokewright.quote.DecidedQuotes;
import strokewright.shopbook.NextEdition;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Problem;

/** What finished jobs teach the shop of whoever is signed in. */
@Component
class Learning {

    private final EntityManager entities;
    private final JobRecords records;
    private final ShopBooks books;
    private final NextEdition next;
    private final DecidedQuotes quotes;
    private final Shops shops;
    private final Clock clock;

    Learning(
            EntityManager entities,
            JobRecords records,
            ShopBooks books,
            NextEdition next,
            DecidedQuotes quotes,
            Shops shops,
            Clock clock) {
        this.entities = entities;
        this.records = records;
        this.books = books;
        this.next = next;
        this.quotes = quotes;
        this.shops = shops;
        this.clock = clock;
    }

    /** Which book the jobs are reckoned with. */
    enum Basis {
        CURRENT,
        DRAFT
    }

    /**
     * What is proposed.
     *
     * @throws Problem 409 without a usable draft, when it is asked for
     */
    @Transactional(readOnly = true)
    public Factors factors(Basis basis) {
        ShopBook book = book(basis);
        return Taught.by(records.finished(null, null), book).factors(book).with(won());
    }

    /** What finished jobs say against the shop book in use. */
    @Transactional(readOnly = true)
    public Taught taught() {
        return Taught.by(records.finished(null, null), books.current());
    }

    /** What that proposes, without the quotes that were won. */
    @Transactional(readOnly = true)
    public Factors factors(Taught taught) {
        return taught.factors(books.current());
    }

    /** By kind of work that a factor was taken over on. */
    private Map<String, Won> won() {
        Map<String, LocalDate> since = new HashMap<>();
        for (AdoptionEntry adoption : adoptions()) {
            if (adoption.undoneEdition() == null) {
                LocalDate day =
                        LocalDate.ofInstant(adoption.adoptedAt(), shops.current().timeZone());
                adoption.adopted().lines().forEach(l -> since.putIfAbsent(l.after().kind(), day));
            }
        }
        Map<String, Won> won = new HashMap<>();
        if (!since.isEmpty()) {
            List<DecidedQuotes.Decided> decided = quotes.newest();
            since.forEach((kind, day) -> won.put(kind, Won.of(kind, day, decided)));
        }
        return won;
    }

    /** Drift of each kind of work, of set-up, and of each family of metal. */
    @Transactional(readOnly = true)
    public Lessons lessons() {
        return taught().lessons();
    }

    /** How good estimates were, and how good they would have been with what was learned. */
    @Transactional(readOnly = true)
    public Replay replay() {
        return Replay.of(records.finished(null, null), books.current());
    }

    private ShopBook book(Basis basis) {
        return basis == Basis.CURRENT
                ? books.current()
                : next.ifUsable()
                        .orElseThrow(
                                () ->
                                        Problem.wrongState(
                                                "There is no draft of the shop book without"
                                                        + " faults."));
    }

    /**
     * Takes proposed lines over into a new edition; once the book has them, a repeat does nothing.
     *
     * @throws InvalidInput for lines that are not proposed
     */
    @Transactional
    public AdoptionEntry adopt(Adopting wanted) {
        List<JobRecord> jobs = records.finished(null, null);
        List<Adopted> taken = new ArrayList<>();
        ShopBooks.Change change =
                books.carryOn(
                        book -> {
                            Factors proposed = Taught.by(jobs, book).factors(book);
                            wanted.faults(proposed).throwIfAny();
                            Adopted adopted = taken(wanted, proposed);
                            taken.add(adopted);
                            return adopted.in(book);
                        },
                        "Learned factors of finished jobs");
        Adopted adopted = taken.get(0);
        int edition = change.book().edition();
        if (!change.added()) {
            return new AdoptionEntry(edition, false, adopted, null, null, null);
        }
        FactorAdoption kept =
                new FactorAdoption(edition, adopted, now(), SignedIn.current().userId());
        entities.persist(kept);
        return entry(kept);
    }

    private static Adopted taken(Adopting wanted, Factors proposed) {
        List<Swap> lines = new ArrayList<>();
        for (Factors.Line line : proposed.lines()) {
            if (line.isNew() && wanted.takes(line.kind(), line.family())) {
                lines.add(new Swap(line.inUse(), line.proposed()));
            }
        }
        Factors.JobEffect job = proposed.jobEffect();
        boolean takesJob = proposed.jobs() > 0 && job.isNew() && wanted.takes(Adopting.JOB, null);
        return new Adopted(
                lines,
                takesJob
                        ? new Adopted.JobEffect(
                                job.inUse(), job.inUseJobs(), job.proposed(), job.jobs())
                        : null);
    }

    /** The newest first. */
    @Transactional(readOnly = true)
    public List<AdoptionEntry> adoptions() {
        return entities.createQuery(
                        "from FactorAdoption a order by a.edition desc", FactorAdoption.class)
                .getResultStream()
                .map(this::entry)
                .toList();
    }

    /**
     * A new edition with what stood there before an adoption; what was changed since stays. A
     * repeat does nothing.
     *
     * @throws Problem 404 when that edition came from no adoption
     */
    @Transactional
    public AdoptionEntry undo(int edition) {
        FactorAdoption adoption =
                Optional.ofNullable(
                                entities.find(
                                        FactorAdoption.class,
                                        edition,
                                        LockModeType.PESSIMISTIC_WRITE))
                        .orElseThrow(() -> Problem.notFound("An adoption as edition " + edition));
        if (adoption.undoneEdition() == null) {
            ShopBooks.Change change =
                    books.carryOn(
                            adoption.adopted()::undoneIn,
                            "Without the learned factors of edition " + edition);
            adoption.undone(change.book().edition());
        }
        return entry(adoption);
    }

    private AdoptionEntry entry(FactorAdoption of) {
        return new AdoptionEntry(
                of.edition(),
                true,
                of.adopted(),
                of.adoptedAt(),
                shops.nameOf(of.adoptedBy()),
                of.undoneEdition());
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
