package strokewright.access;

import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.Currency;
import java.util.UUID;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;

/** Opens shops and lets people in. */
@Component
public class Shops {

    private final JdbcClient sql;
    private final Logins logins;
    private final ApplicationEventPublisher events;
    private final TransactionTemplate transaction;
    private final Clock clock;
    private volatile boolean anyOpen;

    Shops(
            JdbcClient sql,
            Logins logins,
            ApplicationEventPublisher events,
            PlatformTransactionManager transactions,
            Clock clock) {
        this.sql = sql;
        this.logins = logins;
        this.events = events;
        this.transaction = new TransactionTemplate(transactions);
        this.clock = clock;
    }

    /** The shop of whoever is signed in. */
    public Shop current() {
        return sql.sql("select id, name, currency, time_zone from shop where id = ?")
                .param(SignedIn.current().shopId())
                .query(
                        (row, number) ->
                                new Shop(
                                        row.getObject(1, UUID.class),
                                        row.getString(2),
                                        Currency.getInstance(row.getString(3)),
                                        ZoneId.of(row.getString(4))))
                .single();
    }

    /** What somebody who can sign in to the current shop, or once could, is called. */
    public String nameOf(UUID user) {
        return sql.sql("select display_name from login where shop_id = ? and id = ?")
                .params(SignedIn.current().shopId(), user)
                .query(String.class)
                .single();
    }

    /**
     * Opens a shop with its owner, and whatever {@link ShopOpened} brings, in one transaction. When
     * somebody of the owner's user name exists already, that one is answered and nothing is done.
     *
     * @param owner whose role is {@link Role#OWNER}
     * @throws InvalidInput with every fault
     */
    public SignedIn open(NewShop shop, NewUser owner) {
        return logins.named(String.valueOf(owner.userName()))
                .map(Logins.Login::who)
                .orElseGet(() -> open(shop, owner, false));
    }

    /**
     * Lets somebody of the same shop in; answers who, and does nothing if the user name exists
     * already in that shop.
     *
     * @throws InvalidInput with every fault; also when the user name is taken in another shop
     */
    public SignedIn admit(SignedIn owner, NewUser user) {
        user.faults(new Faults()).throwIfAny();
        return logins.named(user.userName())
                .map(Logins.Login::who)
                .filter(known -> known.shopId().equals(owner.shopId()))
                .orElseGet(() -> add(owner.shopId(), owner.shopName(), user));
    }

    /**
     * As {@link #admit}, for a person who types: a taken user name is a fault.
     *
     * @throws InvalidInput with every fault
     */
    SignedIn let(SignedIn owner, NewUser user) {
        user.faults(new Faults()).throwIfAny();
        return add(owner.shopId(), owner.shopName(), user);
    }

    /** Whether the first-start page has nothing left to do; once true it stays so. */
    boolean anyOpen() {
        if (!anyOpen) {
            anyOpen = sql.sql("select exists (select from shop)").query(Boolean.class).single();
        }
        return anyOpen;
    }

    /**
     * As {@link #open}, on an empty installation only.
     *
     * @throws AlreadyOpen when there is a shop
     */
    SignedIn openFirst(NewShop shop, NewUser owner) {
        return open(shop, owner, true);
    }

    private SignedIn open(NewShop shop, NewUser owner, boolean firstOnly) {
        owner.faults(shop.faults(new Faults())).throwIfAny();
        SignedIn who = somebody(UUID.randomUUID(), shop.name(), owner);
        return who.call(
                () ->
                        transaction.execute(
                                status -> {
                                    if (firstOnly) {
                                        requireNone();
                                    }
                                    insert(who.shopId(), shop);
                                    add(who, owner);
                                    events.publishEvent(new ShopOpened(who.shopId()));
                                    return who;
                                }));
    }

    /** Two who press the button together: the second waits here, and then sees the first's shop. */
    private void requireNone() {
        sql.sql("lock table shop in share row exclusive mode").update();
        if (sql.sql("select exists (select from shop)").query(Boolean.class).single()) {
            throw new AlreadyOpen();
        }
    }

    private void insert(UUID id, NewShop shop) {
        sql.sql(
                        "insert into shop (id, name, currency, time_zone, opened_at) values (?, ?,"
                                + " ?, ?, ?)")
                .params(
                        id,
                        shop.name(),
                        shop.currency(),
                        shop.timeZone(),
                        OffsetDateTime.now(clock))
                .update();
    }

    private SignedIn add(UUID shopId, String shopName, NewUser user) {
        return add(somebody(shopId, shopName, user), user);
    }

    private SignedIn add(SignedIn who, NewUser user) {
        try {
            logins.add(who, user.password());
        } catch (DuplicateKeyException e) {
            throw new InvalidInput("/userName", "is taken: choose another");
        }
        return who;
    }

    private static SignedIn somebody(UUID shopId, String shopName, NewUser user) {
        return new SignedIn(
                shopId,
                shopName,
                UUID.randomUUID(),
                user.userName(),
                user.displayName(),
                user.role());
    }

    /** There is a shop, so nobody may open one from the page any more. */
    static class AlreadyOpen extends RuntimeException {}
}
