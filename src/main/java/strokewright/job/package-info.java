/**
 * Jobs: what was ordered, with the plan that it was released with, the route card for the floor,
 * and the time that people book.
 */
@ApplicationModule(
        allowedDependencies = {
            "quote",
            "takeoff",
            "shopbook",
            "estimate",
            "forming",
            "sheet",
            "costing",
            "quantity",
            "exchange",
            "office",
            "access",
            "web"
        })
@NullMarked
package strokewright.job;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
