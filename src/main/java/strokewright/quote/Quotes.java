package strokewright.quote;

import jakarta.persistence.EntityManager;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Currency;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.Route;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.quantity.Fault;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.quantity.Severity;
import strokewright.quote.QuoteDocument.Addressee;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Numbers;
import strokewright.web.Problem;
import strokewright.web.VersionTag;

/** The quotes of the shop of whoever is signed in. */
@Component
public class Quotes {

    private final EntityManager entities;
    private final JdbcClient sql;
    private final ShopBooks books;
    private final Customers customers;
    private final Shops shops;
    private final Clock clock;

    Quotes(
            EntityManager entities,
            JdbcClient sql,
            ShopBooks books,
            Customers customers,
            Shops shops,
            Clock clock) {
        this.entities = entities;
        this.sql = sql;
        this.books = books;
        this.customers = customers;
        this.shops = shops;
        this.clock = clock;
    }

    /**
     * A quote as read, with the tag that a change has to bring back.
     *
     * @param version counted up at every change of the quote
     */
    public record Tagged(QuoteDocument document, VersionTag version) {}

    /**
     * One line of the list.
     *
     * @param mainQuantity of the first item
     * @param net of all items but options, before tax
     * @param information what stands behind the first item
     */
    public record Entry(
            String number,
            int revision,
            State state,
            LocalDate date,
            String customer,
            String title,
            int mainQuantity,
            Money net,
            boolean feasible,
            String information) {}

    /**
     * Prices the items with the current shop book and keeps them as a draft under a new number.
     *
     * @throws InvalidInput with every fault
     */
    @Transactional
    public Tagged create(QuoteRequest request) {
        ShopBook book = books.current();
        List<PricedItem> items = priced(request, book);
        Addressee customer = customers.meant(request.customer());
        Instant now = now();
        UUID who = SignedIn.current().userId();
        entities.flush(); // so that nothing but the quote is left to do once it has its number
        Quote quote = new Quote(UUID.randomUUID(), nextNumber(), now, who);
        Revision revision = new Revision(UUID.randomUUID(), quote.id(), 1);
        revision.price(title(request, items), customer.id(), book, items, now, who);
        entities.persist(quote);
        entities.persist(revision);
        keep(revision, items);
        entities.flush();
        return new Tagged(document(quote, revision), new VersionTag(quote.version()));
    }

    /**
     * Quotes one item.
     *
     * @param customer by name; one whom the shop does not know yet is added
     * @param alternatives other routes of the item
     * @return the new quote's number
     * @throws InvalidInput with every fault
     */
    @Transactional
    public String begin(
            String customer, @Nullable String address, TakeOff takeOff, List<Route> alternatives) {
        QuoteRequest request =
                new QuoteRequest(
                        new CustomerChoice(null, customer, address),
                        null,
                        List.of(new QuoteRequest.Item(1, null, null, takeOff, alternatives)));
        return create(request).document().number();
    }

    /** How many the shop has. */
    @Transactional(readOnly = true)
    public int count() {
        return sql.sql("select count(*) from quote where shop_id = ?")
                .param(SignedIn.current().shopId())
                .query(Integer.class)
                .single();
    }

    /**
     * @throws Problem 404 when there is no such quote
     */
    @Transactional(readOnly = true)
    public Tagged get(String number) {
        Quote quote = quote(number);
        return new Tagged(
                document(quote, revision(quote, quote.revision())),
                new VersionTag(quote.version()));
    }

    /**
     * @throws Problem 404 when there is no such revision
     */
    @Transactional(readOnly = true)
    public QuoteDocument revision(String number, int n) {
        Quote quote = quote(number);
        return document(quote, revision(quote, n));
    }

    /**
     * Prices the draft anew, with the current shop book.
     *
     * @param ifMatch the tag that the quote was read with
     * @throws InvalidInput with every fault
     * @throws Problem 409 when it is issued, 412 when somebody changed it meanwhile, 428 without
     *     tag
     */
    @Transactional
    public Tagged change(String number, QuoteRequest request, @Nullable String ifMatch) {
        Quote quote = quote(number);
        new VersionTag(quote.version()).mustMatch(ifMatch);
        Revision revision = revision(quote, quote.revision());
        revision.requireDraft();
        ShopBook book = books.current();
        List<PricedItem> items = priced(request, book);
        Addressee customer = customers.meant(request.customer());
        Instant now = now();
        revision.price(
                title(request, items),
                customer.id(),
                book,
                items,
                now,
                SignedIn.current().userId());
        quote.changed(now);
        entities.flush(); // of several who change it at once all but one end here
        entities.createQuery("delete from Item i where i.revisionId = :revision")
                .setParameter("revision", revision.id())
                .executeUpdate();
        keep(revision, items);
        entities.flush();
        return new Tagged(document(quote, revision), new VersionTag(quote.version()));
    }

