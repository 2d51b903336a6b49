package strokewright.quote;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.RowMapper;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Shops;
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
    private final Shops shops;

    QuoteBoard(JdbcClient sql, StoredQuotes stored, Shops shops) {
        this.sql = sql;
        this.stored = stored;
        this.shops = shops;
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

    /**
     * Quotes that have something in common.
     *
     * @param net of all of them together
     * @param lines the first of them
     */
    record Section(int count, Money net, List<Line> lines) {}

    /**
     * What the office looks at in the morning.
     *
     * @param due offers whose last day is near
     * @param lapsed offers whose last day has passed lately
     * @param waiting other offers without an answer, the oldest first
     * @param drafts not issued yet, the longest untouched first
     * @param ordered of the last {@link #LATELY_DAYS} days
     * @param refused declined or withdrawn in that time
     * @param lapsedBefore how many lapsed earlier without an answer
     */
    record Overview(
            Section due,
            Section lapsed,
            Section waiting,
            Section drafts,
            Section ordered,
            Section refused,
            int lapsedBefore) {

        /** Of all that a customer could still accept. */
        Money open() {
            return due.net.plus(waiting.net);
        }
    }

    static final int DUE_DAYS = 7;
    static final int LATELY_DAYS = 60;

    /**
     * @param most lines of each section
     */
    @Transactional(readOnly = true)
    Overview overview(int most) {
        LocalDate today = stored.today();
        LocalDate near = today.plusDays(DUE_DAYS);
        LocalDate lately = today.minusDays(LATELY_DAYS);
        return new Overview(
                open("issued", "q.valid_until between ? and ?", "q.valid_until", most, today, near),
                open(
                        "issued",
                        "q.valid_until >= ? and q.valid_until < ?",
                        "q.valid_until desc",
                        most,
                        lately,
                        today),
                open(
                        "issued",
                        "(q.valid_until > ? or q.valid_until is null)",
                        "q.valid_until",
                        most,
                        near),
                open("draft", "true", "r.feasible desc, q.changed_at", most),
                decided("accepted", most, lately),
                decided("declined', 'withdrawn", most, lately),
                sql.sql(
                                """
                                select count(*) from quote q
                                where q.shop_id = ? and q.state = 'issued' and q.valid_until < ?
                                """)
                        .params(SignedIn.current().shopId(), lately)
                        .query(Integer.class)
                        .single());
    }

    /**
     * @param where a condition of this class alone, with a mark for each of the days
     */
    private Section open(String state, String where, String order, int most, LocalDate... days) {
        List<Object> params = new ArrayList<>();
        params.add(SignedIn.current().shopId());
        params.add(state);
        params.addAll(List.of(days));
        String which = " where q.shop_id = ? and q.state = ? and " + where;
        List<Line> lines =
                sql.sql(LINES + which + " order by " + order + ", q.year, q.n limit " + most)
                        .params(params)
                        .query(line())
                        .list();
        return section(
                """
                select count(*), coalesce(sum(case when r.feasible then r.net end), 0)
                from quote q
                join quote_revision r on r.shop_id = q.shop_id and r.quote_id = q.id
                  and r.n = q.revision
                """
                        + which,
                params,
                lines);
    }

    /**
     * @param kinds of outcomes
     */
    private Section decided(String kinds, int most, LocalDate since) {
        List<Object> params = List.of(SignedIn.current().shopId(), since);
        String which =
                """
                 join quote_outcome o on o.shop_id = r.shop_id and o.revision_id = r.id
                  and o.taken_back_at is null
                 where q.shop_id = ? and o.decided_on >= ? and o.kind in ('%s')
                """
                        .formatted(kinds);
        List<Line> lines =
                sql.sql(LINES + which + " order by o.decided_on desc, o.at desc limit " + most)
                        .params(params)
                        .query(line())
                        .list();
        return section(
                """
                select count(*), coalesce(sum(coalesce(o.net, r.net)), 0)
                from quote q
                join quote_revision r on r.shop_id = q.shop_id and r.quote_id = q.id
                  and r.n = q.revision
                """
                        + which,
                params,
                lines);
    }

    private Section section(String sums, List<Object> params, List<Line> lines) {
        Currency currency = shops.current().currency();
        return sql.sql(sums)
                .params(params)
                .query(
                        (row, number) ->
                                new Section(
                                        row.getInt(1),
                                        Money.rounded(row.getBigDecimal(2), currency),
                                        lines))
                .single();
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
