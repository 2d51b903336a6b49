package strokewright.shopbook;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Currency;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import strokewright.access.Documents;
import strokewright.estimate.ShopBook;
import strokewright.web.Numbers;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.NumericNode;
import tools.jackson.databind.node.ObjectNode;

class DifferencesTest {

    private static final Documents DOCUMENTS = new Documents();
    private static final ShopBook STARTER =
            new StarterBook(DOCUMENTS).in(Currency.getInstance("EUR")).withEdition(1);

    static IntStream seeds() {
        return IntStream.range(0, 40);
    }

    @Test
    void aBookDoesNotDifferFromItself() {
        assertThat(differences(tree(), tree(), Locale.UK)).isEmpty();
    }

    @Test
    void saysPartRowFieldAndUnitOfAChange() {
        ObjectNode after = tree();
        ((ObjectNode) after.at("/tools/0")).put("biteStrain", 0.0135);
        ((ObjectNode) after.at("/workCentres/0/labourRate")).put("amount", "43.50");
        ((ObjectNode) after.at("/priceScheme")).put("kind", "surcharge");
        ((ObjectNode) after.at("/times")).put("stockLengthMm", 3000);
        assertThat(told(differences(tree(), after, Locale.GERMANY)))
                .containsExactly(
                        "Tools / Shrink, soft-faced / Bite: 1,2\u00a0% → 1,35\u00a0%",
                        "Times and limits / Times and limits / Longest sheet or strip bought:"
                                + " – → 3\u202f000\u00a0mm",
                        "Work centres / Forming / Labour: 42,10\u00a0EUR/h → 43,50\u00a0EUR/h",
                        "Price scheme / Price scheme / Scheme: simple: rates, mark-up, profit, tax"
                                + " → surcharge build-up");
    }

    @Test
    void aNumberWrittenOtherwiseIsNoDifference() {
        ObjectNode after = tree();
        ((ObjectNode) after.at("/workCentres/0/labourRate")).put("amount", "42.100");
        ((ObjectNode) after.at("/tools/0")).put("pitchMm", new java.math.BigDecimal("5.000"));
        assertThat(differences(tree(), after, Locale.UK)).isEmpty();
    }

    @Test
    void aRenamedRowIsOneChangeAndItsUsesAreNone() {
        Draft draft = DraftReadingTest.draft();
        draft = DraftReadingTest.typed(draft, "work-centres", 2, "name", "Shears", Locale.UK);
        draft = DraftReadingTest.typed(draft, "standards", 1, "name", "Papers", Locale.UK);
        int tig = draft.rowOf("standards", "TIG weld").orElseThrow();
        draft = DraftReadingTest.typed(draft, "standards", tig, "name", "TIG", Locale.UK);
        BookTree after = DraftReadingTest.read(draft, Locale.UK).tree();
        String centre = STARTER.workCentres().get(1).name();
        assertThat(told(Differences.between(new BookTree(tree()), after, with(Locale.UK))))
                .containsExactlyInAnyOrder(
                        "Time standards / Order preparation → Papers / Work: Order preparation →"
                                + " Papers",
                        "Time standards / TIG weld → TIG / Work: TIG weld → TIG",
                        "Work centres / " + centre + " → Shears / Name: " + centre + " → Shears");
    }

    @Test
    void addedAndRemovedRowsSayAllThatStandsInThem() {
        ObjectNode after = tree();
        ArrayNode tools = (ArrayNode) after.at("/tools");
        tools.remove(0);
        tools.add(
                DOCUMENTS.read(
                        "{\"name\":\"Planisher\",\"kind\":\"smooth\",\"surface\":\"steel-faced\","
                                + "\"rowMm\":7,\"pitchMm\":3,\"strokesPerMinute\":700,"
                                + "\"changeMinutes\":9,\"setMinutes\":8,\"origin\":\"measured\"}",
                        ObjectNode.class));
        List<Differences.Part> parts = differences(tree(), after, Locale.UK);
        assertThat(parts).hasSize(1);
        List<Differences.Change> changes = parts.get(0).sections().get(0).changes();
        assertThat(changes)
                .extracting(Differences.Change::what)
                .containsExactly(Differences.What.ADDED, Differences.What.REMOVED);
        assertThat(changes.get(0).name()).isEqualTo("Planisher");
        assertThat(changes.get(0).fields())
                .extracting(f -> f.label() + " " + f.now())
                .contains("Row spacing 7\u00a0mm", "Faces steel-faced");
        assertThat(changes.get(1).name()).isEqualTo("Shrink, soft-faced");
        assertThat(changes.get(1).fields())
                .extracting(f -> f.label() + " " + f.old())
                .contains("Jaw width 40\u00a0mm");
    }

