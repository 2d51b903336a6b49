package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Currency;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.shopbook.ShopBooks;

/**
 * Items that were quoted before and are like the one that is being taken off.
 *
 * <p>How alike two items of one metal family are: the share of kinds of work that both have among
 * all that either has, times how near their sizes are (the smaller through the larger, so that a
 * factor counts alike both ways), times the same of their thicknesses. A size that only one of them
 * has counts a half. In whole percent; the newer stands first where two are alike.
 */
@Component
class SimilarQuotes {

    static final int MOST = 5;

    /** Below this nothing is learned from it. */
    static final int LEAST_PERCENT = 25;

    static final double ONE_HAS_NONE = 0.5;

    /**
     * At first only what is nearly the same is looked at: where that is enough, nothing farther off
     * can be among the likest.
     */
    private static final int[] LEAST = {75, 50, LEAST_PERCENT};

    private static final String LIKEST =
            """
            select e.year, e.n, r.n as revision, e.position, e.title,
              coalesce(a.name, c.name) as customer, e.at, e.state, e.valid_until,
              e.main_quantity, e.main_each, r.currency, e.hours, took.made, took.actual_hours, e.likeness
            from (
              select distinct on (like_it.quote_id) like_it.*
              from (
                select near_it.*, round(100 * shared.kinds::float8
                  / (cardinality(near_it.kinds) + :kinds - shared.kinds) * near_it.near)::int as likeness
                from (
                  select l.*, i.position, i.title, i.kinds, i.main_quantity, i.main_each, i.hours,
                    %1$s as near
                  from own_quote_lookup l
                  join quote_item i on i.shop_id = l.shop_id and i.revision_id = l.revision_id
                  where %2$s and %1$s >= :nearest
                  offset 0) near_it
                cross join lateral (select %3$s as kinds offset 0) shared
                offset 0) like_it
              where like_it.likeness >= :least
              order by like_it.quote_id, like_it.likeness desc, like_it.position) e
            join quote_revision r on r.shop_id = e.shop_id and r.id = e.revision_id
            join customer c on c.shop_id = r.shop_id and c.id = r.customer_id
            left join addressee a on a.shop_id = r.shop_id and a.revision_id = r.id
            left join quote_hours took on took.shop_id = e.shop_id and took.quote_id = e.quote_id
              and took.position = e.position
            order by e.likeness desc, e.at desc, e.year desc, e.n desc
            limit %4$d
            """;

    private final FoundQuotes found;
    private final StoredQuotes stored;
    private final ShopBooks books;

    SimilarQuotes(FoundQuotes found, StoredQuotes stored, ShopBooks books) {
        this.found = found;
        this.stored = stored;
        this.books = books;
    }

    /**
     * One of them.
     *
     * @param date of issue, or of a draft's last change
     * @param quantity the one that it was decided on
     * @param priceEach at that quantity, before tax
     * @param plannedHours of people for that quantity
     * @param made good pieces of the job that it became; null as long as none is finished with
     *     hours booked on the item
     * @param actualHours of people on that job, rework included; null together with it
     * @param likenessPercent 100 for the same work in the same size and thickness
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    record Earlier(
            String number,
            int revision,
            int position,
            String title,
            String customer,
            LocalDate date,
            State state,
            int quantity,
            @Nullable Money priceEach,
            double plannedHours,
            @Nullable Integer made,
            @Nullable Double actualHours,
            int likenessPercent) {}

    /**
     * The likest of each quote, at most {@link #MOST}, the likest first.
     *
     * @param except the quote that the take-off belongs to
     * @throws InvalidInput with every fault of the take-off
     */
    @Transactional(readOnly = true)
    List<Earlier> to(TakeOff takeOff, @Nullable QuoteNumber except) {
        ShopBook book = books.current();
        Estimate estimate = Estimating.estimate(takeOff, book);
        return to(takeOff, estimate, book, except);
    }

