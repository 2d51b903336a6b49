package strokewright.shopbook;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import strokewright.access.Documents;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBookCheck;
import strokewright.quantity.Fault;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A draft read as a shop book, with every fault at the field where it was typed.
 *
 * @param book what could be read; with its defaults
 * @param tree the same as JSON
 * @param index of each living row in its list of the book, by section and row
 * @param faults in the order of the pages
 */
record DraftReading(
        Draft draft, ShopBook book, BookTree tree, Map<String, Integer> index, List<Told> faults) {

    /**
     * @param row null for the section as a whole
     * @param path empty for the row as a whole
     */
    record Told(BookSection section, Draft.@Nullable Row row, String path, String message) {}

    static DraftReading of(Draft draft, Kind.With with, Documents documents) {
        return new Assembly(draft, with).read(documents);
    }

    /** What counts at a field, typed or not; null when nothing does. */
    @Nullable JsonNode counting(BookSection section, Draft.Row row, String path) {
        Integer at = index.get(key(section, row.id()));
        if (at == null || section.shape() == BookSection.Shape.MEMBERS) {
            return null;
        }
        String pointer = section.isOne() ? section.at() : section.at() + "/" + at;
        JsonNode value = tree.root().at(pointer + "/" + path);
        return Kind.isNothing(value) ? null : value;
    }

    List<Told> at(BookSection section) {
        return faults.stream().filter(f -> f.section.equals(section)).toList();
    }

    List<Told> at(BookPart part) {
        return faults.stream().filter(f -> part.sections().contains(f.section)).toList();
    }

    private static String key(BookSection section, int row) {
        return section.key() + " " + row;
    }

    /** Puts the book together, and remembers what came from where. */
    private static final class Assembly {

        private final Draft draft;
        private final Kind.With with;
        private final ObjectNode root = Kind.JSON.objectNode();
        private final Map<String, Integer> index = new HashMap<>();

        /** Typed lines of short lists by the pointer of their line in the book. */
        private final Map<String, String> lineOf = new HashMap<>();

        /** Rows by the pointer of their place in the book. */
        private final Map<String, Draft.Row> rowAt = new HashMap<>();

        private final Map<String, Told> told = new LinkedHashMap<>();

        Assembly(Draft draft, Kind.With with) {
            this.draft = draft;
            this.with = with;
        }

        DraftReading read(Documents documents) {
            root.put("currency", draft.currency().getCurrencyCode());
            BookParts.sections().forEach(this::put);
            ShopBook book = documents.read(root.toString(), ShopBook.class);
            for (Fault fault : ShopBookCheck.faults(book)) {
                tell(fault);
            }
            return new DraftReading(
                    draft, book, BookTree.of(book, documents), index, inOrder(told.values()));
        }

        private void put(BookSection section) {
            switch (section.shape()) {
                case ONE -> {
                    for (Draft.Row row : draft.living(section)) {
                        index.put(key(section, row.id()), 0);
                        rowAt.put(section.at(), row);
                        root.set(section.at().substring(1), object(section, row, section.at()));
                    }
                }
                case TABLE, OPEN -> list(section);
                case MEMBERS -> members(section);
            }
        }

        private void list(BookSection section) {
            ArrayNode list = Kind.JSON.arrayNode();
            for (Draft.Row row : draft.living(section)) {
                String at = section.at() + "/" + list.size();
                index.put(key(section, row.id()), list.size());
                rowAt.put(at, row);
                list.add(object(section, row, at));
            }
            int last = section.at().lastIndexOf('/');
            ObjectNode around = last == 0 ? root : root.withObject(section.at().substring(0, last));
            around.set(section.at().substring(last + 1), list);
        }

        private void members(BookSection section) {
            ObjectNode all = root.withObject(section.at());
            Set<String> seen = new HashSet<>();
            for (Draft.Row row : draft.living(section)) {
                BookField nameField = section.fields().get(0);
                BookField valueField = section.fields().get(1);
                ObjectNode typed = object(section, row, "");
                String name = typed.path(nameField.path()).asString("");
                JsonNode value = typed.get(valueField.path());
                if (name.isEmpty()) {
                    told(
                            section,
                            row,
                            nameField.path(),
                            "is missing: a text of 1 to 200 characters");
                } else if (!seen.add(name)) {
                    told(section, row, nameField.path(), "stands twice: each must be different");
                } else if (!Kind.isNothing(value)) {
                    rowAt.put(section.at() + "/" + name.replace("~", "~0").replace("/", "~1"), row);
                    all.set(name, value);
                }
            }
        }

        private ObjectNode object(BookSection section, Draft.Row row, String at) {
            ObjectNode object = Kind.JSON.objectNode();
            Set<String> off = new HashSet<>();
            for (BookField field : section.fields()) {
                String path = field.path();
                JsonNode value = row.values().get(path);
                if (field.kind() instanceof Kind.Built) {
                    if (Kind.YesNo.isTrue(value)) {
                        object.withObject("/" + path);
                    } else {
                        off.add(path + "/");
                    }
                } else if (field.kind() instanceof Kind.Lines lines) {
                    object.set(path, lines(section, row, at, field, lines));
                } else if (off.stream().noneMatch(path::startsWith)) {
                    set(object, path, plain(section, row, path, field, value));
                }
            }
            return object;
        }

        private ArrayNode lines(
                BookSection section, Draft.Row row, String at, BookField field, Kind.Lines lines) {
            ArrayNode list = Kind.JSON.arrayNode();
            for (int i : Draft.lines(field.path(), row.values())) {
                lineOf.put(at + "/" + field.path() + "/" + list.size(), field.path() + "/" + i);
                ObjectNode line = Kind.JSON.objectNode();
                for (BookField inner : lines.fields()) {
                    String path = Draft.linePath(field.path(), i, inner);
                    JsonNode value = plain(section, row, path, inner, row.values().get(path));
                    if (inner.path().isEmpty()) {
                        list.add(value);
                    } else if (value != null) {
                        line.set(inner.path(), value);
                    }
                }
                if (!lines.fields().get(0).path().isEmpty()) {
                    list.add(line);
                }
            }
            return list;
        }

        /** As the book has it; tells what could not be read. */
        private @Nullable JsonNode plain(
                BookSection section,
                Draft.Row row,
                String path,
                BookField field,
                @Nullable JsonNode value) {
            if (Kept.isUnread(value)) {
                told(section, row, path, Kept.fault(value));
                return null;
            }
            Optional<String> gauge = Kept.gaugeIn(value);
            if (gauge.isPresent() && field.kind() instanceof Kind.Figure figure) {
                String table = draft.gaugeTable(row, with);
                return plain(section, row, path, field, figure.read(gauge.get(), with, table));
            }
            if (field.kind() instanceof Kind.Named named) {
                String name = named.name(value, with);
                return name == null ? null : Kind.JSON.stringNode(name);
            }
            return Kind.isNothing(value) ? null : value;
        }

        private static void set(ObjectNode object, String path, @Nullable JsonNode value) {
            if (value == null) {
                return;
            }
            int last = path.lastIndexOf('/');
            ObjectNode around =
                    last < 0 ? object : object.withObject("/" + path.substring(0, last));
            around.set(path.substring(last + 1), value);
        }

        private void tell(Fault fault) {
            String pointer = fault.pointer();
            String longest =
                    rowAt.keySet().stream()
                            .filter(at -> pointer.equals(at) || pointer.startsWith(at + "/"))
                            .max(java.util.Comparator.comparingInt(String::length))
                            .orElse("");
            Optional<BookSection> whole = sectionAt(pointer);
            if (whole.isPresent() && !whole.get().isOne()) {
                told(whole.get(), null, "", fault.message());
                return;
            }
            Draft.Row row = rowAt.get(longest);
            if (row == null) {
                throw new IllegalStateException("a fault of no row: " + fault);
            }
            BookSection section = BookParts.section(row.section()).orElseThrow();
            if (section.shape() == BookSection.Shape.MEMBERS) {
                told(section, row, section.fields().get(1).path(), fault.message());
                return;
            }
            String rest = pointer.substring(Math.min(pointer.length(), longest.length() + 1));
            told(section, row, typedPath(section, longest, rest), fault.message());
        }

        private static Optional<BookSection> sectionAt(String pointer) {
            return BookParts.sections().stream().filter(s -> s.at().equals(pointer)).findFirst();
        }

        /** The field as it is typed: a line may be another one, money is one field. */
        private String typedPath(BookSection section, String at, String rest) {
            BookField field = section.around(rest).orElse(null);
            if (field == null) {
                return "";
            }
            if (!(field.kind() instanceof Kind.Lines lines)) {
                return field.path();
            }
            for (Map.Entry<String, String> line : lineOf.entrySet()) {
                String pointer = at + "/" + rest;
                if (pointer.equals(line.getKey()) || pointer.startsWith(line.getKey() + "/")) {
                    String inner = pointer.substring(line.getKey().length());
                    return line.getValue()
                            + lines.fields().stream()
                                    .filter(
                                            f ->
                                                    !f.path().isEmpty()
                                                            && (inner + "/")
                                                                    .startsWith(
                                                                            "/" + f.path() + "/"))
                                    .map(f -> "/" + f.path())
                                    .findFirst()
                                    .orElse(
                                            lines.fields().get(0).path().isEmpty()
                                                    ? ""
                                                    : "/" + lines.fields().get(0).path());
                }
            }
            return Draft.linePath(field.path(), 0, lines.fields().get(0));
        }

        /** The first of each field: what cannot be read is told before what is missing. */
        private void told(
                BookSection section, Draft.@Nullable Row row, String path, String message) {
            String words = FaultWords.of(message, section, path, with);
            told.putIfAbsent(
                    section.key() + " " + (row == null ? 0 : row.id()) + " " + path,
                    new Told(section, row, path, words));
        }

        private List<Told> inOrder(java.util.Collection<Told> all) {
            List<BookSection> sections = BookParts.sections();
            List<Told> sorted = new ArrayList<>(all);
            sorted.sort(
                    java.util.Comparator.comparingInt((Told t) -> sections.indexOf(t.section))
                            .thenComparingInt(
                                    t -> t.row == null ? -1 : draft.all(t.section).indexOf(t.row))
                            .thenComparingInt(
                                    t ->
                                            t.section
                                                    .around(t.path)
                                                    .map(t.section.fields()::indexOf)
                                                    .orElse(-1))
                            .thenComparing(Told::path));
            return List.copyOf(sorted);
        }
    }
}
