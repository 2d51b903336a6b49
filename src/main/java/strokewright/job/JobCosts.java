package strokewright.job;

import java.time.Clock;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Documents;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.estimate.ShopBook;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Problem;

/** Metal and bills of jobs: written down once, never changed, corrected by another. */
@Component
public class JobCosts {

    private static final String INSERT_METAL =
            """
            insert into metal_used (shop_id, id, job_id, entry, grade, kg, paid, currency,
              entered_at, entered_by, replaces)
            values (?, ?, ?, ?::jsonb, ?, ?, ?, ?, ?, ?, ?)
            on conflict (shop_id, id) do nothing
            """;

    private static final String INSERT_BILL =
            """
            insert into bill (shop_id, id, job_id, entry, amount, currency, entered_at,
              entered_by, replaces)
            values (?, ?, ?, ?::jsonb, ?, ?, ?, ?, ?)
            on conflict (shop_id, id) do nothing
            """;

    private final JdbcClient sql;
    private final Jobs jobs;
    private final ShopBooks books;
    private final Shops shops;
    private final Documents documents;
    private final Clock clock;

    JobCosts(
            JdbcClient sql,
            Jobs jobs,
            ShopBooks books,
            Shops shops,
            Documents documents,
            Clock clock) {
        this.sql = sql;
        this.jobs = jobs;
        this.books = books;
        this.shops = shops;
        this.documents = documents;
        this.clock = clock;
    }

    /**
     * Writes down metal that was taken for a job; sent again under its id it answers what is there.
     *
     * @throws InvalidInput with every fault
     * @throws Problem 404 when there is no such job, 409 when it is closed
     */
    @Transactional
    public Kept<MetalEntry> take(String number, MetalEntry entry) {
        Job job = jobs.job(number);
        metalFaults(job, entry).throwIfAny();
        return this.<MetalEntry>find(Kind.METAL, entry.id(), job)
                .orElseGet(
                        () -> {
                            Job.requireOpen(job.number(), job.state());
                            keep(job, entry, null);
                            return metal(entry.id(), job);
                        });
    }

    /**
     * @throws InvalidInput with every fault
     * @throws Problem 404 when there is no such job, 409 when it is closed
     */
    @Transactional
    public Kept<BillEntry> pay(String number, BillEntry entry) {
        Job job = jobs.job(number);
        billFaults(entry).throwIfAny();
        return this.<BillEntry>find(Kind.BILL, entry.id(), job)
                .orElseGet(
                        () -> {
                            Job.requireOpen(job.number(), job.state());
                            keep(job, entry, null);
                            return bill(entry.id(), job);
                        });
    }

    /**
     * Puts another in the place of one that was wrong; the old one stays to be read.
     *
     * @throws InvalidInput with every fault
     * @throws Problem 404 when there is no such row on the job, 409 when it was corrected before
     */
    @Transactional
    public Kept<MetalEntry> correctMetal(String number, UUID id, MetalEntry entry) {
        Job job = jobs.job(number);
        metalFaults(job, entry).throwIfAny();
        return this.<MetalEntry>find(Kind.METAL, entry.id(), job)
                .orElseGet(
                        () -> {
                            requireCorrectable(metal(id, job));
                            Job.requireOpen(job.number(), job.state());
                            keep(job, entry, id);
                            return metal(entry.id(), job);
                        });
    }

    /** As {@link #correctMetal}, of a bill; one of nothing stands for a bill that never was. */
    @Transactional
    public Kept<BillEntry> correctBill(String number, UUID id, BillEntry entry) {
        Job job = jobs.job(number);
        billFaults(entry).throwIfAny();
        return this.<BillEntry>find(Kind.BILL, entry.id(), job)
                .orElseGet(
                        () -> {
                            requireCorrectable(bill(id, job));
                            Job.requireOpen(job.number(), job.state());
                            keep(job, entry, id);
                            return bill(entry.id(), job);
                        });
    }

    /** All of a job, the latest first, those that were corrected too. */
    @Transactional(readOnly = true)
    public List<Kept<MetalEntry>> metal(String number) {
        return list(Kind.METAL, jobs.job(number));
    }

    /** All of a job, the latest first, those that were corrected too. */
    @Transactional(readOnly = true)
    public List<Kept<BillEntry>> bills(String number) {
        return list(Kind.BILL, jobs.job(number));
    }

    /** Metal that counts, by job. */
    Map<UUID, List<MetalEntry>> metalOf(Collection<UUID> jobs) {
        return counting(Kind.METAL, jobs);
    }

    /** Bills that count, by job. */
    Map<UUID, List<BillEntry>> billsOf(Collection<UUID> jobs) {
        return counting(Kind.BILL, jobs);
    }

