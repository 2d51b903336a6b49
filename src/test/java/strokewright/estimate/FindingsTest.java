package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import strokewright.estimate.Operation.Formed;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.ShopBook.Machine;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Part;
import strokewright.estimate.TakeOff.Surface;
import strokewright.quantity.Finding;
import strokewright.quantity.Severity;

/** Limits from both sides, and the nearest change that clears each. */
class FindingsTest {

    private static final String AT = "/parts/0/operations/0";

    /**
     * A machine of the 6 mm class takes 6 mm mild steel and not 6 mm stainless (common practice, no
     * source).
     */
    @Test
    void sixMillimetreClassTakesMildSteelButNotStainlessOfThatThickness() {
        ShopBook book =
                WorkedShop.book(List.of(WorkedShop.machine("6 mm class", 6)), WorkedShop.scheme());
        Formed edge = WorkedShop.curve(Sense.STRETCH, 500, 2000, 20, "rib");

        assertThat(codes(edge, "steel", 6.0, book)).doesNotContain("over-capacity");
        assertThat(codes(edge, "304", 6.0, book)).contains("over-capacity");
    }

    @Test
    void capacityIsJudgedAtTheThickenedEdgeAndTheChangeClearsIt() {
        ShopBook book =
                WorkedShop.book(List.of(WorkedShop.machine("small", 1)), WorkedShop.scheme());
        Formed edge = WorkedShop.curve(Sense.SHRINK, 1885, 300, 40, "soft");
        Finding finding = only("over-capacity", edge, "al", 1.5, book);
        double thickness = (double) finding.change().get("thicknessMm");

        assertThat(finding.severity()).isEqualTo(Severity.REFUSAL);
        assertThat(finding.pointer()).isEqualTo(AT);
        assertThat((double) finding.values().get("capacityMm")).isEqualTo(1.5);
        assertThat(codes(edge, "al", thickness * 0.999999, book)).doesNotContain("over-capacity");
        assertThat(codes(edge, "al", thickness * 1.000001, book)).contains("over-capacity");
    }

    @Test
    void throatHoldsTheReach() {
        assertThat(codes(reach(600.0), "al", 2.0)).doesNotContain("beyond-throat");
        assertThat(codes(reach(600.1), "al", 2.0)).contains("beyond-throat");
    }

    @Test
    void halfTheShorterSideOfTheBlankIsTheReachOfAreaWork() {
        Formed smooth = new Operation.Smooth(1000.0, 1, null, null, "smoother", null);

        assertThat(codes(part(new Blank(3000.0, 1200.0), smooth))).doesNotContain("beyond-throat");
        assertThat(codes(part(new Blank(3000.0, 1201.0), smooth))).contains("beyond-throat");
    }

    @Test
    void metalThatMayNotBeAnnealedIsRefusedWithTheHeightAndTheRadiusThatWouldDo() {
        Formed edge = WorkedShop.curve(Sense.SHRINK, 600, 200, 33, "fine");
        Finding finding = only("not-annealable", edge, "304", 2.0, WorkedShop.book());
        double height = (double) finding.change().get("heightMm");
        double radius = (double) finding.change().get("radiusMm");

        // −ln(1 − h/R) = 0.15 in closed form
        assertThat(height).isCloseTo(200 * (1 - Math.exp(-0.15)), within(1e-6));
        assertThat(radius).isCloseTo(33 / (1 - Math.exp(-0.15)), within(1e-5));
        assertThat(
                        codes(
                                WorkedShop.curve(Sense.SHRINK, 600, 200, height - 1e-6, "fine"),
                                "304",
                                2.0))
                .isEmpty();
        assertThat(
                        codes(
                                WorkedShop.curve(Sense.SHRINK, 600, radius + 1e-5, 33, "fine"),
                                "304",
                                2.0))
                .isEmpty();
    }

