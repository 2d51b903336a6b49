package strokewright.job;

import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Collectors;
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
import strokewright.quote.Outcomes;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Problem;

/** Reads everything that is known about jobs, for whoever compares and learns. */
@Component
public class JobRecords {

    private final EntityManager entities;
    private final Jobs jobs;
    private final BookingRows bookings;
    private final JobCosts costs;
    private final Outcomes outcomes;
    private final Customers customers;
    private final ShopBooks books;
    private final Shops shops;

    JobRecords(
            EntityManager entities,
            Jobs jobs,
            BookingRows bookings,
            JobCosts costs,
            Outcomes outcomes,
            Customers customers,
            ShopBooks books,
            Shops shops) {
        this.entities = entities;
        this.jobs = jobs;
        this.bookings = bookings;
        this.costs = costs;
        this.outcomes = outcomes;
        this.customers = customers;
        this.books = books;
        this.shops = shops;
    }

    /**
     * @throws Problem 404 when there is no such job
     */
    @Transactional(readOnly = true)
    public JobRecord of(String number) {
        return records(List.of(jobs.job(number))).get(0);
    }

    /**
     * Several, read together in any order.
     *
     * @throws Problem 404 when there is no such job
     */
    @Transactional(readOnly = true)
    public List<JobRecord> of(Collection<String> numbers) {
        return records(jobs.jobs(numbers));
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
        return records(
                entities.createQuery(
                                """
                                from Job j where j.finishedAt >= :first and j.finishedAt < :end
                                order by j.finishedAt, j.year, j.n
                                """,
                                Job.class)
                        .setParameter("first", first)
                        .setParameter("end", end)
                        .getResultList());
    }

    private List<JobRecord> records(List<Job> jobs) {
        return new Reading(jobs).records();
    }

    /** All of some jobs, what they share read once. */
    private final class Reading {

        private final List<Job> read;
        private final ZoneId zone = shops.current().timeZone();
        private final Map<String, Outcomes.Behind> quotes;
        private final Map<UUID, List<ChangeOrder>> changes;
        private final Map<String, List<Booking>> booked;
        private final Map<UUID, List<MetalUsed>> metal;
        private final Map<UUID, List<BillEntry>> bills;
        private final Map<Integer, ShopBook> editions = new HashMap<>();

        Reading(List<Job> read) {
            this.read = read;
            List<UUID> ids = read.stream().map(Job::id).toList();
            quotes = outcomes.behind(read.stream().map(j -> j.number().toString()).toList());
            changes = jobs.changeOrders(ids);
            booked =
                    bookings.countingOf(ids).stream()
                            .collect(Collectors.groupingBy(b -> Objects.requireNonNull(b.job())));
            metal = costs.metalOf(ids);
            bills = costs.billsOf(ids);
        }

        List<JobRecord> records() {
            return read.stream().map(this::record).toList();
        }

        private JobRecord record(Job job) {
            String number = job.number().toString();
            Outcomes.Behind quote = quotes.get(number);
            List<ChangeOrder> more = changes.getOrDefault(job.id(), List.of());
            return new JobRecord(
                    number,
                    job.kind(),
                    job.state(),
                    job.title(),
                    job.customerId(),
                    customers.get(job.customerId()).card().name(),
                    quote == null ? null : quote.number(),
                    quote == null ? shops.nameOf(job.releasedBy()) : quote.madeBy(),
                    day(job.releasedAt()),
                    job.finishedAt() == null ? null : day(job.finishedAt()),
                    orders(job, quote, more),
                    Jobs.steps(job, more),
                    booked.getOrDefault(number, List.of()),
                    metal.getOrDefault(job.id(), List.of()),
                    bills.getOrDefault(job.id(), List.of()));
        }

        private List<Ordered> orders(
                Job job, Outcomes.@Nullable Behind quote, List<ChangeOrder> more) {
            List<Ordered> orders = new ArrayList<>();
            ShopBook edition = edition(job.edition());
            orders.add(
                    new Ordered(
                            0,
                            job.edition(),
                            quote == null ? edition : quote.terms().applied(edition),
                            lines(job, job.plan().items()),
                            quote == null ? agreed(job) : quote.net()));
            for (ChangeOrder change : more) {
                orders.add(
                        new Ordered(
                                change.n(),
                                change.shopBookEdition(),
                                edition(change.shopBookEdition()),
                                lines(job, change.plan().items()),
                                change.net()));
            }
            return orders;
        }

        private ShopBook edition(int n) {
            return editions.computeIfAbsent(n, books::edition);
        }

        private LocalDate day(Instant at) {
            return LocalDate.ofInstant(at, zone);
        }
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
}
