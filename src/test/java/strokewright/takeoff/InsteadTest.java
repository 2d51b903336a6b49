package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.estimate.Operation.CurveEdge;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.Operation.Standard;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Part;
import strokewright.estimate.Variant;
import strokewright.quantity.InvalidInput;
import strokewright.web.Numbers;

class InsteadTest {

    private static final ShopBook BOOK = Guard.BOOK;
    private static final Numbers EN = Numbers.of(Locale.ENGLISH);
    private static final Numbers DE = Numbers.of(Locale.GERMAN);

    private static TakeOff takeOff(String grade) {
        CurveEdge ring =
                new CurveEdge(Sense.SHRINK, 1885.0, 300.0, null, 40.0, 1, null, null, null);
        return item(
                part("Rim", grade, new Blank(1945.0, 120.0), List.of(ring)),
                part("Lid", grade, new Blank(700.0, 700.0), List.of(new Standard("Fold", 1.0))));
    }

    private static TakeOff item(Part... parts) {
        return new TakeOff(
                "Item", null, null, null, null, List.of(parts), null, null, null, null, null, null);
    }

    private static Part part(
            String name, String grade, Blank blank, List<strokewright.estimate.Operation> work) {
        return new Part(
                name, null, grade, 2.0, null, blank, null, null, null, null, null, null, work, null,
                null, null, null, null);
    }

    private static Variant read(String said) {
        return new Instead(takeOff("AL99.5-O"), BOOK, EN).read(said);
    }

