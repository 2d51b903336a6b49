package strokewright.office;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import strokewright.quantity.InvalidInput;

/**
 * A workbook's part on its way to the XML parser. The parser holds a tag, a comment or an
 * instruction in memory as a whole, however long, and would expand entities; so whatever is longer
 * than any honest workbook has it is refused here, and so is a document type, before the parser
 * sees it. Counts what was unpacked, too.
 */
final class PlainXml extends FilterInputStream {

    private static final int LONGEST_TAG = 32 << 10;
    private static final int LONGEST_MARKED_SECTION = 256 << 10;
    private static final int LONGEST_INSTRUCTION = 1 << 10;
    private static final Pattern ENCODING =
            Pattern.compile("encoding\\s*=\\s*[\"']([^\"']*)[\"']", Pattern.CASE_INSENSITIVE);

    /** What is left of all that may be unpacked of one file. */
    static final class Allowance {

        private final long most;
        private long left;

        Allowance(long most) {
            this.most = most;
            this.left = most;
        }

        void take(int bytes) {
            left -= bytes;
            if (left < 0) {
                throw new InvalidInput(
                        "",
                        "unpacks to more than "
                                + (most >> 20)
                                + " MB, as no table does that fits in here");
            }
        }
    }

    private enum In {
        BEGIN,
        TEXT,
        OPENED,
        TAG,
        QUOTED,
        EXCLAMATION,
        COMMENT,
        MARKED_SECTION,
        INSTRUCTION
    }

    private final Allowance allowance;
    private final StringBuilder instruction = new StringBuilder();
    private In in = In.BEGIN;
    private int length;
    private int quote;
    private int before;
    private int beforeThat;

    PlainXml(InputStream packed, Allowance allowance) {
        super(packed);
        this.allowance = allowance;
    }

    @Override
    public int read() throws IOException {
        byte[] one = new byte[1];
        return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
    }

    @Override
    public int read(byte[] bytes, int offset, int most) throws IOException {
        int count = super.in.read(bytes, offset, most);
        int end = offset + count;
        for (int i = offset; i < end; i++) {
            if (in == In.TEXT) {
                while (i < end && bytes[i] != '<') { // most of a part: nothing to look for
                    i++;
                }
                if (i == end) {
                    break;
                }
            }
            take(bytes[i] & 0xff);
        }
        allowance.take(Math.max(0, count));
        return count;
    }

    @Override
    public boolean markSupported() {
        return false;
    }

    private void take(int c) {
        switch (in) {
            case BEGIN -> begin(c);
            case TEXT -> {
                if (c == '<') {
                    to(In.OPENED);
                }
            }
            case OPENED -> to(c == '!' ? In.EXCLAMATION : c == '?' ? In.INSTRUCTION : In.TAG);
            case TAG -> tag(c);
            case QUOTED -> {
                atMost(LONGEST_TAG);
                if (c == quote) {
                    in = In.TAG;
                }
            }
            case EXCLAMATION -> exclamation(c);
            case COMMENT -> {
                atMost(LONGEST_TAG);
                end(c, '-');
            }
            case MARKED_SECTION -> {
                atMost(LONGEST_MARKED_SECTION);
                end(c, ']');
            }
            case INSTRUCTION -> instruction(c);
        }
        beforeThat = before;
        before = c;
    }

    private void to(In next) {
        in = next;
        length = 0;
        before = 0;
        beforeThat = 0;
    }

    /** UTF-8, with or without its mark; other encodings could hide what is looked for here. */
    private void begin(int c) {
        boolean mark = length < 3 && c == new int[] {0xEF, 0xBB, 0xBF}[length];
        length++;
        if (c == '<') {
            to(In.OPENED);
        } else if (!mark && c != ' ' && c != '\n' && c != '\r' && c != '\t') {
            throw foreignEncoding();
        }
    }

    private void tag(int c) {
        atMost(LONGEST_TAG);
        if (c == '>') {
            to(In.TEXT);
        } else if (c == '"' || c == '\'') {
            quote = c;
            in = In.QUOTED;
        }
    }

    private void exclamation(int c) {
        length++;
        if (c == '-' && length == 2) {
            to(In.COMMENT);
        } else if (c == '[' && length == 1) {
            to(In.MARKED_SECTION);
        } else if (c != '-') {
            throw new InvalidInput(
                    "",
                    "declares a document type, as no workbook does: such files could read other"
                            + " files or grow without end");
        }
    }

    /** After two of the closing characters, which do not count as opening ones, too. */
    private void end(int c, char closing) {
        if (c == '>' && length >= 3 && before == closing && beforeThat == closing) {
            to(In.TEXT);
        }
    }

    private void instruction(int c) {
        atMost(LONGEST_INSTRUCTION);
        if (c == '>' && before == '?') {
            Matcher encoding = ENCODING.matcher(instruction);
            if (encoding.find()
                    && !encoding.group(1)
                            .toUpperCase(Locale.ROOT)
                            .equals(StandardCharsets.UTF_8.name())) {
                throw foreignEncoding();
            }
            instruction.setLength(0);
            to(In.TEXT);
        } else {
            instruction.append((char) c);
        }
    }

    private void atMost(int bytes) {
        if (++length > bytes) {
            throw new InvalidInput(
                    "",
                    "is no workbook as any program writes it: a single tag of it is longer than "
                            + (bytes >> 10)
                            + " KB");
        }
    }

    private static InvalidInput foreignEncoding() {
        return new InvalidInput("", "is not written in UTF-8, as workbooks are: save it anew");
    }
}
