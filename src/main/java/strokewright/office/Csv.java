package strokewright.office;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import de.siegmar.fastcsv.reader.CsvRecordHandler;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.PlainText;

/**
 * Separated values (RFC 4180), both ways.
 *
 * <p>Written: a text that a spreadsheet program would take for a formula gets an apostrophe in
 * front (so does one that begins with apostrophes and then looks like that), and reading takes one
 * away again. Numbers and dates never get one.
 *
 * <p>Read: separator comma, semicolon or tab, whichever stands most often in the first line, or as
 * a line {@code sep=;} names it; UTF-8, UTF-16 with its mark, else Windows-1252; any line ends.
 * Every value is text.
 */
public final class Csv {

    public static final String MEDIA_TYPE = "text/csv";

    private static final DateTimeFormatter MOMENT =
            DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm:ss");
    private static final char MARK = '\ufeff';

    /** The likelier a separator, the earlier: a head seldom holds a semicolon. */
    private static final String SEPARATORS = ";\t,";

    private Csv() {}

    /**
     * How it is written.
     *
     * @param decimalMark of numbers; they never have thousands apart
     * @param marked with a mark of UTF-8 in front, which spreadsheet programs go by
     */
    public record Manner(char separator, char decimalMark, boolean marked) {

        /** For programs. */
        public static final Manner PLAIN = new Manner(',', '.', false);

        /** For a spreadsheet program of somebody who writes numbers with this decimal mark. */
        public static Manner forPeople(char decimalMark) {
            return new Manner(decimalMark == ',' ? ';' : ',', decimalMark, true);
        }
    }

