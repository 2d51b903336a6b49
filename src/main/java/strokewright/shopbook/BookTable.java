package strokewright.shopbook;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import strokewright.access.Documents;
import strokewright.access.Shops;
import strokewright.estimate.ShopBook;
import strokewright.exchange.CellFault;
import strokewright.exchange.FileColumn;
import strokewright.exchange.FileReading;
import strokewright.exchange.FileReading.Line;
import strokewright.exchange.FileTable;
import strokewright.exchange.Plan;
import strokewright.exchange.Plan.FieldChange;
import strokewright.exchange.Plan.What;
import strokewright.office.Value;
import strokewright.web.Numbers;
import tools.jackson.databind.JsonNode;

/**
 * A section of the shop book as a file. An import goes into the draft of the next edition; it is
 * adopted as every draft is.
 */
final class BookTable implements FileTable {

    /** As many as a shop book takes: looking through more would take long, and find just this. */
    private static final int MOST_ROWS = 500;

    private final BookSection section;
    private final Drafts drafts;
    private final ShopBooks books;
    private final Shops shops;
    private final Documents documents;

    BookTable(
            BookSection section, Drafts drafts, ShopBooks books, Shops shops, Documents documents) {
        this.section = section;
        this.drafts = drafts;
        this.books = books;
        this.shops = shops;
        this.documents = documents;
    }

    @Override
    public String key() {
        return section.key().equals(BookParts.STANDARDS) ? "time-standards" : "metal-prices";
    }

    @Override
    public String title() {
        return BookParts.partOf(section).title();
    }

    @Override
    public String noun() {
        return section.noun();
    }

    @Override
    public String place() {
        return DraftViews.PATH + "/" + BookParts.partOf(section).key();
    }

    @Override
    public String navigation() {
        return "shop-book";
    }

    @Override
    public String effect() {
        return "Goes into the draft of the next edition; estimates change when it is adopted.";
    }

    @Override
    public List<FileColumn> columns() {
        return BookColumns.all(section, shops.current().currency()).columns();
    }

    @Override
    public List<FileColumn> columnsToWrite(boolean begun) {
        return BookColumns.written(section, draft(begun)).columns();
    }

    private Draft draft(boolean begun) {
        if (begun) {
            return drafts.now();
        }
        ShopBook book = books.current();
        return Draft.of(book, BookTree.of(book, documents));
    }

    @Override
    public Iterator<List<Value>> rows(boolean begun) {
        Draft draft = draft(begun);
        BookColumns columns = BookColumns.written(section, draft);
        Kind.With with = draft.with(Numbers.withMark('.'));
        return draft.living(section).stream().map(row -> columns.values(row, with)).iterator();
    }

    @Override
    public String version() {
        Draft draft = drafts.now();
        return draft.base() + " " + draft.version();
    }

    @Override
    public Plan plan(FileReading file, boolean remove) {
        return new Import(file, remove, drafts.now()).plan();
    }

    @Override
    public Plan carryOut(FileReading file, boolean remove) {
        Plan[] plan = new Plan[1];
        drafts.fill(
                section,
                draft -> {
                    Import work = new Import(file, remove, draft);
                    plan[0] = work.plan();
                    return plan[0].faults().isEmpty() ? work.changed() : List.of();
                });
        return plan[0];
    }

    /** One file against one draft. */
    private final class Import {

        private final FileReading file;
        private final boolean remove;
        private final Draft draft;
        private final BookColumns columns;
        private final Kind.With with;
        private final List<CellFault> faults = new ArrayList<>();
        private final List<Plan.Row> rows = new ArrayList<>();

        /** Rows of the draft with what the file says; new ones at the end. */
        private final Map<Integer, Draft.Row> after = new LinkedHashMap<>();

        private final Map<Integer, Line> lines = new HashMap<>();
        private final Map<List<String>, Deque<Draft.Row>> known = new HashMap<>();
        private final Map<List<String>, Line> seen = new HashMap<>();
        private int nextId;
        private int nextPlace;

