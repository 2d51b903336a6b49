package strokewright.comparison;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.job.JobNumber;
import strokewright.job.JobRecords;

/**
 * Comparisons of finished jobs, kept as long as nothing changes that they are made of: a job, what
 * was booked on it, its customer, what people cost. Plans are frozen, so they never change.
 */
@Component
class FinishedJobs {

    /** Some ten kilobytes each. */
    private static final int MOST_KEPT = 1000;

    private final JdbcClient sql;
    private final JobRecords jobs;
    private final Shops shops;
    private final Map<Key, Kept> kept =
            Collections.synchronizedMap(
                    new LinkedHashMap<>(64, 0.75f, true) {
                        @Override
                        protected boolean removeEldestEntry(Map.Entry<Key, Kept> eldest) {
                            return size() > MOST_KEPT;
                        }
                    });

    FinishedJobs(JdbcClient sql, JobRecords jobs, Shops shops) {
        this.sql = sql;
        this.jobs = jobs;
        this.shops = shops;
    }

    private record Key(UUID shop, String job, boolean atCostRates) {}

    private record Kept(String made, JobComparison comparison) {}

    /** A finished job, and what its comparison is made of, in short. */
    private record Finished(String number, String made) {}

    /**
     * In the order in which they were finished.
     *
     * @param from first day, in the shop's time zone; null for all before
     * @param to last day; null for all after
     * @param rates null for whoever may not see what people cost
     */
    @Transactional(readOnly = true, propagation = Propagation.MANDATORY)
    public List<JobComparison> between(
            @Nullable LocalDate from,
            @Nullable LocalDate to,
            @Nullable LabourRates rates,
            Comparing.Plans plans) {
        UUID shop = SignedIn.current().shopId();
        List<Finished> finished = finished(from, to, rates != null);
        Map<String, JobComparison> comparisons = new HashMap<>();
        Map<String, String> missing = new LinkedHashMap<>();
        for (Finished job : finished) {
            Kept there = kept.get(new Key(shop, job.number, rates != null));
            if (there != null && there.made.equals(job.made)) {
                comparisons.put(job.number, there.comparison);
            } else {
                missing.put(job.number, job.made);
            }
        }
        // plans are reckoned anew, which takes by far the longest and touches nothing shared
        List<JobComparison> compared =
                jobs.of(missing.keySet()).parallelStream()
                        .map(job -> Comparing.of(job, rates, plans).withoutWhy())
                        .toList();
        for (JobComparison comparison : compared) {
            String number = comparison.job();
            comparisons.put(number, comparison);
            kept.put(
                    new Key(shop, number, rates != null),
                    new Kept(missing.get(number), comparison));
        }
        return finished.stream().map(job -> comparisons.get(job.number)).toList();
    }

    private List<Finished> finished(
            @Nullable LocalDate from, @Nullable LocalDate to, boolean atCostRates) {
        ZoneId zone = shops.current().timeZone();
        UUID shop = SignedIn.current().shopId();
        OffsetDateTime first =
                (from == null ? LocalDate.of(1900, 1, 1) : from)
                        .atStartOfDay(zone)
                        .toInstant()
                        .atOffset(ZoneOffset.UTC);
        OffsetDateTime end =
                (to == null ? LocalDate.of(9998, 12, 31) : to)
                        .plusDays(1)
                        .atStartOfDay(zone)
                        .toInstant()
                        .atOffset(ZoneOffset.UTC);
        return sql.sql(
                        """
                        with these as (
                          select * from job
                          where shop_id = :shop and finished_at >= :first and finished_at < :end
                        ), booked as (
                          select b.job_id, sum(hashtextextended(b::text, 0)::numeric) as made
                          from booking b
                          where b.shop_id = :shop and b.job_id in (select id from these)
                          group by 1
                        ), metal as (
                          select m.job_id, sum(hashtextextended(m::text, 0)::numeric) as made
                          from metal_used m
                          where m.shop_id = :shop and m.job_id in (select id from these)
                          group by 1
                        ), bills as (
                          select p.job_id, sum(hashtextextended(p::text, 0)::numeric) as made
                          from bill p
                          where p.shop_id = :shop and p.job_id in (select id from these)
                          group by 1
                        )
                        select j.year, j.n, concat_ws(' ', j.version, j.state, booked.made,
                          metal.made, bills.made, c.version,
                          case when :atCostRates then
                            (select count(*) from person_cost_rate r where r.shop_id = :shop) end)
                        from these j
                        join customer c on c.shop_id = j.shop_id and c.id = j.customer_id
                        left join booked on booked.job_id = j.id
                        left join metal on metal.job_id = j.id
                        left join bills on bills.job_id = j.id
                        order by j.finished_at, j.year, j.n
                        """)
                .param("shop", shop)
                .param("first", first)
                .param("end", end)
                .param("atCostRates", atCostRates)
                .query(
                        (row, i) ->
                                new Finished(
                                        new JobNumber(row.getInt(1), row.getInt(2)).toString(),
                                        row.getString(3)))
                .list();
    }
}
