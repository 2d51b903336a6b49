package strokewright.takeoff;

import com.fasterxml.jackson.annotation.JsonUnwrapped;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import strokewright.estimate.AskedPrice;
import strokewright.estimate.AtMarketPrice;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.TakeOff;
import strokewright.estimate.Variant;
import strokewright.estimate.VariantComparison;
import strokewright.estimate.Variants;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Api;
import strokewright.web.Numbers;

/** Estimates without storing anything, with the current edition of the shop book. */
@Api("/api/v1/estimates")
class EstimatesApi {

    private final ShopBooks books;

    EstimatesApi(ShopBooks books) {
        this.books = books;
    }

    @PostMapping
    Estimate estimate(@RequestBody TakeOff takeOff) {
        return Estimating.estimate(takeOff, books.current());
    }

    record Asked(@Nullable TakeOff takeOff, @Nullable List<Variant> variants) {}

    /** The take-off with something otherwise, up to {@link Variants#MOST} times, beside it. */
    @PostMapping("/variants")
    VariantComparison variants(@RequestBody Asked asked) {
        return Variants.compare(asked.takeOff, asked.variants, books.current());
    }

    /**
     * What a price leaves.
     *
     * @param words the same in sentences
     */
    record Left(@JsonUnwrapped AtMarketPrice figures, List<String> words) {}

    @PostMapping("/market-price")
    Left atMarketPrice(@RequestBody AskedPrice asked, Locale locale) {
        AtMarketPrice left = asked.answer(books.current());
        return new Left(left, new MarketWords(Numbers.of(locale)).of(left));
    }
}
