package strokewright.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.sheet.Nesting.Blank;

class NestingTest {

    private static final double NO_OFFCUTS = Double.POSITIVE_INFINITY;

    /** Of 25 orders without any waste, the hardest there are; seen: 34 of 200. */
    private static final int MOST_OVER = 9;

    /** Counted over all guillotine cuts at whole numbers, which is exact for whole sizes. */
    @ParameterizedTest(name = "{0} × {1}")
    @CsvSource({
        "2, 1", "3, 2", "5, 2", "5, 3", "7, 3", "7, 4", "7, 5", "8, 5", "9, 4", "10, 7", "11, 4",
        "11, 8", "12, 5", "13, 6", "13, 9", "17, 4", "19, 11", "1, 1", "6, 4"
    })
    void asManyOfOneSizeAsAnyGuillotineCutting(int length, int width) {
        int most = 60;
        int[][] full = mostByAllCuts(length, width, most);
        for (int x = 1; x <= most; x++) {
            for (int y = 1; y <= most; y++) {
                Layout layout = OneSize.most(0, length, width, true, x, y);
                assertThat(layout == null ? 0 : layout.pieces())
                        .as("%d × %d", x, y)
                        .isEqualTo(full[x][y]);
                if (layout != null) {
                    assertThat(layout.width()).isLessThanOrEqualTo(x);
                    assertThat(layout.height()).isLessThanOrEqualTo(y);
                }
            }
        }
    }

    private static int[][] mostByAllCuts(int length, int width, int most) {
        int[][] full = new int[most + 1][most + 1];
        for (int x = 1; x <= most; x++) {
            for (int y = 1; y <= most; y++) {
                int best = Math.max(x, y) >= length && Math.min(x, y) >= width ? 1 : 0;
                for (int cut = 1; cut <= x / 2; cut++) {
                    best = Math.max(best, full[cut][y] + full[x - cut][y]);
                }
                for (int cut = 1; cut <= y / 2; cut++) {
                    best = Math.max(best, full[x][cut] + full[x][y - cut]);
                }
                full[x][y] = best;
            }
        }
        return full;
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void fewSheetsForFewPieces(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 60; i++) {
            int length = random.nextInt(6, 15);
            int width = random.nextInt(5, 11);
            List<Blank> blanks = new ArrayList<>();
            int pieces = 0;
            while (pieces < 6) {
                int count = Math.min(6 - pieces, random.nextInt(1, 4));
                blanks.add(
                        new Blank(
                                "B" + blanks.size(),
                                random.nextInt(1, length + 1),
                                random.nextInt(1, width + 1),
                                count,
                                random.nextBoolean()));
                pieces += count;
            }
            StockSheet sheet = new StockSheet(length, width, 0, 0, NO_OFFCUTS);
            Nest nest = Nesting.of(blanks, sheet);
            assertSound(nest, blanks, sheet);
            long fewest = new BruteForce(blanks, length, width).fewestSheets();
            assertThat(nest.sheets()).as("%s on %s", blanks, sheet).isEqualTo(fewest);
            assertThat(nest.leastSheets()).isEqualTo(fewest);
        }
    }

    /** Looks at every cut at a whole number and every sharing out of the pieces over it. */
    private static final class BruteForce {
        private final List<Blank> pieces = new ArrayList<>();
        private final int length;
        private final int width;
        private final Map<Integer, Boolean> known = new HashMap<>();

        BruteForce(List<Blank> blanks, int length, int width) {
            blanks.forEach(
                    b -> {
                        for (int i = 0; i < b.count(); i++) {
                            pieces.add(b);
                        }
                    });
            this.length = length;
            this.width = width;
        }

        int fewestSheets() {
            int all = (1 << pieces.size()) - 1;
            int[] fewest = new int[all + 1];
            for (int set = 1; set <= all; set++) {
                fewest[set] = Integer.MAX_VALUE;
                for (int part = set; part > 0; part = (part - 1) & set) {
                    if (fewest[set ^ part] + 1 < fewest[set] && fits(length, width, part)) {
                        fewest[set] = fewest[set ^ part] + 1;
                    }
                }
            }
            return fewest[all];
        }

