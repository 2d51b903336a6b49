package strokewright.shopbook;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import strokewright.exchange.FileColumn;
import strokewright.office.Value;
import strokewright.web.Numbers;
import tools.jackson.databind.JsonNode;

/**
 * A section of the shop book as columns of a file: a column for each field, of a short list (price
 * breaks) for each field of each of its lines.
 */
final class BookColumns {

    private static final int LINES_AT_LEAST = 3;
    private static final int MOST_LINES = 20;

    /** Labels that say too little over a column, where no other fields stand around them. */
    private static final Map<String, String> NAMES =
            Map.of(
                    "standards minutesPerUnit", "Minutes per unit",
                    "standards unit", "Unit");

    private final BookSection section;
    private final Currency currency;
    private final List<Part> parts = new ArrayList<>();

    /**
     * A column with what it stands for.
     *
     * @param path in a row of the draft
     * @param list the field of the short list around it; null for a plain field
     * @param line of that list
     */
    record Part(
            FileColumn column, String path, BookField field, @Nullable BookField list, int line) {}

    private BookColumns(BookSection section, Currency currency, int lines) {
        this.section = section;
        this.currency = currency;
        for (BookField field : section.fields()) {
            if (field.kind() instanceof Kind.Lines list) {
                for (int line = 0; line < lines; line++) {
                    for (BookField inner : list.fields()) {
                        parts.add(inList(field, list, line, inner));
                    }
                }
            } else {
                String name = NAMES.getOrDefault(section.key() + " " + field.path(), field.label());
                parts.add(
                        new Part(
                                column(field, name, field.path().replace('/', ' ')),
                                field.path(),
                                field,
                                null,
                                0));
            }
        }
    }

    /** All that a file may have. */
    static BookColumns all(BookSection section, Currency currency) {
        return new BookColumns(section, currency, MOST_LINES);
    }

    /** Those that are written: as many lines of short lists as the longest row has. */
    static BookColumns written(BookSection section, Draft draft) {
        int longest = LINES_AT_LEAST;
        for (BookField field : section.fields()) {
            if (field.kind() instanceof Kind.Lines) {
                for (Draft.Row row : draft.living(section)) {
                    longest = Math.max(longest, Draft.lines(field.path(), row.values()).size());
                }
            }
        }
        return new BookColumns(section, draft.currency(), longest);
    }

    private Part inList(BookField field, Kind.Lines list, int line, BookField inner) {
        String noun = Character.toUpperCase(list.noun().charAt(0)) + list.noun().substring(1);
        String name = noun + " " + (line + 1) + " " + inner.label().toLowerCase(Locale.ROOT);
        String path = Draft.linePath(field.path(), line, inner);
        return new Part(column(inner, name, path.replace('/', ' ')), path, inner, field, line);
    }

    private FileColumn column(BookField field, String name, String jsonName) {
        String unit = field.unit().replace("¤", currency.getCurrencyCode());
        String hint = hint(field);
        FileColumn column;
        if (field.kind() instanceof Kind.Cash) {
            String money =
                    unit.startsWith(currency.getCurrencyCode()) ? unit : currency.getCurrencyCode();
            column =
                    FileColumn.money(
                            name, money, Math.max(0, currency.getDefaultFractionDigits()), hint);
        } else if (field.kind() instanceof Kind.Figure figure) {
            boolean length =
                    figure.manner() == Kind.Manner.LENGTH
                            || figure.manner() == Kind.Manner.THICKNESS;
            column = length ? FileColumn.length(name, hint) : FileColumn.number(name, unit, hint);
        } else if (field.kind() instanceof Kind.YesNo) {
            column = FileColumn.yesNo(name, hint);
        } else {
            column = FileColumn.text(name, field.isOrigin() ? 36 : 20, hint);
        }
        column = column.alsoCalled(jsonName, field.label());
        return section.keys().contains(field.path()) && section.keys().get(0).equals(field.path())
                ? column.isNeeded()
                : column;
    }

