package strokewright.quote;

import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Series;
import strokewright.access.SignedIn;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.Route;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.quantity.Fault;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.shopbook.ShopBooks;
import strokewright.takeoff.FindingWords;
import strokewright.web.Problem;
import strokewright.web.VersionTag;

/** The quotes of the shop of whoever is signed in. */
@Component
public class Quotes {

    private final EntityManager entities;
    private final JdbcClient sql;
    private final StoredQuotes stored;
    private final ShopBooks books;
    private final Customers customers;
    private final Letterheads letterheads;
    private final Series series;

    Quotes(
            EntityManager entities,
            JdbcClient sql,
            StoredQuotes stored,
            ShopBooks books,
            Customers customers,
            Letterheads letterheads,
            Series series) {
        this.entities = entities;
        this.sql = sql;
        this.stored = stored;
        this.books = books;
        this.customers = customers;
        this.letterheads = letterheads;
        this.series = series;
    }

    /**
     * A quote as read, with the tag that a change has to bring back.
     *
     * @param version counted up at every change of the quote
     */
    public record Tagged(QuoteDocument document, VersionTag version) {}

    /**
     * Prices the items with the current shop book and keeps them as a draft under a new number.
     *
     * @throws InvalidInput with every fault
     */
    @Transactional
    public Tagged create(QuoteRequest request) {
        return create(request, null, 0);
    }

    private Tagged create(QuoteRequest request, @Nullable Quote copied, int copiedRevision) {
        Priced priced = priced(request);
        Instant now = stored.now();
        UUID who = SignedIn.current().userId();
        entities.flush(); // so that nothing but the quote is left to do once it has its number
        Quote quote = new Quote(UUID.randomUUID(), nextNumber(), now, who);
        if (copied != null) {
            quote.copied(copied, copiedRevision);
        }
        quote.to(request.contact());
        Revision revision = new Revision(UUID.randomUUID(), quote.id(), 1);
        priced.into(revision, now, who);
        entities.persist(quote);
        entities.persist(revision);
        keep(revision, priced);
        entities.flush();
        return tagged(quote, revision);
    }

    /**
     * Begins a new quote with what an earlier revision offered, priced with the shop book of today.
     *
     * @throws InvalidInput when the shop book of today no longer knows something that it needs
     * @throws Problem 404 when there is no such quote or revision
     */
    @Transactional
    public Tagged copy(String number, @Nullable Integer n) {
        Quote quote = stored.quote(number);
        QuoteDocument from =
                stored.document(quote, stored.revision(quote, n == null ? quote.revision() : n));
        return create(QuoteRequest.of(from).forAnotherInquiry(), quote, from.revision());
    }

    /**
     * Goes on with a copy of the latest revision, priced with the shop book of today.
     *
     * @param quantities further ones to price, by position; each becomes its item's main one
     * @throws InvalidInput with every fault
     * @throws Problem 409 when the latest revision is a draft, or ordered
     */
    @Transactional
    public Tagged revise(String number, Map<Integer, Integer> quantities) {
        Quote quote = stored.held(number);
        Revision before = stored.latest(quote);
        QuoteDocument document = stored.document(quote, before);
        if (document.state() == State.DRAFT) {
            throw Problem.wrongState("Revision " + before.n() + " is a draft: change that one.");
        }
        if (document.state() == State.ACCEPTED) {
            throw Problem.wrongState(
                    "The quote is accepted: a change is a change order of its job, or copy the"
                            + " quote.");
        }
        Priced priced = priced(QuoteRequest.of(document).forNewRevision(quantities));
        Instant now = stored.now();
        Revision revision = new Revision(UUID.randomUUID(), quote.id(), quote.begin(now));
        priced.into(revision, now, SignedIn.current().userId());
        entities.persist(revision);
        keep(revision, priced);
        entities.flush();
        return tagged(quote, revision);
    }

