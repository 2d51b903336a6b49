package strokewright.shopbook;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import strokewright.access.Documents;
import strokewright.estimate.ShopBook;
import tools.jackson.databind.JsonNode;

/**
 * A draft brought up to an edition that was added while it was written: begun afresh from that
 * edition, with all that the draft had changed since its own base done again. Where both changed
 * the same field, the draft's stays and it is told.
 *
 * @param told in words, what was changed on both sides
 */
record CatchUp(Draft draft, List<String> told) {

    static CatchUp of(
            Draft mine, ShopBook base, ShopBook current, Kind.With with, Documents documents) {
        Draft then = Draft.of(base, BookTree.of(base, documents));
        Draft now = Draft.of(current, BookTree.of(current, documents));
        return new Merge(mine, then, now, with).done();
    }

    /** Three drafts: as typed, as it began, and as one would begin today. */
    private static final class Merge {

        private final Draft mine;
        private final Draft then;
        private final Draft now;
        private final Kind.With with;
        private final List<String> told = new ArrayList<>();

        /** Rows of the draft by section and number: their numbers in the new one. */
        private final Map<String, Map<Integer, Integer>> numbers = new HashMap<>();

        /** Places of rows: of the base by their number, in the new one. */
        private final Map<String, Map<Integer, Integer>> counterparts = new HashMap<>();

        Merge(Draft mine, Draft then, Draft now, Kind.With with) {
            this.mine = mine;
            this.then = then;
            this.now = now;
            this.with = with;
        }

        CatchUp done() {
            BookParts.sections().forEach(this::number);
            Map<String, List<Draft.Row>> rows = new LinkedHashMap<>();
            for (BookSection section : BookParts.sections()) {
                rows.put(section.key(), merged(section));
            }
            return new CatchUp(new Draft(now.base(), now.currency(), 0, rows), told);
        }

        /** Which row of today each row of the draft is, or which number it gets. */
        private void number(BookSection section) {
            List<Draft.Row> old = then.all(section);
            List<Draft.Row> today = now.all(section);
            Differences.Matched matched =
                    Differences.match(section, said(section, old, then), said(section, today, now));
            Map<Integer, Integer> counterpart = new HashMap<>();
            matched.pairs()
                    .forEach(p -> counterpart.put(old.get(p.old()).id(), today.get(p.now()).id()));
            counterparts.put(section.key(), counterpart);
            int next = today.stream().mapToInt(Draft.Row::id).max().orElse(0) + 1;
            Map<Integer, Integer> number = new HashMap<>();
            for (Draft.Row row : mine.all(section)) {
                Integer there = counterpart.get(row.id());
                number.put(row.id(), there == null ? next++ : there);
            }
            numbers.put(section.key(), number);
        }

        /** Values with names in place of rows, so that rows of two drafts can be compared. */
        private List<Map<String, JsonNode>> said(
                BookSection section, List<Draft.Row> rows, Draft of) {
            return rows.stream().map(r -> named(section, r.values(), of)).toList();
        }

        private static Map<String, JsonNode> named(
                BookSection section, Map<String, JsonNode> values, Draft of) {
            return Draft.mapped(
                    section,
                    values,
                    (field, value) -> {
                        OptionalInt row = Kept.rowIn(value);
                        return field.kind() instanceof Kind.Named named && row.isPresent()
                                ? Kind.JSON.stringNode(
                                        String.valueOf(of.nameOf(named.section(), row.getAsInt())))
                                : value;
                    });
        }

        private List<Draft.Row> merged(BookSection section) {
            Map<Integer, Draft.Row> rows = new LinkedHashMap<>();
            now.all(section).forEach(r -> rows.put(r.id(), r));
            for (Draft.Row typed : mine.all(section)) {
                Draft.Row old = then.row(section.key(), typed.id()).orElse(null);
                int id = numbers.get(section.key()).get(typed.id());
                Draft.Row today = rows.get(id);
                Draft.Row merged =
                        old == null
                                ? renumbered(section, typed, id, typed.values())
                                : today == null
                                        ? gone(section, typed, old, id)
                                        : merged(section, typed, old, today);
                if (merged != null) {
                    rows.put(id, merged);
                }
            }
            if (section.ordered() && isReordered(section)) {
                told.add(section.title() + ": the order is that of the new edition again");
            }
            List<Draft.Row> placed = new ArrayList<>();
            for (Draft.Row row : rows.values()) {
                placed.add(at(row, placed.size() + 1));
            }
            return placed;
        }

        private boolean isReordered(BookSection section) {
            List<Integer> begun = then.all(section).stream().map(Draft.Row::id).toList();
            List<Integer> typed =
                    mine.all(section).stream().map(Draft.Row::id).filter(begun::contains).toList();
            return !typed.equals(begun);
        }

