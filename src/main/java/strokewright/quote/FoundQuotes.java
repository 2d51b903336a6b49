package strokewright.quote;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.SignedIn;
import strokewright.estimate.ShopBook;
import strokewright.quantity.Money;
import strokewright.shopbook.ShopBooks;

/**
 * Quotes that a search finds. Everything that is asked of a quote itself stands in one narrow
 * table, which the database keeps up by itself; what is asked of its items is in their own.
 */
@Component
class FoundQuotes {

    /**
     * One line of the list.
     *
     * @param mainQuantity of the first item
     * @param net of all items but options, before tax
     * @param information what stands behind the first item
     */
    public record Entry(
            String number,
            int revision,
            State state,
            LocalDate date,
            String customer,
            String title,
            int mainQuantity,
            Money net,
            boolean feasible,
            String information) {}

    private final JdbcClient sql;
    private final StoredQuotes stored;
    private final ShopBooks books;

    FoundQuotes(JdbcClient sql, StoredQuotes stored, ShopBooks books) {
        this.sql = sql;
        this.stored = stored;
        this.books = books;
    }

    /**
     * Newest first.
     *
     * @param before only quotes with a lower number
     */
    @Transactional(readOnly = true)
    List<Entry> list(QuoteSearch search, @Nullable QuoteNumber before, int most) {
        ZoneId zone = stored.zone();
        LocalDate today = stored.today();
        Where where = where(search);
        where.and(
                "(l.year, l.n) < (:beforeYear, :beforeN)",
                Map.of(
                        "beforeYear", before == null ? Integer.MAX_VALUE : before.year(),
                        "beforeN", before == null ? Integer.MAX_VALUE : before.n()));
        return asked(
                        """
                        select l.year, l.n, r.n, l.state, l.at, coalesce(a.name, c.name), r.title,
                          r.main_quantity, r.net, r.currency, r.feasible, r.information,
                          l.valid_until
                        from (
                          select l.* from own_quote_lookup l
                          where %s
                          order by l.year desc, l.n desc
                          limit :most) l
                        join quote_revision r on r.shop_id = l.shop_id and r.id = l.revision_id
                        join customer c on c.shop_id = r.shop_id and c.id = r.customer_id
                        left join addressee a on a.shop_id = r.shop_id and a.revision_id = r.id
                        order by l.year desc, l.n desc
                        """
                                .formatted(where.clause()),
                        where)
                .param("most", most)
                .query(
                        (row, number) ->
                                new Entry(
                                        new QuoteNumber(row.getInt(1), row.getInt(2)).toString(),
                                        row.getInt(3),
                                        Quote.on(
                                                today,
                                                State.of(row.getString(4)),
                                                row.getObject(13, LocalDate.class)),
                                        row.getObject(5, OffsetDateTime.class)
                                                .atZoneSameInstant(zone)
                                                .toLocalDate(),
                                        row.getString(6),
                                        row.getString(7),
                                        row.getInt(8),
                                        Money.rounded(
                                                row.getBigDecimal(9),
                                                Currency.getInstance(row.getString(10))),
                                        row.getBoolean(11),
                                        row.getString(12)))
                .list();
    }

    @Transactional(readOnly = true)
    long count(QuoteSearch search) {
        Where where = where(search);
        return asked("select count(*) from own_quote_lookup l where " + where.clause(), where)
                .query(Long.class)
                .single();
    }

    /** Planned for just these values: how many they let through differs a thousandfold. */
    JdbcClient.StatementSpec asked(String statement, Where where) {
        sql.sql("set local plan_cache_mode = force_custom_plan").update();
        return sql.sql(statement).params(where.values);
    }

    /** Conditions on a row {@code l} of the view, with their values by name. */
    static final class Where {

        private final List<String> conditions = new ArrayList<>();
        private final Map<String, Object> values = new LinkedHashMap<>();

        void and(String condition, Map<String, ?> by) {
            conditions.add(condition);
            values.putAll(by);
        }

        void andIf(@Nullable Object value, String condition, String name) {
            if (value != null) {
                and(condition, Map.of(name, value));
            }
        }

        String clause() {
            return String.join(" and ", conditions);
        }

        Map<String, Object> values() {
            return values;
        }
    }