    /**
     * Writes a table as it comes; the stream stays open.
     *
     * @param rows with as many values as there are columns
     */
    public static void write(
            OutputStream out, Manner manner, List<Column> columns, Iterator<List<Value>> rows) {
        Writer text = new OutputStreamWriter(out, StandardCharsets.UTF_8);
        try {
            if (manner.marked) {
                text.write(MARK);
            }
            CsvWriter csv =
                    CsvWriter.builder()
                            .fieldSeparator(manner.separator)
                            .lineDelimiter(LineDelimiter.CRLF)
                            .build(text);
            csv.writeRecord(columns.stream().map(c -> Texts.guarded(c.head())).toList());
            String[] line = new String[columns.size()];
            while (rows.hasNext()) {
                List<Value> row = rows.next();
                for (int i = 0; i < line.length; i++) {
                    line[i] = written(row.get(i), manner);
                }
                csv.writeRecord(line);
            }
            csv.flush();
            text.flush();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static String written(Value value, Manner manner) {
        if (value instanceof Value.Text text) {
            return Texts.guarded(text.text());
        }
        if (value instanceof Value.Number number) {
            String plain = number.number().toPlainString();
            return manner.decimalMark == '.' ? plain : plain.replace('.', manner.decimalMark);
        }
        if (value instanceof Value.Moment moment) {
            return moment.at().toLocalTime().equals(LocalTime.MIDNIGHT)
                    ? moment.at().toLocalDate().toString()
                    : MOMENT.format(moment.at());
        }
        if (value instanceof Value.YesNo answer) {
            return answer.yes() ? "yes" : "no";
        }
        return "";
    }

    /**
     * @throws InvalidInput with the reason
     */
    static Table read(byte[] content, Limits limits) {
        String text = text(content);
        checkCharacters(text);
        char separator = separator(text);
        String hint = "sep=" + separator;
        int begin = text.regionMatches(true, 0, hint, 0, hint.length()) ? 1 : 0;
        List<Table.Row> rows = new ArrayList<>();
        int number = 0;
        int cells = 0;
        try (CsvReader<CsvRecord> records = reader(text, separator, limits)) {
            for (CsvRecord line : records) {
                number++;
                List<Value> values = number <= begin ? List.of() : values(line);
                if (values.isEmpty()) {
                    continue;
                }
                if (rows.size() == limits.rows() || number > limits.rows() + begin) {
                    throw tooManyRows(limits);
                }
                cells += values.size();
                if (cells > limits.cells()) {
                    throw tooManyCells(limits);
                }
                rows.add(new Table.Row(number, values));
            }
        } catch (CsvParseException e) {
            throw unreadable(e, number + 1, limits);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        if (rows.isEmpty()) {
            throw empty();
        }
        return new Table(null, List.of(), rows);
    }

    private static CsvReader<CsvRecord> reader(String text, char separator, Limits limits) {
        return CsvReader.builder()
                .fieldSeparator(separator)
                .skipEmptyLines(false)
                .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
                .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
                .trimWhitespacesAroundQuotes(true)
                .allowUnclosedQuote(false)
                .build(
                        CsvRecordHandler.builder()
                                .maxFields(limits.columns())
                                .maxFieldSize(limits.cellCharacters())
                                .maxRecordSize(limits.characters())
                                .build(),
                        text);
    }

    /** Up to the last that holds something. */
    private static List<Value> values(CsvRecord line) {
        List<String> fields = line.getFields();
        int end = fields.size();
        while (end > 0 && fields.get(end - 1).isBlank()) {
            end--;
        }
        List<Value> values = new ArrayList<>(end);
        for (String field : fields.subList(0, end)) {
            values.add(Value.text(Texts.unguarded(field)));
        }
        return values;
    }

    // Text --------------------------------------------------------------------------------------

    private static String text(byte[] content) {
        if (startsWith(content, 0xFF, 0xFE)) {
            return decoded(content, 2, StandardCharsets.UTF_16LE, "UTF-16");
        }
        if (startsWith(content, 0xFE, 0xFF)) {
            return decoded(content, 2, StandardCharsets.UTF_16BE, "UTF-16");
        }
        boolean marked = startsWith(content, 0xEF, 0xBB, 0xBF);
        try {
            return decode(content, marked ? 3 : 0, StandardCharsets.UTF_8);
        } catch (CharacterCodingException e) {
            return decoded(
                    content,
                    0,
                    marked ? StandardCharsets.UTF_8 : Charset.forName("windows-1252"),
                    marked ? "UTF-8" : "UTF-8 or Windows-1252");
        }
    }

    private static boolean startsWith(byte[] content, int... bytes) {
        byte[] wanted = new byte[bytes.length];
        for (int i = 0; i < bytes.length; i++) {
            wanted[i] = (byte) bytes[i];
        }
        return content.length >= wanted.length
                && Arrays.equals(wanted, Arrays.copyOf(content, wanted.length));
    }

    private static String decoded(byte[] content, int from, Charset charset, String name) {
        try {
            return decode(content, from, charset);
        } catch (CharacterCodingException e) {
            throw new InvalidInput(
                    "", "is no text in " + name + ": save it as csv in UTF-8, or as .xlsx");
        }
    }

    private static String decode(byte[] content, int from, Charset charset)
            throws CharacterCodingException {
        return charset.newDecoder()
                .decode(ByteBuffer.wrap(content, from, content.length - from))
                .toString();
    }

    /** No control characters but tabs and line ends: the database would not take them. */
    private static void checkCharacters(String text) {
        int line = 1;
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            line += c == '\n' ? 1 : 0;
            if (PlainText.isForeign(c)) {
                throw new InvalidInput(
                        "",
                        String.format(
                                Locale.ROOT,
                                "is no text: line %d has the character U+%04X. Save it as csv in"
                                        + " UTF-8, or as .xlsx",
                                line,
                                (int) c));
            }
        }
        String begin = text.stripLeading();
        if (begin.startsWith("<")) {
            throw new InvalidInput(
                    "", "holds a web page or XML, no separated values: save it as csv or .xlsx");
        }
    }

    private static char separator(String text) {
        if (text.regionMatches(true, 0, "sep=", 0, 4)
                && text.length() > 4
                && SEPARATORS.indexOf(text.charAt(4)) >= 0
                && (text.length() == 5 || "\r\n".indexOf(text.charAt(5)) >= 0)) {
            return text.charAt(4);
        }
        int[] counts = new int[SEPARATORS.length()];
        boolean quoted = false;
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            quoted ^= c == '"';
            int which = SEPARATORS.indexOf(c);
            if (which >= 0 && !quoted) {
                counts[which]++;
            } else if (!quoted
                    && (c == '\n' || c == '\r')
                    && counts[0] + counts[1] + counts[2] > 0) {
                break;
            }
        }
        int best = 0;
        for (int i = 1; i < counts.length; i++) {
            best = counts[i] > counts[best] ? i : best;
        }
        return counts[best] == 0 ? ',' : SEPARATORS.charAt(best);
    }

    // Refusals ----------------------------------------------------------------------------------

    static InvalidInput tooManyRows(Limits limits) {
        return new InvalidInput(
                "",
                "has too many rows: at most "
                        + limits.rows()
                        + " are taken at once. Send it in parts");
    }

    static InvalidInput tooManyColumns(String cell, Limits limits) {
        return new InvalidInput(
                "",
                "has something in "
                        + cell
                        + ": at most "
                        + limits.columns()
                        + " columns are taken");
    }

    static InvalidInput tooManyCells(Limits limits) {
        return new InvalidInput(
                "", "has too many cells: at most " + limits.cells() + " are taken at once");
    }

    static InvalidInput cellTooLong(int row, Limits limits) {
        return new InvalidInput(
                "",
                "has a cell of more than " + limits.cellCharacters() + " characters in row " + row);
    }

    static InvalidInput empty() {
        return new InvalidInput("", "holds nothing: a head and a row are the least");
    }

    private static InvalidInput unreadable(CsvParseException e, int row, Limits limits) {
        String message = String.valueOf(e.getMessage());
        if (message.contains("maximum limit")) {
            return new InvalidInput(
                    "", "has more than " + limits.columns() + " columns in row " + row);
        }
        if (message.contains("max field size") || message.contains("max record size")) {
            return cellTooLong(row, limits);
        }
        return new InvalidInput(
                "",
                "has a quotation mark out of place in or after row "
                        + row
                        + ": a quoted value ends with one, and doubles those within");
    }
}
