package strokewright.shopbook;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * One row as it was sent by its form, whose fields are named by their path: "/spread/kind",
 * "/breaks/0/from". The one place where typed text becomes values.
 */
record TypedRow(Map<String, String> fields) {

    private static final Pattern LINE = Pattern.compile("(\\d{1,3})(?:/.*)?");

    static TypedRow of(Map<String, String[]> parameters) {
        Map<String, String> fields = new LinkedHashMap<>();
        parameters.forEach(
                (name, values) -> {
                    if (name.startsWith("/") && values.length > 0) {
                        fields.put(name.substring(1), values[0]);
                    }
                });
        return new TypedRow(fields);
    }

    /** The row with what was typed; fields that the form did not have stay as they were. */
    Draft.Row in(BookSection section, Draft.Row row, Kind.With with) {
        Map<String, JsonNode> values = new LinkedHashMap<>();
        for (BookField field : section.fields()) {
            if (field.kind() instanceof Kind.Lines lines) {
                for (int line : lineNumbers(field.path(), row)) {
                    for (BookField inner : lines.fields()) {
                        take(Draft.linePath(field.path(), line, inner), inner, row, with, values);
                    }
                }
            } else {
                take(field.path(), field, row, with, values);
            }
        }
        return row.with(values);
    }

    private void take(
            String path,
            BookField field,
            Draft.Row row,
            Kind.With with,
            Map<String, JsonNode> values) {
        String typed = fields.get(path);
        JsonNode old = row.values().get(path);
        boolean box = field.kind() instanceof Kind.YesNo; // one that is not ticked is not sent
        JsonNode value = typed == null && !box ? old : read(field, typed, old, with);
        if (!Kind.isNothing(value) && !(old == null && isNo(value))) {
            values.put(path, value);
        }
    }

    /** What was not touched stays to the last digit. */
    private static JsonNode read(
            BookField field, @Nullable String typed, @Nullable JsonNode old, Kind.With with) {
        String text = typed == null ? "" : typed;
        if (!Kind.isNothing(old)
                && !Kept.isUnread(old)
                && text.equals(field.kind().typed(old, with))) {
            return old;
        }
        return field.kind().read(text, with);
    }

    private static boolean isNo(JsonNode value) {
        return value.isBoolean() && !value.booleanValue();
    }

    private List<Integer> lineNumbers(String list, Draft.Row row) {
        TreeSet<Integer> numbers = new TreeSet<>(Draft.lines(list, row.values()));
        for (String path : fields.keySet()) {
            if (path.startsWith(list + "/")) {
                Matcher m = LINE.matcher(path.substring(list.length() + 1));
                if (m.matches()) {
                    numbers.add(Integer.parseInt(m.group(1)));
                }
            }
        }
        return new ArrayList<>(numbers);
    }
}
