package strokewright.job;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
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
import strokewright.access.Role;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.job.Booking.What;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;
import strokewright.web.Problem;

/** The time that people book. A stretch that has ended is never changed, only corrected. */
@Component
public class Bookings {

    /** A clock that has run for longer was probably forgotten; assumed, no shift is so long. */
    static final Duration PROBABLY_FORGOTTEN = Duration.ofHours(12);

    private static final String ALL =
            """
            select b.id, l.display_name, j.year, j.n, b.step, b.what, b.started_at, b.ended_at,
              b.minutes, b.pieces, b.scrapped, b.passes, b.checks, b.with_helper, b.reason,
              b.note, b.worked_on, b.replaces, c.id
            from booking b
            join login l on l.shop_id = b.shop_id and l.id = b.login_id
            left join job j on j.shop_id = b.shop_id and j.id = b.job_id
            left join booking c on c.shop_id = b.shop_id and c.replaces = b.id
            where b.shop_id = :shop
            """;

    private final JdbcClient sql;
    private final Jobs jobs;
    private final Shops shops;
    private final Clock clock;

    Bookings(JdbcClient sql, Jobs jobs, Shops shops, Clock clock) {
        this.sql = sql;
        this.jobs = jobs;
        this.shops = shops;
        this.clock = clock;
    }

    /**
     * Books minutes, or starts a clock; the first booking starts the job. Sent again under its id
     * it answers what is there.
     *
     * @param number of the job; null of indirect hours
     * @throws InvalidInput with every fault
     * @throws Problem 404 when there is no such job, 409 when it is closed, or another clock of
     *     whoever books runs
     */
    @Transactional
    public Booking book(@Nullable String number, BookingEntry entry) {
        entry.faults(number != null).throwIfAny();
        Optional<Booking> before = find(entry.id());
        if (before.isPresent()) {
            return before.get();
        }
        return add(number, entry, null);
    }

    private Booking add(@Nullable String number, BookingEntry entry, @Nullable UUID replaces) {
        Job job = number == null ? null : jobs.job(number);
        if (job != null) {
            job.requireOpen();
            requireStep(job, entry.step());
        }
        LocalDate day = day(entry.workedOn());
        boolean clock = entry.minutes() == null;
        if (clock) {
            requireNoClock();
        }
        Instant now = now();
        if (job != null && job.state() == JobState.RELEASED) {
            job.start(now);
        }
        if (insert(job, entry, clock, day, now, replaces) == 0) {
            throw new InvalidInput("/id", "was used before: make a new UUID");
        }
        return find(entry.id()).orElseThrow();
    }

    private int insert(
            @Nullable Job job,
            BookingEntry entry,
            boolean clock,
            LocalDate day,
            Instant now,
            @Nullable UUID replaces) {
        SignedIn who = SignedIn.current();
        try {
            return sql.sql(
                            """
                                insert into booking (shop_id, id, login_id, job_id, step, what,
                                  started_at, minutes, pieces, scrapped, passes, checks,
                                  with_helper, reason, note, worked_on, entered_at, entered_by,
                                  replaces)
                                values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
                                on conflict (shop_id, id) do nothing
                                """)
                    .params(
                            who.shopId(),
                            entry.id(),
                            worker(replaces).orElse(who.userId()),
                            job == null ? null : job.id(),
                            entry.step(),
                            entry.kind(job != null).word(),
                            clock ? now.atOffset(ZoneOffset.UTC) : null,
                            clock ? null : rounded(entry.minutes()),
                            entry.pieces(),
                            entry.scrapped(),
                            entry.passes(),
                            entry.checks(),
                            Boolean.TRUE.equals(entry.withHelper()),
                            entry.reason(),
                            entry.note(),
                            day,
                            now.atOffset(ZoneOffset.UTC),
                            who.userId(),
                            replaces)
                    .update();
        } catch (DuplicateKeyException e) {
            throw Problem.wrongState(
                    replaces == null
                            ? "A clock of yours was started at the same moment: look at it first."
                            : "Somebody else corrected it at the same moment: look at that first.");
        }
    }

    private static void requireStep(Job job, @Nullable Integer step) {
        int most = job.plan().steps().size();
        if (step != null && (step < 1 || step > most)) {
            throw new InvalidInput("/step", "is no step of the job: 1 to " + most);
        }
    }

    /** Nobody books for tomorrow; what is entered late is at most a year old. */
    private LocalDate day(@Nullable LocalDate given) {
        LocalDate today = today();
        if (given != null && given.isAfter(today)) {
            throw new InvalidInput("/workedOn", "is still to come: " + today + " or before");
        }
        if (given != null && given.isBefore(today.minusYears(1))) {
            throw new InvalidInput(
                    "/workedOn", "is too long ago: " + today.minusYears(1) + " or after");
        }
        return given == null ? today : given;
    }

    private void requireNoClock() {
        running()
                .ifPresent(
                        open -> {
                            throw Problem.wrongState(
                                    "A clock of yours runs since %s on %s: stop it first."
                                            .formatted(
                                                    open.startedAt(),
                                                    open.job() == null ? "no job" : open.job()));
                        });
    }

    /** The clock of whoever is signed in. */
    @Transactional(readOnly = true)
    public Optional<Booking> running() {
        return query(
                        "and b.login_id = :who and b.started_at is not null and b.ended_at is null",
                        SignedIn.current().userId())
                .stream()
                .findFirst();
    }

    /** Whether somebody has to be asked how long it really was. */
    public boolean isProbablyForgotten(Booking clock) {
        return clock.runs()
                && Duration.between(clock.startedAt(), now()).compareTo(PROBABLY_FORGOTTEN) > 0;
    }

