/**
 * Quoted against actual: one job or a period, hours and money, split by cause; what people cost,
 * which only the owner sees; the owner's page.
 */
@ApplicationModule(
        allowedDependencies = {
            "job",
            "quote",
            "takeoff",
            "shopbook",
            "estimate",
            "costing",
            "quantity",
            "office",
            "access",
            "web"
        })
@NullMarked
package strokewright.comparison;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
