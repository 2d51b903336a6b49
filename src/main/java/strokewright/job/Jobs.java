package strokewright.job;

import jakarta.persistence.EntityManager;
import jakarta.persistence.LockModeType;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Currency;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.function.BiConsumer;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Documents;
import strokewright.access.Role;
import strokewright.access.Series;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.job.JobPlan.Planned;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.quote.CustomerCard;
import strokewright.quote.Customers;
import strokewright.quote.Order;
import strokewright.quote.Outcomes;
import strokewright.quote.QuoteDocument;
import strokewright.quote.QuoteHours;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Problem;
import strokewright.web.VersionTag;

/** The jobs of the shop of whoever is signed in. */
@Component
public class Jobs {

    private final EntityManager entities;
    private final JdbcClient sql;
    private final Outcomes outcomes;
    private final Customers customers;
    private final ShopBooks books;
    private final Shops shops;
    private final Series series;
    private final Documents documents;
    private final QuoteHours hours;
    private final Clock clock;

    Jobs(
            EntityManager entities,
            JdbcClient sql,
            Outcomes outcomes,
            Customers customers,
            ShopBooks books,
            Shops shops,
            Series series,
            Documents documents,
            QuoteHours hours,
            Clock clock) {
        this.entities = entities;
        this.sql = sql;
        this.outcomes = outcomes;
        this.customers = customers;
        this.books = books;
        this.shops = shops;
        this.series = series;
        this.documents = documents;
        this.hours = hours;
        this.clock = clock;
    }

    /** A job as read, with the tag of its version. */
    public record Tagged(JobDocument document, VersionTag version) {}

    /** One line of the list. */
    public record Entry(
            String number,
            JobState state,
            JobKind kind,
            String title,
            String customer,
            @Nullable LocalDate dueOn,
            LocalDate releasedOn) {}

    /**
     * Releases a job from an accepted quote: what was ordered of it, with the plan of its frozen
     * estimates.
     *
     * @param dueOn when it is promised
     * @throws Problem 404 when there is no such quote, 409 when it is not accepted or was released
     *     before
     */
    @Transactional
    public Tagged release(String quote, @Nullable LocalDate dueOn) {
        return release(NewJob.of(quote, dueOn));
    }

    /**
     * Releases a job; without a quote its items are priced with the shop book of today.
     *
     * @throws InvalidInput with every fault
     * @throws Problem 404 when there is no such quote, 409 when it is not accepted or was released
     *     before
     */
    @Transactional
    public Tagged release(NewJob wanted) {
        ShopBook book = books.current();
        wanted.faults(book).throwIfAny();
        Job job = wanted.isOrdered() ? ordered(wanted) : unquoted(wanted, book);
        entities.persist(job);
        entities.flush();
        keepSteps(job, job.plan(), null);
        return tagged(job);
    }

    private Job ordered(NewJob wanted) {
        Instant now = now();
        JobNumber number = nextNumber(now);
        Outcomes.Ordered ordered = outcomes.release(wanted.quote(), number.toString());
        QuoteDocument document = ordered.quote();
        List<Planned> items = planned(document);
        ShopBook book = document.pricedWith(books.edition(document.shopBookEdition()));
        return new Job(
                number,
                document,
                ordered.revisionId(),
                ordered.customerId(),
                new JobPlan(items, Step.of(items, book, 0)),
                wanted.dueOn(),
                now);
    }

    private Job unquoted(NewJob wanted, ShopBook book) {
        List<Planned> items = Wanted.planned(wanted.items(), book, 0);
        CustomerCard customer = customers.meant(wanted.customer());
        Money net =
                wanted.net() != null
                        ? wanted.net()
                        : wanted.kind() == JobKind.WARRANTY
                                ? Money.zero(book.currency())
                                : Wanted.net(items);
        JobPlan plan = new JobPlan(items, Step.of(items, book, 0));
        entities.flush(); // so that nothing but the job is left to do once it has its number
        Instant now = now();
        return new Job(
                nextNumber(now),
                wanted,
                wanted.title() == null ? items.get(0).item().title() : wanted.title().strip(),
                customer.id(),
                net,
                book.edition(),
                plan,
                now);
    }

    private JobNumber nextNumber(Instant now) {
        int year = LocalDate.ofInstant(now, shops.current().timeZone()).getYear();
        return new JobNumber(year, series.next("job", year));
    }

    private static List<Planned> planned(QuoteDocument quote) {
        Order order = quote.outcome().order();
        return quote.items().stream()
                .flatMap(
                        item ->
                                order.quantity(item.position()).stream()
                                        .map(quantity -> new Planned(item, quantity)))
                .toList();
    }

