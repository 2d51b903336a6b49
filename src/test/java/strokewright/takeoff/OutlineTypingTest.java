package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static strokewright.takeoff.SmallShop.BOOK;
import static strokewright.takeoff.SmallShop.EN;

import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import strokewright.estimate.Estimate;
import strokewright.quantity.Fault;

/** An outline typed into the take-off page. */
class OutlineTypingTest {

    private static final String LINE = "/parts/p1/operations/o1";

    // quarter of 200 to one side, 120 straight, quarter of 150 to the other, a square corner
    private static final String BOW =
            "M0 0A200 200 0 0 1 200 200V320A150 150 0 0 0 350 470H430V500";

    private static TypedTakeOff typed(String... pathsAndTexts) {
        TypedTakeOff typed =
                SmallShop.typed(
                        "/parts/p1/name",
                        "Bow",
                        "/parts/p1/grade",
                        BOOK.grades().get(0).code(),
                        "/parts/p1/thicknessMm",
                        "2",
                        "/parts/p1/blank/lengthMm",
                        "900",
                        "/parts/p1/blank/widthMm",
                        "50",
                        LINE + "/type",
                        "follow-outline",
                        LINE + "/heightMm",
                        "30",
                        LINE + "/flange",
                        "inside");
        for (int i = 0; i < pathsAndTexts.length; i += 2) {
            typed = typed.with(LINE + pathsAndTexts[i], pathsAndTexts[i + 1]);
        }
        return typed;
    }

    private static Reckoned reckoned(String... pathsAndTexts) {
        return Reckoned.of(typed(pathsAndTexts), BOOK, EN);
    }

    @Test
    void pathDataElementAndFileGiveTheSameLine() {
        Reckoned plain = reckoned("/path", BOW);
        assertThat(plain.faults()).isEmpty();
        Estimate.Outlined outline = plain.lines().get(LINE).outline();
        assertThat(outline.lengthMm())
                .isCloseTo(Math.PI * 100 + 120 + Math.PI * 75 + 80 + 30, within(1e-3));
        assertThat(outline.stretches()).hasSize(2);
        assertThat(outline.corners()).hasSize(1);
        for (String text :
                new String[] {
                    "<path d='" + BOW + "'/>",
                    "<svg width='50cm' viewBox='0 0 500 500'>\n<path d='" + BOW + "'/></svg>"
                }) {
            assertThat(reckoned("/path", text).lines().get(LINE).strokes())
                    .isEqualTo(plain.lines().get(LINE).strokes());
        }
    }

    @Test
    void longOutlinesAreKeptWhole() {
        String longest = "M0 0" + "h1 ".repeat(15_000);
        assertThat(typed("/path", longest).at(LINE + "/path")).isEqualTo(longest);
    }

    @Test
    void segmentsAreReadWithTheSignOfTheirRadius() {
        Estimate.Outlined outline =
                reckoned(
                                "/segments/s1/lengthMm", "1 in",
                                "/segments/s2/lengthMm", "300",
                                "/segments/s2/radiusMm", "+200",
                                "/segments/s3/lengthMm", "300",
                                "/segments/s3/radiusMm", "\u2212150",
                                "/segments/s4/lengthMm", "")
                        .lines()
                        .get(LINE)
                        .outline();
        assertThat(outline.lengthMm()).isCloseTo(625.4, within(1e-9));
        assertThat(outline.stretches())
                .extracting(s -> s.sense() + " " + Math.round(s.tightestRadiusMm()))
                .containsExactly("SHRINK 200", "STRETCH 150");
    }

    @Test
    void aSegmentThatIsHalfTypedLeavesOutTheWholeOutline() {
        Reckoned half =
                reckoned(
                        "/segments/s1/lengthMm", "300",
                        "/segments/s3/radiusMm", "200",
                        "/segments/s4/lengthMm", "three");
        assertThat(half.faults())
                .extracting(Fault::pointer)
                .containsExactly(LINE + "/segments/s4/lengthMm", LINE + "/segments/s3/lengthMm");
        assertThat(half.leftOut()).containsExactly(LINE);
        assertThat(new TakeOffViews(half, BOOK, EN).result(null).faults())
                .extracting(TakeOffView.FaultView::where)
                .containsExactly(
                        "Bow, line 1, segment 3, length", "Bow, line 1, segment 2, length");
    }

    @Test
    void whatIsWrongStandsAtTheOutline() {
        assertThat(reckoned("/path", "round").faults())
                .containsExactly(new Fault(LINE + "/path", "is not SVG path data"));
        assertThat(reckoned("/path", "<svg></svg>").faults())
                .extracting(Fault::message)
                .allMatch(m -> m.startsWith("draws no outline"));
        assertThat(reckoned("/path", BOW, "/segments/s1/lengthMm", "9").faults())
                .extracting(Fault::pointer)
                .containsExactly(LINE + "/path");
        assertThat(reckoned().faults())
                .containsExactly(
                        new Fault(LINE + "/path", "is missing: give path data, or segments"));
        assertThat(reckoned("/flange", "outside", "/segments/s1/lengthMm", "9").faults())
                .extracting(Fault::pointer)
                .containsExactly(LINE + "/flange");
    }

