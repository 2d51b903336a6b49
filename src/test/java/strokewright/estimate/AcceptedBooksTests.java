package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.quantity.InvalidInput;
import tools.jackson.databind.JsonNode;

/**
 * Whatever the check lets pass, the calculation can work with: it gives finite figures, or says
 * which operation of the take-off takes too many passes.
 */
class AcceptedBooksTests {

    private static final String STARTER = "/shop-book/starter.json";
    private static final double[] TRIED = {0, 0.0001, 0.01, 0.2, 1, 10, 100, 5000, 1_000_000};

    /** Every kind of operation, at an edge and on an area, with and without anneals. */
    private static final List<TakeOff> TAKE_OFFS =
            Stream.of("round-sign-frame", "copper-bowl", "cover-with-dents", "counter-edge")
                    .map(name -> "/demo-data/quotes/" + name + ".json")
                    .map(
                            file ->
                                    EditedBook.JSON.treeToValue(
                                            EditedBook.read(file).root(), TakeOff.class))
                    .toList();

    private static final JsonNode ROOT = starter().root();
    private static final String NAMED =
            EditedBook.JSON.writeValueAsString(TAKE_OFFS) + ROOT.get("proposals");
    private static final List<String> NUMBERS = numbers().toList();

    /** With few trials, to try many books. */
    private static EditedBook starter() {
        return EditedBook.read(STARTER).with("/uncertainty", Map.of("trials", 1000));
    }

    static Stream<String> numbers() {
        List<String> pointers = new ArrayList<>();
        collect("", ROOT, pointers);
        return pointers.stream().filter(AcceptedBooksTests::isUsed);
    }

    /** A figure of a grade or standard that no take-off names would be reckoned with by nothing. */
    private static boolean isUsed(String pointer) {
        String[] steps = pointer.split("/");
        return switch (steps[1]) {
            case "grades" -> NAMED.contains(ROOT.at("/grades/" + steps[2] + "/code").toString());
            case "sheets" -> NAMED.contains(ROOT.at("/sheets/" + steps[2] + "/grade").toString());
            case "standards" ->
                    NAMED.contains(ROOT.at("/standards/" + steps[2] + "/name").toString());
            default -> true;
        };
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("numbers")
    void oneFigureAtAnyAcceptedValue(String pointer) {
        if (!pointer.endsWith("/amount")) { // money without one cannot even be read
            reckonIfAccepted(starter().without(pointer).book());
        }
        int turn = NUMBERS.indexOf(pointer);
        for (double value : TRIED) {
            // half of them for each value, other ones for the next
            List<TakeOff> half =
                    turn++ % 2 == 0 ? TAKE_OFFS.subList(0, 2) : TAKE_OFFS.subList(2, 4);
            reckonIfAccepted(with(starter(), pointer, value), half);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/times",
                "/times/annealStandard",
                "/times/formingWorkCentre",
                "/times/handling",
                "/times/corrections",
                "/sheets",
                "/workCentres/0/machineRate",
                "/workCentres/1/machineRate",
                "/workCentres/4/machineRate",
                "/priceScheme/kind",
                "/grades/0/annealable",
            })
    void withoutWhatCanBeLeftOut(String pointer) {
        ShopBook book = starter().without(pointer).book();
        assertThat(ShopBookCheck.faults(book)).isEmpty();
        reckonIfAccepted(book);
    }

    @ParameterizedTest
    @CsvSource({"0.01,,", ", 0.8,", ",, 0.45", "0.01, 0.8, 0.45"})
    void withAnyFigureOfAPassLimit(
            @Nullable Double biteStrain,
            @Nullable Double strokeWorkJ,
            @Nullable Double feedEfficiency) {
        for (JsonNode tool : ROOT.get("tools")) {
            EditedBook edited = starter();
            for (String family :
                    List.of("aluminium-soft", "copper", "low-carbon-steel", "stainless")) {
                edited.with(
                        "/passLimits/-",
                        new ShopBook.PassLimit(
                                tool.get("name").asString(),
                                family,
                                biteStrain,
                                strokeWorkJ,
                                feedEfficiency,
                                "measured"));
            }
            assertThat(ShopBookCheck.faults(edited.book())).isEmpty();
            reckonIfAccepted(edited.book());
        }
    }

    @Test
    void withLeastChargesAndALeastOrder() {
        Map<String, String> fifty = Map.of("amount", "50.00", "currency", "EUR");
        EditedBook edited = starter().with("/priceScheme/minimumOrder", fifty);
        for (int i = 0; i < ROOT.get("standards").size(); i++) {
            edited.with("/standards/" + i + "/minimumCharge", fifty);
        }
        assertThat(ShopBookCheck.faults(edited.book())).isEmpty();
        reckonIfAccepted(edited.book());
    }

    static IntStream seeds() {
        return IntStream.range(0, 100);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void manyFiguresAtOnce(int seed) {
        Random random = new Random(seed);
        EditedBook edited = starter();
        for (int i = 0; i < 40; i++) {
            String pointer = NUMBERS.get(random.nextInt(NUMBERS.size()));
            JsonNode before = edited.root().at(pointer);
            with(edited, pointer, TRIED[random.nextInt(TRIED.length)]);
            if (!ShopBookCheck.faults(edited.book()).isEmpty()) {
                edited.with(pointer, before);
            }
        }
        assertThat(ShopBookCheck.faults(edited.book())).isEmpty();
        reckonIfAccepted(edited.book());
    }

    private static ShopBook with(EditedBook edited, String pointer, double value) {
        boolean amount = pointer.endsWith("/amount");
        boolean whole = value == Math.rint(value);
        Object written = whole ? (Object) (long) value : (Object) value;
        return edited.with(pointer, amount ? written.toString() : written).book();
    }

    private static void reckonIfAccepted(ShopBook book) {
        reckonIfAccepted(book, TAKE_OFFS);
    }

    private static void reckonIfAccepted(ShopBook book, List<TakeOff> takeOffs) {
        if (!ShopBookCheck.faults(book).isEmpty()) {
            return;
        }
        ShopBookDoubts.in(book);
        for (TakeOff takeOff : takeOffs) {
            try {
                Estimate estimate = Estimating.estimate(takeOff, book);
                assertThat(EditedBook.JSON.writeValueAsString(estimate))
                        .doesNotContain("NaN", "Infinity");
            } catch (InvalidInput e) {
                assertThat(e.faults())
                        .allSatisfy(
                                fault ->
                                        assertThat(fault.message())
                                                .contains("more than 100,000 passes"));
            }
        }
    }

    /** Whole numbers stay whole: what is tried there is refused before by the reader. */
    private static void collect(String at, JsonNode node, List<String> pointers) {
        if (node.isObject()) {
            node.properties().forEach(e -> collect(at + "/" + e.getKey(), e.getValue(), pointers));
        } else if (node.isArray()) {
            for (int i = 0; i < node.size(); i++) {
                collect(at + "/" + i, node.get(i), pointers);
            }
        } else if (node.isNumber()
                || at.endsWith("/amount") && !at.startsWith("/proposals/")) { // money is a text
            pointers.add(at);
        }
    }
}
