package strokewright.takeoff;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.FromShape;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.quantity.SheetGauge;
import strokewright.web.Numbers;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Types a stored take-off into the page again, so that reading the page gives the same take-off.
 * Goes along its JSON, whose names the page's fields bear.
 */
final class TakeOffTyping {

    private static final int MM2_IN_DM2_DIGITS = 4;
    private static final int EVERY_DECIMAL = 400;

    private final ShopBook book;
    private final Numbers numbers;
    private final List<Map.Entry<String, String>> fields = new ArrayList<>();
    private final int decimals;
    private int row;

    /** Of every part that says none itself. */
    private @Nullable String gauge;

    private TakeOffTyping(ShopBook book, Numbers numbers, int row, int decimals) {
        this.book = book;
        this.numbers = numbers;
        this.row = row;
        this.decimals = decimals;
    }

    static TypedTakeOff of(TakeOff takeOff, ShopBook book, Numbers numbers) {
        TakeOffTyping typing = new TakeOffTyping(book, numbers, 0, EVERY_DECIMAL);
        typing.object("", JsonMapper.shared().valueToTree(takeOff));
        return TypedTakeOff.of(typing.fields);
    }

    /**
     * Parts and assembly lines of a shape, to stand behind the rows that are there. Nobody measures
     * finer than a hundredth of a millimetre.
     *
     * @param thickness of the shape as it was typed, which says a gauge better than its mm
     * @param highestKey that a row has
     */
    static List<Map.Entry<String, String>> of(
            FromShape shape, String thickness, ShopBook book, Numbers numbers, int highestKey) {
        TakeOffTyping typing = new TakeOffTyping(book, numbers, highestKey, 2);
        typing.gauge = SheetGauge.read(thickness).isPresent() ? thickness : null;
        JsonNode tree = JsonMapper.shared().valueToTree(shape);
        typing.any("/parts", "parts", tree.get("parts"));
        typing.any("/assembly", "operations", tree.get("assembly"));
        return typing.fields;
    }

    private void object(String path, JsonNode object) {
        for (Map.Entry<String, JsonNode> field : object.properties()) {
            String name = field.getKey();
            JsonNode value = field.getValue();
            switch (name) {
                case "thicknessMm" -> thickness(path + "/thicknessMm", object, value);
                case "gauge" -> {
                    // stands in the thickness
                }
                case "quantities" -> type(path + "/quantities", listed(value));
                case "fold" -> fold(path + TakeOffReading.FOLD, value);
                case "leftOut" ->
                        value.forEach(
                                code ->
                                        type(
                                                LeftOut.field(path, code.asString()),
                                                code.asString()));
                case "heldTemplatesMm" -> type(path + "/heldTemplatesMm", radii(value));
                case "override" -> override(path, value);
                case "cost" -> cost(path, value);
                case "areaMm2" ->
                        type(
                                path + "/areaMm2",
                                number(
                                        new BigDecimal(value.asString())
                                                .movePointLeft(MM2_IN_DM2_DIGITS),
                                        decimals + 2));
                default -> any(path + "/" + name, name, value);
            }
        }
    }

    private void any(String path, String name, JsonNode value) {
        if (value.isArray()) {
            for (JsonNode each : value) {
                object(path + "/" + name.charAt(0) + ++row, each);
            }
        } else if (value.isObject()) {
            object(path, value);
        } else if (value.isNumber()) {
            type(
                    path,
                    number(
                            new BigDecimal(value.asString()),
                            name.equals("amount") ? EVERY_DECIMAL : decimals));
        } else if (!value.isNull()) {
            type(path, value.asString());
        }
    }

    /** As it was said, unless the grade has another gauge by now. */
    private void thickness(String path, JsonNode part, JsonNode mm) {
        String said = part.path("gauge").isString() ? part.path("gauge").asString() : gauge;
        Double read =
                said == null || !mm.isNumber()
                        ? null
                        : TakeOffReading.thickness(
                                        said, part.path("grade").asString(""), book, numbers)
                                .asDouble();
        if (read != null && read == mm.asDouble()) {
            type(path, said);
        } else {
            any(path, "thicknessMm", mm);
        }
    }

    private void fold(String path, JsonNode fold) {
        if (!fold.isObject()) {
            return;
        }
        any(path + "/lengthMm", "lengthMm", fold.get("lengthMm"));
        any(path + "/firstLegMm", "legMm", fold.get("legsMm").get(0));
        for (int i = 0; i < fold.get("bends").size(); i++) {
            JsonNode bend = fold.get("bends").get(i);
            String at = path + "/bends/b" + ++row;
            any(at + "/openingDeg", "openingDeg", bend.get("openingDeg"));
            any(at + "/radiusMm", "radiusMm", bend.get("radiusMm"));
            type(at + "/way", bend.get("way").asString().equals("down") ? "down" : "");
            any(at + "/legMm", "legMm", fold.get("legsMm").get(i + 1));
        }
    }

    private void cost(String path, JsonNode cost) {
        if (cost.isObject()) {
            type(path + "/cost", money(cost.get("amount").asString()));
        }
    }

    private void override(String path, JsonNode override) {
        if (override.isObject()) {
            type(
                    path + "/overrideMinutes",
                    number(new BigDecimal(override.get("minutes").asString()), EVERY_DECIMAL));
            type(path + "/overrideReason", override.get("reason").asString());
        }
    }

    private String number(BigDecimal value, int decimalsOfIt) {
        return numbers.typed(
                value.scale() > decimalsOfIt
                        ? value.setScale(decimalsOfIt, RoundingMode.HALF_UP)
                        : value);
    }

    /** With the decimals that it has. */
    private String money(String amount) {
        BigDecimal value = new BigDecimal(amount);
        return numbers.show(value, value.scale());
    }

    private String radii(JsonNode radiiMm) {
        List<String> texts = new ArrayList<>();
        radiiMm.forEach(r -> texts.add(number(new BigDecimal(r.asString()), EVERY_DECIMAL)));
        return String.join("; ", texts);
    }

    private static String listed(JsonNode numbers) {
        List<String> texts = new ArrayList<>();
        numbers.forEach(each -> texts.add(each.asString()));
        return String.join(", ", texts);
    }

    private void type(String path, String text) {
        fields.add(Map.entry(path, text));
    }
}
