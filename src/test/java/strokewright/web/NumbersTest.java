package strokewright.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.quantity.Money;
import strokewright.quantity.SheetGauge;

class NumbersTest {

    private static final Numbers EN = Numbers.of(Locale.ENGLISH);
    private static final Numbers DE = Numbers.of(Locale.GERMAN);

    @Nested
    class Reads {

        @ParameterizedTest(name = "{0} is {1} in both languages")
        @CsvSource(
                delimiter = '|',
                value = {
                    "12|12",
                    "1234|1234",
                    "1.5|1.5",
                    "1,5|1.5",
                    "12,50|12.50",
                    "1234,567|1234.567",
                    "1234.567|1234.567",
                    "0,125|0.125",
                    "0.125|0.125",
                    "1,2345|1.2345",
                    "1.234,5|1234.5",
                    "1,234.5|1234.5",
                    "1.234.567|1234567",
                    "1,234,567|1234567",
                    "1.234.567,25|1234567.25",
                    "1 234|1234",
                    "1 234,567|1234.567",
                    "1'234.5|1234.5",
                    "1\u202f234.5|1234.5",
                    "-3,5|-3.5",
                    "\u22123.5|-3.5",
                    "+4|4",
                    ".5|0.5",
                    ",5|0.5",
                    "12,|12",
                    "007|7",
                })
        void aNumberWithOnlyOneMeaning(String typed, BigDecimal value) {
            assertThat(EN.number(typed).value()).isEqualByComparingTo(value);
            assertThat(DE.number(typed).value()).isEqualByComparingTo(value);
        }

        @Test
        void theLocalesOwnDecimalMarkWithThreeDigitsBehindIt() {
            assertThat(EN.number("1.234").value()).isEqualByComparingTo("1.234");
            assertThat(DE.number("1,234").value()).isEqualByComparingTo("1.234");
        }

        @ParameterizedTest
        @ValueSource(strings = {"1,234", "12,345", "999,000"})
        void asksWhatAnEnglishCommaWithThreeDigitsMeans(String typed) {
            assertThat(EN.number(typed).value()).isNull();
            assertThat(EN.number(typed).fault())
                    .contains(typed.replace(",", ""))
                    .contains(typed.replace(',', '.'));
        }

        @ParameterizedTest
        @ValueSource(strings = {"1.234", "12.345", "999.000"})
        void asksWhatAGermanPointWithThreeDigitsMeans(String typed) {
            assertThat(DE.number(typed).value()).isNull();
            assertThat(DE.number(typed).fault())
                    .contains(typed.replace(".", ""))
                    .contains(typed.replace('.', ','));
        }

        @ParameterizedTest
        @ValueSource(
                strings = {
                    "abc", "1e5", "1.2.3", "1,2,3", "12.34.567", "1,23.4", "1..2", "--1", "1-2",
                    "NaN", "Infinity", "0x10", "12 34", "1 23", "12mm5", "\u0661\u0662", ".", ","
                })
        void saysWhatWouldBeRightInsteadOfGuessing(String typed) {
            assertThat(EN.number(typed).value()).isNull();
            assertThat(EN.number(typed).fault()).contains("number");
            assertThat(DE.number(typed).value()).isNull();
        }

        @Test
        void nothingTypedIsNeitherValueNorFault() {
            assertThat(EN.number("  ")).isEqualTo(Reading.EMPTY);
            assertThat(EN.number(null)).isEqualTo(Reading.EMPTY);
            assertThat(EN.lengthMm("")).isEqualTo(Reading.EMPTY);
        }

        @Test
        void refusesAbsurdlyLongText() {
            assertThat(EN.number("9".repeat(41)).fault()).contains("too long");
            assertThat(EN.number("9".repeat(40)).value()).isNotNull();
        }

        @Test
        void aWholeNumberMayBeWrittenWithZeroDecimals() {
            assertThat(EN.whole("5.0").value()).isEqualByComparingTo("5");
            assertThat(EN.whole("1000").value()).isEqualByComparingTo("1000");
            assertThat(EN.whole("2.5").fault()).contains("whole number");
        }

        @ParameterizedTest(name = "{0} is {1} mm")
        @CsvSource(
                delimiter = '|',
                value = {
                    "12.7|12.7",
                    "12,7 mm|12.7",
                    "2cm|20",
                    "1.2 m|1200",
                    "1 in|25.4",
                    "0.08 in|2.032",
                    "0.5\"|12.7",
                    "1/2 in|12.7",
                    "1/2\"|12.7",
                    "1/16\"|1.5875",
                    "1-1/4 in|31.75",
                    "1 1/4 inch|31.75",
                    "3 IN|76.2",
                })
        void aLengthInAnyUsualUnit(String typed, BigDecimal mm) {
            assertThat(EN.lengthMm(typed).value()).isEqualByComparingTo(mm);
        }

        @Test
        void asksForTheUnitOfABareFraction() {
            assertThat(EN.lengthMm("1/2").value()).isNull();
            assertThat(EN.lengthMm("1/2").fault()).contains("1/2 in");
        }

