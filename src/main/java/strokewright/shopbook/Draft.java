package strokewright.shopbook;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.BiFunction;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook;
import strokewright.sheet.Gauge;
import strokewright.web.Numbers;
import tools.jackson.databind.JsonNode;

/**
 * The next edition while it is written: the rows of every section as they were typed.
 *
 * @param base the edition that it was begun from
 * @param version counted up at every change; 0 while nothing was changed
 * @param rows by section, in their order, with those that were removed
 */
record Draft(int base, Currency currency, long version, Map<String, List<Row>> rows)
        implements Kind.Names {

    private static final Pattern LINE = Pattern.compile("(\\d{1,3})(?:/(.*))?");

    /**
     * @param id stays the same as long as the draft lives
     * @param values by path; what is not there is empty
     * @param page which opening of a page changed it last
     */
    record Row(
            String section,
            int id,
            int place,
            boolean removed,
            Map<String, JsonNode> values,
            long version,
            String page,
            @Nullable UUID changedBy,
            @Nullable Instant changedAt) {

        Row with(Map<String, JsonNode> newValues) {
            return new Row(
                    section, id, place, removed, newValues, version, page, changedBy, changedAt);
        }

        /** As a page shows it that has not heard of a change yet, or of its removal. */
        Row asKnown(long knownVersion) {
            return new Row(
                    section, id, place, false, values, knownVersion, page, changedBy, changedAt);
        }
    }

    /** As a draft is before anything was changed. */
    static Draft of(ShopBook book, BookTree tree) {
        Map<String, List<Row>> rows = new LinkedHashMap<>();
        for (BookSection section : BookParts.sections()) {
            List<Row> here = new ArrayList<>();
            for (Map<String, JsonNode> values : tree.rows(section)) {
                here.add(fresh(section, here.size() + 1, values));
            }
            if (section.key().equals(BookParts.FAMILIES)) {
                withoutFactor(book, section, here);
            }
            rows.put(section.key(), here);
        }
        return new Draft(book.edition(), book.currency(), 0, rows).tied();
    }

    /** Families that only metals with a strain per pass belong to have no factor. */
    private static void withoutFactor(ShopBook book, BookSection families, List<Row> rows) {
        book.grades().stream()
                .map(ShopBook.Grade::family)
                .filter(f -> f != null && !book.familyBite().containsKey(f))
                .distinct()
                .forEach(
                        f ->
                                rows.add(
                                        fresh(
                                                families,
                                                rows.size() + 1,
                                                Map.of(
                                                        families.nameField().path(),
                                                        Kind.JSON.stringNode(f)))));
    }

    private static Row fresh(BookSection section, int id, Map<String, JsonNode> values) {
        return new Row(section.key(), id, id, false, spread(section, values), 0, "", null, null);
    }

    /** Short lists within a row are kept value by value. */
    private static Map<String, JsonNode> spread(BookSection section, Map<String, JsonNode> values) {
        Map<String, JsonNode> flat = new LinkedHashMap<>();
        values.forEach(
                (path, value) -> {
                    BookField field = section.field(path).orElseThrow();
                    if (field.kind() instanceof Kind.Lines lines) {
                        for (int i = 0; i < value.size(); i++) {
                            for (BookField inner : lines.fields()) {
                                JsonNode of = value.get(i).at(pointer(inner.path()));
                                if (!Kind.isNothing(of)) {
                                    flat.put(linePath(path, i, inner), of);
                                }
                            }
                        }
                    } else {
                        flat.put(path, value);
                    }
                });
        return flat;
    }

    private static String pointer(String path) {
        return path.isEmpty() ? "" : "/" + path;
    }

    static String linePath(String list, int line, BookField inner) {
        return list + "/" + line + pointer(inner.path());
    }

    /** Names of other rows become those rows. */
    private Draft tied() {
        Kind.With with = with(Numbers.of(java.util.Locale.ROOT));
        Map<String, List<Row>> tied = new LinkedHashMap<>();
        rows.forEach(
                (key, list) -> {
                    BookSection section = BookParts.section(key).orElseThrow();
                    tied.put(
                            key,
                            list.stream()
                                    .map(row -> row.with(tied(section, row.values(), with)))
                                    .toList());
                });
        return new Draft(base, currency, version, tied);
    }

    private static Map<String, JsonNode> tied(
            BookSection section, Map<String, JsonNode> values, Kind.With with) {
        return mapped(
                section,
                values,
                (field, value) ->
                        field.kind() instanceof Kind.Named named && value.isString()
                                ? named.of(value.asString(), with)
                                : value);
    }

    /** Every value changed by its field, those of short lists too. */
    static Map<String, JsonNode> mapped(
            BookSection section,
            Map<String, JsonNode> values,
            BiFunction<BookField, JsonNode, JsonNode> change) {
        Map<String, JsonNode> changed = new LinkedHashMap<>();
        values.forEach(
                (path, value) ->
                        leaf(section, path)
                                .ifPresent(f -> changed.put(path, change.apply(f, value))));
        return changed;
    }

    /** The field at a path as it is kept, within a short list too. */
    static Optional<BookField> leaf(BookSection section, String path) {
        Optional<BookField> around = section.around(path);
        if (around.isEmpty() || !(around.get().kind() instanceof Kind.Lines lines)) {
            return around.filter(f -> f.path().equals(path));
        }
        String list = around.get().path();
        Matcher m = LINE.matcher(path.substring(Math.min(path.length(), list.length() + 1)));
        if (!m.matches()) {
            return Optional.empty();
        }
        String inner = m.group(2) == null ? "" : m.group(2);
        return lines.fields().stream().filter(f -> f.path().equals(inner)).findFirst();
    }

    /** Numbers of the lines of a short list that something stands in, in order. */
    static List<Integer> lines(String list, Map<String, JsonNode> values) {
        TreeMap<Integer, Boolean> found = new TreeMap<>();
        values.forEach(
                (path, value) -> {
                    if (path.startsWith(list + "/") && !Kind.isNothing(value)) {
                        Matcher m = LINE.matcher(path.substring(list.length() + 1));
                        if (m.matches()) {
                            found.put(Integer.parseInt(m.group(1)), true);
                        }
                    }
                });
        return List.copyOf(found.keySet());
    }

    Kind.With with(Numbers numbers) {
        return new Kind.With(numbers, currency, this);
    }

    List<Row> all(BookSection section) {
        return rows.getOrDefault(section.key(), List.of());
    }

    List<Row> living(BookSection section) {
        return all(section).stream().filter(r -> !r.removed).toList();
    }

    Optional<Row> row(String section, int id) {
        return rows.getOrDefault(section, List.of()).stream().filter(r -> r.id == id).findFirst();
    }

    // Names -----------------------------------------------------------------------------------

    @Override
    public @Nullable String nameOf(String section, int id) {
        return row(section, id).map(this::name).orElse(null);
    }

    private String name(Row row) {
        JsonNode name = row.values.get(nameOf(row.section));
        return Kind.isNothing(name) ? "" : name.asString();
    }

    /**
     * By which table a bare gauge in a row is read; null where nothing says of which metal it is.
     */
    @Nullable String gaugeTable(Row row, Kind.With with) {
        if (row.section.equals(BookParts.TOOLS)) {
            return "steel"; // what a tool takes is said of steel
        }
        OptionalInt grade = Kept.rowIn(row.values.get("grade"));
        Row of = grade.isEmpty() ? null : row(BookParts.GRADES, grade.getAsInt()).orElse(null);
        if (of == null) {
            return null;
        }
        BookSection grades = BookParts.section(BookParts.GRADES).orElseThrow();
        return Gauge.tableOf(
                said(grades, of, "family", with),
                said(grades, of, "code", with),
                said(grades, of, "name", with));
    }

    private static String said(BookSection section, Row row, String path, Kind.With with) {
        return section.field(path).orElseThrow().kind().say(row.values.get(path), with);
    }

    private static String nameOf(String section) {
        return BookParts.section(section).orElseThrow().nameField().path();
    }

    @Override
    public OptionalInt rowOf(String section, String name) {
        return rows.getOrDefault(section, List.of()).stream()
                .filter(r -> !r.removed && name(r).equals(name))
                .mapToInt(Row::id)
                .findFirst();
    }

    @Override
    public Map<Integer, String> all(String section) {
        Map<Integer, String> all = new LinkedHashMap<>();
        rows.getOrDefault(section, List.of()).stream()
                .filter(r -> !r.removed)
                .forEach(r -> all.put(r.id, name(r)));
        return all;
    }

    /** Where a row is named. */
    record Use(BookSection section, Row row, String path, BookField field) {}

    List<Use> usesOf(String section, int id) {
        List<Use> uses = new ArrayList<>();
        for (BookSection other : BookParts.sections()) {
            for (Row row : living(other)) {
                row.values.forEach(
                        (path, value) ->
                                leaf(other, path)
                                        .filter(f -> names(f, value, section, id))
                                        .ifPresent(f -> uses.add(new Use(other, row, path, f))));
            }
        }
        return uses;
    }

    private static boolean names(BookField field, JsonNode value, String section, int id) {
        return field.kind() instanceof Kind.Named named
                && named.section().equals(section)
                && Kept.rowIn(value).equals(OptionalInt.of(id));
    }
}
