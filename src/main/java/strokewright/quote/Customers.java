package strokewright.quote;

import jakarta.persistence.EntityManager;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Documents;
import strokewright.access.SignedIn;
import strokewright.quantity.InvalidInput;
import strokewright.web.Problem;
import strokewright.web.VersionTag;

/** The customers of the shop of whoever is signed in. */
@Component
public class Customers {

    private final EntityManager entities;
    private final JdbcClient sql;
    private final Documents documents;
    private final Clock clock;

    Customers(EntityManager entities, JdbcClient sql, Documents documents, Clock clock) {
        this.entities = entities;
        this.sql = sql;
        this.documents = documents;
        this.clock = clock;
    }

    /** A customer as read, with the tag that a change has to bring back. */
    public record Tagged(CustomerCard card, VersionTag version) {

        static Tagged of(Customer customer) {
            return new Tagged(customer.card(), new VersionTag(customer.version()));
        }
    }

    /**
     * @throws InvalidInput with every fault
     */
    @Transactional
    public Tagged add(CustomerCard card) {
        card.faults().throwIfAny();
        Customer customer = new Customer(UUID.randomUUID(), card, now());
        entities.persist(customer);
        entities.flush();
        return Tagged.of(customer);
    }

    /**
     * @throws InvalidInput with every fault
     * @throws Problem 404 when there is none, 412 when somebody changed it meanwhile, 428 without
     *     tag
     */
    @Transactional
    public Tagged change(UUID id, CustomerCard card, @Nullable String ifMatch) {
        Customer customer = find(id).orElseThrow(() -> Problem.notFound("Customer " + id));
        new VersionTag(customer.version()).mustMatch(ifMatch);
        (id.equals(card.id()) ? card.withId(null) : card).faults().throwIfAny();
        customer.change(card, now());
        entities.flush();
        return Tagged.of(customer);
    }

    /**
     * @throws Problem 404 when there is none
     */
    @Transactional(readOnly = true)
    public Tagged get(UUID id) {
        return find(id).map(Tagged::of).orElseThrow(() -> Problem.notFound("Customer " + id));
    }

    /** In the order of their names, from after the given one on. */
    @Transactional(readOnly = true)
    public List<CustomerCard> list(@Nullable String afterName, @Nullable UUID afterId, int most) {
        return sql.sql(
                        """
                        select card from customer
                        where shop_id = :shop
                          and (:first or (name collate "und-x-icu", id)
                            > (:name collate "und-x-icu", :id))
                        order by name collate "und-x-icu", id
                        limit :most
                        """)
                .param("shop", SignedIn.current().shopId())
                .param("first", afterName == null)
                .param("name", afterName == null ? "" : afterName)
                .param("id", afterId == null ? new UUID(0, 0) : afterId)
                .param("most", most)
                .query((row, number) -> documents.read(row.getString(1), CustomerCard.class))
                .list();
    }

    /**
     * One of a list.
     *
     * @param quotes how many were made for this customer
     */
    record Found(CustomerCard card, int quotes) {}

    /**
     * In the order of their names.
     *
     * @param part of the name of a customer or of somebody there; empty for all
     * @param after only those behind this one
     */
    @Transactional(readOnly = true)
    List<Found> search(String part, @Nullable UUID after, int most) {
        return sql.sql(
                        """
                        select c.card, (select count(distinct r.quote_id) from quote_revision r
                            where r.shop_id = c.shop_id and r.customer_id = c.id)
                        from customer c
                        where c.shop_id = :shop
                          and (:part = ''
                            or position(lower(:part collate "und-x-icu")
                              in lower(c.name collate "und-x-icu")) > 0
                            or exists (select from jsonb_array_elements(c.card -> 'contacts') x
                              where position(lower(:part collate "und-x-icu")
                                in lower((x ->> 'name') collate "und-x-icu")) > 0))
                          and (:first or (c.name collate "und-x-icu", c.id)
                            > (select l.name collate "und-x-icu", l.id from customer l
                              where l.shop_id = :shop and l.id = :after))
                        order by c.name collate "und-x-icu", c.id
                        limit :most
                        """)
                .param("shop", SignedIn.current().shopId())
                .param("part", part)
                .param("first", after == null)
                .param("after", after == null ? new UUID(0, 0) : after)
                .param("most", most)
                .query(
                        (row, number) ->
                                new Found(
                                        documents.read(row.getString(1), CustomerCard.class),
                                        row.getInt(2)))
                .list();
    }

    /** To choose from; the newest ones, where there are many. */
    @Transactional(readOnly = true)
    List<String> names() {
        return sql.sql(
                        """
                        select name from (
                          select name, max(created_at) as latest from customer
                          where shop_id = ? group by name order by latest desc limit 200) lately
                        order by name collate "und-x-icu"
                        """)
                .param(SignedIn.current().shopId())
                .query(String.class)
                .list();
    }

    /** Every one, in the order of their names. */
    @Transactional(readOnly = true)
    List<CustomerCard> all() {
        return list(null, null, Integer.MAX_VALUE);
    }

    /** Differs whenever a card was added or changed. */
    @Transactional(readOnly = true)
    String stand() {
        return sql.sql(
                        "select count(*) || ' ' || coalesce(sum(version), 0) from customer"
                                + " where shop_id = ?")
                .param(SignedIn.current().shopId())
                .query(String.class)
                .single();
    }

    /** A second import waits here until the first one has ended. */
    void oneImportAtATime() {
        oneAtATime("");
    }

    /** Adds those without an id, changes the others; within a transaction, all of them or none. */
    void put(List<CustomerCard> cards) {
        for (CustomerCard card : cards) {
            if (card.id() == null) {
                entities.persist(new Customer(UUID.randomUUID(), card, now()));
            } else {
                find(card.id()).orElseThrow(Problem::changedMeanwhile).change(card, now());
            }
        }
        entities.flush();
    }

    /**
     * The one meant: by id, or by name; one of a new name is added.
     *
     * @throws InvalidInput when the id names nobody
     */
    @Transactional
    public CustomerCard meant(CustomerChoice choice) {
        if (choice.id() != null) {
            return find(choice.id())
                    .map(Customer::card)
                    .orElseThrow(
                            () ->
                                    new InvalidInput(
                                            "/customer/id", "names no customer of the shop"));
        }
        CustomerCard named = CustomerCard.named(choice.name(), choice.address());
        oneAtATime(named.name());
        return called(named).orElseGet(() -> add(named).card());
    }

    /** Two who quote to a new customer at once: the second waits here and finds the first's. */
    private void oneAtATime(String name) {
        sql.sql("select pg_advisory_xact_lock(hashtextextended(?, 0))")
                .param(SignedIn.current().shopId() + " customer " + name)
                .query((row, number) -> true)
                .single();
    }

    private Optional<Customer> find(UUID id) {
        return Optional.ofNullable(entities.find(Customer.class, id));
    }

    private Optional<CustomerCard> called(CustomerCard asked) {
        return entities.createQuery(
                        "from Customer c where c.name = :name order by c.createdAt", Customer.class)
                .setParameter("name", asked.name())
                .getResultStream()
                .map(Customer::card)
                .filter(known -> asked.address() == null || asked.address().equals(known.address()))
                .findFirst();
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