    private void keepSteps(Job job, JobPlan plan, @Nullable Integer changeOrder) {
        for (Step step : plan.steps()) {
            sql.sql(
                            """
                            insert into job_step (shop_id, job_id, n, item, part, position, kind,
                              family, work_centre, setup_minutes, run_minutes, change_order)
                            values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
                            """)
                    .params(
                            SignedIn.current().shopId(),
                            job.id(),
                            step.n(),
                            step.item(),
                            step.work().part(),
                            step.work().position(),
                            step.work().kind(),
                            step.work().family(),
                            step.work().workCentre(),
                            step.work().setupMinutes(),
                            step.work().runMinutes(),
                            changeOrder)
                    .update();
        }
    }

    /**
     * Adds more that was agreed, with a plan of its own from the shop book of today; sent again
     * under its id it answers what is there.
     *
     * @throws InvalidInput with every fault
     * @throws Problem 404 when there is no such job, 409 when it is finished
     */
    @Transactional
    public ChangeOrder change(String number, NewChangeOrder wanted) {
        ShopBook book = books.current();
        Faults faults = wanted.faults(book);
        faults.present(
                "/id", wanted.id(), "a UUID of your own making, the same when it is sent again");
        faults.throwIfAny();
        Job job = held(number);
        List<ChangeOrder> before = changeOrders(job);
        for (ChangeOrder there : before) {
            if (there.id().equals(wanted.id())) {
                return there;
            }
        }
        job.requireRunning();
        entities.lock(job, LockModeType.PESSIMISTIC_FORCE_INCREMENT);
        int n = before.size() + 1;
        List<Planned> items = Wanted.planned(wanted.items(), book, lastPosition(job, before));
        JobPlan plan = new JobPlan(items, Step.of(items, book, steps(job, before).size()));
        Money net = wanted.net() == null ? Wanted.net(items) : wanted.net();
        int written =
                sql.sql(
                                """
                        insert into change_order (shop_id, job_id, n, id, title, reason, net,
                          currency, edition, method_version, format_version, plan, agreed_at,
                          agreed_by)
                        values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?::jsonb, ?, ?)
                        on conflict (shop_id, id) do nothing
                        """)
                        .params(
                                SignedIn.current().shopId(),
                                job.id(),
                                n,
                                wanted.id(),
                                wanted.title() == null
                                        ? items.get(0).item().title()
                                        : wanted.title().strip(),
                                wanted.reason().strip(),
                                net.amount(),
                                net.currency().getCurrencyCode(),
                                book.edition(),
                                Estimating.METHOD_VERSION,
                                Job.FORMAT_VERSION,
                                documents.write(plan),
                                now().atOffset(ZoneOffset.UTC),
                                SignedIn.current().userId())
                        .update();
        if (written == 0) {
            throw new InvalidInput("/id", "was used before: make a new UUID");
        }
        keepSteps(job, plan, n);
        return changeOrders(job).get(n - 1);
    }

    private static int lastPosition(Job job, List<ChangeOrder> changes) {
        return items(job, changes).stream().mapToInt(p -> p.item().position()).max().orElse(0);
    }

    private static List<Planned> items(Job job, List<ChangeOrder> changes) {
        return Stream.concat(
                        job.plan().items().stream(),
                        changes.stream().flatMap(c -> c.plan().items().stream()))
                .toList();
    }

    static List<Step> steps(Job job, List<ChangeOrder> changes) {
        return Stream.concat(
                        job.plan().steps().stream(),
                        changes.stream().flatMap(c -> c.plan().steps().stream()))
                .toList();
    }

    /** Names of what was planned to be bought out, each once. */
    @Transactional(readOnly = true)
    List<String> plannedExtras(String number) {
        return items(job(number)).stream()
                .flatMap(p -> p.item().takeOff().extras().stream())
                .map(TakeOff.Extra::name)
                .distinct()
                .toList();
    }

    /** What was ordered, change orders' items too. */
    List<Planned> items(Job job) {
        return items(job, changeOrders(job));
    }

    /** What may be booked on, change orders' steps too. */
    List<Step> steps(Job job) {
        return steps(job, changeOrders(job));
    }

    List<ChangeOrder> changeOrders(Job job) {
        return changeOrders(List.of(job.id())).getOrDefault(job.id(), List.of());
    }

