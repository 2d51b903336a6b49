package strokewright.comparison;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Currency;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.comparison.JobComparison.LabourAt;
import strokewright.comparison.JobComparison.Margins;
import strokewright.comparison.JobComparison.Sort;
import strokewright.comparison.JobComparison.Work;
import strokewright.comparison.OwnerReport.Group;
import strokewright.comparison.OwnerReport.Hours;
import strokewright.comparison.OwnerReport.Won;
import strokewright.estimate.ShopBook;
import strokewright.job.Bookings;
import strokewright.job.JobNumber;
import strokewright.quantity.Money;
import strokewright.quote.Outcomes;
import strokewright.shopbook.ShopBooks;

/** Gathers what the owner looks at. */
@Component
class Owner {

    /** Days before a quote lapses on which somebody may still ask; common practice, no source. */
    private static final int LAPSING_DAYS = 7;

    private static final int MOST = 500;
    private static final int MOST_CUSTOMERS = 12;
    private static final BigDecimal SIXTY = BigDecimal.valueOf(60);
    private static final BigDecimal HUNDRED = BigDecimal.valueOf(100);

    /** Bounds of sizes of orders, before tax: each twice or so the one before; assumed. */
    private static final List<Integer> SIZES = List.of(250, 500, 1000, 2500, 5000);

    private final Comparisons comparisons;
    private final CostRates rates;
    private final Bookings bookings;
    private final Outcomes outcomes;
    private final ShopBooks books;
    private final Shops shops;
    private final List<Deciding> others;
    private final JdbcClient sql;
    private final Clock clock;

    Owner(
            Comparisons comparisons,
            CostRates rates,
            Bookings bookings,
            Outcomes outcomes,
            ShopBooks books,
            Shops shops,
            List<Deciding> others,
            JdbcClient sql,
            Clock clock) {
        this.comparisons = comparisons;
        this.rates = rates;
        this.bookings = bookings;
        this.outcomes = outcomes;
        this.books = books;
        this.shops = shops;
        this.others = others;
        this.sql = sql;
        this.clock = clock;
    }

    /**
     * @param from a year before {@code to} when null
     * @param to today when null
     */
    @Transactional(readOnly = true)
    public OwnerReport report(@Nullable LocalDate from, @Nullable LocalDate to) {
        LocalDate today = LocalDate.ofInstant(clock.instant(), shops.current().timeZone());
        LocalDate last = to == null ? today : to;
        LocalDate first = from == null ? last.minusYears(1).plusDays(1) : from;
        ShopBook book = books.current();
        Currency currency = Objects.requireNonNull(book.currency());
        List<JobComparison> jobs = comparisons.finished(first, last);
        List<Decided> decided = decided(first, last, today);
        return new OwnerReport(
                first,
                last,
                currency.getCurrencyCode(),
                group("All together", jobs, currency),
                groups(jobs, Owner::mainWork, currency),
                customers(jobs, currency),
                sizes(jobs, currency),
                PeriodComparison.of(jobs, first, last, By.OPERATION, LabourAt.COST_RATES, currency)
                        .rows(),
                wonBySize(decided, currency),
                wonByCustomer(decided, currency),
                won("All together", decided, currency),
                hours(first, last, book),
                decisions(jobs, today));
    }

    // What earns ----------------------------------------------------------------------------------

    private static String mainWork(JobComparison job) {
        Map<String, BigDecimal> hours = new HashMap<>();
        for (Work work : job.work()) {
            if (work.sort() != Sort.WHOLE_JOB) {
                hours.merge(work.kind(), work.hours().quoted(), BigDecimal::add);
            }
        }
        return hours.entrySet().stream()
                .max(
                        Map.Entry.<String, BigDecimal>comparingByValue()
                                .thenComparing(Map.Entry.comparingByKey()))
                .map(e -> KindWords.of(e.getKey()))
                .orElse("No planned work");
    }

