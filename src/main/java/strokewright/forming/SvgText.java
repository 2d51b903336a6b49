package strokewright.forming;

import java.awt.geom.AffineTransform;
import java.io.StringReader;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.apache.batik.parser.AWTTransformProducer;
import org.apache.batik.parser.ParseException;
import org.apache.batik.parser.TransformListParser;
import org.jspecify.annotations.Nullable;

/**
 * An outline as somebody hands it over, as path data in mm: path data as they are, elements that
 * draw, or a small SVG file (W3C, SVG 1.1). Shapes of one file become runs of one path, in their
 * order, moved as their groups say; what is not drawn by itself is left out.
 *
 * <p>A file states its size with a viewBox and a width or height; without any of them it is taken
 * to be in mm, like path data.
 */
public final class SvgText {

    /** Of what is handed over. */
    public static final int MOST_CHARACTERS = 1 << 20;

    /** Of path data. */
    public static final int LONGEST_PATH = 50_000;

    private static final double PX_MM = 25.4 / 96; // CSS 2.1, section 4.3.2
    private static final int MOST_ELEMENTS = 50_000;
    private static final int DEEPEST = 200;

    private static final Set<String> GROUPS = Set.of("svg", "g", "a", "switch");
    private static final Set<String> SHAPES =
            Set.of("path", "circle", "ellipse", "rect", "line", "polyline", "polygon");

    /** Draws, but no outline: worth telling that it was left out. */
    private static final Set<String> NO_OUTLINE = Set.of("text", "image", "use", "foreignObject");

    // no step back in any of them: a million digits are read in one go
    private static final String NUMBER =
            "[+-]?+(?:\\d++(?:\\.\\d*+)?+|\\.\\d++)(?:[eE][+-]?+\\d{1,3}+)?+";
    private static final Pattern LENGTH =
            Pattern.compile("\\s*+(" + NUMBER + ")\\s*+(mm|cm|in|pt|pc|px|%|)\\s*+");
    private static final Pattern NUMBERS = Pattern.compile(NUMBER);
    private static final Pattern WHOLE_FILE = Pattern.compile("<(?:[?!]|(?:\\w{1,40}:)?svg\\b)");
    private static final Pattern OWN_ENTITIES = Pattern.compile("<!DOCTYPE[^<>\\[]*+\\[");
    private static final Pattern NOT_SHOWN = Pattern.compile("(?:^|;)\\s*display\\s*:\\s*none\\b");
    private static final Pattern VISIBILITY =
            Pattern.compile("(?:^|;)\\s*visibility\\s*:\\s*(\\w+)");
    private static final Pattern TRANSFORM_IN_STYLE =
            Pattern.compile("(?:^|;)\\s*(?:transform|rotate|scale|translate)\\s*:");

    private final XMLStreamReader xml;
    private final StringBuilder path = new StringBuilder();
    private final Set<String> leftOut = new TreeSet<>();
    private final Deque<Inside> insides = new ArrayDeque<>();
    private int shapes;
    private double mmPerUnit = 1;
    private boolean sized;

    private SvgText(XMLStreamReader xml) {
        this.xml = xml;
    }

    /**
     * @param path SVG path data in mm
     * @param shapes that it was put together from
     * @param mmPerUnit what a unit of the file is, along x; 1 for plain path data
     * @param sized whether the text itself stated its size
     * @param leftOut elements that draw but give no outline
     */
    public record Read(
            String path, int shapes, double mmPerUnit, boolean sized, Set<String> leftOut) {

        public Read {
            leftOut = Set.copyOf(leftOut);
        }
    }

    /** Matrix and visibility that hold within an element. */
    private record Inside(AffineTransform matrix, boolean visible, double unitsPerPx) {}

    /**
     * Path data in another size.
     *
     * @throws IllegalArgumentException where this is no path data, or becomes too long
     */
    public static String scaled(String path, double factor) {
        StringBuilder out = new StringBuilder();
        PathWriting.append(
                out, path, AffineTransform.getScaleInstance(factor, factor), LONGEST_PATH);
        return out.toString();
    }

    /** Whether it is more than path data. */
    public static boolean isMarkup(String text) {
        return bare(text).startsWith("<");
    }

    /** Without a byte order mark, which files bring along. */
    private static String bare(String text) {
        return (text.startsWith("\uFEFF") ? text.substring(1) : text).strip();
    }

