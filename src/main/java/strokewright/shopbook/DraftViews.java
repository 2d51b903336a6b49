package strokewright.shopbook;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** Makes the views of a draft. */
final class DraftViews {

    static final String PATH = "/shop-book/draft";

    private static final int SPARE_LINES = 2;
    private static final int USES_TOLD = 12;

    /** Characters that no longer fit into a narrow field. */
    private static final int LONG_OPTION = 18;

    private final DraftReading reading;
    private final Draft draft;
    private final Kind.With with;
    private final List<RowAside> asides;

    /** Messages by section, row and path. */
    private final Map<String, String> messages = new HashMap<>();

    DraftViews(DraftReading reading, Kind.With with, List<RowAside> asides) {
        this.reading = reading;
        this.draft = reading.draft();
        this.with = with;
        this.asides = asides;
        for (DraftReading.Told told : reading.faults()) {
            if (told.row() != null) {
                messages.put(key(told.row()) + " " + told.path(), told.message());
            }
        }
    }

    static String key(Draft.Row row) {
        return row.section() + "-" + row.id();
    }

    static String fieldId(Draft.Row row, String path) {
        return "f-" + row.section() + "-" + row.id() + "-" + path.replace('/', '-');
    }

    DraftView view(
            BookPart part,
            Set<String> open,
            String page,
            @Nullable String kept,
            DraftView.@Nullable Conflict conflict) {
        return new DraftView(
                part,
                draft.base(),
                page,
                part.sections().stream().map(s -> section(s, open)).toList(),
                summary(part, kept),
                conflict);
    }

    DraftView.Summary summary(BookPart part, @Nullable String kept) {
        return new DraftView.Summary(
                kept,
                reading.at(part).stream().map(this::fault).toList(),
                BookParts.ALL.stream()
                        .filter(p -> p != part && !reading.at(p).isEmpty())
                        .map(p -> new DraftView.Elsewhere(p, reading.at(p).size()))
                        .toList());
    }

    DraftView.Fault fault(DraftReading.Told told) {
        BookSection section = told.section();
        String page = PATH + "/" + BookParts.partOf(section).key();
        if (told.row() == null) {
            return new DraftView.Fault(
                    null, null, page + "#" + section.key(), section.title(), told.message());
        }
        String where = section.isOne() ? "" : title(section, told.row()) + ": ";
        String opened = section.isTable() ? "?open=" + key(told.row()) : "";
        if (told.path().isEmpty()) {
            return new DraftView.Fault(
                    null,
                    key(told.row()),
                    page + opened + "#row-" + key(told.row()),
                    section.isOne() ? section.title() : title(section, told.row()),
                    told.message());
        }
        String id = fieldId(told.row(), told.path());
        return new DraftView.Fault(
                id,
                key(told.row()),
                page + opened + "#" + id,
                where + label(section, told.path()),
                told.message());
    }

    static String label(BookSection section, String path) {
        BookField around = section.around(path).orElseThrow();
        BookField leaf = Draft.leaf(section, path).orElse(around);
        return around.kind() instanceof Kind.Lines && !leaf.label().equals(around.label())
                ? around.label() + ", " + leaf.label().toLowerCase(java.util.Locale.ROOT)
                : around.label();
    }

    private DraftView.Section section(BookSection section, Set<String> open) {
        List<Draft.Row> living = draft.living(section);
        List<DraftView.Row> rows = new ArrayList<>();
        for (int i = 0; i < living.size(); i++) {
            Draft.Row row = living.get(i);
            boolean shown = !section.isTable() || open.contains(key(row));
            rows.add(row(section, row, shown, i == 0, i == living.size() - 1));
        }
        return new DraftView.Section(
                section,
                section.inTable()
                        .map(f -> new DraftView.Head(f.label(), f.unitIn(with), f.isFigure()))
                        .toList(),
                rows,
                draft.all(section).stream()
                        .filter(Draft.Row::removed)
                        .map(
                                r ->
                                        new DraftView.Removed(
                                                r.id(), title(section, r), uses(section, r)))
                        .toList(),
                reading.at(section).stream()
                        .filter(t -> t.row() == null)
                        .map(DraftReading.Told::message)
                        .toList());
    }

