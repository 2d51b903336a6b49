package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.estimate.Estimate.Sample;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.ShopBook.Standard;
import strokewright.estimate.ShopBook.Unit;
import strokewright.quantity.Finding;
import strokewright.quantity.Severity;
import strokewright.quantity.Why;

/** How many pieces are looked at, what that takes, and what is told about it. */
class FinalCheckTest {

    private static final String SIZES = "Measure";
    private static final String CONTOUR = "Template";

    @ParameterizedTest(name = "{0} items of {1}: {2} of the pieces")
    @CsvSource({
        "1, 1, 1",
        "8, 1, 8",
        "9, 1, 5",
        "2, 4, 8",
        "3, 4, 5",
        "30, 1, 5",
        "100, 1, 20",
        "250, 4, 80"
    })
    void onlyTheInspectedPiecesTakeTime(int items, int perAssembly, int inspected) {
        ForQuantity q = of(book(), sized(6, null, perAssembly), items);

        // 0.5 min a size, class c; by hand from the practice curve, 15 % at the bench, 3 min set-up
        double factors = 0;
        for (int n = 1; n <= inspected; n++) {
            factors += Math.pow(Math.min(n, 50) / 10.0, Math.log(0.92) / Math.log(2));
        }
        assertThat(q.runMinutes()).isCloseTo(0.5 * 6 * factors * 1.15, within(1e-9));
        assertThat(q.setupMinutes()).isCloseTo(3 * 1.15, within(1e-9));
        assertThat(q.samples()).extracting(Sample::lot).containsExactly(items * perAssembly);
        assertThat(q.samples()).extracting(Sample::inspected).containsExactly(inspected);
    }

    @ParameterizedTest(name = "class {0} takes {1} times")
    @CsvSource({"f, 2", "m, 1.4", "c, 1", "v, 0.8"})
    void aSizeTakesAsLongAsItsClassSays(String tolerance, double factor) {
        TakeOff coarse = sized(4, "c", 1);
        TakeOff other = sized(4, tolerance, 1);

        assertThat(of(book(), other, 5).runMinutes())
                .isCloseTo(of(book(), coarse, 5).runMinutes() * factor, within(1e-9));
    }

    @Test
    void aContourIsHeldToItsTemplateInWhateverClass() {
        TakeOff coarse = checked(CONTOUR, 7, "c", 1);
        TakeOff fine = checked(CONTOUR, 7, "f", 1);

        assertThat(of(book(), fine, 5)).isEqualTo(of(book(), coarse, 5));
        assertThat(line(coarse).machineMinutes()).isCloseTo(0.25 * 7, within(1e-12));
    }

    @Test
    void theAssemblyIsCheckedByItsFinestPartAndAsALotOfItems() {
        TakeOff two = WorkedShop.takeOff(part("c", 3, "A"), part("m", 2, "B"));
        TakeOff takeOff =
                EditedTakeOff.of(two)
                        .with(
                                "/assembly",
                                List.of(Map.of("type", "standard", "standard", SIZES, "amount", 2)))
                        .takeOff();
        ForQuantity q = of(book(), takeOff, 20);

        assertThat(line(takeOff).machineMinutes()).isCloseTo(0.5 * 2 * 1.4, within(1e-12));
        assertThat(q.samples())
                .containsExactly(
                        new Sample("A", 60, "E", "F", 20, 1, 2),
                        new Sample("B", 40, "D", "C", 5, 0, 1),
                        new Sample(null, 20, "C", "C", 5, 0, 1));
    }

    @Test
    void samplesStandThereForEveryPartWhetherOrNotItsCheckIsALine() {
        TakeOff takeOff = WorkedShop.takeOff(part("c", 4, "A"));

        assertThat(of(book(), takeOff, 2).samples())
                .containsExactly(new Sample("A", 8, null, null, 8, null, null));
        assertThat(of(book(), takeOff, 25).samples())
                .containsExactly(new Sample("A", 100, "F", "F", 20, 1, 2));
    }

    @Test
    void levelAndLimitAreTheShops() {
        ShopBook book =
                EditedBook.of(book())
                        .with("/inspection/level", "III")
                        .with("/inspection/aqlPercent", 1.0)
                        .with("/inspection/everyPieceUpTo", 20)
                        .book();
        TakeOff takeOff = sized(1, null, 1);

        assertThat(of(book, takeOff, 20).samples().get(0).inspected()).isEqualTo(20);
        // 21 at level III is D, at 1.0 down to E with 13
        assertThat(of(book, takeOff, 21).samples())
                .containsExactly(new Sample("P", 21, "D", "E", 13, 0, 1));
    }

