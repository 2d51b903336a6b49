package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.lang.management.MemoryUsage;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.flyway.autoconfigure.FlywayConnectionDetails;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.core.io.ClassPathResource;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.datasource.SingleConnectionDataSource;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.access.SignedIn;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.office.Csv;
import strokewright.shopbook.ShopBooks;
import strokewright.takeoff.Situations;

/**
 * How long it takes among 100,000 quotes of one shop: searches, the register in both forms, earlier
 * quotes like a take-off. It prints what it measured and judges no time, since it does not know
 * what else the machine is doing; that everything is found is asserted.
 */
@Tag("load")
class ManyQuotesTests extends ServiceTest {

    private static final int QUOTES = 100_000;
    private static final int TURNS = 7;

    /** Between two looks at the heap, each of which collects it. */
    private static final Duration PAUSE = Duration.ofMillis(250);

    @Autowired private FoundQuotes found;
    @Autowired private Register register;
    @Autowired private SimilarQuotes similar;
    @Autowired private ShopBooks books;
    @Autowired private JdbcConnectionDetails service;
    @Autowired private FlywayConnectionDetails owner;

    private SignedIn who;

    @BeforeEach
    void fill() throws IOException {
        TestShop shop = openShop();
        who = shop.user(Role.ESTIMATOR);
        String script =
                new ClassPathResource("quote/many-quotes.sql")
                        .getContentAsString(StandardCharsets.UTF_8);
        SingleConnectionDataSource connection =
                new SingleConnectionDataSource(
                        service.getJdbcUrl(), owner.getUsername(), owner.getPassword(), true);
        try {
            JdbcTemplate sql = new JdbcTemplate(connection);
            for (String statement : script.split(";\\s*\\n")) {
                sql.execute(
                        statement
                                .replace("{shop}", shop.id().toString())
                                .replace("{who}", who.userId().toString())
                                .replace("{quotes}", String.valueOf(QUOTES)));
            }
        } finally {
            connection.destroy();
        }
    }

    @Test
    void amongHundredThousandQuotes() throws Exception {
        assertThat(who.call(() -> found.count(QuoteSearch.ALL))).isEqualTo(QUOTES);
        searches();
        register();
        similar();
    }

    private void searches() {
        Map<String, String> asked = new LinkedHashMap<>();
        asked.put("all", "");
        asked.put("number", "number=Q-2019-00");
        asked.put("digits", "number=12");
        asked.put("customer", "customer=theatre 17");
        asked.put("rare words", "text=cowl north ref-77");
        asked.put("common word", "text=frame");
        asked.put("one letter", "text=x");
        asked.put("nothing", "text=zzyzx");
        asked.put("grade", "metal=AL99.5-O");
        asked.put("family and size", "metal=aluminium-soft&sizeFromMm=600&sizeToMm=620");
        asked.put("thickness", "thicknessMm=1.5");
        asked.put("lapsed", "state=lapsed");
        asked.put("dates", "from=2019-01-01&to=2019-03-31&validTo=2019-04-15");
        asked.put("amount", "netFrom=600&netTo=610");
        asked.put("estimator", "estimator=estimator");
        asked.put(
                "mixed",
                "customer=quay&state=declined&metal=stainless&netFrom=100&from=2018-05-05");
        asked.forEach(
                (name, query) -> {
                    QuoteSearch search = search(query);
                    long[] count = new long[1];
                    String time =
                            measured(
                                    () -> {
                                        found.list(search, null, 51);
                                        count[0] = found.count(search);
                                    });
                    said("search, %-16s %7d found, page and count %s", name, count[0], time);
                });
    }

    private static QuoteSearch search(String query) {
        Map<String, String[]> parameters = new LinkedHashMap<>();
        for (String pair : query.split("&")) {
            if (!pair.isEmpty()) {
                parameters.put(
                        pair.substring(0, pair.indexOf('=')),
                        new String[] {pair.substring(pair.indexOf('=') + 1)});
            }
        }
        return SearchReading.ofProgram(parameters, Set.of());
    }

