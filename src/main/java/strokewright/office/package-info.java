/**
 * Writes office files: workbooks as sheets of cells, papers from a template; the only user of the
 * libraries for workbooks and PDF. Knows no feature.
 */
@ApplicationModule(allowedDependencies = "quantity")
@NullMarked
package strokewright.office;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
