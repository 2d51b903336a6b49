/**
 * Rates, practice curve, standard time, samples of the final check and the build-up from cost to
 * price. Pure functions over plain numbers.
 */
@ApplicationModule(allowedDependencies = "quantity")
@NullMarked
package strokewright.costing;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
