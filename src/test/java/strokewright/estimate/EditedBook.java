package strokewright.estimate;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** A shop book as JSON, changed in single places and then read as the record. */
final class EditedBook {

    static final JsonMapper JSON =
            JsonMapper.builder().enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES).build();

    private final JsonNode root;

    private EditedBook(JsonNode root) {
        this.root = root;
    }

    /** One or two of everything, without faults and doubts. */
    static EditedBook small() {
        return read("/shop-book/small.json");
    }

    static EditedBook read(String resource) {
        try (InputStream in = EditedBook.class.getResourceAsStream(resource)) {
            return new EditedBook(JSON.readTree(in));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static EditedBook of(ShopBook book) {
        return json(book);
    }

    static EditedBook json(Object document) {
        return new EditedBook(JSON.valueToTree(document));
    }

    JsonNode root() {
        return root;
    }

    /** Replaces what the pointer names; "-" at the end adds to a list. */
    EditedBook with(String pointer, @Nullable Object value) {
        JsonPointer at = JsonPointer.compile(pointer);
        JsonNode parent = root.at(at.head());
        JsonNode node = JSON.valueToTree(value);
        String last = at.last().getMatchingProperty();
        if (parent instanceof ArrayNode list) {
            if (last.equals("-")) {
                list.add(node);
            } else {
                list.set(Integer.parseInt(last), node);
            }
        } else if (parent instanceof ObjectNode object) {
            object.set(last, node);
        } else {
            throw new IllegalArgumentException("nothing to change at " + pointer);
        }
        return this;
    }

    EditedBook without(String pointer) {
        JsonPointer at = JsonPointer.compile(pointer);
        JsonNode parent = root.at(at.head());
        String last = at.last().getMatchingProperty();
        if (parent instanceof ArrayNode list) {
            list.remove(Integer.parseInt(last));
        } else {
            ((ObjectNode) parent).remove(last);
        }
        return this;
    }

    ShopBook book() {
        return JSON.treeToValue(root, ShopBook.class);
    }
}
