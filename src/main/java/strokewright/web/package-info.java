/**
 * The manner in which the service speaks HTTP: strict JSON, problem details, version tags, safe
 * repeats, pages of lists, the frame of the pages, and numbers and units as people type them. Knows
 * no feature.
 */
@ApplicationModule(allowedDependencies = "quantity")
@NullMarked
package strokewright.web;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