    Where where(QuoteSearch search) {
        Where where = new Where();
        where.and("l.shop_id = :shop", Map.of("shop", SignedIn.current().shopId()));
        search.numberPart().ifPresent(part -> number(where, part));
        where.andIf(search.customerId(), "l.customer_id = :customerId", "customerId");
        if (search.customer() != null) {
            contains(where, "l.customer", "customer", search.customer());
        }
        for (int i = 0; i < search.words().size(); i++) {
            contains(where, "l.words", "word" + i, search.words().get(i));
        }
        item(where, search.item());
        states(where, search.states());
        days(where, search);
        where.andIf(search.netFrom(), "l.net >= :netFrom", "netFrom");
        where.andIf(search.netTo(), "l.net <= :netTo", "netTo");
        where.andIf(search.estimatorId(), "l.estimator = :estimatorId", "estimatorId");
        if (search.estimator() != null) {
            where.and(
                    "l.estimator in (select id from login where shop_id = :shop"
                            + " and position(folded(:estimator) in folded(display_name)) > 0)",
                    Map.of("estimator", search.estimator()));
        }
        return where;
    }

    private static void number(Where where, NumberPart part) {
        where.and(
                "l.year between :fromYear and :toYear",
                Map.of("fromYear", part.fromYear(), "toYear", part.toYear()));
        List<String> ranges = new ArrayList<>();
        for (NumberPart.Range range : part.counts()) {
            ranges.add("l.n between " + range.from() + " and " + range.to());
        }
        where.and("(" + String.join(" or ", ranges) + ")", Map.of());
    }

    private static void contains(Where where, String column, String name, String part) {
        where.and(column + " like containing(:" + name + ")", Map.of(name, part));
    }

    private void item(Where where, QuoteSearch.Item item) {
        if (item.isAny()) {
            return;
        }
        List<String> asked = new ArrayList<>();
        Map<String, Object> by = new LinkedHashMap<>();
        if (item.metal() != null) {
            asked.add("i.grades && cast(:grades as text[])");
            by.put("grades", grades(item.metal(), books.current()));
        }
        if (item.sizeFromMm() != null) {
            asked.add("i.size_mm >= :sizeFrom");
            by.put("sizeFrom", item.sizeFromMm());
        }
        if (item.sizeToMm() != null) {
            asked.add("i.size_mm <= :sizeTo");
            by.put("sizeTo", item.sizeToMm());
        }
        if (item.thicknessMm() != null) {
            asked.add("i.thickness_mm between :thinnest and :thickest");
            by.put("thinnest", item.thicknessMm() - QuoteSearch.Item.SAME_THICKNESS_MM);
            by.put("thickest", item.thicknessMm() + QuoteSearch.Item.SAME_THICKNESS_MM);
        }
        where.and(
                "l.revision_id in (select i.revision_id from quote_item i where i.shop_id = :shop"
                        + " and "
                        + String.join(" and ", asked)
                        + ")",
                by);
    }

    /** The grade's own code and, of a family, those of all its grades. */
    static String[] grades(String metal, ShopBook book) {
        TreeSet<String> codes = new TreeSet<>(List.of(metal));
        for (ShopBook.Grade grade : book.grades()) {
            if (metal.equalsIgnoreCase(grade.code()) || metal.equalsIgnoreCase(grade.family())) {
                codes.add(grade.code());
            }
        }
        return codes.toArray(String[]::new);
    }

    private void states(Where where, List<State> states) {
        if (states.isEmpty()) {
            return;
        }
        List<String> any = new ArrayList<>();
        for (State state : states) {
            any.add(
                    switch (state) {
                        case ISSUED ->
                                "l.state = 'issued'"
                                        + " and (l.valid_until is null or l.valid_until >= :today)";
                        case LAPSED -> "l.state = 'issued' and l.valid_until < :today";
                        default -> "l.state = '" + state.name().toLowerCase(Locale.ROOT) + "'";
                    });
        }
        where.and("(" + String.join(" or ", any) + ")", Map.of("today", stored.today()));
    }

    private void days(Where where, QuoteSearch search) {
        ZoneId zone = stored.zone();
        if (search.from() != null) {
            where.and(
                    "l.at >= :from",
                    Map.of("from", search.from().atStartOfDay(zone).toOffsetDateTime()));
        }
        if (search.to() != null) {
            where.and(
                    "l.at < :to",
                    Map.of("to", search.to().plusDays(1).atStartOfDay(zone).toOffsetDateTime()));
        }
        where.andIf(search.validFrom(), "l.valid_until >= :validFrom", "validFrom");
        where.andIf(search.validTo(), "l.valid_until <= :validTo", "validTo");
    }
}
