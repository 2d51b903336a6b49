package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.estimate.Operation.Formed;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Part;
import strokewright.estimate.TakeOff.Surface;

/** The plan of tools as an estimate shows it. */
class PlanningTest {

    private static final List<String> EDGE_TOOLS = List.of("soft", "steel", "fine", "rib");

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {11, 12, 13})
    void isNeverDearerThanAnyChoiceOfToolsTheEstimatorCouldMake(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 20; i++) {
            List<List<Formed>> parts = new ArrayList<>();
            for (int p = 0; p < random.nextInt(1, 3); p++) {
                List<Formed> work = new ArrayList<>();
                for (int o = 0; o < random.nextInt(1, 3); o++) {
                    work.add(edge(random, null));
                }
                parts.add(work);
            }
            Estimate.Plan free = plan(takeOff(parts));
            double least = leastOfAllChoices(parts, 0, 0);

            assertThat(free.exact()).isTrue();
            assertThat(free.minutes()).isCloseTo(least, within(1e-9));
            assertThat(free.ownToolMinutes()).isNull();
        }
    }

    @Test
    void minutesAreThoseOfTheLinesAndOfTheChanges() {
        TakeOff takeOff =
                takeOff(
                        List.of(
                                List.of(
                                        WorkedShop.curve(Sense.SHRINK, 1885, 300, 40, null),
                                        new Operation.Dish(
                                                300.0, 60.0, null, null, null, null, null, null,
                                                null)),
                                List.of(new Operation.Smooth(90_000.0, 2, 1, null, null, null))));
        Estimate estimate = Estimating.estimate(takeOff, WorkedShop.book());
        Estimate.Plan plan = estimate.plan();
        double forming =
                estimate.operations().stream().mapToDouble(Estimate.Line::machineMinutes).sum();

        assertThat(plan.minutes()).isCloseTo(forming + 3.0 * plan.changes(), within(1e-9));
        assertThat(plan.visits()).filteredOn(Estimate.Visit::change).hasSize(plan.changes());
        assertThat(estimate.quantities().get(0).toolChanges()).isEqualTo(plan.changes());
    }

    @Test
    void dishGoesFromItsRimToolToItsCrownTool() {
        Estimate.Plan plan =
                plan(
                        takeOff(
                                List.of(
                                        List.of(
                                                new Operation.Dish(
                                                        300.0, 60.0, null, null, null, null,
                                                        "steel", "crown", null)))));

        assertThat(plan.visits())
                .extracting(Estimate.Visit::tool)
                .containsExactly("steel", "crown", "crown"); // the crown is annealed once
        assertThat(plan.changes()).isEqualTo(2);
    }

    @Test
    void annealEndsAVisit() {
        // shrinking half-hard sheet by 0.47 takes one anneal
        Estimate.Plan plan =
                plan(
                        takeOff(
                                List.of(
                                        List.of(
                                                WorkedShop.curve(
                                                        Sense.SHRINK, 700, 120, 45, "soft")))));

        assertThat(plan.visits()).extracting(Estimate.Visit::visit).containsExactly(1, 2);
        assertThat(plan.visits()).extracting(Estimate.Visit::change).containsExactly(true, false);
    }

    @Test
    void partsWithTheSameToolsShareTheChanges() {
        List<Formed> both =
                List.of(
                        WorkedShop.curve(Sense.SHRINK, 900, 300, 40, "soft"),
                        WorkedShop.curve(Sense.STRETCH, 900, 300, 40, "steel"));

        assertThat(plan(takeOff(List.of(both, both, both))).changes()).isEqualTo(2);
    }

    @Test
    void estimatorsOwnToolStandsAndItsCostIsShown() {
        Formed slow = WorkedShop.curve(Sense.SHRINK, 1885, 300, 40, "fine");
        Estimate estimate = Estimating.estimate(takeOff(List.of(List.of(slow))), WorkedShop.book());
        Estimate.Plan plan = estimate.plan();
        double quickest =
                EDGE_TOOLS.stream()
                        .mapToDouble(
                                t ->
                                        WorkedShop.lines(
                                                        takeOff(
                                                                List.of(
                                                                        List.of(
                                                                                WorkedShop.curve(
                                                                                        Sense
                                                                                                .SHRINK,
                                                                                        1885,
                                                                                        300,
                                                                                        40,
                                                                                        t)))))
                                                .get(0)
                                                .machineMinutes())
                        .min()
                        .orElseThrow();

        assertThat(estimate.operations().get(0).tool()).isEqualTo("fine");
        assertThat(plan.ownToolMinutes())
                .isCloseTo(estimate.operations().get(0).machineMinutes() - quickest, within(1e-9));
        assertThat(plan.ownTools())
                .singleElement()
                .satisfies(
                        own -> {
                            assertThat(own.tool()).isEqualTo("fine");
                            assertThat(own.quickestMinutes()).isCloseTo(quickest, within(1e-9));
                        });
    }

    @Test
    void tooManyWaysArePlannedStepByStepAndThatIsSaid() {
        List<List<Formed>> parts = new ArrayList<>();
        SplittableRandom random = new SplittableRandom(3);
        for (int p = 0; p < 8; p++) {
            List<Formed> work = new ArrayList<>();
            for (int o = 0; o < 7; o++) {
                work.add(edge(random, null));
            }
            parts.add(work);
        }

        assertThat(plan(takeOff(parts)).exact()).isFalse();
    }

    @Test
    void visibleSurfaceTakesSteelToolsOnlyWithDressingOutTheirMarks() {
        TakeOff visible = visible(WorkedShop.curve(Sense.SHRINK, 1885, 300, 40, null));
        ShopBook without = WorkedShop.book();
        ShopBook cheap = dressing(0.001);
        ShopBook dear = dressing(5);

        assertThat(tool(visible, without)).isEqualTo("soft");
        assertThat(tool(visible, cheap)).isEqualTo("steel");
        assertThat(tool(visible, dear)).isEqualTo("soft");
        Estimate.Line dressed = Estimating.estimate(visible, cheap).operations().get(0);
        // 1885 × 40 mm of band
        assertThat(dressed.dressMinutes()).isCloseTo(0.001 * 1885 * 40 / 10_000, within(1e-9));
        assertThat(dressed.findings()).isEmpty();
    }

    @Test
    void changeThatDoesNotPayForOnePieceMayPayForTheManyInOneItem() {
        Formed first = WorkedShop.curve(Sense.SHRINK, 900, 300, 40, "soft");
        double soft = minutes(WorkedShop.curve(Sense.SHRINK, 120, 300, 20, "soft"));
        double steel = minutes(WorkedShop.curve(Sense.SHRINK, 120, 300, 20, "steel"));
        assertThat(soft - steel).isBetween(0.05, 2.9); // 3 minutes a change

        assertThat(secondTool(1, first)).isEqualTo("soft");
        assertThat(secondTool(100, first)).isEqualTo("steel");
    }

    private static double minutes(Formed operation) {
        return WorkedShop.lines(takeOff(List.of(List.of(operation)))).get(0).machineMinutes();
    }

    private static String secondTool(int perAssembly, Formed first) {
        Part one =
                takeOff(List.of(List.of(first, WorkedShop.curve(Sense.SHRINK, 120, 300, 20, null))))
                        .parts()
                        .get(0);
        Part many =
                new Part(
                        one.name(),
                        perAssembly,
                        one.grade(),
                        one.thicknessMm(),
                        one.massKg(),
                        one.blank(),
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        one.operations(),
                        null,
                        null,
                        null,
                        List.of(),
                        null);
        return WorkedShop.lines(WorkedShop.takeOff(many)).get(1).tool();
    }

    @ParameterizedTest(name = "{0}, {1}: {2}")
    @CsvSource(
            nullValues = "by-rule",
            value = {
                "DRAWING, by-rule, true",
                "REPEAT, by-rule, false",
                "DRAWING, false, false",
                "REPEAT, true, true"
            })
    void firstItemIsProvedByRuleOrByTheEstimatorsWord(
            TakeOff.Information information, Boolean word, boolean proved) {
        TakeOff two =
                takeOff(
                        List.of(
                                List.of(
                                        WorkedShop.curve(Sense.SHRINK, 900, 300, 40, "soft"),
                                        WorkedShop.curve(Sense.STRETCH, 900, 300, 40, "steel"))));
        TakeOff takeOff =
                new TakeOff(
                        two.title(),
                        information,
                        List.of(1, 50),
                        1,
                        0,
                        two.parts(),
                        null,
                        null,
                        word,
                        List.of(),
                        List.of(),
                        null);
        List<Estimate.ForQuantity> quantities =
                Estimating.estimate(takeOff, WorkedShop.book()).quantities();

        assertThat(quantities.get(0).provingRound()).isFalse();
        assertThat(quantities.get(1).passage()).isEqualTo(Estimate.Passage.BATCH);
        assertThat(quantities.get(1).provingRound()).isEqualTo(proved);
        assertThat(quantities.get(1).toolChanges()).isEqualTo(proved ? 4 : 2);
    }

    @Test
    void marksOfEveryRepeatedEdgeAreDressedOut() {
        Operation.CurveEdge twice =
                new Operation.CurveEdge(
                        Sense.SHRINK, 1885.0, 300.0, null, 40.0, 2, null, "steel", null);

        assertThat(
                        Estimating.estimate(visible(twice), dressing(1))
                                .operations()
                                .get(0)
                                .dressMinutes())
                .isCloseTo(2 * 1885 * 40 / 10_000.0, within(1e-9));
    }

    @Test
    void ownSteelToolOnAVisibleSurfaceIsDoubtedWhereNothingDressesItsMarks() {
        TakeOff visible = visible(WorkedShop.curve(Sense.SHRINK, 1885, 300, 40, "steel"));

        assertThat(Estimating.estimate(visible, WorkedShop.book()).findings())
                .extracting(f -> f.code())
                .containsExactly("marks-on-visible-surface");
        assertThat(Estimating.estimate(visible, dressing(1)).findings()).isEmpty();
    }

    private static ShopBook dressing(double minutesPerDm2) {
        return EditedBook.of(WorkedShop.book())
                .with(
                        "/standards/-",
                        new ShopBook.Standard(
                                "Dress out marks",
                                "Bench",
                                0.0,
                                minutesPerDm2,
                                ShopBook.Unit.DM2,
                                1,
                                false,
                                null,
                                null,
                                null,
                                "invented"))
                .with("/times/dressMarksStandard", "Dress out marks")
                .book();
    }

    private static TakeOff visible(Formed operation) {
        Part part = WorkedShop.part("al", 2, 1.27, new Blank(1950.0, 120.0), null, operation);
        return WorkedShop.takeOff(
                new Part(
                        part.name(),
                        1,
                        part.grade(),
                        part.thicknessMm(),
                        part.massKg(),
                        part.blank(),
                        Surface.VISIBLE,
                        part.edge(),
                        null,
                        null,
                        null,
                        null,
                        part.operations(),
                        null,
                        null,
                        null,
                        List.of(),
                        null));
    }

    private static String tool(TakeOff takeOff, ShopBook book) {
        return Estimating.estimate(takeOff, book).operations().get(0).tool();
    }

    private static double leastOfAllChoices(List<List<Formed>> parts, int part, int operation) {
        if (part == parts.size()) {
            return plan(takeOff(parts)).minutes();
        }
        if (operation == parts.get(part).size()) {
            return leastOfAllChoices(parts, part + 1, 0);
        }
        double least = Double.POSITIVE_INFINITY;
        for (String tool : EDGE_TOOLS) {
            List<List<Formed>> chosen = new ArrayList<>(parts);
            List<Formed> work = new ArrayList<>(parts.get(part));
            Operation.CurveEdge edge = (Operation.CurveEdge) work.get(operation);
            work.set(
                    operation,
                    new Operation.CurveEdge(
                            edge.sense(),
                            edge.lengthMm(),
                            edge.radiusMm(),
                            null,
                            edge.heightMm(),
                            1,
                            null,
                            tool,
                            null));
            chosen.set(part, work);
            least = Math.min(least, leastOfAllChoices(chosen, part, operation + 1));
        }
        return least;
    }

    private static Formed edge(SplittableRandom random, String tool) {
        return WorkedShop.curve(
                random.nextBoolean() ? Sense.SHRINK : Sense.STRETCH,
                random.nextDouble(100, 900),
                random.nextDouble(300, 2000),
                random.nextDouble(10, 60),
                tool);
    }

    private static Estimate.Plan plan(TakeOff takeOff) {
        return Estimating.estimate(takeOff, WorkedShop.book()).plan();
    }

    private static TakeOff takeOff(List<List<Formed>> parts) {
        List<Part> list = new ArrayList<>();
        for (List<Formed> work : parts) {
            list.add(
                    WorkedShop.part(
                            "half",
                            2,
                            1.27,
                            new Blank(1950.0, 120.0),
                            null,
                            work.toArray(Formed[]::new)));
        }
        return WorkedShop.takeOff(list.toArray(Part[]::new));
    }
}
