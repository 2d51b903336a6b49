package strokewright.sheet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import strokewright.sheet.Layout.Grid;
import strokewright.sheet.Layout.Stack;

/**
 * Rectangular blanks on stock sheets, every cut from edge to edge.
 *
 * <p>Blanks of one size lie as many on a sheet as can be, proved ({@link OneSize}). Of several
 * sizes all choices that a sheet can hold are looked through where they are not too many ({@link
 * Boxes}); else sheets are filled by rules ({@link Filling}). Large orders are first shared out
 * among patterns in fractions of sheets ({@link FractionalCover}), the rest after rounding down is
 * searched for the fewest sheets. Nothing is left to chance or to the clock.
 */
public final class Nesting {

    /** Powers of the area by which large pieces are preferred, tried one after the other. */
    private static final double[] PREFERENCES = {1, 1.15, 1.4, 0.9};

    /** Sheets of an order from which it is first shared out in fractions. */
    private static final int SHARED_OUT_FROM = 3;

    /** A pattern may make more of a size than is wanted: what then remains is shared out again. */
    private static final int MOST_SHARINGS = 6;

    /** Sheets that are filled again with other values of the pieces, in all. */
    private static final int MOST_FILLED = 40;

    /** Choices of the largest pieces that a bound is made from. */
    private static final int QUICK_CHOICES = 1500;

    /** Pieces whose choices are quickly looked through. */
    private static final int FEW_PIECES = 9;

    /** Sheets up to which a whole order is searched for fewer. */
    private static final int SEARCHED_UP_TO = 20;

    private final StockSheet sheet;
    private final List<Blank> blanks;
    private final Sizes sizes;
    private final List<Layout> alone = new ArrayList<>();
    private final KnownBoxes known;

    private Nesting(List<Blank> blanks, StockSheet sheet) {
        this.blanks = blanks;
        this.sheet = sheet;
        sizes = new Sizes(blanks, sheet);
        for (int i = 0; i < blanks.size(); i++) {
            alone.add(Objects.requireNonNull(most(i)));
        }
        known = new KnownBoxes(sizes, alone);
    }

    /**
     * @param lengthMm at least half a millimetre counts of either side; lies along the sheet's
     *     length where it may not be turned
     * @param count pieces of it
     */
    public record Blank(String name, double lengthMm, double widthMm, int count, boolean mayTurn) {

        public Blank {
            if (!(lengthMm > 0 && lengthMm <= 1e6 && widthMm > 0 && widthMm <= 1e6)) {
                throw new IllegalArgumentException("no blank: " + lengthMm + " × " + widthMm);
            }
            if (count < 0) {
                throw new IllegalArgumentException("count " + count);
            }
        }
    }

    public static Nest of(List<Blank> blanks, StockSheet sheet) {
        return new OnSheet(blanks, sheet).nest(blanks.stream().mapToInt(Blank::count).toArray());
    }

    /** The same blanks for several orders; what was looked through for one serves the next. */
    public static final class OnSheet {
        private final StockSheet sheet;
        private final boolean[] fits;
        private final List<String> tooLarge = new ArrayList<>();
        private final Nesting nesting;
        private int @Nullable [] solvedFor;
        private @Nullable Solution solved;

        /** The counts of the blanks are left out of account. */
        public OnSheet(List<Blank> blanks, StockSheet sheet) {
            this.sheet = sheet;
            Sizes all = new Sizes(blanks, sheet);
            fits = new boolean[blanks.size()];
            List<Blank> fitting = new ArrayList<>();
            for (int i = 0; i < fits.length; i++) {
                fits[i] = all.fits(i);
                if (fits[i]) {
                    fitting.add(blanks.get(i));
                } else {
                    tooLarge.add(blanks.get(i).name());
                }
            }
            nesting = new Nesting(fitting, sheet);
        }

        /**
         * @param counts pieces of each blank, in the order in which the blanks were given
         */
        public synchronized Nest nest(int[] counts) {
            Solution solution = solution(counts);
            return new Nest(sheet, nesting.laid(solution), tooLarge, solution.least);
        }

        /** Sheets alone, which is quicker than to lay them out. */
        public synchronized long sheets(int[] counts) {
            return solution(counts).sheets();
        }