        /** A row that the new edition no longer has stays only where the draft changed it. */
        private Draft.Row gone(BookSection section, Draft.Row typed, Draft.Row old, int id) {
            if (typed.removed() || same(section, typed.values(), mine, old.values(), then)) {
                return null;
            }
            told.add(
                    title(section, typed)
                            + ": the new edition no longer has it, the draft changed it; it is"
                            + " added again");
            return renumbered(section, typed, id, typed.values());
        }

        private Draft.Row merged(
                BookSection section, Draft.Row typed, Draft.Row old, Draft.Row today) {
            Map<String, JsonNode> values = new LinkedHashMap<>(today.values());
            Map<String, JsonNode> was = named(section, old.values(), then);
            Map<String, JsonNode> wants = named(section, typed.values(), mine);
            Map<String, JsonNode> is = named(section, today.values(), now);
            Set<String> paths = new LinkedHashSet<>(was.keySet());
            paths.addAll(wants.keySet());
            boolean changed = typed.removed();
            for (String path : paths) {
                BookField field = Draft.leaf(section, path).orElse(null);
                if (field == null || !isChanged(field, path, old, typed)) {
                    continue;
                }
                changed = true;
                JsonNode wanted = wants.get(path);
                if (!BookTree.same(was.get(path), is.get(path))
                        && !BookTree.same(wanted, is.get(path))) {
                    told.add(
                            title(section, typed)
                                    + ", "
                                    + DraftViews.label(section, path)
                                    + ": the new edition says "
                                    + say(field, is.get(path))
                                    + ", the draft "
                                    + say(field, wanted)
                                    + "; the draft’s stays");
                }
                JsonNode value = renumbered(field, typed.values().get(path));
                if (value == null) {
                    values.remove(path);
                } else {
                    values.put(path, value);
                }
            }
            return changed
                    ? new Draft.Row(
                            section.key(),
                            today.id(),
                            today.place(),
                            typed.removed(),
                            values,
                            1,
                            "",
                            typed.changedBy(),
                            typed.changedAt())
                    : today;
        }

        /** A name that changed because its row was renamed is no change of its use. */
        private boolean isChanged(BookField field, String path, Draft.Row old, Draft.Row typed) {
            JsonNode was = old.values().get(path);
            JsonNode wants = typed.values().get(path);
            return field.kind() instanceof Kind.Named
                    ? !java.util.Objects.equals(Kept.rowIn(was), Kept.rowIn(wants))
                            || Kept.rowIn(was).isEmpty() && !BookTree.same(was, wants)
                    : !BookTree.same(was, wants);
        }

        private static boolean same(
                BookSection section,
                Map<String, JsonNode> one,
                Draft ofOne,
                Map<String, JsonNode> other,
                Draft ofOther) {
            Map<String, JsonNode> a = named(section, one, ofOne);
            Map<String, JsonNode> b = named(section, other, ofOther);
            Set<String> paths = new LinkedHashSet<>(a.keySet());
            paths.addAll(b.keySet());
            return paths.stream().allMatch(p -> BookTree.same(a.get(p), b.get(p)));
        }

        private Draft.Row renumbered(
                BookSection section, Draft.Row row, int id, Map<String, JsonNode> values) {
            Map<String, JsonNode> renumbered =
                    Draft.mapped(section, values, (field, value) -> renumbered(field, value));
            return new Draft.Row(
                    section.key(),
                    id,
                    row.place(),
                    row.removed(),
                    renumbered,
                    1,
                    "",
                    row.changedBy(),
                    row.changedAt());
        }

        private JsonNode renumbered(BookField field, JsonNode value) {
            OptionalInt row = Kept.rowIn(value);
            if (!(field.kind() instanceof Kind.Named named) || row.isEmpty()) {
                return value;
            }
            Integer there = numbers.get(named.section()).get(row.getAsInt());
            return there == null ? value : Kept.row(there);
        }

        private static Draft.Row at(Draft.Row row, int place) {
            return new Draft.Row(
                    row.section(),
                    row.id(),
                    place,
                    row.removed(),
                    row.values(),
                    row.version(),
                    row.page(),
                    row.changedBy(),
                    row.changedAt());
        }

        private String title(BookSection section, Draft.Row row) {
            String name = mine.nameOf(section.key(), row.id());
            return section.isOne() || name == null || name.isBlank() ? section.title() : name;
        }

        private String say(BookField field, JsonNode value) {
            return Kept.isUnread(value)
                    ? "“" + Kept.text(value) + "”"
                    : Kind.isNothing(value) ? "nothing" : field.sayWithUnit(value, with);
        }
    }
}
