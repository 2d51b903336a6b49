package strokewright.exchange;

import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Currency;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import strokewright.office.Table;
import strokewright.office.Value;
import strokewright.quantity.InvalidInput;
import strokewright.web.Numbers;

/**
 * A file's table as its columns mean it: every line that holds something, each cell as somebody
 * would type it with the decimal mark of {@link #numbers}.
 */
public final class FileReading {

    private static final Pattern HEAD =
            Pattern.compile("(.*?)\\s*[(\\[]([^()\\[\\]]*)[)\\]]\\s*:?");
    private static final Pattern LENGTH_UNIT =
            Pattern.compile("mm|cm|m|in|inch|inches|\"|″", Pattern.CASE_INSENSITIVE);
    private static final Pattern LIKE_A_DATE =
            Pattern.compile(
                    "\\d{1,2}[./-]\\d{1,2}[./-]\\d{2,4}|\\d{4}-\\d{1,2}-\\d{1,2}(?:[ T].*)?"
                            + "|\\d{1,2}[. -]{0,2}\\p{L}{3,9}\\.?(?:[. -]\\d{2,4})?"
                            + "|\\p{L}{3,9}[. -]\\d{1,4}");
    private static final Pattern NO_MONTH =
            Pattern.compile("(?i).*(mm|cm|in|inch|inches|ga|kg|gauge).*");
    private static final Pattern ISO_DAY =
            Pattern.compile("(\\d{4})-(\\d{1,2})-(\\d{1,2})(?:[ T].*)?");
    private static final Pattern OTHER_DAY =
            Pattern.compile("(\\d{1,2})([./-])(\\d{1,2})\\2(\\d{4}|\\d{2})");

    /** Day 0 of a spreadsheet program's two calendars. */
    private static final List<LocalDate> NO_DAYS =
            List.of(LocalDate.of(1899, 12, 31), LocalDate.of(1904, 1, 1));

    /** A length of time of so many days or more was meant as a date. */
    private static final int DAYS_OF_A_DURATION = 31;

    private static final int ROWS_TO_FIND_THE_HEAD_IN = 10;
    private static final Map<String, String> SIGNS =
            Map.of("€", "EUR", "$", "USD", "£", "GBP", "¥", "JPY");
    private static final Set<String> YES = Set.of("yes", "true", "y", "x", "1");
    private static final Set<String> NO = Set.of("no", "false", "n", "0", "-", "–");

    private final Table table;
    private final List<FileColumn> columns;
    private final Choices choices;
    private final Map<FileColumn, Integer> places = new LinkedHashMap<>();
    private final Map<FileColumn, String> units = new LinkedHashMap<>();
    private final List<CellFault> faults = new ArrayList<>();
    private final List<String> unknown = new ArrayList<>();
    private final List<Line> lines = new ArrayList<>();
    private final DecimalMark mark = new DecimalMark();
    private final Map<String, FileColumn> names = new HashMap<>();
    private int headNumber;
    private Numbers numbers = Numbers.of(Locale.ENGLISH);

    private FileReading(Table table, List<FileColumn> columns, Choices choices) {
        this.table = table;
        this.columns = columns;
        this.choices = choices;
        columns.forEach(c -> c.names().forEach(name -> names.putIfAbsent(name, c)));
    }

    /**
     * One row.
     *
     * @param typed by column; blank cells are empty, columns that the file lacks are not there
     */
    public record Line(int row, Map<FileColumn, String> typed) {}

    static FileReading of(Table table, List<FileColumn> columns, Choices choices) {
        FileReading reading = new FileReading(table, columns, choices);
        int head = reading.findHead();
        if (head >= 0) {
            reading.readHead(table.rows().get(head));
            List<Table.Row> rows = table.rows().subList(head + 1, table.rows().size());
            reading.findMark(rows);
            rows.forEach(reading::readLine);
            if (reading.lines.isEmpty()) {
                reading.faults.add(CellFault.ofFile("has a head and no row below it"));
            }
        }
        return reading;
    }

    public List<Line> lines() {
        return lines;
    }

    /** How the cells are to be read. */
    public Numbers numbers() {
        return numbers;
    }

    public boolean has(FileColumn column) {
        return places.containsKey(column);
    }

    /** A fault of a line, for whoever understands what stands in it. */
    public CellFault fault(Line line, @Nullable FileColumn column, String message) {
        Integer place = column == null ? null : places.get(column);
        return new CellFault(
                line.row,
                column == null ? null : column.name(),
                place == null ? null : Table.cellName(line.row, place),
                message);
    }