        Import(FileReading file, boolean remove, Draft draft) {
            this.file = file;
            this.remove = remove;
            this.draft = draft;
            this.columns = BookColumns.all(section, draft.currency());
            this.with = draft.with(file.numbers());
            for (Draft.Row row : draft.all(section)) {
                after.put(row.id(), row);
                nextId = Math.max(nextId, row.id());
                nextPlace = Math.max(nextPlace, row.place());
                if (!row.removed()) {
                    known.computeIfAbsent(key(row), k -> new ArrayDeque<>()).add(row);
                }
            }
        }

        /** Rows that differ from those of the draft. */
        List<Draft.Row> changed() {
            Map<Integer, Draft.Row> before =
                    draft.all(section).stream().collect(Collectors.toMap(Draft.Row::id, r -> r));
            return after.values().stream().filter(r -> r != before.get(r.id())).toList();
        }

        Plan plan() {
            file.lines().forEach(this::take);
            int absent = known.values().stream().mapToInt(Deque::size).sum();
            if (remove) {
                known.values().stream()
                        .flatMap(Deque::stream)
                        .sorted(java.util.Comparator.comparingInt(Draft.Row::place))
                        .forEach(this::takeOut);
            }
            long there = after.values().stream().filter(r -> !r.removed()).count();
            if (there > MOST_ROWS) {
                faults.add(
                        new CellFault(
                                null,
                                null,
                                null,
                                "would make "
                                        + there
                                        + " rows of "
                                        + BookTable.this.title()
                                        + ": at most "
                                        + MOST_ROWS));
            } else if (faults.isEmpty()) {
                check();
            }
            return new Plan(rows, faults, absent, List.of());
        }

        private void take(Line line) {
            Map<String, JsonNode> typed = new LinkedHashMap<>();
            for (BookColumns.Part part : columns.parts()) {
                String text = line.typed().get(part.column());
                if (text != null) {
                    JsonNode value = BookColumns.read(part.field(), text, with);
                    if (Kept.isUnread(value)) {
                        faults.add(file.fault(line, part.column(), Kept.fault(value)));
                    }
                    typed.put(part.path(), value);
                }
            }
            List<String> key = key(typed);
            Deque<Draft.Row> same = known.get(key);
            Line before = seen.put(key, line);
            if (same != null && !same.isEmpty()) {
                change(line, same.removeFirst(), typed);
            } else if (before != null) {
                faults.add(
                        file.fault(
                                line,
                                columns.parts().get(0).column(),
                                "stands in row " + before.row() + " already: " + title(typed)));
            } else {
                add(line, typed);
            }
        }

        private void add(Line line, Map<String, JsonNode> typed) {
            Draft.Row empty =
                    new Draft.Row(
                            section.key(),
                            ++nextId,
                            ++nextPlace,
                            false,
                            Map.of(),
                            1,
                            "",
                            null,
                            null);
            Draft.Row row = empty.with(values(empty, typed));
            after.put(row.id(), row);
            lines.put(row.id(), line);
            rows.add(new Plan.Row(line.row(), What.NEW, title(typed), differences(null, row)));
        }

        private void change(Line line, Draft.Row there, Map<String, JsonNode> typed) {
            Draft.Row row = there.with(values(there, typed));
            List<FieldChange> differences = differences(there, row);
            lines.put(there.id(), line);
            if (differences.isEmpty()) {
                rows.add(new Plan.Row(line.row(), What.SAME, title(typed), List.of()));
            } else {
                after.put(row.id(), row);
                rows.add(new Plan.Row(line.row(), What.CHANGED, title(typed), differences));
            }
        }

        private void takeOut(Draft.Row row) {
            after.put(
                    row.id(),
                    new Draft.Row(
                            row.section(),
                            row.id(),
                            row.place(),
                            true,
                            row.values(),
                            row.version(),
                            row.page(),
                            row.changedBy(),
                            row.changedAt()));
            rows.add(new Plan.Row(null, What.REMOVED, title(row.values()), List.of()));
        }

