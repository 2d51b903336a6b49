package strokewright.job;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.quantity.InvalidInput;
import strokewright.web.Problem;

/** When people were there. What was entered is never changed: a day is entered anew. */
@Component
public class Presences {

    private static final String ALL =
            """
            select p.id, p.login_id, l.display_name, p.day, p.came, p.went, p.break_minutes,
              p.minutes, p.note, p.entered_at, e.display_name,
              not exists (select from presence q where q.shop_id = p.shop_id
                and q.login_id = p.login_id and q.day = p.day and q.n > p.n) counts
            from presence p
            join login l on l.shop_id = p.shop_id and l.id = p.login_id
            join login e on e.shop_id = p.shop_id and e.id = p.entered_by
            where p.shop_id = ?
            """;

    private final JdbcClient sql;
    private final Shops shops;
    private final Clock clock;

    Presences(JdbcClient sql, Shops shops, Clock clock) {
        this.sql = sql;
        this.shops = shops;
        this.clock = clock;
    }

    /** Somebody whose hours can be entered. */
    record Person(UUID id, String userName, String name) {}

    /**
     * Enters a day. The office and the owner enter anybody's, all others their own.
     *
     * @throws InvalidInput with every fault
     * @throws Problem 403 for somebody else's day, 409 when it was entered at the same moment
     */
    @Transactional
    public Presence enter(PresenceEntry entry) {
        entry.faults(today()).throwIfAny();
        SignedIn me = SignedIn.current();
        UUID who = entry.user() == null ? me.userId() : named(entry.user());
        if (!who.equals(me.userId()) && !Bookings.mayForOthers(me)) {
            throw Problem.notAllowed();
        }
        Optional<Presence> before = find(entry.id());
        if (before.isPresent()) {
            if (!before.get().workerId().equals(who)) {
                throw new InvalidInput("/id", "was used before: make a new UUID");
            }
            return before.get();
        }
        return insert(who, entry);
    }

    private UUID named(String user) {
        return people().stream()
                .filter(p -> p.userName().equalsIgnoreCase(user.strip()))
                .map(Person::id)
                .findFirst()
                .orElseThrow(() -> new InvalidInput("/user", "is nobody of the shop"));
    }

    private Presence insert(UUID who, PresenceEntry entry) {
        SignedIn me = SignedIn.current();
        LocalDate day = entry.day() == null ? today() : entry.day();
        try {
            sql.sql(
                            """
                            insert into presence (shop_id, login_id, day, n, id, came, went,
                              break_minutes, minutes, note, entered_at, entered_by)
                            select ?, ?, ?, coalesce(max(n), 0) + 1, ?, ?, ?, ?, ?, ?, ?, ?
                            from presence where shop_id = ? and login_id = ? and day = ?
                            """)
                    .params(
                            me.shopId(),
                            who,
                            day,
                            entry.id(),
                            entry.came(),
                            entry.went(),
                            rounded(entry.breakMinutes()),
                            rounded(entry.minutesThere(day, shops.current().timeZone())),
                            entry.note(),
                            clock.instant().truncatedTo(ChronoUnit.MICROS).atOffset(ZoneOffset.UTC),
                            me.userId(),
                            me.shopId(),
                            who,
                            day)
                    .update();
        } catch (DuplicateKeyException e) {
            throw Problem.wrongState(
                    "This day was entered at the same moment elsewhere: look at it first.");
        }
        return find(entry.id()).orElseThrow();
    }

    /**
     * Whoever is signed in comes now, or came then. Who left before on the same day comes back from
     * a break.
     *
     * @throws Problem 409 when somebody is there already
     */
    @Transactional
    public Presence come(UUID id, @Nullable Instant at) {
        Optional<Presence> sent = find(id);
        if (sent.isPresent()) {
            return sent.get();
        }
        LocalDateTime now = there(at);
        open(now.toLocalDate())
                .ifPresent(
                        p -> {
                            throw Problem.wrongState(
                                    "You came at %s on %s and did not leave: say when you left, or enter the day below."
                                            .formatted(p.came(), p.day()));
                        });
        Presence before = latest(SignedIn.current().userId(), now.toLocalDate()).orElse(null);
        LocalTime came = now.toLocalTime();
        Double pause = null;
        if (before != null && before.went() != null && !before.went().isAfter(came)) {
            double away = Duration.between(before.went(), came).toSeconds() / 60.0;
            pause = away + (before.breakMinutes() == null ? 0 : before.breakMinutes());
            came = before.came();
        }
        return enter(new PresenceEntry(id, null, now.toLocalDate(), came, null, pause, null, null));
    }

