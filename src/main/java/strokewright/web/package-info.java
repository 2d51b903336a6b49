/**
 * What every page and every answer shares: the page's frame, numbers and units as people type them.
 * Knows no feature.
 */
@ApplicationModule(allowedDependencies = "quantity")
@NullMarked
package strokewright.web;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
