package strokewright.quote;

import java.sql.Array;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.SignedIn;

/** Quotes that were won or lost, with the kinds of work in them. */
@Component
public class DecidedQuotes {

    /** The newest are enough for a share, and the estimates of all would be slow to look into. */
    private static final int MOST = 400;

    private final JdbcClient sql;
    private final StoredQuotes stored;

    DecidedQuotes(JdbcClient sql, StoredQuotes stored) {
        this.sql = sql;
        this.stored = stored;
    }

    /**
     * @param on the day of the customer's word, or the last day of an offer that lapsed
     * @param won lapsed is lost; what was withdrawn is not decided at all
     * @param kinds of forming, and names of time standards
     */
    public record Decided(LocalDate on, boolean won, Set<String> kinds) {}

    /** The newest first. */
    @Transactional(readOnly = true)
    public List<Decided> newest() {
        return sql.sql(
                        """
                        select d.day, d.won, (
                          select array_agg(distinct coalesce(o.line ->> 'standard', o.line ->> 'type'))
                          from quote_item i, jsonb_array_elements(i.estimate -> 'operations') o(line)
                          where i.shop_id = d.shop_id and i.revision_id = d.revision_id
                            and not i.optional)
                        from (
                          select r.shop_id, r.id as revision_id, q.state = 'accepted' as won,
                            coalesce(o.decided_on, r.valid_until) as day, q.id as quote_id
                          from quote q
                          join quote_revision r on r.shop_id = q.shop_id and r.quote_id = q.id
                            and r.n = q.revision
                          left join quote_outcome o on o.shop_id = r.shop_id
                            and o.revision_id = r.id and o.taken_back_at is null
                          where q.shop_id = ? and (q.state in ('accepted', 'declined')
                            or q.state = 'issued' and r.valid_until < ?)
                          order by day desc, q.id
                          limit ?) d
                        order by d.day desc, d.quote_id
                        """)
                .params(SignedIn.current().shopId(), stored.today(), MOST)
                .query(
                        (row, n) ->
                                new Decided(
                                        row.getObject(1, LocalDate.class),
                                        row.getBoolean(2),
                                        kinds(row.getArray(3))))
                .list();
    }

    private static Set<String> kinds(Array kinds) throws java.sql.SQLException {
        return kinds == null ? Set.of() : Set.of((String[]) kinds.getArray());
    }
}
