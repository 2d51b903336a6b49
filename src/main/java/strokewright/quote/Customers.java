package strokewright.quote;

import jakarta.persistence.EntityManager;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.SignedIn;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;
import strokewright.quote.QuoteDocument.Addressee;
import strokewright.web.Problem;

/** The customers of the shop of whoever is signed in. */
@Component
public class Customers {

    private static final int LONGEST_ADDRESS = 1000;

    private final EntityManager entities;
    private final JdbcClient sql;
    private final Clock clock;

    Customers(EntityManager entities, JdbcClient sql, Clock clock) {
        this.entities = entities;
        this.sql = sql;
        this.clock = clock;
    }

    /**
     * @throws InvalidInput with every fault
     */
    @Transactional
    public Addressee add(@Nullable String name, @Nullable String address) {
        Faults faults = new Faults();
        check(faults, "", name, address);
        faults.throwIfAny();
        Customer customer =
                new Customer(
                        UUID.randomUUID(),
                        name.strip(),
                        tidy(address),
                        clock.instant().truncatedTo(ChronoUnit.MICROS));
        entities.persist(customer);
        return customer.addressee();
    }

    /**
     * @throws Problem 404 when there is none
     */
    @Transactional(readOnly = true)
    public Addressee get(UUID id) {
        return find(id).map(Customer::addressee)
                .orElseThrow(() -> Problem.notFound("Customer " + id));
    }

    /** In the order of their names, from after the given one on. */
    @Transactional(readOnly = true)
    public List<Addressee> list(@Nullable String afterName, @Nullable UUID afterId, int most) {
        return sql.sql(
                        """
                        select id, name, address from customer
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
                .query(
                        (row, number) ->
                                new Addressee(
                                        row.getObject(1, UUID.class),
                                        row.getString(2),
                                        row.getString(3)))
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

    /** The one meant: by id, or by name; one of a new name is added. */
    Addressee meant(CustomerChoice choice) {
        if (choice.id() != null) {
            return find(choice.id())
                    .map(Customer::addressee)
                    .orElseThrow(
                            () ->
                                    new InvalidInput(
                                            "/customer/id", "names no customer of the shop"));
        }
        oneAtATime(choice.name().strip());
        return called(choice).orElseGet(() -> add(choice.name(), choice.address()));
    }

    /** Two who quote to a new customer at once: the second waits here and finds the first's. */
    private void oneAtATime(String name) {
        sql.sql("select pg_advisory_xact_lock(hashtextextended(?, 0))")
                .param(SignedIn.current().shopId() + " customer " + name)
                .query((row, number) -> true)
                .single();
    }

    static void check(Faults faults, String at, @Nullable String name, @Nullable String address) {
        faults.text(at + "/name", name);
        if (address != null && address.length() > LONGEST_ADDRESS) {
            faults.add(at + "/address", "is too long: at most " + LONGEST_ADDRESS + " characters");
        }
    }

    private Optional<Customer> find(UUID id) {
        return Optional.ofNullable(entities.find(Customer.class, id));
    }

    private Optional<Addressee> called(CustomerChoice choice) {
        String address = tidy(choice.address());
        return entities.createQuery(
                        "from Customer c where c.name = :name order by c.createdAt", Customer.class)
                .setParameter("name", choice.name().strip())
                .getResultStream()
                .map(Customer::addressee)
                .filter(known -> address == null || address.equals(known.address()))
                .findFirst();
    }

    private static @Nullable String tidy(@Nullable String address) {
        return address == null || address.isBlank() ? null : address.strip();
    }
}