    @Test
    void theWorkingSaysWhyAndGivesTheSameNumber() {
        ForQuantity q = of(book(), sized(6, null, 1), 100);
        Why why =
                q.why().stream()
                        .filter(w -> w.figure().equals("P/1.inspectedPieces"))
                        .findFirst()
                        .orElseThrow();

        assertThat(why.inputs().stream().map(Why.Input::name))
                .containsExactly(
                        "pieces", "piece by piece up to", "level II", "acceptance quality limit");
        double[] inputs = why.inputs().stream().mapToDouble(Why.Input::value).toArray();
        assertThat(Formulas.named(why.formula()).orElseThrow().apply(inputs))
                .isEqualTo(why.value())
                .isEqualTo(20);
    }

    @Test
    void aSampleThatIsTheWholeLotIsTold() {
        ShopBook book = EditedBook.of(book()).with("/inspection/everyPieceUpTo", 0).book();
        TakeOff takeOff = WorkedShop.withQuantities(sized(1, null, 1), List.of(5, 6), 0);

        List<Finding> findings = Estimating.estimate(takeOff, book).findings();
        assertThat(findings).extracting(Finding::code).containsExactly("sample-is-whole-lot");
        assertThat(findings.get(0).pointer()).isEqualTo("/quantities/0");
        assertThat(findings.get(0).values()).isEqualTo(Map.of("part", "P", "pieces", 5));
        assertThat(Estimating.estimate(takeOff, book()).findings()).isEmpty();
    }

    /** Sizes and contours are each part's own, whatever the rule looks at. */
    @Test
    void rulesProposeTheCheckForEveryPartWithItsClassAndItsLot() {
        ShopBook book =
                EditedBook.of(book())
                        .with("/proposals", List.of(rule("sizes", SIZES, "dimensions")))
                        .book();
        TakeOff takeOff =
                EditedTakeOff.of(WorkedShop.takeOff(part("f", 4, "A"), part("c", 1, "B")))
                        .with("/parts/0/dimensions", 5)
                        .with("/parts/1/dimensions", 7)
                        .with("/quantities", List.of(3))
                        .with("/mainQuantity", 3)
                        .takeOff();
        Estimate estimate = Estimating.estimate(takeOff, book);

        assertThat(estimate.operations()).extracting(Estimate.Line::part).containsExactly("A", "B");
        assertThat(estimate.operations())
                .extracting(Estimate.Line::machineMinutes)
                .containsExactly(0.5 * 5 * 2, 0.5 * 7);
        assertThat(estimate.quantities().get(0).samples())
                .extracting(Sample::inspected)
                .containsExactly(5, 3);
        TakeOff without =
                EditedTakeOff.of(takeOff).with("/parts/1/leftOut", List.of("sizes")).takeOff();
        assertThat(Estimating.estimate(without, book).operations())
                .extracting(Estimate.Line::part)
                .containsExactly("A");
    }

    private static Map<String, Object> rule(String code, String standard, String amount) {
        return Map.of("code", code, "when", "always", "standard", standard, "amount", amount);
    }

    // Class against template ------------------------------------------------------------------

    @ParameterizedTest(name = "class {0}, R {1}, gap {2}: {3}")
    @CsvSource({
        "m, 300, , tolerance-finer-than-forming", // 0.5 under the usual gap of 1.5
        "f, 300, 0.2, template-none",
        "f, 300, 0.3, tolerance-finer-than-forming",
        "m, 1000, 0.8, template-none",
        "m, 1001, 1.2, template-none",
        "m, 1500, , tolerance-finer-than-forming",
        "c, 300, , template-none", // coarse is nobody's special wish
        "m, 5000, , template-none", // beyond the tables
        "c, 500, 0.5, template-gap-tighter-than-class", // 4 passes where ±2 would take 2
        "c, 500, 1.0, template-none", // the same passes
        "c, 3000, 1.0, template-gap-tighter-than-class", // ±4 would take 1
        "v, 30, 0.9, template-gap-tighter-than-class"
    })
    void aClassAndAGapThatDisagreeAreTold(
            String tolerance, double radius, Double gap, String expected) {
        Operation.CurveEdge edge =
                WorkedShop.curve(Sense.SHRINK, radius, radius, radius / 20, "soft");
        TakeOff takeOff =
                EditedTakeOff.of(WorkedShop.of(edge, "al", 2.0))
                        .with("/parts/0/tolerance", tolerance)
                        .with("/parts/0/templateGapMm", gap)
                        .takeOff();

        assertThat(Estimating.estimate(takeOff, book()).findings())
                .extracting(Finding::code)
                .filteredOn(c -> c.startsWith("tolerance-") || c.startsWith("template-"))
                .isEqualTo(expected.equals("template-none") ? List.of() : List.of(expected));
    }

