package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Random;
import java.util.stream.IntStream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.quantity.InvalidInput;

class AttachmentKindTest {

    static final String PDF = "%PDF-1.7\n1 0 obj<<>>endobj\ntrailer<</Root 1 0 R>>\n%%EOF\n";
    static final String SVG =
            "<svg xmlns=\"http://www.w3.org/2000/svg\"><g id=\"a\"><path d=\"M0 0h9\"/></g>"
                    + "<use href=\"#a\" style=\"fill:url(#b)\"/></svg>";

    @Test
    void tellsWhatADrawingIsByItsContent() throws IOException {
        assertThat(AttachmentKind.of(bytes(PDF))).isEqualTo(AttachmentKind.PDF);
        assertThat(AttachmentKind.of(bytes(SVG))).isEqualTo(AttachmentKind.SVG);
        assertThat(AttachmentKind.of(bytes("<?xml version=\"1.0\"?>\n<!-- by hand -->\n" + SVG)))
                .isEqualTo(AttachmentKind.SVG);
        assertThat(AttachmentKind.of(SVG.getBytes(StandardCharsets.UTF_16)))
                .isEqualTo(AttachmentKind.SVG);
        assertThat(AttachmentKind.of(picture("png"))).isEqualTo(AttachmentKind.PNG);
        assertThat(AttachmentKind.of(picture("jpeg"))).isEqualTo(AttachmentKind.JPEG);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "MZ program",
                "PK\u0003\u0004 zip",
                "GIF89a",
                "<html><body/></html>",
                "<a/>",
                "plain text",
                "<svg/>",
                " %PDF-1.7 %%EOF"
            })
    void whatIsNoDrawingIsRefused(String content) {
        refused(bytes(content), "is ");
    }

    @Test
    void anEncryptedPdfIsRefusedAndAWordThatOnlyBeginsSoIsNot() {
        refused(bytes(PDF.replace("/Root", "/Encrypt 5 0 R/Root")), "encrypted");
        refused(bytes(PDF.replace("/Root", "/Encrypt<</V 1>>/Root")), "encrypted");
        assertThat(AttachmentKind.of(bytes(PDF.replace("/Root", "/EncryptMetadata true/Root"))))
                .isEqualTo(AttachmentKind.PDF);
    }

    @Test
    void whatBreaksOffIsRefused() throws IOException {
        refused(bytes(PDF.replace("%%EOF", "")), "breaks off");
        byte[] png = picture("png");
        refused(Arrays.copyOf(png, png.length / 2), "breaks off");
        byte[] jpeg = picture("jpeg");
        refused(Arrays.copyOf(jpeg, jpeg.length / 2), "breaks off");
    }

    @Test
    void aSmallFileThatClaimsAHugePictureIsRefusedUnread() throws IOException {
        byte[] png = picture("png");
        ByteBuffer.wrap(png).putInt(16, 29_000).putInt(20, 29_000); // width and height of IHDR
        refused(png, "29000 by 29000");
        ByteBuffer.wrap(png).putInt(16, 40_000).putInt(20, 1);
        refused(png, "40000 by 1");
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(
            delimiter = '|',
            value = {
                "script | <script>x()</script> | script",
                "SCRIPT | <SCRIPT/> | script",
                "prefixed script | <s:script xmlns:s='http://www.w3.org/2000/svg'/> | script",
                "foreign object | <foreignObject/> | foreignobject",
                "listener | <g onclick='x()'/> | onclick",
                "outer picture | <image href='https://a.example/b.png'/> | outside",
                "old outer link |"
                        + " <use xmlns:l='http://www.w3.org/1999/xlink' l:href='other.svg#a'/> |"
                        + " outside",
                "link of a program | <a href='javascript:x()'/> | outside",
                "file | <image href='file:///etc/passwd'/> | outside",
                "outer fill | <path fill='url(https://a.example/b)'/> | outside",
                "import | <style>@import 'https://a.example/b.css';</style> | style sheet",
                "outer font | <style>a{src:url( \"//a.example/f\" )}</style> | outside",
                "escaped url | <path style='fill:u\\72l(//a.example/b)'/> | escapes",
                "embedded drawing | <image href='data:image/svg+xml;base64,PHN2Zy8+'/> | outside",
                "changed reference | <set attributeName='xlink:href' to='x'/> | reference",
                "begun listener | <animate attributeName='onload' to='x'/> | reference",
                "other base | <g xml:base='https://a.example/'/> | base"
            })
    void anSvgThatRunsOrFetchesAnythingIsRefused(String what, String inside, String reason) {
        refused(bytes("<svg xmlns=\"http://www.w3.org/2000/svg\">" + inside + "</svg>"), reason);
    }

    @Test
    void anSvgWithDoctypeEntitiesOrInstructionsIsRefused() {
        refused(bytes("<!DOCTYPE svg SYSTEM \"http://a.example/x.dtd\">" + SVG), "DOCTYPE");
        refused(
                bytes(
                        "<!DOCTYPE svg [<!ENTITY a \"aaaa\"><!ENTITY b \"&a;&a;\">]>"
                                + SVG.replace("<g", "<text>&b;</text><g")),
                "DOCTYPE");
        refused(bytes("<?xml-stylesheet href=\"https://a.example/x.css\"?>" + SVG), "instruction");
        refused(bytes(SVG.replace("<g", "<text>&x;</text><g")), "");
    }

    @Test
    void anSvgOfEndlessDepthIsRefused() {
        refused(
                bytes("<svg xmlns=\"http://www.w3.org/2000/svg\">" + "<g>".repeat(5000)),
                "more elements");
    }

    @Test
    void anEmbeddedPictureIsADrawingStill() {
        assertThat(
                        AttachmentKind.of(
                                bytes(
                                        SVG.replace(
                                                "<use href=\"#a\"",
                                                "<image href=\"data:image/png;base64,iVBORw0=\""))))
                .isEqualTo(AttachmentKind.SVG);
    }

    static IntStream seeds() {
        return IntStream.range(0, 300);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void brokenFilesAreTakenOrRefusedWithAReasonNeverOtherwise(int seed) throws IOException {
        Random random = new Random(seed);
        byte[][] good = {bytes(PDF), bytes(SVG), picture("png"), picture("jpeg")};
        byte[] content = good[random.nextInt(good.length)].clone();
        for (int i = 0; i < 1 + random.nextInt(6); i++) {
            content[random.nextInt(content.length)] = (byte) random.nextInt(256);
        }
        try {
            assertThat(AttachmentKind.of(content)).isNotNull();
        } catch (InvalidInput e) {
            assertThat(e.faults()).singleElement();
            assertThat(e.faults().get(0).message()).isNotBlank();
        }
    }

    private static void refused(byte[] content, String reason) {
        assertThatThrownBy(() -> AttachmentKind.of(content))
                .isInstanceOf(InvalidInput.class)
                .hasMessageContaining(reason);
    }

    private static byte[] bytes(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    static byte[] picture(String format) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ImageIO.write(new BufferedImage(40, 30, BufferedImage.TYPE_INT_RGB), format, out);
        return out.toByteArray();
    }
}
