package strokewright.sheet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Whether pieces go onto so many sheets: the largest piece goes onto the first sheet with every
 * choice of others that leaves no room for one more, and the same with what remains.
 */
final class FewestSheets {

    /** Choices that are looked at in all; deterministic where a clock would not be. */
    private static final long MOST_LOOKS = 400_000;

    private final Sizes sizes;
    private final Boxes boxes;
    private final List<Layout> alone;
    private final List<int[]> choices;
    private final Set<List<Integer>> hopeless = new HashSet<>();
    private long looks;

    FewestSheets(Sizes sizes, Boxes boxes, List<Layout> alone) {
        this.sizes = sizes;
        this.boxes = boxes;
        this.alone = alone;
        choices = new ArrayList<>(boxes.choices());
        choices.sort(Comparator.comparingLong((int[] c) -> -sizes.area(c)));
    }

    /** False once a "no" may only mean that not all was looked at. */
    boolean complete() {
        return looks <= MOST_LOOKS;
    }

    /** The choices, one for each sheet; null if none were found. */
    @Nullable List<int[]> within(int[] wanted, int sheets) {
        long area = sizes.area(wanted);
        if (area == 0) {
            return List.of();
        }
        if (tooMany(wanted, area, sheets) || !complete()) {
            return null;
        }
        List<Integer> key = key(wanted, sheets);
        if (hopeless.contains(key)) {
            return null;
        }
        int largest = largest(wanted);
        for (int[] choice : choices) {
            looks++;
            if (choice[largest] == 0 || !useful(choice, wanted)) {
                continue;
            }
            int[] rest = wanted.clone();
            for (int i = 0; i < rest.length; i++) {
                rest[i] -= choice[i];
            }
            List<int[]> others = within(rest, sheets - 1);
            if (others != null) {
                List<int[]> found = new ArrayList<>();
                found.add(choice);
                found.addAll(others);
                return found;
            }
            if (!complete()) {
                return null;
            }
        }
        hopeless.add(key);
        return null;
    }

    private boolean tooMany(int[] wanted, long area, int sheets) {
        if (area > sheets * sizes.sheetArea()) {
            return true;
        }
        for (int i = 0; i < wanted.length; i++) {
            if (wanted[i] > (long) sheets * alone.get(i).pieces()) {
                return true;
            }
        }
        return false;
    }

    private static List<Integer> key(int[] wanted, int sheets) {
        List<Integer> key = new ArrayList<>();
        Arrays.stream(wanted).forEach(key::add);
        key.add(sheets);
        return key;
    }

    private int largest(int[] wanted) {
        int largest = -1;
        for (int i = 0; i < wanted.length; i++) {
            if (wanted[i] > 0 && (largest < 0 || sizes.area(i) > sizes.area(largest))) {
                largest = i;
            }
        }
        return largest;
    }

    /** Whether it can be had and nothing more that is wanted would go onto its sheet. */
    private boolean useful(int[] choice, int[] wanted) {
        for (int i = 0; i < choice.length; i++) {
            if (choice[i] > wanted[i]) {
                return false;
            }
        }
        for (int i = 0; i < choice.length; i++) {
            if (choice[i] < wanted[i]) {
                int[] more = choice.clone();
                more[i]++;
                if (boxes.fits(more)) {
                    return false;
                }
            }
        }
        return true;
    }
}
