package strokewright.office;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Consumer;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

/** A workbook put together part by part, to be spoiled in one of them. */
final class Parts {

    interface Writer {
        void to(OutputStream out) throws IOException;
    }

    private static final String XML = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>";
    static final String SHEET =
            "<worksheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\">";
    static final String RELATION =
            "http://schemas.openxmlformats.org/officeDocument/2006/relationships/";

    private final Map<String, Writer> parts = new LinkedHashMap<>();

    /** One sheet with a head and a row, its texts in the list of texts. */
    static Parts small() {
        Parts parts = new Parts();
        parts.put(
                "[Content_Types].xml",
                XML
                        + "<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\">"
                        + "<Default Extension=\"xml\" ContentType=\"application/xml\"/>"
                        + "<Override PartName=\"/xl/workbook.xml\" ContentType=\"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml\"/>"
                        + "</Types>");
        parts.put("_rels/.rels", relations("officeDocument", "xl/workbook.xml"));
        parts.put(
                "xl/workbook.xml",
                XML
                        + "<workbook xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\" xmlns:r=\""
                        + RELATION.replaceAll("/$", "")
                        + "\"><sheets><sheet name=\"One\" sheetId=\"1\" r:id=\"r0\"/></sheets></workbook>");
        parts.put(
                "xl/_rels/workbook.xml.rels",
                relations(
                        "worksheet",
                        "worksheets/sheet1.xml",
                        "sharedStrings",
                        "sharedStrings.xml"));
        parts.put(
                "xl/sharedStrings.xml",
                XML + "<sst><si><t>Name</t></si><si><t>Price</t></si><si><t>Rim</t></si></sst>");
        parts.put("xl/worksheets/sheet1.xml", sheet(ROWS));
        return parts;
    }

    static final String ROWS =
            "<row r=\"1\"><c r=\"A1\" t=\"s\"><v>0</v></c><c r=\"B1\" t=\"s\"><v>1</v></c></row>"
                    + "<row r=\"2\"><c r=\"A2\" t=\"s\"><v>2</v></c><c r=\"B2\"><v>4.5</v></c></row>";

    static String sheet(String rows) {
        return XML + SHEET + "<sheetData>" + rows + "</sheetData></worksheet>";
    }

    private static String relations(String... typesAndTargets) {
        StringBuilder all =
                new StringBuilder(
                        XML
                                + "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">");
        for (int i = 0; i < typesAndTargets.length; i += 2) {
            all.append("<Relationship Id=\"r")
                    .append(i / 2)
                    .append("\" Type=\"")
                    .append(RELATION)
                    .append(typesAndTargets[i])
                    .append("\" Target=\"")
                    .append(typesAndTargets[i + 1])
                    .append("\"/>");
        }
        return all.append("</Relationships>").toString();
    }

    Parts put(String name, String content) {
        return put(name, out -> out.write(content.getBytes(StandardCharsets.UTF_8)));
    }

    Parts put(String name, Writer content) {
        parts.put(name, content);
        return this;
    }

    Parts without(String name) {
        parts.remove(name);
        return this;
    }

    /** The sheet's rows as they come, without holding them. */
    Parts rows(Consumer<OutputStream> rows) {
        return put(
                "xl/worksheets/sheet1.xml",
                out -> {
                    out.write((XML + SHEET + "<sheetData>").getBytes(StandardCharsets.UTF_8));
                    rows.accept(out);
                    out.write("</sheetData></worksheet>".getBytes(StandardCharsets.UTF_8));
                });
    }

    /** The same bytes again and again. */
    static Writer repeated(String before, String text, long bytes, String after) {
        return out -> {
            out.write(before.getBytes(StandardCharsets.UTF_8));
            byte[] block =
                    text.repeat(Math.max(1, 8192 / text.length())).getBytes(StandardCharsets.UTF_8);
            for (long n = 0; n < bytes; n += block.length) {
                out.write(block);
            }
            out.write(after.getBytes(StandardCharsets.UTF_8));
        };
    }

    byte[] bytes() {
        try (ByteArrayOutputStream out = new ByteArrayOutputStream();
                ZipOutputStream zip = new ZipOutputStream(out)) {
            for (Map.Entry<String, Writer> part : parts.entrySet()) {
                zip.putNextEntry(new ZipEntry(part.getKey()));
                part.getValue().to(zip);
                zip.closeEntry();
            }
            zip.finish();
            return out.toByteArray();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