    /** By the ids of the jobs that have any, each in their order. */
    Map<UUID, List<ChangeOrder>> changeOrders(Collection<UUID> jobs) {
        Map<UUID, List<ChangeOrder>> found = new HashMap<>();
        if (jobs.isEmpty()) {
            return found;
        }
        sql.sql(
                        """
                        select c.n, c.id, c.title, c.reason, c.net, c.currency, c.edition,
                          c.agreed_at, l.display_name, c.plan, c.job_id
                        from change_order c
                        join login l on l.shop_id = c.shop_id and l.id = c.agreed_by
                        where c.shop_id = :shop and c.job_id in (:jobs)
                        order by c.n
                        """)
                .param("shop", SignedIn.current().shopId())
                .param("jobs", jobs)
                .query(
                        (row, i) ->
                                found.computeIfAbsent(
                                                row.getObject(11, UUID.class),
                                                id -> new ArrayList<>())
                                        .add(changeOrder(row)))
                .list();
        return found;
    }

    private ChangeOrder changeOrder(ResultSet row) throws SQLException {
        return new ChangeOrder(
                row.getInt(1),
                row.getObject(2, UUID.class),
                row.getString(3),
                row.getString(4),
                Money.rounded(row.getBigDecimal(5), Currency.getInstance(row.getString(6))),
                row.getInt(7),
                row.getObject(8, OffsetDateTime.class).toInstant(),
                row.getString(9),
                documents.read(row.getString(10), JobPlan.class));
    }

    /**
     * @throws Problem 404 when there is no such job
     */
    @Transactional(readOnly = true)
    public Tagged get(String number) {
        return tagged(job(number));
    }

    /** The newest first. */
    @Transactional(readOnly = true)
    public List<Entry> list(@Nullable JobNumber before, int most) {
        return list(before, null, "", most);
    }

    /**
     * The newest first.
     *
     * @param state all when null
     * @param part of the title, of the customer's name or of the number, in whatever case
     */
    @Transactional(readOnly = true)
    public List<Entry> list(
            @Nullable JobNumber before, @Nullable JobState state, String part, int most) {
        return sql.sql(
                        """
                        select j.year, j.n, j.state, j.kind, j.title, c.name, j.due_on,
                          (j.released_at at time zone :zone)::date
                        from job j
                        join customer c on c.shop_id = j.shop_id and c.id = j.customer_id
                        where j.shop_id = :shop and (j.year, j.n) < (:year, :n)
                          and (:state = '' or j.state = :state)
                          and (:part = '' or position(lower(:part) in lower(j.title || ' '
                            || c.name || ' J-' || j.year || '-' || lpad(j.n::text, 4, '0'))) > 0)
                        order by j.year desc, j.n desc
                        limit :most
                        """)
                .param("zone", shops.current().timeZone().getId())
                .param("shop", SignedIn.current().shopId())
                .param("year", before == null ? Integer.MAX_VALUE : before.year())
                .param("n", before == null ? Integer.MAX_VALUE : before.n())
                .param("state", state == null ? "" : state.word())
                .param("part", part)
                .param("most", most)
                .query(
                        (row, i) ->
                                new Entry(
                                        new JobNumber(row.getInt(1), row.getInt(2)).toString(),
                                        JobState.of(row.getString(3)),
                                        JobKind.of(row.getString(4)),
                                        row.getString(5),
                                        row.getString(6),
                                        row.getObject(7, LocalDate.class),
                                        row.getObject(8, LocalDate.class)))
                .list();
    }

    /** Somebody begins; repeats harmlessly. */
    @Transactional
    public Tagged start(String number) {
        return step(number, Job::start);
    }

    /**
     * @param made good pieces by item; as many as were ordered when null
     * @throws InvalidInput with every fault
     * @throws Problem 409 when nobody has begun
     */
    @Transactional
    public Tagged finish(String number, @Nullable Made made) {
        Job job = held(number);
        List<Planned> items = items(job, changeOrders(job));
        if (made != null) {
            made.faults(items).throwIfAny();
        }
        job.finish(made == null ? null : made.filled(items), now());
        entities.flush();
        keepHours(job);
        return tagged(job);
    }

    /**
     * @throws Problem 409 when it is not finished
     */
    @Transactional
    public Tagged close(String number) {
        return step(
                number,
                (job, now) -> {
                    job.close(now);
                    keepHours(job);
                });
    }

    /** Goes on with a finished or closed one. */
    @Transactional
    public Tagged reopen(String number) {
        return step(number, (job, now) -> job.reopen());
    }

    /** The quote is told what its items took, as far as the hours were booked by item. */
    void keepHours(Job job) {
        if (job.kind() != JobKind.QUOTE || job.finishedAt() == null) {
            return;
        }
        List<Planned> items = job.plan().items();
        Map<Integer, Double> minutes = bookedByItem(job, items);
        hours.keep(
                quote(job),
                items.stream()
                        .filter(p -> minutes.containsKey(p.item().position()))
                        .map(
                                p ->
                                        new QuoteHours.Took(
                                                p.item().position(),
                                                job.made().of(p),
                                                minutes.get(p.item().position()) / 60))
                        .toList());
    }