    /**
     * The one that earned the least share of its price comes first: that is where something may
     * have to be done.
     */
    private static List<Group> groups(
            List<JobComparison> jobs, Function<JobComparison, String> name, Currency currency) {
        Map<String, List<JobComparison>> by = new LinkedHashMap<>();
        jobs.forEach(j -> by.computeIfAbsent(name.apply(j), n -> new ArrayList<>()).add(j));
        return by.entrySet().stream()
                .map(e -> group(e.getKey(), e.getValue(), currency))
                .sorted(
                        Comparator.comparing(
                                        (Group g) -> g.margin().earned().percent(),
                                        Comparator.nullsFirst(Comparator.naturalOrder()))
                                .thenComparing(g -> g.margin().earned().amount().amount())
                                .thenComparing(Group::name))
                .toList();
    }

    private static List<Group> customers(List<JobComparison> jobs, Currency currency) {
        List<Group> all = groups(jobs, JobComparison::customer, currency);
        List<Group> shown = new ArrayList<>(all.subList(0, Math.min(MOST_CUSTOMERS, all.size())));
        Set<String> names = shown.stream().map(Group::name).collect(Collectors.toSet());
        List<JobComparison> rest =
                jobs.stream().filter(j -> !names.contains(j.customer())).toList();
        if (!rest.isEmpty()) {
            shown.add(group(others(all.size()), rest, currency));
        }
        return shown;
    }

    /** So that the rows shown add up to all together. */
    private static String others(int customers) {
        return counted(customers - MOST_CUSTOMERS, "other customer", "other customers");
    }

    private static Group group(String name, List<JobComparison> jobs, Currency currency) {
        Money ordered = Money.zero(currency);
        Money made = ordered;
        Figures hours = Figures.NONE;
        Amounts cost = Amounts.none(currency);
        for (JobComparison job : jobs) {
            ordered = ordered.plus(job.net().orderedAfterDiscounts());
            made = made.plus(job.net().madeAfterDiscounts());
            hours = hours.plus(job.hours());
            cost = cost.plus(job.cost());
        }
        return new Group(name, jobs.size(), made, hours, Margins.of(ordered, made, cost));
    }

    private static List<Group> sizes(List<JobComparison> jobs, Currency currency) {
        List<Group> groups = new ArrayList<>();
        for (int i = 0; i <= SIZES.size(); i++) {
            int size = i;
            List<JobComparison> of =
                    jobs.stream().filter(j -> size(j.net().ordered().amount()) == size).toList();
            if (!of.isEmpty()) {
                groups.add(group(sizeName(size), of, currency));
            }
        }
        return groups;
    }

    private static int size(BigDecimal net) {
        int size = 0;
        while (size < SIZES.size() && net.compareTo(BigDecimal.valueOf(SIZES.get(size))) >= 0) {
            size++;
        }
        return size;
    }

    private static String sizeName(int size) {
        if (size == 0) {
            return "under " + SIZES.get(0);
        }
        return size == SIZES.size()
                ? SIZES.get(size - 1) + " and over"
                : SIZES.get(size - 1) + " to under " + SIZES.get(size);
    }

    // What is won ---------------------------------------------------------------------------------

    private record Decided(String how, String customer, BigDecimal net) {}

