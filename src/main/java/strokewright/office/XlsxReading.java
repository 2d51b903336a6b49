package strokewright.office;

import java.math.BigDecimal;
import java.time.LocalDateTime;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.poi.ss.usermodel.DateUtil;
import org.apache.poi.ss.util.CellReference;
import org.jspecify.annotations.Nullable;
import org.xml.sax.Attributes;
import strokewright.office.XlsxParts.Enough;
import strokewright.office.XlsxParts.Handler;
import strokewright.office.XlsxParts.Relation;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.PlainText;

/**
 * Reads the values of one sheet. Texts stand in a list of their own in the file: the sheet is read
 * first, so that of that list only what the sheet needs is kept, and a sheet with too many rows is
 * refused before anything of it was.
 */
final class XlsxReading {

    private static final Pattern CELL = Pattern.compile("([A-Z]{1,3})([1-9]\\d{0,6})");

    /** How the file writes a character that XML does not know (ECMA-376, part 1, ST_Xstring). */
    private static final Pattern ESCAPED = Pattern.compile("_x([0-9A-Fa-f]{4})_");

    private static final int LONGEST_NUMBER = 100;
    private static final int LONGEST_FORMAT = 255;
    private static final int MOST_STYLES = 65_536;

    private final XlsxParts parts;
    private final Limits limits;

    /** Where a text of the list goes; as long as it is not known what it says. */
    private record Listed(int index) {}

    private final TreeMap<Integer, TreeMap<Integer, Object>> rows = new TreeMap<>();
    private final BitSet wantedTexts = new BitSet();
    private final BitSet dateStyles = new BitSet();
    private boolean from1904;
    private int cells;
    private int characters;

    private XlsxReading(XlsxParts parts, Limits limits) {
        this.parts = parts;
        this.limits = limits;
    }

    static Table of(XlsxParts parts, Limits limits, @Nullable String wanted) {
        return new XlsxReading(parts, limits).read(wanted);
    }

    private record SheetEntry(String name, String relation, boolean seen) {}

    private Table read(@Nullable String wanted) {
        String workbook = parts.workbook();
        Map<String, Relation> relations = new HashMap<>();
        parts.relations(workbook).forEach(r -> relations.put(r.id(), r));
        List<SheetEntry> sheets =
                sheets(workbook).stream().filter(s -> isSheet(relations.get(s.relation))).toList();
        SheetEntry sheet = chosen(sheets, wanted);
        relations.values().stream()
                .filter(r -> r.type().equals("styles") && r.part() != null)
                .findFirst()
                .ifPresent(r -> readStyles(r.part()));
        readSheet(relations.get(sheet.relation).part());
        if (rows.isEmpty()) {
            throw new InvalidInput("", "holds nothing on its sheet " + sheet.name);
        }
        Map<Integer, Value> texts = new HashMap<>();
        if (!wantedTexts.isEmpty()) {
            Relation list =
                    relations.values().stream()
                            .filter(r -> r.type().equals("sharedStrings") && r.part() != null)
                            .findFirst()
                            .orElseThrow(() -> Xlsx.damaged("its list of texts is missing"));
            readTexts(list.part(), texts);
        }
        return new Table(
                sheet.name,
                sheets.stream().filter(s -> s.seen && s != sheet).map(SheetEntry::name).toList(),
                filled(texts));
    }

    private static boolean isSheet(@Nullable Relation relation) {
        return relation != null && relation.type().equals("worksheet") && relation.part() != null;
    }

    private static SheetEntry chosen(List<SheetEntry> sheets, @Nullable String wanted) {
        return sheets.stream()
                .filter(s -> s.name.equals(wanted))
                .findFirst()
                .or(() -> sheets.stream().filter(SheetEntry::seen).findFirst())
                .orElseThrow(() -> new InvalidInput("", "has no sheet with cells"));
    }

