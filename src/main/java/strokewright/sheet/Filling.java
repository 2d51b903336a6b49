package strokewright.sheet;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.sheet.Layout.Grid;
import strokewright.sheet.Layout.Stack;

/**
 * A sheet filled with pieces of much value where there are too many choices to look at all: a block
 * of equal pieces into the corner, a cut right through beside or above it, the same again with the
 * two rectangles that remain. The first blocks are tried in all ways, later ones by a rule; each
 * rule is tried and the best filling taken. It hangs on nothing but its inputs.
 */
final class Filling {

    /** What a block deeper down is chosen by. */
    private enum Rule {
        VALUE,
        LARGEST_PIECE,
        TIGHTEST
    }

    /** Blocks that are followed up at the first levels; one below. */
    private static final int[] TRIED = {24, 2};

    private final Sizes sizes;
    private final double[] value;
    private Rule rule = Rule.VALUE;

    private Filling(Sizes sizes, double[] value) {
        this.sizes = sizes;
        this.value = value;
    }

    private record Filled(@Nullable Layout layout, int[] counts, double value) {}

    private record Block(Grid grid, double value, double score) {}

    /**
     * @param available pieces of each size that may be used
     * @param value of one piece of each size
     * @return null where no piece of any value fits
     */
    static @Nullable Layout best(Sizes sizes, int[] available, double[] value) {
        Filling filling = new Filling(sizes, value);
        Filled best = null;
        for (Rule rule : Rule.values()) {
            filling.rule = rule;
            Filled filled =
                    filling.fill(sizes.sheetLength(), sizes.sheetWidth(), available.clone(), 0);
            if (best == null || filled.value > best.value + 1e-9) {
                best = filled;
            }
        }
        return best.layout;
    }

    private Filled fill(int length, int width, int[] left, int level) {
        Offers offers = new Offers(level < TRIED.length ? TRIED[level] : 1);
        offer(offers, length, width, left);
        Filled best = new Filled(null, new int[left.length], 0);
        for (Block block : offers.best()) {
            boolean beside = best(block.grid, length, width);
            best = better(best, cut(block, length, width, left, level, beside));
            if (level < TRIED.length) {
                best = better(best, cut(block, length, width, left, level, !beside));
            }
        }
        return best;
    }

    private static Filled better(Filled a, Filled b) {
        return b.value > a.value + 1e-9 ? b : a;
    }

    /** The cut that leaves the largest single rectangle. */
    private static boolean best(Grid block, int length, int width) {
        long beside = (long) (length - block.width()) * width;
        long above = (long) (width - block.height()) * length;
        return beside >= above;
    }

    private Filled cut(Block block, int length, int width, int[] left, int level, boolean beside) {
        Grid grid = block.grid;
        int[] after = left.clone();
        after[grid.size()] -= grid.columns() * grid.rows();
        int restLength = length - grid.width();
        int restWidth = width - grid.height();
        // The rest is filled first, for it is larger; what the block leaves of its strip after.
        Filled rest =
                beside
                        ? fill(restLength, width, after, level + 1)
                        : fill(length, restWidth, after, level + 1);
        int[] still = after.clone();
        for (int i = 0; i < still.length; i++) {
            still[i] -= rest.counts[i];
        }
        Filled strip =
                beside
                        ? fill(grid.width(), restWidth, still, level + 1)
                        : fill(restLength, grid.height(), still, level + 1);
        int[] counts = rest.counts.clone();
        for (int i = 0; i < counts.length; i++) {
            counts[i] += strip.counts[i];
        }
        counts[grid.size()] += grid.columns() * grid.rows();
        Layout first = stacked(!beside, grid, strip.layout);
        return new Filled(
                stacked(beside, first, rest.layout),
                counts,
                block.value + rest.value + strip.value);
    }

    private static Layout stacked(boolean along, Layout first, @Nullable Layout second) {
        return second == null ? first : new Stack(along, List.of(first, second));
    }

    private void offer(Offers offers, int length, int width, int[] left) {
        for (int i = 0; i < left.length; i++) {
            if (left[i] <= 0 || value[i] <= 0) {
                continue;
            }
            offer(offers, i, false, length, width, left[i]);
            if (sizes.mayTurn(i)) {
                offer(offers, i, true, length, width, left[i]);
            }
        }
    }

    private void offer(Offers offers, int size, boolean turned, int length, int width, int left) {
        int pieceLength = turned ? sizes.width(size) : sizes.length(size);
        int pieceWidth = turned ? sizes.length(size) : sizes.width(size);
        if (pieceLength > length || pieceWidth > width) {
            return;
        }
        int columns = Math.min(length / pieceLength, left);
        int rows = Math.min(width / pieceWidth, left);
        offers.columns(columns, Math.min(rows, left / columns));
        if (rows > 1) {
            offers.columns(columns, 1);
        }
        if (columns > 1) {
            offers.columns(1, rows);
        }
        if (columns > 1 && rows > 1) {
            offers.columns(Math.min(columns, left / rows), rows);
            offers.columns(1, 1);
        }
        offers.score(size, turned, pieceLength, pieceWidth, length, width);
    }

    /** The most promising blocks, kept in order; a grid is only made of what is kept. */
    private final class Offers {
        private final List<Block> kept = new ArrayList<>();
        private final int[] columns = new int[5];
        private final int[] rows = new int[5];
        private final int most;
        private int offered;

        Offers(int most) {
            this.most = most;
        }

        void columns(int columnsOfIt, int rowsOfIt) {
            if (columnsOfIt > 0 && rowsOfIt > 0) {
                columns[offered] = columnsOfIt;
                rows[offered++] = rowsOfIt;
            }
        }

        void score(
                int size, boolean turned, int pieceLength, int pieceWidth, int length, int width) {
            for (int o = 0; o < offered; o++) {
                double of = value[size] * columns[o] * rows[o];
                double strip =
                        Math.min(
                                (double) columns[o] * pieceLength * width,
                                (double) rows[o] * pieceWidth * length);
                double score =
                        switch (rule) {
                            case VALUE -> of;
                            case LARGEST_PIECE -> value[size] * 1e6 + of;
                            case TIGHTEST -> of / strip;
                        };
                if (kept.size() == most && kept.get(most - 1).score >= score) {
                    continue;
                }
                int at = kept.size();
                while (at > 0 && kept.get(at - 1).score < score) {
                    at--;
                }
                if (kept.size() == most) {
                    kept.remove(most - 1);
                }
                Grid grid = new Grid(size, turned, pieceLength, pieceWidth, columns[o], rows[o]);
                kept.add(at, new Block(grid, of, score));
            }
            offered = 0;
        }

        List<Block> best() {
            return kept;
        }
    }
}
