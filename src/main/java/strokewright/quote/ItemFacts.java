package strokewright.quote;

import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;
import strokewright.estimate.MainSize;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;

/**
 * What an item is looked up by.
 *
 * @param grades codes, each once
 * @param kinds types of forming and names of standards, each once
 * @param thicknessMm of its thickest part; null of an item without parts
 * @param sizeMm the size that it is known by; null where it has none
 * @param hours that the main quantity's price is made from
 */
record ItemFacts(
        List<String> grades,
        List<String> kinds,
        @Nullable Double thicknessMm,
        @Nullable Double sizeMm,
        double hours) {

    static ItemFacts of(PricedItem item, ShopBook book) {
        TakeOff takeOff = item.takeOff();
        return new ItemFacts(
                takeOff.parts().stream().map(TakeOff.Part::grade).distinct().toList(),
                item.estimate().operations().stream().map(ItemFacts::kind).distinct().toList(),
                takeOff.parts().stream()
                        .map(TakeOff.Part::thicknessMm)
                        .filter(Objects::nonNull)
                        .max(Comparator.naturalOrder())
                        .orElse(null),
                MainSize.of(takeOff, null, book).map(MainSize::mm).orElse(null),
                item.main().hours().plan());
    }

    static String kind(Estimate.Line line) {
        return line.standard() == null ? line.type() : line.standard();
    }
}