    /**
     * Freezes the latest revision and gives it to the customer; repeats harmlessly.
     *
     * @param ifMatch the tag that the draft was read with; null to issue it as it stands
     * @throws Problem 409 with the refusals when an item cannot be made as described, 412 when
     *     somebody changed it since it was read
     */
    @Transactional
    public Tagged issue(String number, @Nullable String ifMatch) {
        Quote quote = quote(number);
        Revision revision = revision(quote, quote.revision());
        if (revision.state() == State.DRAFT) {
            if (ifMatch != null) {
                new VersionTag(quote.version()).mustMatch(ifMatch);
            }
            requireFeasible(items(revision));
            Instant now = now();
            revision.issue(now, SignedIn.current().userId());
            quote.changed(now);
            addressTo(revision, customers.get(revision.customerId()));
            entities.flush();
        }
        return new Tagged(document(quote, revision), new VersionTag(quote.version()));
    }

    private static void requireFeasible(List<PricedItem> items) {
        FindingWords words = new FindingWords(Numbers.of(Locale.ENGLISH));
        List<Fault> refusals = new ArrayList<>();
        for (int i = 0; i < items.size(); i++) {
            for (Finding finding : items.get(i).estimate().findings()) {
                if (finding.severity() == Severity.REFUSAL) {
                    refusals.add(
                            new Fault(
                                    "/items/" + i + "/takeOff" + finding.pointer(),
                                    words.text(finding)));
                }
            }
        }
        if (!refusals.isEmpty()) {
            throw Problem.wrongState(
                    "An item cannot be made as described: clear its refusals, then issue.",
                    refusals);
        }
    }

    private void addressTo(Revision revision, Addressee customer) {
        sql.sql("insert into addressee (shop_id, revision_id, name, address) values (?, ?, ?, ?)")
                .params(
                        SignedIn.current().shopId(),
                        revision.id(),
                        customer.name(),
                        customer.address())
                .update();
    }

    /**
     * Newest first.
     *
     * @param before only quotes with a lower number
     */
    @Transactional(readOnly = true)
    List<Entry> list(@Nullable QuoteNumber before, int most) {
        ZoneId zone = shops.current().timeZone();
        return sql.sql(
                        """
                        select q.year, q.n, r.n, r.state, coalesce(r.issued_at, r.changed_at),
                          coalesce(a.name, c.name), r.title, r.main_quantity, r.net, r.currency,
                          r.feasible, r.information
                        from quote q
                        join quote_revision r on r.shop_id = q.shop_id and r.quote_id = q.id
                          and r.n = q.revision
                        join customer c on c.shop_id = r.shop_id and c.id = r.customer_id
                        left join addressee a on a.shop_id = r.shop_id and a.revision_id = r.id
                        where q.shop_id = ? and (q.year, q.n) < (?, ?)
                        order by q.year desc, q.n desc
                        limit ?
                        """)
                .params(
                        SignedIn.current().shopId(),
                        before == null ? Integer.MAX_VALUE : before.year(),
                        before == null ? Integer.MAX_VALUE : before.n(),
                        most)
                .query(
                        (row, number) ->
                                new Entry(
                                        new QuoteNumber(row.getInt(1), row.getInt(2)).toString(),
                                        row.getInt(3),
                                        new State.InWords()
                                                .convertToEntityAttribute(row.getString(4)),
                                        row.getObject(5, OffsetDateTime.class)
                                                .atZoneSameInstant(zone)
                                                .toLocalDate(),
                                        row.getString(6),
                                        row.getString(7),
                                        row.getInt(8),
                                        Money.rounded(
                                                row.getBigDecimal(9),
                                                Currency.getInstance(row.getString(10))),
                                        row.getBoolean(11),
                                        row.getString(12)))
                .list();
    }

