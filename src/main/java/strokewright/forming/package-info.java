/**
 * From geometry to strain, from strain to passes, from passes to strokes and minutes, each step
 * explained. Pure functions over plain geometry.
 */
@ApplicationModule(allowedDependencies = "quantity")
@NullMarked
package strokewright.forming;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
