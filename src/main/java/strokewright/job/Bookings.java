package strokewright.job;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Role;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.job.Booking.Source;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;
import strokewright.web.Problem;

/** The time that people book. A stretch that has ended is never changed, only corrected. */
@Component
public class Bookings {

    private final JdbcClient sql;
    private final BookingRows rows;
    private final Jobs jobs;
    private final Shops shops;
    private final Clock clock;

    Bookings(JdbcClient sql, BookingRows rows, Jobs jobs, Shops shops, Clock clock) {
        this.sql = sql;
        this.rows = rows;
        this.jobs = jobs;
        this.shops = shops;
        this.clock = clock;
    }

    /**
     * Books minutes or a stretch, or starts a clock; the first booking starts the job. Sent again
     * under its id it answers what is there; a stretch under the id of a clock that runs ends it,
     * for the phone may not have heard that its start arrived.
     *
     * @param number of the job; null of indirect hours
     * @throws InvalidInput with every fault
     * @throws Problem 404 when there is no such job, 409 when it is closed, or another clock of
     *     whoever books runs
     */
    @Transactional
    public Booking book(@Nullable String number, BookingEntry entry) {
        entry.faults(number != null, now()).throwIfAny();
        UUID who = SignedIn.current().userId();
        Optional<Booking> before = sentBefore(number, entry, who);
        if (before.filter(b -> b.runs() && entry.endedAt() != null).isPresent()) {
            return end(entry.id(), entry, entry.isPaused());
        }
        return before.orElseGet(
                () ->
                        add(
                                new Adding(
                                        number,
                                        entry,
                                        who,
                                        entry.minutes() == null ? Source.CLOCK : Source.MINUTES,
                                        entry.isPaused(),
                                        null)));
    }

    /**
     * Books several on a job, all or none.
     *
     * @throws InvalidInput with every fault of the first that has any
     * @throws Problem as {@link #book}
     */
    @Transactional
    public void bookAll(String number, List<BookingEntry> entries) {
        for (BookingEntry entry : entries) {
            try {
                book(number, entry);
            } catch (InvalidInput e) {
                throw BookPage.at(entry, e);
            }
        }
    }

    /**
     * What a time sheet says of somebody.
     *
     * @param number of the job; null of indirect hours
     * @param entry with its day
     */
    record FromSheet(@Nullable String number, BookingEntry entry, UUID who) {}

    /**
     * Books what time sheets say; what is there under its id already adds nothing.
     *
     * @throws InvalidInput with every fault of the first that has any
     * @throws Problem 404 when there is no such job, 409 when it is closed
     */
    @Transactional
    public void bookFromSheets(List<FromSheet> sheets) {
        Instant now = now();
        Map<String, List<FromSheet>> byJob = new TreeMap<>(); // so that two never wait in a ring
        for (FromSheet sheet : sheets) {
            sheet.entry.faults(sheet.number != null, now).throwIfAny();
            byJob.computeIfAbsent(sheet.number == null ? "" : sheet.number, n -> new ArrayList<>())
                    .add(sheet);
        }
        byJob.forEach(
                (number, ofJob) -> {
                    Job job = number.isEmpty() ? null : jobs.job(number);
                    if (job != null) {
                        requireSteps(job, ofJob.stream().map(s -> s.entry.step()).toList());
                        begin(job, now);
                    }
                    for (FromSheet sheet : ofJob) {
                        Adding adding =
                                new Adding(
                                        sheet.number,
                                        sheet.entry,
                                        sheet.who,
                                        Source.SHEET,
                                        false,
                                        null);
                        insert(adding, job, sheet.entry.workedOn(), now);
                    }
                    if (job != null) {
                        jobs.keepHours(job);
                    }
                });
    }

    private Optional<Booking> sentBefore(@Nullable String number, BookingEntry entry, UUID who) {
        Optional<Booking> before = rows.find(entry.id());
        if (before.filter(b -> !b.workerId().equals(who) || !isOn(number, b)).isPresent()) {
            throw new InvalidInput("/id", "was used before: make a new UUID");
        }
        return before;
    }

    private static boolean isOn(@Nullable String number, Booking booking) {
        return number == null ? booking.job() == null : number.equals(booking.job());
    }

    /**
     * @param paused whether it takes the place of a stretch that is left off still
     */
    private record Adding(
            @Nullable String number,
            BookingEntry entry,
            UUID who,
            Source source,
            boolean paused,
            @Nullable UUID replaces) {}

