package strokewright.quote;

import jakarta.persistence.EntityManager;
import jakarta.persistence.LockModeType;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import strokewright.access.Documents;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.quote.QuoteDocument.Addressee;
import strokewright.web.Problem;

/** Quotes as they stand in the database; call it inside of a transaction. */
@Component
class StoredQuotes {

    private final EntityManager entities;
    private final JdbcClient sql;
    private final Customers customers;
    private final Shops shops;
    private final Documents documents;
    private final Clock clock;

    StoredQuotes(
            EntityManager entities,
            JdbcClient sql,
            Customers customers,
            Shops shops,
            Documents documents,
            Clock clock) {
        this.entities = entities;
        this.sql = sql;
        this.customers = customers;
        this.shops = shops;
        this.documents = documents;
        this.clock = clock;
    }

    /**
     * @throws Problem 404 when there is no such quote
     */
    Quote quote(String number) {
        return quote(number, LockModeType.NONE);
    }

    /**
     * One that is to be led on: whoever else wants to waits until this transaction ends, and then
     * sees what became of it.
     *
     * @throws Problem 404 when there is no such quote
     */
    Quote held(String number) {
        return quote(number, LockModeType.PESSIMISTIC_WRITE);
    }

    private Quote quote(String number, LockModeType lock) {
        return QuoteNumber.read(number)
                .flatMap(
                        it ->
                                entities.createQuery(
                                                "from Quote q where q.year = :year and q.n = :n",
                                                Quote.class)
                                        .setParameter("year", it.year())
                                        .setParameter("n", it.n())
                                        .setLockMode(lock)
                                        .getResultStream()
                                        .findFirst())
                .orElseThrow(() -> Problem.notFound("Quote " + number));
    }

    Revision latest(Quote quote) {
        return revision(quote, quote.revision());
    }

    /**
     * @throws Problem 404 when there is no such revision
     */
    Revision revision(Quote quote, int n) {
        return revisions(quote).stream()
                .filter(r -> r.n() == n)
                .findFirst()
                .orElseThrow(
                        () -> Problem.notFound("Revision " + n + " of quote " + quote.number()));
    }

    /** The first one first. */
    List<Revision> revisions(Quote quote) {
        return entities.createQuery(
                        "from Revision r where r.quoteId = :quote order by r.n", Revision.class)
                .setParameter("quote", quote.id())
                .getResultList();
    }

    List<PricedItem> items(Revision revision) {
        return entities.createQuery(
                        "from Item i where i.revisionId = :revision order by i.position",
                        Item.class)
                .setParameter("revision", revision.id())
                .getResultStream()
                .map(Item::priced)
                .toList();
    }

    QuoteDocument document(Quote quote) {
        return document(quote, latest(quote));
    }

    QuoteDocument document(Quote quote, Revision revision) {
        Optional<Decided> decided = decided(revision);
        Sent sent = sent(quote, revision);
        return new QuoteDocument(
                quote.number().toString(),
                revision.n(),
                state(revision, decided.orElse(null)),
                LocalDate.ofInstant(revision.at(), zone()),
                revision.title(),
                sent.addressee,
                shops.nameOf(quote.createdBy()),
                revision.issuedBy() == null ? null : shops.nameOf(revision.issuedBy()),
                revision.edition(),
                revision.methodVersion(),
                revision.feasible(),
                items(revision),
                revision.total(),
                sent.contact,
                revision.terms(),
                decided.map(Decided::outcome).orElse(null),
                decided.map(d -> shops.nameOf(d.by)).orElse(null),
                revision.n() < quote.revision() ? revision.n() + 1 : null,
                revision.n() == quote.revision() ? quote.releasedAs() : null);
    }

    State state(Revision revision, @Nullable Decided decided) {
        return decided == null
                ? Quote.on(today(), revision.state(), revision.validUntil())
                : decided.outcome.kind().state();
    }

    /** An outcome, and who wrote it down. */
    record Decided(Outcome outcome, UUID by, Instant at) {}

    /** The one that counts. */
    Optional<Decided> decided(Revision revision) {
        return sql.sql(
                        """
                        select outcome, by, at from quote_outcome
                        where shop_id = ? and revision_id = ? and taken_back_at is null
                        """)
                .params(SignedIn.current().shopId(), revision.id())
                .query(
                        (row, number) ->
                                new Decided(
                                        documents.read(row.getString(1), Outcome.class),
                                        row.getObject(2, UUID.class),
                                        row.getTimestamp(3).toInstant()))
                .optional();
    }

    private record Sent(Addressee addressee, @Nullable String contact) {}

    /**
     * As it was when the revision was issued; a draft goes to whatever the customer is called now.
     */
    private Sent sent(Quote quote, Revision revision) {
        return sql.sql(
                        """
                        select name, address, delivery_address, tax_number, contact from addressee
                        where shop_id = ? and revision_id = ?
                        """)
                .params(SignedIn.current().shopId(), revision.id())
                .query(
                        (row, number) ->
                                new Sent(
                                        new Addressee(
                                                revision.customerId(),
                                                row.getString(1),
                                                row.getString(2),
                                                row.getString(3),
                                                row.getString(4)),
                                        row.getString(5)))
                .optional()
                .orElseGet(
                        () ->
                                new Sent(
                                        customers.get(revision.customerId()).card().addressee(),
                                        quote.contact()));
    }

    private void keep(Sent sent, Revision revision) {
        sql.sql(
                        """
                        insert into addressee (shop_id, revision_id, name, address,
                          delivery_address, tax_number, contact)
                        values (?, ?, ?, ?, ?, ?, ?)
                        """)
                .params(
                        SignedIn.current().shopId(),
                        revision.id(),
                        sent.addressee.name(),
                        sent.addressee.address(),
                        sent.addressee.deliveryAddress(),
                        sent.addressee.taxNumber(),
                        sent.contact)
                .update();
    }

    /** Writes down whom the revision goes to, for good. */
    void address(Quote quote, Revision revision) {
        keep(sent(quote, revision), revision);
    }

    ZoneId zone() {
        return shops.current().timeZone();
    }

    LocalDate today() {
        return LocalDate.ofInstant(clock.instant(), zone());
    }

    Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