        // Values --------------------------------------------------------------------------------

        /** What the file has no column for stays; what it says in the same way stays to a digit. */
        private Map<String, JsonNode> values(Draft.Row there, Map<String, JsonNode> typed) {
            Map<String, JsonNode> values = new LinkedHashMap<>();
            for (BookField field : section.fields()) {
                if (field.kind() instanceof Kind.Lines) {
                    putLines(field, there, typed, values);
                    continue;
                }
                JsonNode was = there.values().get(field.path());
                JsonNode now = typed.get(field.path());
                boolean stays =
                        now == null
                                || BookTree.same(BookColumns.readBack(field, was, with), now)
                                || BookTree.same(
                                        inMm(field, was, there.values()), inMm(field, now, typed));
                put(values, field.path(), stays ? was : now);
            }
            return values;
        }

        private void putLines(
                BookField list,
                Draft.Row there,
                Map<String, JsonNode> typed,
                Map<String, JsonNode> values) {
            List<BookColumns.Part> parts =
                    columns.parts().stream().filter(p -> list.equals(p.list())).toList();
            boolean inFile = parts.stream().anyMatch(p -> file.has(p.column()));
            Map<String, JsonNode> now = closedUp(list, typed);
            boolean stays =
                    !inFile
                            || parts.stream()
                                    .allMatch(
                                            p ->
                                                    BookTree.same(
                                                            BookColumns.readBack(
                                                                    p.field(),
                                                                    BookColumns.stored(p, there),
                                                                    with),
                                                            now.get(p.path())));
            if (stays) {
                there.values()
                        .forEach(
                                (path, value) -> {
                                    if (path.startsWith(list.path() + "/")) {
                                        values.put(path, value);
                                    }
                                });
            } else {
                now.forEach((path, value) -> put(values, path, value));
            }
        }

        /** Lines without anything in them are none. */
        private Map<String, JsonNode> closedUp(BookField list, Map<String, JsonNode> typed) {
            Map<String, JsonNode> closed = new LinkedHashMap<>();
            List<BookField> fields = ((Kind.Lines) list.kind()).fields();
            int next = 0;
            for (int line : Draft.lines(list.path(), typed)) {
                for (BookField inner : fields) {
                    JsonNode value = typed.get(Draft.linePath(list.path(), line, inner));
                    put(closed, Draft.linePath(list.path(), next, inner), value);
                }
                next++;
            }
            return closed;
        }

        private static void put(
                Map<String, JsonNode> values, String path, @Nullable JsonNode value) {
            boolean no = value != null && value.isBoolean() && !value.booleanValue();
            if (!Kind.isNothing(value) && !no) {
                values.put(path, value);
            }
        }

        private List<FieldChange> differences(Draft.@Nullable Row old, Draft.Row now) {
            List<FieldChange> changes = new ArrayList<>();
            for (BookColumns.Part part : columns.parts()) {
                JsonNode was = old == null ? null : BookColumns.stored(part, old);
                JsonNode is = BookColumns.stored(part, now);
                boolean named = old == null && section.keys().contains(part.path());
                if (!BookTree.same(was, is) && !named) {
                    changes.add(
                            new FieldChange(
                                    part.column().name(),
                                    said(part.field(), was),
                                    said(part.field(), is)));
                }
            }
            return changes;
        }

        private @Nullable String said(BookField field, @Nullable JsonNode value) {
            if (Kind.isNothing(value)) {
                return null;
            }
            return Kept.isUnread(value) ? Kept.text(value) : field.sayWithUnit(value, with);
        }

        // Names ---------------------------------------------------------------------------------

        private List<String> key(Draft.Row row) {
            Map<String, JsonNode> values = new HashMap<>();
            for (String path : section.keys()) {
                BookField field = section.field(path).orElseThrow();
                JsonNode value = BookColumns.readBack(field, row.values().get(path), with);
                if (value != null) {
                    values.put(path, value);
                }
            }
            return key(values);
        }

