package strokewright.takeoff;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import strokewright.estimate.ShopBook;
import strokewright.forming.SvgText;

/**
 * A take-off exactly as it was typed: every field by its path, in the order of the page.
 *
 * <p>A path looks like the JSON pointer of what it means, but rows have keys in it that stay the
 * same while rows come, go and move: {@code /parts/p1/operations/o3/heightMm}. Which row is which
 * follows from the order alone, so that a page can move a row without renaming anything.
 */
public final class TypedTakeOff {

    /** As many as fit 500 operations of every field. */
    private static final int MOST_FIELDS = 12_000;

    private static final int LONGEST_TEXT = 2_000;

    /** The field that an SVG file may be pasted into. */
    private static final String OUTLINE = "/path";

    private static final Pattern PATH = Pattern.compile("(?:/[A-Za-z0-9]{1,40}){1,7}");
    private static final Pattern NUMBERED_STEP = Pattern.compile("/[a-z](\\d{1,9})(?=/)");
    private static final Pattern NUMBERED = Pattern.compile("[a-z](\\d{1,9})");

    private final Map<String, String> fields;

    private TypedTakeOff(Map<String, String> fields) {
        this.fields = fields;
    }

    /** What a fresh page holds: one part with one line. */
    static TypedTakeOff begun(ShopBook book) {
        return new TypedTakeOff(Map.of())
                .with("/parts/p1/name", "")
                .with("/parts/p1/grade", book.grades().get(0).code()) // as the page shows it chosen
                .with("/parts/p1/operations/o1/type", Work.CURVE_EDGE.kind());
    }

    /** What the fields of a form say; everything that is no field of a take-off is left out. */
    static TypedTakeOff of(Collection<? extends Map.Entry<String, String>> typed) {
        Map<String, String> fields = new LinkedHashMap<>();
        for (Map.Entry<String, String> field : typed) {
            if (fields.size() < MOST_FIELDS && PATH.matcher(field.getKey()).matches()) {
                fields.put(field.getKey(), shortened(field.getKey(), field.getValue()));
            }
        }
        return new TypedTakeOff(fields);
    }

    /** NUL cannot be stored; nothing that belongs into a field is longer. */
    private static String shortened(String path, String text) {
        int longest = path.endsWith(OUTLINE) ? SvgText.MOST_CHARACTERS + 1 : LONGEST_TEXT;
        String clean = text.replace("\0", "");
        return clean.length() <= longest ? clean : clean.substring(0, longest);
    }

    /** Name and text of every field in order, as a draft is stored. */
    List<List<String>> stored() {
        return fields.entrySet().stream().map(e -> List.of(e.getKey(), e.getValue())).toList();
    }

    static TypedTakeOff ofStored(List<List<String>> stored) {
        return of(stored.stream().map(f -> Map.entry(f.get(0), f.get(1))).toList());
    }

    /** What was typed there; empty when there is no such field. */
    public String at(String path) {
        return fields.getOrDefault(path, "");
    }

    boolean isEmpty(String path) {
        return at(path).isBlank();
    }

    /** Paths of the rows of a list, in order: {@code /parts} → {@code /parts/p1, /parts/p4}. */
    List<String> rows(String list) {
        Set<String> rows = new LinkedHashSet<>();
        String under = list + "/";
        for (String path : fields.keySet()) {
            if (path.startsWith(under)) {
                int end = path.indexOf('/', under.length());
                if (end > 0) {
                    rows.add(path.substring(0, end));
                }
            }
        }
        return List.copyOf(rows);
    }

    /** Whether anything but the given fields was typed into a row. */
    boolean says(String row, Set<String> besides) {
        return says(row, path -> besides.contains(path.substring(row.length() + 1)));
    }

    boolean says(String row, Predicate<String> besides) {
        String under = row + "/";
        return fields.entrySet().stream()
                .anyMatch(
                        f ->
                                f.getKey().startsWith(under)
                                        && !besides.test(f.getKey())
                                        && !f.getValue().isBlank());
    }

    public TypedTakeOff with(String path, String text) {
        Map<String, String> changed = new LinkedHashMap<>(fields);
        changed.put(path, shortened(path, text));
        return new TypedTakeOff(changed);
    }

    /**
     * A further row behind the last one of its list, with one field to begin with.
     *
     * @param list e.g. {@code /parts/p1/operations}
     */
    TypedTakeOff withRow(String list, char kind, String field, String text) {
        return with(list + "/" + freeKey(kind) + "/" + field, text);
    }

    /** A key that no row has: one higher than all. */
    String freeKey(char kind) {
        TreeSet<Integer> taken = new TreeSet<>(List.of(0));
        for (String path : fields.keySet()) {
            for (String step : path.substring(1).split("/")) {
                Matcher m = NUMBERED.matcher(step);
                if (step.charAt(0) == kind && m.matches()) {
                    taken.add(Integer.valueOf(m.group(1)));
                }
            }
        }
        return kind + Integer.toString(taken.last() + 1);
    }

    /** The highest number in the keys of all rows; 0 without any. */
    int highestKey() {
        return fields.keySet().stream()
                .flatMap(path -> NUMBERED_STEP.matcher(path).results())
                .mapToInt(found -> Integer.parseInt(found.group(1)))
                .max()
                .orElse(0);
    }

    /** Path and text of every field, in order. */
    List<Map.Entry<String, String>> entries() {
        return List.copyOf(fields.entrySet());
    }

    /** With further fields behind all others. */
    TypedTakeOff plus(Collection<? extends Map.Entry<String, String>> further) {
        List<Map.Entry<String, String>> all = new ArrayList<>(fields.entrySet());
        all.addAll(further);
        return of(all);
    }

    TypedTakeOff withoutRow(String row) {
        return without(path -> path.startsWith(row + "/"));
    }

    TypedTakeOff without(Predicate<String> paths) {
        Map<String, String> left = new LinkedHashMap<>(fields);
        left.keySet().removeIf(paths);
        return new TypedTakeOff(left);
    }

    /** The row one place up or down in its list; unmoved at the end of it. */
    TypedTakeOff moved(String row, int places) {
        String list = row.substring(0, row.lastIndexOf('/'));
        List<String> order = new ArrayList<>(rows(list));
        int from = order.indexOf(row);
        int to = from + places;
        if (from < 0 || to < 0 || to >= order.size()) {
            return this;
        }
        order.add(to, order.remove(from));
        Map<String, String> moved = new LinkedHashMap<>();
        boolean rowsDone = false;
        for (Map.Entry<String, String> field : fields.entrySet()) {
            boolean inList = order.stream().anyMatch(r -> field.getKey().startsWith(r + "/"));
            if (!inList) {
                moved.put(field.getKey(), field.getValue());
            } else if (!rowsDone) {
                for (String each : order) {
                    fields.forEach(
                            (path, text) -> {
                                if (path.startsWith(each + "/")) {
                                    moved.put(path, text);
                                }
                            });
                }
                rowsDone = true;
            }
        }
        return new TypedTakeOff(moved);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof TypedTakeOff that && stored().equals(that.stored());
    }

    @Override
    public int hashCode() {
        return fields.hashCode();
    }

    @Override
    public String toString() {
        return fields.toString();
    }
}
