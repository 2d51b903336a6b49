package strokewright.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Element;

class DrawingTest {

    @Test
    void saysInWordsWhatItShows() throws Exception {
        Element svg =
                parsed(new Drawing(100, 50, "p1", "Ring", "Outside Ø 600").line("ink", 0, 0, 9, 9));
        assertThat(svg.getAttribute("role")).isEqualTo("img");
        assertThat(svg.getAttribute("aria-labelledby")).isEqualTo("p1-t");
        assertThat(svg.getElementsByTagName("title").item(0).getTextContent()).isEqualTo("Ring");
        assertThat(svg.getElementsByTagName("desc").item(0).getTextContent())
                .isEqualTo("Outside Ø 600");
    }

    @Test
    void typedTextCannotBreakOutOfIt() throws Exception {
        Element svg =
                parsed(
                        new Drawing(10, 10, "x", "<script>\"&", "</svg>")
                                .text("", 0, 0, "</text><script>alert(1)</script>"));
        assertThat(svg.getElementsByTagName("script").getLength()).isZero();
        assertThat(svg.getElementsByTagName("text").item(0).getTextContent())
                .isEqualTo("</text><script>alert(1)</script>");
    }

    @Test
    void aQuarterArcAgainstTheClockEndsAtTwelve() {
        assertThat(Drawing.arcData(100, 100, 50, 0, 90)).isEqualTo("M150 100A50 50 0 0 0 100 50");
    }

    @Test
    void aLongArcTakesTheLongWay() {
        assertThat(Drawing.arcData(100, 100, 50, 0, 270)).contains("A50 50 0 1 0");
    }

    @Test
    void aFullRingIsTwoHalves() {
        assertThat(Drawing.arcData(0, 0, 10, 0, 360))
                .isEqualTo("M10 0A10 10 0 0 0 -10 0M-10 0A10 10 0 0 0 10 0");
    }

    @Test
    void refusesWhatCannotBeDrawn() {
        assertThatIllegalArgumentException().isThrownBy(() -> Drawing.plain(Double.NaN));
    }

    private static Element parsed(Drawing drawing) throws Exception {
        return DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new java.io.ByteArrayInputStream(drawing.svg().getBytes("UTF-8")))
                .getDocumentElement();
    }
}
