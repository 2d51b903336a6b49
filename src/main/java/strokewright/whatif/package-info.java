/** What another shop book would do to the drafts that nobody has issued yet; nothing is stored. */
@ApplicationModule(
        allowedDependencies = {
            "quote",
            "shopbook",
            "takeoff",
            "estimate",
            "costing",
            "quantity",
            "access",
            "web"
        })
@NullMarked
package strokewright.whatif;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