    @Test
    void dishOfMetalThatMayNotBeAnnealedIsRefusedWithTheDepthThatWouldDo() {
        Operation.Dish deep = dish(300.0, 140.0);
        Finding finding = only("not-annealable", deep, "304", 2.0, WorkedShop.book());
        double depth = (double) finding.change().get("depthMm");

        assertThat(depth).isBetween(10.0, 140.0);
        assertThat(codes(dish(300.0, depth * 0.999), "304", 2.0)).doesNotContain("not-annealable");
        assertThat(codes(dish(300.0, depth * 1.001), "304", 2.0)).contains("not-annealable");
    }

    @Test
    void annealsAreNotedWhereTheMetalAllowsThem() {
        Formed edge = WorkedShop.curve(Sense.SHRINK, 700, 120, 45, "soft");

        assertThat(codes(edge, "half", 2.0))
                .containsExactlyInAnyOrder("anneals-needed", "no-anneal-standard");
    }

    @Test
    void shrinkingNeedsAHeightUnderTheRadius() {
        assertThat(codes(WorkedShop.curve(Sense.SHRINK, 600, 40, 40, "soft"), "al", 2.0))
                .containsExactly("height-not-under-radius");
        assertThat(codes(WorkedShop.curve(Sense.SHRINK, 600, 40, 39, "soft"), "al", 2.0))
                .doesNotContain("height-not-under-radius");
        assertThat(codes(WorkedShop.curve(Sense.STRETCH, 600, 40, 40, "soft"), "al", 2.0))
                .doesNotContain("height-not-under-radius");
    }

    @Test
    void startingRadiusMayNotBeTighterThanTheRadiusToReach() {
        assertThat(codes(from(299.0), "al", 2.0)).containsExactly("starting-radius-too-tight");
        assertThat(codes(from(300.0), "al", 2.0)).isEmpty();
    }

    @Test
    void workThatStandsAlreadyTakesNoPassesButTheCorrections() {
        Estimate.Line line = WorkedShop.lines(WorkedShop.of(from(300.0), "al", 2.0)).get(0);

        assertThat(line.passes()).containsExactly(0);
        assertThat(line.strokes()).isEqualTo(2 * 377);
    }

    @Test
    void capIsAtMostAHemisphere() {
        assertThat(codes(dish(300.0, 150.0), "al", 2.0)).doesNotContain("depth-over-half-diameter");
        assertThat(codes(dish(300.0, 150.1), "al", 2.0)).contains("depth-over-half-diameter");
    }

    @Test
    void thinRimBuckles() {
        double blank = 2 * Math.hypot(150, 60);

        assertThat(codes(dish(300.0, 60.0), "al", blank * 0.00201)).doesNotContain("rim-buckles");
        assertThat(codes(dish(300.0, 60.0), "al", blank * 0.00199)).contains("rim-buckles");
    }

    @Test
    void visibleSurfaceTakesTheSoftFacedToolAndDoubtsAChosenSteelOne() {
        Part left = visible(WorkedShop.curve(Sense.SHRINK, 600, 300, 30, null));
        Part chosen = visible(WorkedShop.curve(Sense.SHRINK, 600, 300, 30, "steel"));

        assertThat(WorkedShop.lines(WorkedShop.takeOff(left)).get(0).tool()).isEqualTo("soft");
        assertThat(codes(left)).isEmpty();
        assertThat(codes(chosen)).containsExactly("marks-on-visible-surface");
        assertThat(Estimating.estimate(WorkedShop.takeOff(chosen), WorkedShop.book()).feasible())
                .isTrue();
    }

    @Test
    void quickestToolIsTakenWhereTheEstimatorLeavesTheChoice() {
        Formed open = WorkedShop.curve(Sense.STRETCH, 900, 250, 40, null);
        Estimate.Line chosen = WorkedShop.lines(WorkedShop.of(open, "steel", 1.5)).get(0);

        for (String tool : List.of("soft", "steel", "fine", "rib")) {
            Formed with = WorkedShop.curve(Sense.STRETCH, 900, 250, 40, tool);
            assertThat(chosen.machineMinutes())
                    .isLessThanOrEqualTo(
                            WorkedShop.lines(WorkedShop.of(with, "steel", 1.5))
                                    .get(0)
                                    .machineMinutes());
        }
    }

