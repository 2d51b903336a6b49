package strokewright.office;

import org.apache.poi.ss.formula.SheetNameFormatter;
import org.apache.poi.ss.util.CellReference;

/**
 * Where a cell is, to be spoken of in formulas; written out it is absolute and names its sheet.
 *
 * @param row counted from zero
 * @param column counted from zero
 */
public record Place(String sheet, int row, int column) {

    /** As a formula on any sheet writes it, e.g. {@code 'Item 1'!$C$4}. */
    @Override
    public String toString() {
        return SheetNameFormatter.format(sheet) + "!" + cell(true);
    }

    /** As a formula on the same sheet writes it, e.g. {@code C4}. */
    public String here() {
        return cell(false);
    }

    /** As a formula on the same sheet writes it when it must stay put, e.g. {@code $C$4}. */
    public String fixed() {
        return cell(true);
    }

    /** The rectangle between two cells of one sheet, absolute, e.g. {@code 'Item 1'!$C$4:$F$4}. */
    public String to(Place other) {
        if (!sheet.equals(other.sheet)) {
            throw new IllegalArgumentException("a range over two sheets: " + this + ", " + other);
        }
        return this + ":" + other.cell(true);
    }

    /** The same for a formula on the same sheet, e.g. {@code $C$4:$F$4}. */
    public String fixedTo(Place other) {
        return fixed() + ":" + other.fixed();
    }

    public Place below(int rows) {
        return new Place(sheet, row + rows, column);
    }

    public Place right(int columns) {
        return new Place(sheet, row, column + columns);
    }

    private String cell(boolean absolute) {
        return new CellReference(row, column, absolute, absolute).formatAsString();
    }
}