    /** A quote that lapsed was lost on the day after its last one. */
    private List<Decided> decided(LocalDate from, LocalDate to, LocalDate today) {
        return sql.sql(
                        """
                        select o.kind, c.name, coalesce(o.net, r.net)
                        from quote_outcome o
                        join quote_revision r on r.shop_id = o.shop_id and r.id = o.revision_id
                        join customer c on c.shop_id = r.shop_id and c.id = r.customer_id
                        where o.shop_id = :shop and o.taken_back_at is null
                          and o.kind in ('accepted', 'declined')
                          and o.decided_on between :from and :to
                        union all
                        select 'lapsed', c.name, r.net
                        from quote q
                        join quote_revision r on r.shop_id = q.shop_id and r.quote_id = q.id
                          and r.n = q.revision
                        join customer c on c.shop_id = r.shop_id and c.id = r.customer_id
                        where q.shop_id = :shop and q.state = 'issued' and q.valid_until < :today
                          and q.valid_until + 1 between :from and :to
                        """)
                .param("shop", SignedIn.current().shopId())
                .param("from", from)
                .param("to", to)
                .param("today", today)
                .query(
                        (row, i) ->
                                new Decided(
                                        row.getString(1), row.getString(2), row.getBigDecimal(3)))
                .list();
    }

    private static Won won(String name, List<Decided> decided, Currency currency) {
        int won = count(decided, "accepted");
        BigDecimal net = BigDecimal.ZERO;
        BigDecimal all = BigDecimal.ZERO;
        for (Decided one : decided) {
            all = all.add(one.net);
            net = one.how.equals("accepted") ? net.add(one.net) : net;
        }
        return new Won(
                name,
                won,
                count(decided, "declined"),
                count(decided, "lapsed"),
                decided.isEmpty() ? null : percent(won, decided.size()),
                Money.rounded(net, currency),
                Money.rounded(all, currency));
    }

    private static int count(List<Decided> decided, String how) {
        return (int) decided.stream().filter(d -> d.how.equals(how)).count();
    }

    private static BigDecimal percent(int part, int whole) {
        return percent(BigDecimal.valueOf(part), BigDecimal.valueOf(whole));
    }

    private static BigDecimal percent(BigDecimal part, BigDecimal whole) {
        return part.multiply(HUNDRED).divide(whole, 1, RoundingMode.HALF_UP);
    }

    private static List<Won> wonBySize(List<Decided> decided, Currency currency) {
        List<Won> won = new ArrayList<>();
        for (int i = 0; i <= SIZES.size(); i++) {
            int size = i;
            List<Decided> of = decided.stream().filter(d -> size(d.net) == size).toList();
            if (!of.isEmpty()) {
                won.add(won(sizeName(size), of, currency));
            }
        }
        return won;
    }

    private static List<Won> wonByCustomer(List<Decided> decided, Currency currency) {
        Map<String, List<Decided>> by = new LinkedHashMap<>();
        decided.forEach(d -> by.computeIfAbsent(d.customer, c -> new ArrayList<>()).add(d));
        List<Won> all =
                by.entrySet().stream()
                        .map(e -> won(e.getKey(), e.getValue(), currency))
                        .sorted(
                                Comparator.comparing((Won w) -> w.netDecided().amount())
                                        .reversed()
                                        .thenComparing(Won::name))
                        .toList();
        List<Won> shown = new ArrayList<>(all.subList(0, Math.min(MOST_CUSTOMERS, all.size())));
        shown.stream().map(Won::name).forEach(by::remove);
        if (!by.isEmpty()) {
            List<Decided> rest = by.values().stream().flatMap(List::stream).toList();
            shown.add(won(others(all.size()), rest, currency));
        }
        return shown;
    }

    // Where the hours go --------------------------------------------------------------------------