    private void register() throws Exception {
        QuoteSearch quarter = search("from=2024-01-01"); // each has four quantities
        for (Register.Form form :
                List.of(
                        new Register.Form.Separated(Csv.Manner.PLAIN),
                        new Register.Form.Workbook())) {
            for (Register.Rows rows : Register.Rows.values()) {
                QuoteSearch search = rows == Register.Rows.QUOTES ? QuoteSearch.ALL : quarter;
                String time = measured(() -> write(search, rows, form), 3);
                said(
                        "register, %s as %s: %s, heap in use at most %d MB more",
                        rows,
                        form.getClass().getSimpleName(),
                        time,
                        moreHeap(() -> write(search, rows, form)));
            }
        }
    }

    private void write(QuoteSearch search, Register.Rows rows, Register.Form form) {
        try {
            Path file = Files.createTempFile("register-", null);
            try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file))) {
                register.write(search, rows, form, out);
            } finally {
                Files.delete(file);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void similar() {
        ShopBook book = who.call(books::current);
        for (String radius : List.of("60", "150", "300", "450", "900")) {
            TakeOff takeOff =
                    Situations.takeOff(
                            QuotesApiTests.TAKE_OFF.replace(
                                    "\"radiusMm\":300", "\"radiusMm\":" + radius));
            Estimate estimate = Estimating.estimate(takeOff, book);
            int[] count = new int[1];
            String time =
                    measured(() -> count[0] = similar.to(takeOff, estimate, book, null).size());
            said("similar, radius %s: %d offered, %s", radius, count[0], time);
        }
    }

    // Measuring ---------------------------------------------------------------------------------

    private String measured(Runnable work) {
        return measured(work, TURNS);
    }

    private String measured(Runnable work, int turns) {
        long[] wall = new long[turns];
        long cpu = 0;
        for (int i = 0; i < turns; i++) {
            long cpuBefore = cpu();
            long begin = System.nanoTime();
            who.run(work);
            wall[i] = System.nanoTime() - begin;
            cpu = cpu() - cpuBefore;
        }
        Arrays.sort(wall);
        return String.format(
                Locale.ROOT,
                "best %d, median %d, worst %d ms (the service's own processor time %d ms)",
                ms(wall[0]),
                ms(wall[turns / 2]),
                ms(wall[turns - 1]),
                ms(cpu));
    }

    private static long ms(long nanos) {
        return TimeUnit.NANOSECONDS.toMillis(nanos);
    }

    private static long cpu() {
        return ((com.sun.management.OperatingSystemMXBean)
                        ManagementFactory.getOperatingSystemMXBean())
                .getProcessCpuTime();
    }

    /** In use after collections that are forced while the work goes on, above what was before. */
    private long moreHeap(Runnable work) throws InterruptedException {
        long before = inUse();
        AtomicLong most = new AtomicLong();
        AtomicBoolean done = new AtomicBoolean();
        Thread watch =
                new Thread(
                        () -> {
                            while (!done.get()) {
                                most.accumulateAndGet(inUse(), Math::max);
                                LockSupport.parkNanos(PAUSE.toNanos());
                            }
                        });
        watch.start();
        who.run(work);
        done.set(true);
        watch.join();
        return Math.max(0, most.get() - before) >> 20;
    }

    /** As the collection left it: what came since is not counted. */
    private static long inUse() {
        System.gc();
        return ManagementFactory.getMemoryPoolMXBeans().stream()
                .filter(pool -> pool.getType() == MemoryType.HEAP)
                .map(MemoryPoolMXBean::getCollectionUsage)
                .filter(Objects::nonNull)
                .mapToLong(MemoryUsage::getUsed)
                .sum();
    }

    private static void said(String what, Object... values) {
        double load = ManagementFactory.getOperatingSystemMXBean().getSystemLoadAverage();
        System.out.println(
                "load: "
                        + String.format(Locale.ROOT, what, values)
                        + String.format(Locale.ROOT, " [machine's load %.1f]", load));
    }
}
