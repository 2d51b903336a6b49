package strokewright.quote;

import static strokewright.office.Value.day;
import static strokewright.office.Value.number;
import static strokewright.office.Value.text;

import java.io.OutputStream;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.Currency;
import java.util.Iterator;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.office.Column;
import strokewright.office.Csv;
import strokewright.office.Value;
import strokewright.office.Xlsx;
import strokewright.quantity.Money;

/**
 * The quotes that a search finds as a table, lowest number first. Rows go from the database's
 * cursor straight into the file: no list of them is ever held.
 */
@Component
class Register {

    /** So many rows are fetched at a time. */
    private static final int FETCHED = 1000;

    private static final int DECIMALS_OF_HOURS = 3;

    /** What a row of the register is. */
    enum Rows {
        /** A quote, with what of it has one value. */
        QUOTES,
        /** An item of a quote in one of its quantities. */
        QUANTITIES
    }

    /** How the file is written. */
    sealed interface Form {

        record Separated(Csv.Manner manner) implements Form {}

        record Workbook() implements Form {}
    }

    /** Found once, so that items are read of these alone, and all of them in one go. */
    private static final String FOUND =
            """
            with l as materialized (select l.* from own_quote_lookup l where %s)
            """;

    private static final String HEAD =
            """
            select l.year, l.n, r.n as revision, l.at, l.valid_until, l.state,
              o.outcome ->> 'reason' as reason,
              coalesce(a.name, c.name) as customer,
              case when a.revision_id is null then q.contact else a.contact end as contact,
              r.terms ->> 'customerReference' as reference,
              o.outcome #>> '{order,number}' as order_number,
              r.currency, (r.terms ->> 'leadTimeDays')::int as lead_time, u.display_name as estimator,
              r.edition,
            """;

    private static final String JOINED =
            """
            from l
            join quote q on q.shop_id = l.shop_id and q.id = l.quote_id
            join quote_revision r on r.shop_id = l.shop_id and r.id = l.revision_id
            join customer c on c.shop_id = r.shop_id and c.id = r.customer_id
            join login u on u.shop_id = l.shop_id and u.id = l.estimator
            left join addressee a on a.shop_id = r.shop_id and a.revision_id = r.id
            left join quote_outcome o on o.shop_id = r.shop_id and o.revision_id = r.id
              and o.taken_back_at is null
            """;

    /** What counts in the total; of a single item its position, quantity and price each too. */
    private static final String BY_QUOTE =
            FOUND
                    + HEAD
                    + """
                      r.title, i.position, null::boolean as optional, i.quantity, i.each, r.net,
                      r.tax, i.hours, i.material, r.information
                    """
                    + JOINED
                    + """
                    left join (
                      select i.revision_id, sum(i.hours) as hours,
                        string_agg(array_to_string(i.grades, e'\n'), e'\n' order by i.position)
                          as material,
                        case when count(*) = 1 then min(i.position) end as position,
                        case when count(*) = 1 then min(i.main_quantity) end as quantity,
                        case when count(*) = 1 then min(i.main_each) end as each
                      from quote_item i
                      where i.shop_id = :shop and not i.optional
                        and i.revision_id in (select l.revision_id from l)
                      group by i.revision_id) i on i.revision_id = r.id
                    order by l.year, l.n
                    """;

    private static final String BY_QUANTITY =
            FOUND
                    + HEAD
                    + """
                      i.title, i.position, i.optional, (p.priced ->> 0)::int as quantity,
                      (p.priced ->> 1)::numeric as each, (p.priced ->> 2)::numeric as net,
                      (p.priced ->> 3)::numeric as tax, (p.priced ->> 4)::double precision as hours,
                      array_to_string(i.grades, e'\n') as material, i.information
                    """
                    + JOINED
                    + """
                    join quote_item i on i.shop_id = r.shop_id and i.revision_id = r.id
                    cross join lateral jsonb_array_elements(i.priced) with ordinality as p (priced, nth)
                    order by l.year, l.n, i.position, p.nth
                    """;

    private final JdbcClient sql;
    private final FoundQuotes found;
    private final StoredQuotes stored;

    Register(JdbcClient sql, FoundQuotes found, StoredQuotes stored) {
        this.sql = sql;
        this.found = found;
        this.stored = stored;
    }