    /**
     * @param estimate of the take-off
     */
    @Transactional(readOnly = true)
    List<Earlier> to(
            TakeOff takeOff, Estimate estimate, ShopBook book, @Nullable QuoteNumber except) {
        String title = Objects.requireNonNullElse(takeOff.title(), "");
        ItemFacts facts =
                ItemFacts.of(new PricedItem(1, title, false, takeOff, estimate, List.of()), book);
        Set<String> kinds = new LinkedHashSet<>(facts.kinds());
        if (kinds.isEmpty() || facts.grades().isEmpty()) {
            return List.of();
        }
        String[] family = family(facts.grades(), book);
        List<Earlier> likest = List.of();
        for (int i = 0; i < LEAST.length && likest.size() < MOST; i++) {
            likest = asked(kinds, facts, family, except, LEAST[i]);
        }
        return likest;
    }

    /** Every grade of the families that these are of, and they themselves. */
    static String[] family(List<String> grades, ShopBook book) {
        TreeSet<String> all = new TreeSet<>(grades);
        for (String grade : grades) {
            book.grade(grade)
                    .map(ShopBook.Grade::family)
                    .ifPresent(family -> all.addAll(List.of(FoundQuotes.grades(family, book))));
        }
        return all.toArray(String[]::new);
    }

    private List<Earlier> asked(
            Set<String> kinds,
            ItemFacts facts,
            String[] family,
            @Nullable QuoteNumber except,
            int least) {
        ZoneId zone = stored.zone();
        LocalDate today = stored.today();
        FoundQuotes.Where where = found.where(QuoteSearch.ALL);
        where.and("i.grades && cast(:family as text[])", Map.of("family", family));
        if (except != null) {
            where.and(
                    "(l.year, l.n) <> (:exceptYear, :exceptN)",
                    Map.of("exceptYear", except.year(), "exceptN", except.n()));
        }
        double nearest = least / 100.0 - 0.005; // rounded it is the least
        where.values().put("least", least);
        where.values().put("nearest", nearest);
        where.values().put("kinds", kinds.size());
        String near =
                near(where, "i.size_mm", "size", facts.sizeMm(), nearest)
                        + " * "
                        + near(where, "i.thickness_mm", "thickness", facts.thicknessMm(), nearest);
        List<String> has = new ArrayList<>();
        for (String kind : kinds) {
            String name = "kind" + has.size();
            has.add("(:" + name + " = any (near_it.kinds))::int");
            where.values().put(name, kind);
        }
        String likest = LIKEST.formatted(near, where.clause(), String.join(" + ", has), MOST);
        return found.asked(likest, where)
                .query(
                        (row, number) -> {
                            LocalDate lastDay = row.getObject("valid_until", LocalDate.class);
                            BigDecimal each = row.getBigDecimal("main_each");
                            return new Earlier(
                                    new QuoteNumber(row.getInt("year"), row.getInt("n")).toString(),
                                    row.getInt("revision"),
                                    row.getInt("position"),
                                    row.getString("title"),
                                    row.getString("customer"),
                                    row.getObject("at", OffsetDateTime.class)
                                            .atZoneSameInstant(zone)
                                            .toLocalDate(),
                                    Quote.on(today, State.of(row.getString("state")), lastDay),
                                    row.getInt("main_quantity"),
                                    each == null
                                            ? null
                                            : Money.rounded(
                                                    each,
                                                    Currency.getInstance(
                                                            row.getString("currency"))),
                                    row.getDouble("hours"),
                                    row.getObject("made", Integer.class),
                                    row.getObject("actual_hours", Double.class),
                                    row.getInt("likeness"));
                        })
                .list();
    }

    /**
     * How near a measure is, from 0 to 1. A range that the least likeness leaves is asked first:
     * that is quickly told.
     */
    private static String near(
            FoundQuotes.Where where,
            String column,
            String name,
            @Nullable Double mm,
            double nearest) {
        if (mm == null || mm <= 0) {
            return "(case when %s is null then 1 else %s end)".formatted(column, ONE_HAS_NONE);
        }
        where.and(
                "(%1$s is null or %1$s between :%2$sLow and :%2$sHigh)".formatted(column, name),
                Map.of(name + "Low", mm * nearest, name + "High", mm / nearest, name, mm));
        return "(case when %1$s > 0 then least(%1$s, :%2$s) / greatest(%1$s, :%2$s) else %3$s end)"
                .formatted(column, name, ONE_HAS_NONE);
    }
}
