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

    /** Places of the first row. */
    public List<Place> first() {
        return places.stream().filter(p -> p.of() == null).toList();
    }

    /** The place of the first row that is, or holds, this one; null where no such place is. */
    public @Nullable Place top(String key) {
        String top =
                places.stream()
                        .filter(p -> p.key().equals(key) && p.of() != null)
                        .map(Place::of)
                        .findFirst()
                        .orElse(key);
        return first().stream().filter(p -> p.key().equals(top)).findFirst().orElse(null);
    }

    /** Places that stand under the same place of the first row. */
    public List<Place> around(String key) {
        Place top = top(key);
        return top == null
                ? List.of()
                : places.stream().filter(p -> top.key().equals(p.of())).toList();
    }
}
