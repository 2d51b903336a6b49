package strokewright.office;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.Date;
import java.util.List;
import org.apache.poi.ss.usermodel.CellStyle;
import org.apache.poi.ss.usermodel.FormulaError;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.SheetVisibility;
import org.apache.poi.xssf.usermodel.XSSFRichTextString;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Tables as people's programs write them. */
class TableReadingTest {

    private static final Charset WINDOWS = Charset.forName("windows-1252");

    @ParameterizedTest
    @ValueSource(strings = {",", ";", "\t"})
    void findsTheSeparatorInTheHead(String separator) {
        String file = "Grade|Price\r\nÄ-1|4.5\r\n".replace("|", separator);
        assertThat(rows(csv(file.getBytes(StandardCharsets.UTF_8))))
                .containsExactly("1 Grade|Price", "2 Ä-1|4.5");
    }

    @Test
    void aSeparatorWithinQuotationMarksIsNone() {
        assertThat(rows(csv("\"a,b,c,d\";x\n1;2\n"))).containsExactly("1 a,b,c,d|x", "2 1|2");
        assertThat(rows(csv("\"a \"\"x\"\" ; ; ;\",b\n1,2\n")))
                .containsExactly("1 a \"x\" ; ; ;|b", "2 1|2");
    }

    @Test
    void aDecimalCommaInTheRowsDoesNotCountAsASeparator() {
        assertThat(rows(csv("Grade;Price\nA;1,5\nB;1,5\nC;1,5\n"))).hasSize(4).contains("3 B|1,5");
    }

    @Test
    void aFirstLineMayNameTheSeparator() {
        assertThat(rows(csv("sep=;\r\na,b;c\r\n1;2\r\n"))).containsExactly("2 a,b|c", "3 1|2");
    }

    @Test
    void readsEveryEncodingThatSpreadsheetProgramsWrite() {
        String file = "Größe;Preis €\n1;2\n";
        List<String> expected = List.of("1 Größe|Preis €", "2 1|2");
        assertThat(rows(csv(file.getBytes(StandardCharsets.UTF_8)))).isEqualTo(expected);
        assertThat(rows(csv(("\ufeff" + file).getBytes(StandardCharsets.UTF_8))))
                .isEqualTo(expected);
        assertThat(rows(csv(("\ufeff" + file).getBytes(StandardCharsets.UTF_16LE))))
                .isEqualTo(expected);
        assertThat(rows(csv(("\ufeff" + file).getBytes(StandardCharsets.UTF_16BE))))
                .isEqualTo(expected);
        assertThat(rows(csv(file.getBytes(WINDOWS)))).isEqualTo(expected);
    }

    @Test
    void lineEndsMayBeMixedAndTheLastOneMissing() {
        assertThat(rows(csv("a,b\r\n1,2\n3,4\r5,6")))
                .containsExactly("1 a|b", "2 1|2", "3 3|4", "4 5|6");
    }

    @Test
    void rowsAreCountedAsASpreadsheetProgramCountsThem() {
        assertThat(rows(csv("a,b\n\n\"1\n1\",2\n,,\n3,4\n")))
                .containsExactly("1 a|b", "3 1\n1|2", "5 3|4");
    }

    @Test
    void spacesAroundQuotedValuesAndAQuotationMarkWithinAnUnquotedOneDoNoHarm() {
        assertThat(rows(csv("a, \"b;c\" ,d\n1/2\",3' 6\",x\n")))
                .containsExactly("1 a|b;c|d", "2 1/2\"|3' 6\"|x");
    }

    @ParameterizedTest
    @CsvSource(
            quoteCharacter = '#',
            value = {"'=1+1, =1+1", "''=1+1, '=1+1", "'-5 mm, -5 mm", "'plain, 'plain", "'', ''"})
    void takesAwayTheApostropheThatWritingPutInFront(String written, String meant) {
        assertThat(csv("a,b\n" + written + ",x\n").rows().get(1).value(0))
                .isEqualTo(new Value.Text(meant));
    }

    @Test
    void oneColumnNeedsNoSeparator() {
        assertThat(rows(csv("Name\nRim\n"))).containsExactly("1 Name", "2 Rim");
    }

    // Workbooks ---------------------------------------------------------------------------------