    /** A class put in between does not make all those below it look changed. */
    @Test
    void rowsWithoutNamesAreMatchedByWhatStandsInThem() {
        ObjectNode after = tree();
        ArrayNode handling = (ArrayNode) after.at("/times/handling");
        handling.insert(
                1,
                DOCUMENTS.read(
                        "{\"upToKg\":2,\"upToAreaM2\":0.2,\"upToLengthMm\":1200,\"seconds\":8,"
                                + "\"people\":1}",
                        ObjectNode.class));
        ((ObjectNode) handling.get(5)).put("seconds", 180);
        assertThat(told(differences(tree(), after, Locale.UK)))
                .containsExactly(
                        "Times and limits / Class 6 / takes: 150\u00a0s → 180\u00a0s",
                        "Times and limits / Class 2 added");
    }

    @Test
    void anotherOrderIsToldWhereItMatters() {
        ObjectNode after = tree();
        ArrayNode centres = (ArrayNode) after.at("/workCentres");
        centres.add(centres.remove(0));
        ArrayNode tools = (ArrayNode) after.at("/tools");
        tools.add(tools.remove(0));
        List<Differences.Part> parts = differences(tree(), after, Locale.UK);
        assertThat(parts).hasSize(1);
        assertThat(parts.get(0).sections().get(0).changes())
                .singleElement()
                .satisfies(c -> assertThat(c.what()).isEqualTo(Differences.What.ORDER));
    }

    /** Figures changed at random: just as many differences, each with both figures. */
    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void tellsEveryFigureThatWasChangedAndNoOther(int seed) {
        Random random = new Random(seed);
        ObjectNode after = tree();
        List<String> pointers = new java.util.ArrayList<>();
        numbers("", after, pointers);
        java.util.Collections.shuffle(pointers, random);
        List<String> changed = pointers.subList(0, 5);
        for (String pointer : changed) {
            int last = pointer.lastIndexOf('/');
            JsonNode parent = after.at(pointer.substring(0, last));
            double value = after.at(pointer).doubleValue();
            ((ObjectNode) parent).put(pointer.substring(last + 1), value + 1 + random.nextInt(9));
        }
        assertThat(told(differences(tree(), after, Locale.UK)))
                .as(changed.toString())
                .hasSize(5)
                .allMatch(line -> line.contains("→"));
    }

    private static void numbers(String at, JsonNode node, List<String> found) {
        if (node instanceof NumericNode && !at.equals("/edition")) {
            found.add(at);
        } else if (node.isArray()) {
            for (int i = 0; i < node.size(); i++) {
                numbers(at + "/" + i, node.get(i), found);
            }
        } else if (node.isObject()) {
            node.properties().forEach(m -> numbers(at + "/" + m.getKey(), m.getValue(), found));
        }
    }

    private static ObjectNode tree() {
        return BookTree.of(STARTER, DOCUMENTS).root();
    }

    private static Kind.With with(Locale locale) {
        return new Kind.With(Numbers.of(locale), STARTER.currency(), Kind.Names.NONE);
    }

    private static List<Differences.Part> differences(
            ObjectNode before, ObjectNode after, Locale locale) {
        return Differences.between(new BookTree(before), new BookTree(after), with(locale));
    }

    static List<String> told(List<Differences.Part> parts) {
        List<String> lines = new java.util.ArrayList<>();
        for (Differences.Part part : parts) {
            for (Differences.Section section : part.sections()) {
                for (Differences.Change change : section.changes()) {
                    String row = part.of().title() + " / " + change.name();
                    if (!change.isChanged()) {
                        lines.add(row + " " + change.what().name().toLowerCase(Locale.ROOT));
                    } else {
                        change.fields()
                                .forEach(
                                        f ->
                                                lines.add(
                                                        row + " / " + f.label() + ": " + f.old()
                                                                + " → " + f.now()));
                    }
                }
            }
        }
        return lines;
    }
}