    private Booking add(Adding adding) {
        BookingEntry entry = adding.entry;
        Job job = adding.number == null ? null : jobs.job(adding.number);
        Instant now = now();
        if (job != null) {
            requireSteps(job, Collections.singletonList(entry.step()));
            begin(job, now);
        }
        LocalDate day = day(entry);
        if (entry.startsClock()) {
            Optional<Booking> open = rows.running(adding.who);
            if (open.isPresent()) {
                return running(open.get(), entry);
            }
        }
        insert(adding, job, day, now);
        if (job != null) {
            jobs.keepHours(job);
        }
        return rows.find(entry.id())
                .filter(b -> b.workerId().equals(adding.who))
                .orElseThrow(() -> new InvalidInput("/id", "was used before: make a new UUID"));
    }

    /** Of two who begin a job together the second waits here; nobody books while it is closed. */
    private void begin(Job job, Instant now) {
        String state =
                sql.sql(
                                """
                                select state from job where shop_id = ? and id = ?
                                for no key update
                                """)
                        .params(SignedIn.current().shopId(), job.id())
                        .query(String.class)
                        .single();
        if (JobState.of(state) == JobState.RELEASED) {
            sql.sql(
                            """
                            update job set state = 'in-work', started_at = ?, version = version + 1
                            where shop_id = ? and id = ?
                            """)
                    .params(now.atOffset(ZoneOffset.UTC), SignedIn.current().shopId(), job.id())
                    .update();
        }
        Job.requireOpen(job.number(), JobState.of(state));
    }

    private void insert(Adding adding, @Nullable Job job, LocalDate day, Instant now) {
        SignedIn signedIn = SignedIn.current();
        BookingEntry entry = adding.entry;
        boolean timed = entry.minutes() == null || entry.startedAt() != null;
        Instant from = entry.startedAt(now);
        Instant to = entry.endedAt(now);
        boolean ended = entry.endedAt() != null;
        try {
            sql.sql(
                            """
                                insert into booking (shop_id, id, login_id, job_id, step, what,
                                  sort, source, paused, started_at, ended_at, minutes, pieces,
                                  scrapped, passes, checks, with_helper, reason, note, worked_on,
                                  entered_at, entered_by, replaces)
                                values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?,
                                  ?, ?, ?)
                                on conflict (shop_id, id) do nothing
                                """)
                    .params(
                            signedIn.shopId(),
                            entry.id(),
                            adding.who,
                            job == null ? null : job.id(),
                            entry.step(),
                            entry.kind(job != null).word(),
                            entry.sort() == null ? null : entry.sort().word(),
                            adding.source.word(),
                            adding.paused,
                            timed ? from.atOffset(ZoneOffset.UTC) : null,
                            ended ? latest(from, to).atOffset(ZoneOffset.UTC) : null,
                            entry.startsClock() ? null : rounded(minutes(entry, from, to)),
                            entry.pieces(),
                            entry.scrapped(),
                            entry.passes(),
                            entry.checks(),
                            Boolean.TRUE.equals(entry.withHelper()),
                            entry.reason(),
                            entry.note(),
                            day,
                            now.atOffset(ZoneOffset.UTC),
                            signedIn.userId(),
                            adding.replaces)
                    .update();
        } catch (DuplicateKeyException e) {
            throw Problem.wrongState(
                    adding.replaces == null
                            ? "A clock of yours was started at the same moment: look at it first."
                            : "Somebody else corrected it at the same moment: look at that first.");
        }
    }

    private static double minutes(BookingEntry entry, Instant from, Instant to) {
        return entry.minutes() == null ? between(from, latest(from, to)) : entry.minutes();
    }

    private static double between(Instant from, Instant to) {
        return Duration.between(from, to).toMillis() / 60_000.0;
    }

    private static Instant latest(Instant a, Instant b) {
        return a.isAfter(b) ? a : b;
    }

    private void requireSteps(Job job, List<@Nullable Integer> steps) {
        if (steps.stream().allMatch(Objects::isNull)) {
            return;
        }
        int most =
                sql.sql("select count(*) from job_step where shop_id = ? and job_id = ?")
                        .params(SignedIn.current().shopId(), job.id())
                        .query(Integer.class)
                        .single();
        if (steps.stream().anyMatch(step -> step != null && (step < 1 || step > most))) {
            throw new InvalidInput("/step", "is no step of the job: 1 to " + most);
        }
    }

