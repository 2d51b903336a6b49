/**
 * What the estimator fills in for one item, and how it is shown: typing, reading, panels, pictures,
 * words; knows no quote.
 */
@ApplicationModule(
        allowedDependencies = {
            "shopbook",
            "estimate",
            "forming",
            "sheet",
            "costing",
            "quantity",
            "access",
            "web"
        })
@NullMarked
package strokewright.takeoff;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