    List<CellFault> faults() {
        return faults;
    }

    /** Whether its head, and it as a whole, can be read. */
    boolean hasFaultsOfCellsAlone() {
        return faults.stream().allMatch(f -> f.row() != null && f.row() > headNumber);
    }

    List<String> unknown() {
        return unknown;
    }

    List<String> open() {
        return choices.decimal() == null ? mark.open() : List.of();
    }

    // Head --------------------------------------------------------------------------------------

    /** The row that names the most columns; above it may stand a title. */
    private int findHead() {
        int best = -1;
        int most = 0;
        for (int i = 0; i < Math.min(ROWS_TO_FIND_THE_HEAD_IN, table.rows().size()); i++) {
            int named = 0;
            for (Value value : table.rows().get(i).values()) {
                named += value instanceof Value.Text t && named(t.text()).isPresent() ? 1 : 0;
            }
            if (named > most) {
                best = i;
                most = named;
            }
        }
        if (best < 0) {
            faults.add(
                    CellFault.ofFile(
                            "has no head that is known. The columns are "
                                    + String.join(
                                            ", ",
                                            columns.stream().map(FileColumn::head).toList())));
        }
        return best;
    }

    private record Named(FileColumn column, @Nullable String unit) {}

    private Optional<Named> named(String head) {
        String text = head.replaceAll("\\s+", " ").strip();
        Optional<FileColumn> whole = called(text);
        if (whole.isPresent()) {
            return whole.map(c -> new Named(c, null));
        }
        Matcher m = HEAD.matcher(text);
        if (m.matches()) {
            return called(m.group(1)).map(c -> new Named(c, m.group(2).strip()));
        }
        return Optional.empty();
    }

    private Optional<FileColumn> called(String name) {
        return Optional.ofNullable(names.get(FileColumn.tidy(name)));
    }

    private void readHead(Table.Row head) {
        headNumber = head.number();
        Set<Integer> unnamed = new LinkedHashSet<>();
        int widest = table.rows().stream().mapToInt(r -> r.values().size()).max().orElse(0);
        for (int i = 0; i < widest; i++) {
            String text = head.value(i) instanceof Value.Text t ? t.text().strip() : "";
            if (text.isEmpty()) {
                unnamed.add(i);
                continue;
            }
            Optional<Named> named = named(text);
            if (named.isEmpty()) {
                unknown.add(text);
                if (!choices.others()) {
                    faults.add(
                            new CellFault(
                                    head.number(),
                                    text,
                                    Table.cellName(head.number(), i),
                                    "is no column here"));
                }
            } else if (places.putIfAbsent(named.get().column, i) != null) {
                faults.add(
                        new CellFault(
                                head.number(),
                                named.get().column.name(),
                                Table.cellName(head.number(), i),
                                "stands twice among the columns"));
            } else if (named.get().unit != null) {
                unit(named.get().column, named.get().unit, head.number(), i);
            }
        }
        for (FileColumn column : columns) {
            if (column.needed() && !places.containsKey(column)) {
                faults.add(new CellFault(null, column.head(), null, "is missing"));
            }
        }
        unnamed.forEach(this::underNoHead);
    }

    private void underNoHead(int column) {
        table.rows().stream()
                .filter(r -> !(r.value(column) instanceof Value.Blank))
                .filter(r -> r.number() > headNumber)
                .findFirst()
                .ifPresent(
                        r -> {
                            if (!choices.others()) {
                                faults.add(
                                        new CellFault(
                                                r.number(),
                                                null,
                                                Table.cellName(r.number(), column),
                                                "stands in a column without a head"));
                            }
                            unknown.add("column " + Table.cellName(0, column).replace("0", ""));
                        });
    }

    /** A unit in the head must be ours, or one that can be worked out. */
    private void unit(FileColumn column, String unit, int row, int place) {
        if (FileColumn.tidy(unit).equals(FileColumn.tidy(column.unit())) || unit.isEmpty()) {
            return;
        }
        if (column.kind() == FileColumn.Kind.LENGTH && LENGTH_UNIT.matcher(unit).matches()) {
            units.put(column, unit);
            return;
        }
        if (column.kind() == FileColumn.Kind.MONEY
                && currencyOf(column).equals(SIGNS.getOrDefault(unit, unit))) {
            return;
        }
        faults.add(
                new CellFault(
                        row,
                        column.name(),
                        Table.cellName(row, place),
                        column.unit().isEmpty()
                                ? "has no unit: leave (" + unit + ") out"
                                : "is in " + unit + ", where " + column.unit() + " is wanted"));
    }

