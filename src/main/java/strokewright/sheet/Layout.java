package strokewright.sheet;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A guillotine layout as the tree of its cuts. Sizes are whole micrometres, and every piece carries
 * the kerf of the cuts on its far sides, so that pieces lie side by side without gaps.
 */
sealed interface Layout {

    int width();

    int height();

    /** Adds the pieces of each size to the counts. */
    void count(int[] counts);

    /** The first so many pieces in the order of cutting; null for none. */
    @Nullable Layout first(int pieces);

    default int pieces() {
        int[] counts = new int[sizes()];
        count(counts);
        int sum = 0;
        for (int count : counts) {
            sum += count;
        }
        return sum;
    }

    /** One more than the highest index of a size in it. */
    int sizes();

    /** Pieces of one size, all lying alike, in columns and rows. */
    record Grid(int size, boolean turned, int pieceWidth, int pieceHeight, int columns, int rows)
            implements Layout {

        @Override
        public int width() {
            return columns * pieceWidth;
        }

        @Override
        public int height() {
            return rows * pieceHeight;
        }

        @Override
        public void count(int[] counts) {
            counts[size] += columns * rows;
        }

        @Override
        public int sizes() {
            return size + 1;
        }

        @Override
        public @Nullable Layout first(int pieces) {
            if (pieces >= columns * rows) {
                return this;
            }
            int full = pieces / rows;
            int rest = pieces % rows;
            Grid columnsOf = full == 0 ? null : with(full, rows);
            Grid last = rest == 0 ? null : with(1, rest);
            if (columnsOf == null || last == null) {
                return columnsOf == null ? last : columnsOf;
            }
            return new Stack(true, List.of(columnsOf, last));
        }

        Grid with(int otherColumns, int otherRows) {
            return new Grid(size, turned, pieceWidth, pieceHeight, otherColumns, otherRows);
        }
    }

    /**
     * Parts beside each other along the sheet, or one above the other, between cuts right through.
     */
    record Stack(boolean along, List<Layout> parts) implements Layout {

        static Layout of(boolean along, List<Layout> parts) {
            return parts.size() == 1 ? parts.get(0) : new Stack(along, List.copyOf(parts));
        }

        @Override
        public int width() {
            return extent(along, true);
        }

        @Override
        public int height() {
            return extent(!along, false);
        }

        private int extent(boolean sum, boolean width) {
            int extent = 0;
            for (Layout part : parts) {
                int of = width ? part.width() : part.height();
                extent = sum ? extent + of : Math.max(extent, of);
            }
            return extent;
        }

        @Override
        public void count(int[] counts) {
            parts.forEach(p -> p.count(counts));
        }

        @Override
        public int sizes() {
            return parts.stream().mapToInt(Layout::sizes).max().orElse(0);
        }

        @Override
        public @Nullable Layout first(int pieces) {
            List<Layout> kept = new ArrayList<>();
            int left = pieces;
            for (Layout part : parts) {
                Layout some = left <= 0 ? null : part.first(left);
                if (some != null) {
                    kept.add(some);
                    left -= some.pieces();
                }
            }
            return kept.isEmpty() ? null : of(along, kept);
        }
    }
}