    private Hours hours(LocalDate from, LocalDate to, ShopBook book) {
        BigDecimal inBook = productiveShare(book);
        return sql.sql(
                        """
                        with booked as (
                          select b.login_id, b.worked_on, b.job_id is not null as on_job,
                            b.minutes * (1 + b.with_helper::int) as minutes
                          from booking b
                          where b.shop_id = :shop and b.worked_on between :from and :to
                            and b.minutes is not null
                            and not exists (select 1 from booking c
                              where c.shop_id = b.shop_id and c.replaces = b.id)
                        ), present as (
                          select distinct on (login_id, day) login_id, day, coalesce(minutes,
                            (extract(epoch from went - came) / 60
                              + case when went < came then 1440 else 0 end
                              - coalesce(break_minutes, 0))) as minutes
                          from presence
                          where shop_id = :shop and day between :from and :to
                          order by login_id, day, n desc
                        )
                        select coalesce(sum(minutes) filter (where on_job), 0),
                          coalesce(sum(minutes) filter (where not on_job), 0),
                          (select sum(minutes) from present where minutes is not null),
                          sum(minutes) filter (where on_job and (login_id, worked_on) in
                            (select login_id, day from present where minutes is not null))
                        from booked
                        """)
                .param("shop", SignedIn.current().shopId())
                .param("from", from)
                .param("to", to)
                .query(
                        (row, i) -> {
                            BigDecimal present = inHours(row.getBigDecimal(3));
                            BigDecimal onJobs =
                                    present == null
                                            ? null
                                            : Objects.requireNonNullElse(
                                                    inHours(row.getBigDecimal(4)), BigDecimal.ZERO);
                            boolean shares = present != null && present.signum() > 0;
                            return new Hours(
                                    Objects.requireNonNull(inHours(row.getBigDecimal(1))),
                                    Objects.requireNonNull(inHours(row.getBigDecimal(2))),
                                    present,
                                    onJobs,
                                    shares ? percent(onJobs, present) : null,
                                    inBook,
                                    shares && inBook != null
                                            ? present.multiply(inBook)
                                                    .divide(HUNDRED, 2, RoundingMode.HALF_UP)
                                            : null);
                        })
                .single();
    }

    private static @Nullable BigDecimal inHours(@Nullable BigDecimal minutes) {
        return minutes == null ? null : minutes.divide(SIXTY, 2, RoundingMode.HALF_UP);
    }

    /** The mean over the work centres whose rate is built. */
    private static @Nullable BigDecimal productiveShare(ShopBook book) {
        List<Double> shares =
                book.workCentres().stream()
                        .filter(c -> c.labourBasis() != null)
                        .map(c -> c.labourBasis().productivePercent())
                        .filter(Objects::nonNull)
                        .toList();
        return shares.isEmpty()
                ? null
                : shares.stream()
                        .map(BigDecimal::valueOf)
                        .reduce(BigDecimal.ZERO, BigDecimal::add)
                        .divide(BigDecimal.valueOf(shares.size()), MathContext.DECIMAL32)
                        .setScale(1, RoundingMode.HALF_UP);
    }

    // What has to be decided ----------------------------------------------------------------------

    private List<Decision> decisions(List<JobComparison> jobs, LocalDate today) {
        List<Decision> decisions = new ArrayList<>();
        int forgotten = bookings.forgotten().size();
        if (forgotten > 0) {
            decisions.add(
                    new Decision(
                            Decision.Code.FORGOTTEN_CLOCK,
                            counted(forgotten, "clock was", "clocks were")
                                    + " probably forgotten: ask how long it really was.",
                            "/book"));
        }
        overPlan(decisions);
        late(decisions, today);
        int finished = jobsIn("finished");
        if (finished > 0) {
            decisions.add(
                    new Decision(
                            Decision.Code.JOBS_TO_CLOSE,
                            counted(finished, "job is", "jobs are") + " finished and not closed.",
                            "/jobs"));
        }
        int waiting = outcomes.waiting(MOST).size();
        if (waiting > 0) {
            decisions.add(
                    new Decision(
                            Decision.Code.JOBS_TO_RELEASE,
                            counted(waiting, "accepted quote waits", "accepted quotes wait")
                                    + " to be released as a job.",
                            "/jobs"));
        }
        int lapsing = lapsing(today);
        if (lapsing > 0) {
            decisions.add(
                    new Decision(
                            Decision.Code.QUOTES_LAPSING,
                            counted(lapsing, "quote lapses", "quotes lapse")
                                    + " within "
                                    + LAPSING_DAYS
                                    + " days: ask the customer.",
                            "/quotes"));
        }
        int incomplete = (int) jobs.stream().filter(PeriodComparison::isDoubtful).count();
        if (incomplete > 0) {
            decisions.add(
                    new Decision(
                            Decision.Code.JOBS_INCOMPLETE,
                            counted(incomplete, "finished job lacks", "finished jobs lack")
                                    + " hours, metal or bills: its margin is not to be believed.",
                            "/comparison?by=job"));
        }
        long without =
                rates.people().stream().filter(p -> p.active() && p.rates().isEmpty()).count();
        if (without > 0) {
            decisions.add(
                    new Decision(
                            Decision.Code.PEOPLE_WITHOUT_RATE,
                            counted((int) without, "person has", "people have")
                                    + " no cost rate: their hours count at the rate of the work"
                                    + " centre.",
                            "/people/rates"));
        }
        others.forEach(other -> decisions.addAll(other.decisions()));
        return decisions;
    }

