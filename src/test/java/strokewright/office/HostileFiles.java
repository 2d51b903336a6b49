package strokewright.office;

import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.Supplier;

/** Files that must be refused, each with a word of the reason that its sender is told. */
final class HostileFiles {

    /**
     * @param name the file's, its ending included
     * @param content made anew each time: all together would not fit into a small heap
     * @param reason stands in what is told
     */
    record Hostile(String what, String name, Supplier<byte[]> content, String reason) {

        @Override
        public String toString() {
            return what;
        }
    }

    private static final String DOCTYPE =
            "<?xml version=\"1.0\" encoding=\"UTF-8\"?><!DOCTYPE worksheet [%s]>"
                    + Parts.SHEET
                    + "<sheetData><row r=\"1\"><c r=\"A1\" t=\"inlineStr\"><is><t>&x;</t></is></c></row></sheetData></worksheet>";

    private HostileFiles() {}

    static List<Hostile> all() {
        return List.of(
                xlsx("50 MB of noise", () -> noise(50 << 20, 0x50, 0x4B, 3, 4), "too large"),
                csv("50 MB of csv", () -> text("a,b\n".repeat(50 << 18)), "too large"),
                xlsx(
                        "a sheet of spaces, a thousandfold packed",
                        () ->
                                sheetPart(
                                        Parts.repeated(
                                                "<worksheet><sheetData>",
                                                " ",
                                                120L << 20,
                                                "</sheetData></worksheet>")),
                        "unpacks to more than 100 MB"),
                xlsx(
                        "one text of 120 MB",
                        () ->
                                sheetPart(
                                        Parts.repeated(
                                                "<worksheet><sheetData><row r=\"1\"><c r=\"A1\" t=\"inlineStr\"><is><t>",
                                                "A",
                                                120L << 20,
                                                "</t></is></c></row></sheetData></worksheet>")),
                        "more than 5000 characters"),
                xlsx(
                        "an attribute of 120 MB",
                        () -> sheetPart(Parts.repeated("<worksheet a=\"", "A", 120L << 20, "\"/>")),
                        "single tag"),
                xlsx(
                        "an attribute of 120 MB full of closing brackets",
                        () -> sheetPart(Parts.repeated("<worksheet a='", ">", 120L << 20, "'/>")),
                        "single tag"),
                xlsx(
                        "a comment of 120 MB",
                        () ->
                                sheetPart(
                                        Parts.repeated(
                                                "<worksheet><!--",
                                                ">A",
                                                120L << 20,
                                                "--></worksheet>")),
                        "single tag"),
                xlsx(
                        "a comment that seems to end at once",
                        () ->
                                sheetPart(
                                        Parts.repeated(
                                                "<worksheet><!--->",
                                                "A",
                                                120L << 20,
                                                "--></worksheet>")),
                        "single tag"),
                xlsx(
                        "a marked section of 120 MB",
                        () ->
                                sheetPart(
                                        Parts.repeated(
                                                "<worksheet><![CDATA[",
                                                "A",
                                                120L << 20,
                                                "]]></worksheet>")),
                        "single tag"),
                xlsx(
                        "an instruction of 120 MB",
                        () ->
                                sheetPart(
                                        Parts.repeated(
                                                "<worksheet><?a ",
                                                "A",
                                                120L << 20,
                                                "?></worksheet>")),
                        "single tag"),
                xlsx(
                        "elements in elements",
                        () -> sheetPart(Parts.repeated("<worksheet>", "<a>", 120L << 20, "")),
                        "built like no workbook"),
                xlsx(
                        "millions of different names",
                        () -> sheetPart(names(500_000)),
                        "built like no workbook"),
                xlsx(
                        "millions of different name spaces",
                        () -> sheetPart(nameSpaces(300_000)),
                        "built like no workbook"),
                xlsx(
                        "relations without end",
                        () ->
                                Parts.small()
                                        .put(
                                                "_rels/.rels",
                                                Parts.repeated(
                                                        "<Relationships>",
                                                        "<Relationship Id=\"a\" Type=\"b\" Target=\"c\"/>",
                                                        120L << 20,
                                                        "</Relationships>"))
                                        .bytes(),
                        "too long"),
                xlsx("5,000 parts", HostileFiles::manyParts, "5006 parts"),
                xlsx(
                        "an entity of a file",
                        () ->
                                sheetPart(
                                        String.format(
                                                DOCTYPE,
                                                "<!ENTITY x SYSTEM \"file:///etc/passwd\">")),
                        "document type"),
                xlsx(
                        "an entity of an address",
                        () ->
                                sheetPart(
                                        String.format(
                                                DOCTYPE,
                                                "<!ENTITY x SYSTEM \"http://127.0.0.1:9/x\">")),
                        "document type"),
                xlsx(
                        "an outside document type",
                        () ->
                                sheetPart(
                                        "<!DOCTYPE worksheet SYSTEM \"http://127.0.0.1:9/x.dtd\"><worksheet/>"),
                        "document type"),
                xlsx(
                        "entities of entities",
                        () -> sheetPart(String.format(DOCTYPE, laughs())),
                        "document type"),
                xlsx(
                        "entities in the list of texts",
                        () ->
                                Parts.small()
                                        .put(
                                                "xl/sharedStrings.xml",
                                                String.format(DOCTYPE, laughs()))
                                        .bytes(),
                        "document type"),
                xlsx(
                        "a sheet in UTF-16, where a document type could hide",
                        () ->
                                sheetPart(
                                        out ->
                                                out.write(
                                                        ("\ufeff"
                                                                        + String.format(
                                                                                DOCTYPE, laughs()))
                                                                .getBytes(
                                                                        StandardCharsets
                                                                                .UTF_16BE))),
                        "UTF-8"),
                xlsx(
                        "a sheet that says it is in UTF-7",
                        () ->
                                sheetPart(
                                        "<?xml version=\"1.0\" encoding=\"UTF-7\"?>"
                                                + Parts.SHEET
                                                + "</worksheet>"),
                        "UTF-8"),
                new Hostile("macros, as .xlsm", "a.xlsm", HostileFiles::macros, "macros"),
                xlsx("macros, called .xlsx", HostileFiles::macros, "macros"),
                xlsx(
                        "macros by the kind of its workbook alone",
                        () -> kind("application/vnd.ms-excel.sheet.macroEnabled.main+xml"),
                        "macros"),
                xlsx(
                        "sheets of macros of the oldest kind",
                        () -> Parts.small().put("xl/macrosheets/sheet1.xml", "<a/>").bytes(),
                        "macros"),
                xlsx(
                        "a binary workbook",
                        () -> Parts.small().put("xl/workbook.bin", "x").bytes(),
                        ".xlsb"),
                new Hostile(
                        "an old workbook",
                        "a.xls",
                        () -> noise(20_000, 0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1),
                        ".xls"),
                xlsx("a protected workbook", HostileFiles::encrypted, "password"),
                new Hostile("an OpenDocument sheet", "a.ods", HostileFiles::openDocument, ".ods"),
                xlsx(
                        "a text document",
                        () ->
                                kind(
                                        "application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml"),
                        "no workbook"),
                xlsx("a zip of something else", () -> zipOf("readme.txt"), "no workbook"),
                xlsx(
                        "an empty zip",
                        () ->
                                new byte[] {
                                    0x50, 0x4B, 5, 6, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0,
                                    0, 0, 0
                                },
                        "no workbook"),
                xlsx("csv called .xlsx", () -> text("a,b\n1,2\n"), "but holds separated values"),
                csv("a workbook called .csv", () -> Parts.small().bytes(), "but holds a workbook"),
                new Hostile(
                        "csv called .xls",
                        "a.xls",
                        () -> text("a,b\n1,2\n"),
                        "but holds separated values"),
                new Hostile(
                        "csv called .exe",
                        "a.exe",
                        () -> text("a,b\n1,2\n"),
                        "but holds separated values"),
                xlsx("half of a zip", () -> half(Parts.small().bytes()), "cut off"),
                xlsx(
                        "a zip without its beginning",
                        () -> spoiled(Parts.small().bytes()),
                        "damaged"),
                xlsx(
                        "a sheet that is missing",
                        () -> Parts.small().without("xl/worksheets/sheet1.xml").bytes(),
                        "missing"),
                xlsx(
                        "texts that are missing",
                        () -> Parts.small().put("xl/sharedStrings.xml", "<sst/>").bytes(),
                        "missing"),
                xlsx(
                        "a list of texts that is missing",
                        () -> Parts.small().without("xl/sharedStrings.xml").bytes(),
                        "missing"),
                xlsx(
                        "a text with the number of a far star",
                        () -> cells("<c r=\"A1\" t=\"s\"><v>999999999</v></c>"),
                        "missing"),
                xlsx(
                        "a number of ten thousand digits",
                        () -> cells("<c r=\"A1\"><v>" + "9".repeat(1900) + "</v></c>"),
                        "damaged"),
                xlsx("a number beyond all", () -> cells("<c r=\"A1\"><v>1e999</v></c>"), "damaged"),
                xlsx("not a number", () -> cells("<c r=\"A1\"><v>NaN</v></c>"), "damaged"),
                xlsx(
                        "a cell in the farthest corner",
                        () -> cells("<c r=\"A1\"><v>1</v></c><c r=\"XFD1048576\"><v>1</v></c>"),
                        "XFD1048576"),
                xlsx(
                        "a cell beyond every sheet",
                        () -> cells("<c r=\"A1\"><v>1</v></c><c r=\"ZZZZ99999999\"><v>1</v></c>"),
                        "damaged"),
                xlsx(
                        "a cell in the farthest column",
                        () -> cells("<c r=\"A1\"><v>1</v></c><c r=\"XFD1\"><v>1</v></c>"),
                        "XFD1"),
                xlsx(
                        "a null character in a text",
                        () -> cells("<c r=\"A1\" t=\"inlineStr\"><is><t>a_x0000_b</t></is></c>"),
                        "U+0000"),
                xlsx(
                        "half a character in a text",
                        () -> cells("<c r=\"A1\" t=\"inlineStr\"><is><t>a_xD800_b</t></is></c>"),
                        "U+D800"),
                xlsx("nothing in it", () -> cells(""), "holds nothing"),
                xlsx("a million rows of numbers", () -> millionRows(false), "too many rows"),
                xlsx("a million rows of different texts", () -> millionRows(true), "too many rows"),
                xlsx("20,000 rows of 256 cells", HostileFiles::fullRows, "too many cells"),
                xlsx(
                        "texts of 20 million characters",
                        HostileFiles::longTexts,
                        "characters of text"),
                csv(
                        "a line of 10 MB without a separator",
                        () -> text("a".repeat(10 << 20)),
                        "5000 characters"),
                csv("a line of 5 million fields", () -> text("a,".repeat(5 << 20)), "256 columns"),
                csv("half a million lines", () -> text("a,b,c\n".repeat(500_000)), "too many rows"),
                csv(
                        "a quotation mark that never closes",
                        () -> text("a,b\n1,\"2\n" + "3,4\n".repeat(10)),
                        "quotation mark"),
                csv(
                        "10 MB in one quoted value",
                        () -> text("a,\"" + "b\n".repeat(5_000_000)),
                        "quotation mark"),
                csv(
                        "letters behind a quoted value",
                        () -> text("a,b\n\"1\"x,2\n"),
                        "quotation mark"),
                csv("a program", () -> noise(100_000, 0x7F, 'E', 'L', 'F'), "no text"),
                csv("null characters", () -> text("a,b\n1,\u0000\n"), "U+0000"),
                csv(
                        "UTF-16 without its mark",
                        () -> "a,b\n1,2\n".getBytes(StandardCharsets.UTF_16LE),
                        "U+0000"),
                csv(
                        "UTF-16 cut within a character",
                        () -> new byte[] {(byte) 0xFF, (byte) 0xFE, 'a', 0, 'b'},
                        "UTF-16"),
                csv("a picture", () -> noise(5_000, 0x89, 'P', 'N', 'G'), "neither"),
                csv("a document", () -> noise(5_000, '%', 'P', 'D', 'F'), "neither"),
                csv(
                        "a web page",
                        () -> text("<html><table><tr><td>1</td></tr></table></html>"),
                        "web page"),
                csv("nothing", () -> new byte[0], "empty"),
                csv("nothing but line ends", () -> text("\r\n\r\n,,,\n"), "holds nothing"));
    }

