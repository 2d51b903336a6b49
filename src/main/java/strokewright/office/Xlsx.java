package strokewright.office;

import java.io.EOFException;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Iterator;
import java.util.List;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;
import org.apache.poi.ss.usermodel.BorderStyle;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellStyle;
import org.apache.poi.ss.usermodel.Font;
import org.apache.poi.ss.usermodel.HorizontalAlignment;
import org.apache.poi.ss.usermodel.PrintSetup;
import org.apache.poi.ss.usermodel.VerticalAlignment;
import org.apache.poi.ss.util.CellRangeAddress;
import org.apache.poi.xssf.streaming.SXSSFRow;
import org.apache.poi.xssf.streaming.SXSSFSheet;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.InvalidInput;

/**
 * A table as a workbook of one sheet, both ways. Written as a stream, so that rows need no memory;
 * read as a stream within {@link Limits}.
 */
public final class Xlsx {

    public static final String MEDIA_TYPE = Workbook.XLSX;

    private static final int MOST_ROWS = 1_048_576;
    private static final int CHARACTER = 256;

    private Xlsx() {}

    /**
     * Writes a table as it comes; the stream stays open.
     *
     * @param title in the properties of the file and at the foot of each printed page
     * @param rows with as many values as there are columns
     * @throws IllegalArgumentException for more rows than a sheet has
     */
    public static void write(
            OutputStream out,
            String title,
            String sheetName,
            List<Column> columns,
            Iterator<List<Value>> rows) {
        try (SXSSFWorkbook book = new StreamedWorkbook()) {
            book.getXSSFWorkbook().getProperties().getCoreProperties().setTitle(title);
            SXSSFSheet sheet = book.createSheet(Texts.sheetName(sheetName));
            Dress[] dresses = columns.stream().map(c -> new Dress(book, c)).toArray(Dress[]::new);
            head(book, sheet, columns, dresses);
            int last = 0;
            while (rows.hasNext()) {
                if (++last == MOST_ROWS) {
                    throw new IllegalArgumentException("more rows than a sheet has");
                }
                SXSSFRow line = sheet.createRow(last);
                List<Value> values = rows.next();
                for (int i = 0; i < dresses.length; i++) {
                    dresses[i].put(line, i, values.get(i));
                }
            }
            sheet.setAutoFilter(new CellRangeAddress(0, last, 0, columns.size() - 1));
            print(sheet, title);
            book.write(out);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void head(
            SXSSFWorkbook book, SXSSFSheet sheet, List<Column> columns, Dress[] dresses) {
        Font bold = font(book);
        bold.setBold(true);
        SXSSFRow line = sheet.createRow(0);
        for (int i = 0; i < columns.size(); i++) {
            CellStyle style = book.createCellStyle();
            style.setFont(bold);
            style.setWrapText(true);
            style.setVerticalAlignment(VerticalAlignment.BOTTOM);
            style.setBorderBottom(BorderStyle.THIN);
            style.setQuotePrefixed(Texts.looksLikeFormula(columns.get(i).head()));
            if (columns.get(i).figure()) {
                style.setAlignment(HorizontalAlignment.RIGHT);
            }
            Cell cell = line.createCell(i);
            cell.setCellValue(columns.get(i).head());
            cell.setCellStyle(style);
            sheet.setColumnWidth(i, Math.min(columns.get(i).width(), 250) * CHARACTER);
            sheet.setDefaultColumnStyle(i, dresses[i].plain);
        }
        sheet.createFreezePane(0, 1);
    }

    private static void print(SXSSFSheet sheet, String title) {
        sheet.setRepeatingRows(new CellRangeAddress(0, 0, -1, -1));
        sheet.setFitToPage(true);
        PrintSetup print = sheet.getPrintSetup();
        print.setPaperSize(PrintSetup.A4_PAPERSIZE);
        print.setLandscape(true);
        print.setFitWidth((short) 1);
        print.setFitHeight((short) 0);
        sheet.getFooter().setLeft(Texts.inMargin(title));
        sheet.getFooter().setRight("&P / &N");
    }

    private static Font font(SXSSFWorkbook book) {
        Font font = book.createFont();
        font.setFontName("Arial");
        font.setFontHeightInPoints((short) 10);
        return font;
    }

    /** The looks that values of one column can need. */
    private static final class Dress {

        private final CellStyle plain;
        private final CellStyle text;
        private final CellStyle quoted;
        private final CellStyle day;
        private final CellStyle moment;

        Dress(SXSSFWorkbook book, Column column) {
            Font font = font(book);
            plain = style(book, column.format(), font);
            text = style(book, "@", font);
            quoted = style(book, "@", font);
            quoted.setQuotePrefixed(true);
            day = style(book, "yyyy-mm-dd", font);
            moment = style(book, "yyyy-mm-dd hh:mm", font);
        }

        private static CellStyle style(SXSSFWorkbook book, String format, Font font) {
            CellStyle style = book.createCellStyle();
            style.setDataFormat(book.createDataFormat().getFormat(format));
            style.setFont(font);
            return style;
        }

        void put(SXSSFRow line, int column, Value value) {
            if (value instanceof Value.Blank || value instanceof Value.Unusable) {
                return;
            }
            Cell cell = line.createCell(column);
            if (value instanceof Value.Text words) {
                cell.setCellValue(Texts.escaped(Texts.fitting(words.text())));
                cell.setCellStyle(Texts.looksLikeFormula(words.text()) ? quoted : text);
            } else if (value instanceof Value.Number number) {
                cell.setCellValue(number.number().doubleValue());
                cell.setCellStyle(plain);
            } else if (value instanceof Value.YesNo answer) {
                cell.setCellValue(answer.yes() ? "yes" : "no");
                cell.setCellStyle(text);
            } else if (value instanceof Value.Moment moment) {
                cell.setCellValue(moment.at());
                cell.setCellStyle(
                        moment.at().toLocalTime().toSecondOfDay() == 0 ? day : this.moment);
            }
        }
    }

    // Reading -----------------------------------------------------------------------------------

    /**
     * @param wanted name of the sheet to read where there is one of it; else the first to be seen
     * @throws InvalidInput with the reason
     */
    static Table read(byte[] content, Limits limits, @Nullable String wanted) {
        Path file = null;
        try {
            file = Files.createTempFile("strokewright-", ".xlsx"); // for its owner's eyes alone
            Files.write(file, content);
            try (ZipFile zip = new ZipFile(file.toFile(), StandardCharsets.UTF_8)) {
                return XlsxReading.of(new XlsxParts(zip, limits), limits, wanted);
            }
        } catch (ZipException | EOFException e) {
            throw damaged("its end or its list of parts is missing");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (IllegalArgumentException e) {
            throw damaged("the name of a part is no text");
        } finally {
            delete(file);
        }
    }

    private static void delete(@Nullable Path file) {
        try {
            if (file != null) {
                Files.deleteIfExists(file);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static InvalidInput damaged(String how) {
        return new InvalidInput(
                "",
                "is damaged or cut off (" + how + "): open it where it comes from, save it anew");
    }

    static InvalidInput encrypted() {
        return new InvalidInput("", "is protected by a password: save it without one");
    }
}