    @SuppressWarnings("unchecked") // each table keeps one kind of entry
    private <T> Map<UUID, List<T>> counting(Kind kind, Collection<UUID> jobs) {
        Map<UUID, List<T>> found = new HashMap<>();
        if (jobs.isEmpty()) {
            return found;
        }
        sql.sql(
                        """
                        select e.job_id, e.entry from %1$s e
                        where e.shop_id = :shop and e.job_id in (:jobs)
                          and not exists (select from %1$s c
                            where c.shop_id = e.shop_id and c.replaces = e.id)
                        order by e.entered_at desc, e.id
                        """
                                .formatted(kind.table))
                .param("shop", SignedIn.current().shopId())
                .param("jobs", jobs)
                .query(
                        (row, i) ->
                                found.computeIfAbsent(
                                                row.getObject(1, UUID.class),
                                                id -> new ArrayList<>())
                                        .add((T) documents.read(row.getString(2), kind.entry)))
                .list();
        return found;
    }

    private enum Kind {
        METAL("metal_used", MetalEntry.class),
        BILL("bill", BillEntry.class);

        final String table;
        final Class<?> entry;

        Kind(String table, Class<?> entry) {
            this.table = table;
            this.entry = entry;
        }
    }

    private Faults metalFaults(Job job, MetalEntry entry) {
        Faults faults = entry.faults(books.current());
        notToCome(faults, "/usedOn", entry.usedOn());
        if (entry.item() != null
                && jobs.items(job).stream().noneMatch(p -> p.item().position() == entry.item())) {
            faults.add("/item", "is no item of the job");
        }
        return faults;
    }

    private Faults billFaults(BillEntry entry) {
        Faults faults = entry.faults(books.current());
        notToCome(faults, "/billedOn", entry.billedOn());
        return faults;
    }

    private static void requireCorrectable(Kept<?> wrong) {
        if (wrong.replacedBy() != null) {
            throw Problem.wrongState(
                    "It was corrected before by %s: correct that one."
                            .formatted(wrong.replacedBy()));
        }
    }

    private Kept<MetalEntry> metal(UUID id, Job job) {
        return this.<MetalEntry>find(Kind.METAL, id, job)
                .orElseThrow(() -> Problem.notFound("Metal " + id));
    }

    private Kept<BillEntry> bill(UUID id, Job job) {
        return this.<BillEntry>find(Kind.BILL, id, job)
                .orElseThrow(() -> Problem.notFound("Bill " + id));
    }

    private void keep(Job job, MetalEntry given, @Nullable UUID replaces) {
        MetalEntry entry = given.on(today());
        ShopBook book = books.current();
        insert(
                INSERT_METAL,
                SignedIn.current().shopId(),
                entry.id(),
                job.id(),
                documents.write(entry),
                entry.grade(),
                entry.netKg(book),
                entry.paid().amount(),
                entry.paid().currency().getCurrencyCode(),
                now(),
                SignedIn.current().userId(),
                replaces);
    }

    private void keep(Job job, BillEntry given, @Nullable UUID replaces) {
        BillEntry entry = given.on(today());
        Money amount = entry.amount();
        insert(
                INSERT_BILL,
                SignedIn.current().shopId(),
                entry.id(),
                job.id(),
                documents.write(entry),
                amount.amount(),
                amount.currency().getCurrencyCode(),
                now(),
                SignedIn.current().userId(),
                replaces);
    }

    private void insert(String into, @Nullable Object... values) {
        try {
            if (sql.sql(into).params(values).update() == 0) {
                throw new InvalidInput("/id", "was used before: make a new UUID");
            }
        } catch (DuplicateKeyException e) {
            throw Problem.wrongState(
                    "Somebody else corrected it at the same moment: look at that first.");
        }
    }

    private LocalDate today() {
        return LocalDate.ofInstant(clock.instant(), shops.current().timeZone());
    }

    private void notToCome(Faults faults, String at, @Nullable LocalDate day) {
        if (day != null && day.isAfter(today())) {
            faults.add(at, "is still to come: " + today() + " or before");
        }
    }

    private OffsetDateTime now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS).atOffset(ZoneOffset.UTC);
    }

    private <T> Optional<Kept<T>> find(Kind kind, UUID id, Job job) {
        return this.<T>query(kind, job, "and e.id = ?", id).stream().findFirst();
    }

    private <T> List<Kept<T>> list(Kind kind, Job job) {
        return query(kind, job, "order by e.entered_at desc, e.id");
    }

    @SuppressWarnings("unchecked") // each table keeps one kind of entry
    private <T> List<Kept<T>> query(Kind kind, Job job, String more, Object... values) {
        Object[] all = new Object[values.length + 2];
        all[0] = SignedIn.current().shopId();
        all[1] = job.id();
        System.arraycopy(values, 0, all, 2, values.length);
        return sql.sql(
                        """
                        select e.entry, l.display_name, e.entered_at, e.replaces, c.id
                        from %1$s e
                        join login l on l.shop_id = e.shop_id and l.id = e.entered_by
                        left join %1$s c on c.shop_id = e.shop_id and c.replaces = e.id
                        where e.shop_id = ? and e.job_id = ? %2$s
                        """
                                .formatted(kind.table, more))
                .params(all)
                .query(
                        (row, i) ->
                                new Kept<>(
                                        (T) documents.read(row.getString(1), kind.entry),
                                        row.getString(2),
                                        row.getObject(3, OffsetDateTime.class).toInstant(),
                                        row.getObject(4, UUID.class),
                                        row.getObject(5, UUID.class)))
                .list();
    }
}