    private List<SheetEntry> sheets(String workbook) {
        List<SheetEntry> sheets = new ArrayList<>();
        parts.read(
                workbook,
                new Handler() {
                    @Override
                    void begin(String name, Attributes with) {
                        if (name.equals("workbookPr")) {
                            String flag = attribute(with, "date1904");
                            from1904 = "1".equals(flag) || "true".equals(flag);
                        } else if (name.equals("sheet")) {
                            String called = attribute(with, "name");
                            String relation = attribute(with, "id");
                            String state = attribute(with, "state");
                            if (called == null || relation == null || sheets.size() == 1000) {
                                throw Xlsx.damaged("its list of sheets");
                            }
                            sheets.add(
                                    new SheetEntry(
                                            called,
                                            relation,
                                            state == null || state.equals("visible")));
                        }
                    }
                });
        return sheets;
    }

    // Formats -----------------------------------------------------------------------------------

    /** Which looks make a number a date. */
    private void readStyles(String part) {
        parts.read(
                part,
                new Handler() {
                    private final Map<Integer, Boolean> own = new HashMap<>();
                    private boolean within;
                    private int style;

                    @Override
                    void begin(String name, Attributes with) {
                        if (name.equals("numFmt") && own.size() < MOST_STYLES) {
                            String format = attribute(with, "formatCode");
                            int id = whole(attribute(with, "numFmtId"), 0);
                            own.put(
                                    id,
                                    format != null
                                            && format.length() <= LONGEST_FORMAT
                                            && DateUtil.isADateFormat(id, format));
                        } else if (name.equals("cellXfs")) {
                            within = true;
                        } else if (name.equals("xf") && within) {
                            if (style == MOST_STYLES) {
                                throw new Enough();
                            }
                            int id = whole(attribute(with, "numFmtId"), 0);
                            dateStyles.set(
                                    style++,
                                    own.getOrDefault(id, DateUtil.isInternalDateFormat(id)));
                        }
                    }

                    @Override
                    void end(String name) {
                        if (name.equals("cellXfs")) {
                            throw new Enough();
                        }
                    }
                });
    }

    private static int whole(@Nullable String text, int otherwise) {
        return text != null && text.matches("\\d{1,9}") ? Integer.parseInt(text) : otherwise;
    }

    // Cells -------------------------------------------------------------------------------------

    private void readSheet(String part) {
        parts.read(part, new Cells());
    }

    private final class Cells extends Handler {

        private final StringBuilder value = new StringBuilder();
        private final StringBuilder inline = new StringBuilder();
        private @Nullable StringBuilder taking;
        private String type = "";
        private boolean isDate;
        private boolean hasFormula;
        private boolean phonetic;
        private int row;
        private int column = -1;

        @Override
        void begin(String name, Attributes with) {
            switch (name) {
                case "row" -> {
                    String number = attribute(with, "r");
                    row = number == null ? row + 1 : whole(number, 0);
                    column = -1;
                }
                case "c" -> beginCell(with);
                case "f" -> hasFormula = true;
                case "v" -> taking = value;
                case "rPh" -> phonetic = true;
                case "t" -> taking = phonetic ? null : inline;
                default -> taking = null;
            }
        }

        private void beginCell(Attributes with) {
            String place = attribute(with, "r");
            column++;
            if (place != null) {
                Matcher m = CELL.matcher(place);
                if (!m.matches()) {
                    throw Xlsx.damaged("a cell is called " + Texts.cut(place, 20));
                }
                column = CellReference.convertColStringToIndex(m.group(1));
                row = Integer.parseInt(m.group(2));
            }
            type = attribute(with, "t") == null ? "n" : attribute(with, "t");
            isDate = dateStyles.get(whole(attribute(with, "s"), 0));
            hasFormula = false;
            value.setLength(0);
            inline.setLength(0);
        }

        @Override
        public void characters(char[] text, int start, int length) {
            if (taking != null) {
                if (taking.length() + length > limits.cellCharacters()) {
                    throw Csv.cellTooLong(row, limits);
                }
                taking.append(text, start, length);
            }
        }

