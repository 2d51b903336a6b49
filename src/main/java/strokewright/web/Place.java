package strokewright.web;

import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A page of the navigation. Each feature declares its own as a bean.
 *
 * @param key what a template gives the frame to say that it stands here
 * @param name as read in the navigation
 * @param roles who sees it, e.g. "OWNER"; everybody who is signed in when empty
 * @param order low comes first
 * @param of key of the place of the first row that it stands under; null in the first row
 */
public record Place(
        String key, String name, String path, Set<String> roles, int order, @Nullable String of) {

    /** One of the first row. */
    public Place(String key, String name, String path, Set<String> roles, int order) {
        this(key, name, path, roles, order, null);
    }
}
