package strokewright.office;

import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.Enumeration;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.poi.util.XMLHelper;
import org.jspecify.annotations.Nullable;
import org.xml.sax.Attributes;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;
import org.xml.sax.XMLReader;
import org.xml.sax.helpers.DefaultHandler;
import strokewright.quantity.InvalidInput;

/**
 * The parts of a workbook (ECMA-376, part 2), each read as a stream of XML events. The library's
 * own package class builds trees of some parts in memory, whatever their size; nothing here does.
 */
final class XlsxParts {

    private static final int MOST_ENTRIES_OF_A_LIST = 5_000;

    private final ZipFile zip;
    private final PlainXml.Allowance allowance;

    XlsxParts(ZipFile zip, Limits limits) {
        this.zip = zip;
        this.allowance = new PlainXml.Allowance(limits.unpackedBytes());
        checkEntries(limits);
    }

    private void checkEntries(Limits limits) {
        if (zip.size() > limits.parts()) {
            throw new InvalidInput(
                    "",
                    "is made of "
                            + zip.size()
                            + " parts: a workbook of at most "
                            + limits.parts()
                            + " is read");
        }
        Enumeration<? extends ZipEntry> all = zip.entries();
        while (all.hasMoreElements()) {
            String name = all.nextElement().getName().toLowerCase(Locale.ROOT);
            if (name.endsWith("vbaproject.bin") || name.startsWith("xl/macrosheets/")) {
                throw macros();
            }
            if (name.equals("xl/workbook.bin")) {
                throw new InvalidInput("", "is a binary workbook (.xlsb): save it as .xlsx or csv");
            }
            if (name.equals("encryptedpackage")) {
                throw Xlsx.encrypted();
            }
        }
        if (zip.getEntry("content.xml") != null && zip.getEntry("mimetype") != null) {
            throw new InvalidInput("", "is an OpenDocument file (.ods): save it as .xlsx or csv");
        }
    }

    private static InvalidInput macros() {
        return new InvalidInput("", "holds macros: save it as .xlsx, which has none, or as csv");
    }

    boolean has(String part) {
        return zip.getEntry(part) != null;
    }

    /** Reads one part through a handler, which may end it early by {@link Enough}. */
    void read(String part, Handler handler) {
        ZipEntry entry = zip.getEntry(part);
        if (entry == null) {
            throw Xlsx.damaged("its part " + part + " is missing");
        }
        try (InputStream packed = zip.getInputStream(entry)) {
            XMLReader reader = XMLHelper.newXMLReader();
            reader.setContentHandler(handler);
            reader.setErrorHandler(handler);
            reader.setEntityResolver(
                    (id, address) -> new InputSource(InputStream.nullInputStream()));
            reader.parse(new InputSource(new PlainXml(packed, allowance)));
        } catch (Enough e) {
            // the rest is not needed
        } catch (ZipException e) {
            throw Xlsx.damaged("its part " + part + " cannot be unpacked");
        } catch (SAXException e) {
            throw Xlsx.damaged("its part " + part + " is no XML");
        } catch (IOException | ParserConfigurationException e) {
            throw Xlsx.damaged("its part " + part + " ends too early");
        }
    }

    /** Ends the reading of a part. */
    static final class Enough extends RuntimeException {

        Enough() {
            super("enough", null, false, false);
        }
    }

    /**
     * Names of the part: depth and number of different names are bounded, the parser keeps them.
     */
    abstract static class Handler extends DefaultHandler {

        private static final int DEEPEST = 100;
        private static final int MOST_NAMES = 2_000;

        private final Set<String> names = new HashSet<>();
        private int depth;

        @Override
        public final void startElement(String uri, String name, String prefixed, Attributes with) {
            if (++depth > DEEPEST) {
                throw unlike();
            }
            known(prefixed);
            for (int i = 0; i < with.getLength(); i++) {
                known(with.getQName(i));
            }
            begin(name, with);
        }

        @Override
        public final void endElement(String uri, String name, String prefixed) {
            depth--;
            end(name);
        }

