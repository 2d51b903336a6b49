package strokewright.sheet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import strokewright.sheet.Layout.Grid;
import strokewright.sheet.Layout.Stack;

/**
 * The most pieces of one size on a sheet, cut edge to edge, lying and turned mixed as they come.
 *
 * <p>Three stages of cuts are enough for one size: strips right across the sheet, each cut into
 * columns, each column into pieces. That is known for the guillotine pallet loading problem
 * (Tarnowski, Terno, Scheithauer, INFOR 32, 1994; from memory), and the tests compare with a search
 * over all guillotine cuts. A strip needs no other height than a multiple of either side.
 */
final class OneSize {

    /** Points of a sheet's side times kinds of strip that are looked through. */
    private static final long MOST_STEPS = 20_000_000;

    private final int size;
    private final int length;
    private final int width;

    private OneSize(int size, int length, int width) {
        this.size = size;
        this.length = length;
        this.width = width;
    }

    /** Null where not even one fits. */
    static @Nullable Layout most(
            int size, int length, int width, boolean mayTurn, int sheetLength, int sheetWidth) {
        OneSize one = new OneSize(size, length, width);
        Grid lying = one.grid(false, sheetLength, sheetWidth);
        if (!mayTurn || length == width) {
            return lying.pieces() == 0 ? null : lying;
        }
        Grid turned = one.grid(true, sheetLength, sheetWidth);
        Layout best = turned.pieces() > lying.pieces() ? turned : lying;
        long bound = (long) sheetLength * sheetWidth / ((long) length * width);
        if (best.pieces() == 0 && bound == 0) {
            return null;
        }
        for (boolean along : new boolean[] {false, true}) {
            if (best.pieces() == bound) {
                break;
            }
            Layout strips =
                    along
                            ? one.strips(sheetWidth, sheetLength, true)
                            : one.strips(sheetLength, sheetWidth, false);
            if (strips != null && strips.pieces() > best.pieces()) {
                best = strips;
            }
        }
        return best.pieces() == 0 ? null : best;
    }

    private Grid grid(boolean turned, int sheetLength, int sheetWidth) {
        int across = turned ? width : length;
        int up = turned ? length : width;
        return new Grid(size, turned, across, up, sheetLength / across, sheetWidth / up);
    }

    /** A strip so high, with columns of lying and of turned pieces. */
    private record Strip(int height, int lying, int turned, int pieces) {}

    /** Strips of the run's length, laid one upon the other up to the rise. */
    private @Nullable Layout strips(int run, int rise, boolean along) {
        List<Strip> kinds = kinds(run, rise);
        if (kinds.isEmpty()) {
            return null;
        }
        int[] points = points(rise, kinds.size());
        int[] most = new int[points.length];
        int[] with = new int[points.length];
        Arrays.fill(with, -1);
        for (int p = 1; p < points.length; p++) {
            most[p] = most[p - 1];
            for (int k = 0; k < kinds.size() && kinds.get(k).height <= points[p]; k++) {
                int pieces = most[below(points, points[p] - kinds.get(k).height)];
                if (pieces + kinds.get(k).pieces > most[p]) {
                    most[p] = pieces + kinds.get(k).pieces;
                    with[p] = k;
                }
            }
        }
        return laid(kinds, points, with, along);
    }

    private Layout laid(List<Strip> kinds, int[] points, int[] with, boolean along) {
        List<Layout> strips = new ArrayList<>();
        int p = points.length - 1;
        while (p > 0) {
            if (with[p] < 0) {
                p--;
                continue;
            }
            Strip strip = kinds.get(with[p]);
            strips.add(laid(strip, along));
            p = below(points, points[p] - strip.height);
        }
        return Stack.of(along, strips);
    }

    /**
     * Along the sheet the strips stand upright: what lies in a strip is then turned on the sheet.
     */
    private Layout laid(Strip strip, boolean along) {
        List<Layout> columns = new ArrayList<>();
        if (strip.lying > 0) {
            columns.add(block(along, strip.lying, strip.height / width));
        }
        if (strip.turned > 0) {
            columns.add(block(!along, strip.turned, strip.height / length));
        }
        if (along) {
            List<Layout> upright = new ArrayList<>();
            for (Layout column : columns) {
                Grid grid = (Grid) column;
                upright.add(grid.with(grid.rows(), grid.columns()));
            }
            columns = upright;
        }
        return Stack.of(!along, columns);
    }

    private Grid block(boolean turned, int columns, int rows) {
        return new Grid(
                size, turned, turned ? width : length, turned ? length : width, columns, rows);
    }

    /** Kinds worth laying, by height: those that hold more than lower ones together. */
    private List<Strip> kinds(int run, int rise) {
        TreeSet<Integer> heights = new TreeSet<>();
        for (int side : new int[] {length, width}) {
            for (long h = side; h <= rise; h += side) {
                heights.add((int) h);
            }
        }
        List<Strip> kinds = new ArrayList<>();
        for (int height : heights) {
            Strip strip = best(run, height);
            boolean needless = strip.pieces == 0;
            for (Strip lower : kinds) {
                int times = height / lower.height;
                needless |= lower.pieces * times >= strip.pieces;
            }
            if (!needless) {
                kinds.add(strip);
            }
        }
        return kinds;
    }

    private Strip best(int run, int height) {
        int upLying = height / width;
        int upTurned = height / length;
        Strip best = new Strip(height, 0, 0, 0);
        for (int lying = 0; upLying > 0 && lying <= run / length || lying == 0; lying++) {
            int turned = upTurned == 0 ? 0 : (run - lying * length) / width;
            int pieces = lying * upLying + turned * upTurned;
            if (pieces > best.pieces) {
                best = new Strip(height, lying, turned, pieces);
            }
        }
        return best;
    }

    /**
     * Heights that strips add up to: sums of both sides. Of a sheet with very many of them only a
     * part is looked at; the layout is good then but not proved to be best.
     */
    private int[] points(int rise, int kinds) {
        long most = Math.max(1000, MOST_STEPS / kinds);
        IntStream.Builder points = IntStream.builder();
        long count = 0;
        for (long lengths = 0; lengths <= rise && count < most; lengths += length) {
            for (long h = lengths; h <= rise; h += width) {
                points.add((int) h);
                count++;
            }
        }
        return points.build().sorted().distinct().toArray();
    }

    /** Index of the highest point not above the height. */
    private static int below(int[] points, int height) {
        int at = Arrays.binarySearch(points, height);
        return at >= 0 ? at : -at - 2;
    }
}
