package strokewright.quote;

import java.io.ByteArrayInputStream;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import strokewright.quantity.InvalidInput;

/**
 * Whether an SVG file is a drawing and nothing else: it runs nothing, fetches nothing and refers to
 * nothing outside of itself.
 */
final class SvgCheck {

    private static final String NAMESPACE = "http://www.w3.org/2000/svg";
    private static final int DEEPEST = 256;
    private static final int MOST_ELEMENTS = 500_000;
    private static final int LOOK = 512;

    /**
     * All that runs, embeds or listens. Names without regard to case, as HTML readers take them.
     */
    private static final Set<String> REFUSED =
            Set.of(
                    "script",
                    "foreignobject",
                    "iframe",
                    "embed",
                    "object",
                    "audio",
                    "video",
                    "canvas",
                    "handler",
                    "listener",
                    "link",
                    "meta",
                    "base",
                    "form",
                    "input",
                    "body",
                    "html");

    private static final Pattern EMBEDDED_PICTURE =
            Pattern.compile("data:image/(png|jpeg|jpg|gif);base64,.*", Pattern.DOTALL);
    private static final Pattern URL =
            Pattern.compile("url\\(\\s*['\"]?\\s*([^)'\"]*)", Pattern.CASE_INSENSITIVE);

    private static final XMLInputFactory READERS = readers();

    private SvgCheck() {}

    private static XMLInputFactory readers() {
        XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
        factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
        factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
        factory.setProperty(XMLInputFactory.IS_REPLACING_ENTITY_REFERENCES, false);
        factory.setXMLResolver(
                (publicId, systemId, base, name) -> {
                    throw new XMLStreamException("nothing is fetched");
                });
        return factory;
    }

    static boolean looksLikeXml(byte[] content) {
        for (int i = 0; i < Math.min(LOOK, content.length); i++) {
            int b = content[i] & 0xff;
            boolean skipped = b <= ' ' || b >= 0xbb; // blanks, byte order marks
            if (!skipped) {
                return b == '<';
            }
        }
        return false;
    }

    /**
     * @throws InvalidInput with the reason
     */
    static void requireHarmless(byte[] content) {
        try {
            XMLStreamReader in = READERS.createXMLStreamReader(new ByteArrayInputStream(content));
            try {
                check(in);
            } finally {
                in.close();
            }
        } catch (XMLStreamException | RuntimeException e) {
            throw e instanceof InvalidInput known
                    ? known
                    : new InvalidInput("", "is no SVG that can be read");
        }
    }

    private static void check(XMLStreamReader in) throws XMLStreamException {
        int depth = 0;
        int elements = 0;
        StringBuilder style = null;
        while (in.hasNext()) {
            switch (in.next()) {
                case XMLStreamConstants.START_ELEMENT -> {
                    if (elements++ == 0) {
                        requireRoot(in);
                    }
                    if (++depth > DEEPEST || elements > MOST_ELEMENTS) {
                        throw refused("has more elements than a drawing needs");
                    }
                    element(in);
                    if (in.getLocalName().equalsIgnoreCase("style")) {
                        style = new StringBuilder();
                    }
                }
                case XMLStreamConstants.END_ELEMENT -> {
                    depth--;
                    if (style != null && in.getLocalName().equalsIgnoreCase("style")) {
                        style(style.toString());
                        style = null;
                    }
                }
                case XMLStreamConstants.CHARACTERS,
                        XMLStreamConstants.CDATA,
                        XMLStreamConstants.SPACE -> {
                    if (style != null) {
                        style.append(in.getText());
                    }
                }
                case XMLStreamConstants.DTD -> throw refused("has a DOCTYPE: save it without");
                case XMLStreamConstants.ENTITY_REFERENCE ->
                        throw refused("has entities of its own: save it without");
                case XMLStreamConstants.PROCESSING_INSTRUCTION ->
                        throw refused("has an instruction to programs: save it without");
                default -> {}
            }
        }
    }

    private static void requireRoot(XMLStreamReader in) {
        if (!in.getLocalName().equals("svg") || !NAMESPACE.equals(in.getNamespaceURI())) {
            throw new InvalidInput("", "is XML, but no SVG drawing");
        }
    }

    private static void element(XMLStreamReader in) {
        String name = in.getLocalName().toLowerCase(Locale.ROOT);
        if (REFUSED.contains(name)) {
            throw refused("has a <" + name + ">: only what is drawn is kept");
        }
        for (int i = 0; i < in.getAttributeCount(); i++) {
            attribute(
                    in.getAttributeLocalName(i).toLowerCase(Locale.ROOT), in.getAttributeValue(i));
        }
    }

    private static void attribute(String name, String value) {
        if (name.startsWith("on")) {
            throw refused("runs something (" + name + "): only what is drawn is kept");
        }
        if (name.equals("href") || name.equals("src")) {
            reference(value);
        }
        if (name.equals("base")) {
            throw refused("refers to another place (xml:base)");
        }
        String low = value.strip().toLowerCase(Locale.ROOT);
        if (name.equals("attributename") && (low.startsWith("on") || low.endsWith("href"))) {
            throw refused("changes a reference while it is shown");
        }
        if (low.startsWith("javascript:") || low.startsWith("data:text")) {
            throw refused("runs something (" + name + "): only what is drawn is kept");
        }
        style(value);
    }

    private static void style(String text) {
        String low = text.toLowerCase(Locale.ROOT);
        if (low.contains("@import") || low.contains("expression(")) {
            throw refused("fetches a style sheet: save it with its styles inside");
        }
        // an escape could hide what is looked for here
        if (low.indexOf('\\') >= 0 && low.contains("(")) {
            throw refused("has escapes in its styles: save it with plain attributes");
        }
        Matcher m = URL.matcher(text);
        while (m.find()) {
            reference(m.group(1));
        }
    }

    private static void reference(String target) {
        String plain = target.strip();
        if (!plain.isEmpty()
                && !plain.startsWith("#")
                && !EMBEDDED_PICTURE.matcher(plain).matches()) {
            throw refused(
                    "refers to something outside of itself: save it with everything embedded");
        }
    }

    private static InvalidInput refused(String reason) {
        return new InvalidInput("", reason);
    }
}