    private static List<PricedItem> priced(QuoteRequest request, ShopBook book) {
        request.faults(book).throwIfAny();
        List<QuoteRequest.Item> items = request.items();
        return IntStream.range(0, items.size())
                .mapToObj(i -> priced(items.get(i), i, book))
                .sorted(Comparator.comparingInt(PricedItem::position))
                .toList();
    }

    private static PricedItem priced(QuoteRequest.Item item, int index, ShopBook book) {
        return new PricedItem(
                item.position() == null ? index + 1 : item.position(),
                item.called().strip(),
                Boolean.TRUE.equals(item.option()),
                item.takeOff(),
                estimate(item, index, book),
                item.alternatives());
    }

    private static Estimate estimate(QuoteRequest.Item item, int index, ShopBook book) {
        try {
            return Estimating.estimate(item.takeOff(), book);
        } catch (InvalidInput e) {
            // what shows only while reckoning, such as more passes than anybody would do
            throw new InvalidInput(
                    e.faults().stream()
                            .map(
                                    f ->
                                            new Fault(
                                                    "/items/" + index + "/takeOff" + f.pointer(),
                                                    f.message()))
                            .toList());
        }
    }

    private static String title(QuoteRequest request, List<PricedItem> items) {
        return request.title() == null || request.title().isBlank()
                ? items.get(0).title()
                : request.title().strip();
    }

    private void keep(Revision revision, List<PricedItem> items) {
        items.forEach(item -> entities.persist(new Item(UUID.randomUUID(), revision.id(), item)));
    }

    /** Taken last: whoever takes the next one waits until this transaction has ended. */
    private QuoteNumber nextNumber() {
        int year = LocalDate.ofInstant(clock.instant(), shops.current().timeZone()).getYear();
        int n =
                sql.sql(
                                """
                                insert into number_counter as c (shop_id, series, year, last)
                                values (?, 'quote', ?, 1)
                                on conflict (shop_id, series, year) do update set last = c.last + 1
                                returning last
                                """)
                        .params(SignedIn.current().shopId(), year)
                        .query(Integer.class)
                        .single();
        return new QuoteNumber(year, n);
    }

    private Quote quote(String number) {
        return QuoteNumber.read(number)
                .flatMap(
                        it ->
                                entities.createQuery(
                                                "from Quote q where q.year = :year and q.n = :n",
                                                Quote.class)
                                        .setParameter("year", it.year())
                                        .setParameter("n", it.n())
                                        .getResultStream()
                                        .findFirst())
                .orElseThrow(() -> Problem.notFound("Quote " + number));
    }

    private Revision revision(Quote quote, int n) {
        return entities.createQuery(
                        "from Revision r where r.quoteId = :quote and r.n = :n", Revision.class)
                .setParameter("quote", quote.id())
                .setParameter("n", n)
                .getResultStream()
                .findFirst()
                .orElseThrow(
                        () -> Problem.notFound("Revision " + n + " of quote " + quote.number()));
    }

    private QuoteDocument document(Quote quote, Revision revision) {
        return new QuoteDocument(
                quote.number().toString(),
                revision.n(),
                revision.state(),
                LocalDate.ofInstant(revision.at(), shops.current().timeZone()),
                revision.title(),
                addressee(revision),
                shops.nameOf(quote.createdBy()),
                revision.issuedBy() == null ? null : shops.nameOf(revision.issuedBy()),
                revision.edition(),
                revision.methodVersion(),
                revision.feasible(),
                items(revision),
                revision.total());
    }

    private List<PricedItem> items(Revision revision) {
        return entities.createQuery(
                        "from Item i where i.revisionId = :revision order by i.position",
                        Item.class)
                .setParameter("revision", revision.id())
                .getResultStream()
                .map(Item::priced)
                .toList();
    }

    /**
     * As it was when the revision was issued; a draft goes to whatever the customer is called now.
     */
    private Addressee addressee(Revision revision) {
        return sql.sql("select name, address from addressee where shop_id = ? and revision_id = ?")
                .params(SignedIn.current().shopId(), revision.id())
                .query(
                        (row, number) ->
                                new Addressee(
                                        revision.customerId(), row.getString(1), row.getString(2)))
                .optional()
                .orElseGet(() -> customers.get(revision.customerId()));
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