        @Override
        void end(String name) {
            switch (name) {
                case "v", "t" -> taking = null;
                case "rPh" -> phonetic = false;
                case "c" -> keep(found());
                case "sheetData" -> throw new Enough();
                default -> {
                    // nothing that stands in a cell
                }
            }
        }

        private @Nullable Object found() {
            String text = value.toString();
            if (type.equals("inlineStr")) {
                return words(inline.toString());
            }
            if (text.isBlank()) {
                return hasFormula && !type.equals("str")
                        ? new Value.Unusable(
                                "has a formula whose result is not stored: open the file, save it"
                                        + " anew")
                        : null;
            }
            return switch (type) {
                case "s" -> listed(text.strip());
                case "str" -> words(text);
                case "b" ->
                        new Value.YesNo(text.strip().equals("1") || text.strip().equals("true"));
                case "e" -> new Value.Unusable("holds the error " + Texts.cut(text.strip(), 20));
                case "d" -> moment(text.strip());
                default -> number(text.strip());
            };
        }

        private Listed listed(String index) {
            int at = whole(index, -1);
            if (at < 0) {
                throw Xlsx.damaged("a text of row " + row + " is missing");
            }
            return new Listed(at);
        }

        private @Nullable Value words(String text) {
            Value words = Value.text(decoded(text, row));
            return words instanceof Value.Text ? words : null;
        }

        private Value number(String text) {
            double number = Double.NaN;
            try {
                number = text.length() > LONGEST_NUMBER ? number : Double.parseDouble(text);
            } catch (NumberFormatException e) {
                // told below
            }
            if (!Double.isFinite(number)) {
                throw Xlsx.damaged("a number of row " + row + " is none");
            }
            if (isDate && DateUtil.isValidExcelDate(number)) {
                LocalDateTime at = DateUtil.getLocalDateTime(number, from1904, true);
                if (at != null) {
                    return new Value.Moment(at);
                }
            }
            return new Value.Number(plain(number));
        }

        private Value moment(String text) {
            try {
                return new Value.Moment(
                        text.contains("T")
                                ? LocalDateTime.parse(text.replaceFirst("Z$", ""))
                                : java.time.LocalDate.parse(text).atStartOfDay());
            } catch (DateTimeParseException e) {
                throw Xlsx.damaged("a date of row " + row + " is none");
            }
        }

        private void keep(@Nullable Object found) {
            if (found == null) {
                return;
            }
            if (row < 1) {
                throw Xlsx.damaged("a row has no number");
            }
            boolean tooMany =
                    row > limits.rows() || !rows.containsKey(row) && rows.size() == limits.rows();
            if (tooMany) {
                throw rows.size() < limits.rows() / 2 ? tooFarDown() : Csv.tooManyRows(limits);
            }
            if (column >= limits.columns()) {
                throw Csv.tooManyColumns(Table.cellName(row, column), limits);
            }
            if (++cells > limits.cells()) {
                throw Csv.tooManyCells(limits);
            }
            if (found instanceof Value.Text text) {
                count(text.text());
            } else if (found instanceof Listed listed) {
                wantedTexts.set(listed.index);
            }
            rows.computeIfAbsent(row, r -> new TreeMap<>()).put(column, found);
        }

        private InvalidInput tooFarDown() {
            return new InvalidInput(
                    "",
                    "has something in "
                            + Table.cellName(row, column)
                            + ": rows are taken up to "
                            + limits.rows()
                            + ". Empty the cells that are no part of the table");
        }
    }

    /** An exponent never comes far: the text of a double has at most three digits of it. */
    private static BigDecimal plain(double number) {
        BigDecimal exact = BigDecimal.valueOf(number + 0.0).stripTrailingZeros();
        return exact.scale() < 0 ? exact.setScale(0) : exact;
    }