        private Solution solution(int[] counts) {
            int[] wanted =
                    IntStream.range(0, counts.length)
                            .filter(i -> fits[i])
                            .map(i -> counts[i])
                            .toArray();
            if (solved == null || !Arrays.equals(wanted, solvedFor)) {
                solved = nesting.solve(wanted);
                solvedFor = wanted;
            }
            return solved;
        }
    }

    private Solution solve(int[] wanted) {
        int[] asked = IntStream.range(0, wanted.length).filter(i -> wanted[i] > 0).toArray();
        return asked.length == 0
                ? new Solution(List.of(), 0)
                : asked.length == 1 ? oneSize(wanted, asked[0]) : severalSizes(wanted);
    }

    private List<Nest.Pattern> laid(Solution solution) {
        Laying laying = new Laying(sheet, blanks.stream().map(Blank::name).toList());
        List<Nest.Pattern> patterns = new ArrayList<>();
        for (Used used : solution.used()) {
            patterns.add(laying.best(layouts(used.cut), used.times));
        }
        return patterns;
    }

    /** A pattern and how many sheets are cut to it. */
    private record Used(Cut cut, long times) {}

    private record Solution(List<Used> used, long least) {

        long sheets() {
            return used.stream().mapToLong(Used::times).sum();
        }
    }

    private @Nullable Layout most(int size) {
        return OneSize.most(
                size,
                sizes.length(size),
                sizes.width(size),
                sizes.mayTurn(size),
                sizes.sheetLength(),
                sizes.sheetWidth());
    }

    private Solution oneSize(int[] wanted, int size) {
        int perSheet = alone.get(size).pieces();
        List<Used> used = new ArrayList<>();
        if (wanted[size] >= perSheet) {
            used.add(new Used(only(wanted.length, size, perSheet), wanted[size] / perSheet));
        }
        if (wanted[size] % perSheet > 0) {
            used.add(new Used(only(wanted.length, size, wanted[size] % perSheet), 1));
        }
        return new Solution(used, (wanted[size] + perSheet - 1L) / perSheet);
    }

    private static Cut only(int sizes, int size, int pieces) {
        int[] counts = new int[sizes];
        counts[size] = pieces;
        return new Cut(counts, null, null);
    }

    private Solution severalSizes(int[] wanted) {
        long least = Math.max(least(wanted), leastOfTheLargest(wanted));
        List<Used> used = new ArrayList<>();
        int[] rest = wanted.clone();
        for (int round = 0; round < MOST_SHARINGS && least(rest) >= SHARED_OUT_FROM; round++) {
            Boxes boxes = known.upTo(rest);
            FractionalCover fractions = fractions(rest, boxes);
            if (round == 0 && boxes != null && fractions.settled()) {
                least = Math.max(least, (long) Math.ceil(fractions.sheets() - 1e-6));
            }
            if (!takeWhole(fractions, rest, used)) {
                break;
            }
        }
        long sheets = used.stream().mapToLong(Used::times).sum();
        Solution small = small(rest, Math.max(least - sheets, least(rest)));
        used.addAll(small.used);
        if (sheets == 0) {
            return new Solution(together(used), Math.max(least, small.least));
        }
        Solution solution = new Solution(together(used), least);
        return solution.sheets() <= SEARCHED_UP_TO ? fewer(wanted, solution) : solution;
    }

    /** As many whole sheets as the fractions say and the rest has use for; false for none. */
    private static boolean takeWhole(FractionalCover fractions, int[] rest, List<Used> used) {
        boolean any = false;
        for (FractionalCover.Part part : fractions.parts()) {
            int times = (int) Math.min(part.times() + 1e-7, part.cut().times(rest));
            if (times > 0) {
                part.cut().take(rest, times);
                used.add(new Used(part.cut(), times));
                any = true;
            }
        }
        return any;
    }

    /** Bounds that need no search: by area, and by each size alone. */
    private long least(int[] wanted) {
        double area = 0;
        for (int i = 0; i < wanted.length; i++) {
            area += (double) wanted[i] * sizes.area(i);
        }
        long least = (long) Math.ceil(area / sizes.sheetArea() * (1 - 1e-12));
        for (int i = 0; i < wanted.length; i++) {
            int perSheet = alone.get(i).pieces();
            least = Math.max(least, (wanted[i] + perSheet - 1L) / perSheet);
        }
        return least;
    }