    @ParameterizedTest
    @CsvSource({
        "steel, DC04",
        "Steel instead, DC04",
        "mild steel, DC04",
        "dc04, DC04",
        "DC 04, DC04",
        "stainless, X5CRNI18-10",
        "stainless steel, X5CRNI18-10",
        "304, X5CRNI18-10",
        "1.4301, X5CRNI18-10",
        "galvanized, DX51D+Z",
        "galv, DX51D+Z",
        "brass, CUZN30",
        "70/30, CUZN30",
        "copper, CU-DHP-R220",
        "5754, ALMG3-O",
        "alu half-hard, AL99.5-H14",
        "aluminum, AL99.5-H14",
        "zinc, ZN-CU-TI",
        "titanium, TI2"
    })
    void aGradeIsSaidByCodeNumberMetalOrFamily(String said, String code) {
        assertThat(read(said)).isEqualTo(Variant.ofGrade(code));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "3 mm|3",
                "3|3",
                "1.5|1.5",
                "t 3|3",
                "3 mm thick|3",
                "1/8 in|3.175",
                "0.063\"|1.6002",
                "16 ga|1.29032",
                "16 gauge steel|1.51892"
            })
    void aThicknessIsTypedAsElsewhereOnThePage(String said, double mm) {
        assertThat(read(said).thicknessMm()).isCloseTo(mm, within(1e-9));
        assertThat(read(said).diameterMm()).isNull();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "Ø 800|800",
                "Ø800 mm|800",
                "dia 800|800",
                "800 dia|800",
                "d=800|800",
                "⌀ 80 cm|800",
                "R 400|800",
                "radius 400 mm|800",
                "800|800",
                "800 mm|800",
                "32 in|812.8",
                "Ø 31 1/2 in|800.1"
            })
    void aDiameterIsSaidInAnyOfItsManners(String said, double mm) {
        assertThat(read(said).diameterMm()).isEqualTo(mm);
        assertThat(read(said).thicknessMm()).isNull();
    }

    @ParameterizedTest
    @ValueSource(strings = {"1200 long", "length 1200", "L 1.2 m", "1200"})
    void aLengthWhereNothingIsRound(String said) {
        TakeOff flat =
                item(
                        part(
                                "Strip",
                                "DC04",
                                new Blank(900.0, 100.0),
                                List.of(new Standard("Fold", 1.0))));
        assertThat(new Instead(flat, BOOK, EN).read(said)).isEqualTo(Variant.ofLength(1200));
    }

    @Test
    void severalAtOnceForOnePartToo() {
        assertThat(read("steel 3 mm")).isEqualTo(Variant.ofGrade("DC04").withThickness(3));
        assertThat(read("Ø 800, stainless and 1.5 mm"))
                .isEqualTo(Variant.ofDiameter(800).withGrade("X5CRNI18-10").withThickness(1.5));
        assertThat(read("lid: 3 mm")).isEqualTo(Variant.ofThickness(3).ofPart(1));
        assertThat(read("Lid brass 1/16 in"))
                .isEqualTo(Variant.ofGrade("CUZN30").withThickness(1.5875).ofPart(1));
        assertThat(read("16 ga stainless"))
                .isEqualTo(Variant.ofGrade("X5CRNI18-10").withThickness(1.5875));
        assertThat(read("stainless 16 ga"))
                .isEqualTo(Variant.ofGrade("X5CRNI18-10").withThickness(1.5875));
        assertThat(read("sketch").information()).isEqualTo(TakeOff.Information.SKETCH);
        assertThat(read("visible").surface()).isEqualTo(TakeOff.Surface.VISIBLE);
        assertThat(read("Shrink, soft-faced").tool()).isNotNull();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "in steel|DC04||",
                "made of copper|CU-DHP-R220||",
                "what if stainless?|X5CRNI18-10||",
                "use steel sheet|DC04||",
                "al 99.5|AL99.5-H14||",
                "copper rather than steel|CU-DHP-R220||",
                "3 mm instead of 2 mm||3|",
                "3 millimetres.||3|",
                "sheet 3 mm||3|",
                "gauge 16||1.29032|",
                "#16||1.29032|",
                "ga 16 steel|DC04|1.51892|",
                "o 800|||800",
                "diameter: 800|||800",
                "400 radius|||800",
                "2 feet dia|||609.6",
                "4'|||1219.2",
                "220|||220",
                "steel 3mm Ø 800|DC04|3|800",
                "3 mm dia 800||3|800",
                "800 dia 3 mm||3|800",
                "6 mm r 400||6|800",
                "3 mm t 800 dia||3|800",
                "Ø 800 in steel|DC04||800",
                "r 400 in copper|CU-DHP-R220||800",
                "3 in steel|DC04|3|",
                "1/8 in steel|DC04|3.175|",
                "0.063 in steel|DC04|1.6002|",
                "12 in dia|||304.8"
            })
    void isReadAsItIsSaidAtTheBench(String said, String grade, Double mm, Double diameter) {
        Variant read = read(said);
        assertThat(read.grade()).isEqualTo(grade);
        assertThat(read.diameterMm()).isEqualTo(diameter);
        if (mm == null) {
            assertThat(read.thicknessMm()).isNull();
        } else {
            assertThat(read.thicknessMm()).isCloseTo(mm, within(1e-9));
        }
    }

    /** Else the one said last would silently win. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "3 mm 4 mm|two thicknesses",
                "steel copper|two metals",
                "Ø 700 Ø 800|two sizes",
                "900 long 1200 long|two lengths",
                "Ø 32 in steel|could be inches or a metal",
                "0.4 in steel|could be inches or a metal",
                "32 in steel|could be inches or a metal",
                "1/8|is a fraction of what?",
                "instead of steel|say what instead",
                "!?|say what instead",
                "in|say what instead"
            })
    void whatCouldMeanTwoThingsIsAsked(String said, String because) {
        refused(said, because);
    }

    @Test
    void theOtherGradeOfAMetalIsMeantWhereItIsThatMetalAlready() {
        assertThat(new Instead(takeOff("DC04"), BOOK, EN).read("steel"))
                .isEqualTo(Variant.ofGrade("DX51D+Z"));
        assertThat(new Instead(takeOff("CUZN30"), BOOK, EN).read("brass"))
                .isEqualTo(Variant.ofGrade("CUZN30"));
    }

    @Test
    void decimalsAreReadInTheUsersLocale() {
        assertThat(new Instead(takeOff("DC04"), BOOK, DE).read("1,5 mm"))
                .isEqualTo(Variant.ofThickness(1.5));
        assertThat(new Instead(takeOff("DC04"), BOOK, DE).read("Ø 812,5"))
                .isEqualTo(Variant.ofDiameter(812.5));
        refused("1,234", "could be two numbers");
        refused("Ø 1,234", "could be two numbers");
    }

    @Test
    void whatIsNotUnderstoodSaysWhatWouldBeRight() {
        refused("", "steel, 3 mm");
        refused("unobtainium", "“unobtainium” is not understood");
        refused("30", "t 30, Ø 30 or 30 long");
        refused("10 off", "quantities stand in the item’s own field");
        refused("99 ga", "type the thickness in mm or inch");
        refused("x".repeat(201), "too long");
    }

    /** Steel may be coated or not. */
    @Test
    void aBareGaugeIsOneOfTheGradeAndAsksWhereItHasNone() {
        assertThat(new Instead(takeOff("DC04"), BOOK, EN).read("16 ga").thicknessMm())
                .isCloseTo(1.51892, within(1e-9));
        assertThat(new Instead(takeOff("DX51D+Z"), BOOK, EN).read("16 ga").thicknessMm())
                .isCloseTo(1.6129, within(1e-9));
        assertThatThrownBy(() -> new Instead(takeOff("ZN-CU-TI"), BOOK, EN).read("16 ga"))
                .isInstanceOf(InvalidInput.class)
                .hasMessageContaining("of which metal?");
    }

    private static void refused(String said, String because) {
        assertThatThrownBy(() -> read(said))
                .isInstanceOf(InvalidInput.class)
                .hasMessageContaining(because);
    }
}
