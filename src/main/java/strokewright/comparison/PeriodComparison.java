package strokewright.comparison;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.comparison.JobComparison.LabourAt;
import strokewright.comparison.JobComparison.Margins;
import strokewright.comparison.JobComparison.Net;
import strokewright.comparison.JobComparison.Over;
import strokewright.comparison.JobComparison.Sort;
import strokewright.comparison.JobComparison.Work;
import strokewright.quantity.Money;

/**
 * Jobs that were finished in a period, put together by one of their sides. The rows add up to the
 * whole, and the whole to the comparisons of the jobs, to the last digit.
 *
 * @param jobs how many
 * @param doubtful how many of them lack hours, metal or bills
 * @param rows the dearest first; by estimator and by job in the order of their names
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record PeriodComparison(
        @Nullable LocalDate from,
        @Nullable LocalDate to,
        By by,
        LabourAt labourAt,
        int jobs,
        int doubtful,
        List<Row> rows,
        Row total) {

    /** What a row is of that belongs to nothing that was asked for. */
    public enum Rest {
        /** Hours that were booked on a job without saying on what. */
        @JsonProperty("whole-job")
        WHOLE_JOB("Not booked to a step"),
        @JsonProperty("no-metal")
        NO_METAL("Work on no one metal"),
        @JsonProperty("direct-cost")
        DIRECT_COST("Metal, bought out and overheads"),
        @JsonProperty("bought-out-and-overheads")
        BOUGHT_OUT_AND_OVERHEADS("Bought out and overheads");

        private final String words;

        Rest(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }

    /**
     * @param key what the row is of; null of a rest and of all together
     * @param name as people read it
     * @param rest what belongs to no key
     * @param jobs how many have something in it
     * @param net null where a row holds parts of jobs, as is the margin
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Row(
            @Nullable String key,
            String name,
            @Nullable Rest rest,
            int jobs,
            Figures hours,
            Figures machineHours,
            Amounts cost,
            Over over,
            @Nullable Net net,
            @Nullable Margins margin) {

        /** Hours of people, actual of planned for what was made; null where none were planned. */
        @JsonIgnore
        public @Nullable Double ratio() {
            return hours.planned().signum() == 0
                    ? null
                    : hours.actual().doubleValue() / hours.planned().doubleValue();
        }
    }

    static PeriodComparison of(
            List<JobComparison> jobs,
            @Nullable LocalDate from,
            @Nullable LocalDate to,
            By by,
            LabourAt labourAt,
            Currency currency) {
        Map<Key, Sum> rows = new LinkedHashMap<>();
        Sum total = new Sum(currency, labourAt);
        for (JobComparison job : jobs) {
            Map<Key, Sum> own = new LinkedHashMap<>();
            if (by.ofWholeJobs()) {
                sum(own, key(job, by), job).whole(job);
            } else {
                parts(own, job, by);
            }
            own.forEach(
                    (key, sum) -> {
                        if (!sum.isNothing()) {
                            rows.computeIfAbsent(key, k -> new Sum(currency, labourAt)).add(sum);
                        }
                    });
            Sum whole = new Sum(currency, labourAt);
            whole.whole(job);
            total.add(whole);
        }
        List<Row> shown = new ArrayList<>();
        rows.entrySet().stream()
                .sorted(order(by))
                .forEach(e -> shown.add(e.getValue().row(e.getKey(), by.ofWholeJobs())));
        return new PeriodComparison(
                from,
                to,
                by,
                labourAt,
                jobs.size(),
                (int) jobs.stream().filter(PeriodComparison::isDoubtful).count(),
                shown,
                total.row(new Key(null, "All together", null), true));
    }

    static boolean isDoubtful(JobComparison job) {
        return job.notes().stream()
                .anyMatch(
                        n ->
                                switch (n.code()) {
                                    case CLOCK_RUNS, NO_HOURS, NO_METAL, NO_BILL -> true;
                                    default -> false;
                                });
    }

    private static Comparator<Map.Entry<Key, Sum>> order(By by) {
        Comparator<Map.Entry<Key, Sum>> keysFirst =
                Comparator.comparing(e -> e.getKey().rest == null ? -1 : e.getKey().rest.ordinal());
        return switch (by) {
            case ESTIMATOR, JOB -> keysFirst.thenComparing(e -> e.getKey().name);
            default ->
                    keysFirst.thenComparing(
                            e -> e.getValue().cost.actual().amount(), Comparator.reverseOrder());
        };
    }

    private record Key(@Nullable String key, String name, @Nullable Rest rest) {

        static Key of(String key, String name) {
            return new Key(key, name, null);
        }

        static Key of(Rest rest) {
            return new Key(null, rest.words(), rest);
        }
    }

    private static Key key(JobComparison job, By by) {
        return switch (by) {
            case CUSTOMER -> Key.of(job.customerId().toString(), job.customer());
            case ESTIMATOR -> Key.of(job.estimator(), job.estimator());
            default -> Key.of(job.job(), job.job() + " " + job.title());
        };
    }

    private static Key key(Work work, By by) {
        if (work.sort() == Sort.WHOLE_JOB) {
            return Key.of(Rest.WHOLE_JOB);
        }
        return switch (by) {
            case WORK_CENTRE -> Key.of(work.workCentre(), work.workCentre());
            case METAL ->
                    work.family() == null
                            ? Key.of(Rest.NO_METAL)
                            : Key.of(work.family(), work.family());
            default -> Key.of(work.kind(), KindWords.of(work.kind()));
        };
    }

    private static Sum sum(Map<Key, Sum> rows, Key key, JobComparison job) {
        return rows.computeIfAbsent(
                key, k -> new Sum(job.cost().actual().currency(), job.labourAt()));
    }

    private static void parts(Map<Key, Sum> rows, JobComparison job, By by) {
        job.work().forEach(w -> sum(rows, key(w, by), job).add(w));
        Key rest = Key.of(by == By.METAL ? Rest.BOUGHT_OUT_AND_OVERHEADS : Rest.DIRECT_COST);
        job.metal()
                .forEach(
                        m -> {
                            String family = m.family() == null ? m.grade() : m.family();
                            sum(rows, by == By.METAL ? Key.of(family, family) : rest, job).add(m);
                        });
        job.boughtOut().forEach(b -> sum(rows, rest, job).add(b));
        job.overheads().forEach(o -> sum(rows, rest, job).add(o));
    }

    /** A row while it is gathered. */
    private static final class Sum {
        private final Money zero;
        private final boolean atCostRates;
        private int jobs;
        private Figures hours = Figures.NONE;
        private Figures machineHours = Figures.NONE;
        private Amounts cost;
        private Over over;
        private Net net;

        Sum(Currency currency, LabourAt labourAt) {
            zero = Money.zero(currency);
            atCostRates = labourAt == LabourAt.COST_RATES;
            cost = Amounts.none(currency);
            over = over(zero, zero, zero, zero, zero, zero, zero);
            net = new Net(zero, zero, zero, zero);
        }

        private Over over(
                Money rate,
                Money efficiency,
                Money machine,
                Money price,
                Money usage,
                Money boughtOut,
                Money overheads) {
            return new Over(
                    atCostRates ? rate : null,
                    efficiency,
                    machine,
                    price,
                    usage,
                    boughtOut,
                    overheads);
        }

        boolean isNothing() {
            return hours.isNothing() && machineHours.isNothing() && cost.isNothing();
        }

        void whole(JobComparison job) {
            jobs = 1;
            hours = job.hours();
            machineHours =
                    job.work().stream().map(Work::machineHours).reduce(Figures.NONE, Figures::plus);
            cost = job.cost();
            over = job.over();
            net = job.net();
        }

        void add(Work work) {
            jobs = 1;
            hours = hours.plus(work.hours());
            machineHours = machineHours.plus(work.machineHours());
            cost = cost.plus(work.labour()).plus(work.machine());
            over =
                    over.plus(
                            over(
                                    work.rate() == null ? zero : work.rate(),
                                    work.efficiency(),
                                    work.machine().over(),
                                    zero,
                                    zero,
                                    zero,
                                    zero));
        }

        void add(JobComparison.Metal metal) {
            jobs = 1;
            cost = cost.plus(metal.cost());
            over = over.plus(over(zero, zero, zero, metal.price(), metal.usage(), zero, zero));
        }

        void add(JobComparison.Bought bought) {
            jobs = 1;
            cost = cost.plus(bought.cost());
            over = over.plus(over(zero, zero, zero, zero, zero, bought.cost().over(), zero));
        }

        void add(JobComparison.Overhead overhead) {
            jobs = 1;
            cost = cost.plus(overhead.cost());
            over = over.plus(over(zero, zero, zero, zero, zero, zero, overhead.cost().over()));
        }

        void add(Sum more) {
            jobs += more.jobs;
            hours = hours.plus(more.hours);
            machineHours = machineHours.plus(more.machineHours);
            cost = cost.plus(more.cost);
            over = over.plus(more.over);
            net =
                    new Net(
                            net.ordered().plus(more.net.ordered()),
                            net.made().plus(more.net.made()),
                            net.orderedAfterDiscounts().plus(more.net.orderedAfterDiscounts()),
                            net.madeAfterDiscounts().plus(more.net.madeAfterDiscounts()));
        }

        Row row(Key key, boolean ofWholeJobs) {
            return new Row(
                    key.key,
                    key.name,
                    key.rest,
                    jobs,
                    hours,
                    machineHours,
                    cost,
                    over,
                    ofWholeJobs ? net : null,
                    ofWholeJobs && atCostRates ? margins() : null);
        }

        private Margins margins() {
            return Margins.of(net.orderedAfterDiscounts(), net.madeAfterDiscounts(), cost);
        }
    }
}
