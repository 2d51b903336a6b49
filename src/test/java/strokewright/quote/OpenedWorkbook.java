package strokewright.quote;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.DataFormatter;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.util.CellReference;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;

/** A workbook as somebody at the office opens it: read, typed into, calculated. */
final class OpenedWorkbook {

    private final XSSFWorkbook book;

    OpenedWorkbook(byte[] file) {
        try {
            this.book = new XSSFWorkbook(new ByteArrayInputStream(file));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    XSSFWorkbook book() {
        return book;
    }

    /** Types a number over the input that stands in the row of this label. */
    OpenedWorkbook type(int sheet, String label, double value) {
        Cell cell = labelled(sheet, label).getCell(Grid.CHOSEN);
        if (cell.getCellStyle().getLocked()) {
            throw new IllegalStateException(label + " is locked");
        }
        if (cell.getCellType() == CellType.FORMULA) {
            cell.removeFormula();
        }
        cell.setCellValue(value);
        return this;
    }

    OpenedWorkbook calculate() {
        book.getCreationHelper().createFormulaEvaluator().evaluateAll();
        return this;
    }

    byte[] bytes() {
        try (ByteArrayOutputStream out = new ByteArrayOutputStream()) {
            book.write(out);
            return out.toByteArray();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The amount in a named cell, which must be one in whole cents. */
    BigDecimal amount(String name) {
        return cents(named(name).getNumericCellValue());
    }

    /** The same of a currency with so many decimals. */
    BigDecimal amount(String name, int decimals) {
        return whole(named(name).getNumericCellValue(), decimals);
    }

    String words(String name) {
        return named(name).getStringCellValue();
    }

    boolean isError(String name) {
        return named(name).getCachedFormulaResultType() == CellType.ERROR;
    }

    /** What the column of the chosen quantity shows in the row of this label, in whole cents. */
    BigDecimal chosen(int sheet, String label) {
        return cents(labelled(sheet, label).getCell(Grid.CHOSEN).getNumericCellValue());
    }

    /** The first row with this label. */
    Row labelled(int sheet, String label) {
        for (Row row : book.getSheetAt(sheet)) {
            Cell cell = row.getCell(Grid.LABEL);
            if (cell != null
                    && cell.getCellType() == CellType.STRING
                    && cell.getStringCellValue().equals(label)) {
                return row;
            }
        }
        throw new IllegalStateException("no row " + label);
    }

    /** All that somebody can read on a sheet, one text for each cell. */
    List<String> texts(int sheet) {
        DataFormatter formatter = new DataFormatter();
        formatter.setUseCachedValuesForFormulaCells(true);
        List<String> texts = new ArrayList<>();
        for (Row row : book.getSheetAt(sheet)) {
            for (Cell cell : row) {
                String text = formatter.formatCellValue(cell);
                if (!text.isEmpty()) {
                    texts.add(text);
                }
            }
        }
        return texts;
    }

    Cell named(String name) {
        CellReference place = new CellReference(book.getName(name).getRefersToFormula());
        return book.getSheet(place.getSheetName()).getRow(place.getRow()).getCell(place.getCol());
    }

    private static BigDecimal cents(double value) {
        return whole(value, 2);
    }

    private static BigDecimal whole(double value, int decimals) {
        BigDecimal rounded = BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP);
        if (Math.abs(rounded.doubleValue() - value) > 1e-7) {
            throw new IllegalStateException(value + " is not in whole coins");
        }
        return rounded;
    }
}
