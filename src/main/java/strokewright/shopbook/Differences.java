package strokewright.shopbook;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * What differs between two shop books, by part, row and field, in the words of {@link BookParts}.
 * Rows are the same row where their names are the same, or else where most of what stands in them
 * is: then the row was renamed, and its new name elsewhere is no change.
 */
final class Differences {

    private static final double ALIKE = 0.6;

    private final BookTree before;
    private final BookTree after;
    private final Kind.With with;
    private final Map<BookSection, Matched> matched = new LinkedHashMap<>();

    private Differences(BookTree before, BookTree after, Kind.With with) {
        this.before = before;
        this.after = after;
        this.with = with;
    }

    /** Parts that differ. */
    static List<Part> between(BookTree before, BookTree after, Kind.With with) {
        return new Differences(before, after, with).parts();
    }

    record Part(BookPart of, List<Section> sections) {

        public int count() {
            return sections.stream().mapToInt(s -> s.changes.size()).sum();
        }
    }

    record Section(BookSection of, List<Change> changes) {}

    enum What {
        ADDED,
        REMOVED,
        CHANGED,
        /** The order of the rows alone. */
        ORDER
    }

    /**
     * @param name of the row, "old → new" where it changed
     * @param fields that differ; of an added or removed row all that say something beside its name
     */
    record Change(What what, String name, List<FieldChange> fields) {

        public boolean isChanged() {
            return what == What.CHANGED;
        }
    }

    /**
     * In words, with units.
     *
     * @param old null where the row is new
     * @param now null where the row is gone
     */
    record FieldChange(String label, @Nullable String old, @Nullable String now) {}

    /** A row of both, by its places. */
    record Pair(int old, int now) {}

    /** Which rows are the same, and what is left over. */
    record Matched(
            List<Map<String, JsonNode>> before,
            List<Map<String, JsonNode>> after,
            List<Pair> pairs,
            List<Integer> removed,
            List<Integer> added) {

        /** Place in the other book of a row of the first; -1 when it is not there. */
        int now(int old) {
            return pairs.stream()
                    .filter(p -> p.old == old)
                    .mapToInt(Pair::now)
                    .findFirst()
                    .orElse(-1);
        }
    }

    private List<Part> parts() {
        for (BookSection section : BookParts.sections()) {
            matched.put(section, match(section, before.rows(section), after.rows(section)));
        }
        List<Part> parts = new ArrayList<>();
        for (BookPart part : BookParts.ALL) {
            List<Section> sections =
                    part.sections().stream()
                            .map(s -> new Section(s, changes(s, matched.get(s))))
                            .filter(s -> !s.changes.isEmpty())
                            .toList();
            if (!sections.isEmpty()) {
                parts.add(new Part(part, sections));
            }
        }
        return parts;
    }

    // Which rows are the same -------------------------------------------------------------------

    static Matched match(
            BookSection section,
            List<Map<String, JsonNode>> before,
            List<Map<String, JsonNode>> after) {
        List<Pair> pairs =
                section.isOne()
                        ? List.of(new Pair(0, 0))
                        : section.keys().isEmpty()
                                ? byPlace(before, after)
                                : byName(section, before, after);
        Set<Integer> old = pairs.stream().map(Pair::old).collect(Collectors.toSet());
        Set<Integer> now = pairs.stream().map(Pair::now).collect(Collectors.toSet());
        return new Matched(
                before,
                after,
                pairs,
                java.util.stream.IntStream.range(0, before.size())
                        .filter(i -> !old.contains(i))
                        .boxed()
                        .toList(),
                java.util.stream.IntStream.range(0, after.size())
                        .filter(i -> !now.contains(i))
                        .boxed()
                        .toList());
    }

