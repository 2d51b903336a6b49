/**
 * What the shop learns of itself: test strips, from which the bite, the stroke work and the feed
 * efficiency of a tool in a metal family are fitted, and finished jobs, from which factors on kinds
 * of work, drift and accuracy are; both are taken over into the next edition of the shop book.
 */
@ApplicationModule(
        allowedDependencies = {
            "comparison",
            "job",
            "quote",
            "takeoff",
            "shopbook",
            "estimate",
            "forming",
            "sheet",
            "quantity",
            "access",
            "web"
        })
@NullMarked
package strokewright.learning;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
