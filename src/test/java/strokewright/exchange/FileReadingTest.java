package strokewright.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.office.Table;
import strokewright.office.Value;

/** What a file's head and cells mean. */
class FileReadingTest {

    private static final FileColumn GRADE =
            FileColumn.text("Grade", 10, "").alsoCalled("grade code").isNeeded();
    private static final FileColumn THICKNESS =
            FileColumn.length("Thickness", "").alsoCalled("thicknessMm");
    private static final FileColumn PRICE = FileColumn.money("Price per kg", "EUR/kg", 2, "");
    private static final FileColumn PEOPLE = FileColumn.number("People", "", "");
    private static final FileColumn PACED = FileColumn.yesNo("Paced", "");
    private static final FileColumn NOTES = FileColumn.prose("Notes", 20, "");
    private static final List<FileColumn> COLUMNS =
            List.of(GRADE, THICKNESS, PRICE, PEOPLE, PACED, NOTES);

    @Test
    void columnsStandInAnyOrderUnderAnyOfTheirNames() {
        FileReading file =
                read(row("PRICE  per KG", "grade\ncode", "Thickness (mm)"), row("4.5", "A", "2"));
        assertThat(file.faults()).isEmpty();
        assertThat(file.lines().get(0).typed())
                .containsEntry(PRICE, "4.5")
                .containsEntry(GRADE, "A")
                .containsEntry(THICKNESS, "2")
                .doesNotContainKey(PEOPLE);
        for (String head :
                List.of("thicknessMm", "Thickness mm", "thickness [MM]", " Thickness: ")) {
            assertThat(read(row("Grade", head), row("A", "2")).faults()).as(head).isEmpty();
        }
    }

    @Test
    void aTitleMayStandAboveTheHead() {
        FileReading file =
                read(row("Prices of June, grade by grade"), row("Grade", "People"), row("A", "1"));
        assertThat(file.faults()).isEmpty();
        assertThat(file.lines()).singleElement().extracting(FileReading.Line::row).isEqualTo(3);
    }

    @Test
    void whatIsNoColumnIsNamedUnlessItIsToBePassedOver() {
        List<Object[]> rows = List.of(row("Grade", "Prise per kg", ""), row("A", "4.5", "stray"));
        assertThat(messages(read(rows, Choices.NONE)))
                .containsExactly(
                        "Row 1, Prise per kg (cell B1): is no column here",
                        "Row 2 (cell C2): stands in a column without a head");
        FileReading passed = read(rows, new Choices(null, false, true));
        assertThat(passed.faults()).isEmpty();
        assertThat(passed.unknown()).containsExactly("Prise per kg", "column C");
    }

    @Test
    void whatIsNeededAndWhatStandsTwiceIsNamed() {
        assertThat(messages(read(row("People", "people "), row("1", "2"))))
                .containsExactly(
                        "Row 1, People (cell B1): stands twice among the columns",
                        "Column Grade: is missing");
        assertThat(messages(read(row("a", "b"), row("1", "2"))).get(0))
                .startsWith(
                        "The file: has no head that is known. The columns are Grade, Thickness (mm)");
        assertThat(messages(read(List.<Object[]>of(row("Grade", "People")), Choices.NONE)))
                .containsExactly("The file: has a head and no row below it");
    }

    @ParameterizedTest
    @CsvSource({
        "Thickness (in), 2 in",
        "Thickness (cm), 2 cm",
        "Thickness [inch], 2 inch",
        "Thickness (mm), 2"
    })
    void aLengthTakesTheUnitOfItsHead(String head, String typed) {
        assertThat(read(row("Grade", head), row("A", 2)).lines().get(0).typed())
                .containsEntry(THICKNESS, typed);
    }

    @Test
    void aUnitThatCannotBeMeantIsAFault() {
        assertThat(messages(read(row("Grade", "Price per kg (USD/kg)"), row("A", "1"))))
                .containsExactly(
                        "Row 1, Price per kg (cell B1): is in USD/kg, where EUR/kg is wanted");
        assertThat(messages(read(row("Grade", "Thickness (kg)"), row("A", "1"))))
                .containsExactly("Row 1, Thickness (cell B1): is in kg, where mm is wanted");
        assertThat(read(row("Grade", "Price per kg (€)"), row("A", "1")).faults()).isEmpty();
    }