        @Override
        public void startPrefixMapping(String prefix, String uri) {
            known(prefix);
            known(uri);
        }

        private void known(String name) {
            if (names.add(name) && names.size() > MOST_NAMES) {
                throw unlike();
            }
        }

        private static InvalidInput unlike() {
            return new InvalidInput("", "is built like no workbook that a program writes");
        }

        abstract void begin(String name, Attributes with);

        void end(String name) {
            // most need only the begin
        }

        /** By its name without a prefix. */
        static @Nullable String attribute(Attributes all, String name) {
            for (int i = 0; i < all.getLength(); i++) {
                if (all.getLocalName(i).equals(name)) {
                    return all.getValue(i);
                }
            }
            return null;
        }
    }

    /**
     * A relation from one part to another.
     *
     * @param type last step of its address, which transitional and strict workbooks share
     * @param part null where it lies outside of the file
     */
    record Relation(String id, String type, @Nullable String part) {}

    List<Relation> relations(String part) {
        int slash = part.lastIndexOf('/');
        String folder = part.substring(0, slash + 1);
        String list = folder + "_rels/" + part.substring(slash + 1) + ".rels";
        List<Relation> all = new ArrayList<>();
        if (!has(list)) {
            return all;
        }
        read(
                list,
                new Handler() {
                    @Override
                    void begin(String name, Attributes with) {
                        if (!name.equals("Relationship")) {
                            return;
                        }
                        String type = attribute(with, "Type");
                        String target = attribute(with, "Target");
                        String id = attribute(with, "Id");
                        if (type == null || target == null || id == null) {
                            throw Xlsx.damaged("a relation in " + list + " is incomplete");
                        }
                        if (all.size() == MOST_ENTRIES_OF_A_LIST) {
                            throw Xlsx.damaged(list + " is too long");
                        }
                        boolean outside = "External".equals(attribute(with, "TargetMode"));
                        all.add(
                                new Relation(
                                        id,
                                        type.substring(type.lastIndexOf('/') + 1),
                                        outside ? null : resolved(folder, target)));
                    }
                });
        return all;
    }

    private static String resolved(String folder, String target) {
        List<String> steps = new ArrayList<>();
        String whole = target.startsWith("/") ? target : folder + target;
        for (String step : whole.split("/")) {
            if (step.equals("..")) {
                if (!steps.isEmpty()) {
                    steps.remove(steps.size() - 1);
                }
            } else if (!step.isEmpty() && !step.equals(".")) {
                steps.add(step);
            }
        }
        return String.join("/", steps);
    }

    /** The workbook's own part, once its kind is known to be free of macros. */
    String workbook() {
        String part =
                relations("").stream()
                        .filter(r -> r.type.equals("officeDocument") && r.part != null)
                        .map(Relation::part)
                        .findFirst()
                        .orElseThrow(
                                () ->
                                        new InvalidInput(
                                                "",
                                                "is a zip file, but no workbook: send .xlsx or"
                                                        + " csv"));
        String kind = Optional.ofNullable(kinds().get("/" + part)).orElse("");
        if (kind.contains("macroenabled")) {
            throw macros();
        }
        if (!kind.contains("spreadsheetml")) {
            throw new InvalidInput("", "is an office file, but no workbook: send .xlsx or csv");
        }
        return part;
    }

    private Map<String, String> kinds() {
        Map<String, String> kinds = new LinkedHashMap<>();
        read(
                "[Content_Types].xml",
                new Handler() {
                    @Override
                    void begin(String name, Attributes with) {
                        String part = attribute(with, "PartName");
                        String kind = attribute(with, "ContentType");
                        if (name.equals("Override") && part != null && kind != null) {
                            if (kinds.size() == MOST_ENTRIES_OF_A_LIST) {
                                throw Xlsx.damaged("[Content_Types].xml is too long");
                            }
                            kinds.put(part, kind.toLowerCase(Locale.ROOT));
                        }
                    }
                });
        return kinds;
    }
}