        private boolean fits(int x, int y, int set) {
            if (set == 0) {
                return true;
            }
            double area = 0;
            for (int p = 0; p < pieces.size(); p++) {
                area +=
                        (set >> p & 1) == 0
                                ? 0
                                : pieces.get(p).lengthMm() * pieces.get(p).widthMm();
            }
            if (area > x * y) {
                return false;
            }
            return known.computeIfAbsent((x * 32 + y) << 8 | set, k -> null) != null
                    ? known.get((x * 32 + y) << 8 | set)
                    : look(x, y, set);
        }

        private boolean look(int x, int y, int set) {
            boolean fits = false;
            if (Integer.bitCount(set) == 1) {
                Blank piece = pieces.get(Integer.numberOfTrailingZeros(set));
                fits =
                        piece.lengthMm() <= x && piece.widthMm() <= y
                                || piece.mayTurn() && piece.widthMm() <= x && piece.lengthMm() <= y;
            } else {
                for (int part = (set - 1) & set; part > 0 && !fits; part = (part - 1) & set) {
                    for (int cut = 1; cut < x && !fits; cut++) {
                        fits = fits(cut, y, part) && fits(x - cut, y, set ^ part);
                    }
                    for (int cut = 1; cut < y && !fits; cut++) {
                        fits = fits(x, cut, part) && fits(x, y - cut, set ^ part);
                    }
                }
            }
            known.put((x * 32 + y) << 8 | set, fits);
            return fits;
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {11, 12, 13, 14})
    void ordersOfAnySizeAreCutSoundly(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 60; i++) {
            StockSheet sheet =
                    new StockSheet(
                            random.nextDouble(300, 4000),
                            random.nextDouble(300, 2000),
                            random.nextBoolean() ? 0 : random.nextInt(1, 8000) / 1000.0,
                            random.nextBoolean() ? 0 : random.nextInt(1, 20_000) / 1000.0,
                            random.nextDouble(50, 500));
            List<Blank> blanks = new ArrayList<>();
            for (int n = random.nextInt(1, 8); n > 0; n--) {
                blanks.add(
                        new Blank(
                                "B" + n,
                                random.nextDouble(20, 2500),
                                random.nextDouble(20, 900),
                                random.nextInt(0, random.nextInt(1, 400)),
                                random.nextInt(3) > 0));
            }
            Nest nest = Nesting.of(blanks, sheet);
            assertSound(nest, blanks, sheet);
            assertThat(Nesting.of(blanks, sheet)).isEqualTo(nest);
        }
    }

    static void assertSound(Nest nest, List<Blank> blanks, StockSheet sheet) {
        Map<String, Long> cut = new HashMap<>();
        for (Nest.Pattern pattern : nest.patterns()) {
            assertThat(pattern.times()).isPositive();
            for (Nest.Block block : pattern.blocks()) {
                cut.merge(block.blank(), pattern.times() * block.pieces(), Long::sum);
                Blank blank =
                        blanks.stream()
                                .filter(b -> b.name().equals(block.blank()))
                                .findFirst()
                                .orElseThrow();
                assertThat(block.turned() && !blank.mayTurn()).isFalse();
                assertThat(block.lengthMm())
                        .isCloseTo(
                                block.turned() ? blank.widthMm() : blank.lengthMm(),
                                within(0.0011));
                assertThat(block.widthMm())
                        .isCloseTo(
                                block.turned() ? blank.lengthMm() : blank.widthMm(),
                                within(0.0011));
            }
            GuillotineCheck.assertCuttable(pattern, sheet);
        }
        for (Blank blank : blanks) {
            boolean tooLarge = nest.tooLarge().contains(blank.name());
            assertThat(cut.getOrDefault(blank.name(), 0L)).isEqualTo(tooLarge ? 0 : blank.count());
            assertThat(tooLarge).isEqualTo(!fits(blank, sheet));
        }
        assertThat(nest.sheets()).isGreaterThanOrEqualTo(nest.leastSheets());
        double usable =
                (sheet.lengthMm() - 2 * sheet.edgeMarginMm() + sheet.kerfMm())
                        * (sheet.widthMm() - 2 * sheet.edgeMarginMm() + sheet.kerfMm());
        double needed =
                blanks.stream()
                        .filter(b -> !nest.tooLarge().contains(b.name()))
                        .mapToDouble(
                                b ->
                                        b.count()
                                                * (b.lengthMm() + sheet.kerfMm())
                                                * (b.widthMm() + sheet.kerfMm()))
                        .sum();
        assertThat(nest.sheets() * usable).isGreaterThanOrEqualTo(needed * (1 - 1e-4));
        assertThat(nest.yield()).isBetween(0.0, 1 + 1e-5);
    }

