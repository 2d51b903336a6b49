/**
 * Tables that go out as files and come in again: what a file's columns mean, faults by row and
 * column, what an import would change, and the pages and answers that show it. Knows no feature.
 */
@ApplicationModule(allowedDependencies = {"office", "access", "web", "quantity"})
@NullMarked
package strokewright.exchange;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
