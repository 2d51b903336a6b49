package strokewright.sheet;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What was looked through already, and what was too much to look through. Only for just the same
 * pieces again: what an order comes to may not hang on which orders were asked for before it.
 */
final class KnownBoxes {

    /** A saturated order asks for the same again and again, a row of small ones never. */
    private static final int MOST_KEPT = 4;

    private final Sizes sizes;
    private final List<Layout> alone;
    private final List<Boxes> known = new ArrayList<>();
    private final List<int[]> tooMuch = new ArrayList<>();

    KnownBoxes(Sizes sizes, List<Layout> alone) {
        this.sizes = sizes;
        this.alone = alone;
    }

    /** All choices of at most so many pieces; null where that is too much. */
    @Nullable Boxes upTo(int[] wanted) {
        int[] most = new int[wanted.length];
        for (int i = 0; i < most.length; i++) {
            most[i] = Math.min(wanted[i], alone.get(i).pieces());
        }
        for (Boxes boxes : known) {
            if (boxes.isUpTo(most)) {
                return boxes;
            }
        }
        if (tooMuch.stream().anyMatch(t -> within(t, most))) {
            return null;
        }
        Boxes boxes = Boxes.of(sizes, most);
        if (boxes == null) {
            keep(tooMuch, most);
        } else {
            keep(known, boxes);
        }
        return boxes;
    }

    private static <T> void keep(List<T> list, T one) {
        if (list.size() == MOST_KEPT) {
            list.remove(0);
        }
        list.add(one);
    }

    private static boolean within(int[] a, int[] b) {
        for (int i = 0; i < a.length; i++) {
            if (a[i] > b[i]) {
                return false;
            }
        }
        return true;
    }
}