    private void overPlan(List<Decision> decisions) {
        sql.sql(
                        """
                        select j.year, j.n, booked.minutes / 60, planned.minutes / 60
                        from job j
                        join lateral (
                          select sum(b.minutes * (1 + b.with_helper::int)) as minutes from booking b
                          where b.shop_id = j.shop_id and b.job_id = j.id and b.minutes is not null
                            and not exists (select 1 from booking c
                              where c.shop_id = b.shop_id and c.replaces = b.id)) booked on true
                        join lateral (
                          select sum(s.setup_minutes + s.run_minutes)::numeric as minutes
                          from job_step s
                          where s.shop_id = j.shop_id and s.job_id = j.id) planned on true
                        where j.shop_id = ? and j.state in ('released', 'in-work')
                          and booked.minutes > planned.minutes
                        order by booked.minutes - planned.minutes desc
                        limit 10
                        """)
                .param(SignedIn.current().shopId())
                .query(
                        (row, i) -> {
                            String job = new JobNumber(row.getInt(1), row.getInt(2)).toString();
                            return new Decision(
                                    Decision.Code.JOB_OVER_PLAN,
                                    "%s has taken %s h, %s h were planned."
                                            .formatted(
                                                    job,
                                                    tenths(row.getBigDecimal(3)),
                                                    tenths(row.getBigDecimal(4))),
                                    "/jobs/" + job + "/comparison");
                        })
                .list()
                .forEach(decisions::add);
    }

    private static String tenths(BigDecimal hours) {
        return hours.setScale(1, RoundingMode.HALF_UP).toPlainString();
    }

    private void late(List<Decision> decisions, LocalDate today) {
        sql.sql(
                        """
                        select year, n, due_on from job
                        where shop_id = ? and state in ('released', 'in-work') and due_on < ?
                        order by due_on limit 10
                        """)
                .params(SignedIn.current().shopId(), today)
                .query(
                        (row, i) -> {
                            String job = new JobNumber(row.getInt(1), row.getInt(2)).toString();
                            return new Decision(
                                    Decision.Code.JOB_LATE,
                                    "%s was promised for %s."
                                            .formatted(job, row.getObject(3, LocalDate.class)),
                                    "/jobs/" + job);
                        })
                .list()
                .forEach(decisions::add);
    }

    private int jobsIn(String state) {
        return sql.sql("select count(*) from job where shop_id = ? and state = ?")
                .params(SignedIn.current().shopId(), state)
                .query(Integer.class)
                .single();
    }

    private int lapsing(LocalDate today) {
        return sql.sql(
                        """
                        select count(*) from quote
                        where shop_id = ? and state = 'issued' and valid_until between ? and ?
                        """)
                .params(SignedIn.current().shopId(), today, today.plusDays(LAPSING_DAYS))
                .query(Integer.class)
                .single();
    }

    private static String counted(int number, String one, String many) {
        return number + " " + (number == 1 ? one : many);
    }
}
