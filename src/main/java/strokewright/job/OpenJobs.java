package strokewright.job;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.SignedIn;

/** The jobs that somebody on the floor may be at, with their steps, read without their plans. */
@Component
class OpenJobs {

    private final JdbcClient sql;

    OpenJobs(JdbcClient sql) {
        this.sql = sql;
    }

    /**
     * @param customer name
     * @param mine whether whoever is signed in booked on it lately
     */
    record OpenJob(
            String number,
            JobState state,
            String title,
            String customer,
            boolean mine,
            List<OpenStep> steps) {}

    /**
     * @param words what it is called
     */
    record OpenStep(int n, String words, String kind, String workCentre) {}

    /** Released and in work: one's own of the last week first, then those due soonest. */
    @Transactional(readOnly = true)
    public List<OpenJob> first(int most) {
        return read(
                """
                where j.shop_id = :shop and j.state in ('released', 'in-work')
                order by mine desc, j.due_on nulls last, j.year, j.n limit :most
                """,
                Map.of("most", most));
    }

    /** The newest in whatever state. */
    @Transactional(readOnly = true)
    public List<OpenJob> latest(int most) {
        return read(
                "where j.shop_id = :shop order by j.year desc, j.n desc limit :most",
                Map.of("most", most));
    }

    /** One in whatever state. */
    @Transactional(readOnly = true)
    public Optional<OpenJob> find(JobNumber number) {
        return read(
                        "where j.shop_id = :shop and j.year = :year and j.n = :n",
                        Map.of("year", number.year(), "n", number.n()))
                .stream()
                .findFirst();
    }

    private record Row(UUID id, OpenJob job) {}

    private List<OpenJob> read(String where, Map<String, Object> values) {
        List<Row> found =
                sql.sql(
                                """
                                select j.id, j.year, j.n, j.state, j.title, c.name,
                                  exists (select from booking b
                                    where b.shop_id = j.shop_id and b.login_id = :who
                                      and b.worked_on > current_date - 7 and b.job_id = j.id) mine
                                from job j
                                join customer c on c.shop_id = j.shop_id and c.id = j.customer_id
                                """
                                        + where)
                        .param("shop", SignedIn.current().shopId())
                        .param("who", SignedIn.current().userId())
                        .params(values)
                        .query(
                                (row, i) ->
                                        new Row(
                                                row.getObject(1, UUID.class),
                                                new OpenJob(
                                                        new JobNumber(row.getInt(2), row.getInt(3))
                                                                .toString(),
                                                        JobState.of(row.getString(4)),
                                                        row.getString(5),
                                                        row.getString(6),
                                                        row.getBoolean(7),
                                                        new ArrayList<>())))
                        .list();
        Map<UUID, OpenJob> byId = new LinkedHashMap<>();
        found.forEach(row -> byId.put(row.id, row.job));
        addSteps(byId);
        return List.copyOf(byId.values());
    }

    private void addSteps(Map<UUID, OpenJob> jobs) {
        if (jobs.isEmpty()) {
            return;
        }
        sql.sql(
                        """
                        select job_id, n, part, kind, work_centre from job_step
                        where shop_id = :shop and job_id in (:jobs) order by job_id, n
                        """)
                .param("shop", SignedIn.current().shopId())
                .param("jobs", jobs.keySet())
                .query(
                        row -> {
                            jobs.get(row.getObject(1, UUID.class))
                                    .steps
                                    .add(
                                            new OpenStep(
                                                    row.getInt(2),
                                                    words(row.getString(3), row.getString(4)),
                                                    row.getString(4),
                                                    row.getString(5)));
                        });
    }

    private static String words(@Nullable String part, String kind) {
        return RouteCard.words(part, kind);
    }
}
