package strokewright.web;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.Set;
import strokewright.quantity.Faults;
import strokewright.quantity.PlainText;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;

/**
 * Looks at a whole document before anything is made of it: what is wrong with a text, a number or a
 * name whatever the field is, so that no reader further in has to think of it.
 */
final class JsonScan {

    /** The field that tells which of several records an object is. */
    static final String TYPE = "type";

    /** The fields whose text may have many lines, like a file, a letter; others are one line. */
    static final Set<String> OF_MANY_LINES =
            Set.of(
                    "path",
                    "address",
                    "deliveryAddress",
                    "siteWork",
                    "remarks",
                    "conditions",
                    "notes",
                    "note");

    /** Longer than any double or decimal that means something written out in full. */
    static final int LONGEST_NUMBER = 100;

    private final Faults faults;
    private final Deque<Set<String>> names = new ArrayDeque<>();
    private boolean typeStandsLate;

    JsonScan(Faults faults) {
        this.faults = faults;
    }

    /**
     * Reads one document to the end of the input.
     *
     * @throws tools.jackson.core.JacksonException where it stops being JSON
     */
    void scan(JsonParser p) {
        int depth = 0;
        do {
            JsonToken token = p.nextToken();
            if (token == null || token == JsonToken.VALUE_NULL && depth == 0) {
                faults.add("", "is missing: a JSON document");
                return;
            }
            switch (token) {
                case START_OBJECT -> {
                    depth++;
                    names.push(new HashSet<>());
                }
                case END_OBJECT -> {
                    depth--;
                    names.pop();
                }
                case START_ARRAY -> depth++;
                case END_ARRAY -> depth--;
                case PROPERTY_NAME -> name(p);
                case VALUE_STRING -> text(p, p.getString(), "");
                case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> number(p, token);
                default -> {}
            }
        } while (depth > 0);
        trailing(p);
    }

    /** Whether {@link #TYPE} is anywhere not the first field of its object. */
    boolean typeStandsLate() {
        return typeStandsLate;
    }

    private void trailing(JsonParser p) {
        if (p.nextToken() != null) {
            faults.add(
                    "", "goes on after its end, at " + StrictJson.place(p.currentTokenLocation()));
        }
    }

    private void name(JsonParser p) {
        typeStandsLate |= p.currentName().equals(TYPE) && !names.element().isEmpty();
        if (!names.element().add(p.currentName())) {
            faults.add(StrictJson.pointer(p), "stands twice: each field once");
        }
        text(p, p.currentName(), "has a name that ");
    }

    private void text(JsonParser p, String text, String what) {
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (Character.isHighSurrogate(c)
                    && i + 1 < text.length()
                    && Character.isLowSurrogate(text.charAt(i + 1))) {
                i++;
            } else if (Character.isSurrogate(c)) {
                faults.add(StrictJson.pointer(p), what + "contains half a character: " + code(c));
                return;
            } else if (PlainText.isForeign(c) || isLayout(c) && !breaksLine(p)) {
                faults.add(
                        StrictJson.pointer(p),
                        what + "contains the control character " + code(c) + ": leave it out");
                return;
            }
        }
    }

    private static boolean isLayout(char c) {
        return c == '\n' || c == '\r' || c == '\t';
    }

    private static boolean breaksLine(JsonParser p) {
        return p.currentToken() == JsonToken.VALUE_STRING
                && OF_MANY_LINES.contains(p.currentName());
    }

    private static String code(char c) {
        return String.format("U+%04X", (int) c);
    }

    private void number(JsonParser p, JsonToken token) {
        String text = p.getString();
        if (text.length() > LONGEST_NUMBER) {
            faults.add(
                    StrictJson.pointer(p),
                    "is too long a number: at most " + LONGEST_NUMBER + " characters");
        } else if (token == JsonToken.VALUE_NUMBER_FLOAT) {
            double value = Double.parseDouble(text);
            if (Double.isInfinite(value)) {
                faults.add(StrictJson.pointer(p), "is too large a number");
            } else if (value == 0 && text.startsWith("-")) {
                faults.add(StrictJson.pointer(p), "is minus zero: write 0");
            } else if (value == 0 && hasDigits(text)) {
                faults.add(
                        StrictJson.pointer(p), "is too small a number: write 0 if it is nothing");
            }
        }
    }

    private static boolean hasDigits(String number) {
        for (int i = 0; i < number.length(); i++) {
            char c = number.charAt(i);
            if (c == 'e' || c == 'E') {
                return false;
            }
            if (c >= '1' && c <= '9') {
                return true;
            }
        }
        return false;
    }
}
