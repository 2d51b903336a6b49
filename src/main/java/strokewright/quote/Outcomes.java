package strokewright.quote;

import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Documents;
import strokewright.access.SignedIn;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.web.Problem;
import strokewright.web.VersionTag;

/**
 * What becomes of issued quotes: accepted, declined, withdrawn. Each step repeats harmlessly and is
 * refused where the quote stands elsewhere; one that was a mistake can be taken back and stays in
 * the history.
 */
@Component
public class Outcomes {

    private final EntityManager entities;
    private final JdbcClient sql;
    private final StoredQuotes stored;
    private final Documents documents;

    Outcomes(EntityManager entities, JdbcClient sql, StoredQuotes stored, Documents documents) {
        this.entities = entities;
        this.sql = sql;
        this.stored = stored;
        this.documents = documents;
    }

    /**
     * Takes an order on the latest revision.
     *
     * @throws InvalidInput with every fault
     * @throws Problem 409 when it is not issued, or has lapsed and no new last day is given
     */
    @Transactional
    public Quotes.Tagged accept(String number, Acceptance order) {
        order.faults().throwIfAny();
        Quote quote = stored.held(number);
        Revision revision = stored.latest(quote);
        List<PricedItem> offered = stored.items(revision);
        Faults faults = new Faults();
        List<Order.Line> lines = order.lines(offered, faults);
        LocalDate date = day(order.date(), revision, faults);
        faults.throwIfAny();
        Optional<StoredQuotes.Decided> before = stored.decided(revision);
        if (before.isPresent() && same(order, lines, before.get().outcome())) {
            return tagged(quote, revision);
        }
        requireOpen(quote, revision);
        LocalDate renewed = renewed(order, revision, date);
        decide(
                quote,
                revision,
                new Outcome(
                        Outcome.Kind.ACCEPTED,
                        date,
                        null,
                        order.note(),
                        null,
                        new Order(
                                order.orderNumber(), lines, renewed, Order.total(offered, lines))));
        return tagged(quote, revision);
    }

    private static boolean same(Acceptance order, List<Order.Line> lines, Outcome before) {
        return before.order() != null
                && before.order().items().equals(lines)
                && java.util.Objects.equals(before.order().number(), order.orderNumber());
    }

    /** An offer that has lapsed is taken by a new last day, which must cover the order's date. */
    private @Nullable LocalDate renewed(Acceptance order, Revision revision, LocalDate date) {
        LocalDate lastDay = revision.validUntil();
        if (lastDay == null || !date.isAfter(lastDay)) {
            return null;
        }
        if (order.validUntil() == null) {
            throw Problem.wrongState(
                    "The offer was valid until %s: give a new last day, or make a new revision."
                            .formatted(lastDay));
        }
        if (order.validUntil().isBefore(date)) {
            throw new InvalidInput(
                    "/validUntil", "is before the order's date: %s or later".formatted(date));
        }
        return order.validUntil();
    }

    /**
     * @throws InvalidInput with every fault
     * @throws Problem 409 when the quote is not issued
     */
    @Transactional
    public Quotes.Tagged decline(String number, Declining declining) {
        declining.faults(true).throwIfAny();
        return refused(number, Outcome.Kind.DECLINED, declining);
    }

    /**
     * Takes the offer back, or gives up a draft.
     *
     * @throws InvalidInput with every fault
     * @throws Problem 409 when something became of it already
     */
    @Transactional
    public Quotes.Tagged withdraw(String number, Declining withdrawing) {
        withdrawing.faults(false).throwIfAny();
        return refused(number, Outcome.Kind.WITHDRAWN, withdrawing);
    }

