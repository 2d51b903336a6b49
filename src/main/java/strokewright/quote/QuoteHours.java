package strokewright.quote;

import java.util.List;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.SignedIn;

/** What ordered items really took, so that the next quote of the like can look at it. */
@Component
public class QuoteHours {

    private final JdbcClient sql;
    private final StoredQuotes stored;

    QuoteHours(JdbcClient sql, StoredQuotes stored) {
        this.sql = sql;
        this.stored = stored;
    }

    /**
     * @param position of the item in the quote
     * @param made good pieces
     * @param hours of people, rework included
     */
    public record Took(int position, int made, double hours) {}

    /**
     * Keeps what the items of a quote took, in the place of what was kept before.
     *
     * @throws strokewright.web.Problem 404 when there is no such quote
     */
    @Transactional
    public void keep(String number, List<Took> items) {
        Quote quote = stored.quote(number);
        sql.sql("delete from quote_hours where shop_id = ? and quote_id = ?")
                .params(SignedIn.current().shopId(), quote.id())
                .update();
        for (Took item : items) {
            sql.sql(
                            """
                            insert into quote_hours (shop_id, quote_id, position, made, actual_hours)
                            values (?, ?, ?, ?, ?)
                            """)
                    .params(
                            SignedIn.current().shopId(),
                            quote.id(),
                            item.position(),
                            item.made(),
                            item.hours())
                    .update();
        }
    }
}