    /**
     * Stops a clock. Its minutes are what it ran, or what is said; one that ran for longer than
     * twelve hours needs to be told, for nobody guesses.
     *
     * @param counts minutes where the clock is not to be believed, and what was counted; its id and
     *     step are not looked at
     * @throws InvalidInput with every fault; at {@code /minutes} when the clock was forgotten
     * @throws Problem 404 when there is no such booking, 409 when it is somebody else's clock
     */
    @Transactional
    public Booking stop(UUID id, BookingEntry counts) {
        Faults faults = new Faults();
        counts.counts(faults);
        faults.throwIfAny();
        Booking open = find(id).orElseThrow(() -> Problem.notFound("Booking " + id));
        if (!open.runs()) {
            return open;
        }
        if (running().filter(mine -> mine.id().equals(id)).isEmpty()) {
            throw Problem.wrongState("It is the clock of " + open.who() + ".");
        }
        if (counts.minutes() == null && isProbablyForgotten(open)) {
            throw new InvalidInput(
                    "/minutes",
                    "is missing: the clock ran for more than 12 hours; how long was it really?");
        }
        Instant now = now();
        double ran = Duration.between(open.startedAt(), now).toMillis() / 60_000.0;
        sql.sql(
                        """
                        update booking set ended_at = ?, minutes = ?, pieces = ?, scrapped = ?,
                          passes = ?, checks = ?, note = coalesce(?, note)
                        where shop_id = ? and id = ?
                        """)
                .params(
                        now.atOffset(ZoneOffset.UTC),
                        rounded(counts.minutes() == null ? ran : counts.minutes()),
                        counts.pieces(),
                        counts.scrapped(),
                        counts.passes(),
                        counts.checks(),
                        counts.note(),
                        SignedIn.current().shopId(),
                        id)
                .update();
        return find(id).orElseThrow();
    }

    /**
     * Puts another booking in the place of one that was wrong; the old one stays to be read.
     *
     * @throws InvalidInput with every fault
     * @throws Problem 404 when there is no such booking, 409 when it runs or was corrected before
     */
    @Transactional
    public Booking correct(UUID id, BookingEntry entry) {
        Booking wrong = find(id).orElseThrow(() -> Problem.notFound("Booking " + id));
        Faults faults = entry.faults(wrong.job() != null);
        faults.present("/minutes", entry.minutes(), "how long it really was");
        faults.throwIfAny();
        requireMayCorrect(id);
        Optional<Booking> before = find(entry.id());
        if (before.isPresent()) {
            return before.get();
        }
        if (wrong.runs()) {
            throw Problem.wrongState("The clock still runs: stop it first.");
        }
        if (wrong.replacedBy() != null) {
            throw Problem.wrongState(
                    "It was corrected before by %s: correct that one."
                            .formatted(wrong.replacedBy()));
        }
        return add(wrong.job(), entry, id);
    }

    /** Everybody their own; the office and the owner anybody's. */
    private void requireMayCorrect(UUID id) {
        SignedIn who = SignedIn.current();
        boolean own = worker(id).filter(who.userId()::equals).isPresent();
        if (!own && who.role() != Role.OWNER && who.role() != Role.OFFICE) {
            throw Problem.notAllowed();
        }
    }

    /** All of a job, the latest first, those that were corrected too. */
    @Transactional(readOnly = true)
    public List<Booking> of(String number) {
        return query("and b.job_id = :who order by b.entered_at desc, b.id", jobs.job(number).id());
    }

    private Optional<Booking> find(UUID id) {
        return query("and b.id = :who", id).stream().findFirst();
    }

    private Optional<UUID> worker(@Nullable UUID corrected) {
        return corrected == null
                ? Optional.empty()
                : sql.sql("select login_id from booking where shop_id = ? and id = ?")
                        .params(SignedIn.current().shopId(), corrected)
                        .query(UUID.class)
                        .optional();
    }

    private List<Booking> query(String where, UUID value) {
        return sql.sql(ALL + where)
                .param("shop", SignedIn.current().shopId())
                .param("who", value)
                .query(
                        (row, i) ->
                                new Booking(
                                        row.getObject(1, UUID.class),
                                        row.getString(2),
                                        row.getObject(3) == null
                                                ? null
                                                : new JobNumber(row.getInt(3), row.getInt(4))
                                                        .toString(),
                                        row.getObject(5, Integer.class),
                                        What.of(row.getString(6)),
                                        instant(row.getObject(7, OffsetDateTime.class)),
                                        instant(row.getObject(8, OffsetDateTime.class)),
                                        row.getBigDecimal(9) == null
                                                ? null
                                                : row.getBigDecimal(9).doubleValue(),
                                        row.getObject(10, Integer.class),
                                        row.getObject(11, Integer.class),
                                        row.getObject(12, Integer.class),
                                        row.getObject(13, Integer.class),
                                        row.getBoolean(14),
                                        row.getString(15),
                                        row.getString(16),
                                        row.getObject(17, LocalDate.class),
                                        row.getObject(18, UUID.class),
                                        row.getObject(19, UUID.class)))
                .list();
    }

    private static @Nullable Instant instant(@Nullable OffsetDateTime time) {
        return time == null ? null : time.toInstant();
    }

    private static BigDecimal rounded(double minutes) {
        return BigDecimal.valueOf(minutes).setScale(2, RoundingMode.HALF_UP);
    }

    private LocalDate today() {
        return LocalDate.ofInstant(clock.instant(), shops.current().timeZone());
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
