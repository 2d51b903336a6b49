package strokewright.sheet;

import java.util.List;
import strokewright.sheet.Layout.Grid;

/** Sizes of the pieces and the room on a sheet, in whole micrometres, the kerf added to all. */
final class Sizes {

    /** Nothing is cut narrower; and the pieces of one sheet can be counted. */
    private static final int LEAST = 500;

    private final int[] length;
    private final int[] width;
    private final boolean[] mayTurn;
    private final int sheetLength;
    private final int sheetWidth;

    Sizes(List<Nesting.Blank> blanks, StockSheet sheet) {
        int n = blanks.size();
        length = new int[n];
        width = new int[n];
        mayTurn = new boolean[n];
        sheetLength = sheet.usableLength();
        sheetWidth = sheet.usableWidth();
        for (int i = 0; i < n; i++) {
            length[i] = micrometres(blanks.get(i).lengthMm()) + sheet.kerf();
            width[i] = micrometres(blanks.get(i).widthMm()) + sheet.kerf();
            mayTurn[i] = blanks.get(i).mayTurn() && length[i] != width[i];
        }
    }

    private static int micrometres(double mm) {
        return Math.max(LEAST, StockSheet.micrometres(mm));
    }

    int count() {
        return length.length;
    }

    int length(int size) {
        return length[size];
    }

    int width(int size) {
        return width[size];
    }

    /** False for squares, which gain nothing by it. */
    boolean mayTurn(int size) {
        return mayTurn[size];
    }

    int sheetLength() {
        return sheetLength;
    }

    int sheetWidth() {
        return sheetWidth;
    }

    boolean fits(int size) {
        return length[size] <= sheetLength && width[size] <= sheetWidth
                || mayTurn[size] && width[size] <= sheetLength && length[size] <= sheetWidth;
    }

    Grid piece(int size, boolean turned) {
        return new Grid(
                size,
                turned,
                turned ? width[size] : length[size],
                turned ? length[size] : width[size],
                1,
                1);
    }

    long area(int size) {
        return (long) length[size] * width[size];
    }

    /** For the pieces of few sheets. */
    long area(int[] counts) {
        long area = 0;
        for (int i = 0; i < counts.length; i++) {
            area += counts[i] * area(i);
        }
        return area;
    }

    long sheetArea() {
        return (long) sheetLength * sheetWidth;
    }
}
