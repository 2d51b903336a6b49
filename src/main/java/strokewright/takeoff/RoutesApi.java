package strokewright.takeoff;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import strokewright.estimate.BegunRoute;
import strokewright.estimate.Route;
import strokewright.estimate.RouteComparison;
import strokewright.estimate.RouteStart;
import strokewright.estimate.Routes;
import strokewright.estimate.TakeOff;
import strokewright.quantity.Faults;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Api;

/** Other routes of an item, begun and compared without storing anything. */
@Api("/api/v1/routes")
class RoutesApi {

    private final ShopBooks books;

    RoutesApi(ShopBooks books) {
        this.books = books;
    }

    /**
     * @param upToQuantity largest quantity at which a break-even is looked for; 1000 when left out
     */
    record Compared(List<Route> routes, @Nullable Integer upToQuantity) {}

    @PostMapping
    RouteComparison compare(@RequestBody Compared asked) {
        return Routes.compare(asked.routes, asked.upToQuantity, books.current()).comparison();
    }

    record Begun(@Nullable TakeOff takeOff, @Nullable RouteStart start) {}

    @PostMapping("/start")
    BegunRoute start(@RequestBody Begun asked) {
        Faults faults = new Faults();
        faults.present("/takeOff", asked.takeOff, "a take-off");
        faults.present(
                "/start", asked.start, "one of segments-welded, heat-shrunk-by-hand, press-tool");
        faults.throwIfAny();
        return BegunRoute.of(asked.takeOff, asked.start, books.current());
    }
}