    private static Hostile xlsx(String what, Supplier<byte[]> content, String reason) {
        return new Hostile(what, "a.xlsx", content, reason);
    }

    private static Hostile csv(String what, Supplier<byte[]> content, String reason) {
        return new Hostile(what, "a.csv", content, reason);
    }

    static byte[] text(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    private static byte[] noise(int length, int... begin) {
        byte[] noise = new byte[length];
        new Random(1).nextBytes(noise);
        for (int i = 0; i < begin.length; i++) {
            noise[i] = (byte) begin[i];
        }
        return noise;
    }

    private static byte[] sheetPart(Parts.Writer sheet) {
        return Parts.small().put("xl/worksheets/sheet1.xml", sheet).bytes();
    }

    private static byte[] sheetPart(String sheet) {
        return Parts.small().put("xl/worksheets/sheet1.xml", sheet).bytes();
    }

    static byte[] cells(String cells) {
        return sheetPart(Parts.sheet("<row r=\"1\">" + cells + "</row>"));
    }

    private static Parts.Writer names(int count) {
        return out -> {
            out.write(text("<worksheet>"));
            for (int i = 0; i < count; i++) {
                out.write(text("<n" + i + "/>"));
            }
            out.write(text("</worksheet>"));
        };
    }

    private static Parts.Writer nameSpaces(int count) {
        return out -> {
            out.write(text("<worksheet>"));
            for (int i = 0; i < count; i++) {
                out.write(text("<n xmlns=\"urn:" + i + "\"/>"));
            }
            out.write(text("</worksheet>"));
        };
    }

    static byte[] withStyles(Parts.Writer styles) {
        return Parts.small()
                .put("xl/styles.xml", styles)
                .put(
                        "xl/_rels/workbook.xml.rels",
                        "<Relationships><Relationship Id=\"r0\" Type=\""
                                + Parts.RELATION
                                + "worksheet\" Target=\"worksheets/sheet1.xml\"/><Relationship Id=\"r1\" Type=\""
                                + Parts.RELATION
                                + "styles\" Target=\"styles.xml\"/></Relationships>")
                .bytes();
    }

    private static byte[] manyParts() {
        Parts parts = Parts.small();
        for (int i = 0; i < 5_000; i++) {
            parts.put("xl/media/" + i + ".xml", "<a/>");
        }
        return parts.bytes();
    }

    private static String laughs() {
        StringBuilder all = new StringBuilder("<!ENTITY a \"ha\">");
        String before = "a";
        for (char c = 'b'; c < 'l'; c++) {
            all.append("<!ENTITY ")
                    .append(c)
                    .append(" \"")
                    .append(("&" + before + ";").repeat(10))
                    .append("\">");
            before = String.valueOf(c);
        }
        return all + "<!ENTITY x \"&" + before + ";\">";
    }

    private static byte[] macros() {
        return Parts.small().put("xl/vbaProject.bin", "x").bytes();
    }

    private static byte[] kind(String kind) {
        return Parts.small()
                .put(
                        "[Content_Types].xml",
                        "<Types><Override PartName=\"/xl/workbook.xml\" ContentType=\""
                                + kind
                                + "\"/></Types>")
                .bytes();
    }

    private static byte[] encrypted() {
        byte[] content = noise(20_000, 0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1);
        byte[] name = "EncryptedPackage".getBytes(StandardCharsets.UTF_16LE);
        System.arraycopy(name, 0, content, 5_000, name.length);
        return content;
    }

    private static byte[] openDocument() {
        return zipOf("mimetype", "content.xml");
    }

    private static byte[] zipOf(String... names) {
        Parts parts = new Parts();
        for (String name : names) {
            parts.put(name, "x");
        }
        return parts.bytes();
    }

    private static byte[] half(byte[] whole) {
        return Arrays.copyOf(whole, whole.length / 2);
    }

    private static byte[] spoiled(byte[] whole) {
        byte[] spoiled = whole.clone();
        Arrays.fill(spoiled, 10, 60, (byte) 0xFF);
        return spoiled;
    }

    /** As a program would write it that lists its texts, 5 to 10 MB. */
    static byte[] millionRows(boolean texts) {
        Parts parts =
                Parts.small()
                        .rows(
                                out -> {
                                    for (int row = 1; row <= 1_000_000; row++) {
                                        write(
                                                out,
                                                "<row r=\""
                                                        + row
                                                        + "\"><c r=\"A"
                                                        + row
                                                        + (texts ? "\" t=\"s\"><v>" : "\"><v>")
                                                        + (row - 1)
                                                        + "</v></c></row>");
                                    }
                                });
        if (texts) {
            parts.put(
                    "xl/sharedStrings.xml",
                    out -> {
                        write(out, "<sst>");
                        for (int i = 0; i < 1_000_000; i++) {
                            write(out, "<si><t>Row " + i + "</t></si>");
                        }
                        write(out, "</sst>");
                    });
        }
        return parts.bytes();
    }

    private static byte[] fullRows() {
        return Parts.small()
                .rows(
                        out -> {
                            for (int row = 1; row <= 20_000; row++) {
                                write(out, "<row>" + "<c><v>1</v></c>".repeat(256) + "</row>");
                            }
                        })
                .bytes();
    }

    private static byte[] longTexts() {
        return Parts.small()
                .rows(
                        out -> {
                            for (int row = 1; row <= 12_000; row++) {
                                write(
                                        out,
                                        "<row><c t=\"inlineStr\"><is><t>"
                                                + ("text " + row + " ").repeat(150)
                                                + "</t></is></c></row>");
                            }
                        })
                .bytes();
    }

    private static void write(OutputStream out, String text) {
        try {
            out.write(text(text));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