    /**
     * Drops the draft that was begun after an issued revision.
     *
     * @throws Problem 409 when it is no draft, or the first revision: a number once given stays
     */
    @Transactional
    public Tagged drop(String number, int n, @Nullable String ifMatch) {
        Quote quote = stored.held(number);
        Revision draft = stored.revision(quote, n);
        new VersionTag(quote.version()).mustMatch(ifMatch);
        draft.requireDraft();
        if (n == 1) {
            throw Problem.wrongState(
                    "A number that was given stays: withdraw the quote, or use it for another"
                            + " item.");
        }
        if (quote.state() != State.DRAFT) {
            throw Problem.wrongState("The quote is " + quote.state().word() + ".");
        }
        Revision before = stored.revision(quote, n - 1);
        quote.drop(
                stored.decided(before).map(d -> d.outcome().kind().state()).orElse(before.state()),
                before.validUntil(),
                stored.now());
        entities.flush();
        deleteItems(draft);
        entities.remove(draft);
        entities.flush();
        return tagged(quote, before);
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
                        null,
                        Terms.UNSAID,
                        List.of(new QuoteRequest.Item(1, null, null, takeOff, alternatives)));
        return create(request).document().number();
    }

    /**
     * As {@link #begin(String, String, TakeOff, List)}, with what is agreed beside the price.
     *
     * @param contact at the customer's
     * @throws InvalidInput with every fault
     */
    @Transactional
    public String begin(
            String customer, @Nullable String contact, @Nullable Terms terms, TakeOff takeOff) {
        QuoteRequest request =
                new QuoteRequest(
                        new CustomerChoice(null, customer, null),
                        contact,
                        null,
                        terms,
                        List.of(new QuoteRequest.Item(1, null, null, takeOff, List.of())));
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
        Quote quote = stored.quote(number);
        return tagged(quote, stored.latest(quote));
    }

    /**
     * @throws Problem 404 when there is no such revision
     */
    @Transactional(readOnly = true)
    public QuoteDocument revision(String number, int n) {
        Quote quote = stored.quote(number);
        return stored.document(quote, stored.revision(quote, n));
    }

    /**
     * Of the latest revision.
     *
     * @throws Problem 404 when there is no such quote
     */
    @Transactional(readOnly = true)
    Terms terms(String number) {
        return stored.latest(stored.quote(number)).terms();
    }

    /**
     * One revision of a quote, as its list of them tells it.
     *
     * @param date of issue, or of the last change while it is a draft
     */
    record RevisionEntry(int n, State state, LocalDate date, Money net) {}

    /**
     * The first one first.
     *
     * @throws Problem 404 when there is no such quote
     */
    @Transactional(readOnly = true)
    List<RevisionEntry> revisions(String number) {
        return stored.revisions(stored.quote(number)).stream()
                .map(
                        r ->
                                new RevisionEntry(
                                        r.n(),
                                        stored.state(r, stored.decided(r).orElse(null)),
                                        LocalDate.ofInstant(r.at(), stored.zone()),
                                        r.total().net()))
                .toList();
    }

    /** What a revision began as a copy of: the one before it, or another quote. */
    @Transactional(readOnly = true)
    Optional<QuoteDocument> origin(String number, int n) {
        Quote quote = stored.quote(number);
        if (n > 1) {
            return Optional.of(stored.document(quote, stored.revision(quote, n - 1)));
        }
        return quote.copiedFrom()
                .map(id -> entities.find(Quote.class, id))
                .map(
                        from ->
                                stored.document(
                                        from,
                                        stored.revision(
                                                from,
                                                quote.copiedRevision().orElse(from.revision()))));
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
        Quote quote = stored.held(number);
        new VersionTag(quote.version()).mustMatch(ifMatch);
        Revision revision = stored.latest(quote);
        requireOpenDraft(quote, revision);
        Priced priced = priced(request);
        Instant now = stored.now();
        priced.into(revision, now, SignedIn.current().userId());
        quote.to(request.contact());
        quote.changed(now);
        entities.flush(); // of several who change it at once all but one end here
        deleteItems(revision);
        keep(revision, priced);
        entities.flush();
        return tagged(quote, revision);
    }

    private static void requireOpenDraft(Quote quote, Revision revision) {
        revision.requireDraft();
        if (quote.state() != State.DRAFT) {
            throw Problem.wrongState(
                    "The quote is " + quote.state().word() + ": take that back, or copy it.");
        }
    }

    /**
     * Freezes the latest revision and gives it to the customer; repeats harmlessly.
     *
     * @param ifMatch the tag that the draft was read with; null to issue it as it stands
     * @throws InvalidInput when its last day has passed already
     * @throws Problem 409 with the refusals when an item cannot be made as described, 412 when
     *     somebody changed it since it was read
     */
    @Transactional
    public Tagged issue(String number, @Nullable String ifMatch) {
        Quote quote = stored.held(number);
        Revision revision = stored.latest(quote);
        if (revision.state() == State.DRAFT) {
            if (ifMatch != null) {
                new VersionTag(quote.version()).mustMatch(ifMatch);
            }
            requireOpenDraft(quote, revision);
            requireFeasible(stored.items(revision));
            LocalDate lastDay = lastDay(revision);
            Instant now = stored.now();
            stored.address(quote, revision);
            revision.issue(lastDay, now, SignedIn.current().userId());
            quote.issued(lastDay, now);
            entities.flush();
        }
        return tagged(quote, revision);
    }

    private LocalDate lastDay(Revision revision) {
        LocalDate today = stored.today();
        LocalDate said = revision.terms().validUntil();
        if (said != null && said.isBefore(today)) {
            throw new InvalidInput(
                    "/terms/validUntil", "has passed: " + today + " or later, or leave it out");
        }
        return said == null ? today.plusDays(letterheads.current().validityDays()) : said;
    }

    private static void requireFeasible(List<PricedItem> items) {
        List<Fault> refusals = new ArrayList<>();
        for (int i = 0; i < items.size(); i++) {
            refusals.addAll(
                    FindingWords.refusals("/items/" + i + "/takeOff", items.get(i).estimate()));
        }
        if (!refusals.isEmpty()) {
            throw Problem.wrongState(
                    "An item cannot be made as described: clear its refusals, then issue.",
                    refusals);
        }
    }

    /**
     * A request with its prices.
     *
     * @param book with the customer's tax and discounts
     */
    private record Priced(
            String title,
            CustomerCard customer,
            Terms terms,
            ShopBook book,
            List<PricedItem> items) {

        void into(Revision revision, Instant now, UUID who) {
            revision.price(title, customer.id(), terms, book, items, now, who);
        }
    }

    private Priced priced(QuoteRequest request) {
        ShopBook edition = books.current();
        request.faults(edition).throwIfAny();
        CustomerCard customer = customers.meant(request.customer());
        Terms terms = request.terms().filled(customer, letterheads.current());
        ShopBook book = terms.applied(edition);
        if (!book.priceScheme().leavesSomething()) {
            throw new InvalidInput(
                    "/terms/payment", "takes the whole price away with its discounts: give less");
        }
        List<QuoteRequest.Item> items = request.items();
        List<PricedItem> priced =
                IntStream.range(0, items.size())
                        .mapToObj(i -> priced(items.get(i), i, book))
                        .sorted(Comparator.comparingInt(PricedItem::position))
                        .toList();
        return new Priced(title(request, priced), customer, terms, book, priced);
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
            throw e.under("/items/" + index + "/takeOff");
        }
    }

    private static String title(QuoteRequest request, List<PricedItem> items) {
        return request.title() == null || request.title().isBlank()
                ? items.get(0).title()
                : request.title().strip();
    }

    private void keep(Revision revision, Priced priced) {
        for (PricedItem item : priced.items) {
            entities.persist(
                    new Item(
                            UUID.randomUUID(),
                            revision.id(),
                            item,
                            ItemFacts.of(item, priced.book)));
        }
    }

    private void deleteItems(Revision revision) {
        entities.createQuery("delete from Item i where i.revisionId = :revision")
                .setParameter("revision", revision.id())
                .executeUpdate();
    }

    /** Taken last: whoever takes the next one waits until this transaction has ended. */
    private QuoteNumber nextNumber() {
        int year = stored.today().getYear();
        return new QuoteNumber(year, series.next("quote", year));
    }

    private Tagged tagged(Quote quote, Revision revision) {
        return new Tagged(stored.document(quote, revision), new VersionTag(quote.version()));
    }
}