        @Test
        void refusesAFractionWithNothingBelowTheLine() {
            assertThat(EN.lengthMm("1/0 in").fault()).contains("below the line");
        }

        @ParameterizedTest(name = "{0} is {1} mm²")
        @CsvSource(
                delimiter = '|',
                value = {
                    "15|150000",
                    "15 dm²|150000",
                    "0,15 m2|150000",
                    "150000 mm²|150000",
                    "1500 cm^2|150000",
                    "1 in²|645.16",
                })
        void anAreaInDm2OrAsStated(String typed, BigDecimal mm2) {
            assertThat(EN.areaMm2(typed).value()).isEqualByComparingTo(mm2);
        }

        @Test
        void aThicknessInGaugeOfANamedMetal() {
            assertThat(thickness("16 ga steel").value()).isEqualByComparingTo("1.5");
            assertThat(thickness("16ga galv").value()).isEqualByComparingTo("1.6");
            assertThat(thickness("#16 gauge stainless").value()).isEqualByComparingTo("1.7");
            assertThat(thickness("16 ga aluminum").value()).isEqualByComparingTo("1.8");
            assertThat(thickness("1/16\"").value()).isEqualByComparingTo("1.5875");
            assertThat(thickness("2").value()).isEqualByComparingTo("2");
        }

        @Test
        void aThicknessInGaugeOfTheMetalOfThePart() {
            assertThat(EN.thicknessMm("16 ga", NumbersTest::gauge, "aluminium").value())
                    .isEqualByComparingTo("1.8");
        }

        @ParameterizedTest
        @ValueSource(
                strings = {
                    "16 ga",
                    "16ga",
                    "16 GA.",
                    "gauge 16",
                    "Gage 16",
                    "ga 16",
                    "#16",
                    "# 16",
                    "#16 ga",
                    "16 gauge",
                    "16-gauge",
                    "16 gage",
                    "16g"
                })
        void aGaugeInEveryWayThatItIsWritten(String typed) {
            assertThat(EN.thicknessMm(typed, NumbersTest::gauge, "stainless").value())
                    .isEqualByComparingTo("1.7");
        }

        @ParameterizedTest
        @ValueSource(
                strings = {
                    "16 ga galv",
                    "16 ga galv.",
                    "galv 16 ga",
                    "Galvanized #16",
                    "gauge 16 galvanised",
                    "16 gauge galvanized steel",
                    "galvanised steel 16 ga",
                    "16 ga, galv"
                })
        void theMetalThatIsNamedWins(String typed) {
            assertThat(EN.thicknessMm(typed, NumbersTest::gauge, "steel").value())
                    .isEqualByComparingTo("1.6");
        }

        @ParameterizedTest
        @ValueSource(strings = {"ga", "#", "16 ga 18", "gauge -16", "16.5 ga", "#1600", "1/16 ga"})
        void whatIsNoGaugeIsRefused(String typed) {
            assertThat(EN.thicknessMm(typed, NumbersTest::gauge, "steel").value()).isNull();
            assertThat(EN.thicknessMm(typed, NumbersTest::gauge, "steel").fault()).isNotNull();
        }

        @ParameterizedTest
        @ValueSource(
                strings = {
                    "20 oz",
                    "20oz",
                    "20 oz.",
                    "20 ounces",
                    "20-ounce",
                    "20 oz copper",
                    "copper 20 oz",
                    "20 oz cu",
                    "20 oz/ft2",
                    "20 oz/ft\u00b2",
                    "20 oz per sq ft",
                    "20 oz/sq. ft. copper",
                    "20 oz copper sheet"
                })
        void copperGoesByItsWeight(String typed) {
            assertThat(EN.thicknessMm(typed, NumbersTest::gauge, "copper").value())
                    .isEqualByComparingTo("0.686");
        }

        @ParameterizedTest
        @ValueSource(strings = {"20 oz copper", "Cu 20 oz"})
        void aWeightOfCopperIsOneWhateverTheGrade(String typed) {
            assertThat(EN.thicknessMm(typed, NumbersTest::gauge, "steel").value())
                    .isEqualByComparingTo("0.686");
        }

        @ParameterizedTest
        @ValueSource(strings = {"steel", "aluminium", "stainless", ""})
        void onlyCopperGoesByItsWeight(String table) {
            String of = table.isEmpty() ? null : table;
            assertThat(EN.thicknessMm("20 oz", NumbersTest::gauge, of).fault())
                    .isEqualTo(
                            "only copper goes by its weight per square foot: 20 oz of it is 0.686 mm."
                                    + " Type 20 oz copper, or the thickness in mm, inch or gauge");
            assertThat(EN.thicknessMm("20 oz brass", NumbersTest::gauge, of).value()).isNull();
        }

        @ParameterizedTest
        @ValueSource(strings = {"2.5 oz", "0 oz", "200 oz", "oz", "20 oz 30", "-20 oz"})
        void whatIsNoWeightOfSheetCopperIsRefused(String typed) {
            assertThat(EN.thicknessMm(typed, NumbersTest::gauge, "copper").value()).isNull();
            assertThat(EN.thicknessMm(typed, NumbersTest::gauge, "copper").fault()).isNotNull();
        }