    @Test
    void firstMachineThatCanDoItIsTaken() {
        Machine small = WorkedShop.machine("small", 1);
        Machine large = WorkedShop.machine("large", 6);
        ShopBook book = WorkedShop.book(List.of(small, large), WorkedShop.scheme());
        Formed edge = WorkedShop.curve(Sense.SHRINK, 1885, 300, 40, "soft");

        assertThat(machine(edge, 1.0, book)).isEqualTo("small");
        assertThat(machine(edge, 3.0, book)).isEqualTo("large");
        assertThat(codes(edge, "al", 3.0, book)).isEmpty();
    }

    @Test
    void missingToolRefusesThatOperationAndTheRestStands() {
        Formed flatten = new Operation.Flatten(90_000.0, 1, null, null, null, null);
        Formed edge = WorkedShop.curve(Sense.SHRINK, 1885, 300, 40, "soft");
        Estimate estimate =
                Estimating.estimate(
                        WorkedShop.takeOff(
                                WorkedShop.part(
                                        "al",
                                        2.0,
                                        1.27,
                                        new Blank(1950.0, 120.0),
                                        null,
                                        flatten,
                                        edge)),
                        WorkedShop.book());

        assertThat(estimate.feasible()).isFalse();
        assertThat(estimate.findings()).extracting(Finding::code).containsExactly("no-tool");
        assertThat(estimate.operations().get(0).machineMinutes()).isZero();
        assertThat(estimate.operations().get(1).strokes()).isEqualTo(5278);
    }

