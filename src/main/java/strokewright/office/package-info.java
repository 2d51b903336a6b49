/**
 * Office files: tables read from and written to csv and workbooks, workbooks as sheets of cells,
 * papers from a template, mails to be sent; the only user of the libraries for workbooks, PDF and
 * mail. Knows no feature.
 */
@ApplicationModule(allowedDependencies = "quantity")
@NullMarked
package strokewright.office;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