    /**
     * Whoever is signed in leaves now, or left then.
     *
     * @param breakMinutes besides those that are noted
     * @throws Problem 409 when nobody noted when that somebody came
     */
    @Transactional
    public Presence leave(UUID id, @Nullable Instant at, @Nullable Double breakMinutes) {
        Optional<Presence> sent = find(id);
        if (sent.isPresent()) {
            return sent.get();
        }
        LocalDateTime now = there(at);
        Presence open =
                open(now.toLocalDate())
                        .orElseThrow(
                                () ->
                                        Problem.wrongState(
                                                "Nobody noted when you came: enter the day below."));
        Double pause =
                breakMinutes == null && open.breakMinutes() == null
                        ? null
                        : Double.valueOf(
                                (breakMinutes == null ? 0 : breakMinutes)
                                        + (open.breakMinutes() == null ? 0 : open.breakMinutes()));
        return enter(
                new PresenceEntry(
                        id,
                        null,
                        open.day(),
                        open.came(),
                        now.toLocalTime(),
                        pause,
                        null,
                        open.note()));
    }

    private LocalDateTime there(@Nullable Instant at) {
        Instant now = clock.instant();
        Instant then = at == null || at.isAfter(now) ? now : at;
        if (then.isBefore(now.minus(Duration.ofDays(14)))) {
            throw new InvalidInput("/at", "is more than 14 days ago: enter the day itself");
        }
        return LocalDateTime.ofInstant(then, shops.current().timeZone())
                .truncatedTo(ChronoUnit.MINUTES);
    }

    /** Of today, or of yesterday for who works through the night. */
    private Optional<Presence> open(LocalDate day) {
        UUID who = SignedIn.current().userId();
        return latest(who, day)
                .filter(Presence::isOpen)
                .or(() -> latest(who, day.minusDays(1)).filter(Presence::isOpen));
    }

    private Optional<Presence> latest(UUID who, LocalDate day) {
        return sql.sql(ALL + "and p.login_id = ? and p.day = ? order by p.n desc limit 1")
                .params(SignedIn.current().shopId(), who, day)
                .query(Presences::presence)
                .optional();
    }

    /**
     * The days of a person, the latest first, what does not count any more too.
     *
     * @throws Problem 403 for somebody else's, but for the office and the owner
     */
    @Transactional(readOnly = true)
    public List<Presence> of(UUID who, LocalDate from, LocalDate to) {
        SignedIn me = SignedIn.current();
        if (!who.equals(me.userId()) && !Bookings.mayForOthers(me)) {
            throw Problem.notAllowed();
        }
        return sql.sql(
                        ALL
                                + "and p.login_id = ? and p.day between ? and ?"
                                + " order by p.day desc, p.n desc")
                .params(me.shopId(), who, from, to)
                .query(Presences::presence)
                .list();
    }

    /** What counts of everybody's days, in order; for whoever compares it with booked hours. */
    @Transactional(readOnly = true)
    public List<Presence> between(LocalDate from, LocalDate to) {
        return sql.sql(
                        ALL
                                + """
                                and p.day between ? and ?
                                  and not exists (select from presence q
                                    where q.shop_id = p.shop_id and q.login_id = p.login_id
                                      and q.day = p.day and q.n > p.n)
                                order by p.day, l.display_name
                                """)
                .params(SignedIn.current().shopId(), from, to)
                .query(Presences::presence)
                .list();
    }

    /** Everybody who works here, by name. */
    @Transactional(readOnly = true)
    public List<Person> people() {
        return sql.sql(
                        """
                        select id, user_name, display_name from login
                        where shop_id = ? and active order by display_name, user_name
                        """)
                .param(SignedIn.current().shopId())
                .query(
                        (row, i) ->
                                new Person(
                                        row.getObject(1, UUID.class),
                                        row.getString(2),
                                        row.getString(3)))
                .list();
    }

    private Optional<Presence> find(@Nullable UUID id) {
        return sql.sql(ALL + "and p.id = ?")
                .params(SignedIn.current().shopId(), id)
                .query(Presences::presence)
                .optional();
    }

    private static Presence presence(ResultSet row, int number) throws SQLException {
        return new Presence(
                row.getObject(1, UUID.class),
                row.getObject(2, UUID.class),
                row.getString(3),
                row.getObject(4, LocalDate.class),
                row.getObject(5, LocalTime.class),
                row.getObject(6, LocalTime.class),
                number(row.getBigDecimal(7)),
                number(row.getBigDecimal(8)),
                row.getString(9),
                row.getObject(10, OffsetDateTime.class).toInstant(),
                row.getString(11),
                row.getBoolean(12));
    }

    private static @Nullable Double number(@Nullable BigDecimal value) {
        return value == null ? null : value.doubleValue();
    }

    private static @Nullable BigDecimal rounded(@Nullable Double minutes) {
        return minutes == null
                ? null
                : BigDecimal.valueOf(minutes).setScale(2, RoundingMode.HALF_UP);
    }

    LocalDate today() {
        return LocalDate.ofInstant(clock.instant(), shops.current().timeZone());
    }
}
