package strokewright.job;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import strokewright.access.SignedIn;
import strokewright.job.Booking.Sort;
import strokewright.job.Booking.Source;
import strokewright.job.Booking.What;

/** The bookings of the shop as they are kept, read within the transaction of whoever asks. */
@Component
class BookingRows {

    private static final String ALL =
            """
            select b.id, b.login_id, l.display_name, j.year, j.n, b.step, b.what, b.sort, b.source,
              b.paused, b.started_at, b.ended_at, b.minutes, b.pieces, b.scrapped, b.passes,
              b.checks, b.with_helper, b.reason, b.note, b.worked_on, b.entered_at,
              e.display_name entered_by, b.replaces, c.id replaced_by,
              s.part, s.kind
            from booking b
            join login l on l.shop_id = b.shop_id and l.id = b.login_id
            join login e on e.shop_id = b.shop_id and e.id = b.entered_by
            left join job j on j.shop_id = b.shop_id and j.id = b.job_id
            left join job_step s on s.shop_id = b.shop_id and s.job_id = b.job_id and s.n = b.step
            left join booking c on c.shop_id = b.shop_id and c.replaces = b.id
            where b.shop_id = :shop
            """;

    /** Left off, and neither gone on with nor finished since. */
    private static final String LEFT_OFF =
            """
            and b.login_id = :who and b.paused and c.id is null and j.state is distinct from 'closed'
              and not exists (select from booking g
                where g.shop_id = b.shop_id and g.login_id = b.login_id
                  and g.job_id is not distinct from b.job_id
                  and g.step is not distinct from b.step and g.what = b.what and g.id <> b.id
                  and g.started_at >= b.ended_at)
            """;

    private final JdbcClient sql;

    BookingRows(JdbcClient sql) {
        this.sql = sql;
    }

    Optional<Booking> find(UUID id) {
        return query("and b.id = :id", Map.of("id", id)).stream().findFirst();
    }

    /** The latest first, those that were corrected too. */
    List<Booking> ofJob(UUID job) {
        return query("and b.job_id = :job order by b.entered_at desc, b.id", Map.of("job", job));
    }

    /** The latest first, so many at most. */
    List<Booking> latestOfJob(UUID job, int most) {
        return query(
                "and b.job_id = :job order by b.entered_at desc, b.id limit :most",
                Map.of("job", job, "most", most));
    }

    /** Those that count, the latest first. */
    List<Booking> countingOf(Collection<UUID> jobs) {
        return jobs.isEmpty()
                ? List.of()
                : query(
                        "and b.job_id in (:jobs) and c.id is null order by b.entered_at desc, b.id",
                        Map.of("jobs", jobs));
    }

    Optional<Booking> running(UUID who) {
        return query(
                        "and b.login_id = :who and b.started_at is not null and b.ended_at is null",
                        Map.of("who", who))
                .stream()
                .findFirst();
    }

    /** Clocks of anybody that run since before then, the oldest first. */
    List<Booking> runningSince(Instant before) {
        return query(
                "and b.started_at < :before and b.ended_at is null order by b.started_at",
                Map.of("before", before.atOffset(ZoneOffset.UTC)));
    }

    /** The latest first. */
    List<Booking> leftOff(UUID who) {
        return query(LEFT_OFF + " order by b.ended_at desc limit 20", Map.of("who", who));
    }

    boolean isLeftOff(UUID who, UUID id) {
        return !query(LEFT_OFF + " and b.id = :id", Map.of("who", who, "id", id)).isEmpty();
    }

    /** Of a person from a day on, the latest first, so many at most. */
    List<Booking> ofPerson(UUID who, LocalDate from, int most) {
        return query(
                "and b.login_id = :who and b.worked_on >= :from"
                        + " order by b.worked_on desc, coalesce(b.started_at, b.entered_at) desc"
                        + " limit :most",
                Map.of("who", who, "from", from, "most", most));
    }

    /** Person-minutes by step, without what was corrected. */
    Map<Integer, Double> minutesByStep(UUID job) {
        Map<Integer, Double> minutes = new HashMap<>();
        sql.sql(
                        """
                        select b.step, sum(b.minutes * (1 + b.with_helper::int)) from booking b
                        where b.shop_id = ? and b.job_id = ? and b.step is not null
                          and b.minutes is not null
                          and not exists (select from booking c
                            where c.shop_id = b.shop_id and c.replaces = b.id)
                        group by 1
                        """)
                .params(SignedIn.current().shopId(), job)
                .query((row, i) -> minutes.put(row.getInt(1), row.getDouble(2)))
                .list();
        return minutes;
    }

    int count(UUID job) {
        return sql.sql("select count(*) from booking where shop_id = ? and job_id = ?")
                .params(SignedIn.current().shopId(), job)
                .query(Integer.class)
                .single();
    }

    private List<Booking> query(String where, Map<String, Object> values) {
        return sql.sql(ALL + where)
                .param("shop", SignedIn.current().shopId())
                .params(values)
                .query(BookingRows::booking)
                .list();
    }

    private static Booking booking(ResultSet row, int number) throws SQLException {
        String sort = row.getString("sort");
        return new Booking(
                row.getObject("id", UUID.class),
                row.getObject("login_id", UUID.class),
                row.getString("display_name"),
                row.getObject("year") == null
                        ? null
                        : new JobNumber(row.getInt("year"), row.getInt("n")).toString(),
                row.getObject("step", Integer.class),
                row.getString("kind") == null
                        ? null
                        : RouteCard.words(row.getString("part"), row.getString("kind")),
                What.of(row.getString("what")),
                sort == null ? null : Sort.of(sort),
                Source.of(row.getString("source")),
                row.getBoolean("paused"),
                instant(row.getObject("started_at", OffsetDateTime.class)),
                instant(row.getObject("ended_at", OffsetDateTime.class)),
                row.getBigDecimal("minutes") == null
                        ? null
                        : row.getBigDecimal("minutes").doubleValue(),
                row.getObject("pieces", Integer.class),
                row.getObject("scrapped", Integer.class),
                row.getObject("passes", Integer.class),
                row.getObject("checks", Integer.class),
                row.getBoolean("with_helper"),
                row.getString("reason"),
                row.getString("note"),
                row.getObject("worked_on", LocalDate.class),
                row.getObject("entered_at", OffsetDateTime.class).toInstant(),
                row.getString("entered_by"),
                row.getObject("replaces", UUID.class),
                row.getObject("replaced_by", UUID.class));
    }

    private static @Nullable Instant instant(@Nullable OffsetDateTime time) {
        return time == null ? null : time.toInstant();
    }
}
