package strokewright.office;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.sun.net.httpserver.HttpServer;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.OpenedPdf;
import strokewright.office.Paper.Sender;
import strokewright.office.Paper.Size;

/** Papers laid out from {@code papers/trial.xhtml} of the test sources. */
class PdfTest {

    /**
     * What the trial paper shows.
     *
     * @param rows of a table with a head
     * @param markup put into the page as it is
     */
    record Trial(String text, List<String> rows, String markup) {}

    private static final Trial PLAIN = new Trial("Text", List.of(), "");

    @Test
    void saysTitleAuthorSubjectAndLanguageAndIsTagged() {
        try (OpenedPdf opened = opened(paper(Size.A4, null), PLAIN)) {
            assertThat(opened.title()).isEqualTo("Letter L-1: Steel & <brass> “lids”");
            assertThat(opened.author()).isEqualTo("Quillmoor Sheet & Form");
            assertThat(opened.subject()).isEqualTo("Steel & <brass> “lids”");
            assertThat(opened.language()).isEqualTo("en");
            assertThat(opened.showsItsTitle()).isTrue();
            assertThat(opened.isTagged()).isTrue();
            assertThat(opened.hasActions()).isFalse();
        }
    }

    @ParameterizedTest
    @CsvSource({"A4, 210 x 297", "LETTER, 216 x 279"})
    void hasTheSizeOfThePaper(Size size, String millimetres) {
        try (OpenedPdf opened = opened(paper(size, null), PLAIN)) {
            assertThat(opened.sizes()).containsExactly(millimetres);
        }
    }

    @Test
    void everyFontIsInTheFileAndOnlyTheGlyphsThatAreUsed() {
        String drawing =
                "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 100 40\" width=\"100\""
                        + " height=\"40\"><path class=\"ink\" d=\"M5 5L95 35\"/><text class=\"t\""
                        + " x=\"10\" y=\"30\">Rim 1885 mm</text></svg>";
        try (OpenedPdf opened = opened(paper(Size.A4, "DRAFT"), trial("A page", 120, drawing))) {
            assertThat(opened.pages()).isGreaterThan(2);
            assertThat(opened.fonts())
                    .extracting(OpenedPdf.Font::name)
                    .contains("SourceSans3-Regular", "SourceSans3-SemiBold");
            assertThat(opened.fonts())
                    .allMatch(OpenedPdf.Font::embedded)
                    .allMatch(OpenedPdf.Font::subset);
        }
    }

    @Test
    void lettersOfManyLanguagesCanBeReadBack() {
        String text =
                "Łódź İstanbul Þórður Žďár Ølst groß Ελληνικά Москва Київ"
                        + " 12 345,60 € m² × ≤ ½ „quoted“ – −5 µm";
        try (OpenedPdf opened = opened(paper(Size.A4, null), new Trial(text, List.of(), ""))) {
            assertThat(opened.text().replaceAll("\\s+", " "))
                    .contains(text.replaceAll("\\s+", " "));
        }
    }

    @Test
    void whatTheFontLacksIsAnEmptyBoxAndNotAnotherLetter() {
        try (OpenedPdf opened =
                opened(
                        paper(Size.A4, null),
                        new Trial("name 板金 \ud83d\udd28 end", List.of(), ""))) {
            assertThat(opened.text()).containsPattern("name □+ □+ end");
        }
    }

    @Test
    void controlCharactersAndMarkupInATextDoNoHarm() {
        String text = "a\u0000b\u0007c <script>x</script> &amp; ]]> <!-- \uffff d";
        try (OpenedPdf opened = opened(paper(Size.A4, null), new Trial(text, List.of(), ""))) {
            assertThat(opened.text()).contains("abc <script>x</script> &amp; ]]> <!-- d");
        }
    }

    @Test
    void numbersItsPagesRepeatsTheHeadOfATableAndStampsEveryPage() {
        try (OpenedPdf opened = opened(paper(Size.A4, "DRAFT"), trial("Start", 150, ""))) {
            int pages = opened.pages();
            assertThat(pages).isGreaterThan(3);
            for (int page = 1; page <= pages; page++) {
                assertThat(opened.text(page))
                        .as("page " + page)
                        .contains("Page " + page + " of " + pages)
                        .contains("DRAFT")
                        .contains("Head of rows");
            }
        }
    }

