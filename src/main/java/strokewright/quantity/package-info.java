/**
 * Values with their units and rounding, what a calculation has to tell ({@link
 * strokewright.quantity.Finding}), and why a figure is what it is ({@link
 * strokewright.quantity.Why}). Pure: knows no feature and no framework.
 */
@ApplicationModule(allowedDependencies = {})
@NullMarked
package strokewright.quantity;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