    private static boolean fits(Blank b, StockSheet sheet) {
        double length = sheet.lengthMm() - 2 * sheet.edgeMarginMm() + 1e-3;
        double width = sheet.widthMm() - 2 * sheet.edgeMarginMm() + 1e-3;
        return b.lengthMm() <= length && b.widthMm() <= width
                || b.mayTurn() && b.widthMm() <= length && b.lengthMm() <= width;
    }

    /**
     * Four of 3 × 2 around one of 1 × 1 fill 5 × 5 like the sails of a windmill, but no cut goes
     * right through that: the smallest layout that cannot be cut edge to edge (textbook example).
     */
    @Test
    void theWindmillTakesASecondSheet() {
        List<Blank> sails =
                List.of(new Blank("Sail", 3, 2, 4, true), new Blank("Hub", 1, 1, 1, true));
        Nest nest = Nesting.of(sails, new StockSheet(5, 5, 0, 0, NO_OFFCUTS));

        assertThat(nest.sheets()).isEqualTo(2);
        assertThat(nest.leastSheets()).isEqualTo(2);
    }

    /** Sheets cut up at random into pieces that fill them go back onto as many (derived). */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {21, 22, 23, 24})
    void whatWasCutFromFullSheetsGoesBackOntoFewMore(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        int over = 0;
        for (int i = 0; i < 25; i++) {
            int sheets = random.nextInt(1, 4);
            List<Blank> blanks = new ArrayList<>();
            for (int s = 0; s < sheets; s++) {
                cutUp(random, 2000, 1000, random.nextInt(2, 4), blanks);
            }
            StockSheet sheet = new StockSheet(2000, 1000, 0, 0, NO_OFFCUTS);
            Nest nest = Nesting.of(blanks, sheet);
            assertSound(nest, blanks, sheet);
            assertThat(nest.sheets()).isBetween((long) sheets, sheets + 1L);
            over += nest.sheets() > sheets ? 1 : 0;
        }
        assertThat(over).as("of 25, one sheet more than the fewest").isLessThanOrEqualTo(MOST_OVER);
    }

    private static void cutUp(
            SplittableRandom random, int length, int width, int cuts, List<Blank> blanks) {
        if (cuts == 0) {
            blanks.add(new Blank("B" + blanks.size(), length, width, 1, true));
            return;
        }
        if (length >= width) {
            int at = random.nextInt(length / 5, length * 4 / 5);
            cutUp(random, at, width, cuts - 1, blanks);
            cutUp(random, length - at, width, cuts - 1, blanks);
        } else {
            int at = random.nextInt(width / 5, width * 4 / 5);
            cutUp(random, length, at, cuts - 1, blanks);
            cutUp(random, length, width - at, cuts - 1, blanks);
        }
    }

    /** Two to five sizes, 5 to 240 of each; the bound is one that no cutting goes under. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {41, 42})
    void ordersOfTheUsualSizeStayCloseToTheirBound(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        long sheets = 0;
        long least = 0;
        for (int i = 0; i < 60; i++) {
            StockSheet sheet = new StockSheet(2500, 1250, random.nextInt(4), 5, 300);
            int quantity = random.nextInt(5, 60);
            List<Blank> blanks = new ArrayList<>();
            for (int n = random.nextInt(2, 6); n > 0; n--) {
                double length =
                        random.nextInt(3) == 0
                                ? random.nextInt(800, 1900)
                                : random.nextInt(80, 800);
                double width = random.nextInt(40, (int) Math.min(length, 900) + 1);
                int count = quantity * random.nextInt(1, 5);
                blanks.add(new Blank("B" + n, length, width, count, random.nextInt(4) > 0));
            }
            Nest nest = Nesting.of(blanks, sheet);
            assertSound(nest, blanks, sheet);
            sheets += nest.sheets();
            least += nest.leastSheets();
        }
        assertThat(sheets).isLessThanOrEqualTo(least * 103 / 100);
    }

    @Test
    void blankAsLargeAsTheSheetIsTheSheet() {
        StockSheet sheet = new StockSheet(2000, 1000, 3, 0, 300);
        Nest nest = Nesting.of(List.of(new Blank("Plate", 2000, 1000, 7, true)), sheet);

        assertThat(nest.sheets()).isEqualTo(7);
        assertThat(nest.yield()).isEqualTo(1);
        assertThat(nest.patterns()).hasSize(1);
        assertThat(nest.patterns().get(0).offcuts()).isEmpty();
    }

    @ParameterizedTest(name = "kerf {0}: {1} sheets")
    @CsvSource({"0, 5", "0.001, 10", "2, 10"})
    void kerfMakesTheSecondHalfJustNotFit(double kerf, int sheets) {
        StockSheet sheet = new StockSheet(2000, 1000, kerf, 0, 300);
        List<Blank> halves = List.of(new Blank("Half", 1000, 1000, 10, true));

        assertThat(Nesting.of(halves, sheet).sheets()).isEqualTo(sheets);
    }

    @ParameterizedTest(name = "margin {0}: fits {1}")
    @CsvSource({"5, true", "5.001, false", "600, false"})
    void blankMayReachToTheMarginAndNoFurther(double margin, boolean fits) {
        StockSheet sheet = new StockSheet(2000, 1000, 3, margin, 300);
        Nest nest = Nesting.of(List.of(new Blank("Plate", 1990, 990, 1, true)), sheet);

        assertThat(nest.tooLarge()).isEqualTo(fits ? List.of() : List.of("Plate"));
        assertThat(nest.sheets()).isEqualTo(fits ? 1 : 0);
    }

    @Test
    void grainForbidsTurning() {
        StockSheet sheet = new StockSheet(1000, 300, 0, 0, NO_OFFCUTS);

        assertThat(Nesting.of(List.of(new Blank("Rail", 300, 100, 30, true)), sheet).sheets())
                .isEqualTo(3);
        assertThat(Nesting.of(List.of(new Blank("Rail", 300, 100, 27, false)), sheet).sheets())
                .isEqualTo(3);
        assertThat(Nesting.of(List.of(new Blank("Post", 100, 301, 1, false)), sheet).tooLarge())
                .containsExactly("Post");
    }

    @Test
    void stripsOfAMillimetreAreOneBlock() {
        StockSheet sheet = new StockSheet(2500, 1250, 0, 0, NO_OFFCUTS);
        List<Blank> strips = List.of(new Blank("Strip", 2500, 1, 100_000, true));
        Nest nest = Nesting.of(strips, sheet);

        assertThat(nest.sheets()).isEqualTo(80);
        assertThat(nest.patterns()).hasSize(1);
        assertThat(nest.patterns().get(0).blocks()).hasSize(1);
        assertThat(nest.yield()).isEqualTo(1, within(1e-12));
    }

    @Test
    void hugeOrdersAreAFewPatterns() {
        StockSheet sheet = new StockSheet(3000, 1500, 2, 5, 300);
        List<Blank> blanks =
                List.of(
                        new Blank("Rim", 1950, 120, 200_000, true),
                        new Blank("Disc", 640, 640, 100_000, true),
                        new Blank("Tab", 90, 40, 1_600_000, true));
        Nest nest = Nesting.of(blanks, sheet);

        assertSound(nest, blanks, sheet);
        assertThat(nest.patterns()).hasSizeLessThanOrEqualTo(12);
        // A sheet takes 12 rims and 2 discs, or 1 rim and 8 discs: each is worth 6/94 or 11/94.
        assertThat(nest.sheets()).isEqualTo((200_000 * 6 + 100_000 * 11 + 93) / 94);
    }

    @Test
    void nothingWantedTakesNoSheet() {
        StockSheet sheet = new StockSheet(2000, 1000, 0, 0, 300);

        assertThat(Nesting.of(List.of(), sheet).sheets()).isZero();
        assertThat(Nesting.of(List.of(new Blank("A", 1, 1, 0, true)), sheet).yield()).isZero();
    }
}
