package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Money;

/**
 * What of a revision was ordered.
 *
 * @param number the customer's
 * @param items in the order of the quote
 * @param validUntil the new last day, of an offer that was taken after it had lapsed
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record Order(
        @Nullable String number,
        List<Line> items,
        @Nullable LocalDate validUntil,
        QuoteDocument.Total total) {

    public Order {
        items = List.copyOf(items);
    }

    /** So many of an item. */
    public record Line(int position, int quantity) {}

    /** How many of an item were ordered; empty of one that was not. */
    public Optional<Integer> quantity(int position) {
        return items.stream()
                .filter(line -> line.position == position)
                .map(Line::quantity)
                .findFirst();
    }

    /** The sum of the lines, each at the price of its quantity. */
    static QuoteDocument.Total total(List<PricedItem> items, List<Line> lines) {
        List<QuoteDocument.Total> each = new ArrayList<>();
        for (Line line : lines) {
            PricedItem item =
                    items.stream()
                            .filter(i -> i.position() == line.position)
                            .findFirst()
                            .orElseThrow();
            each.add(QuoteDocument.Total.of(item.at(line.quantity).orElseThrow()));
        }
        Money none = Money.zero(items.get(0).main().priceEach().currency());
        return each.stream()
                .reduce(new QuoteDocument.Total(none, none, none), QuoteDocument.Total::plus);
    }
}