    private Quotes.Tagged refused(String number, Outcome.Kind kind, Declining declining) {
        Quote quote = stored.held(number);
        Revision revision = stored.latest(quote);
        Optional<StoredQuotes.Decided> before = stored.decided(revision);
        if (before.isPresent() && before.get().outcome().kind() == kind) {
            return tagged(quote, revision);
        }
        if (kind == Outcome.Kind.DECLINED || revision.state() != State.DRAFT) {
            requireOpen(quote, revision);
        }
        Faults faults = new Faults();
        LocalDate date = day(declining.date(), revision, faults);
        faults.throwIfAny();
        decide(
                quote,
                revision,
                new Outcome(
                        kind,
                        date,
                        declining.reason(),
                        declining.note(),
                        declining.competition(),
                        null));
        return tagged(quote, revision);
    }

    /**
     * Takes back what was written down by mistake; the quote stands as before.
     *
     * @throws Problem 409 when nothing became of it yet
     */
    @Transactional
    public Quotes.Tagged takeBack(String number) {
        Quote quote = stored.held(number);
        Revision revision = stored.latest(quote);
        if (stored.decided(revision).isEmpty()) {
            throw Problem.wrongState("Nothing became of the quote yet that could be taken back.");
        }
        if (quote.releasedAs() != null) {
            throw Problem.wrongState(
                    "Job " + quote.releasedAs() + " was released for it: the order stands.");
        }
        Instant now = stored.now();
        quote.decided(revision.state(), now);
        entities.flush();
        sql.sql(
                        """
                        update quote_outcome set taken_back_at = ?, taken_back_by = ?
                        where shop_id = ? and revision_id = ? and taken_back_at is null
                        """)
                .params(
                        now.atOffset(ZoneOffset.UTC),
                        SignedIn.current().userId(),
                        SignedIn.current().shopId(),
                        revision.id())
                .update();
        return tagged(quote, revision);
    }

    /**
     * An order that becomes a job, inside of the job's transaction.
     *
     * @param revisionId of the accepted revision
     */
    public record Ordered(QuoteDocument quote, UUID revisionId, UUID customerId) {}

    /**
     * Hands an accepted quote over to the workshop; from then on its acceptance stands.
     *
     * @param job the job's number
     * @throws Problem 409 when the quote is not accepted, or was handed over before
     */
    @Transactional
    public Ordered release(String number, String job) {
        Quote quote = stored.held(number);
        Revision revision = stored.latest(quote);
        QuoteDocument document = stored.document(quote, revision);
        if (document.state() != State.ACCEPTED) {
            throw Problem.wrongState(
                    "Quote %s is %s: a job is released from an accepted one."
                            .formatted(number, document.state().word()));
        }
        if (quote.releasedAs() != null) {
            throw Problem.wrongState(
                    "Job %s was released from it already.".formatted(quote.releasedAs()));
        }
        quote.released(job, stored.now());
        entities.flush();
        return new Ordered(document, revision.id(), revision.customerId());
    }

    /** An accepted quote that no job was released from. */
    public record Waiting(String number, String customer, String title) {}

    /** The oldest first. */
    @Transactional(readOnly = true)
    public List<Waiting> waiting(int most) {
        return sql.sql(
                        """
                        select q.year, q.n, a.name, r.title
                        from quote q
                        join quote_revision r on r.shop_id = q.shop_id and r.quote_id = q.id
                          and r.n = q.revision
                        join addressee a on a.shop_id = r.shop_id and a.revision_id = r.id
                        where q.shop_id = ? and q.state = 'accepted' and q.released_as is null
                        order by q.year, q.n
                        limit ?
                        """)
                .params(SignedIn.current().shopId(), most)
                .query(
                        (row, i) ->
                                new Waiting(
                                        new QuoteNumber(row.getInt(1), row.getInt(2)).toString(),
                                        row.getString(3),
                                        row.getString(4)))
                .list();
    }

    /** The quote that a job was released from. */
    @Transactional(readOnly = true)
    public Optional<String> numberOf(String job) {
        return entities.createQuery("from Quote q where q.releasedAs = :job", Quote.class)
                .setParameter("job", job)
                .getResultStream()
                .map(quote -> quote.number().toString())
                .findFirst();
    }

