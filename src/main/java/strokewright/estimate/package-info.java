/**
 * The records {@link strokewright.estimate.TakeOff}, {@link strokewright.estimate.ShopBook} and
 * {@link strokewright.estimate.Estimate}, and the calculation from the first two to the third.
 * Pure: no tables, no framework beyond Jackson's annotations.
 */
@ApplicationModule(allowedDependencies = {"quantity", "forming", "sheet", "costing"})
@NullMarked
package strokewright.estimate;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
