/**
 * Customers and quotes: a revision holds items, each with its take-off, and freezes them with the
 * shop book's edition and the estimates; its documents and pages.
 */
@ApplicationModule(
        allowedDependencies = {
            "takeoff",
            "shopbook",
            "estimate",
            "forming",
            "sheet",
            "costing",
            "quantity",
            "office",
            "exchange",
            "access",
            "web"
        })
@NullMarked
package strokewright.quote;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