    // Numbers -----------------------------------------------------------------------------------

    private void findMark(List<Table.Row> rows) {
        for (Table.Row row : rows) {
            places.forEach(
                    (column, place) -> {
                        if (column.isFigure() && row.value(place) instanceof Value.Text t) {
                            if (!isLikeADate(t.text().strip())) {
                                mark.look(t.text());
                            }
                        }
                    });
        }
        Character certain = mark.certain();
        if (choices.decimal() != null) {
            numbers = Numbers.withMark(choices.decimal().equals("comma") ? ',' : '.');
        } else if (certain != null) {
            numbers = Numbers.withMark(certain);
        }
    }

    // Cells -------------------------------------------------------------------------------------

    private void readLine(Table.Row row) {
        Map<FileColumn, String> typed = new LinkedHashMap<>();
        Line line = new Line(row.number(), typed);
        boolean any = false;
        for (Map.Entry<FileColumn, Integer> place : places.entrySet()) {
            Value value = row.value(place.getValue());
            any |= !(value instanceof Value.Blank);
            try {
                typed.put(place.getKey(), typed(place.getKey(), value));
            } catch (InvalidInput e) {
                typed.put(place.getKey(), "");
                faults.add(fault(line, place.getKey(), e.faults().get(0).message()));
            }
        }
        if (any) {
            lines.add(line);
        }
    }

    private String typed(FileColumn column, Value value) {
        if (value instanceof Value.Blank) {
            return "";
        }
        if (value instanceof Value.Unusable unusable) {
            throw new InvalidInput("", unusable.reason());
        }
        return switch (column.kind()) {
            case TEXT -> words(value, false);
            case PROSE -> words(value, true);
            case YES_NO -> yesNo(value);
            case DATE -> day(value);
            case DURATION -> duration(column, value);
            case NUMBER, LENGTH, MONEY -> figure(column, value);
        };
    }

    private static String words(Value value, boolean lines) {
        if (value instanceof Value.Number number) {
            return number.number().toPlainString();
        }
        if (value instanceof Value.Moment moment) {
            throw new InvalidInput("", date(moment.at(), '.'));
        }
        if (value instanceof Value.YesNo answer) {
            return answer.yes() ? "TRUE" : "FALSE";
        }
        String text = ((Value.Text) value).text().strip();
        if (!lines && text.chars().anyMatch(c -> c == '\n' || c == '\r' || c == '\t')) {
            throw new InvalidInput("", "has a line break or a tab, where one line is wanted");
        }
        return text.replace("\r\n", "\n").replace('\r', '\n');
    }

    private static String day(Value value) {
        if (value instanceof Value.Moment moment) {
            return moment.at().toLocalDate().toString();
        }
        if (!(value instanceof Value.Text text)) {
            throw new InvalidInput("", "is no date: one such as 2026-03-31");
        }
        Matcher iso = ISO_DAY.matcher(text.text().strip());
        Matcher other = OTHER_DAY.matcher(text.text().strip());
        try {
            if (iso.matches()) {
                return day(iso.group(1), iso.group(2), iso.group(3));
            }
            if (other.matches()) {
                int first = Integer.parseInt(other.group(1));
                int second = Integer.parseInt(other.group(3));
                boolean dayFirst = other.group(2).equals(".") || first > 12;
                if (!dayFirst && second <= 12 && first != second) {
                    throw new InvalidInput(
                            "",
                            "could be two days: write it as %s-%02d-%02d or %s-%02d-%02d"
                                    .formatted(
                                            year(other.group(4)),
                                            second,
                                            first,
                                            year(other.group(4)),
                                            first,
                                            second));
                }
                return day(
                        year(other.group(4)),
                        other.group(dayFirst ? 3 : 1),
                        other.group(dayFirst ? 1 : 3));
            }
        } catch (DateTimeException e) {
            // told below
        }
        throw new InvalidInput("", "is no date: one such as 2026-03-31");
    }

    private static String day(String year, String month, String day) {
        return LocalDate.of(Integer.parseInt(year), Integer.parseInt(month), Integer.parseInt(day))
                .toString();
    }

