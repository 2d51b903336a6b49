package strokewright.job;

import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Shops;
import strokewright.estimate.ShopBook;
import strokewright.job.JobPlan.Planned;
import strokewright.job.JobRecord.Line;
import strokewright.job.JobRecord.Ordered;
import strokewright.quantity.Money;
import strokewright.quote.Customers;
import strokewright.quote.QuoteDocument;
import strokewright.quote.Quotes;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Problem;

/** Reads everything that is known about jobs, for whoever compares and learns. */
@Component
public class JobRecords {

    private final EntityManager entities;
    private final Jobs jobs;
    private final Bookings bookings;
    private final JobCosts costs;
    private final Quotes quotes;
    private final Customers customers;
    private final ShopBooks books;
    private final Shops shops;

    JobRecords(
            EntityManager entities,
            Jobs jobs,
            Bookings bookings,
            JobCosts costs,
            Quotes quotes,
            Customers customers,
            ShopBooks books,
            Shops shops) {
        this.entities = entities;
        this.jobs = jobs;
        this.bookings = bookings;
        this.costs = costs;
        this.quotes = quotes;
        this.customers = customers;
        this.books = books;
        this.shops = shops;
    }

    /**
     * @throws Problem 404 when there is no such job
     */
    @Transactional(readOnly = true)
    public JobRecord of(String number) {
        return record(jobs.job(number));
    }

    /**
     * Jobs that are finished or closed, in the order in which they were finished.
     *
     * @param from first day, in the shop's time zone; null for all before
     * @param to last day; null for all after
     */
    @Transactional(readOnly = true)
    public List<JobRecord> finished(@Nullable LocalDate from, @Nullable LocalDate to) {
        ZoneId zone = shops.current().timeZone();
        Instant first = from == null ? Instant.EPOCH : from.atStartOfDay(zone).toInstant();
        Instant end =
                to == null
                        ? Instant.parse("9999-12-31T00:00:00Z")
                        : to.plusDays(1).atStartOfDay(zone).toInstant();
        return entities
                .createQuery(
                        """
                        from Job j where j.finishedAt >= :first and j.finishedAt < :end
                        order by j.finishedAt, j.year, j.n
                        """,
                        Job.class)
                .setParameter("first", first)
                .setParameter("end", end)
                .getResultList()
                .stream()
                .map(this::record)
                .toList();
    }

    private JobRecord record(Job job) {
        String number = job.number().toString();
        String quote = jobs.quote(job);
        QuoteDocument document = quote == null ? null : quotes.get(quote).document();
        return new JobRecord(
                number,
                job.kind(),
                job.state(),
                job.title(),
                job.customerId(),
                customers.get(job.customerId()).card().name(),
                quote,
                document == null ? shops.nameOf(job.releasedBy()) : document.createdBy(),
                day(job.releasedAt()),
                job.finishedAt() == null ? null : day(job.finishedAt()),
                orders(job, document),
                jobs.steps(job),
                bookings.of(number).stream().filter(b -> b.replacedBy() == null).toList(),
                costs.metal(number).stream().filter(Kept::counts).map(Kept::entry).toList(),
                costs.bills(number).stream().filter(Kept::counts).map(Kept::entry).toList());
    }

    private List<Ordered> orders(Job job, @Nullable QuoteDocument quote) {
        List<Ordered> orders = new ArrayList<>();
        ShopBook edition = books.edition(job.edition());
        orders.add(
                new Ordered(
                        0,
                        job.edition(),
                        quote == null ? edition : quote.pricedWith(edition),
                        lines(job, job.plan().items()),
                        quote == null ? agreed(job) : quote.outcome().order().total().net()));
        for (ChangeOrder change : jobs.changeOrders(job)) {
            orders.add(
                    new Ordered(
                            change.n(),
                            change.shopBookEdition(),
                            books.edition(change.shopBookEdition()),
                            lines(job, change.plan().items()),
                            change.net()));
        }
        return orders;
    }

    private static Money agreed(Job job) {
        Money net = job.net();
        if (net == null) {
            throw new IllegalStateException("no price of job " + job.number());
        }
        return net;
    }

    private static List<Line> lines(Job job, List<Planned> items) {
        return items.stream().map(p -> new Line(p.item(), p.quantity(), job.made().of(p))).toList();
    }

    private LocalDate day(Instant at) {
        return LocalDate.ofInstant(at, shops.current().timeZone());
    }
}