        @ParameterizedTest
        @ValueSource(strings = {"16.5 ga", "16 ga cold rolled strip", "16/18 ga", "#"})
        void whatWasMeantAsAGaugeIsToldHowOneIsTyped(String typed) {
            assertThat(EN.thicknessMm(typed, NumbersTest::gauge, "steel").fault())
                    .isEqualTo(
                            "must be a thickness in mm or inch, or a whole gauge and its metal,"
                                    + " like 16 ga galvanised");
        }

        @Test
        void tellsAGaugeFromALength() {
            assertThat(SheetGauge.read("16 GA Galv.")).contains(new SheetGauge(16, false, "galv"));
            assertThat(SheetGauge.read("20 oz copper"))
                    .contains(new SheetGauge(20, true, "copper"));
            assertThat(SheetGauge.read("1.5")).isEmpty();
            assertThat(SheetGauge.read("1/16 in")).isEmpty();
            assertThat(SheetGauge.read(null)).isEmpty();
        }

        @Test
        void asksOfWhichMetalABareGaugeIs() {
            assertThat(thickness("16 ga").value()).isNull();
            assertThat(thickness("16 ga").fault())
                    .contains("steel 1.500 mm", "galvanised 1.600 mm", "16 ga and the metal");
            assertThat(thickness("16 ga cheese").fault()).contains("of which metal?");
            assertThat(thickness("16 ga zinc").fault())
                    .as("zinc sheet has a gauge of its own, which is not among the tables")
                    .contains("of which metal?");
        }

        @Test
        void saysWhichGaugesATableDoesNotHave() {
            assertThat(thickness("99 ga steel").fault()).contains("not in the table for steel");
            assertThat(thickness("99 ga").fault()).contains("in none of the tables");
        }

        private Reading thickness(String typed) {
            return EN.thicknessMm(typed, NumbersTest::gauge, null);
        }

        @Test
        void wholeNumberBeyondAnIntIsTheNearestInt() {
            Numbers english = Numbers.of(Locale.ENGLISH);

            assertThat(english.whole("12").asInteger()).isEqualTo(12);
            assertThat(english.whole("99999999999").asInteger()).isEqualTo(Integer.MAX_VALUE);
            assertThat(english.whole("").asInteger()).isNull();
        }
    }

    private static OptionalDouble gauge(String table, int gauge) {
        if (table.equals(SheetGauge.COPPER_OUNCES)) {
            return gauge == 20 ? OptionalDouble.of(0.686) : OptionalDouble.empty();
        }
        return gauge == 16
                ? OptionalDouble.of(1.5 + Numbers.GAUGE_TABLES.indexOf(table) / 10.0)
                : OptionalDouble.empty();
    }

    @Nested
    class Writes {

        @Test
        void thousandsPartedByAThinSpaceThatNoLanguageTakesForADecimalMark() {
            assertThat(EN.show(1234567.891, 2)).isEqualTo("1\u202f234\u202f567.89");
            assertThat(DE.show(1234.5, 1)).isEqualTo("1\u202f234,5");
            assertThat(EN.show(999.0, 0)).isEqualTo("999");
            assertThat(EN.show(-1234.0, 0)).isEqualTo("\u22121\u202f234");
        }

        @Test
        void noMoreDecimalsThanThereAre() {
            assertThat(EN.show(12.5)).isEqualTo("12.5");
            assertThat(EN.show(2.0)).isEqualTo("2");
            assertThat(EN.show(0.14310084)).isEqualTo("0.143");
            assertThat(EN.show(1e9)).isEqualTo("1\u202f000\u202f000\u202f000");
        }

        @Test
        void moneyWithItsCurrencyBehindIt() {
            assertThat(DE.show(Money.of("1234.50", "EUR"))).isEqualTo("1\u202f234,50\u00a0EUR");
            assertThat(EN.show(Money.of("120000", "JPY"))).isEqualTo("120\u202f000\u00a0JPY");
        }

        @Test
        void whatIsNotANumberAsADash() {
            assertThat(EN.show(Double.NaN, 2)).isEqualTo("–");
        }

        @ParameterizedTest(name = "written and typed numbers read back the same, seed {0}")
        @ValueSource(longs = {20260101, 7, 42})
        void readBackAsTheSameValue(long seed) {
            Random random = new Random(seed);
            for (int i = 0; i < 5000; i++) {
                BigDecimal value =
                        BigDecimal.valueOf(
                                random.nextLong(-999_999_999_999L, 999_999_999_999L),
                                random.nextInt(7));
                for (Numbers language : new Numbers[] {EN, DE}) {
                    assertThat(language.number(language.typed(value)).value())
                            .as(language.typed(value))
                            .isEqualByComparingTo(value);
                    assertThat(language.number(language.show(value, 6)).value())
                            .as(language.show(value, 6))
                            .isEqualByComparingTo(value);
                }
            }
        }
    }
}
