package strokewright.forming;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.Random;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** An outline as somebody hands it over. */
class SvgTextTest {

    private static final double ONE_IN_A_MILLION = 1e-6;

    private static double length(String text) {
        return outline(text).lengthMm();
    }

    private static Outline outline(String text) {
        return Outline.ofPath(SvgText.read(text).path(), 5);
    }

    private static String file(String attributes, String inside) {
        return "<svg xmlns=\"http://www.w3.org/2000/svg\" " + attributes + ">" + inside + "</svg>";
    }

    private static void refused(String text, String why) {
        assertThatThrownBy(() -> SvgText.read(text))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining(why);
    }

    /** Ramanujan's second formula is right to 1e-8 for such an ellipse. */
    private static double ellipse(double a, double b) {
        double h = Math.pow((a - b) / (a + b), 2);
        return Math.PI * (a + b) * (1 + 3 * h / (10 + Math.sqrt(4 - 3 * h)));
    }

    // Elements --------------------------------------------------------------------------------

    @Test
    void takesPathDataAsTheyAre() {
        SvgText.Read read = SvgText.read(" M0 0h100\n v50 ");
        assertThat(read.path()).isEqualTo("M0 0h100\n v50");
        assertThat(read.mmPerUnit()).isEqualTo(1);
    }

    @Test
    void takesThePathOutOfAnElement() {
        assertThat(SvgText.read("<path d='m 10,10 30,0 0,40'/>").path())
                .isEqualTo("M10 10L40 10L40 50");
    }

    @Test
    void readsEveryElementThatDrawsAtItsLength() {
        double tau = 2 * Math.PI;
        close(length("<circle cx='3' cy='-7' r='300'/>"), 300 * tau);
        close(length("<ellipse cx='9' cy='9' rx='200' ry='120'/>"), ellipse(200, 120));
        close(length("<rect x='5' y='5' width='400' height='250'/>"), 1300);
        close(length("<rect width='400' height='250' rx='40'/>"), 1300 - 320 + 40 * tau);
        close(
                length("<rect width='400' height='250' rx='60' ry='30'/>"),
                2 * (400 - 120) + 2 * (250 - 60) + ellipse(60, 30));
        close(length("<line x1='1' y1='2' x2='31' y2='42'/>"), 50);
        close(length("<polyline points='0,0 30,40 30,140'/>"), 150);
        close(length("<polygon points='0 0, 30 0, 30 40'/>"), 120);
    }

    private static void close(double found, double expected) {
        assertThat(found).isCloseTo(expected, within(ONE_IN_A_MILLION * expected));
    }

    @Test
    void roundsTheCornersOfASlotOnlyAsFarAsItIsWide() {
        Outline slot = outline("<rect x='1000.1' y='0.3' width='333.3' height='40.7' ry='999'/>");
        assertThat(slot.corners()).hasSize(2); // as tight as 2.5 mm
        assertThat(slot.lengthMm()).isCloseTo(ellipse(333.3 / 2, 40.7 / 2), within(0.01));
        Outline pill = outline("<rect x='1000.1' y='.3' width='333.3' height='40' rx='20'/>");
        assertThat(pill.corners()).isEmpty();
        close(pill.lengthMm(), 2 * 293.3 + 40 * Math.PI);
    }

    @Test
    void makesOnePathOfSeveralShapesInTheirOrder() {
        SvgText.Read read =
                SvgText.read(
                        file("", "<line x2='10'/><g><path d='m5 5h20'/></g><path d='m0 9v1'/>"));
        assertThat(read.shapes()).isEqualTo(3);
        assertThat(read.path()).isEqualTo("M0 0L10 0M5 5L25 5M0 9L0 10");
        assertThat(Outline.ofPath(read.path(), 5).runs()).hasSize(3);
    }

    @Test
    void leavesOutWhatIsNotDrawnByItself() {
        String hidden =
                "<defs><path d='M0 0h1'/></defs><clipPath><rect width='1' height='1'/></clipPath>"
                        + "<symbol><circle r='9'/></symbol><mask><circle r='9'/></mask>"
                        + "<g display='none'><circle r='9'/></g><path style='fill:red;display: none'"
                        + " d='M0 0h1'/><g visibility='hidden'><line x2='5'/><line visibility='visible'"
                        + " x2='7'/></g><circle r='0'/><path d=''/>";
        assertThat(SvgText.read(file("", hidden)).path()).isEqualTo("M0 0L7 0");
    }