    /**
     * What the largest pieces take without the small ones, as many sizes as are quickly looked
     * through: small pieces only fill what large ones leave.
     */
    private long leastOfTheLargest(int[] wanted) {
        int[] largest = new int[wanted.length];
        int[] bySize =
                IntStream.range(0, wanted.length)
                        .filter(i -> wanted[i] > 0)
                        .boxed()
                        .sorted(Comparator.comparingLong(i -> -sizes.area((int) i)))
                        .mapToInt(i -> i)
                        .toArray();
        long choices = 1;
        for (int i : bySize) {
            choices *= 1 + Math.min(wanted[i], alone.get(i).pieces());
            if (choices > QUICK_CHOICES) {
                break;
            }
            largest[i] = wanted[i];
        }
        Boxes boxes = Arrays.equals(largest, wanted) ? null : known.upTo(largest);
        if (boxes == null) {
            return 0; // for all of them the same is done anyway
        }
        FractionalCover fractions = fractions(largest, boxes);
        return fractions.settled() ? (long) Math.ceil(fractions.sheets() - 1e-6) : 0;
    }

    private FractionalCover fractions(int[] wanted, @Nullable Boxes boxes) {
        List<Cut> single = new ArrayList<>();
        for (Layout layout : alone) {
            single.add(Cut.of(layout, wanted.length));
        }
        return new FractionalCover(
                wanted,
                single,
                value -> boxes == null ? priced(wanted, value) : chosen(boxes, wanted, value));
    }

    private @Nullable Cut priced(int[] wanted, double[] value) {
        Cut filled = filled(wanted, value);
        Layout layout = Strips.best(sizes, value);
        if (layout == null) {
            return filled;
        }
        Cut strips = Cut.of(layout, wanted.length);
        return strips.times(wanted) == 0
                        || filled != null && filled.worth(value) >= strips.worth(value)
                ? filled
                : strips;
    }

    private @Nullable Cut filled(int[] available, double[] value) {
        Layout layout = Filling.best(sizes, available, value);
        return layout == null ? null : Cut.of(layout, available.length);
    }

    /** The choice of most value; of equals the one that comes first. */
    private static @Nullable Cut chosen(Boxes boxes, int[] available, double[] value) {
        int[] best = null;
        double most = 1e-9;
        for (int[] choice : boxes.choices()) {
            double worth = 0;
            boolean enough = true;
            for (int i = 0; i < choice.length; i++) {
                worth += choice[i] * value[i];
                enough &= choice[i] <= available[i];
            }
            if (enough && worth > most + 1e-12) {
                best = choice;
                most = worth;
            }
        }
        return best == null ? null : new Cut(best, null, boxes);
    }

    /** A rest of few sheets. */
    private Solution small(int[] wanted, long least) {
        if (Arrays.stream(wanted).allMatch(w -> w == 0)) {
            return new Solution(List.of(), 0);
        }
        Solution best = greedy(wanted, values(1, 0), least, null);
        if (best.sheets() <= least) {
            return best;
        }
        Boxes boxes = best.sheets() <= SEARCHED_UP_TO ? known.upTo(wanted) : null;
        for (double preference : PREFERENCES) {
            best = better(best, greedy(wanted, values(preference, 0), least, boxes));
            if (best.sheets() <= least) {
                return best;
            }
        }
        if (boxes != null) {
            return fewer(wanted, best);
        }
        long tries = best.sheets() <= SEARCHED_UP_TO ? MOST_FILLED / best.sheets() : 0;
        for (int i = 1; i <= tries && best.sheets() > least; i++) {
            best = better(best, greedy(wanted, values(1, i), least, null));
        }
        return best;
    }

    private static Solution better(Solution a, Solution b) {
        return b.sheets() < a.sheets() ? b : a;
    }

    /**
     * Values by area.
     *
     * @param shuffle 0 for none; else sizes are worth up to a third more or less, each shuffle
     *     otherwise and always in the same way
     */
    private double[] values(double preference, int shuffle) {
        SplittableRandom random = new SplittableRandom(shuffle);
        double[] value = new double[sizes.count()];
        for (int i = 0; i < value.length; i++) {
            double share = (double) sizes.area(i) / sizes.sheetArea();
            double factor = shuffle == 0 ? 1 : random.nextDouble(0.7, 1.3);
            value[i] = Math.pow(share, preference) * factor;
        }
        return value;
    }

