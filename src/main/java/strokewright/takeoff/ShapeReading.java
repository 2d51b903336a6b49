package strokewright.takeoff;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Shape;
import strokewright.estimate.ShapeCheck;
import strokewright.estimate.ShopBook;
import strokewright.quantity.Fault;
import strokewright.web.Numbers;
import strokewright.web.Reading;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * Reads the shape that was typed beside a take-off, by way of its JSON, whose names its fields
 * bear.
 */
final class ShapeReading {

    /** Above the fields of the shape; no part of the take-off itself. */
    static final String AT = "/shape";

    private static final JsonMapper JSON = JsonMapper.shared();

    private ShapeReading() {}

    /**
     * @param shape null where a field could not be read
     * @param faults each at the path of its field; empty for a usable shape
     */
    record Read(@Nullable Shape shape, List<Fault> faults) {}

    static ShapeKind kind(TypedTakeOff typed) {
        return ShapeKind.of(typed.at(AT + "/type"));
    }

    static Read read(TypedTakeOff typed, ShopBook book, Numbers numbers) {
        ShapeKind kind = kind(typed);
        List<Fault> faults = new ArrayList<>();
        ObjectNode json = JSON.createObjectNode().put("type", kind.kind());
        for (Field field : kind.fields()) {
            String path = AT + "/" + field.name();
            String text = typed.at(path).strip();
            Reading read = reading(field, text, typed, book, numbers);
            if (read == null) {
                if (!text.isEmpty() && isChoice(field, text, book)) {
                    json.put(field.name(), text);
                }
            } else if (read.fault() != null) {
                faults.add(new Fault(path, read.fault()));
            } else if (read.value() != null) {
                if (field.kind() == Field.Kind.WHOLE) {
                    json.put(field.name(), read.value().toBigInteger());
                } else {
                    json.put(field.name(), read.value().doubleValue());
                }
            }
        }
        Set<String> told = new HashSet<>();
        faults.forEach(f -> told.add(f.pointer()));
        Shape shape = null;
        try {
            shape = JSON.treeToValue(json, Shape.class);
        } catch (tools.jackson.core.JacksonException tooLarge) {
            // a whole number that no int holds
            for (Field field : kind.fields()) {
                if (json.path(field.name()).isBigInteger() || json.path(field.name()).isLong()) {
                    faults.add(new Fault(AT + "/" + field.name(), "is too large"));
                }
            }
        }
        if (shape != null) {
            for (Fault fault : ShapeCheck.faults(shape, book)) {
                if (told.add(AT + fault.pointer())) {
                    faults.add(new Fault(AT + fault.pointer(), fault.message()));
                }
            }
        }
        return new Read(shape, List.copyOf(faults));
    }

    /** Null for what is no number. */
    private static @Nullable Reading reading(
            Field field, String text, TypedTakeOff typed, ShopBook book, Numbers numbers) {
        return switch (field.kind()) {
            case LENGTH -> numbers.lengthMm(text);
            case AREA -> numbers.areaMm2(text);
            case NUMBER -> numbers.number(text);
            case WHOLE -> numbers.whole(text);
            case THICKNESS ->
                    TakeOffReading.thickness(text, typed.at(AT + "/grade").strip(), book, numbers);
            case TEXT, LINES, CHOICE -> null;
        };
    }

    private static boolean isChoice(Field field, String text, ShopBook book) {
        return field.options() == null
                || field.name().equals("grade") // the check tells of one that is gone
                || field.options().apply(book).stream().anyMatch(o -> o.value().equals(text));
    }
}