    /** ISO 2768-1, table 1: where each class begins and ends, both sides. */
    @ParameterizedTest(name = "class {0}, {1} × {2}: {3} of {4}, class {5}")
    @CsvSource({
        "f, 2000, 500, , 0, ",
        "f, 2000.1, 500, 2000.1, 1, m",
        "f, 4000.1, 2500, 4000.1, 2, ",
        "m, 4000, 500, , 0, ",
        "m, 4000.1, 500, 4000.1, 1, ",
        "c, 0.5, 500, , 0, ",
        "c, 0.4, 500, 0.4, 1, ",
        "v, 3.1, 500, , 0, ",
        "v, 3, 500, 3, 1, c",
        "v, 3, 4100, 4100, 2, ",
    })
    void aSizeThatTheClassLeavesOutIsTold(
            String tolerance, double length, double width, Double size, int sizes, String other) {
        List<Finding> told =
                beyond(tolerance, Map.of("blank", Map.of("lengthMm", length, "widthMm", width)));

        assertThat(told)
                .extracting(Finding::code)
                .isEqualTo(sizes == 0 ? List.of() : List.of("size-beyond-tolerances"));
        if (sizes > 0) {
            assertThat(told.get(0).severity()).isEqualTo(Severity.NOTE);
            assertThat(told.get(0).pointer()).isEqualTo("/parts/0/tolerance");
            assertThat(told.get(0).values())
                    .containsEntry("sizeMm", size)
                    .containsEntry("sizes", sizes);
            assertThat(told.get(0).values().get("otherClass")).isEqualTo(other);
        }
    }

    /**
     * The legs and the length of a fold, the diameter of a dish; what a template holds does not.
     */
    @Test
    void sizesOfAFoldAndOfADishAreLookedAtRadiiAreNot() {
        Map<String, Object> legs =
                Map.of(
                        "lengthMm",
                        4100,
                        "legsMm",
                        List.of(0.4, 50),
                        "bends",
                        List.of(Map.of("radiusMm", 9000)));
        Map<String, Object> dish = Map.of("type", "dish", "diameterMm", 2100, "depthMm", 300);
        Map<String, Object> curve =
                Map.of(
                        "type",
                        "curve-edge",
                        "sense",
                        "shrink",
                        "lengthMm",
                        1000,
                        "radiusMm",
                        9000,
                        "heightMm",
                        30);

        assertThat(beyond("c", Map.of("fold", legs)).get(0).values()).containsEntry("sizes", 2);
        assertThat(beyond("f", Map.of("operations", List.of(dish))).get(0).values())
                .containsEntry("sizeMm", 2100.0)
                .containsEntry("sizes", 1);
        assertThat(beyond("c", Map.of("operations", List.of(dish)))).isEmpty();
        assertThat(beyond("c", Map.of("operations", List.of(curve)))).isEmpty();
    }

    private static List<Finding> beyond(String tolerance, Map<String, Object> fields) {
        EditedTakeOff edited =
                EditedTakeOff.of(sized(1, "c", 1))
                        .with("/parts/0/operations", List.of())
                        .with("/parts/0/blank", null)
                        .with("/parts/0/massKg", 1)
                        .with("/parts/0/tolerance", tolerance);
        fields.forEach((name, value) -> edited.with("/parts/0/" + name, value));
        return ToleranceNotes.of(book(), edited.takeOff().parts().get(0), "/parts/0").stream()
                .filter(f -> f.code().startsWith("size-"))
                .toList();
    }