    /** Fewer sheets if a search finds them. */
    private Solution fewer(int[] wanted, Solution found) {
        Boxes boxes = known.upTo(wanted);
        if (boxes == null || found.least == found.sheets()) {
            return found;
        }
        FewestSheets search = new FewestSheets(sizes, boxes, alone);
        for (long k = found.least; k < found.sheets(); k++) {
            List<int[]> choices = search.within(wanted, (int) k);
            if (choices != null) {
                List<Used> used =
                        choices.stream().map(c -> new Used(new Cut(c, null, boxes), 1)).toList();
                return new Solution(together(used), search.complete() ? k : found.least);
            }
        }
        return new Solution(found.used, search.complete() ? found.sheets() : found.least);
    }

    /** The fullest sheet first, as often as it is of use; the same with what remains. */
    private Solution greedy(int[] wanted, double[] value, long least, @Nullable Boxes boxes) {
        int[] rest = wanted.clone();
        List<Used> used = new ArrayList<>();
        while (Arrays.stream(rest).anyMatch(r -> r > 0)) {
            Boxes among = boxes == null && few(rest) ? known.upTo(rest) : boxes;
            Cut cut = among == null ? filled(rest, value) : chosen(among, rest, value);
            int times = Objects.requireNonNull(cut).times(rest);
            cut.take(rest, times);
            used.add(new Used(cut, times));
        }
        return new Solution(used, least);
    }

    private static boolean few(int[] rest) {
        return Arrays.stream(rest).asLongStream().sum() <= FEW_PIECES;
    }

    /** Each pattern once, the most used first. */
    private static List<Used> together(List<Used> used) {
        List<Used> each = new ArrayList<>();
        for (Used one : used) {
            int at = 0;
            while (at < each.size()
                    && !Arrays.equals(each.get(at).cut.counts(), one.cut.counts())) {
                at++;
            }
            if (at == each.size()) {
                each.add(one);
            } else {
                each.set(at, new Used(each.get(at).cut, each.get(at).times + one.times));
            }
        }
        each.sort(Comparator.comparingLong(Used::times).reversed());
        return each;
    }

    private List<Layout> layouts(Cut cut) {
        List<Layout> layouts = new ArrayList<>();
        int only = -1;
        int sizesIn = 0;
        for (int i = 0; i < cut.counts().length; i++) {
            if (cut.counts()[i] > 0) {
                only = i;
                sizesIn++;
            }
        }
        if (sizesIn == 1) {
            layouts.addAll(alone(only, cut.counts()[only]));
        } else if (cut.boxes() != null) {
            layouts.addAll(cut.boxes().layouts(sizes, cut.counts()));
        }
        if (cut.layout() != null) {
            layouts.add(cut.layout());
        }
        return layouts;
    }

    /**
     * So many pieces of one size: in every number of rows, lying or turned, or as on a full sheet.
     */
    private List<Layout> alone(int size, int pieces) {
        List<Layout> layouts = new ArrayList<>();
        layouts.add(Objects.requireNonNull(alone.get(size).first(pieces)));
        for (boolean turned : new boolean[] {false, true}) {
            if (turned && !sizes.mayTurn(size)) {
                continue;
            }
            Grid piece = sizes.piece(size, turned);
            int mostRows = Math.min(pieces, sizes.sheetWidth() / piece.pieceHeight());
            for (int rows = 1; rows <= Math.min(mostRows, 200); rows++) {
                int columns = (pieces + rows - 1) / rows;
                if (columns <= sizes.sheetLength() / piece.pieceWidth()) {
                    layouts.add(block(piece, pieces, rows));
                }
            }
            if (mostRows > 200
                    && (pieces + mostRows - 1) / mostRows
                            <= sizes.sheetLength() / piece.pieceWidth()) {
                layouts.add(block(piece, pieces, mostRows));
            }
        }
        return layouts;
    }

    private static Layout block(Grid piece, int pieces, int rows) {
        int full = pieces / rows;
        int rest = pieces % rows;
        if (rest == 0) {
            return piece.with(full, rows);
        }
        return full == 0
                ? piece.with(1, rest)
                : new Stack(true, List.of(piece.with(full, rows), piece.with(1, rest)));
    }
}
