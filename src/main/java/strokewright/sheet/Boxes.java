package strokewright.sheet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.sheet.Layout.Grid;
import strokewright.sheet.Layout.Stack;

/**
 * Every choice of pieces that one sheet can hold, found exactly: for each choice the smallest
 * rectangles that it can be cut from edge to edge. A rectangle of several pieces has a first cut,
 * so each is two smaller choices beside or above each other.
 */
final class Boxes {

    /** Choices that are kept at most. */
    private static final long MOST_CHOICES = 30_000;

    /** Corners of outlines that are joined at most. */
    private static final long MOST_WORK = 500_000;

    private final int[] most;
    private final int[] radix;
    private final int sheetLength;
    private final int sheetWidth;
    private final @Nullable Front[] fronts;
    private final List<int[]> choices = new ArrayList<>();
    private long work;

    /**
     * Smallest rectangles of one choice: lengths rising, widths falling.
     *
     * @param from per rectangle the first part of its choice; for a single piece whether it is
     *     turned
     * @param along whether that part lies beside the rest
     */
    private record Front(int[] lengths, int[] widths, int[] from, boolean[] along) {

        int size() {
            return lengths.length;
        }
    }

    private Boxes(int[] most, int sheetLength, int sheetWidth) {
        this.most = most;
        this.sheetLength = sheetLength;
        this.sheetWidth = sheetWidth;
        radix = new int[most.length];
        int total = 1;
        for (int i = 0; i < most.length; i++) {
            radix[i] = total;
            total *= most[i] + 1;
        }
        fronts = new Front[total];
    }

    /**
     * @param most pieces of each size that a choice may hold
     * @return null where that would be too much to look through
     */
    static @Nullable Boxes of(Sizes sizes, int[] most) {
        long total = 1;
        for (int count : most) {
            total *= count + 1L;
            if (total > MOST_CHOICES) {
                return null;
            }
        }
        Boxes boxes = new Boxes(most, sizes.sheetLength(), sizes.sheetWidth());
        return boxes.fill(sizes) ? boxes : null;
    }

    private boolean fill(Sizes sizes) {
        long sheet = (long) sheetLength * sheetWidth;
        for (int c = 1; c < fronts.length; c++) {
            int[] choice = choice(c);
            if (sizes.area(choice) > sheet) {
                continue;
            }
            int single = single(choice);
            Joined joined = new Joined();
            if (single >= 0) {
                joined.single(sizes, single);
            } else if (!joined.parts(c, choice)) {
                return false;
            }
            if (!joined.isEmpty()) {
                fronts[c] = joined.front();
                choices.add(choice);
            }
        }
        return true;
    }

    /**
     * Choices that fit, each the pieces of every size; smaller ones before those that hold them.
     */
    List<int[]> choices() {
        return choices;
    }

    boolean isUpTo(int[] pieces) {
        return Arrays.equals(most, pieces);
    }

    private boolean covers(int[] choice) {
        for (int i = 0; i < choice.length; i++) {
            if (choice[i] > most[i]) {
                return false;
            }
        }
        return true;
    }

    boolean fits(int[] choice) {
        return covers(choice) && (index(choice) == 0 || fronts[index(choice)] != null);
    }

    /** The layouts of a choice that fits, one for each of its smallest rectangles. */
    List<Layout> layouts(Sizes sizes, int[] choice) {
        int c = index(choice);
        List<Layout> layouts = new ArrayList<>();
        for (int i = 0; i < fronts[c].size(); i++) {
            layouts.add(layout(sizes, c, i));
        }
        return layouts;
    }

    private Layout layout(Sizes sizes, int c, int at) {
        Front front = fronts[c];
        int single = single(choice(c));
        if (single >= 0) {
            return sizes.piece(single, front.from[at] == 1);
        }
        int first = front.from[at];
        int second = c - first;
        List<Layout> parts =
                front.along[at]
                        ? List.of(
                                layout(sizes, first, lowest(fronts[first], front.widths[at])),
                                layout(sizes, second, lowest(fronts[second], front.widths[at])))
                        : List.of(
                                layout(sizes, first, shortest(fronts[first], front.lengths[at])),
                                layout(sizes, second, shortest(fronts[second], front.lengths[at])));
        return joined(front.along[at], parts);
    }

    /** Parts cut the same way are one row; equal pieces in a row are one block. */
    private static Layout joined(boolean along, List<Layout> parts) {
        List<Layout> flat = new ArrayList<>();
        for (Layout part : parts) {
            if (part instanceof Stack stack && stack.along() == along) {
                flat.addAll(stack.parts());
            } else {
                flat.add(part);
            }
        }
        List<Layout> merged = new ArrayList<>();
        for (Layout part : flat) {
            int alike = alike(merged, part, along);
            if (alike < 0) {
                merged.add(part);
            } else {
                Grid grid = (Grid) merged.get(alike);
                Grid other = (Grid) part;
                merged.set(
                        alike,
                        along
                                ? grid.with(grid.columns() + other.columns(), grid.rows())
                                : grid.with(grid.columns(), grid.rows() + other.rows()));
            }
        }
        return Stack.of(along, merged);
    }

    private static int alike(List<Layout> merged, Layout part, boolean along) {
        for (int i = 0; i < merged.size(); i++) {
            if (merged.get(i) instanceof Grid a
                    && part instanceof Grid b
                    && a.size() == b.size()
                    && a.turned() == b.turned()
                    && (along ? a.rows() == b.rows() : a.columns() == b.columns())) {
                return i;
            }
        }
        return -1;
    }