    @Test
    void metalWithoutAPriceIsDoubted() {
        Formed edge = WorkedShop.curve(Sense.STRETCH, 900, 250, 40, "steel");
        Estimate estimate =
                Estimating.estimate(WorkedShop.of(edge, "steel", 1.5), WorkedShop.book());

        assertThat(estimate.findings())
                .extracting(Finding::code, Finding::pointer)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple("no-metal-price", "/parts/0/grade"));
    }

    /** Correction passes by gap to the template (assumed): wider gaps forgive more. */
    @ParameterizedTest
    @CsvSource({"5, 1", "3, 1", "2.9, 2", "1.5, 2", "1, 2", "0.9, 4", "0, 4"})
    void tighterTemplatesTakeMoreCorrectionPasses(double gap, int passes) {
        Part part =
                WorkedShop.part(
                        "al",
                        2.0,
                        1.0,
                        null,
                        gap,
                        WorkedShop.curve(Sense.SHRINK, 1885, 300, 40, "soft"));

        assertThat(WorkedShop.lines(WorkedShop.takeOff(part)).get(0).correctionPasses())
                .isEqualTo(passes);
    }

    @ParameterizedTest
    @CsvSource({
        "1, 100, 900, 6, 1",
        "1.01, 100, 900, 10, 1",
        "1, 200, 900, 10, 1",
        "1, 100, 1001, 10, 1",
        "14, 100, 900, 30, 1",
        "20, 100, 900, 60, 2",
        "26, 100, 900, 150, 2",
        "1, 100, 4001, 150, 2"
    })
    void handlingGoesByMassAreaAndLength(
            double kg, double width, double length, double seconds, int people) {
        Part part =
                WorkedShop.part(
                        "al",
                        2.0,
                        kg,
                        new Blank(length, width),
                        null,
                        WorkedShop.curve(Sense.SHRINK, 1885, 300, 40, "soft"));
        Estimate.Line line = WorkedShop.lines(WorkedShop.takeOff(part)).get(0);

        assertThat(line.repositionMinutes()).isCloseTo(14 * seconds / 60, within(1e-9));
        assertThat(line.people()).isEqualTo(people);
        assertThat(line.personMinutes()).isCloseTo(people * line.machineMinutes(), within(1e-9));
    }

    @Test
    void shearedEdgeStretchesLessFarBeforeItTears() {
        Formed edge = WorkedShop.curve(Sense.STRETCH, 900, 250, 40, "steel");
        Part sheared =
                new Part(
                        "P",
                        1,
                        "steel",
                        1.5,
                        2.0,
                        null,
                        null,
                        TakeOff.Edge.SHEARED,
                        null,
                        null,
                        null,
                        null,
                        List.of(edge),
                        null,
                        null,
                        null,
                        List.of(),
                        null);

        // 0.148 against 0.234 dressed and 0.234 × 0.55 = 0.129 sheared
        assertThat(WorkedShop.lines(WorkedShop.of(edge, "steel", 1.5)).get(0).anneals()).isZero();
        assertThat(WorkedShop.lines(WorkedShop.takeOff(sheared)).get(0).anneals()).isEqualTo(1);
    }

    @Test
    void zincGoesByItsOwnStrainPerPass() {
        Formed edge = WorkedShop.curve(Sense.SHRINK, 600, 400, 30, "soft");
        Estimate.Line line = WorkedShop.lines(WorkedShop.of(edge, "zinc", 0.8)).get(0);

        // |ln(1 − 30/400)| = 0.0780 at 0.01 a pass
        assertThat(line.passes()).containsExactly(8);
    }

    private static Formed reach(double reach) {
        return new Operation.CurveEdge(
                Sense.SHRINK, 1885.0, 300.0, null, 40.0, null, reach, "soft", null);
    }

    private static Formed from(double startRadius) {
        return new Operation.CurveEdge(
                Sense.SHRINK, 1885.0, 300.0, startRadius, 40.0, null, null, "soft", null);
    }

    private static Operation.Dish dish(double diameter, double depth) {
        return new Operation.Dish(diameter, depth, null, 0.0, null, null, "steel", "crown", null);
    }

    private static Part part(Blank blank, Operation operation) {
        return WorkedShop.part("al", 2.0, 5.0, blank, null, operation);
    }

    private static Part visible(Operation operation) {
        return new Part(
                "P",
                1,
                "al",
                2.0,
                1.0,
                null,
                Surface.VISIBLE,
                null,
                null,
                null,
                null,
                null,
                List.of(operation),
                null,
                null,
                null,
                List.of(),
                null);
    }

    private static List<String> codes(Part part) {
        return Estimating.estimate(WorkedShop.takeOff(part), WorkedShop.book()).findings().stream()
                .map(Finding::code)
                .toList();
    }

    private static List<String> codes(Formed operation, String grade, double thickness) {
        return codes(operation, grade, thickness, WorkedShop.book());
    }

    private static List<String> codes(
            Formed operation, String grade, double thickness, ShopBook book) {
        return Estimating.estimate(WorkedShop.of(operation, grade, thickness), book)
                .operations()
                .get(0)
                .findings()
                .stream()
                .map(Finding::code)
                .toList();
    }

    private static Finding only(
            String code, Formed operation, String grade, double thickness, ShopBook book) {
        List<Finding> findings =
                Estimating.estimate(WorkedShop.of(operation, grade, thickness), book)
                        .operations()
                        .get(0)
                        .findings()
                        .stream()
                        .filter(f -> f.code().equals(code))
                        .toList();
        assertThat(findings).hasSize(1);
        assertThat(findings.get(0).change()).isNotNull().isNotEqualTo(Map.of());
        return findings.get(0);
    }

    private static String machine(Formed operation, double thickness, ShopBook book) {
        return Estimating.estimate(WorkedShop.of(operation, "al", thickness), book)
                .operations()
                .get(0)
                .machine();
    }
}
