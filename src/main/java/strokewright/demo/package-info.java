/**
 * The invented shop of the profile {@code demo}: its people, its shop book, its customers and
 * quotes and its past, brought in at each start where they are missing. Data in {@code demo-data/}.
 */
@ApplicationModule(
        allowedDependencies = {
            "comparison",
            "job",
            "quote",
            "shopbook",
            "estimate",
            "costing",
            "access",
            "web",
            "quantity"
        })
@NullMarked
package strokewright.demo;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