    // Decimals ----------------------------------------------------------------------------------

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "1,5 1,234 | comma | 1,234",
                "1.5 1,234 | point | 1,234",
                "0,125 1.234 | comma | 1.234",
                "1.234.567 1,234 | comma | 1,234",
                "1,234,567 1.234 | point | 1.234",
                "1.234,5 1.234 | comma | 1.234",
                "1,5 1.234 | comma | 1.234",
                "12,3456 1.234 | comma | 1.234",
                "1234,567 1,234 | comma | 1,234",
            })
    void oneNumberThatIsClearTellsForAll(String numbers, String mark, String last) {
        FileReading file = prices(numbers);
        assertThat(file.open()).isEmpty();
        assertThat(file.numbers().decimalMark()).isEqualTo(mark.equals("comma") ? ',' : '.');
        boolean decimal = last.charAt(1) == file.numbers().decimalMark();
        assertThat(file.numbers().number(file.lines().get(1).typed().get(PRICE)).value())
                .isEqualByComparingTo(decimal ? "1.234" : "1234");
    }

    @ParameterizedTest
    @ValueSource(strings = {"1,234 2", "1.234 5", "1,234 1,5 1.5", "1,234 12.345"})
    void whatNothingTellsIsAsked(String numbers) {
        FileReading file = prices(numbers);
        assertThat(file.open()).contains(numbers.split(" ")[0]);
    }

    @Test
    void theAnswerSettlesIt() {
        for (String mark : List.of("comma", "point")) {
            FileReading file =
                    read(
                            List.of(row("Grade", "Price per kg"), row("A", "1,234")),
                            new Choices(mark, false, false));
            assertThat(file.open()).isEmpty();
            assertThat(file.numbers().number(file.lines().get(0).typed().get(PRICE)).value())
                    .isEqualByComparingTo(mark.equals("comma") ? "1.234" : "1234");
        }
    }

    @Test
    void aNumberOfAWorkbookIsNeverAskedAbout() {
        FileReading file =
                read(
                        row("Grade", "Price per kg"),
                        row("A", new BigDecimal("1.234")),
                        row("B", "2,5"));
        assertThat(file.numbers().number(file.lines().get(0).typed().get(PRICE)).value())
                .isEqualByComparingTo("1.234");
    }

    private static FileReading prices(String numbers) {
        List<Object[]> rows = new ArrayList<>();
        rows.add(row("Grade", "Price per kg"));
        for (String number : numbers.split(" ")) {
            rows.add(row("A", number));
        }
        return read(rows, Choices.NONE);
    }

    // Cells -------------------------------------------------------------------------------------

    @Test
    void aDateWhereANumberIsWantedSaysWhatMayHaveBeenMeant() {
        FileReading file =
                read(
                        row("Grade", "Price per kg"),
                        row("A", LocalDate.of(2026, 2, 1)),
                        row("B", LocalDate.of(2026, 5, 5)),
                        row("C", "01.02.2026"),
                        row("D", "1-Feb"),
                        row("E", "Feb 26"));
        assertThat(messages(file))
                .containsExactly(
                        "Row 2, Price per kg (cell B2): is a date, 2026-02-01: was 1/2, 2/1 or 1.2"
                                + " meant? Type it as text",
                        "Row 3, Price per kg (cell B3): is a date, 2026-05-05: was 5/5 or 5.5 meant?"
                                + " Type it as text",
                        "Row 4, Price per kg (cell B4): looks like a date: was something like 1/2"
                                + " meant? Type it as a number",
                        "Row 5, Price per kg (cell B5): looks like a date: was something like 1/2"
                                + " meant? Type it as a number",
                        "Row 6, Price per kg (cell B6): looks like a date: was something like 1/2"
                                + " meant? Type it as a number");
    }

    @ParameterizedTest
    @ValueSource(strings = {"12 mm", "1 1/2 in", "16 ga steel", "2,5 cm", "1/2\"", "3 m"})
    void aLengthWithItsUnitIsNoDate(String typed) {
        FileReading file = read(row("Grade", "Thickness"), row("A", typed));
        assertThat(file.faults()).isEmpty();
        assertThat(file.lines().get(0).typed()).containsEntry(THICKNESS, typed);
    }

    @ParameterizedTest
    @CsvSource({"4.5 EUR, 4.5", "€ 4.5, 4.5", "4.50€, 4.50", "EUR 4.5, 4.5", "-4.5, -4.5"})
    void anAmountMayCarryItsCurrency(String typed, String read) {
        assertThat(read(row("Grade", "Price per kg"), row("A", typed)).lines().get(0).typed())
                .containsEntry(PRICE, read);
    }

    @ParameterizedTest
    @ValueSource(strings = {"4.5 USD", "$4.5", "GBP 4.5", "4.5 £"})
    void anotherCurrencyIsAFault(String typed) {
        assertThat(messages(read(row("Grade", "Price per kg"), row("A", typed))).get(0))
                .contains("where EUR is wanted");
    }

    @Test
    void textStaysText() {
        FileReading file =
                read(
                        row("Grade", "Notes"),
                        row(new BigDecimal("304"), "two\r\nlines"),
                        row(" 007 ", new BigDecimal("0.5")));
        assertThat(file.lines().get(0).typed())
                .containsEntry(GRADE, "304")
                .containsEntry(NOTES, "two\nlines");
        assertThat(file.lines().get(1).typed())
                .containsEntry(GRADE, "007")
                .containsEntry(NOTES, "0.5");
    }

    @Test
    void whatNoTextCanBeTakenFromIsNamed() {
        assertThat(
                        messages(
                                read(
                                        row("Grade", "People", "Paced"),
                                        row(LocalDate.of(2026, 12, 3), true, "maybe"),
                                        row("two\nlines", "1", "yes"),
                                        row(
                                                new Value.Unusable("holds the error #REF!"),
                                                "1",
                                                "no"))))
                .containsExactly(
                        "Row 2, Grade (cell A2): is a date, 2026-12-03: was 3/12, 12/3 or 3.12 meant?"
                                + " Type it as text",
                        "Row 2, People (cell B2): is TRUE or FALSE, where a number is wanted",
                        "Row 2, Paced (cell C2): must be yes or no",
                        "Row 3, Grade (cell A3): has a line break or a tab, where one line is wanted",
                        "Row 4, Grade (cell A4): holds the error #REF!");
    }

    @ParameterizedTest
    @CsvSource({"yes, yes", "TRUE, yes", "x, yes", "1, yes", "No, no", "0, no", "-, no"})
    void yesAndNoInEveryUsualWay(String typed, String read) {
        assertThat(read(row("Grade", "Paced"), row("A", typed)).lines().get(0).typed())
                .containsEntry(PACED, read);
    }

    @Test
    void emptyRowsAreNone() {
        FileReading file =
                read(
                        row("Grade", "People", "Other"),
                        row("A", "1"),
                        row("", "", "x"),
                        row("B", "2"));
        assertThat(file.lines()).extracting(FileReading.Line::row).containsExactly(2, 4);
    }

    private static Object[] row(Object... cells) {
        return cells;
    }

    private static FileReading read(Object[]... rows) {
        return read(Arrays.asList(rows), Choices.NONE);
    }

    private static FileReading read(List<Object[]> rows, Choices choices) {
        return read(rows, COLUMNS, choices);
    }

    private static FileReading read(
            List<Object[]> rows, List<FileColumn> columns, Choices choices) {
        List<Table.Row> table = new ArrayList<>();
        for (int i = 0; i < rows.size(); i++) {
            table.add(
                    new Table.Row(
                            i + 1,
                            Arrays.stream(rows.get(i)).map(FileReadingTest::value).toList()));
        }
        return FileReading.of(new Table(null, List.of(), table), columns, choices);
    }

    private static Value value(Object cell) {
        return cell instanceof Value v
                ? v
                : cell instanceof LocalDate d
                        ? Value.day(d)
                        : cell instanceof Boolean b
                                ? Value.yesNo(b)
                                : cell instanceof Number n
                                        ? Value.number(new BigDecimal(n.toString()))
                                        : Value.text((String) cell);
    }

    private static List<String> messages(FileReading file) {
        return file.faults().stream().map(f -> f.where() + ": " + f.message()).toList();
    }

    @ParameterizedTest
    @CsvSource(
            nullValues = "-",
            value = {
                "2026-03-31, 2026-03-31",
                "2026-3-1, 2026-03-01",
                "31.3.2026, 2026-03-31",
                "4.3.26, 2026-03-04",
                "31/3/2026, 2026-03-31",
                "3/31/2026, 2026-03-31",
                "3/3/2026, 2026-03-03",
                "3/4/2026, -",
                "31.2.2026, -",
                "soon, -",
            })
    void aDayIsReadAsItIsWrittenAndAskedAboutWhereItCouldBeTwo(String typed, String day) {
        FileColumn date = FileColumn.date("Date", "");
        FileReading file = read(List.of(row("Date"), row(typed)), List.of(date), Choices.NONE);
        if (day == null) {
            assertThat(file.faults()).hasSize(1);
        } else {
            assertThat(file.faults()).isEmpty();
            assertThat(file.lines().get(0).typed()).containsEntry(date, day);
        }
    }

    @Test
    void hoursAndMinutesComeAsTextOrAsATimeOfAWorkbook() {
        FileColumn hours = FileColumn.duration("Hours", "h", "");
        FileReading file =
                read(
                        List.of(
                                row("Hours"),
                                row("1:30"),
                                row(new Value.Moment(LocalDate.of(1899, 12, 31).atTime(1, 30))),
                                row(new Value.Moment(LocalDate.of(1904, 1, 1).atTime(0, 12, 30))),
                                row(new Value.Moment(LocalDate.of(1900, 1, 1).atTime(2, 0))),
                                row("1,5")),
                        List.of(hours),
                        Choices.NONE);
        assertThat(file.faults()).isEmpty();
        assertThat(file.lines())
                .extracting(l -> l.typed().get(hours))
                .containsExactly("1:30", "1:30", "0:12:30", "26:00", "1,5");
    }
}
