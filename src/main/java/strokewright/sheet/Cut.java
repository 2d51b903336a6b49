package strokewright.sheet;

import org.jspecify.annotations.Nullable;

/**
 * Pieces of each size that one sheet is cut into.
 *
 * @param layout null where the boxes know how
 * @param boxes among whose choices it is; null where it was found otherwise
 */
record Cut(int[] counts, @Nullable Layout layout, @Nullable Boxes boxes) {

    static Cut of(Layout layout, int sizes) {
        int[] counts = new int[sizes];
        layout.count(counts);
        return new Cut(counts, layout, null);
    }

    /** How often it can be cut without making more than is wanted of anything. */
    int times(int[] wanted) {
        int times = Integer.MAX_VALUE;
        for (int i = 0; i < counts.length; i++) {
            if (counts[i] > 0) {
                times = Math.min(times, wanted[i] / counts[i]);
            }
        }
        return times;
    }

    double worth(double[] value) {
        double worth = 0;
        for (int i = 0; i < counts.length; i++) {
            worth += counts[i] * value[i];
        }
        return worth;
    }

    void take(int[] from, int times) {
        for (int i = 0; i < counts.length; i++) {
            from[i] -= counts[i] * times;
        }
    }
}