    @Test
    void readsWhatTheSpreadsheetLibraryWrites() throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook()) {
            XSSFSheet sheet = book.createSheet("Prices");
            Row row = sheet.createRow(3);
            row.createCell(0).setCellValue("text");
            row.createCell(1).setCellValue(0.1 + 0.2);
            row.createCell(2).setCellValue(true);
            row.createCell(3).setCellErrorValue(FormulaError.REF.getCode());
            row.createCell(4).setCellFormula("1+2");
            row.createCell(5).setCellFormula("\"a\"&\"b\"");
            row.createCell(6).setCellFormula("1/0");
            row.createCell(7).setCellValue("  ");
            row.createCell(9)
                    .setCellValue(new XSSFRichTextString("a\r\n_x0041_ \u20ac \ud83d\udd27"));
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            row.createCell(10).setCellFormula("1+3");
            Table table = xlsx(book);
            assertThat(table.sheet()).isEqualTo("Prices");
            assertThat(table.rows())
                    .containsExactly(
                            new Table.Row(
                                    4,
                                    List.of(
                                            new Value.Text("text"),
                                            number("0.30000000000000004"),
                                            new Value.YesNo(true),
                                            new Value.Unusable("holds the error #REF!"),
                                            number("3"),
                                            new Value.Text("ab"),
                                            new Value.Unusable("holds the error #DIV/0!"),
                                            Value.BLANK,
                                            Value.BLANK,
                                            new Value.Text("a\r\nA € \ud83d\udd27"),
                                            table.rows().get(0).value(10))));
            assertThat(table.rows().get(0).value(10)).isInstanceOf(Value.Unusable.class);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "d/m/yyyy",
                "yyyy-mm-dd",
                "dd.mm.yy",
                "mmm yy",
                "[$-407]d. mmmm yyyy;@",
                "m/d/yy"
            })
    void aNumberThatIsShownAsADateIsOne(String format) throws IOException {
        for (boolean from1904 : new boolean[] {false, true}) {
            try (XSSFWorkbook book = new XSSFWorkbook()) {
                book.getCTWorkbook().getWorkbookPr().setDate1904(from1904);
                Row row = book.createSheet().createRow(0);
                CellStyle style = book.createCellStyle();
                style.setDataFormat(book.createDataFormat().getFormat(format));
                row.createCell(0).setCellValue(LocalDate.of(2026, 2, 1));
                row.getCell(0).setCellStyle(style);
                row.createCell(1).setCellValue(LocalDateTime.of(2026, 2, 1, 14, 30));
                row.getCell(1).setCellStyle(style);
                row.createCell(2).setCellValue(46054);
                assertThat(xlsx(book).rows().get(0).values())
                        .containsExactly(
                                new Value.Moment(LocalDateTime.of(2026, 2, 1, 0, 0)),
                                new Value.Moment(LocalDateTime.of(2026, 2, 1, 14, 30)),
                                number("46054"));
            }
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"0.00", "#,##0.00 \"EUR\"", "0%", "@", "General", "[Red]0", "0.0\" mm\""})
    void anyOtherFormatLeavesItANumber(String format) throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook()) {
            Row row = book.createSheet().createRow(0);
            CellStyle style = book.createCellStyle();
            style.setDataFormat(book.createDataFormat().getFormat(format));
            row.createCell(0).setCellValue(4.25);
            row.getCell(0).setCellStyle(style);
            assertThat(xlsx(book).rows().get(0).value(0)).isEqualTo(number("4.25"));
        }
    }

    @Test
    void datesOfTheOldestProgramsAreCountedFromOneDayEarlier() throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook()) {
            Row row = book.createSheet().createRow(0);
            CellStyle style = book.createCellStyle();
            style.setDataFormat((short) 14);
            row.createCell(0).setCellValue(1);
            row.getCell(0).setCellStyle(style);
            row.createCell(1).setCellValue(61);
            row.getCell(1).setCellStyle(style);
            row.createCell(2).setCellValue(-1);
            row.getCell(2).setCellStyle(style);
            assertThat(xlsx(book).rows().get(0).values())
                    .containsExactly(
                            new Value.Moment(LocalDateTime.of(1900, 1, 1, 0, 0)),
                            new Value.Moment(LocalDateTime.of(1900, 3, 1, 0, 0)),
                            number("-1"));
        }
    }

    @Test
    void aMillionEmptyButColouredRowsAreNoRows() {
        byte[] file =
                Parts.small()
                        .rows(
                                out -> {
                                    try {
                                        out.write(Parts.ROWS.getBytes(StandardCharsets.UTF_8));
                                        for (int row = 3; row <= 1_048_576; row++) {
                                            out.write(
                                                    ("<row r=\""
                                                                    + row
                                                                    + "\"><c r=\"A"
                                                                    + row
                                                                    + "\" s=\"1\"/></row>")
                                                            .getBytes(StandardCharsets.UTF_8));
                                        }
                                    } catch (IOException e) {
                                        throw new java.io.UncheckedIOException(e);
                                    }
                                })
                        .bytes();
        assertThat(rows(read(file, "a.xlsx"))).containsExactly("1 Name|Price", "2 Rim|4.5");
    }

    @Test
    void looksWithoutEndAreReadOnlyAsFarAsAWorkbookCanHaveThem() {
        byte[] file =
                HostileFiles.withStyles(
                        Parts.repeated(
                                "<styleSheet><cellXfs>",
                                "<xf numFmtId=\"14\"/>",
                                90L << 20,
                                "</cellXfs></styleSheet>"));
        assertThat(catchMessage(file)).contains("its list of texts is missing");
    }

    @Test
    void readsTheSheetThatIsAskedForElseTheFirstThatCanBeSeen() throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook()) {
            for (String name : List.of("Hidden", "Notes", "Prices")) {
                book.createSheet(name).createRow(0).createCell(0).setCellValue("on " + name);
            }
            book.setActiveSheet(1);
            book.setSheetVisibility(0, SheetVisibility.HIDDEN);
            byte[] file = bytes(book);
            Table asked = TableFile.read(file, null, null, "Prices", Limits.IMPORT);
            Table first = TableFile.read(file, null, null, "Costs", Limits.IMPORT);
            assertThat(rows(asked)).containsExactly("1 on Prices");
            assertThat(asked.otherSheets()).containsExactly("Notes");
            assertThat(rows(first)).containsExactly("1 on Notes");
            assertThat(first.otherSheets()).containsExactly("Prices");
        }
    }

    @Test
    void rowsAndCellsMayLackTheirNamesOrComeInAnyOrder() {
        byte[] file =
                Parts.small()
                        .put(
                                "xl/worksheets/sheet1.xml",
                                Parts.sheet(
                                        "<row r=\"5\"><c r=\"C5\"><v>3</v></c><c r=\"A5\"><v>1</v></c></row>"
                                                + "<row r=\"2\"><c><v>7</v></c><c><v>8</v></c></row><row><c><v>9</v></c></row>"))
                        .bytes();
        assertThat(rows(read(file, "a.xlsx"))).containsExactly("2 7|8", "3 9", "5 1||3");
    }

    @Test
    void strictWorkbooksAndPrefixesOfNamesAreReadAlike() {
        byte[] file =
                Parts.small()
                        .put(
                                "xl/worksheets/sheet1.xml",
                                "<x:worksheet xmlns:x=\"http://purl.oclc.org/ooxml/spreadsheetml/main\"><x:sheetData><x:row r=\"1\"><x:c r=\"A1\" t=\"d\"><x:v>2026-02-01</x:v></x:c><x:c r=\"B1\" t=\"inlineStr\"><x:is><x:r><x:t>a</x:t></x:r><x:r><x:t>b</x:t></x:r><x:rPh><x:t>no</x:t></x:rPh></x:is></x:c></x:row></x:sheetData></x:worksheet>")
                        .bytes();
        assertThat(read(file, "a.xlsx").rows().get(0).values())
                .containsExactly(
                        new Value.Moment(LocalDateTime.of(2026, 2, 1, 0, 0)), new Value.Text("ab"));
    }

    @Test
    void namesOfCellsAreThoseOfSpreadsheetPrograms() {
        assertThat(Table.cellName(7, 4)).isEqualTo("E7");
        assertThat(Table.cellName(1, 26)).isEqualTo("AA1");
    }

    private static Value.Number number(String number) {
        return new Value.Number(new BigDecimal(number));
    }

    private static Table csv(String text) {
        return csv(text.getBytes(StandardCharsets.UTF_8));
    }

    private static Table csv(byte[] content) {
        return read(content, "a.csv");
    }

    private static Table read(byte[] content, String name) {
        return TableFile.read(content, name, null, null, Limits.IMPORT);
    }

    private static String catchMessage(byte[] file) {
        return org.assertj.core.api.Assertions.catchThrowable(() -> read(file, "a.xlsx"))
                .getMessage();
    }

    private static Table xlsx(XSSFWorkbook book) throws IOException {
        return read(bytes(book), "a.xlsx");
    }

    private static byte[] bytes(XSSFWorkbook book) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        book.getProperties().getCoreProperties().setCreated(java.util.Optional.of(new Date(0)));
        book.write(out);
        return out.toByteArray();
    }

    private static List<String> rows(Table table) {
        return table.rows().stream().map(r -> r.number() + " " + words(r.values())).toList();
    }

    private static String words(List<Value> values) {
        return String.join(
                "|",
                values.stream()
                        .map(
                                v ->
                                        v instanceof Value.Text t
                                                ? t.text()
                                                : v instanceof Value.Number n
                                                        ? n.number().toPlainString()
                                                        : v instanceof Value.Blank
                                                                ? ""
                                                                : v.toString())
                        .toList());
    }
}
