package strokewright.sheet;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.sheet.Layout.Grid;
import strokewright.sheet.Layout.Stack;

/**
 * A sheet cut into strips, strips into columns, columns into pieces, of the most value there is in
 * that manner: one knapsack for each strip, one for the sheet (Gilmore and Gomory, Operations
 * Research 13, 1965; from memory). For large orders, as it makes any number of a size.
 */
final class Strips {

    /** Steps that a side is measured in; sizes are rounded up to them. */
    private static final int MOST_STEPS = 2048;

    private final Sizes sizes;
    private final double[] value;

    /** Whether strips run along the sheet; else they stand across it. */
    private final boolean along;

    private Strips(Sizes sizes, double[] value, boolean along) {
        this.sizes = sizes;
        this.value = value;
        this.along = along;
    }

    /** Something laid into a strip or onto a sheet. */
    private record Slab(int extent, double value, Layout layout) {}

    static @Nullable Layout best(Sizes sizes, double[] value) {
        Slab lying = new Strips(sizes, value, true).sheet();
        Slab standing = new Strips(sizes, value, false).sheet();
        if (lying == null || standing == null) {
            return lying == null ? (standing == null ? null : standing.layout) : lying.layout;
        }
        return (standing.value > lying.value + 1e-9 ? standing : lying).layout;
    }

    private int run() {
        return along ? sizes.sheetLength() : sizes.sheetWidth();
    }

    private int rise() {
        return along ? sizes.sheetWidth() : sizes.sheetLength();
    }

    /** In the direction of the strip. */
    private int across(Grid piece) {
        return along ? piece.width() : piece.height();
    }

    /** In the direction of its height. */
    private int up(Grid piece) {
        return along ? piece.height() : piece.width();
    }

    private @Nullable Slab sheet() {
        List<Grid> pieces = new ArrayList<>();
        for (int i = 0; i < sizes.count(); i++) {
            if (value[i] > 0) {
                pieces.add(sizes.piece(i, false));
                if (sizes.mayTurn(i)) {
                    pieces.add(sizes.piece(i, true));
                }
            }
        }
        pieces.removeIf(p -> across(p) > run() || up(p) > rise());
        List<Slab> strips = new ArrayList<>();
        for (int height : pieces.stream().mapToInt(this::up).distinct().sorted().toArray()) {
            List<Slab> columns = new ArrayList<>();
            for (Grid piece : pieces) {
                if (up(piece) <= height) {
                    columns.add(column(piece, height, pieces));
                }
            }
            Slab strip = knapsack(columns, run(), along);
            if (strip != null) {
                strips.add(new Slab(height, strip.value, strip.layout));
            }
        }
        return knapsack(strips, rise(), !along);
    }

    /** Pieces upon each other, and what goes above them. */
    private Slab column(Grid piece, int height, List<Grid> pieces) {
        int rows = height / up(piece);
        Grid stack = block(piece, 1, rows);
        double worth = rows * value[piece.size()];
        Grid above = null;
        double aboveWorth = 0;
        for (Grid other : pieces) {
            int columns = across(piece) / across(other);
            int more = (height - rows * up(piece)) / up(other);
            double of = columns * more * value[other.size()];
            if (of > aboveWorth) {
                above = block(other, columns, more);
                aboveWorth = of;
            }
        }
        return new Slab(
                across(piece),
                worth + aboveWorth,
                above == null ? stack : new Stack(!along, List.of(stack, above)));
    }

    private Grid block(Grid piece, int columns, int rows) {
        return along ? piece.with(columns, rows) : piece.with(rows, columns);
    }

    private static @Nullable Slab knapsack(List<Slab> slabs, int room, boolean along) {
        int step = step(slabs, room);
        double[] most = new double[room / step + 1];
        int[] with = new int[most.length];
        int[] extent = slabs.stream().mapToInt(s -> (s.extent + step - 1) / step).toArray();
        for (int at = 0; at < most.length; at++) {
            most[at] = at == 0 ? 0 : most[at - 1];
            with[at] = -1;
            for (int s = 0; s < extent.length; s++) {
                if (extent[s] <= at
                        && most[at - extent[s]] + slabs.get(s).value > most[at] + 1e-12) {
                    most[at] = most[at - extent[s]] + slabs.get(s).value;
                    with[at] = s;
                }
            }
        }
        int[] times = new int[extent.length];
        int at = most.length - 1;
        while (at > 0) {
            if (with[at] < 0) {
                at--;
            } else {
                times[with[at]]++;
                at -= extent[with[at]];
            }
        }
        List<Layout> parts = new ArrayList<>();
        for (int s = 0; s < times.length; s++) {
            if (times[s] > 0 && slabs.get(s).layout instanceof Grid grid) {
                parts.add(
                        along
                                ? grid.with(grid.columns() * times[s], grid.rows())
                                : grid.with(grid.columns(), grid.rows() * times[s]));
            } else {
                for (int i = 0; i < times[s]; i++) {
                    parts.add(slabs.get(s).layout);
                }
            }
        }
        return parts.isEmpty() ? null : new Slab(0, most[most.length - 1], Stack.of(along, parts));
    }

    /**
     * What divides all sizes, so that nothing is lost to rounding; coarser where that is too fine.
     */
    private static int step(List<Slab> slabs, int room) {
        int step = 0;
        for (Slab slab : slabs) {
            step = divisor(slab.extent, step);
        }
        return room / Math.max(step, 1) <= 2 * MOST_STEPS
                ? Math.max(step, 1)
                : room / MOST_STEPS + 1;
    }

    private static int divisor(int a, int b) {
        return b == 0 ? a : divisor(b, a % b);
    }
}
