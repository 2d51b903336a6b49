package strokewright.office;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.DataValidation;
import org.apache.poi.ss.usermodel.DataValidationConstraint;
import org.apache.poi.ss.usermodel.DataValidationConstraint.OperatorType;
import org.apache.poi.ss.usermodel.DataValidationHelper;
import org.apache.poi.ss.usermodel.PrintSetup;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.util.CellAddress;
import org.apache.poi.ss.util.CellRangeAddress;
import org.apache.poi.ss.util.CellRangeAddressList;
import org.apache.poi.xssf.usermodel.XSSFCell;
import org.apache.poi.xssf.usermodel.XSSFRow;
import org.apache.poi.xssf.usermodel.XSSFSheet;

/**
 * One sheet of a {@link Workbook}; rows and columns are counted from zero. Printed it takes the
 * width of one page.
 */
public final class Sheet {

    private static final int CHARACTER = 256; // the file format counts 256ths of a character

    /**
     * Widths are told in figures; letters are a little narrower on the whole, the more of them
     * stand in a line.
     */
    private static final float LETTER = 0.9f;

    private static final float LETTER_OF_MANY = 0.8f;
    private static final int MANY = 60;

    /** The highest that the file format knows, in points. */
    private static final float HIGHEST = 409;

    private final Workbook book;
    private final XSSFSheet sheet;
    private final Map<Integer, Integer> points = new HashMap<>();
    private final Map<CellAddress, Integer> joined = new HashMap<>();
    private int lastColumn;

    Sheet(Workbook book, XSSFSheet sheet, Paper.Size paper) {
        this.book = book;
        this.sheet = sheet;
        sheet.setDisplayGridlines(false);
        sheet.setFitToPage(true);
        PrintSetup print = sheet.getPrintSetup();
        print.setPaperSize(
                switch (paper) {
                    case A4 -> PrintSetup.A4_PAPERSIZE;
                    case LETTER -> PrintSetup.LETTER_PAPERSIZE;
                });
        print.setFitWidth((short) 1);
        print.setFitHeight((short) 0);
        sheet.getFooter().setRight("&P / &N");
    }

    public String name() {
        return sheet.getSheetName();
    }

    public Place place(int row, int column) {
        return new Place(name(), row, column);
    }

    /** Puts a cell, in place of what stood there. */
    public Place put(int row, int column, Cell content) {
        XSSFRow line = sheet.getRow(row) == null ? sheet.createRow(row) : sheet.getRow(row);
        XSSFCell cell = line.createCell(column);
        cell.setCellStyle(book.style(content));
        if (content instanceof Cell.Text text) {
            cell.setCellValue(Texts.fitting(text.text()));
        } else if (content instanceof Cell.Number number) {
            cell.setCellValue(number.value());
        } else if (content instanceof Cell.Day day) {
            cell.setCellValue(day.date());
        } else if (content instanceof Cell.Formula formula) {
            cell.setCellFormula(formula.formula());
        }
        lastColumn = Math.max(lastColumn, column);
        points.merge(row, content.look().size(), Math::max);
        return place(row, column);
    }

    /** Puts cells side by side, the first in the given column. */
    public void put(int row, int column, List<Cell> contents) {
        for (int i = 0; i < contents.size(); i++) {
            put(row, column + i, contents.get(i));
        }
    }

    /** Puts one cell in the place of several side by side, both ends included. */
    public Place across(int row, int first, int last, Cell content) {
        Place place = put(row, first, content);
        for (int column = first + 1; column <= last; column++) {
            put(row, column, Cell.text(null, content.look()));
        }
        if (last > first) {
            sheet.addMergedRegion(new CellRangeAddress(row, row, first, last));
            joined.put(new CellAddress(row, first), last);
        }
        return place;
    }

    /** Widths of the columns from the first on, in characters. */
    public void widths(int... characters) {
        for (int i = 0; i < characters.length; i++) {
            sheet.setColumnWidth(i, characters[i] * CHARACTER);
        }
    }

    /** Keeps so many rows and columns in sight while the rest is scrolled. */
    public void freeze(int rows, int columns) {
        sheet.createFreezePane(columns, rows);
    }

    public void landscape() {
        sheet.getPrintSetup().setLandscape(true);
    }

    /** Prints these rows again at the head of every page. */
    public void repeat(int firstRow, int lastRow) {
        sheet.setRepeatingRows(new CellRangeAddress(firstRow, lastRow, -1, -1));
    }

    /** Locks every cell that is no input, without a password: against slips, not against people. */
    public void lock() {
        sheet.enableLocking();
        sheet.lockFormatColumns(false);
        sheet.lockFormatRows(false);
    }

    /** Offers what stands in a range of cells, and refuses anything else. */
    public void choice(Place where, Place first, Place last, String otherwise) {
        allow(where, helper().createFormulaListConstraint(first.to(last)), otherwise);
    }

    /** Takes numbers between the two, both included, and refuses anything else. */
    public void between(Place where, double low, double high, String otherwise) {
        allow(
                where,
                helper().createDecimalConstraint(
                                OperatorType.BETWEEN, Double.toString(low), Double.toString(high)),
                otherwise);
    }

    /** Takes what makes a formula true, and refuses anything else. */
    public void onlyIf(Place where, String formula, String otherwise) {
        allow(where, helper().createCustomConstraint(formula), otherwise);
    }

    /** At the bottom of every page to the left, in place of the sheet's name. */
    public void foot(String left) {
        sheet.getFooter().setLeft(Texts.inMargin(left));
    }

    /** Begins a new page with this row. */
    public void newPage(int row) {
        sheet.setRowBreak(row - 1);
    }

    /** What is printed: all that was put, and nothing that somebody notes beside it. */
    void close() {
        sheet.rowIterator().forEachRemaining(row -> row.setHeightInPoints(height(row)));
        book.print(sheet, Math.max(0, sheet.getLastRowNum()), lastColumn);
    }

    /** Set for every row, because not every program fits rows to wrapped text by itself. */
    private float height(Row row) {
        int lines = 1;
        for (org.apache.poi.ss.usermodel.Cell cell : row) {
            if (cell.getCellStyle().getWrapText() && cell.getCellType() == CellType.STRING) {
                int width = Math.max(1, width(cell));
                float letter = width < MANY ? LETTER : LETTER_OF_MANY;
                lines =
                        Math.max(
                                lines,
                                cell.getStringCellValue()
                                        .lines()
                                        .mapToInt(line -> Math.round(line.length() * letter))
                                        .map(length -> Math.max(1, (length + width - 1) / width))
                                        .sum());
            }
        }
        return Math.min(HIGHEST, lines * points.get(row.getRowNum()) * 1.25f + 3);
    }

    /** In characters. */
    private int width(org.apache.poi.ss.usermodel.Cell cell) {
        int first = cell.getColumnIndex();
        int width = 0;
        for (int column = first;
                column <= joined.getOrDefault(cell.getAddress(), first);
                column++) {
            width += sheet.getColumnWidth(column) / CHARACTER;
        }
        return width;
    }

    private void allow(Place where, DataValidationConstraint constraint, String otherwise) {
        DataValidation rule =
                helper().createValidation(
                                constraint,
                                new CellRangeAddressList(
                                        where.row(), where.row(), where.column(), where.column()));
        rule.setEmptyCellAllowed(false);
        rule.setErrorStyle(DataValidation.ErrorStyle.STOP);
        rule.createErrorBox("Not possible here", otherwise);
        rule.setShowErrorBox(true);
        sheet.addValidationData(rule);
    }

    private DataValidationHelper helper() {
        return sheet.getDataValidationHelper();
    }
}
