package strokewright.quote;

import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;

/** Take-offs as items of a quote to try things with. */
final class Quoted {

    private Quoted() {}

    static PricedItem item(int position, boolean option, TakeOff takeOff, ShopBook book) {
        return new PricedItem(
                position,
                String.valueOf(takeOff.title()),
                option,
                takeOff,
                Estimating.estimate(takeOff, book),
                List.of());
    }

    static QuoteDocument quote(ShopBook book, TakeOff... takeOffs) {
        PricedItem[] items = new PricedItem[takeOffs.length];
        for (int i = 0; i < items.length; i++) {
            items[i] = item(i + 1, false, takeOffs[i], book);
        }
        return quote(items);
    }

    static QuoteDocument quote(PricedItem... items) {
        return new QuoteDocument(
                "Q-2026-0007",
                1,
                State.ISSUED,
                LocalDate.of(2026, 3, 2),
                items[0].title(),
                new QuoteDocument.Addressee(
                        UUID.fromString("018f2f3e-0000-7000-8000-000000000001"),
                        "Harbour Theatre Workshop",
                        "Quay Road 4\nQuillmoor",
                        null,
                        null),
                "Evie Stimator",
                "Otto Wner",
                3,
                Estimating.METHOD_VERSION,
                List.of(items).stream().allMatch(item -> item.estimate().feasible()),
                List.of(items),
                QuoteDocument.Total.of(List.of(items)),
                null,
                Terms.UNSAID,
                null,
                null,
                null,
                null);
    }
}
