package strokewright.takeoff;

import java.util.List;
import java.util.Locale;
import java.util.Map;

/** Codes of proposed lines that were taken out, as hidden fields of a part or of the item. */
final class LeftOut {

    /** Behind the path of a part. */
    static final String AT = "/leftOut/";

    private LeftOut() {}

    /**
     * The field of a code. Any text can be a code but not a step of a path, so its hash stands in.
     *
     * @param row path of a part; empty for the item
     */
    static String field(String row, String code) {
        return row + AT + "c" + String.format(Locale.ROOT, "%08x", code.hashCode());
    }

    static List<String> in(TypedTakeOff typed, String row) {
        return typed.entries().stream()
                .filter(f -> f.getKey().startsWith(row + AT))
                .map(Map.Entry::getValue)
                .filter(code -> !code.isBlank())
                .toList();
    }

    /** Out, or back in where it was out. */
    static TypedTakeOff turned(TypedTakeOff typed, String row, String code) {
        String field = field(row, code);
        return typed.isEmpty(field) ? typed.with(field, code) : typed.without(field::equals);
    }
}
