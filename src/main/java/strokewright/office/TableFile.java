package strokewright.office;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.InvalidInput;

/** A file with a table that somebody sent: csv or xlsx, told by what it holds. */
public final class TableFile {

    private static final byte[] ENCRYPTED = "EncryptedPackage".getBytes(StandardCharsets.UTF_16LE);

    private TableFile() {}

    private enum Form {
        CSV("separated values"),
        XLSX("a workbook"),
        OLD_OFFICE("a workbook of the old kind"),
        OTHER("neither csv nor a workbook");

        private final String words;

        Form(String words) {
            this.words = words;
        }
    }

    /**
     * Reads it whole, or not at all.
     *
     * @param name as its sender calls it, or null; its ending must fit what it holds
     * @param mediaType as its sender calls its kind, or null; must fit too where it is csv or xlsx
     * @param sheet to be read of a workbook that has it; else the first that can be seen
     * @throws InvalidInput with the reason in words, without a pointer
     */
    public static Table read(
            byte[] content,
            @Nullable String name,
            @Nullable String mediaType,
            @Nullable String sheet,
            Limits limits) {
        if (content.length == 0) {
            throw new InvalidInput("", "is empty: send a csv or .xlsx file");
        }
        if (content.length > limits.bytes()) {
            throw new InvalidInput(
                    "", "is too large: at most " + (limits.bytes() >> 20) + " MB are taken");
        }
        Form form = formOf(content);
        if (form == Form.OLD_OFFICE) {
            throw contains(content, ENCRYPTED)
                    ? Xlsx.encrypted()
                    : new InvalidInput(
                            "",
                            "is an office file of the old kind (.xls): save it as .xlsx or csv");
        }
        if (form == Form.OTHER) {
            throw new InvalidInput("", "is neither csv nor a workbook (.xlsx)");
        }
        Table table = form == Form.CSV ? null : Xlsx.read(content, limits, sheet);
        checkNamed(form, name, mediaType);
        return table == null ? Csv.read(content, limits) : table;
    }

    private static Form formOf(byte[] content) {
        if (startsWith(content, 0x50, 0x4B, 0x03, 0x04) || startsWith(content, 0x50, 0x4B, 5, 6)) {
            return Form.XLSX;
        }
        if (startsWith(content, 0xD0, 0xCF, 0x11, 0xE0)) {
            return Form.OLD_OFFICE;
        }
        boolean other =
                startsWith(content, '%', 'P', 'D', 'F')
                        || startsWith(content, 0x89, 'P', 'N', 'G')
                        || startsWith(content, 0xFF, 0xD8, 0xFF)
                        || startsWith(content, 'G', 'I', 'F', '8')
                        || startsWith(content, 0x1F, 0x8B)
                        || startsWith(content, '7', 'z', 0xBC, 0xAF)
                        || startsWith(content, 'R', 'a', 'r', '!');
        return other ? Form.OTHER : Form.CSV;
    }

    private static boolean startsWith(byte[] content, int... bytes) {
        if (content.length < bytes.length) {
            return false;
        }
        for (int i = 0; i < bytes.length; i++) {
            if (content[i] != (byte) bytes[i]) {
                return false;
            }
        }
        return true;
    }

    private static boolean contains(byte[] content, byte[] wanted) {
        for (int i = 0; i + wanted.length <= content.length; i++) {
            if (content[i] == wanted[0]
                    && Arrays.equals(wanted, Arrays.copyOfRange(content, i, i + wanted.length))) {
                return true;
            }
        }
        return false;
    }

    /** A file that is not what it is called was mixed up, or somebody hopes that it will be. */
    private static void checkNamed(Form form, @Nullable String name, @Nullable String mediaType) {
        String ending = name == null ? "" : ending(name);
        boolean fits =
                switch (ending) {
                    case "" -> true;
                    case "csv", "txt", "tsv", "tab" -> form == Form.CSV;
                    case "xlsx" -> form == Form.XLSX;
                    default -> false;
                };
        if (!fits) {
            throw new InvalidInput(
                    "",
                    "is called ."
                            + Texts.cut(ending, 20)
                            + " but holds "
                            + form.words
                            + ": send it under its right name");
        }
        String kind = mediaType == null ? "" : mediaType.toLowerCase(Locale.ROOT);
        if (form == Form.XLSX && kind.startsWith("text/")
                || form == Form.CSV && kind.startsWith(Xlsx.MEDIA_TYPE)) {
            throw new InvalidInput(
                    "", "is sent as " + Texts.cut(kind, 80) + " but holds " + form.words);
        }
    }

    private static String ending(String name) {
        String last = name.substring(Math.max(name.lastIndexOf('/'), name.lastIndexOf('\\')) + 1);
        int dot = last.lastIndexOf('.');
        return dot < 0 ? "" : last.substring(dot + 1).strip().toLowerCase(Locale.ROOT);
    }
}