    private static List<Pair> byName(
            BookSection section,
            List<Map<String, JsonNode>> before,
            List<Map<String, JsonNode>> after) {
        Map<List<String>, Integer> places = new HashMap<>();
        for (int i = 0; i < after.size(); i++) {
            places.putIfAbsent(name(section, after.get(i)), i);
        }
        List<Pair> pairs = new ArrayList<>();
        List<Integer> left = new ArrayList<>();
        for (int i = 0; i < before.size(); i++) {
            Integer there = places.remove(name(section, before.get(i)));
            if (there == null) {
                left.add(i);
            } else {
                pairs.add(new Pair(i, there));
            }
        }
        Set<Integer> taken =
                pairs.stream().map(Pair::now).collect(Collectors.toCollection(HashSet::new));
        for (int old : left) {
            int best = -1;
            double bestAlike = ALIKE;
            for (int now = 0; now < after.size(); now++) {
                double alike =
                        taken.contains(now) ? 0 : alike(section, before.get(old), after.get(now));
                if (alike > bestAlike) {
                    best = now;
                    bestAlike = alike;
                }
            }
            if (best >= 0) {
                taken.add(best);
                pairs.add(new Pair(old, best));
            }
        }
        return pairs;
    }

    private static List<String> name(BookSection section, Map<String, JsonNode> row) {
        return section.keys().stream()
                .map(row::get)
                .map(v -> Kind.isNothing(v) ? "" : v.isNumber() ? plain(v) : v.asString())
                .toList();
    }

    private static String plain(JsonNode number) {
        return number.decimalValue().stripTrailingZeros().toPlainString();
    }

    /** Share of the fields besides the name that say the same, origin left out. */
    private static double alike(
            BookSection section, Map<String, JsonNode> one, Map<String, JsonNode> other) {
        int said = 0;
        int same = 0;
        for (BookField field : section.fields()) {
            JsonNode a = one.get(field.path());
            JsonNode b = other.get(field.path());
            boolean counts =
                    !section.keys().contains(field.path())
                            && !field.isOrigin()
                            && !BookTree.same(a, null) | !BookTree.same(b, null);
            if (counts) {
                said++;
                same += BookTree.same(a, b) ? 1 : 0;
            }
        }
        return said == 0 ? 0 : (double) same / said;
    }

    /**
     * Rows without a name: the longest run of equal ones stays, what lies between is by its place.
     */
    private static List<Pair> byPlace(
            List<Map<String, JsonNode>> before, List<Map<String, JsonNode>> after) {
        int[][] longest = new int[before.size() + 1][after.size() + 1];
        for (int i = before.size() - 1; i >= 0; i--) {
            for (int j = after.size() - 1; j >= 0; j--) {
                longest[i][j] =
                        equal(before.get(i), after.get(j))
                                ? longest[i + 1][j + 1] + 1
                                : Math.max(longest[i + 1][j], longest[i][j + 1]);
            }
        }
        List<Pair> pairs = new ArrayList<>();
        int i = 0;
        int j = 0;
        int gapOld = 0;
        int gapNow = 0;
        while (i < before.size() && j < after.size()) {
            if (equal(before.get(i), after.get(j))) {
                between(gapOld, i, gapNow, j, pairs);
                pairs.add(new Pair(i++, j++));
                gapOld = i;
                gapNow = j;
            } else if (longest[i + 1][j] >= longest[i][j + 1]) {
                i++;
            } else {
                j++;
            }
        }
        between(gapOld, before.size(), gapNow, after.size(), pairs);
        return pairs;
    }

    private static void between(int old, int oldEnd, int now, int nowEnd, List<Pair> pairs) {
        for (int i = old, j = now; i < oldEnd && j < nowEnd; i++, j++) {
            pairs.add(new Pair(i, j));
        }
    }

    private static boolean equal(Map<String, JsonNode> one, Map<String, JsonNode> other) {
        Set<String> paths = new HashSet<>(one.keySet());
        paths.addAll(other.keySet());
        return paths.stream().allMatch(p -> BookTree.same(one.get(p), other.get(p)));
    }

    // What changed in them ----------------------------------------------------------------------

    private List<Change> changes(BookSection section, Matched rows) {
        List<Change> changes = new ArrayList<>();
        rows.pairs.stream()
                .sorted(java.util.Comparator.comparingInt(Pair::now))
                .forEach(
                        pair -> {
                            List<FieldChange> fields =
                                    fields(
                                            section,
                                            rows.before.get(pair.old),
                                            rows.after.get(pair.now));
                            if (!fields.isEmpty()) {
                                changes.add(
                                        new Change(
                                                What.CHANGED, name(section, rows, pair), fields));
                            }
                        });
        for (int now : rows.added) {
            Map<String, JsonNode> row = rows.after.get(now);
            changes.add(new Change(What.ADDED, title(section, row, now), all(section, row, true)));
        }
        for (int old : rows.removed) {
            Map<String, JsonNode> row = rows.before.get(old);
            changes.add(
                    new Change(What.REMOVED, title(section, row, old), all(section, row, false)));
        }
        if (section.ordered() && isReordered(rows.pairs)) {
            changes.add(new Change(What.ORDER, order(section, rows), List.of()));
        }
        return changes;
    }

