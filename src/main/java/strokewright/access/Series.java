package strokewright.access;

import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/**
 * Numbers counted within a shop and a year, without a gap or a double, however many ask at once.
 * Take one last in a transaction: whoever takes the next one waits until it has ended.
 */
@Component
public class Series {

    private final JdbcClient sql;

    Series(JdbcClient sql) {
        this.sql = sql;
    }

    /**
     * @param name of the series, such as "quote"
     * @return 1 for the first one of the year
     */
    public int next(String name, int year) {
        return sql.sql(
                        """
                        insert into number_counter as c (shop_id, series, year, last)
                        values (?, ?, ?, 1)
                        on conflict (shop_id, series, year) do update set last = c.last + 1
                        returning last
                        """)
                .params(SignedIn.current().shopId(), name, year)
                .query(Integer.class)
                .single();
    }
}