    /** Columns in their order, which never changes; a new one would come last. */
    static List<Column> columns(int decimals) {
        return List.of(
                Column.text("Number", 13),
                Column.number("Revision", 0, 9),
                Column.day("Date"),
                Column.day("Valid until"),
                Column.text("State", 10),
                Column.text("Reason", 14),
                Column.text("Customer", 30),
                Column.text("Contact", 20),
                Column.text("Their reference", 18),
                Column.text("Order number", 16),
                Column.text("Title", 34),
                Column.number("Position", 0, 9),
                Column.yesNo("Option"),
                Column.number("Quantity", 0, 9),
                Column.money("Net each", decimals, 12),
                Column.money("Net total", decimals, 13),
                Column.money("Tax", decimals, 12),
                Column.text("Currency", 9),
                Column.number("Planned hours", DECIMALS_OF_HOURS, 10),
                Column.text("Material", 20),
                Column.number("Lead time, days", 0, 10),
                Column.text("Estimator", 20),
                Column.number("Edition", 0, 9),
                Column.text("Information", 16));
    }

    /** Writes it; the stream stays open. */
    @Transactional(readOnly = true)
    public void write(QuoteSearch search, Rows rows, Form form, OutputStream out) {
        // sorting on disk would take longer than the whole file may
        sql.sql("set local work_mem = '64MB'").update();
        Reading reading = new Reading(stored.zone(), stored.today());
        FoundQuotes.Where where = found.where(search);
        String statement = rows == Rows.QUOTES ? BY_QUOTE : BY_QUANTITY;
        try (Stream<List<Value>> lines =
                found
                        .asked(statement.formatted(where.clause()), where)
                        .withFetchSize(FETCHED)
                        .query((row, n) -> reading.values(row))
                        .stream()) {
            write(form, out, lines.iterator());
        }
    }

    private void write(Form form, OutputStream out, Iterator<List<Value>> lines) {
        List<Column> columns = columns(2);
        if (form instanceof Form.Separated separated) {
            Csv.write(out, separated.manner, columns, lines);
        } else {
            Xlsx.write(out, "Register of quotes", "Quotes", columns, lines);
        }
    }

    /** Makes the values of a row, in the order of the columns. */
    private record Reading(ZoneId zone, LocalDate today) {

        List<Value> values(ResultSet row) throws SQLException {
            LocalDate validUntil = row.getObject("valid_until", LocalDate.class);
            Currency currency = Currency.getInstance(row.getString("currency"));
            return List.of(
                    text(new QuoteNumber(row.getInt("year"), row.getInt("n")).toString()),
                    number(row.getInt("revision")),
                    day(
                            row.getObject("at", OffsetDateTime.class)
                                    .atZoneSameInstant(zone)
                                    .toLocalDate()),
                    day(validUntil),
                    text(Quote.on(today, State.of(row.getString("state")), validUntil).word()),
                    text(row.getString("reason")),
                    text(row.getString("customer")),
                    text(row.getString("contact")),
                    text(row.getString("reference")),
                    text(row.getString("order_number")),
                    text(row.getString("title")),
                    whole(row, "position"),
                    Value.yesNo(row.getObject("optional", Boolean.class)),
                    whole(row, "quantity"),
                    money(row, "each", currency),
                    money(row, "net", currency),
                    money(row, "tax", currency),
                    text(currency.getCurrencyCode()),
                    hours(row),
                    material(row.getString("material")),
                    whole(row, "lead_time"),
                    text(row.getString("estimator")),
                    whole(row, "edition"),
                    text(row.getString("information")));
        }

        /** Codes, each once. */
        private static Value material(@Nullable String codes) {
            return text(
                    codes == null
                            ? null
                            : codes.lines().distinct().collect(Collectors.joining(", ")));
        }

        private static Value whole(ResultSet row, String column) throws SQLException {
            return number(row.getObject(column, Integer.class));
        }

        private static Value money(ResultSet row, String column, Currency currency)
                throws SQLException {
            BigDecimal amount = row.getBigDecimal(column);
            return number(amount == null ? null : Money.rounded(amount, currency).amount());
        }

        private static Value hours(ResultSet row) throws SQLException {
            double hours = row.getDouble("hours");
            return row.wasNull()
                    ? Value.BLANK
                    : number(
                            BigDecimal.valueOf(hours)
                                    .setScale(DECIMALS_OF_HOURS, RoundingMode.HALF_UP));
        }
    }
}