    /** The rectangle of the least length that is no wider than this. */
    private static int lowest(Front front, int width) {
        int i = 0;
        while (front.widths[i] > width) {
            i++;
        }
        return i;
    }

    /** The rectangle of the least width that is no longer than this. */
    private static int shortest(Front front, int length) {
        int i = front.size() - 1;
        while (front.lengths[i] > length) {
            i--;
        }
        return i;
    }

    private int index(int[] choice) {
        int c = 0;
        for (int i = 0; i < choice.length; i++) {
            c += choice[i] * radix[i];
        }
        return c;
    }

    private int[] choice(int c) {
        int[] choice = new int[most.length];
        for (int i = 0; i < choice.length; i++) {
            choice[i] = c / radix[i] % (most[i] + 1);
        }
        return choice;
    }

    /** The size of a choice of one piece, or -1. */
    private static int single(int[] choice) {
        int single = -1;
        for (int i = 0; i < choice.length; i++) {
            if (choice[i] > 1 || choice[i] == 1 && single >= 0) {
                return -1;
            }
            single = choice[i] == 1 ? i : single;
        }
        return single;
    }

    /** Rectangles gathered for one choice, always the smallest ones in order. */
    private final class Joined {
        private int[] lengths = new int[16];
        private int[] widths = new int[16];
        private int[] from = new int[16];
        private boolean[] along = new boolean[16];
        private int size;

        boolean isEmpty() {
            return size == 0;
        }

        Front front() {
            return new Front(
                    Arrays.copyOf(lengths, size),
                    Arrays.copyOf(widths, size),
                    Arrays.copyOf(from, size),
                    Arrays.copyOf(along, size));
        }

        void single(Sizes sizes, int size) {
            add(sizes.length(size), sizes.width(size), 0, true);
            if (sizes.mayTurn(size)) {
                add(sizes.width(size), sizes.length(size), 1, true);
            }
        }

        /** False where it has become too much. */
        boolean parts(int c, int[] choice) {
            int[] part = new int[choice.length];
            while (next(part, choice)) {
                int first = index(part);
                int second = c - first;
                if (first > second || second == 0) {
                    continue; // its mirror image has been joined
                }
                Front a = fronts[first];
                Front b = fronts[second];
                if (a == null || b == null) {
                    return true; // what holds a choice that fits nowhere fits nowhere
                }
                work += 2L * (a.size() + b.size());
                if (work > MOST_WORK) {
                    return false;
                }
                above(a, b, first);
                beside(a, b, first);
            }
            return true;
        }

        private boolean next(int[] part, int[] choice) {
            for (int i = 0; i < part.length; i++) {
                if (part[i] < choice[i]) {
                    part[i]++;
                    return true;
                }
                part[i] = 0;
            }
            return false;
        }

        private void above(Front a, Front b, int first) {
            int i = 0;
            int j = 0;
            while (true) {
                int length = Math.max(a.lengths[i], b.lengths[j]);
                while (i + 1 < a.size() && a.lengths[i + 1] <= length) {
                    i++;
                }
                while (j + 1 < b.size() && b.lengths[j + 1] <= length) {
                    j++;
                }
                add(length, a.widths[i] + b.widths[j], first, false);
                boolean moreA = i + 1 < a.size();
                boolean moreB = j + 1 < b.size();
                if (!moreA && !moreB) {
                    return;
                }
                if (moreA && (!moreB || a.lengths[i + 1] <= b.lengths[j + 1])) {
                    i++;
                } else {
                    j++;
                }
            }
        }

        private void beside(Front a, Front b, int first) {
            int i = a.size() - 1;
            int j = b.size() - 1;
            while (true) {
                int width = Math.max(a.widths[i], b.widths[j]);
                while (i > 0 && a.widths[i - 1] <= width) {
                    i--;
                }
                while (j > 0 && b.widths[j - 1] <= width) {
                    j--;
                }
                add(a.lengths[i] + b.lengths[j], width, first, true);
                if (i == 0 && j == 0) {
                    return;
                }
                if (i > 0 && (j == 0 || a.widths[i - 1] <= b.widths[j - 1])) {
                    i--;
                } else {
                    j--;
                }
            }
        }

        private void add(int length, int width, int part, boolean beside) {
            if (length > sheetLength || width > sheetWidth) {
                return;
            }
            int at = Arrays.binarySearch(lengths, 0, size, length);
            at = at >= 0 ? at : -at - 1;
            if (at > 0 && widths[at - 1] <= width
                    || at < size && lengths[at] == length && widths[at] <= width) {
                return;
            }
            int end = at;
            while (end < size && widths[end] >= width) {
                end++;
            }
            room(at, end);
            lengths[at] = length;
            widths[at] = width;
            from[at] = part;
            along[at] = beside;
        }

        /** Makes one place at {@code at} where {@code at} to {@code end} stood. */
        private void room(int at, int end) {
            if (size == lengths.length) {
                lengths = Arrays.copyOf(lengths, 2 * size);
                widths = Arrays.copyOf(widths, 2 * size);
                from = Arrays.copyOf(from, 2 * size);
                along = Arrays.copyOf(along, 2 * size);
            }
            int behind = size - end;
            System.arraycopy(lengths, end, lengths, at + 1, behind);
            System.arraycopy(widths, end, widths, at + 1, behind);
            System.arraycopy(from, end, from, at + 1, behind);
            System.arraycopy(along, end, along, at + 1, behind);
            size = at + 1 + behind;
        }
    }
}