    private LocalDate day(BookingEntry entry) {
        LocalDate today = today();
        LocalDate given = entry.workedOn();
        if (given == null && entry.startedAt() != null) {
            return LocalDate.ofInstant(entry.startedAt(now()), shops.current().timeZone());
        }
        Faults faults = new Faults();
        BookingEntry.day(faults, given, today);
        faults.throwIfAny();
        return given == null ? today : given;
    }

    private static Booking running(Booking open, BookingEntry entry) {
        if (open.id().equals(entry.id())) {
            return open;
        }
        throw Problem.wrongState(
                "A clock of yours runs since %s on %s: stop it first."
                        .formatted(
                                open.startedAt().truncatedTo(ChronoUnit.SECONDS),
                                open.job() == null ? "no job" : open.job()));
    }

    /** The clock of whoever is signed in. */
    @Transactional(readOnly = true)
    public Optional<Booking> running() {
        return rows.running(SignedIn.current().userId());
    }

    /** What whoever is signed in left off, and neither went on with nor finished since. */
    @Transactional(readOnly = true)
    public List<Booking> leftOff() {
        return rows.leftOff(SignedIn.current().userId());
    }

    /** Of whoever is signed in, today's and yesterday's, the latest first. */
    @Transactional(readOnly = true)
    public List<Booking> latest(int most) {
        return rows.ofPerson(SignedIn.current().userId(), today().minusDays(1), most);
    }

    /** Clocks that somebody has to be asked about, the oldest first. */
    @Transactional(readOnly = true)
    public List<Booking> forgotten() {
        return rows.runningSince(now().minus(BookingEntry.PROBABLY_FORGOTTEN));
    }

    /** Whether somebody has to be asked how long it really was. */
    public boolean isProbablyForgotten(Booking clock) {
        return clock.runs() && BookingEntry.isTooLong(clock.startedAt(), now());
    }

    /**
     * Stops a clock, or finishes a stretch that was left off. Its minutes are what it ran, or what
     * is said; one that ran for longer than twelve hours needs to be told, for nobody guesses. The
     * office and the owner tell it of others.
     *
     * @param counts when it ended, minutes where the clock is not to be believed, and what was
     *     counted; its id and step are not looked at
     * @throws InvalidInput with every fault; at {@code /minutes} when the clock was forgotten
     * @throws Problem 404 when there is no such booking, 409 when it is somebody else's clock
     */
    @Transactional
    public Booking stop(UUID id, BookingEntry counts) {
        return end(id, counts, false);
    }

    /**
     * Leaves a stretch off: what is counted in the end belongs to the last one.
     *
     * @param entry when that was, and minutes of a forgotten clock; nothing else is looked at
     * @throws InvalidInput as {@link #stop}
     * @throws Problem as {@link #stop}
     */
    @Transactional
    public Booking pause(UUID id, BookingEntry entry) {
        return end(id, entry.withoutCounts(), true);
    }

    private Booking end(UUID id, BookingEntry counts, boolean pause) {
        Faults faults = new Faults();
        counts.counts(faults);
        faults.throwIfAny();
        Booking open = found(id);
        if (open.runs()) {
            requireMayEnd(open, counts);
            Instant now = now();
            counts.end(faults, open.startedAt(), now);
            faults.throwIfAny();
            ended(open, counts, latest(open.startedAt(), counts.endedAt(now)), pause);
        } else if (open.paused() && !pause && rows.isLeftOff(SignedIn.current().userId(), id)) {
            finish(id, counts);
        }
        return found(id);
    }

    private static void requireMayEnd(Booking open, BookingEntry counts) {
        SignedIn who = SignedIn.current();
        if (open.workerId().equals(who.userId())) {
            return;
        }
        if (!mayForOthers(who)) {
            throw Problem.wrongState("It is the clock of " + open.who() + ".");
        }
        if (counts.minutes() == null) {
            throw new InvalidInput(
                    "/minutes",
                    "is missing: it is the clock of " + open.who() + "; how long was it really?");
        }
    }