    @Test
    void theTighterGapSaysWhatItCosts() {
        Operation.CurveEdge edge = WorkedShop.curve(Sense.SHRINK, 500, 500, 25, "soft");
        TakeOff takeOff =
                EditedTakeOff.of(WorkedShop.of(edge, "al", 2.0))
                        .with("/parts/0/templateGapMm", 0.5)
                        .takeOff();
        Finding finding = Estimating.estimate(takeOff, book()).findings().get(0);

        assertThat(finding.pointer()).isEqualTo("/parts/0/templateGapMm");
        assertThat(finding.values())
                .containsEntry("class", "c")
                .containsEntry("sizeMm", 500.0)
                .containsEntry("toleranceMm", 2.0)
                .containsEntry("correctionPasses", 4)
                .containsEntry("correctionPassesByClass", 2);
    }

    // What routes rely on ---------------------------------------------------------------------

    /** Break-evens are looked for on the strength of this bound; here against every pair. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3})
    void costFallsFromAnyQuantityToALargerOneByNoMoreThanTheBound(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        double mostSeen = 0;
        for (int i = 0; i < 20; i++) {
            ShopBook book =
                    EditedBook.of(book())
                            .with("/inspection/everyPieceUpTo", random.nextInt(0, 40))
                            .with("/inspection/aqlPercent", random.nextBoolean() ? 2.5 : 0.65)
                            .with("/standards/3/minutesPerUnit", random.nextInt(1, 60))
                            .with("/standards/3/reserve", random.nextBoolean())
                            .with("/standards/3/people", random.nextInt(1, 3))
                            .book();
            TakeOff takeOff =
                    WorkedShop.withQuantities(
                            sized(random.nextInt(1, 30), "f", random.nextInt(1, 4)),
                            List.of(1),
                            random.nextInt(3));
            Reckoning reckoning = Estimating.reckon(takeOff, book);
            double dearest = 0;
            for (int q = 1; q <= 120; q++) {
                double cost = reckoning.exactCost(q);
                assertThat(dearest - cost)
                        .as("%d of %s", q, book.inspection())
                        .isLessThanOrEqualTo(reckoning.mostFall() + 1e-9);
                mostSeen = Math.max(mostSeen, dearest - cost);
                dearest = Math.max(dearest, cost);
            }
        }
        assertThat(mostSeen).isGreaterThan(50);
    }

    // -----------------------------------------------------------------------------------------

    private static ShopBook book() {
        return EditedBook.of(WorkedShop.book())
                .with("/standards/-", standard(SIZES, 0.5, Unit.DIMENSION))
                .with("/standards/-", standard(CONTOUR, 0.25, Unit.CONTOUR))
                .without("/standards/2")
                .with("/standards/-", standard("Sheet", 20, Unit.TEMPLATE))
                .book();
    }

    private static Standard standard(String name, double minutes, Unit unit) {
        return new Standard(
                name, "Bench", 3.0, minutes, unit, 1, false, null, null, null, "invented");
    }

    private static TakeOff.Part part(String tolerance, int perAssembly, String name) {
        return EditedTakeOff.of(checked(SIZES, 1, tolerance, perAssembly))
                .with("/parts/0/name", name)
                .with("/parts/0/operations", List.of())
                .takeOff()
                .parts()
                .get(0);
    }

    private static TakeOff sized(int sizes, String tolerance, int perAssembly) {
        return checked(SIZES, sizes, tolerance, perAssembly);
    }

    private static TakeOff checked(String standard, int amount, String tolerance, int perAssembly) {
        TakeOff one =
                WorkedShop.takeOff(
                        WorkedShop.part(
                                "al",
                                2.0,
                                1.0,
                                null,
                                null,
                                new Operation.Standard(standard, (double) amount)));
        return EditedTakeOff.of(one)
                .with("/parts/0/tolerance", tolerance)
                .with("/parts/0/perAssembly", perAssembly)
                .takeOff();
    }

    private static ForQuantity of(ShopBook book, TakeOff takeOff, int quantity) {
        return Estimating.reckon(takeOff, book).forQuantity(quantity);
    }

    private static Estimate.Line line(TakeOff takeOff) {
        List<Estimate.Line> lines =
                new ArrayList<>(Estimating.estimate(takeOff, book()).operations());
        return lines.get(lines.size() - 1);
    }
}