    private static boolean isReordered(Collection<Pair> pairs) {
        int last = -1;
        for (Pair pair :
                pairs.stream().sorted(java.util.Comparator.comparingInt(Pair::old)).toList()) {
            if (pair.now < last) {
                return true;
            }
            last = pair.now;
        }
        return false;
    }

    private String order(BookSection section, Matched rows) {
        List<String> names = new ArrayList<>();
        for (int i = 0; i < rows.after.size(); i++) {
            names.add(title(section, rows.after.get(i), i));
        }
        return String.join(", ", names);
    }

    private String name(BookSection section, Matched rows, Pair pair) {
        String old = title(section, rows.before.get(pair.old), pair.old);
        String now = title(section, rows.after.get(pair.now), pair.now);
        return section.isOne() || section.keys().isEmpty() || old.equals(now)
                ? now
                : old + " → " + now;
    }

    private String title(BookSection section, Map<String, JsonNode> row, int place) {
        if (section.isOne()) {
            return section.title();
        }
        String name =
                section.keys().stream()
                        .map(k -> section.field(k).orElseThrow())
                        .filter(f -> !Kind.isNothing(row.get(f.path())))
                        .map(f -> f.sayWithUnit(row.get(f.path()), with))
                        .collect(Collectors.joining(" · "));
        String noun = Character.toUpperCase(section.noun().charAt(0)) + section.noun().substring(1);
        return name.isEmpty() ? noun + " " + (place + 1) : name;
    }

    private List<FieldChange> fields(
            BookSection section, Map<String, JsonNode> old, Map<String, JsonNode> now) {
        List<FieldChange> changes = new ArrayList<>();
        for (BookField field : section.fields()) {
            JsonNode was = old.get(field.path());
            JsonNode is = now.get(field.path());
            if (!BookTree.same(was, is) && !isRenamed(field.kind(), was, is)) {
                changes.add(new FieldChange(field.label(), say(field, was), say(field, is)));
            }
        }
        return changes;
    }

    private List<FieldChange> all(BookSection section, Map<String, JsonNode> row, boolean added) {
        return section.fields().stream()
                .filter(f -> !BookTree.same(row.get(f.path()), null))
                .filter(f -> !section.keys().contains(f.path()))
                .map(
                        f -> {
                            String said = say(f, row.get(f.path()));
                            return new FieldChange(
                                    f.label(), added ? null : said, added ? said : null);
                        })
                .toList();
    }

    private String say(BookField field, @Nullable JsonNode value) {
        return field.sayWithUnit(value, with);
    }

    /** Whether the value names the same row by its new name. */
    private boolean isRenamed(Kind kind, @Nullable JsonNode old, @Nullable JsonNode now) {
        if (Kind.isNothing(old) || Kind.isNothing(now)) {
            return false;
        }
        if (kind instanceof Kind.Lines lines && old.size() == now.size()) {
            for (int i = 0; i < old.size(); i++) {
                for (BookField field : lines.fields()) {
                    JsonNode was =
                            field.path().isEmpty() ? old.get(i) : old.get(i).path(field.path());
                    JsonNode is =
                            field.path().isEmpty() ? now.get(i) : now.get(i).path(field.path());
                    if (!BookTree.same(was, is) && !isRenamed(field.kind(), was, is)) {
                        return false;
                    }
                }
            }
            return true;
        }
        if (!(kind instanceof Kind.Named named) || !old.isString() || !now.isString()) {
            return false;
        }
        BookSection section = BookParts.section(named.section()).orElseThrow();
        Matched rows = matched.get(section);
        String path = section.nameField().path();
        return rows.pairs.stream()
                .anyMatch(
                        p ->
                                old.equals(rows.before.get(p.old).get(path))
                                        && now.equals(rows.after.get(p.now).get(path)));
    }
}
