package strokewright.office;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.xssf.usermodel.XSSFCell;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Tables that are written, opened by another reader than our own. */
class TableWritingTest {

    private static final List<Column> COLUMNS =
            List.of(
                    Column.text("Name", 20),
                    Column.number("Thickness", 3, 10),
                    Column.money("Price", 2, 10),
                    Column.day("Since"),
                    Column.yesNo("Paced"));

    private static final List<List<Value>> ROWS =
            List.of(
                    row("Rim", "1.5", "1234.5", "2026-02-01", true),
                    row("=cmd|' /C calc'!A0", "-0.125", "-3", null, false),
                    row("+49 30 1", null, "0.0005", "1899-12-31", null),
                    row(
                            "-5 mm; \"quoted\", comma\nsecond line",
                            "0",
                            "12345678.9012",
                            "9999-12-31",
                            true),
                    row("@SUM(A1)", "20", "0", "2024-02-29", false),
                    row("00123", "1", "1", "2026-01-01", true),
                    row("1/2", "1", "1", "2026-01-01", true),
                    row("'=x", "1", "1", "2026-01-01", true),
                    row("a_x0041_b", "1", "1", "2026-01-01", true));

    private static List<Value> row(
            String name, String thickness, String price, String since, Boolean paced) {
        return Arrays.asList(
                Value.text(name),
                Value.number(thickness == null ? null : new BigDecimal(thickness)),
                Value.number(new BigDecimal(price)),
                Value.day(since == null ? null : LocalDate.parse(since)),
                Value.yesNo(paced));
    }

    @Test
    void separatedValuesAsTheStandardHasThem() {
        assertThat(csv(Csv.Manner.PLAIN).split("\r\n", -1))
                .startsWith(
                        "Name,Thickness,Price,Since,Paced",
                        "Rim,1.5,1234.5,2026-02-01,yes",
                        "'=cmd|' /C calc'!A0,-0.125,-3,,no",
                        "'+49 30 1,,0.0005,1899-12-31,",
                        "\"'-5 mm; \"\"quoted\"\", comma\nsecond line\",0,12345678.9012,9999-12-31,yes",
                        "'@SUM(A1),20,0,2024-02-29,no")
                .endsWith("''=x,1,1,2026-01-01,yes", "a_x0041_b,1,1,2026-01-01,yes", "");
    }

    @Test
    void withADecimalCommaForWhoWritesOne() {
        assertThat(csv(Csv.Manner.forPeople(',')).split("\r\n"))
                .contains(
                        "\ufeffName;Thickness;Price;Since;Paced", "Rim;1,5;1234,5;2026-02-01;yes");
        assertThat(csv(Csv.Manner.forPeople('.'))).startsWith("\ufeffName,Thickness");
    }

    @Test
    void noCellOfAWorkbookIsAFormulaAndTextIsMarkedAsText() throws IOException {
        try (XSSFWorkbook book = opened()) {
            XSSFSheet sheet = book.getSheet("Metal prices");
            for (int i = 0; i < ROWS.size(); i++) {
                XSSFCell name = sheet.getRow(i + 1).getCell(0);
                String text = ((Value.Text) ROWS.get(i).get(0)).text();
                assertThat(name.getCellType()).isEqualTo(CellType.STRING);
                assertThat(name.getStringCellValue()).isEqualTo(text);
                assertThat(name.getCellStyle().getDataFormatString()).isEqualTo("@");
                assertThat(name.getCellStyle().getQuotePrefixed())
                        .as(text)
                        .isEqualTo("=+-@".indexOf(text.charAt(0)) >= 0);
            }
            assertThat(sheet.getRow(2).getCell(1).getNumericCellValue()).isEqualTo(-0.125);
            assertThat(sheet.getRow(2).getCell(1).getCellStyle().getQuotePrefixed()).isFalse();
            assertThat(sheet.getRow(1).getCell(3).getLocalDateTimeCellValue())
                    .isEqualTo(LocalDateTime.of(2026, 2, 1, 0, 0));
            assertThat(sheet.getRow(2).getCell(3)).isNull();
            assertThat(sheet.getRow(1).getCell(4).getStringCellValue()).isEqualTo("yes");
        }
    }