    DraftView.Row row(
            BookSection section, Draft.Row row, boolean open, boolean first, boolean last) {
        String message = messages.get(key(row) + " ");
        int faults = (int) reading.at(section).stream().filter(t -> row.equals(t.row())).count();
        return new DraftView.Row(
                key(row),
                row.id(),
                title(section, row),
                row.version(),
                open,
                first,
                last,
                open ? List.of() : cells(section, row),
                open ? fields(section, row) : List.of(),
                message == null ? List.of() : List.of(message),
                faults,
                open && faults == 0 ? said(section, row) : List.of(),
                open ? gauges(section, row) : List.of(),
                open && section.isTable() ? uses(section, row) : List.of());
    }

    private List<RowAside.Said> said(BookSection section, Draft.Row row) {
        Integer at = reading.index().get(section.key() + " " + row.id());
        return at == null
                ? List.of()
                : asides.stream()
                        .filter(a -> a.section().equals(section.key()))
                        .flatMap(a -> a.of(reading.book(), at, with.numbers()).stream())
                        .toList();
    }

    private List<DraftView.Cell> cells(BookSection section, Draft.Row row) {
        return section.inTable()
                .map(f -> new DraftView.Cell(said(section, row, f), f.isFigure()))
                .toList();
    }

    private String said(BookSection section, Draft.Row row, BookField field) {
        JsonNode value = row.values().get(field.path());
        return Kept.isUnread(value)
                ? Kept.text(value)
                : field.kind().say(value, with) + mm(section, row, field.path());
    }

    /** " = 1.519" behind a gauge; nothing behind anything else. */
    private String mm(BookSection section, Draft.Row row, String path) {
        JsonNode counting = reading.counting(section, row, path);
        return Kept.gaugeIn(row.values().get(path)).isEmpty() || counting == null
                ? ""
                : " = " + with.numbers().show(counting.decimalValue(), 3);
    }

    /** What each typed gauge of a row is in mm. */
    private List<String> gauges(BookSection section, Draft.Row row) {
        return section.fields().stream()
                .filter(f -> !mm(section, row, f.path()).isEmpty())
                .map(f -> f.label() + ": " + said(section, row, f) + "\u00a0" + f.unitIn(with))
                .toList();
    }

    /** What a row is called: by what tells it apart, else by its number. */
    String title(BookSection section, Draft.Row row) {
        if (section.keys().isEmpty()) {
            int at = draft.living(section).indexOf(row);
            return section.isOne()
                    ? section.title()
                    : capital(section.noun()) + (at < 0 ? "" : " " + (at + 1));
        }
        String title =
                section.keys().stream()
                        .map(section::field)
                        .flatMap(java.util.Optional::stream)
                        .filter(f -> !Kind.isNothing(row.values().get(f.path())))
                        .map(f -> titled(f, row.values().get(f.path())))
                        .collect(Collectors.joining(" · "));
        return title.isEmpty() ? "New " + section.noun() : title;
    }

    private String titled(BookField field, JsonNode value) {
        return Kept.isUnread(value) ? Kept.text(value) : field.sayWithUnit(value, with);
    }

    private static String capital(String noun) {
        return Character.toUpperCase(noun.charAt(0)) + noun.substring(1);
    }

    private List<String> uses(BookSection section, Draft.Row row) {
        List<String> uses =
                draft.usesOf(section.key(), row.id()).stream()
                        .map(
                                use ->
                                        use.section().isOne()
                                                ? use.section().title()
                                                        + ", "
                                                        + label(use.section(), use.path())
                                                : use.section().noun()
                                                        + " "
                                                        + title(use.section(), use.row()))
                        .distinct()
                        .toList();
        if (uses.size() <= USES_TOLD) {
            return uses;
        }
        List<String> some = new ArrayList<>(uses.subList(0, USES_TOLD));
        some.add(uses.size() - USES_TOLD + " more");
        return some;
    }

