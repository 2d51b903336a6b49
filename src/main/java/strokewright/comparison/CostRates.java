package strokewright.comparison;

import com.fasterxml.jackson.annotation.JsonIgnore;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Currency;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Role;
import strokewright.access.SignedIn;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Problem;
import strokewright.web.VersionTag;

/** What people cost, by the day from which it is so. The owner's alone. */
@Component
public class CostRates {

    private final JdbcClient sql;
    private final ShopBooks books;
    private final Clock clock;

    CostRates(JdbcClient sql, ShopBooks books, Clock clock) {
        this.sql = sql;
        this.books = books;
        this.clock = clock;
    }

    /**
     * @param active whether the person may sign in
     * @param rates the latest first
     * @param version of what was said about the person
     */
    public record Person(
            UUID id,
            String name,
            String userName,
            String role,
            boolean active,
            List<CostRate> rates,
            @JsonIgnore VersionTag version) {}

    private record Said(UUID person, LocalDate from, @Nullable Money perHour) {}

    /** Everybody of the shop, by name. */
    @Transactional(readOnly = true)
    public List<Person> people() {
        requireOwner();
        Map<UUID, List<Said>> said = new HashMap<>();
        said().forEach(s -> said.computeIfAbsent(s.person, id -> new ArrayList<>()).add(s));
        return sql.sql(
                        """
                        select id, display_name, user_name, role, active from login
                        where shop_id = ? order by lower(display_name), user_name
                        """)
                .param(SignedIn.current().shopId())
                .query(
                        (row, i) -> {
                            UUID id = row.getObject(1, UUID.class);
                            List<Said> own = said.getOrDefault(id, List.of());
                            return new Person(
                                    id,
                                    row.getString(2),
                                    row.getString(3),
                                    row.getString(4),
                                    row.getBoolean(5),
                                    counting(own),
                                    new VersionTag(own.size()));
                        })
                .list();
    }

    /** The latest saying of each day counts. */
    private static List<CostRate> counting(List<Said> said) {
        Map<LocalDate, CostRate> rates = new TreeMap<>(Comparator.reverseOrder());
        said.forEach(s -> rates.put(s.from, new CostRate(s.from, s.perHour)));
        return List.copyOf(rates.values());
    }

    /**
     * @param person id or user name
     * @throws Problem 404 when nobody here is called so
     */
    @Transactional(readOnly = true)
    public Person person(String person) {
        return people().stream()
                .filter(p -> p.id.toString().equals(person) || p.userName.equals(person))
                .findFirst()
                .orElseThrow(() -> Problem.notFound("This person"));
    }

    /**
     * @param ifMatch the version that the change was made from, or {@code *}
     * @throws InvalidInput with every fault
     * @throws Problem 404 when nobody here is called so, 412 when it was changed meanwhile
     */
    @Transactional
    public Person say(String person, CostRate rate, @Nullable String ifMatch) {
        requireOwner();
        rate.faults(currency()).throwIfAny();
        UUID id = person(person).id;
        // of two who say something at once the second waits
        sql.sql("select id from login where shop_id = ? and id = ? for update")
                .params(SignedIn.current().shopId(), id)
                .query()
                .listOfRows();
        Person now = person(id.toString());
        now.version.mustMatch(ifMatch);
        Money perHour = rate.perHour();
        sql.sql(
                        """
                        insert into person_cost_rate (shop_id, login_id, valid_from, n, per_hour,
                          currency, said_at, said_by)
                        select ?, ?, ?, coalesce(max(n), 0) + 1, ?, ?, ?, ?
                        from person_cost_rate
                        where shop_id = ? and login_id = ? and valid_from = ?
                        """)
                .params(
                        SignedIn.current().shopId(),
                        id,
                        rate.validFrom(),
                        perHour == null ? null : perHour.amount(),
                        currency().getCurrencyCode(),
                        clock.instant().atOffset(ZoneOffset.UTC),
                        SignedIn.current().userId(),
                        SignedIn.current().shopId(),
                        id,
                        rate.validFrom())
                .update();
        return person(id.toString());
    }

    Currency currency() {
        return books.current().currency();
    }

    /** To value what was worked; a rate in a currency that is no longer the shop's says nothing. */
    LabourRates all() {
        requireOwner();
        Currency currency = currency();
        Map<UUID, NavigableMap<LocalDate, Money>> byPerson = new LinkedHashMap<>();
        for (Said said : said()) {
            byPerson.computeIfAbsent(said.person, id -> new TreeMap<>())
                    .put(
                            said.from,
                            said.perHour == null
                                    ? Money.of("-1", currency.getCurrencyCode())
                                    : said.perHour);
        }
        return (person, day) -> {
            NavigableMap<LocalDate, Money> rates = byPerson.get(person);
            Map.Entry<LocalDate, Money> valid = rates == null ? null : rates.floorEntry(day);
            if (valid == null || !valid.getValue().currency().equals(currency)) {
                return null;
            }
            BigDecimal amount = valid.getValue().amount();
            return amount.signum() < 0 ? null : amount;
        };
    }

    /** As it was said, the latest saying of a day last. */
    private List<Said> said() {
        return sql.sql(
                        """
                        select login_id, valid_from, per_hour, currency from person_cost_rate
                        where shop_id = ? order by valid_from, n
                        """)
                .param(SignedIn.current().shopId())
                .query(
                        (row, i) -> {
                            BigDecimal perHour = row.getBigDecimal(3);
                            return new Said(
                                    row.getObject(1, UUID.class),
                                    row.getObject(2, LocalDate.class),
                                    perHour == null
                                            ? null
                                            : new Money(
                                                    shortened(perHour),
                                                    Currency.getInstance(row.getString(4))));
                        })
                .list();
    }

    /** Four digits are kept; no more of them are shown than were said. */
    private static BigDecimal shortened(BigDecimal amount) {
        BigDecimal bare = amount.stripTrailingZeros();
        return bare.setScale(Math.max(2, bare.scale()));
    }

    private static void requireOwner() {
        if (SignedIn.current().role() != Role.OWNER) {
            throw new IllegalStateException("what people cost is the owner's alone");
        }
    }
}