    @Test
    void noRowIsCutByTheEndOfAPage() {
        String two = "first half of it".repeat(7) + " last half";
        List<String> rows =
                IntStream.range(0, 90).mapToObj(i -> "begin" + i + " " + two + i + "end").toList();
        try (OpenedPdf opened = opened(paper(Size.LETTER, null), new Trial("Start", rows, ""))) {
            for (int i = 0; i < rows.size(); i++) {
                String begin = "begin" + i + " ";
                String end = "half" + i + "end";
                assertThat(
                                IntStream.rangeClosed(1, opened.pages())
                                        .mapToObj(opened::text)
                                        .filter(t -> t.contains(begin) || t.contains(end)))
                        .as("row " + i)
                        .hasSize(1);
            }
        }
    }

    @Test
    void aPictureThatIsInTheTextIsShown() {
        String logo = "data:image/png;base64," + Base64.getEncoder().encodeToString(png());
        try (OpenedPdf opened =
                opened(
                        paper(Size.A4, null),
                        new Trial("x", List.of(), "<img src=\"" + logo + "\" alt=\"A mark\"/>"))) {
            assertThat(opened.pictures()).isEqualTo(1);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "<img src='%s' alt='x'/>",
                "<div style=\"background-image: url('%s')\">x</div>",
                "<link rel='stylesheet' href='%s'/>",
                "<style>@import url('%s');</style>",
                "<style>@font-face { font-family: f; src: url('%s') }</style><p style='font-family: f'>x</p>",
                "<object data='%s' type='application/pdf'>x</object>",
                "<embed src='%s'/>",
                "<iframe src='%s'></iframe>",
                "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink'"
                        + " width='40' height='40'><image xlink:href='%s' width='9' height='9'/></svg>",
                "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink'"
                        + " width='40' height='40'><use xlink:href='%s#a'/></svg>",
                "<a download='x' data-content-type='text/plain' href='%s'>x</a>"
            })
    void nothingIsFetchedFromTheNetOrFromAFile(String markup, @TempDir Path folder)
            throws IOException {
        AtomicInteger asked = new AtomicInteger();
        HttpServer server =
                HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        server.createContext(
                "/",
                exchange -> {
                    asked.incrementAndGet();
                    exchange.sendResponseHeaders(404, -1);
                    exchange.close();
                });
        server.start();
        Path file = Files.write(folder.resolve("secret.png"), png());
        try {
            String all =
                    Stream.of(
                                    "http://127.0.0.1:" + server.getAddress().getPort() + "/a.png",
                                    file.toUri().toString(),
                                    file.toString())
                            .map(markup::formatted)
                            .collect(Collectors.joining());
            try (OpenedPdf opened =
                    opened(paper(Size.A4, null), new Trial("before", List.of("after"), all))) {
                assertThat(opened.text()).contains("before", "after");
                assertThat(opened.pictures()).isZero();
                assertThat(opened.hasActions()).isFalse();
            }
            assertThat(asked).hasValue(0);
        } finally {
            server.stop(0);
        }
    }

    @Test
    void anOutsideEntityIsNoPaper() {
        Trial trial =
                new Trial(
                        "x", List.of(), "<!DOCTYPE x [<!ENTITY e SYSTEM 'file:/etc/passwd'>]>&e;");

        assertThatThrownBy(() -> Pdf.of("trial", paper(Size.A4, null), trial))
                .isInstanceOf(IllegalStateException.class)
                .hasMessageContaining("no well-formed paper");
    }

    private static Trial trial(String text, int rows, String markup) {
        return new Trial(text, IntStream.range(0, rows).mapToObj(i -> "Row " + i).toList(), markup);
    }

    private static OpenedPdf opened(Paper paper, Trial trial) {
        return new OpenedPdf(Pdf.of("trial", paper, trial));
    }

    private static Paper paper(Size size, String stamp) {
        return new Paper(
                size,
                "Letter",
                "L-1",
                "1",
                "2 Mar 2026",
                "Steel & <brass> “lids”",
                "Evie Stimator",
                "",
                new Sender(
                        "Quillmoor Sheet & Form",
                        List.of("Mill Lane 2"),
                        List.of(),
                        List.of(),
                        null),
                IntStream.range(1, 5).mapToObj(i -> "Line " + i).collect(Collectors.toList()),
                List.of(),
                stamp);
    }

    private static byte[] png() {
        try (ByteArrayOutputStream out = new ByteArrayOutputStream()) {
            ImageIO.write(new BufferedImage(8, 8, BufferedImage.TYPE_INT_RGB), "png", out);
            return out.toByteArray();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
