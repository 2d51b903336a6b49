package strokewright.quote;

import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Currency;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Documents;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.web.Problem;

/** What happened with a quote, and what was noted beside it. */
@Component
public class QuoteHistory {

    private final JdbcClient sql;
    private final StoredQuotes stored;
    private final Shops shops;
    private final Documents documents;

    QuoteHistory(JdbcClient sql, StoredQuotes stored, Shops shops, Documents documents) {
        this.sql = sql;
        this.stored = stored;
        this.shops = shops;
        this.documents = documents;
    }

    /**
     * Writes a note down, or a price that was told.
     *
     * @throws InvalidInput with every fault
     * @throws Problem 404 when there is no such quote
     */
    @Transactional
    public QuoteNote note(String number, QuoteNote note) {
        note.faults(shops.current().currency()).throwIfAny();
        Quote quote = stored.quote(number);
        SignedIn who = SignedIn.current();
        Money told = note.toldNet();
        QuoteNote kept =
                new QuoteNote(stored.now(), who.displayName(), note.kept(), told, note.toldTo());
        sql.sql(
                        """
                        insert into quote_note (shop_id, id, quote_id, at, by, text, told_net,
                          told_currency, told_to)
                        values (?, ?, ?, ?, ?, ?, ?, ?, ?)
                        """)
                .params(
                        who.shopId(),
                        UUID.randomUUID(),
                        quote.id(),
                        OffsetDateTime.ofInstant(kept.at(), ZoneOffset.UTC),
                        who.userId(),
                        kept.text(),
                        told == null ? null : told.amount(),
                        told == null ? null : told.currency().getCurrencyCode(),
                        kept.toldTo())
                .update();
        return kept;
    }

    /**
     * The latest first.
     *
     * @throws Problem 404 when there is no such quote
     */
    @Transactional(readOnly = true)
    public List<QuoteEvent> of(String number) {
        Quote quote = stored.quote(number);
        List<QuoteEvent> events = new ArrayList<>();
        for (Revision revision : stored.revisions(quote)) {
            events.addAll(of(quote, revision));
            outcomes(revision).forEach(events::add);
        }
        events.addAll(notes(quote));
        return events.stream().sorted(Comparator.comparing(QuoteEvent::at).reversed()).toList();
    }

    private List<QuoteEvent> of(Quote quote, Revision revision) {
        Money net = revision.total().net();
        QuoteEvent begun =
                new QuoteEvent(
                        revision.begunAt().orElse(quote.createdAt()),
                        shops.nameOf(revision.begunBy().orElse(quote.createdBy())),
                        QuoteEvent.Kind.BEGUN,
                        revision.n(),
                        revision.state() == State.DRAFT ? net : null,
                        null);
        if (revision.issuedAt() == null) {
            return List.of(begun);
        }
        return List.of(
                begun,
                new QuoteEvent(
                        revision.issuedAt(),
                        shops.nameOf(revision.issuedBy()),
                        QuoteEvent.Kind.ISSUED,
                        revision.n(),
                        net,
                        "valid until " + revision.validUntil()));
    }

    private Stream<QuoteEvent> outcomes(Revision revision) {
        Currency currency = revision.total().net().currency();
        return sql
                .sql(
                        """
                        select o.outcome, o.at, o.by, o.net, o.taken_back_at, o.taken_back_by
                        from quote_outcome o where o.shop_id = ? and o.revision_id = ?
                        """)
                .params(SignedIn.current().shopId(), revision.id())
                .query(
                        (row, n) -> {
                            Outcome outcome = documents.read(row.getString(1), Outcome.class);
                            QuoteEvent decided =
                                    new QuoteEvent(
                                            row.getObject(2, OffsetDateTime.class).toInstant(),
                                            shops.nameOf(row.getObject(3, UUID.class)),
                                            QuoteEvent.Kind.valueOf(outcome.kind().name()),
                                            revision.n(),
                                            row.getBigDecimal(4) == null
                                                    ? null
                                                    : Money.rounded(row.getBigDecimal(4), currency),
                                            text(outcome));
                            OffsetDateTime back = row.getObject(5, OffsetDateTime.class);
                            return back == null
                                    ? List.of(decided)
                                    : List.of(
                                            decided,
                                            new QuoteEvent(
                                                    back.toInstant(),
                                                    shops.nameOf(row.getObject(6, UUID.class)),
                                                    QuoteEvent.Kind.TAKEN_BACK,
                                                    revision.n(),
                                                    null,
                                                    outcome.kind().state().word()));
                        })
                .list()
                .stream()
                .flatMap(List::stream);
    }

    private static @Nullable String text(Outcome outcome) {
        List<String> parts = new ArrayList<>();
        Order order = outcome.order();
        if (order != null && order.number() != null) {
            parts.add("order " + order.number());
        }
        if (order != null && order.validUntil() != null) {
            parts.add("valid until " + order.validUntil() + " again");
        }
        if (outcome.reason() != null) {
            parts.add(outcome.reason().words());
        }
        if (outcome.competition() != null) {
            parts.add("went to " + outcome.competition());
        }
        if (outcome.note() != null) {
            parts.add(outcome.note());
        }
        return parts.isEmpty() ? null : String.join("; ", parts);
    }

    private List<QuoteEvent> notes(Quote quote) {
        return sql.sql(
                        """
                        select at, by, text, told_net, told_currency, told_to from quote_note
                        where shop_id = ? and quote_id = ?
                        """)
                .params(SignedIn.current().shopId(), quote.id())
                .query(
                        (row, n) -> {
                            String to = row.getString(6);
                            boolean told = row.getString(5) != null;
                            return new QuoteEvent(
                                    row.getObject(1, OffsetDateTime.class).toInstant(),
                                    shops.nameOf(row.getObject(2, UUID.class)),
                                    told ? QuoteEvent.Kind.PRICE_TOLD : QuoteEvent.Kind.NOTE,
                                    null,
                                    told
                                            ? Money.rounded(
                                                    row.getBigDecimal(4),
                                                    Currency.getInstance(row.getString(5)))
                                            : null,
                                    (to == null ? "" : "to " + to + ": ") + row.getString(3));
                        })
                .list();
    }
}
