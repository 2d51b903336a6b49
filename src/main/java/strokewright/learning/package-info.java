/**
 * What the shop learns of itself: test strips, from which the bite, the stroke work and the feed
 * efficiency of a tool in a metal family are fitted and taken over into the next edition of the
 * shop book.
 */
@ApplicationModule(
        allowedDependencies = {
            "job",
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