    /** Person-minutes by item; what was booked on the whole job is known of a single item alone. */
    private Map<Integer, Double> bookedByItem(Job job, List<Planned> items) {
        Map<Integer, Double> minutes = new HashMap<>();
        sql.sql(
                        """
                        select coalesce(s.item, ?), sum(b.minutes * (1 + b.with_helper::int))
                        from booking b
                        left join job_step s on s.shop_id = b.shop_id and s.job_id = b.job_id
                          and s.n = b.step
                        where b.shop_id = ? and b.job_id = ? and b.minutes is not null
                          and s.change_order is null
                          and not exists (select 1 from booking c
                            where c.shop_id = b.shop_id and c.replaces = b.id)
                        group by 1
                        """)
                .params(
                        items.size() == 1 ? items.get(0).item().position() : 0,
                        SignedIn.current().shopId(),
                        job.id())
                .query((row, i) -> minutes.put(row.getInt(1), row.getDouble(2)))
                .list();
        return minutes;
    }

    private Tagged step(String number, BiConsumer<Job, Instant> step) {
        Job job = held(number);
        step.accept(job, now());
        entities.flush();
        return tagged(job);
    }

    Job job(String number) {
        return job(number, LockModeType.NONE);
    }

    /**
     * One that is to be led on: whoever else wants to waits until this transaction ends, and then
     * sees what became of it.
     */
    private Job held(String number) {
        return job(number, LockModeType.PESSIMISTIC_WRITE);
    }

    private Job job(String number, LockModeType lock) {
        return JobNumber.read(number)
                .flatMap(
                        it ->
                                entities.createQuery(
                                                "from Job j where j.year = :year and j.n = :n",
                                                Job.class)
                                        .setParameter("year", it.year())
                                        .setParameter("n", it.n())
                                        .setLockMode(lock)
                                        .getResultStream()
                                        .findFirst())
                .orElseThrow(() -> Problem.notFound("Job " + number));
    }

    /**
     * Several, read together in any order.
     *
     * @throws Problem 404 when one of them is not there
     */
    List<Job> jobs(Collection<String> numbers) {
        Map<Integer, Set<Integer>> byYear = new HashMap<>();
        for (String number : numbers) {
            JobNumber read =
                    JobNumber.read(number).orElseThrow(() -> Problem.notFound("Job " + number));
            byYear.computeIfAbsent(read.year(), year -> new HashSet<>()).add(read.n());
        }
        List<Job> found = new ArrayList<>();
        byYear.forEach(
                (year, ns) -> {
                    List<Job> ofYear =
                            entities.createQuery(
                                            "from Job j where j.year = :year and j.n in :ns",
                                            Job.class)
                                    .setParameter("year", year)
                                    .setParameter("ns", ns)
                                    .getResultList();
                    if (ofYear.size() < ns.size()) {
                        throw Problem.notFound("One of the jobs");
                    }
                    found.addAll(ofYear);
                });
        return found;
    }

    private Tagged tagged(Job job) {
        return new Tagged(document(job), new VersionTag(job.version()));
    }

    private JobDocument document(Job job) {
        boolean pays = SignedIn.current().role() != Role.FLOOR;
        List<ChangeOrder> changes = changeOrders(job);
        List<JobDocument.Item> items = new ArrayList<>();
        job.plan().items().forEach(p -> items.add(item(job, p, null)));
        changes.forEach(c -> c.plan().items().forEach(p -> items.add(item(job, p, c.n()))));
        return new JobDocument(
                job.number().toString(),
                job.state(),
                job.kind(),
                job.title(),
                customers.get(job.customerId()).card().name(),
                quote(job),
                job.reason(),
                pays ? job.net() : null,
                job.edition(),
                job.dueOn(),
                job.releasedAt(),
                shops.nameOf(job.releasedBy()),
                job.finishedAt(),
                items,
                steps(job, changes),
                pays ? changes : changes.stream().map(ChangeOrder::withoutNet).toList());
    }

    private static JobDocument.Item item(Job job, Planned planned, @Nullable Integer change) {
        return new JobDocument.Item(
                planned.item().position(),
                planned.item().title(),
                planned.quantity(),
                job.finishedAt() == null ? null : job.made().of(planned),
                change);
    }

    @Nullable String quote(Job job) {
        return outcomes.numberOf(job.number().toString()).orElse(null);
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
