package strokewright.quote;

import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.TakeOff;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Api;

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
}