    /**
     * @param text path data, elements, or a file
     * @throws IllegalArgumentException with what is wrong with it, in words
     */
    public static Read read(String text) {
        if (text.length() > MOST_CHARACTERS) {
            throw new IllegalArgumentException("is larger than 1 MiB: take the outline alone");
        }
        String document = bare(text);
        if (!document.startsWith("<")) {
            return new Read(document, 1, 1, false, Set.of());
        }
        if (OWN_ENTITIES.matcher(document).find()) { // they would be left unread
            throw new IllegalArgumentException(
                    "declares entities of its own: save it as a plain SVG file");
        }
        if (!WHOLE_FILE.matcher(document).lookingAt()) {
            document = "<g>" + document + "</g>"; // any number of elements
        }
        try {
            return new SvgText(safely(document)).read();
        } catch (XMLStreamException e) {
            throw new IllegalArgumentException(notXml(e), e);
        }
    }

    /** No document type, no entity, no second file, no names that have to be declared. */
    private static XMLStreamReader safely(String document) throws XMLStreamException {
        XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
        factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
        factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
        factory.setProperty(XMLInputFactory.IS_REPLACING_ENTITY_REFERENCES, false);
        factory.setProperty(XMLInputFactory.IS_NAMESPACE_AWARE, false);
        factory.setXMLResolver(
                (publicId, systemId, base, namespace) -> {
                    throw new XMLStreamException("asks for another file");
                });
        return factory.createXMLStreamReader(new StringReader(document));
    }

    private static String notXml(XMLStreamException e) {
        int line = e.getLocation() == null ? 0 : e.getLocation().getLineNumber();
        return "cannot be read as SVG" + (line > 0 ? ": line " + line + " is not XML" : "");
    }

    private Read read() throws XMLStreamException {
        insides.push(new Inside(new AffineTransform(), true, PX_MM));
        int elements = 0;
        while (xml.hasNext()) {
            int event = xml.next();
            if (event == XMLStreamConstants.START_ELEMENT) {
                if (++elements > MOST_ELEMENTS || insides.size() > DEEPEST) {
                    throw new IllegalArgumentException(
                            String.format(
                                    Locale.ROOT,
                                    "has more than %,d elements, or more than %d within each other:"
                                            + " take the outline alone",
                                    MOST_ELEMENTS,
                                    DEEPEST));
                }
                begin();
            } else if (event == XMLStreamConstants.END_ELEMENT) {
                insides.pop();
            }
        }
        if (path.isEmpty()) {
            throw new IllegalArgumentException(
                    "draws no outline: there is no path, circle, ellipse, rect, line, polyline or"
                            + " polygon to see in it"
                            + (leftOut.isEmpty() ? "" : ", only " + String.join(", ", leftOut)));
        }
        return new Read(path.toString(), shapes, mmPerUnit, sized, leftOut);
    }

    private void begin() throws XMLStreamException {
        String name = name();
        Inside around = insides.peek();
        if (hidden() || !GROUPS.contains(name) && !SHAPES.contains(name)) {
            if (NO_OUTLINE.contains(name) && !hidden()) {
                leftOut.add(name);
            }
            skip();
            return;
        }
        boolean visible = visible(around.visible);
        AffineTransform matrix = new AffineTransform(around.matrix);
        matrix.concatenate(transform());
        double unitsPerPx = around.unitsPerPx;
        if (name.equals("svg")) {
            unitsPerPx = insides.size() == 1 ? page(matrix) : inner(matrix, unitsPerPx);
        }
        insides.push(new Inside(matrix, visible, unitsPerPx));
        if (SHAPES.contains(name) && visible) {
            shape(name, matrix);
        }
    }

    private String name() {
        String name = xml.getLocalName();
        return name.substring(name.indexOf(':') + 1);
    }

    /** To the end of the element that has just begun. */
    private void skip() throws XMLStreamException {
        int open = 1;
        while (open > 0) {
            int event = xml.next();
            if (event == XMLStreamConstants.START_ELEMENT) {
                open++;
            } else if (event == XMLStreamConstants.END_ELEMENT) {
                open--;
            }
        }
    }

    private String attribute(String name) {
        String value = xml.getAttributeValue(null, name);
        return value == null ? "" : value;
    }

    private boolean hidden() {
        return attribute("display").strip().equals("none")
                || NOT_SHOWN.matcher(attribute("style")).find();
    }

    private boolean visible(boolean around) {
        Matcher style = VISIBILITY.matcher(attribute("style"));
        String stated = style.find() ? style.group(1) : attribute("visibility").strip();
        return switch (stated) {
            case "hidden", "collapse" -> false;
            case "visible" -> true;
            default -> around;
        };
    }

