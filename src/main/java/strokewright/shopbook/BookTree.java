package strokewright.shopbook;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.access.Documents;
import strokewright.estimate.ShopBook;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** A shop book as JSON, read section by section as {@link BookParts} describes it. */
record BookTree(ObjectNode root) {

    static BookTree of(ShopBook book, Documents documents) {
        return new BookTree(documents.read(documents.write(book), ObjectNode.class));
    }

    /** The values of each row by the path of their field. */
    List<Map<String, JsonNode>> rows(BookSection section) {
        JsonNode there = root.at(section.at());
        List<Map<String, JsonNode>> rows = new ArrayList<>();
        switch (section.shape()) {
            case ONE -> rows.add(values(section, there));
            case TABLE, OPEN -> there.forEach(row -> rows.add(values(section, row)));
            case MEMBERS ->
                    there.properties()
                            .forEach(
                                    member ->
                                            rows.add(
                                                    member(
                                                            section,
                                                            member.getKey(),
                                                            member.getValue())));
        }
        return rows;
    }

    private static Map<String, JsonNode> member(BookSection section, String name, JsonNode value) {
        Map<String, JsonNode> values = new LinkedHashMap<>();
        values.put(section.fields().get(0).path(), Kind.JSON.stringNode(name));
        values.put(section.fields().get(1).path(), value);
        return values;
    }

    private static Map<String, JsonNode> values(BookSection section, JsonNode row) {
        Map<String, JsonNode> values = new LinkedHashMap<>();
        for (BookField field : section.fields()) {
            JsonNode value = row.at("/" + field.path());
            if (field.kind() instanceof Kind.Built) {
                values.put(field.path(), Kind.JSON.booleanNode(!Kind.isNothing(value)));
            } else if (!Kind.isNothing(value)) {
                values.put(field.path(), value);
            }
        }
        return values;
    }

    /** Whether two values mean the same, however their numbers are written. */
    static boolean same(@Nullable JsonNode one, @Nullable JsonNode other) {
        if (Kind.isNothing(one) || Kind.isNothing(other)) {
            return isEmpty(one) && isEmpty(other);
        }
        if (one.isNumber() && other.isNumber()) {
            return one.decimalValue().compareTo(other.decimalValue()) == 0;
        }
        if (one.has("amount") && other.has("amount")) {
            return one.path("currency").equals(other.path("currency"))
                    && amount(one).compareTo(amount(other)) == 0;
        }
        if (one.isContainer() && other.isContainer()) {
            return sameInside(one, other);
        }
        return one.equals(other);
    }

    private static boolean sameInside(JsonNode one, JsonNode other) {
        if (one.isArray() != other.isArray() || one.size() != other.size()) {
            return false;
        }
        if (one.isArray()) {
            for (int i = 0; i < one.size(); i++) {
                if (!same(one.get(i), other.get(i))) {
                    return false;
                }
            }
            return true;
        }
        return one.properties().stream().allMatch(m -> same(m.getValue(), other.get(m.getKey())));
    }

    private static boolean isEmpty(@Nullable JsonNode value) {
        return Kind.isNothing(value)
                || value.isArray() && value.isEmpty()
                || value.isBoolean() && !value.booleanValue();
    }

    private static BigDecimal amount(JsonNode money) {
        return new BigDecimal(money.path("amount").asString());
    }
}
