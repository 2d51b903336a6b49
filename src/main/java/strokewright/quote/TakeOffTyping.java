package strokewright.quote;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import strokewright.estimate.TakeOff;
import strokewright.web.Numbers;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Types a stored take-off into the page again, so that reading the page gives the same take-off.
 * Goes along its JSON, whose names the page's fields bear.
 */
final class TakeOffTyping {

    private static final int MM2_IN_DM2_DIGITS = 4;

    private final Numbers numbers;
    private final List<Map.Entry<String, String>> fields = new ArrayList<>();
    private int row;

    private TakeOffTyping(Numbers numbers) {
        this.numbers = numbers;
    }

    static TypedTakeOff of(TakeOff takeOff, Numbers numbers) {
        TakeOffTyping typing = new TakeOffTyping(numbers);
        typing.object("", JsonMapper.shared().valueToTree(takeOff));
        return TypedTakeOff.of(typing.fields);
    }

    private void object(String path, JsonNode object) {
        for (Map.Entry<String, JsonNode> field : object.properties()) {
            String name = field.getKey();
            JsonNode value = field.getValue();
            switch (name) {
                case "quantities" -> type(path + "/quantities", listed(value));
                case "override" -> override(path, value);
                case "cost" -> type(path + "/cost", money(value.get("amount").asString()));
                case "areaMm2" ->
                        type(
                                path + "/areaMm2",
                                numbers.typed(
                                        new BigDecimal(value.asString())
                                                .movePointLeft(MM2_IN_DM2_DIGITS)));
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
            type(path, number(value.asString()));
        } else if (!value.isNull()) {
            type(path, value.asString());
        }
    }

    private void override(String path, JsonNode override) {
        if (override.isObject()) {
            type(path + "/overrideMinutes", number(override.get("minutes").asString()));
            type(path + "/overrideReason", override.get("reason").asString());
        }
    }

    private String number(String digits) {
        return numbers.typed(new BigDecimal(digits));
    }

    /** With the decimals that it has. */
    private String money(String amount) {
        BigDecimal value = new BigDecimal(amount);
        return numbers.show(value, value.scale());
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
