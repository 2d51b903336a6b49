/**
 * The application itself: wires the packages, brings a PostgreSQL of its own where none is named,
 * and refuses to serve over a database that could lose data or leak it. Nobody imports it.
 */
@NullMarked
package strokewright;

import org.jspecify.annotations.NullMarked;
