package strokewright.exchange;

import com.fasterxml.jackson.annotation.JsonInclude;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Fault;

/**
 * Something wrong in a file.
 *
 * @param row as a spreadsheet program counts; null for the file as a whole
 * @param column its name; null for the row as a whole
 * @param cell as a spreadsheet program names it, e.g. {@code E7}
 * @param message goes on after the place was named
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record CellFault(
        @Nullable Integer row, @Nullable String column, @Nullable String cell, String message) {

    static CellFault ofFile(String message) {
        return new CellFault(null, null, null, message);
    }

    /** Such as "Row 7, Price per kg (cell E7)". */
    public String where() {
        if (row == null) {
            return column == null ? "The file" : "Column " + column;
        }
        return "Row "
                + row
                + (column == null ? "" : ", " + column)
                + (cell == null ? "" : " (cell " + cell + ")");
    }

    /** With a pointer to row and column: {@code /rows/7/Price per kg}. */
    Fault asFault() {
        String at =
                (row == null ? "" : "/rows/" + row)
                        + (column == null
                                ? ""
                                : (row == null ? "/columns/" : "/")
                                        + column.replace("~", "~0").replace("/", "~1"));
        return new Fault(at, message);
    }
}