    @Test
    void aWorkbookIsReadyToBeReadAndPrinted() throws IOException {
        try (XSSFWorkbook book = opened()) {
            XSSFSheet sheet = book.getSheet("Metal prices");
            assertThat(sheet.getPaneInformation().getHorizontalSplitPosition())
                    .isEqualTo((short) 1);
            assertThat(sheet.getPaneInformation().isFreezePane()).isTrue();
            assertThat(sheet.getColumnWidth(0)).isEqualTo(20 * 256);
            assertThat(sheet.getRepeatingRows().formatAsString()).isEqualTo("1:1");
            assertThat(sheet.getPrintSetup().getLandscape()).isTrue();
            assertThat(sheet.getPrintSetup().getFitWidth()).isEqualTo((short) 1);
            assertThat(sheet.getPrintSetup().getFitHeight()).isEqualTo((short) 0);
            assertThat(sheet.getFooter().getLeft()).isEqualTo("Prices && more");
            assertThat(sheet.getRow(1).getCell(2).getCellStyle().getDataFormatString())
                    .isEqualTo("#,##0.00##");
            assertThat(sheet.getRow(1).getCell(3).getCellStyle().getDataFormatString())
                    .isEqualTo("yyyy-mm-dd");
            assertThat(sheet.getColumnStyle(0).getDataFormatString())
                    .as("what is typed below stays text")
                    .isEqualTo("@");
            assertThat(book.getProperties().getCoreProperties().getTitle())
                    .isEqualTo("Prices & more");
            assertThat(sheet.getCTWorksheet().getAutoFilter().getRef()).isEqualTo("A1:E10");
        }
    }

    /** What is written is read back as it was, but for what the file does not know. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void comesBackAsItWas(long seed) {
        Random random = new Random(seed);
        List<List<Value>> rows = new ArrayList<>();
        for (int i = 0; i < 200; i++) {
            rows.add(randomRow(random, i));
        }
        ByteArrayOutputStream xlsx = new ByteArrayOutputStream();
        Xlsx.write(xlsx, "t", "t", COLUMNS, rows.iterator());
        Table fromXlsx = TableFile.read(xlsx.toByteArray(), "a.xlsx", null, null, Limits.IMPORT);
        ByteArrayOutputStream csv = new ByteArrayOutputStream();
        Csv.write(csv, Csv.Manner.PLAIN, COLUMNS, rows.iterator());
        Table fromCsv = TableFile.read(csv.toByteArray(), "a.csv", null, null, Limits.IMPORT);
        for (int i = 0; i < rows.size(); i++) {
            for (int c = 0; c < COLUMNS.size(); c++) {
                Value value = rows.get(i).get(c);
                assertThat(fromXlsx.rows().get(i + 1).value(c)).isEqualTo(asInXlsx(value));
                assertThat(fromCsv.rows().get(i + 1).value(c)).isEqualTo(asInCsv(value));
            }
        }
    }

    private static List<Value> randomRow(Random random, int i) {
        String letters = "=+-@'\"; ,\t\nÄ€x1🔧";
        StringBuilder text = new StringBuilder();
        for (int n = random.nextInt(8); n >= 0; n--) {
            text.appendCodePoint(
                    letters.codePoints()
                            .toArray()[random.nextInt((int) letters.codePoints().count())]);
        }
        return List.of(
                Value.text(
                        text.isEmpty() || text.toString().isBlank() ? "row " + i : text.toString()),
                random.nextInt(5) == 0
                        ? Value.BLANK
                        : Value.number(random.nextDouble() * Math.pow(10, random.nextInt(12) - 6)),
                Value.number(BigDecimal.valueOf(random.nextInt(10_000_000), 4)),
                Value.day(LocalDate.ofEpochDay(random.nextInt(60_000) - 20_000)),
                Value.yesNo(random.nextBoolean()));
    }

    private static Value asInXlsx(Value value) {
        if (value instanceof Value.YesNo y) {
            return new Value.Text(y.yes() ? "yes" : "no");
        }
        if (value instanceof Value.Number n) {
            BigDecimal plain = BigDecimal.valueOf(n.number().doubleValue()).stripTrailingZeros();
            return new Value.Number(plain.scale() < 0 ? plain.setScale(0) : plain);
        }
        return value;
    }

    private static Value asInCsv(Value value) {
        if (value instanceof Value.YesNo y) {
            return new Value.Text(y.yes() ? "yes" : "no");
        }
        if (value instanceof Value.Number n) {
            return new Value.Text(n.number().toPlainString());
        }
        if (value instanceof Value.Moment m) {
            return new Value.Text(m.at().toLocalDate().toString());
        }
        return value;
    }

    private static String csv(Csv.Manner manner) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        Csv.write(out, manner, COLUMNS, ROWS.iterator());
        return out.toString(StandardCharsets.UTF_8);
    }

    private static XSSFWorkbook opened() throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        Xlsx.write(out, "Prices & more", "Metal prices", COLUMNS, ROWS.iterator());
        return new XSSFWorkbook(new ByteArrayInputStream(out.toByteArray()));
    }
}
