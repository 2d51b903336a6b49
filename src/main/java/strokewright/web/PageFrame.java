package strokewright.web;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the frame of a page shows beside the page itself.
 *
 * @param shop name of the shop; null while nobody is signed in
 * @param user name of the signed-in user; null while nobody is
 * @param places where this user may go, in order
 */
public record PageFrame(@Nullable String shop, @Nullable String user, List<Place> places) {

    static final PageFrame NOBODY = new PageFrame(null, null, List.of());
}
