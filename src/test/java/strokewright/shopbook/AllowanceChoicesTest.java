package strokewright.shopbook;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import strokewright.costing.Allowance;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

class AllowanceChoicesTest {

    private static final JsonMapper JSON = JsonMapper.builder().build();

    /** Whatever is chosen is read as JSON, and adds what its words say. */
    @Test
    void everyChoiceAddsWhatItSays() {
        double constant = JSON.readValue("{}", Allowance.class).percent();
        int choices = 0;
        for (AllowanceChoices.Line line : AllowanceChoices.of(null)) {
            for (AllowanceChoices.Choice choice : line.choices()) {
                Allowance chosen = chosen(line.field(), choice.value());

                assertThat(choice.words())
                        .endsWith(": " + Math.round(chosen.percent() - constant) + " %");
                assertThat(marked(AllowanceChoices.of(chosen), line.field()))
                        .containsExactly(choice.value());
                choices++;
            }
        }
        assertThat(choices).isEqualTo(25);
    }

    private static Allowance chosen(String field, String value) {
        ObjectNode stated = JSON.createObjectNode();
        if (field.equals("standing")) {
            stated.put(field, Boolean.parseBoolean(value));
        } else {
            stated.put(field, value);
        }
        return JSON.treeToValue(stated, Allowance.class);
    }

    private static List<String> marked(List<AllowanceChoices.Line> lines, String field) {
        return lines.stream()
                .filter(l -> l.field().equals(field))
                .flatMap(l -> l.choices().stream())
                .filter(AllowanceChoices.Choice::chosen)
                .map(AllowanceChoices.Choice::value)
                .toList();
    }
}
