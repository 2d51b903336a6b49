package strokewright.comparison;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import strokewright.comparison.PeriodComparison.Row;
import strokewright.quantity.Money;

/** In which order the rows of a comparison stand on its page; what is of no key comes last. */
enum Sorted {
    NAME(Comparator.comparing(Row::name), "ascending"),
    JOBS(most(r -> r.jobs()), "descending"),
    QUOTED(most(r -> r.hours().quoted()), "descending"),
    PLANNED(most(r -> r.hours().planned()), "descending"),
    ACTUAL(most(r -> r.hours().actual()), "descending"),
    HOURS_OVER(most(r -> r.hours().over()), "descending"),
    PLANNED_COST(most(r -> r.cost().planned().amount()), "descending"),
    COST(most(r -> r.cost().actual().amount()), "descending"),
    COST_OVER(most(r -> r.cost().over().amount()), "descending"),
    MARGIN_QUOTED(
            least(r -> r.margin() == null ? null : r.margin().quoted().amount()), "ascending"),
    MARGIN_EARNED(
            least(r -> r.margin() == null ? null : r.margin().earned().amount()), "ascending");

    private final Comparator<Row> order;
    private final String aria;

    Sorted(Comparator<Row> order, String aria) {
        this.order =
                Comparator.comparing((Row r) -> r.rest() != null)
                        .thenComparing(order)
                        .thenComparing(Row::name);
        this.aria = aria;
    }

    private static <T extends Comparable<T>> Comparator<Row> most(Function<Row, T> of) {
        return Comparator.comparing(of, Comparator.reverseOrder());
    }

    private static Comparator<Row> least(Function<Row, @Nullable Money> of) {
        return Comparator.comparing(
                r -> of.apply(r) == null ? null : of.apply(r).amount(),
                Comparator.nullsLast(Comparator.naturalOrder()));
    }

    /** As it stands in an address. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** For {@code aria-sort}. */
    public String aria() {
        return aria;
    }

    List<Row> of(List<Row> rows) {
        List<Row> sorted = new ArrayList<>(rows);
        sorted.sort(order);
        return sorted;
    }

    static Optional<Sorted> of(String word) {
        return Arrays.stream(values()).filter(s -> s.word().equals(word)).findFirst();
    }

    static String all() {
        return Arrays.stream(values()).map(Sorted::word).collect(Collectors.joining(", "));
    }
}