    private AffineTransform transform() {
        if (TRANSFORM_IN_STYLE.matcher(attribute("style")).find()) {
            throw new IllegalArgumentException(
                    "moves a shape by its style: save it as a plain SVG file, with transforms as"
                            + " attributes");
        }
        String list = attribute("transform");
        if (list.isBlank()) {
            return new AffineTransform();
        }
        TransformListParser parser = new TransformListParser();
        AWTTransformProducer producer = new AWTTransformProducer();
        parser.setTransformListHandler(producer);
        try {
            parser.parse(new StringReader(list.strip()));
        } catch (ParseException e) {
            throw new IllegalArgumentException(
                    "has a transform that cannot be read: " + shortened(list), e);
        }
        AffineTransform matrix = producer.getAffineTransform();
        if (!(Math.abs(matrix.getDeterminant()) > 1e-12)) {
            throw new IllegalArgumentException(
                    "has a transform that leaves nothing of a shape: " + shortened(list));
        }
        return matrix;
    }

    // Sizes -----------------------------------------------------------------------------------

    /** The outermost file: its user units become mm. Returns units to a CSS pixel within it. */
    private double page(AffineTransform matrix) {
        Double width = lengthMm("width");
        Double height = lengthMm("height");
        double @Nullable [] box = box();
        sized = width != null || height != null;
        if (!sized) {
            return PX_MM; // its units are mm
        }
        if (box == null) {
            mmPerUnit = PX_MM;
            matrix.scale(PX_MM, PX_MM);
            return 1;
        }
        double x = width == null ? height / box[3] : width / box[2];
        double y = height == null ? x : height / box[3];
        mmPerUnit = fit(matrix, x, y);
        return PX_MM / mmPerUnit;
    }

    /** A file within the file. */
    private double inner(AffineTransform matrix, double unitsPerPx) {
        matrix.translate(units("x", unitsPerPx), units("y", unitsPerPx));
        double @Nullable [] box = box();
        double width = units("width", unitsPerPx);
        double height = units("height", unitsPerPx);
        if (box == null || !(width > 0) && !(height > 0)) {
            return unitsPerPx;
        }
        double x = width > 0 ? width / box[2] : height / box[3];
        double y = height > 0 ? height / box[3] : x;
        double scale = fit(matrix, x, y);
        matrix.translate(-box[0], -box[1]);
        return unitsPerPx / scale;
    }

    /** Returns what a unit becomes; along x where that is not the same everywhere. */
    private double fit(AffineTransform matrix, double x, double y) {
        String kept = attribute("preserveAspectRatio");
        double scale = kept.contains("slice") ? Math.max(x, y) : Math.min(x, y);
        if (kept.contains("none")) {
            matrix.scale(x, y);
            return x;
        }
        matrix.scale(scale, scale);
        return scale;
    }

    private double @Nullable [] box() {
        String stated = attribute("viewBox");
        if (stated.isBlank()) {
            return null;
        }
        double[] box = numbers(stated);
        if (box.length != 4 || !(box[2] > 0) || !(box[3] > 0)) {
            throw new IllegalArgumentException("has a viewBox that cannot be read: " + stated);
        }
        return box;
    }

    /** Null where it is left out, or a share of a page that nobody knows. */
    private @Nullable Double lengthMm(String name) {
        Matcher m = LENGTH.matcher(attribute(name));
        if (!m.matches() || m.group(2).equals("%")) {
            return null;
        }
        double mm = finite(m.group(1)) * pxIn(m.group(2)) * PX_MM;
        if (!(mm > 0)) {
            throw new IllegalArgumentException("has no " + name);
        }
        return mm;
    }

    /** A length of a shape in user units; 0 where it is left out. */
    private double units(String name, double unitsPerPx) {
        String stated = attribute(name);
        if (stated.isBlank() || stated.strip().equals("auto")) {
            return 0;
        }
        Matcher m = LENGTH.matcher(stated);
        if (!m.matches() || m.group(2).equals("%")) {
            throw new IllegalArgumentException(
                    "has a " + name + " that cannot be read: " + shortened(stated));
        }
        double number = finite(m.group(1));
        return m.group(2).isEmpty() ? number : number * pxIn(m.group(2)) * unitsPerPx;
    }

