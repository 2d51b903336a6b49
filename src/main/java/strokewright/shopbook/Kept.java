package strokewright.shopbook;

import java.util.Optional;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * What a draft keeps in place of a value of the book: text that could not be read, with what would
 * be right; a gauge, which is as thick as the grade of its row has it; or the row of another
 * section, which goes by its name in the book.
 */
final class Kept {

    private static final String UNREAD = "$unread";
    private static final String FAULT = "$fault";
    private static final String ROW = "$row";
    private static final String GAUGE = "$gauge";

    private Kept() {}

    static ObjectNode unread(String typed, String fault) {
        return JsonNodeFactory.instance.objectNode().put(UNREAD, typed).put(FAULT, fault);
    }

    static boolean isUnread(@Nullable JsonNode value) {
        return value != null && value.has(UNREAD);
    }

    static String text(JsonNode unread) {
        return unread.path(UNREAD).asString();
    }

    static String fault(JsonNode unread) {
        return unread.path(FAULT).asString();
    }

    static ObjectNode gauge(String typed) {
        return JsonNodeFactory.instance.objectNode().put(GAUGE, typed);
    }

    /** As it was typed. */
    static Optional<String> gaugeIn(@Nullable JsonNode value) {
        return value != null && value.has(GAUGE)
                ? Optional.of(value.path(GAUGE).asString())
                : Optional.empty();
    }

    static ObjectNode row(int id) {
        return JsonNodeFactory.instance.objectNode().put(ROW, id);
    }

    static OptionalInt rowIn(@Nullable JsonNode value) {
        return value != null && value.has(ROW)
                ? OptionalInt.of(value.path(ROW).intValue())
                : OptionalInt.empty();
    }
}
