package strokewright.office;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FSFontUseCase;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.outputdevice.helper.ExternalResourceControlPriority;
import com.openhtmltopdf.outputdevice.helper.ExternalResourceType;
import com.openhtmltopdf.pdfboxout.PDFontSupplier;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer.SvgExternalResourceMode;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer.SvgScriptMode;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.EnumSet;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.logging.Level;
import java.util.regex.Pattern;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilder;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.font.PDType0Font;
import org.thymeleaf.context.Context;
import org.thymeleaf.spring6.SpringTemplateEngine;
import org.thymeleaf.templatemode.TemplateMode;
import org.thymeleaf.templateresolver.ClassLoaderTemplateResolver;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/**
 * Makes paged documents: a template of {@code papers/} (XHTML, CSS 2.1 and paged media) is filled
 * in and laid out. Nothing is fetched while that is done: fonts and style are our own, pictures
 * stand in the text itself.
 *
 * <p>The result is tagged (PDF/UA), says its language and title, and holds the part of its fonts
 * that it uses.
 */
public final class Pdf {

    public static final String TYPE = "application/pdf";

    private static final String FOLDER = "papers/";
    private static final String FAMILY = "Paper";
    private static final String SVG = "http://www.w3.org/2000/svg";
    private static final float PDF_VERSION = 1.7f;

    private static final Bytes REGULAR = Bytes.of("font/SourceSans3-Regular.ttf");
    private static final Bytes BOLD = Bytes.of("font/SourceSans3-SemiBold.ttf");
    private static final Set<FSFontUseCase> IN_DRAWINGS = EnumSet.of(FSFontUseCase.SVG);
    private static final String STYLE = Bytes.of("paper.css").text();
    private static final String DRAWING_STYLE = Bytes.of("drawing.css").text();
    private static final SpringTemplateEngine ENGINE = engine();

    /** What no XML holds: most control characters, halves of surrogate pairs, non-characters. */
    private static final Pattern NOT_IN_XML =
            Pattern.compile(
                    "[^\\t\\n\\r\\x{20}-\\x{D7FF}\\x{E000}-\\x{FFFD}\\x{10000}-\\x{10FFFF}]");

    static {
        XRLog.listRegisteredLoggers().forEach(logger -> XRLog.setLevel(logger, Level.WARNING));
    }

    private Pdf() {}

    /**
     * @param template its name in {@code papers/}, without ending
     * @param paper what stands around its text, and in it as {@code ${paper}}
     * @param view what its text shows, as {@code ${view}}
     */
    public static byte[] of(String template, Paper paper, Object view) {
        Context context = new Context(Locale.ENGLISH, Map.of("paper", paper, "view", view));
        String xhtml = ENGINE.process(template, context);
        Document document = document(NOT_IN_XML.matcher(xhtml).replaceAll(""));
        style(document, paper.size());
        return laidOut(document);
    }