    private static String year(String text) {
        return text.length() == 2 ? "20" + text : text;
    }

    /** A time of day is what a spreadsheet program makes of 1:30, and a day later of 25:30. */
    private String duration(FileColumn column, Value value) {
        if (value instanceof Value.Moment moment) {
            for (LocalDate start : NO_DAYS) {
                Duration since = Duration.between(start.atStartOfDay(), moment.at());
                if (!since.isNegative() && since.toDays() < DAYS_OF_A_DURATION) {
                    int seconds = since.toSecondsPart();
                    return "%d:%02d".formatted(since.toHours(), since.toMinutesPart())
                            + (seconds == 0 ? "" : ":%02d".formatted(seconds));
                }
            }
        }
        return figure(column, value);
    }

    private static String yesNo(Value value) {
        if (value instanceof Value.YesNo answer) {
            return answer.yes() ? "yes" : "no";
        }
        String word = words(value, false).toLowerCase(Locale.ROOT);
        if (!YES.contains(word) && !NO.contains(word)) {
            throw new InvalidInput("", "must be yes or no");
        }
        return YES.contains(word) ? "yes" : "no";
    }

    private String figure(FileColumn column, Value value) {
        if (value instanceof Value.YesNo) {
            throw new InvalidInput("", "is TRUE or FALSE, where a number is wanted");
        }
        if (value instanceof Value.Moment moment) {
            throw new InvalidInput("", date(moment.at(), numbers.decimalMark()));
        }
        String unit = units.getOrDefault(column, "");
        if (value instanceof Value.Number number) {
            return withUnit(typed(number.number()), unit);
        }
        String text =
                ((Value.Text) value).text().replaceAll("[\\s\u00a0\u202f\u2009]+", " ").strip();
        if (isLikeADate(text)) {
            throw new InvalidInput(
                    "", "looks like a date: was something like 1/2 meant? Type it as a number");
        }
        if (column.kind() == FileColumn.Kind.MONEY) {
            text = withoutCurrency(text, currencyOf(column));
        }
        return withUnit(text, unit);
    }

    private String typed(BigDecimal number) {
        return number.toPlainString().replace('.', numbers.decimalMark());
    }

    private static String withUnit(String text, String unit) {
        boolean bare = text.chars().noneMatch(c -> Character.isLetter(c) || c == '"' || c == '″');
        return unit.isEmpty() || !bare ? text : text + " " + unit;
    }

    private static boolean isLikeADate(String text) {
        return LIKE_A_DATE.matcher(text).matches() && !NO_MONTH.matcher(text).matches();
    }

    /** What somebody may have typed before a spreadsheet program took it for a date. */
    private static String date(LocalDateTime at, char decimalMark) {
        int day = at.getDayOfMonth();
        int month = at.getMonthValue();
        String slashes =
                day == month ? day + "/" + month : day + "/" + month + ", " + month + "/" + day;
        return "is a date, "
                + at.toLocalDate()
                + ": was "
                + slashes
                + " or "
                + day
                + decimalMark
                + month
                + " meant? Type it as text";
    }

    private static String currencyOf(FileColumn column) {
        return column.unit().length() < 3 ? "" : column.unit().substring(0, 3);
    }

    private static String withoutCurrency(String text, String wanted) {
        String number = text;
        for (Map.Entry<String, String> sign : SIGNS.entrySet()) {
            if (number.startsWith(sign.getKey()) || number.endsWith(sign.getKey())) {
                if (!sign.getValue().equals(wanted)) {
                    throw new InvalidInput(
                            "", "is in " + sign.getKey() + ", where " + wanted + " is wanted");
                }
                number = number.replace(sign.getKey(), "").strip();
            }
        }
        Matcher code =
                Pattern.compile("(?:(\\p{Upper}{3})\\s*)?(.*?)(?:\\s*(\\p{Upper}{3}))?")
                        .matcher(number);
        if (code.matches()) {
            String found = code.group(1) == null ? code.group(3) : code.group(1);
            if (found != null && isCurrency(found)) {
                if (!found.equals(wanted)) {
                    throw new InvalidInput(
                            "", "is in " + found + ", where " + wanted + " is wanted");
                }
                return code.group(2).strip();
            }
        }
        return number;
    }

    private static boolean isCurrency(String code) {
        try {
            return Currency.getInstance(code) != null;
        } catch (IllegalArgumentException e) {
            return false;
        }
    }
}