    // Fields ----------------------------------------------------------------------------------

    private List<DraftView.Field> fields(BookSection section, Draft.Row row) {
        List<DraftView.Field> fields = new ArrayList<>();
        for (BookField field : section.fields()) {
            if (field.kind() instanceof Kind.Lines lines) {
                lines(section, row, field, lines, fields);
            } else {
                String group = field.kind() instanceof Kind.Built ? field.label() : null;
                fields.add(field(section, row, field.path(), field, field.label(), group));
            }
        }
        return fields;
    }

    private void lines(
            BookSection section,
            Draft.Row row,
            BookField field,
            Kind.Lines lines,
            List<DraftView.Field> fields) {
        List<Integer> numbers = Draft.lines(field.path(), row.values());
        int next = numbers.isEmpty() ? 0 : numbers.get(numbers.size() - 1) + 1;
        List<Integer> all = new ArrayList<>(numbers);
        for (int i = 0; i < SPARE_LINES; i++) {
            all.add(next + i);
        }
        for (int i = 0; i < all.size(); i++) {
            for (int j = 0; j < lines.fields().size(); j++) {
                BookField inner = lines.fields().get(j);
                String path = Draft.linePath(field.path(), all.get(i), inner);
                String label =
                        capital(lines.noun())
                                + " "
                                + (i + 1)
                                + (lines.fields().size() == 1
                                        ? ""
                                        : ", " + inner.label().toLowerCase(java.util.Locale.ROOT));
                String group = i == 0 && j == 0 ? field.label() : null;
                fields.add(field(section, row, path, inner, label, group));
            }
        }
    }

    private DraftView.Field field(
            BookSection section,
            Draft.Row row,
            String path,
            BookField field,
            String label,
            @Nullable String group) {
        JsonNode value = row.values().get(path);
        List<Kind.Option> options = field.kind().options(value, with);
        String typed = Kept.isUnread(value) ? Kept.text(value) : field.kind().typed(value, with);
        boolean box = field.kind() instanceof Kind.YesNo;
        return new DraftView.Field(
                fieldId(row, path),
                path,
                label,
                field.unitIn(with),
                box ? "box" : options.isEmpty() ? "text" : "choice",
                field.kind().inputMode(),
                typed,
                options,
                typed.isEmpty() && options.isEmpty() ? otherwise(section, row, path, field) : "",
                field.help(),
                messages.get(key(row) + " " + path),
                field.isText() || options.stream().anyMatch(o -> o.label().length() > LONG_OPTION),
                group);
    }

    private String otherwise(BookSection section, Draft.Row row, String path, BookField field) {
        JsonNode counting = reading.counting(section, row, path);
        return counting == null ? "" : field.kind().typed(counting, with);
    }

    /** Where what was sent differs from what is there now. */
    List<String> differences(BookSection section, Draft.Row there, Draft.Row sent) {
        Set<String> paths = new java.util.LinkedHashSet<>(there.values().keySet());
        paths.addAll(sent.values().keySet());
        List<String> told = new ArrayList<>();
        for (String path : paths) {
            JsonNode one = there.values().get(path);
            JsonNode other = sent.values().get(path);
            BookField leaf = Draft.leaf(section, path).orElse(null);
            if (leaf != null && !BookTree.same(one, other)) {
                told.add(
                        label(section, path)
                                + ": "
                                + told(leaf, one)
                                + " there, "
                                + told(leaf, other)
                                + " here");
            }
        }
        return told;
    }

    private String told(BookField field, @Nullable JsonNode value) {
        return Kept.isUnread(value)
                ? "“" + Kept.text(value) + "”"
                : Kind.isNothing(value) ? "nothing" : field.sayWithUnit(value, with);
    }
}
