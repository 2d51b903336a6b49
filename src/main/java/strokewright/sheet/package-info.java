/** Mass of sheet, gauges, bends, blanks on stock sheets. Pure functions over plain numbers. */
@ApplicationModule(allowedDependencies = "quantity")
@NullMarked
package strokewright.sheet;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
