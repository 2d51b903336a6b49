package strokewright.quote;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.Currency;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.RowMapper;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.SignedIn;
import strokewright.quantity.Money;

/** Quotes by where they stand and what they wait for. */
@Component
class QuoteBoard {

    private static final String LINES =
            """
            select q.year, q.n, r.n, q.state, coalesce(r.issued_at, r.changed_at), q.valid_until,
              coalesce(a.name, c.name), r.title, r.net, r.currency, r.feasible, q.changed_at
            from quote q
            join quote_revision r on r.shop_id = q.shop_id and r.quote_id = q.id
              and r.n = q.revision
            join customer c on c.shop_id = r.shop_id and c.id = r.customer_id
            left join addressee a on a.shop_id = r.shop_id and a.revision_id = r.id
            """;

    private final JdbcClient sql;
    private final StoredQuotes stored;

    QuoteBoard(JdbcClient sql, StoredQuotes stored) {
        this.sql = sql;
        this.stored = stored;
    }

    /**
     * One quote, as its latest revision stands.
     *
     * @param date of issue, or of the last change while it is a draft
     * @param validUntil the last day of an offer; null of a draft
     * @param net of all items but options, before tax
     * @param changed when anything last happened to it
     */
    record Line(
            String number,
            int revision,
            State state,
            LocalDate date,
            @Nullable LocalDate validUntil,
            String customer,
            String title,
            Money net,
            boolean feasible,
            LocalDate changed) {}

    /** Those that a customer was last offered, the newest first. */
    @Transactional(readOnly = true)
    List<Line> ofCustomer(UUID customer, int most) {
        return sql.sql(
                        LINES
                                + """
                                where q.shop_id = ? and r.customer_id = ?
                                order by q.year desc, q.n desc
                                limit ?
                                """)
                .params(SignedIn.current().shopId(), customer, most)
                .query(line())
                .list();
    }

    private RowMapper<Line> line() {
        ZoneId zone = stored.zone();
        LocalDate today = stored.today();
        return (row, number) -> {
            LocalDate lastDay = row.getObject(6, LocalDate.class);
            return new Line(
                    new QuoteNumber(row.getInt(1), row.getInt(2)).toString(),
                    row.getInt(3),
                    Quote.on(today, State.of(row.getString(4)), lastDay),
                    day(row.getObject(5, OffsetDateTime.class), zone),
                    lastDay,
                    row.getString(7),
                    row.getString(8),
                    Money.rounded(row.getBigDecimal(9), Currency.getInstance(row.getString(10))),
                    row.getBoolean(11),
                    day(row.getObject(12, OffsetDateTime.class), zone));
        };
    }

    private static LocalDate day(OffsetDateTime at, ZoneId zone) {
        return at.atZoneSameInstant(zone).toLocalDate();
    }
}