    private String decoded(String text, int row) {
        String plain =
                ESCAPED.matcher(text)
                        .replaceAll(
                                m ->
                                        Matcher.quoteReplacement(
                                                String.valueOf(
                                                        (char) Integer.parseInt(m.group(1), 16))));
        for (int i = 0; i < plain.length(); i++) {
            char c = plain.charAt(i);
            if (PlainText.isForeign(c) || Character.isSurrogate(c) && !isPaired(plain, i)) {
                throw new InvalidInput(
                        "",
                        String.format(
                                java.util.Locale.ROOT,
                                "has the character U+%04X in a cell of row %d, as no text has",
                                (int) c,
                                row));
            }
        }
        return plain;
    }

    private static boolean isPaired(String text, int at) {
        return Character.isHighSurrogate(text.charAt(at))
                ? at + 1 < text.length() && Character.isLowSurrogate(text.charAt(at + 1))
                : at > 0 && Character.isHighSurrogate(text.charAt(at - 1));
    }

    private void count(String text) {
        characters += text.length();
        if (characters > limits.characters()) {
            throw new InvalidInput(
                    "",
                    "holds more than "
                            + limits.characters()
                            + " characters of text: send it in parts");
        }
    }

    // The list of texts -------------------------------------------------------------------------

    private void readTexts(String part, Map<Integer, Value> texts) {
        parts.read(
                part,
                new Handler() {
                    private final StringBuilder text = new StringBuilder();
                    private final int last = wantedTexts.length() - 1;
                    private int index = -1;
                    private boolean taking;
                    private boolean phonetic;

                    @Override
                    void begin(String name, Attributes with) {
                        switch (name) {
                            case "si" -> {
                                index++;
                                text.setLength(0);
                            }
                            case "rPh" -> phonetic = true;
                            case "t" -> taking = !phonetic && wantedTexts.get(Math.max(0, index));
                            default -> taking = false;
                        }
                    }

                    @Override
                    public void characters(char[] characters, int start, int length) {
                        if (!taking) {
                            return;
                        }
                        if (text.length() + length > limits.cellCharacters()) {
                            throw Csv.cellTooLong(rowOf(index), limits);
                        }
                        text.append(characters, start, length);
                    }

                    @Override
                    void end(String name) {
                        switch (name) {
                            case "t" -> taking = false;
                            case "rPh" -> phonetic = false;
                            case "si" -> {
                                if (index >= 0 && wantedTexts.get(index)) {
                                    String plain = decoded(text.toString(), rowOf(index));
                                    count(plain);
                                    texts.put(index, Value.text(plain));
                                }
                                if (index == last) {
                                    throw new Enough();
                                }
                            }
                            default -> {
                                // runs and their looks
                            }
                        }
                    }
                });
    }

    private int rowOf(int text) {
        return rows.entrySet().stream()
                .filter(r -> r.getValue().containsValue(new Listed(text)))
                .map(Map.Entry::getKey)
                .findFirst()
                .orElse(0);
    }

    /** Lets go of what it was read into row by row. */
    private List<Table.Row> filled(Map<Integer, Value> texts) {
        List<Table.Row> filled = new ArrayList<>(rows.size());
        for (Map.Entry<Integer, TreeMap<Integer, Object>> row = rows.pollFirstEntry();
                row != null;
                row = rows.pollFirstEntry()) {
            List<Value> values = new ArrayList<>();
            int number = row.getKey();
            row.getValue()
                    .forEach(
                            (column, found) -> {
                                Value value =
                                        found instanceof Listed l
                                                ? texts.get(l.index)
                                                : (Value) found;
                                if (value == null) {
                                    throw Xlsx.damaged("a text of row " + number + " is missing");
                                }
                                if (!(value instanceof Value.Blank)) {
                                    while (values.size() < column) {
                                        values.add(Value.BLANK);
                                    }
                                    values.add(value);
                                }
                            });
            if (!values.isEmpty()) {
                filled.add(new Table.Row(number, values));
            }
        }
        return filled;
    }
}