    private static String hint(BookField field) {
        if (field.kind() instanceof Kind.Choice choice) {
            String words = String.join(", ", choice.words().keySet());
            return choice.nothing() == null ? words : words + "; empty: " + choice.nothing();
        }
        if (field.kind() instanceof Kind.YesNo) {
            return field.help().isEmpty() ? "yes or no" : "yes or no; " + field.help();
        }
        return field.help();
    }

    List<Part> parts() {
        return parts;
    }

    List<FileColumn> columns() {
        return parts.stream().map(Part::column).toList();
    }

    Optional<Part> at(String path) {
        return parts.stream().filter(p -> p.path.equals(path)).findFirst();
    }

    // Out ---------------------------------------------------------------------------------------

    /** A row as it is written; lines of short lists close up. */
    List<Value> values(Draft.Row row, Kind.With with) {
        List<Value> values = new ArrayList<>(parts.size());
        for (Part part : parts) {
            values.add(value(part.field, stored(part, row), with));
        }
        return values;
    }

    static @Nullable JsonNode stored(Part part, Draft.Row row) {
        if (part.list == null) {
            return row.values().get(part.path);
        }
        List<Integer> lines = Draft.lines(part.list.path(), row.values());
        return part.line >= lines.size()
                ? null
                : row.values()
                        .get(Draft.linePath(part.list.path(), lines.get(part.line), part.field));
    }

    static Value value(BookField field, @Nullable JsonNode stored, Kind.With with) {
        Kind kind = field.kind();
        if (kind instanceof Kind.YesNo) {
            return Value.yesNo(Kind.YesNo.isTrue(stored));
        }
        if (Kind.isNothing(stored)) {
            return Value.BLANK;
        }
        if (Kept.isUnread(stored)) {
            return Value.text(Kept.text(stored));
        }
        if (Kept.gaugeIn(stored).isPresent()) {
            return Value.text(Kept.gaugeIn(stored).get());
        }
        if (kind instanceof Kind.Figure) {
            return Value.number(new BigDecimal(kind.typed(stored, PLAIN.apply(with))));
        }
        if (kind instanceof Kind.Cash) {
            return Value.number(new BigDecimal(stored.path("amount").asString()));
        }
        if (kind instanceof Kind.Named named) {
            return Value.text(named.name(stored, with));
        }
        return Value.text(kind.typed(stored, with));
    }

    private static final java.util.function.UnaryOperator<Kind.With> PLAIN =
            with -> new Kind.With(Numbers.withMark('.'), with.currency(), with.names());

    // In ----------------------------------------------------------------------------------------

    /** What somebody typed into a cell, as the draft keeps it. */
    static JsonNode read(BookField field, String typed, Kind.With with) {
        Kind kind = field.kind();
        if (kind instanceof Kind.Named named) {
            return typed.isEmpty() ? Kind.JSON.nullNode() : named.of(typed, with);
        }
        if (kind instanceof Kind.Choice choice) {
            return choice.read(word(choice, typed), with);
        }
        return kind.read(typed, with);
    }

    /** In whatever case, or as the pages say it. */
    private static String word(Kind.Choice choice, String typed) {
        return choice.words().entrySet().stream()
                .filter(
                        w ->
                                w.getKey().equalsIgnoreCase(typed)
                                        || w.getValue().equalsIgnoreCase(typed))
                .map(Map.Entry::getKey)
                .findFirst()
                .orElse(
                        choice.nothing() != null && choice.nothing().equalsIgnoreCase(typed)
                                ? ""
                                : typed);
    }

    /** A stored value as it would be read from the file that it was written to. */
    static @Nullable JsonNode readBack(BookField field, @Nullable JsonNode stored, Kind.With with) {
        if (Kept.isUnread(stored)) {
            return stored;
        }
        Value value = value(field, stored, with);
        Kind.With plain = PLAIN.apply(with);
        if (value instanceof Value.Number number) {
            return read(field, number.number().toPlainString(), plain);
        }
        if (value instanceof Value.Text text) {
            return read(field, text.text().strip(), plain);
        }
        if (value instanceof Value.YesNo answer) {
            return read(field, answer.yes() ? "yes" : "no", plain);
        }
        return null;
    }
}
