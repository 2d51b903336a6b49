package strokewright.office;

import java.util.List;
import org.apache.poi.ss.util.CellReference;
import org.jspecify.annotations.Nullable;

/**
 * A table as it was read from a file: its rows that hold something.
 *
 * @param sheet name of the workbook's sheet; null for separated values
 * @param otherSheets that can be seen in the workbook and were not read
 */
public record Table(@Nullable String sheet, List<String> otherSheets, List<Row> rows) {

    /**
     * @param number as a spreadsheet program counts it, from 1
     * @param values from the first column on; what stands beyond them is blank
     */
    public record Row(int number, List<Value> values) {

        public Value value(int column) {
            return column < values.size() ? values.get(column) : Value.BLANK;
        }
    }

    /**
     * As a spreadsheet program names a cell, e.g. {@code E7}.
     *
     * @param row from 1
     * @param column from 0
     */
    public static String cellName(int row, int column) {
        return CellReference.convertNumToColString(column) + row;
    }
}
