package strokewright.costing;

import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How many pieces of a lot the final check looks at, and how many of these may fail: single
 * sampling by attributes, normal inspection, after ISO 2859-1.
 *
 * <p>Table 1 (code letters) and the sample sizes were seen in public copies, and so were the
 * columns 0.65 to 10 of table 2-A; its other columns are from memory. Where table 2-A has an arrow,
 * the first plan that it points to holds, with the sample size of that plan. A sample that is not
 * smaller than its lot is the whole lot.
 *
 * @param lot pieces
 * @param letter code letter by table 1; null where every piece is checked
 * @param planLetter code letter of the plan that the arrows of table 2-A lead to; null where every
 *     piece is checked
 * @param inspected pieces that are checked
 * @param accept most pieces that may fail; null where every piece is checked
 * @param reject fewest failed pieces that refuse the lot; null where every piece is checked
 */
public record SamplingPlan(
        int lot,
        @Nullable String letter,
        @Nullable String planLetter,
        int inspected,
        @Nullable Integer accept,
        @Nullable Integer reject) {

    /** Acceptance quality limits that plans are listed for, in percent of nonconforming pieces. */
    public static final List<Double> AQLS =
            List.of(
                    0.010, 0.015, 0.025, 0.040, 0.065, 0.10, 0.15, 0.25, 0.40, 0.65, 1.0, 1.5, 2.5,
                    4.0, 6.5, 10.0);

    private static final List<String> LETTERS =
            List.of("A", "B", "C", "D", "E", "F", "G", "H", "J", "K", "L", "M", "N", "P", "Q", "R");

    private static final int[] SIZES = {
        2, 3, 5, 8, 13, 20, 32, 50, 80, 125, 200, 315, 500, 800, 1250, 2000
    };

    /** Largest lot of each line of table 1. */
    private static final int[] LOTS_UP_TO = {
        8,
        15,
        25,
        50,
        90,
        150,
        280,
        500,
        1200,
        3200,
        10_000,
        35_000,
        150_000,
        500_000,
        Integer.MAX_VALUE
    };

    /** Table 1: a line for each level, a letter for each line of lots. */
    private static final String[] CODE_LETTERS = {
        "AAAABBBBCCCCDDD", // S-1
        "AAABBBCCCDDDEEE", // S-2
        "AABBCCDDEEFFGGH", // S-3
        "AABCCDEEFGGHJJK", // S-4
        "AABCCDEFGHJKLMN", // I
        "ABCDEFGHJKLMNPQ", // II
        "BCDEFGHJKLMNPQR" // III
    };

    /**
     * Table 2-A: a line for each code letter, a column for each acceptance quality limit; in it the
     * acceptance number (the rejection number is one more) or an arrow down (v) or up (^).
     */
    private static final String[][] MASTER_TABLE =
            table(
                    """
                    A  v  v  v  v  v  v  v  v  v  v  v  v  v  v  0  v
                    B  v  v  v  v  v  v  v  v  v  v  v  v  v  0  ^  v
                    C  v  v  v  v  v  v  v  v  v  v  v  v  0  ^  v  1
                    D  v  v  v  v  v  v  v  v  v  v  v  0  ^  v  1  2
                    E  v  v  v  v  v  v  v  v  v  v  0  ^  v  1  2  3
                    F  v  v  v  v  v  v  v  v  v  0  ^  v  1  2  3  5
                    G  v  v  v  v  v  v  v  v  0  ^  v  1  2  3  5  7
                    H  v  v  v  v  v  v  v  0  ^  v  1  2  3  5  7 10
                    J  v  v  v  v  v  v  0  ^  v  1  2  3  5  7 10 14
                    K  v  v  v  v  v  0  ^  v  1  2  3  5  7 10 14 21
                    L  v  v  v  v  0  ^  v  1  2  3  5  7 10 14 21  ^
                    M  v  v  v  0  ^  v  1  2  3  5  7 10 14 21  ^  ^
                    N  v  v  0  ^  v  1  2  3  5  7 10 14 21  ^  ^  ^
                    P  v  0  ^  v  1  2  3  5  7 10 14 21  ^  ^  ^  ^
                    Q  0  ^  v  1  2  3  5  7 10 14 21  ^  ^  ^  ^  ^
                    R  ^  ^  1  2  3  5  7 10 14 21  ^  ^  ^  ^  ^  ^
                    """);

    private static String[][] table(String text) {
        return text.lines()
                .map(line -> line.strip().split("\\s+"))
                .map(cells -> Arrays.copyOfRange(cells, 1, cells.length))
                .toArray(String[][]::new);
    }

    /**
     * @param lot pieces, from 1
     * @param everyPieceUpTo lots up to this are checked piece by piece
     * @param aqlPercent one of {@link #AQLS}; what lies between takes the next lower one, which is
     *     stricter
     */
    public static SamplingPlan of(
            int lot, int everyPieceUpTo, InspectionLevel level, double aqlPercent) {
        if (!(lot >= 1)) {
            throw new IllegalArgumentException("a lot of " + lot + " pieces");
        }
        if (lot == 1 || lot <= everyPieceUpTo) {
            return everyPiece(lot);
        }
        int row = row(lot, level);
        String letter = LETTERS.get(row);
        int column = column(aqlPercent);
        while (MASTER_TABLE[row][column].equals("v")) {
            row++;
        }
        while (MASTER_TABLE[row][column].equals("^")) {
            row--;
        }
        if (SIZES[row] >= lot) {
            return everyPiece(lot);
        }
        int accept = Integer.parseInt(MASTER_TABLE[row][column]);
        return new SamplingPlan(lot, letter, LETTERS.get(row), SIZES[row], accept, accept + 1);
    }

    public boolean isEveryPiece() {
        return letter == null;
    }

    private static SamplingPlan everyPiece(int lot) {
        return new SamplingPlan(lot, null, null, lot, null, null);
    }

    private static int row(int lot, InspectionLevel level) {
        int line = 0;
        while (lot > LOTS_UP_TO[line]) {
            line++;
        }
        return LETTERS.indexOf(CODE_LETTERS[level.ordinal()].substring(line, line + 1));
    }

    private static int column(double aqlPercent) {
        int column = 0;
        while (column + 1 < AQLS.size() && AQLS.get(column + 1) <= aqlPercent) {
            column++;
        }
        return column;
    }
}
