/**
 * Writes office files as sheets of cells; the only user of the spreadsheet library. Knows no
 * feature.
 */
@ApplicationModule(allowedDependencies = "quantity")
@NullMarked
package strokewright.office;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
