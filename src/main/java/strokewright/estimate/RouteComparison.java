package strokewright.estimate;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Finding;
import strokewright.quantity.Money;

/**
 * Several routes of one item side by side. Break-evens and cheapest routes are judged on the exact
 * cost of the order, before any rounding, and among the routes that can be made as described.
 *
 * @param upToQuantity break-evens were looked for at every quantity from one to this
 * @param breakEvens by quantity
 * @param cheapest without gaps from one to {@code upToQuantity}; empty when no route can be made
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record RouteComparison(
        @Nullable Integer shopBookEdition,
        int upToQuantity,
        List<Curve> routes,
        List<BreakEven> breakEvens,
        List<Cheapest> cheapest) {

    public RouteComparison {
        routes = List.copyOf(routes);
        breakEvens = List.copyOf(breakEvens);
        cheapest = List.copyOf(cheapest);
    }

    /**
     * One route.
     *
     * @param feasible false when any finding is a refusal
     * @param findings each with its pointer into the route's own take-off
     * @param leadTimeDays the longest of its extras; null where nobody waits for any
     * @param quantities at the quantities of all take-offs, at round ones, and on both sides of
     *     every change of the cheapest route
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Curve(
            String name,
            boolean feasible,
            List<Finding> findings,
            @Nullable Integer leadTimeDays,
            List<At> quantities) {}

    /**
     * @param hours person-hours for the whole quantity
     * @param cost total, before profit
     * @param costEach a share of the total
     */
    public record At(int quantity, double hours, Money cost, Money costEach, Money priceEach) {}

    /**
     * From this quantity on one route is cheaper than another, until the next break-even of the
     * two.
     *
     * @param equalAt where both cost the same on straight lines between this quantity and the one
     *     before; with costs that grow in proportion the crossing itself
     */
    public record BreakEven(int quantity, String cheaper, String dearer, double equalAt) {}

    /** Both quantities included. Of equally cheap routes the one before them stays. */
    public record Cheapest(int fromQuantity, int toQuantity, String route) {}
}