        private List<String> key(Map<String, JsonNode> values) {
            return section.keys().stream()
                    .map(
                            path -> {
                                BookField field = section.field(path).orElseThrow();
                                JsonNode value = inMm(field, values.get(path), values);
                                return Kind.isNothing(value)
                                        ? ""
                                        : value.isNumber()
                                                ? digits(field, value)
                                                : value.toString();
                            })
                    .toList();
        }

        /** A sheet is told apart to the thousandth of a millimetre, as it is shown. */
        private static String digits(BookField field, JsonNode number) {
            BigDecimal exact = number.decimalValue();
            return (isThickness(field) ? exact.setScale(3, RoundingMode.HALF_UP) : exact)
                    .stripTrailingZeros()
                    .toPlainString();
        }

        private static boolean isThickness(BookField field) {
            return field.kind() instanceof Kind.Figure figure
                    && figure.manner() == Kind.Manner.THICKNESS;
        }

        /**
         * A gauge as the thickness that it is in the row's metal; anything else, and a gauge that
         * no table knows, as it stands.
         */
        private @Nullable JsonNode inMm(
                BookField field, @Nullable JsonNode value, Map<String, JsonNode> row) {
            String gauge = Kept.gaugeIn(value).orElse(null);
            if (gauge == null || !(field.kind() instanceof Kind.Figure figure)) {
                return value;
            }
            Draft.Row of = new Draft.Row(section.key(), 0, 0, false, row, 1, "", null, null);
            JsonNode mm = figure.read(gauge, with, draft.gaugeTable(of, with));
            return Kept.isUnread(mm) ? value : mm;
        }

        private String title(Map<String, JsonNode> values) {
            String title =
                    section.keys().stream()
                            .map(path -> section.field(path).orElseThrow())
                            .filter(f -> !Kind.isNothing(values.get(f.path())))
                            .map(f -> said(f, values.get(f.path())))
                            .collect(Collectors.joining(" · "));
            return title.isEmpty() ? section.noun() : title;
        }

        // Faults --------------------------------------------------------------------------------

        /** The book as it would be: faults in rows of the file, and any that are new elsewhere. */
        private void check() {
            Map<String, List<Draft.Row>> all = new LinkedHashMap<>(draft.rows());
            all.put(section.key(), List.copyOf(after.values()));
            Draft then = new Draft(draft.base(), draft.currency(), draft.version(), all);
            Set<String> before = new HashSet<>();
            DraftReading.of(draft, draft.with(file.numbers()), documents)
                    .faults()
                    .forEach(f -> before.add(id(f)));
            Set<CellFault> found = new LinkedHashSet<>();
            for (DraftReading.Told told :
                    DraftReading.of(then, then.with(file.numbers()), documents).faults()) {
                boolean mine = told.row() != null && told.section().equals(section);
                Line line = mine ? lines.get(told.row().id()) : null;
                if (line != null) {
                    FileColumn column =
                            columns.at(told.path()).map(BookColumns.Part::column).orElse(null);
                    found.add(file.fault(line, column, told.message()));
                } else if (!before.contains(id(told))) {
                    found.add(new CellFault(null, null, null, elsewhere(told, then)));
                }
            }
            faults.addAll(found);
        }

        private static String id(DraftReading.Told told) {
            return told.section().key()
                    + " "
                    + (told.row() == null ? "" : told.row().id())
                    + " "
                    + told.path()
                    + " "
                    + told.message();
        }

        private String elsewhere(DraftReading.Told told, Draft then) {
            String name =
                    told.row() == null || told.section().isOne()
                            ? ""
                            : " " + then.nameOf(told.section().key(), told.row().id());
            return "would leave a fault at "
                    + told.section().title()
                    + name
                    + (told.path().isEmpty()
                            ? ""
                            : ", " + DraftViews.label(told.section(), told.path()))
                    + ": "
                    + told.message();
        }
    }
}
