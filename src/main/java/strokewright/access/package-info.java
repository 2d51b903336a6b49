/**
 * Who is here and for which shop: shops, users and their four roles, sign-in, tokens, and the guard
 * that keeps every transaction inside its shop.
 */
@ApplicationModule(allowedDependencies = {"web", "quantity"})
@NullMarked
package strokewright.access;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
