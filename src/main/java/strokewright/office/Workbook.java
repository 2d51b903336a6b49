package strokewright.office;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Date;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.apache.poi.ooxml.POIXMLProperties;
import org.apache.poi.ss.usermodel.BorderStyle;
import org.apache.poi.ss.usermodel.FillPatternType;
import org.apache.poi.ss.usermodel.HorizontalAlignment;
import org.apache.poi.ss.usermodel.Name;
import org.apache.poi.ss.usermodel.VerticalAlignment;
import org.apache.poi.xssf.usermodel.DefaultIndexedColorMap;
import org.apache.poi.xssf.usermodel.XSSFCellStyle;
import org.apache.poi.xssf.usermodel.XSSFColor;
import org.apache.poi.xssf.usermodel.XSSFFont;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;

/**
 * An xlsx file being written: sheets of cells with live formulas, without macros. Each formula's
 * result is stored too, for readers that do not calculate; programs that do are told to.
 */
public final class Workbook implements AutoCloseable {

    /** The media type of the file. */
    public static final String XLSX =
            "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

    private static final XSSFColor INPUT_TINT = colour(0xFF, 0xF6, 0xDC);
    private static final XSSFColor QUIET_INK = colour(0x5F, 0x5F, 0x5F);
    private static final XSSFColor RULE_INK = colour(0x33, 0x33, 0x33);

    private final XSSFWorkbook book = new XSSFWorkbook();
    private final List<Sheet> sheets = new ArrayList<>();
    private final Set<String> names = new HashSet<>();
    private final Map<Dress, XSSFCellStyle> styles = new HashMap<>();
    private final Map<Ink, XSSFFont> fonts = new HashMap<>();

    private final Paper.Size paper;

    /**
     * @param paper that it is printed on
     */
    public Workbook(String title, String author, Instant created, Paper.Size paper) {
        this.paper = paper;
        POIXMLProperties.CoreProperties about = book.getProperties().getCoreProperties();
        about.setTitle(title);
        about.setCreator(author);
        about.setCreated(Optional.of(Date.from(created)));
    }

    /** A new sheet, its name made fit and unlike the others. */
    public Sheet sheet(String wanted) {
        String fit = Texts.sheetName(wanted);
        String name = fit;
        for (int n = 2; !names.add(name.toLowerCase(Locale.ROOT)); n++) {
            String tail = " " + n;
            name = Texts.cut(fit, 31 - tail.length()).strip() + tail;
        }
        XSSFSheet made = book.createSheet(name);
        made.getFooter().setLeft(Texts.inMargin(name));
        Sheet sheet = new Sheet(this, made, paper);
        sheets.add(sheet);
        return sheet;
    }

    /** Gives a cell a name that formulas and readers may use. */
    public void name(String name, Place place) {
        Name given = book.createName();
        given.setNameName(name);
        given.setRefersToFormula(place.toString());
    }

    /** The finished file. */
    public byte[] bytes() {
        sheets.forEach(Sheet::close);
        book.getCreationHelper().createFormulaEvaluator().evaluateAll();
        book.setForceFormulaRecalculation(true);
        try (ByteArrayOutputStream out = new ByteArrayOutputStream()) {
            book.write(out);
            return out.toByteArray();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public void close() {
        try {
            book.close();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    void print(XSSFSheet sheet, int lastRow, int lastColumn) {
        book.setPrintArea(book.getSheetIndex(sheet), 0, lastColumn, 0, lastRow);
    }

    XSSFCellStyle style(Cell cell) {
        boolean quoted = cell instanceof Cell.Text text && Texts.looksLikeFormula(text.text());
        return styles.computeIfAbsent(new Dress(cell.look(), quoted), this::dressed);
    }

    private XSSFCellStyle dressed(Dress dress) {
        Look look = dress.look;
        XSSFCellStyle style = book.createCellStyle();
        style.setDataFormat(book.createDataFormat().getFormat(look.format()));
        style.setFont(
                fonts.computeIfAbsent(new Ink(look.bold(), look.quiet(), look.size()), this::font));
        style.setQuotePrefixed(dress.quoted);
        style.setVerticalAlignment(VerticalAlignment.CENTER);
        style.setWrapText(look.wrap());
        style.setLocked(!look.input());
        if (look.input()) {
            style.setFillPattern(FillPatternType.SOLID_FOREGROUND);
            style.setFillForegroundColor(INPUT_TINT);
        }
        switch (look.align()) {
            case LEFT -> style.setAlignment(HorizontalAlignment.LEFT);
            case RIGHT -> style.setAlignment(HorizontalAlignment.RIGHT);
            case BY_NATURE -> style.setAlignment(HorizontalAlignment.GENERAL);
        }
        if (look.rule() == Look.Rule.ABOVE || look.rule() == Look.Rule.BOTH) {
            style.setBorderTop(BorderStyle.THIN);
            style.setTopBorderColor(RULE_INK);
        }
        if (look.rule() == Look.Rule.BELOW || look.rule() == Look.Rule.BOTH) {
            style.setBorderBottom(BorderStyle.THIN);
            style.setBottomBorderColor(RULE_INK);
        }
        return style;
    }

    private XSSFFont font(Ink ink) {
        XSSFFont font = book.createFont();
        font.setFontName("Arial"); // on every system, its figures all of one width
        font.setFontHeightInPoints((short) ink.size);
        font.setBold(ink.bold);
        if (ink.quiet) {
            font.setColor(QUIET_INK);
        }
        return font;
    }

    private static XSSFColor colour(int red, int green, int blue) {
        return new XSSFColor(
                new byte[] {(byte) red, (byte) green, (byte) blue}, new DefaultIndexedColorMap());
    }

    private record Dress(Look look, boolean quoted) {}

    private record Ink(boolean bold, boolean quiet, int size) {}
}