    /**
     * What was ordered, of a job that was released from it.
     *
     * @param madeBy who made the quote
     * @param net what the order comes to, before tax
     */
    public record Behind(String number, String madeBy, Terms terms, Money net) {}

    /**
     * By the jobs' numbers; without those that no quote stands behind.
     *
     * @param jobs at most some thousand
     */
    @Transactional(readOnly = true)
    public Map<String, Behind> behind(Collection<String> jobs) {
        Map<String, Behind> found = new HashMap<>();
        if (jobs.isEmpty()) {
            return found;
        }
        sql.sql(
                        """
                        select q.released_as, q.year, q.n, l.display_name, r.terms, o.outcome
                        from quote q
                        join login l on l.shop_id = q.shop_id and l.id = q.created_by
                        join quote_revision r on r.shop_id = q.shop_id and r.quote_id = q.id
                          and r.n = q.revision
                        join quote_outcome o on o.shop_id = r.shop_id and o.revision_id = r.id
                          and o.taken_back_at is null
                        where q.shop_id = :shop and q.released_as in (:jobs)
                        """)
                .param("shop", SignedIn.current().shopId())
                .param("jobs", jobs)
                .query(
                        (row, i) ->
                                found.put(
                                        row.getString(1),
                                        new Behind(
                                                new QuoteNumber(row.getInt(2), row.getInt(3))
                                                        .toString(),
                                                row.getString(4),
                                                documents.read(row.getString(5), Terms.class),
                                                documents
                                                        .read(row.getString(6), Outcome.class)
                                                        .order()
                                                        .total()
                                                        .net())))
                .list();
        return found;
    }

    private void requireOpen(Quote quote, Revision revision) {
        State state = stored.state(revision, stored.decided(revision).orElse(null));
        if (state == State.DRAFT) {
            throw Problem.wrongState(
                    revision.n() == 1
                            ? "The quote is a draft: issue it first."
                            : "Revision %d is a draft: issue it, or drop it."
                                    .formatted(revision.n()));
        }
        if (state != State.ISSUED && state != State.LAPSED) {
            throw Problem.wrongState(
                    "Quote %s is %s: take that back first."
                            .formatted(quote.number(), state.word()));
        }
    }

    /** Today, or a day that has come and is not before the offer was made. */
    private LocalDate day(@Nullable LocalDate given, Revision revision, Faults faults) {
        LocalDate today = stored.today();
        if (given == null) {
            return today;
        }
        LocalDate made = LocalDate.ofInstant(revision.at(), stored.zone());
        if (given.isAfter(today)) {
            faults.add("/date", "is still to come: " + today + " or before");
        } else if (given.isBefore(made)) {
            faults.add("/date", "is before the offer was made: " + made + " or after");
        }
        return given;
    }

    private void decide(Quote quote, Revision revision, Outcome outcome) {
        Instant now = stored.now();
        quote.decided(outcome.kind().state(), now);
        entities.flush(); // of two who decide at once one ends here
        sql.sql(
                        """
                        insert into quote_outcome
                          (shop_id, id, revision_id, kind, decided_on, outcome, net, at, by)
                        values (?, ?, ?, ?, ?, ?::jsonb, ?, ?, ?)
                        """)
                .params(
                        SignedIn.current().shopId(),
                        UUID.randomUUID(),
                        revision.id(),
                        outcome.kind().state().word(),
                        outcome.date(),
                        documents.write(outcome),
                        outcome.order() == null ? null : outcome.order().total().net().amount(),
                        OffsetDateTime.ofInstant(now, ZoneOffset.UTC),
                        SignedIn.current().userId())
                .update();
    }

    private Quotes.Tagged tagged(Quote quote, Revision revision) {
        return new Quotes.Tagged(stored.document(quote, revision), new VersionTag(quote.version()));
    }
}
