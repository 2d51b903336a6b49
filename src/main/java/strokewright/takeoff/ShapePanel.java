package strokewright.takeoff;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook;
import strokewright.quantity.Fault;
import strokewright.quantity.Finding;
import strokewright.takeoff.TakeOffView.FieldView;
import strokewright.takeoff.TakeOffView.OptionView;
import strokewright.web.Numbers;

/**
 * The panel from which a take-off is started with a shape.
 *
 * @param base path of the page
 * @param open whether it stands open
 * @param kinds of shape to choose from
 * @param chosen what is asked for the chosen one
 * @param notes what is told about the shape that was added last
 */
record ShapePanel(String base, boolean open, FieldView kinds, Ask chosen, List<String> notes) {

    /**
     * What is asked for one shape.
     *
     * @param kind in JSON
     * @param sketches one for each choice that changes the picture
     */
    record Ask(String kind, List<FieldView> fields, List<Sketch> sketches) {}

    /**
     * @param when the choice that it belongs to; empty where there is one for all
     * @param shown for what is chosen
     */
    record Sketch(String when, boolean shown, String svg) {}

    /** Makes panels for one page. */
    static final class Maker {

        private final String base;
        private final ShopBook book;
        private final Numbers numbers;

        Maker(String base, ShopBook book, Numbers numbers) {
            this.base = base;
            this.book = book;
            this.numbers = numbers;
        }

        /**
         * @param asked whether somebody wants to add it: then what is missing is told too
         */
        ShapePanel of(TypedTakeOff typed, boolean open, boolean asked) {
            ShapeKind kind = ShapeReading.kind(typed);
            Map<String, String> faults = new HashMap<>();
            for (Fault fault : ShapeReading.read(typed, book, numbers).faults()) {
                if (asked || !typed.isEmpty(fault.pointer())) {
                    faults.putIfAbsent(fault.pointer(), fault.message());
                }
            }
            return new ShapePanel(base, open, kinds(kind), ask(kind, typed, faults), List.of());
        }

        /** One for each shape, with nothing typed into it. */
        List<Ask> all(TypedTakeOff empty) {
            return Arrays.stream(ShapeKind.values()).map(k -> ask(k, empty, Map.of())).toList();
        }

        private FieldView kinds(ShapeKind chosen) {
            String path = ShapeReading.AT + "/type";
            return new FieldView(
                    path,
                    TakeOffViews.id("f", path),
                    "Shape",
                    "choice",
                    "",
                    chosen.kind(),
                    "",
                    "",
                    Arrays.stream(ShapeKind.values())
                            .map(k -> new OptionView(k.kind(), k.label(), k == chosen, null))
                            .toList(),
                    null);
        }

        private Ask ask(ShapeKind kind, TypedTakeOff typed, Map<String, String> faults) {
            return new Ask(
                    kind.kind(),
                    kind.fields().stream().map(f -> field(f, typed, faults)).toList(),
                    sketches(kind, typed));
        }

        private FieldView field(Field field, TypedTakeOff typed, Map<String, String> faults) {
            String path = ShapeReading.AT + "/" + field.name();
            String value = typed.at(path);
            return new FieldView(
                    path,
                    TakeOffViews.id("f", path),
                    field.label(),
                    field.kind() == Field.Kind.CHOICE ? "choice" : "number",
                    field.unit(),
                    value,
                    field.otherwise(),
                    field.hint(),
                    options(field, value),
                    faults.get(path));
        }

        private @Nullable List<OptionView> options(Field field, String value) {
            return field.options() == null
                    ? null
                    : field.options().apply(book).stream()
                            .map(
                                    o ->
                                            new OptionView(
                                                    o.value(),
                                                    o.label(),
                                                    o.value().equals(value),
                                                    null))
                            .toList();
        }

        private List<Sketch> sketches(ShapeKind kind, TypedTakeOff typed) {
            Field choice =
                    kind.fields().stream()
                            .filter(f -> f.name().matches("flange|rim|sense"))
                            .findFirst()
                            .orElse(null);
            String id = "sketch-" + kind.kind();
            if (choice == null || choice.options() == null) {
                return List.of(new Sketch("", true, ShapeSketches.of(kind, "", id)));
            }
            List<Sketch> sketches = new ArrayList<>();
            String chosen = typed.at(ShapeReading.AT + "/" + choice.name());
            for (Field.Option option : choice.options().apply(book)) {
                boolean shown =
                        option.value().equals(chosen) || chosen.isEmpty() && sketches.isEmpty();
                sketches.add(
                        new Sketch(
                                option.value(),
                                shown,
                                ShapeSketches.of(kind, option.value(), id + "-" + option.value())));
            }
            return sketches;
        }
    }

    /** Empty again and closed, telling about the shape that was added. */
    ShapePanel added(List<Finding> told, Numbers numbers) {
        ShapeWords words = new ShapeWords(numbers);
        return new ShapePanel(base, false, kinds, chosen, told.stream().map(words::text).toList());
    }
}
