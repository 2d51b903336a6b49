/**
 * What a shop believes, in numbered editions that never change: the starter book of a new shop,
 * adding the next edition, reading any of them, and the page of the current one.
 */
@ApplicationModule(
        allowedDependencies = {
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
package strokewright.shopbook;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