    @Test
    void aFreshLineSaysNothing() {
        Reckoned fresh =
                Reckoned.of(
                        SmallShop.roundFrame()
                                .with("/parts/p1/operations/o9/type", "follow-outline")
                                .with("/parts/p1/operations/o9/flange", "inside"),
                        BOOK,
                        EN);
        assertThat(fresh.complete()).isTrue();
    }

    // Told ------------------------------------------------------------------------------------

    @Test
    void thePictureTellsShrinkAndStretchApartAndNumbersBothAndTheCorners() {
        String picture = picture("/path", BOW);
        Estimate.Outlined outline = reckoned("/path", BOW).lines().get(LINE).outline();
        assertThat(picture)
                .contains("outline-shrink strong-", "outline-stretch strong-", "outline-straight")
                .contains(">1</text>", ">2</text>", ">C1</text>", ">shrinks to</text>")
                .contains(">200 mm</text>") // of the scale bar
                .contains("1: shrinks over 314 mm, tightest R 200, strain 16.3 %")
                .contains("2: stretches over 236 mm, tightest R 150, strain 18.2 %")
                .contains("Corner, to fold or to join: C1 turns 90°")
                .contains(outline.stretches().get(0).passes().get(0) + " passes; 2: stretches");
    }

    @Test
    void thePictureIsToScale() {
        // 300 wide: the line from (0,0) to (300,0) and the scale bar have one measure
        String picture = picture("/path", "M0 0H300A150 150 0 0 1 300 300");
        double perMm = 260 / 450.0;
        assertThat(points(picture, "outline-straight")[2] - points(picture, "outline-straight")[0])
                .isCloseTo(300 * perMm, within(0.02));
        double[] bar = points(picture.substring(picture.indexOf("class=\"ink\"")), "ink");
        assertThat(bar[2] - bar[0]).isCloseTo(100 * perMm, within(0.02));
    }

    private static double[] points(String picture, String look) {
        var found =
                Pattern.compile(
                                "class=\""
                                        + look
                                        + "\" d=\"M([-.\\d]+) ([-.\\d]+)L([-.\\d]+) ([-.\\d]+)")
                        .matcher(picture);
        assertThat(found.find()).isTrue();
        double[] points = new double[4];
        for (int i = 0; i < 4; i++) {
            points[i] = Double.parseDouble(found.group(i + 1));
        }
        return points;
    }

    @Test
    void aBendThatTheFlangeDoesNotFitIntoIsMarked() {
        String picture = picture("/path", "M0 0H100A25 25 0 0 1 125 25V200", "/flange", "inside");
        assertThat(picture).contains("outline-tight", "too tight for this flange");
    }

    @Test
    void aLineThatOnlyRunsStraightIsDrawn() {
        assertThat(picture("/path", "M0 0H100")).contains("outline-straight", "Outline 100 mm");
    }

    @Test
    void markupInTheWordsIsNoMarkup() {
        String picture = picture("/path", BOW);
        assertThat(
                        picture.replaceAll(
                                "</?(svg|title|desc|path|rect|text|figure|figcaption)\\b[^<>]*>",
                                ""))
                .doesNotContain("<", ">");
    }

    private static String picture(String... pathsAndTexts) {
        Reckoned reckoned = reckoned(pathsAndTexts);
        return new TakeOffViews(reckoned, BOOK, EN)
                .told().slots().stream()
                        .flatMap(s -> s.pictures().stream())
                        .filter(p -> p.contains("figcaption"))
                        .findFirst()
                        .orElseThrow();
    }

    @Test
    void theLineIsCalledByWhatItFollows() {
        Estimate.Line line = reckoned("/path", BOW).lines().get(LINE);
        assertThat(Words.operation(line))
                .isEqualTo("Bow 1: Follow an outline, 780\u00a0mm, 2 stretches, 1 corner");
        assertThat(Words.operation(reckoned("/path", "M0 0h1234.6").lines().get(LINE)))
                .isEqualTo("Bow 1: Follow an outline, 1\u00a0235\u00a0mm, 0 stretches");
        assertThat(Words.tools(line).split(", "))
                .hasSize(
                        1
                                + (int)
                                        line.outline().stretches().stream()
                                                .map(s -> s.tool())
                                                .distinct()
                                                .count());
    }

    @Test
    void theReaderOfFilesSaysWhatItDid() {
        OutlineReading file =
                OutlineReading.of(
                        "<svg width='96' viewBox='0 0 96 9'><path d='M0 0h9'/><rect width='9'"
                                + " height='9'/><text/><image/></svg>",
                        EN);
        assertThat(file.told())
                .isEqualTo(
                        "Read 2 shapes. By its size one unit is 0.2646 mm. Left out: image, text.");
        assertThat(OutlineReading.of("<path d='M0 0h9'/>", EN).told())
                .isEqualTo("Read one shape. It states no size: one unit is taken as 1 mm.");
        OutlineReading none = OutlineReading.of("<svg/>", EN);
        assertThat(none.path()).isNull();
        assertThat(none.fault()).startsWith("draws no outline");
    }
}
