package strokewright.job;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.core.simple.JdbcClient;
import strokewright.access.SignedIn;
import strokewright.quantity.InvalidInput;
import strokewright.web.Problem;

/**
 * Rows of one kind on jobs: written down once, never changed, corrected by another row that takes
 * their place.
 */
final class Ledger<T> {

    private final JdbcClient sql;
    private final String table;
    private final List<String> columns;
    private final Reader<T> reader;

    /**
     * @param columns of what is written down, as the reader finds them by their names
     */
    Ledger(JdbcClient sql, String table, List<String> columns, Reader<T> reader) {
        this.sql = sql;
        this.table = table;
        this.columns = List.copyOf(columns);
        this.reader = reader;
    }

    @FunctionalInterface
    interface Reader<T> {
        T read(ResultSet row) throws SQLException;
    }

    /**
     * Writes a row, once: sent again under its id it answers what is there.
     *
     * @param wrong the row that it takes the place of; null for a new one
     * @param values of the columns; a document of JSON as text
     * @throws InvalidInput when the id was used elsewhere
     * @throws Problem 404 when there is no such row on the job, 409 when it was corrected before,
     *     or when the job is closed
     */
    Kept<T> write(Job job, UUID id, @Nullable UUID wrong, OffsetDateTime now, Object... values) {
        Optional<Kept<T>> before = find(job, id);
        if (before.isPresent()) {
            return before.get();
        }
        if (wrong != null) {
            requireCorrectable(get(job, wrong));
        }
        Job.requireOpen(job.number(), job.state());
        insert(job, id, wrong, now, values);
        return get(job, id);
    }

    private void insert(
            Job job, UUID id, @Nullable UUID wrong, OffsetDateTime now, Object[] values) {
        List<@Nullable Object> all = new ArrayList<>();
        all.add(SignedIn.current().shopId());
        all.add(id);
        all.add(job.id());
        all.add(now);
        all.add(SignedIn.current().userId());
        all.add(wrong);
        Collections.addAll(all, values);
        try {
            int written =
                    sql.sql(
                                    """
                                    insert into %s (shop_id, id, job_id, entered_at, entered_by,
                                      replaces, %s)
                                    values (?, ?, ?, ?, ?, ?, %s)
                                    on conflict (shop_id, id) do nothing
                                    """
                                            .formatted(
                                                    table,
                                                    String.join(", ", columns),
                                                    String.join(
                                                            ", ",
                                                            columns.stream()
                                                                    .map(Ledger::place)
                                                                    .toList())))
                            .params(all)
                            .update();
            if (written == 0) {
                throw new InvalidInput("/id", "was used before: make a new UUID");
            }
        } catch (DuplicateKeyException e) {
            throw Problem.wrongState(
                    "Somebody else corrected it at the same moment: look at that first.");
        }
    }

    private static String place(String column) {
        return column.equals("entry") ? "?::jsonb" : "?";
    }

    private static void requireCorrectable(Kept<?> wrong) {
        if (wrong.replacedBy() != null) {
            throw Problem.wrongState(
                    "It was corrected before by %s: correct that one."
                            .formatted(wrong.replacedBy()));
        }
    }

    /** All of a job, the latest first, those that were corrected too. */
    List<Kept<T>> of(Job job) {
        return query(job, "order by e.entered_at desc, e.id");
    }

    private Kept<T> get(Job job, UUID id) {
        return find(job, id).orElseThrow(() -> Problem.notFound("Row " + id));
    }

    private Optional<Kept<T>> find(Job job, UUID id) {
        return query(job, "and e.id = ?", id).stream().findFirst();
    }

    private List<Kept<T>> query(Job job, String more, Object... values) {
        List<Object> all = new ArrayList<>(List.of(SignedIn.current().shopId(), job.id()));
        Collections.addAll(all, values);
        return sql.sql(
                        """
                        select e.*, l.display_name, c.id replaced_by
                        from %1$s e
                        join login l on l.shop_id = e.shop_id and l.id = e.entered_by
                        left join %1$s c on c.shop_id = e.shop_id and c.replaces = e.id
                        where e.shop_id = ? and e.job_id = ? %2$s
                        """
                                .formatted(table, more))
                .params(all)
                .query(
                        (row, i) ->
                                new Kept<>(
                                        reader.read(row),
                                        row.getString("display_name"),
                                        row.getObject("entered_at", OffsetDateTime.class)
                                                .toInstant(),
                                        row.getObject("replaces", UUID.class),
                                        row.getObject("replaced_by", UUID.class)))
                .list();
    }

    /** Those that count, by job. */
    Map<UUID, List<T>> counting(Collection<UUID> jobs) {
        Map<UUID, List<T>> found = new HashMap<>();
        if (jobs.isEmpty()) {
            return found;
        }
        sql.sql(
                        """
                        select e.* from %1$s e
                        where e.shop_id = :shop and e.job_id in (:jobs)
                          and not exists (select from %1$s c
                            where c.shop_id = e.shop_id and c.replaces = e.id)
                        order by e.entered_at desc, e.id
                        """
                                .formatted(table))
                .param("shop", SignedIn.current().shopId())
                .param("jobs", jobs)
                .query(
                        (row, i) ->
                                found.computeIfAbsent(
                                                row.getObject("job_id", UUID.class),
                                                id -> new ArrayList<>())
                                        .add(reader.read(row)))
                .list();
        return found;
    }
}