    private static double pxIn(String unit) {
        return switch (unit) {
            case "mm" -> 1 / PX_MM;
            case "cm" -> 10 / PX_MM;
            case "in" -> 96;
            case "pt" -> 96.0 / 72;
            case "pc" -> 16;
            default -> 1;
        };
    }

    private static double finite(String number) {
        double value = Double.parseDouble(number);
        if (Double.isInfinite(value)) {
            throw new IllegalArgumentException("has a number that is too large: " + number);
        }
        return value;
    }

    private static double[] numbers(String text) {
        return NUMBERS.matcher(text).results().mapToDouble(r -> finite(r.group())).toArray();
    }

    private static String shortened(String text) {
        return text.length() <= 40 ? text.strip() : text.strip().substring(0, 40) + " …";
    }

    // Shapes ----------------------------------------------------------------------------------

    private void shape(String name, AffineTransform matrix) {
        double units = insides.element().unitsPerPx;
        String drawn =
                switch (name) {
                    case "path" -> attribute("d").strip();
                    case "circle" -> ellipse(units("r", units), units("r", units), units);
                    case "ellipse" -> ellipse(units("rx", units), units("ry", units), units);
                    case "rect" -> rect(units);
                    case "line" ->
                            joined("M", units("x1", units), units("y1", units))
                                    + joined("L", units("x2", units), units("y2", units));
                    default -> corners(numbers(attribute("points")), name.equals("polygon"));
                };
        if (drawn.isEmpty() || drawn.equals("none")) {
            return;
        }
        shapes++;
        try {
            PathWriting.append(path, drawn, matrix, LONGEST_PATH);
        } catch (IllegalArgumentException e) {
            throw shapes == 1 && !name.equals("path")
                    ? e
                    : new IllegalArgumentException(
                            "has a shape, number " + shapes + ", that " + e.getMessage(), e);
        }
    }

    private String ellipse(double rx, double ry, double units) {
        if (!(rx > 0) || !(ry > 0)) {
            return "";
        }
        double x = units("cx", units);
        double y = units("cy", units);
        return joined("M", x + rx, y)
                + joined("A", rx, ry, 0, 0, 1, x - rx, y)
                + joined("A", rx, ry, 0, 0, 1, x + rx, y)
                + "Z";
    }

    /** Of two radii of its corners, the one left out is as the other (SVG 1.1, section 9.2). */
    private String rect(double units) {
        double x = units("x", units);
        double y = units("y", units);
        double width = units("width", units);
        double height = units("height", units);
        if (!(width > 0) || !(height > 0)) {
            return "";
        }
        double rx = units("rx", units);
        double ry = units("ry", units);
        rx = Math.min(attribute("rx").isBlank() ? ry : rx, width / 2);
        ry = Math.min(attribute("ry").isBlank() ? units("rx", units) : ry, height / 2);
        if (!(rx > 0) || !(ry > 0)) {
            return joined("M", x, y)
                    + joined("L", x + width, y)
                    + joined("L", x + width, y + height)
                    + joined("L", x, y + height)
                    + "Z";
        }
        boolean wide = width > 2 * rx;
        boolean high = height > 2 * ry;
        double left = x + rx;
        double right = wide ? x + width - rx : left;
        double top = y + ry;
        double bottom = high ? y + height - ry : top;
        return joined("M", left, y)
                + (wide ? joined("L", right, y) : "")
                + joined("A", rx, ry, 0, 0, 1, x + width, top)
                + (high ? joined("L", x + width, bottom) : "")
                + joined("A", rx, ry, 0, 0, 1, right, y + height)
                + (wide ? joined("L", left, y + height) : "")
                + joined("A", rx, ry, 0, 0, 1, x, bottom)
                + (high ? joined("L", x, top) : "")
                + joined("A", rx, ry, 0, 0, 1, left, y)
                + "Z";
    }

    private static String corners(double[] places, boolean closed) {
        if (places.length < 4) {
            return "";
        }
        StringBuilder drawn = new StringBuilder();
        for (int i = 0; i + 1 < places.length; i += 2) {
            drawn.append(joined(i == 0 ? "M" : "L", places[i], places[i + 1]));
        }
        return drawn.append(closed ? "Z" : "").toString();
    }

    private static String joined(String command, double... values) {
        StringBuilder joined = new StringBuilder(command);
        for (double value : values) {
            boolean whole = value == Math.rint(value) && Math.abs(value) < 1e9;
            joined.append(' ').append(whole ? Long.toString((long) value) : Double.toString(value));
        }
        return joined.append(' ').toString();
    }
}