    private void ended(Booking open, BookingEntry counts, Instant at, boolean pause) {
        sql.sql(
                        """
                        update booking set ended_at = ?, minutes = ?, source = ?, paused = ?,
                          pieces = ?, scrapped = ?, passes = ?, checks = ?,
                          with_helper = coalesce(?, with_helper), note = coalesce(?, note)
                        where shop_id = ? and id = ? and ended_at is null
                        """)
                .params(
                        at.atOffset(ZoneOffset.UTC),
                        rounded(
                                counts.minutes() == null
                                        ? between(open.startedAt(), at)
                                        : counts.minutes()),
                        (counts.minutes() == null ? Source.CLOCK : Source.MINUTES).word(),
                        pause,
                        counts.pieces(),
                        counts.scrapped(),
                        counts.passes(),
                        counts.checks(),
                        counts.withHelper(),
                        counts.note(),
                        SignedIn.current().shopId(),
                        open.id())
                .update();
        if (open.job() != null) {
            jobs.keepHours(jobs.job(open.job()));
        }
    }

    /** The pause was the end: what was counted goes to it. */
    private void finish(UUID id, BookingEntry counts) {
        sql.sql(
                        """
                        update booking set paused = false, pieces = ?, scrapped = ?, passes = ?,
                          checks = ?, note = coalesce(?, note)
                        where shop_id = ? and id = ? and paused
                        """)
                .params(
                        counts.pieces(),
                        counts.scrapped(),
                        counts.passes(),
                        counts.checks(),
                        counts.note(),
                        SignedIn.current().shopId(),
                        id)
                .update();
    }

    /**
     * Puts another booking in the place of one that was wrong; the old one stays to be read. One
     * that never was is corrected to 0 minutes.
     *
     * @throws InvalidInput with every fault
     * @throws Problem 404 when there is no such booking, 409 when it runs or was corrected before
     */
    @Transactional
    public Booking correct(UUID id, BookingEntry entry) {
        Booking wrong = found(id);
        entry.faultsOfCorrection(wrong.job() != null).throwIfAny();
        requireMayCorrect(wrong);
        Optional<Booking> before = rows.find(entry.id());
        if (before.isPresent()) {
            if (!id.equals(before.get().replaces())) {
                throw new InvalidInput("/id", "was used before: make a new UUID");
            }
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
        return add(
                new Adding(
                        wrong.job(),
                        entry.onTheDayOf(wrong),
                        wrong.workerId(),
                        Source.MINUTES,
                        wrong.paused() && rows.isLeftOff(wrong.workerId(), id),
                        id));
    }

    /** Everybody their own; the office and the owner anybody's. */
    private static void requireMayCorrect(Booking wrong) {
        SignedIn who = SignedIn.current();
        if (!wrong.workerId().equals(who.userId()) && !mayForOthers(who)) {
            throw Problem.notAllowed();
        }
    }

    static boolean mayForOthers(SignedIn who) {
        return who.role() == Role.OWNER || who.role() == Role.OFFICE;
    }

    /** All of a job, the latest first, those that were corrected too. */
    @Transactional(readOnly = true)
    public List<Booking> of(String number) {
        return rows.ofJob(jobs.job(number).id());
    }

    /** Of a job, the latest first, so many at most. */
    @Transactional(readOnly = true)
    public List<Booking> latestOf(String number, int most) {
        return rows.latestOfJob(jobs.job(number).id(), most);
    }

    /** How many a job has, those that were corrected too. */
    @Transactional(readOnly = true)
    public int count(String number) {
        return rows.count(jobs.job(number).id());
    }

    /** Person-minutes so far by the number of the step, without what was corrected. */
    @Transactional(readOnly = true)
    public Map<Integer, Double> minutesByStep(String number) {
        return rows.minutesByStep(jobs.job(number).id());
    }

    /** Person-minutes on a step so far, without what was corrected. */
    @Transactional(readOnly = true)
    public double minutesOn(String number, int step) {
        return minutesByStep(number).getOrDefault(step, 0.0);
    }

    /**
     * @throws Problem 404 when there is none
     */
    @Transactional(readOnly = true)
    public Booking get(UUID id) {
        return found(id);
    }

    private Booking found(UUID id) {
        return rows.find(id).orElseThrow(() -> Problem.notFound("Booking " + id));
    }

    private static BigDecimal rounded(double minutes) {
        return BigDecimal.valueOf(minutes).setScale(2, RoundingMode.HALF_UP);
    }

    LocalDate today() {
        return LocalDate.ofInstant(clock.instant(), shops.current().timeZone());
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
