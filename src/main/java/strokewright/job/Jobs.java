package strokewright.job;

import jakarta.persistence.EntityManager;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.UUID;
import java.util.function.BiConsumer;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Series;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.estimate.ShopBook;
import strokewright.job.JobPlan.Planned;
import strokewright.quote.Customers;
import strokewright.quote.Order;
import strokewright.quote.Outcomes;
import strokewright.quote.QuoteDocument;
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
    private final Clock clock;

    Jobs(
            EntityManager entities,
            JdbcClient sql,
            Outcomes outcomes,
            Customers customers,
            ShopBooks books,
            Shops shops,
            Series series,
            Clock clock) {
        this.entities = entities;
        this.sql = sql;
        this.outcomes = outcomes;
        this.customers = customers;
        this.books = books;
        this.shops = shops;
        this.series = series;
        this.clock = clock;
    }

    /** A job as read, with the tag of its version. */
    public record Tagged(JobDocument document, VersionTag version) {}

    /** One line of the list. */
    public record Entry(
            String number,
            JobState state,
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
        Instant now = now();
        int year = LocalDate.ofInstant(now, shops.current().timeZone()).getYear();
        JobNumber number = new JobNumber(year, series.next("job", year));
        Outcomes.Ordered ordered = outcomes.release(quote, number.toString());
        QuoteDocument document = ordered.quote();
        List<Planned> items = planned(document);
        ShopBook book = document.pricedWith(books.edition(document.shopBookEdition()));
        JobPlan plan = new JobPlan(items, Step.of(items, book));
        Job job =
                new Job(
                        UUID.randomUUID(),
                        number,
                        document,
                        ordered.revisionId(),
                        ordered.customerId(),
                        plan,
                        dueOn,
                        now,
                        SignedIn.current().userId());
        entities.persist(job);
        entities.flush();
        keepSteps(job);
        return tagged(job);
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

    private void keepSteps(Job job) {
        for (Step step : job.plan().steps()) {
            sql.sql(
                            """
                            insert into job_step (shop_id, job_id, n, item, part, position, kind,
                              family, work_centre, setup_minutes, run_minutes)
                            values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
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
                            step.work().runMinutes())
                    .update();
        }
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
        return sql.sql(
                        """
                        select j.year, j.n, j.state, j.title, c.name, j.due_on,
                          (j.released_at at time zone ?)::date
                        from job j
                        join customer c on c.shop_id = j.shop_id and c.id = j.customer_id
                        where j.shop_id = ? and (j.year, j.n) < (?, ?)
                        order by j.year desc, j.n desc
                        limit ?
                        """)
                .params(
                        shops.current().timeZone().getId(),
                        SignedIn.current().shopId(),
                        before == null ? Integer.MAX_VALUE : before.year(),
                        before == null ? Integer.MAX_VALUE : before.n(),
                        most)
                .query(
                        (row, i) ->
                                new Entry(
                                        new JobNumber(row.getInt(1), row.getInt(2)).toString(),
                                        JobState.of(row.getString(3)),
                                        row.getString(4),
                                        row.getString(5),
                                        row.getObject(6, LocalDate.class),
                                        row.getObject(7, LocalDate.class)))
                .list();
    }

    /** Somebody begins; repeats harmlessly. */
    @Transactional
    public Tagged start(String number) {
        return step(number, Job::start);
    }

    /**
     * @throws Problem 409 when nobody has begun
     */
    @Transactional
    public Tagged finish(String number) {
        return step(number, Job::finish);
    }

    /**
     * @throws Problem 409 when it is not finished
     */
    @Transactional
    public Tagged close(String number) {
        return step(number, Job::close);
    }

    /** Goes on with a finished or closed one. */
    @Transactional
    public Tagged reopen(String number) {
        return step(number, (job, now) -> job.reopen());
    }

    private Tagged step(String number, BiConsumer<Job, Instant> step) {
        Job job = job(number);
        step.accept(job, now());
        entities.flush();
        return tagged(job);
    }

    Job job(String number) {
        return JobNumber.read(number)
                .flatMap(
                        it ->
                                entities.createQuery(
                                                "from Job j where j.year = :year and j.n = :n",
                                                Job.class)
                                        .setParameter("year", it.year())
                                        .setParameter("n", it.n())
                                        .getResultStream()
                                        .findFirst())
                .orElseThrow(() -> Problem.notFound("Job " + number));
    }

    private Tagged tagged(Job job) {
        return new Tagged(document(job), new VersionTag(job.version()));
    }

    private JobDocument document(Job job) {
        return new JobDocument(
                job.number().toString(),
                job.state(),
                job.kind(),
                job.title(),
                customers.get(job.customerId()).card().name(),
                quote(job),
                job.edition(),
                job.dueOn(),
                job.releasedAt(),
                shops.nameOf(job.releasedBy()),
                job.plan().items().stream()
                        .map(
                                i ->
                                        new JobDocument.Made(
                                                i.item().position(),
                                                i.item().title(),
                                                i.quantity()))
                        .toList(),
                job.plan().steps());
    }

    private @Nullable String quote(Job job) {
        return outcomes.numberOf(job.number().toString()).orElse(null);
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