    /** Parsed here and not by the library, so that it holds no outside entity. */
    private static Document document(String xhtml) {
        try {
            DocumentBuilderFactory factory = DocumentBuilderFactory.newDefaultInstance();
            factory.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, true);
            factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
            factory.setNamespaceAware(true);
            DocumentBuilder builder = factory.newDocumentBuilder();
            builder.setErrorHandler(null);
            return builder.parse(new InputSource(new StringReader(xhtml)));
        } catch (ParserConfigurationException | SAXException e) {
            throw new IllegalStateException("no well-formed paper: " + e.getMessage(), e);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void style(Document document, Paper.Size size) {
        String page = "@page { size: " + size.css() + "; }\n";
        Element style =
                document.createElementNS(document.getDocumentElement().getNamespaceURI(), "style");
        style.setTextContent(page + STYLE);
        document.getElementsByTagName("head").item(0).appendChild(style);
        NodeList drawings = document.getElementsByTagNameNS(SVG, "svg");
        for (int i = 0; i < drawings.getLength(); i++) {
            Element look = document.createElementNS(SVG, "style");
            look.setTextContent(DRAWING_STYLE);
            drawings.item(i).insertBefore(look, drawings.item(i).getFirstChild());
            read((Element) drawings.item(i));
        }
    }

    /** What a picture says of itself is what the library reads from an attribute of its own. */
    private static void read(Element drawing) {
        NodeList descriptions = drawing.getElementsByTagNameNS(SVG, "desc");
        if (descriptions.getLength() > 0) {
            drawing.setAttribute("alt", descriptions.item(0).getTextContent());
        }
    }

    private static byte[] laidOut(Document document) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (PDDocument file = new PDDocument();
                TrueTypeFont regular = parsed(REGULAR);
                TrueTypeFont bold = parsed(BOLD);
                BatikSVGDrawer drawings =
                        new BatikSVGDrawer(SvgScriptMode.SECURE, SvgExternalResourceMode.SECURE)) {
            new PdfRendererBuilder()
                    .withW3cDocument(document, "paper:")
                    .usePDDocument(file)
                    .useFont(inside(file, regular), FAMILY, 400, FontStyle.NORMAL, true)
                    .useFont(inside(file, bold), FAMILY, 700, FontStyle.NORMAL, true)
                    .useSVGDrawer(drawings)
                    .useFont(REGULAR::stream, FAMILY, 400, FontStyle.NORMAL, true, IN_DRAWINGS)
                    .useFont(BOLD::stream, FAMILY, 700, FontStyle.NORMAL, true, IN_DRAWINGS)
                    .useUriResolver((base, uri) -> isPicture(uri) ? uri : null)
                    .useExternalResourceAccessControl(
                            Pdf::mayBeRead,
                            ExternalResourceControlPriority.RUN_BEFORE_RESOLVING_URI)
                    .useExternalResourceAccessControl(
                            Pdf::mayBeRead, ExternalResourceControlPriority.RUN_AFTER_RESOLVING_URI)
                    .useReplacementText("\u25a1")
                    .usePdfVersion(PDF_VERSION)
                    .usePdfUaAccessibility(true)
                    .withProducer("Strokewright")
                    .toStream(out)
                    .run();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toByteArray();
    }

    /**
     * Without ligatures: PDFBox would draw them, but leave the letters that they stand for out of
     * the text that can be selected and read aloud.
     */
    private static TrueTypeFont parsed(Bytes font) throws IOException {
        TrueTypeFont parsed = new TTFParser().parse(new RandomAccessReadBuffer(font.all()));
        parsed.setEnableGsub(false);
        return parsed;
    }

    private static PDFontSupplier inside(PDDocument file, TrueTypeFont font) throws IOException {
        return new PDFontSupplier(PDType0Font.load(file, font, true));
    }

    private static boolean mayBeRead(String uri, ExternalResourceType type) {
        return type == ExternalResourceType.IMAGE_RASTER && isPicture(uri);
    }

    private static boolean isPicture(String uri) {
        return uri.startsWith("data:image/png;") || uri.startsWith("data:image/jpeg;");
    }

    private static SpringTemplateEngine engine() {
        ClassLoaderTemplateResolver papers =
                new ClassLoaderTemplateResolver(Pdf.class.getClassLoader());
        papers.setPrefix(FOLDER);
        papers.setSuffix(".xhtml");
        papers.setTemplateMode(TemplateMode.XML);
        papers.setCharacterEncoding(StandardCharsets.UTF_8.name());
        SpringTemplateEngine engine = new SpringTemplateEngine();
        engine.setTemplateResolver(papers);
        return engine;
    }

    /** A file of ours, read once. */
    private record Bytes(byte[] all) {

        static Bytes of(String name) {
            try (InputStream in = Pdf.class.getClassLoader().getResourceAsStream(FOLDER + name)) {
                if (in == null) {
                    throw new IllegalStateException("missing " + FOLDER + name);
                }
                return new Bytes(in.readAllBytes());
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }

        InputStream stream() {
            return new ByteArrayInputStream(all);
        }

        String text() {
            return new String(all, StandardCharsets.UTF_8);
        }
    }
}
