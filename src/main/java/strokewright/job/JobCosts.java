package strokewright.job;

import java.time.Clock;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Collection;
import java.util.Currency;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Documents;
import strokewright.access.Shops;
import strokewright.estimate.ShopBook;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Problem;

/** Metal and bills of jobs. */
@Component
public class JobCosts {

    private final Ledger<MetalUsed> metal;
    private final Ledger<BillEntry> bills;
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
        this.metal =
                new Ledger<>(
                        sql,
                        "metal_used",
                        List.of(
                                "entry",
                                "grade",
                                "family",
                                "taken_kg",
                                "back_kg",
                                "cost",
                                "currency"),
                        row ->
                                new MetalUsed(
                                        documents.read(row.getString("entry"), MetalEntry.class),
                                        row.getString("family"),
                                        row.getDouble("taken_kg"),
                                        row.getDouble("back_kg"),
                                        Money.rounded(
                                                row.getBigDecimal("cost"),
                                                Currency.getInstance(row.getString("currency")))));
        this.bills =
                new Ledger<>(
                        sql,
                        "bill",
                        List.of("entry", "amount", "currency"),
                        row -> documents.read(row.getString("entry"), BillEntry.class));
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
    public Kept<MetalUsed> take(String number, MetalEntry entry) {
        return write(number, entry, null);
    }

    /**
     * Puts another in the place of one that was wrong; the old one stays to be read.
     *
     * @throws InvalidInput with every fault
     * @throws Problem 404 when there is no such row on the job, 409 when it was corrected before or
     *     the job is closed
     */
    @Transactional
    public Kept<MetalUsed> correct(String number, UUID wrong, MetalEntry entry) {
        return write(number, entry, wrong);
    }

    private Kept<MetalUsed> write(String number, MetalEntry entry, @Nullable UUID wrong) {
        Job job = jobs.job(number);
        ShopBook book = books.current();
        Faults faults = entry.faults(book);
        notToCome(faults, "/usedOn", entry.usedOn());
        if (entry.item() != null
                && jobs.items(job).stream().noneMatch(p -> p.item().position() == entry.item())) {
            faults.add("/item", "is no item of the job");
        }
        faults.throwIfAny();
        MetalUsed used = MetalUsed.of(entry.on(today()), book);
        return metal.write(
                job,
                entry.id(),
                wrong,
                now(),
                documents.write(used.entry()),
                entry.grade(),
                used.family(),
                used.takenKg(),
                used.backKg(),
                used.cost().amount(),
                used.cost().currency().getCurrencyCode());
    }

    /**
     * Writes down a bill; sent again under its id it answers what is there.
     *
     * @throws InvalidInput with every fault
     * @throws Problem 404 when there is no such job, 409 when it is closed
     */
    @Transactional
    public Kept<BillEntry> pay(String number, BillEntry entry) {
        return write(number, entry, null);
    }

    /**
     * As {@link #correct(String, UUID, MetalEntry)}, of a bill; one of nothing stands for a bill
     * that never was.
     *
     * @throws InvalidInput with every fault
     * @throws Problem as there
     */
    @Transactional
    public Kept<BillEntry> correct(String number, UUID wrong, BillEntry entry) {
        return write(number, entry, wrong);
    }

    private Kept<BillEntry> write(String number, BillEntry entry, @Nullable UUID wrong) {
        Job job = jobs.job(number);
        Faults faults = entry.faults(books.current());
        notToCome(faults, "/billedOn", entry.billedOn());
        faults.throwIfAny();
        return bills.write(
                job,
                entry.id(),
                wrong,
                now(),
                documents.write(entry.on(today())),
                entry.amount().amount(),
                entry.amount().currency().getCurrencyCode());
    }

    /** All of a job, the latest first, those that were corrected too. */
    @Transactional(readOnly = true)
    public List<Kept<MetalUsed>> metal(String number) {
        return metal.of(jobs.job(number));
    }

    /** All of a job, the latest first, those that were corrected too. */
    @Transactional(readOnly = true)
    public List<Kept<BillEntry>> bills(String number) {
        return bills.of(jobs.job(number));
    }

    /** Metal that counts, by job. */
    Map<UUID, List<MetalUsed>> metalOf(Collection<UUID> jobs) {
        return metal.counting(jobs);
    }

    /** Bills that count, by job. */
    Map<UUID, List<BillEntry>> billsOf(Collection<UUID> jobs) {
        return bills.counting(jobs);
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
}
