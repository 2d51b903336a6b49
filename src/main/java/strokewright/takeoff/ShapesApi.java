package strokewright.takeoff;

import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import strokewright.estimate.FromShape;
import strokewright.estimate.Shape;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Api;

/** Turns a shape into parts of a take-off without storing anything, to be edited and estimated. */
@Api("/api/v1/shapes")
class ShapesApi {

    private final ShopBooks books;

    ShapesApi(ShopBooks books) {
        this.books = books;
    }

    @PostMapping
    FromShape take(@RequestBody Shape shape) {
        return FromShape.of(shape, books.current());
    }
}
