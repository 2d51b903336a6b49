package strokewright.office;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Currency;
import java.util.List;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.DataValidation;
import org.apache.poi.xssf.usermodel.XSSFCell;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class WorkbookTests {

    private final Workbook book =
            new Workbook(
                    "Trial", "Estimator", Instant.parse("2026-03-02T08:00:00Z"), Paper.Size.A4);

    @AfterEach
    void close() {
        book.close();
    }

    @ParameterizedTest
    @ValueSource(strings = {"=1+1", "+49 1", "-frame", "@rim", "\tx", "\rx", "=cmd|' /C calc'!A0"})
    void textThatLooksLikeAFormulaStaysText(String text) throws IOException {
        book.sheet("S").put(0, 0, Cell.text(text));

        XSSFCell cell = read().getSheet("S").getRow(0).getCell(0);

        assertThat(cell.getCellType()).isEqualTo(CellType.STRING);
        assertThat(cell.getStringCellValue().strip()).isEqualTo(text.strip());
        assertThat(cell.getCellStyle().getQuotePrefixed()).isTrue();
    }

    @Test
    void ordinaryTextIsNotMarkedAsQuoted() throws IOException {
        book.sheet("S").put(0, 0, Cell.text("Rim = frame"));

        assertThat(read().getSheet("S").getRow(0).getCell(0).getCellStyle().getQuotePrefixed())
                .isFalse();
    }

    @Test
    void formulasAreStoredWithTheirResultsAndWillBeCalculatedAgain() throws IOException {
        Sheet first = book.sheet("O'Neil & Söhne");
        Sheet second = book.sheet("Sum");
        Place hours = first.put(0, 1, Cell.number(2.5, Look.number(2)));
        second.put(3, 2, Cell.formula(hours + "*40", Look.money(Currency.getInstance("EUR"))));

        XSSFWorkbook read = read();
        XSSFCell cell = read.getSheet("Sum").getRow(3).getCell(2);

        assertThat(cell.getCellFormula()).isEqualTo("'O''Neil & Söhne'!$B$1*40");
        assertThat(cell.getNumericCellValue()).isEqualTo(100.0);
        assertThat(read.getForceFormulaRecalculation()).isTrue();
        assertThat(read.isMacroEnabled()).isFalse();
    }

    @ParameterizedTest
    @CsvSource({"EUR,'#,##0.00'", "JPY,'#,##0'", "KWD,'#,##0.000'"})
    void amountsShowTheMinorDigitsOfTheirCurrency(String currency, String format)
            throws IOException {
        book.sheet("S").put(0, 0, Cell.number(1, Look.money(Currency.getInstance(currency))));

        assertThat(read().getSheet("S").getRow(0).getCell(0).getCellStyle().getDataFormatString())
                .isEqualTo(format);
    }

    @Test
    void sheetNamesAreMadeFitAndDistinct() {
        List<String> names =
                List.of(
                        book.sheet("1 Frame: rim [a/b]*?\\").name(),
                        book.sheet("x".repeat(40)).name(),
                        book.sheet("X".repeat(40)).name(),
                        book.sheet("'quoted'").name(),
                        book.sheet(" ").name(),
                        book.sheet("x".repeat(30) + "\uD83D\uDE00").name());

        assertThat(names)
                .containsExactly(
                        "1 Frame  rim  a b",
                        "x".repeat(31),
                        "X".repeat(29) + " 2",
                        "quoted",
                        "Sheet",
                        "x".repeat(30));
    }

    @Test
    void choicesComeFromCellsAndRefuseAnythingElse() throws IOException {
        Sheet sheet = book.sheet("S");
        Place first = sheet.put(0, 0, Cell.number(1, Look.PLAIN));
        Place last = sheet.put(0, 1, Cell.number(5, Look.PLAIN));
        Place chosen = sheet.put(1, 0, Cell.number(1, Look.PLAIN.asInput()));
        sheet.choice(chosen, first, last, "Pick one of the quantities.");
        sheet.lock();

        XSSFSheet read = read().getSheet("S");
        DataValidation rule = read.getDataValidations().get(0);

        assertThat(rule.getRegions().getCellRangeAddresses()[0].formatAsString()).isEqualTo("A2");
        assertThat(rule.getValidationConstraint().getFormula1()).isEqualTo("S!$A$1:$B$1");
        assertThat(rule.getErrorStyle()).isEqualTo(DataValidation.ErrorStyle.STOP);
        assertThat(rule.getShowErrorBox()).isTrue();
        assertThat(read.getProtect()).isTrue();
        assertThat(read.getRow(1).getCell(0).getCellStyle().getLocked()).isFalse();
        assertThat(read.getRow(0).getCell(0).getCellStyle().getLocked()).isTrue();
    }

    @Test
    void namesHeadsWidthsAndPrintAreaAreKept() throws IOException {
        Sheet sheet = book.sheet("Price list");
        Place place = sheet.put(4, 2, Cell.day(LocalDate.of(2026, 3, 2), Look.DATE));
        book.name("day", place);
        sheet.widths(12, 30);
        sheet.freeze(2, 1);
        sheet.repeat(0, 1);

        XSSFWorkbook read = read();
        XSSFSheet found = read.getSheet("Price list");

        assertThat(read.getName("day").getRefersToFormula()).isEqualTo("'Price list'!$C$5");
        assertThat(found.getRow(4).getCell(2).getLocalDateTimeCellValue().toLocalDate())
                .isEqualTo(LocalDate.of(2026, 3, 2));
        assertThat(found.getColumnWidthInPixels(1)).isGreaterThan(found.getColumnWidthInPixels(0));
        assertThat(found.getPaneInformation().getHorizontalSplitTopRow()).isEqualTo((short) 2);
        assertThat(read.getPrintArea(0)).isEqualTo("'Price list'!$A$1:$C$5");
        assertThat(found.getRepeatingRows().formatAsString()).isEqualTo("1:2");
        assertThat(read.getProperties().getCoreProperties().getTitle()).isEqualTo("Trial");
    }

    private XSSFWorkbook read() throws IOException {
        return new XSSFWorkbook(new ByteArrayInputStream(book.bytes()));
    }
}