    @Test
    void tellsWhatDrawsButGivesNoOutline() {
        SvgText.Read read =
                SvgText.read(file("", "<text>R 300</text><use href='#a'/><line x2='5'/><image/>"));
        assertThat(read.leftOut()).containsExactlyInAnyOrder("text", "use", "image");
        refused(file("", "<text>R 300</text><defs><line x2='5'/></defs>"), "only text");
    }

    @Test
    void readsElementsOfAnyNamePrefixAndAttributesThatNobodyDeclared() {
        assertThat(SvgText.read("<s:svg><s:path x:y='1' d='M0 0h5'/></s:svg>").path())
                .isEqualTo("M0 0L5 0");
    }

    // Transforms ------------------------------------------------------------------------------

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "translate(100 -30)                | 1",
                "rotate(33)                        | 1",
                "rotate(33 12 9)                   | 1",
                "scale(2.5)                        | 2.5",
                "scale(-1 1)                       | 1",
                "matrix(0 2 -2 0 5 5)              | 2",
                "translate(3,4) scale(.5)rotate(8) | 0.5",
            })
    void movesTurnsAndScales(String transform, double factor) {
        String shape =
                "<path transform='%s' d='M0 0h100a50 30 20 0 1 40 60q20 40 60 0s9 9 30 0z'/>";
        double plain = length(shape.formatted("translate(0)"));
        close(length(shape.formatted(transform)), factor * plain);
    }

    @Test
    void appliesTheTransformsOfGroupsFromTheInsideOut() {
        assertThat(
                        SvgText.read(
                                        "<g transform='translate(10 0)'><g transform='scale(2)'>"
                                                + "<path transform='rotate(90)' d='M1 0L5 0'/></g></g>")
                                .path())
                .isEqualTo("M10 2L10 10");
    }

    @Test
    void makesAnEllipseOfASquashedCircleAndTurnsItsSenseInAMirror() {
        close(
                length("<circle r='100' transform='rotate(30) scale(2 .7) rotate(-50)'/>"),
                ellipse(200, 70));
        Outline.Run mirrored =
                outline("<path transform='scale(1 -1)' d='M0 0A90 90 0 0 1 90 90'/>").runs().get(0);
        assertThat(mirrored.turning()).isCloseTo(-Math.PI / 2, within(1e-6));
        close(length("<path transform='skewX(40)' d='M0 0A50 50 0 0 1 100 0'/>"), skewedHalf());
    }

    /** The half circle under x + y·tan 40°, its length by many short chords. */
    private static double skewedHalf() {
        double length = 0;
        int steps = 400_000;
        double skew = Math.tan(Math.toRadians(40));
        double x0 = 0;
        double y0 = 0;
        for (int i = 1; i <= steps; i++) {
            double a = Math.PI * i / steps;
            double y = -50 * Math.sin(a);
            double x = 50 - 50 * Math.cos(a) + skew * y;
            length += Math.hypot(x - x0, y - y0);
            x0 = x;
            y0 = y;
        }
        return length;
    }

    @ParameterizedTest
    @ValueSource(strings = {"scale(0)", "matrix(1 2 2 4 0 0)", "turn(4)", "rotate("})
    void refusesATransformThatMeansNothing(String transform) {
        refused("<line x2='5' transform='" + transform + "'/>", "has a transform that");
    }

    @Test
    void refusesAStyleThatMovesAShapeInsteadOfReadingItWrong() {
        refused("<line x2='5' style='stroke:red; transform: scale(2)'/>", "by its style");
    }

    // Sizes -----------------------------------------------------------------------------------

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "width='200mm' height='100mm' viewBox='0 0 200 100'       | 100",
                "width='20cm' height='10cm' viewBox='0 0 200 100'         | 100",
                "width='2in' height='1in' viewBox='0 0 200 100'           | 25.4",
                "width='192' height='96' viewBox='0 0 200 100'            | 25.4",
                "width='192px' height='96px' viewBox='-5 -5 200 100'      | 25.4",
                "width='144pt' viewBox='0 0 200 100'                      | 25.4",
                "height='6pc' viewBox='0,0,200,100'                       | 25.4",
                "width='400mm' height='100mm' viewBox='0 0 200 100'       | 100",
                "width='400mm' height='100mm' viewBox='0 0 200 100' preserveAspectRatio='none'"
                        + "                                              | 200",
                "width='400mm' height='100mm' viewBox='0 0 200 100'"
                        + " preserveAspectRatio='xMidYMid slice'         | 200",
                "width='800' height='600'                                 | 26.458333",
                "viewBox='0 0 200 100'                                    | 100",
                "width='100%' height='100%' viewBox='0 0 200 100'         | 100",
                "x='0'                                                    | 100",
            })
    void takesTheSizeThatTheFileStatesElseMillimetres(String attributes, double mm) {
        assertThat(length(file(attributes, "<path d='M0 0H100'/>"))).isCloseTo(mm, within(1e-5));
    }

    @Test
    void saysWhatAUnitOfTheFileIsAndWhetherItStatedThat() {
        SvgText.Read stated =
                SvgText.read(file("width='1in' viewBox='0 0 96 96'", "<line x2='9'/>"));
        assertThat(stated.mmPerUnit()).isCloseTo(25.4 / 96, within(1e-12));
        assertThat(stated.sized()).isTrue();
        SvgText.Read unsaid = SvgText.read(file("viewBox='0 0 9 9'", "<line x2='9'/>"));
        assertThat(unsaid.mmPerUnit()).isEqualTo(1);
        assertThat(unsaid.sized()).isFalse();
    }

    @Test
    void readsLengthsOfShapesWithTheirUnits() {
        close(length(file("width='2in' viewBox='0 0 200 9'", "<line x2='50mm'/>")), 50);
        close(length(file("width='300' height='9'", "<line x2='50mm'/>")), 50);
        close(length("<line x2='2in'/>"), 50.8);
        refused("<line x2='50%'/>", "has a x2 that cannot be read: 50%");
    }

    @Test
    void readsAFileWithinTheFile() {
        close(
                length(
                        file(
                                "width='100mm' viewBox='0 0 100 100'",
                                "<svg x='5' width='20' height='20' viewBox='0 0 10 10'>"
                                        + "<line x2='7'/></svg>")),
                14);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "viewBox='0 0 0 5' width='5mm'",
                "viewBox='0 0 5' width='5mm'",
                "viewBox='0 0 -5 5' width='5mm'",
                "viewBox='0 0 5 5' width='-5mm'"
            })
    void refusesASizeOfNothing(String attributes) {
        refused(file(attributes, "<line x2='5'/>"), "has ");
    }

    // What is wrong with it -------------------------------------------------------------------

    @Test
    void tellsWhereAFileIsNoXmlAndWhichShapeIsNoPath() {
        refused("<svg>\n<path d='M0 0h5'>\n</svg>", "line 3");
        refused("<path d='M0 0h5'", "cannot be read");
        refused(
                file("", "<line x2='5'/><path d='M0 0 Q'/>"),
                "number 2, that is not SVG path data");
        refused(file("", "<path d='M0 0L1e30 0'/>"), "reaches further than 100 m");
        refused("<html><body><p>no</p></body></html>", "draws no outline");
        refused("<line x2='1e999'/>", "too large");
    }

    @Test
    void tellsThatADrawingHasTooManyPoints() {
        StringBuilder points = new StringBuilder();
        for (int i = 0; i < 9_000; i++) {
            points.append(i).append(".125,").append(i % 7).append(' ');
        }
        refused("<polyline points='" + points + "'/>", "more than 50,000 characters of path data");
        refused("<g>" + " ".repeat(1 << 20) + "</g>", "larger than 1 MiB");
    }

    // Hostile files ---------------------------------------------------------------------------

    @Test
    void readsNoEntityOfTheFile() {
        String laughs =
                "<!DOCTYPE svg [<!ENTITY a 'ha'>"
                        + "<!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;'>"
                        + "<!ENTITY c '&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;'>"
                        + "<!ENTITY d '&c;&c;&c;&c;&c;&c;&c;&c;&c;&c;'>]>"
                        + "<svg><text>&d;</text><path d='M0 0h5'/></svg>";
        refused(laughs, "declares entities of its own");
        refused(
                "<!DOCTYPE svg [<!ENTITY x SYSTEM 'file:///etc/hostname'>]>"
                        + "<svg><text>&x;</text><path d='M0 0h5'/></svg>",
                "declares entities of its own");
        refused(
                "<!DOCTYPE svg [<!ENTITY % x SYSTEM 'http://localhost:1/x.dtd'> %x;]>"
                        + "<svg><path d='M0 0h5'/></svg>",
                "declares entities of its own");
        refused("<svg><path d='M0 0h&five;'/></svg>", "cannot be read");
    }

    @Test
    void neverFetchesTheDocumentTypeThatOldFilesName() {
        Assertions.assertTimeoutPreemptively(
                Duration.ofSeconds(20),
                () ->
                        assertThat(
                                        SvgText.read(
                                                        "<?xml version='1.0' encoding='UTF-16'?>\n"
                                                                + "<!DOCTYPE svg PUBLIC '-//W3C//DTD SVG"
                                                                + " 1.1//EN' 'http://localhost:1/svg.dtd'>"
                                                                + "<svg><path d='M0 0h5'/></svg>")
                                                .path())
                                .isEqualTo("M0 0L5 0"));
    }

    @Test
    void boundsElementsWithinEachOtherAndTheirNumber() {
        refused("<g>".repeat(150_000), "within each other");
        refused("<g>".repeat(300) + "<line x2='1'/>" + "</g>".repeat(300), "within each other");
        refused("<g/>".repeat(200_000), "more than 50,000 elements");
        refused("<svg><defs>" + "<g>".repeat(150_000), "cannot be read");
    }

    @Test
    void readsLongAttributesInOneGo() {
        Assertions.assertTimeoutPreemptively(
                Duration.ofSeconds(20),
                () -> {
                    String digits = "9".repeat(900_000);
                    refused("<line x2='" + digits + "x'/>", "cannot be read");
                    refused("<line x2='9" + " ".repeat(900_000) + "x'/>", "cannot be read");
                    refused("<svg width='" + digits + "mm' viewBox='0 0 1 1'/>", "too large");
                    refused("<g style='" + "; ".repeat(400_000) + "'/>", "draws no outline");
                    refused("<path d='" + "z".repeat(900_000) + "'/>", "more than 50,000");
                    refused("<path d='M0 0" + "h1".repeat(400_000) + "'/>", "more than 50,000");
                });
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void refusesInWordsOrReadsWhateverAFileIsCorruptedTo(long seed) {
        String good =
                "<?xml version='1.0'?><svg width='20mm' viewBox='0 0 20 20'><g transform='rotate(5)"
                        + " scale(2)'><path d='M0 0h9a5 5 0 0 1 9 9c1 2 3 4 5 6z'/><rect x='1'"
                        + " width='9' height='8' rx='2'/><polygon points='1,2 3,4 5,6'/></g></svg>";
        Random random = new Random(seed);
        for (int i = 0; i < 500; i++) {
            StringBuilder text = new StringBuilder(good);
            for (int changes = 1 + random.nextInt(3); changes > 0; changes--) {
                int at = random.nextInt(text.length());
                switch (random.nextInt(3)) {
                    case 0 -> text.deleteCharAt(at);
                    case 1 ->
                            text.insert(
                                    at, "<>&'\"/=-.e9 \0\u00e9%[]!?".charAt(random.nextInt(19)));
                    default -> text.setCharAt(at, text.charAt(random.nextInt(text.length())));
                }
            }
            try {
                assertThat(SvgText.read(text.toString()).path()).isNotEmpty();
            } catch (IllegalArgumentException told) {
                assertThat(told.getMessage()).isNotBlank().doesNotContain("java", "null", "xml.");
            }
        }
    }
}
