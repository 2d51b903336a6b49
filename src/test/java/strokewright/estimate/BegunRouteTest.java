package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import strokewright.estimate.Operation.CurveEdge;
import strokewright.estimate.Operation.Formed;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.Operation.Standard;
import strokewright.estimate.Operation.TurnFlange;
import strokewright.estimate.RouteStart.HeatShrunkByHand;
import strokewright.estimate.RouteStart.PressTool;
import strokewright.estimate.RouteStart.SegmentsWelded;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.ExtraKind;
import strokewright.estimate.TakeOff.Part;
import strokewright.quantity.Fault;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;

class BegunRouteTest {

    private static final ShopBook BOOK = EditedBook.read("/shop-book/starter.json").book();

    private static final CurveEdge FULL_RING =
            new CurveEdge(
                    Sense.SHRINK, 2 * Math.PI * 300, 300.0, null, 40.0, null, null, null, null);
    private static final CurveEdge QUARTER =
            new CurveEdge(Sense.STRETCH, Math.PI / 2 * 300, 300.0, null, 40.0, 2, null, null, null);
    private static final TurnFlange FLANGE =
            new TurnFlange(Sense.SHRINK, 200.0, 15.0, 90.0, 180.0, 3, null, null, null);

    // Segments -------------------------------------------------------------------------------

    @Test
    void aClosedRingInFourIsFourQuartersAndFourJoints() {
        BegunRoute begun =
                segments(item(2, new Blank(1945.0, 120.0), FULL_RING), 4, null, null, null);
        Part part = begun.route().takeOff().parts().get(0);
        assertThat(part.perAssembly()).isEqualTo(8);
        assertThat(((CurveEdge) part.operations().get(0)).lengthMm())
                .isCloseTo(Math.PI / 2 * 300, within(1e-9));
        assertThat(part.blank()).isEqualTo(new Blank(1945.0 / 4 + 60, 120.0));
        // two rings of four joints, each across the strip of 120 mm
        assertThat(begun.route().takeOff().assembly())
                .containsExactly(
                        new Standard("Fit joint", 8.0),
                        new Standard("TIG weld", 8 * 0.12),
                        new Standard("Dress weld", 8 * 0.12));
        assertThat(usable(begun)).isTrue();
    }

    @Test
    void anOpenArcHasOneJointLessThanSegments() {
        BegunRoute begun = segments(item(1, new Blank(560.0, 80.0), QUARTER), 3, null, 10.0, null);
        assertThat(begun.route().takeOff().assembly()).contains(new Standard("Fit joint", 2.0));
        assertThat(begun.route().takeOff().parts().get(0).blank())
                .isEqualTo(new Blank(560.0 / 3 + 20, 80.0));
    }

    @Test
    void halvesOfAnOpenArcAreTrimmedAtOneEnd() {
        BegunRoute begun = segments(item(1, new Blank(560.0, 80.0), QUARTER), 2, null, 10.0, null);
        assertThat(begun.route().takeOff().assembly()).contains(new Standard("Fit joint", 1.0));
        assertThat(begun.route().takeOff().parts().get(0).blank())
                .isEqualTo(new Blank(290.0, 80.0));
    }

    @Test
    void theEstimatorMaySayThatItClosesAndWhatAJointTakes() {
        BegunRoute begun =
                segments(
                        item(1, new Blank(560.0, 80.0), QUARTER),
                        3,
                        true,
                        0.0,
                        List.of("MIG weld"));
        assertThat(begun.route().takeOff().assembly())
                .containsExactly(new Standard("MIG weld", 3 * 0.08));
        assertThat(begun.route().takeOff().parts().get(0).blank().lengthMm())
                .isCloseTo(560.0 / 3, within(1e-9));
    }

    @Test
    void sweepAndAreaAndMetresAreSharedOutButCutsAndTemplatesAreNot() {
        BegunRoute begun =
                segments(
                        item(
                                1,
                                new Blank(900.0, 900.0),
                                FLANGE,
                                new Operation.Smooth(90_000.0, 2, null, null, null, null),
                                new Operation.TakeOutDents(7, 60, null, null, null, null),
                                new Standard("Deburr", 6.0),
                                new Standard("Guillotine cut", 4.0),
                                new Standard("Make template", 1.0)),
                        2,
                        null,
                        null,
                        null);
        List<Operation> work = begun.route().takeOff().parts().get(0).operations();
        assertThat(((TurnFlange) work.get(0)).sweepDeg()).isEqualTo(90);
        assertThat(((TurnFlange) work.get(0)).count()).isEqualTo(3);
        assertThat(((Operation.Smooth) work.get(1)).areaMm2()).isEqualTo(45_000);
        assertThat(((Operation.TakeOutDents) work.get(2)).spots()).isEqualTo(4);
        assertThat(work.subList(3, 6))
                .containsExactly(
                        new Standard("Deburr", 3.0),
                        new Standard("Guillotine cut", 4.0),
                        new Standard("Make template", 1.0));
    }

    @Test
    void ownMinutesOfTheWholeAreNotTakenOverAndThatIsSaid() {
        CurveEdge own =
                new CurveEdge(
                        Sense.SHRINK,
                        1000.0,
                        300.0,
                        null,
                        40.0,
                        null,
                        null,
                        null,
                        new Operation.Override(30.0, "seen"));
        BegunRoute begun = segments(item(1, new Blank(1100.0, 100.0), own), 2, null, null, null);
        Formed formed = (Formed) begun.route().takeOff().parts().get(0).operations().get(0);
        assertThat(formed.override()).isNull();
        assertThat(begun.notes()).extracting(Finding::code).contains("own-minutes-left-out");
    }

    @Test
    void aPartWithADishIsNotMadeInSegments() {
        TakeOff bowl =
                item(
                        1,
                        new Blank(500.0, 500.0),
                        QUARTER,
                        new Operation.Dish(400.0, 100.0, null, 5.0, null, null, null, null, null));
        assertThat(faults(bowl, new SegmentsWelded(null, 3, null, null, null)))
                .containsExactly("/start/part");
        assertThat(faults(bowl, new SegmentsWelded(0, 3, null, null, null)))
                .containsExactly("/start/part");
    }

    @ParameterizedTest(name = "{0} segments, trim {1}, {2}: {3}")
    @CsvSource(
            nullValues = "null",
            value = {
                "null, 30, TIG weld, /start/segments",
                "1, 30, TIG weld, /start/segments",
                "101, 30, TIG weld, /start/segments",
                "2, -1, TIG weld, /start/trimMm",
                "2, 30, No such, /start/jointStandards/0",
                "2, 30, Degrease, /start/jointStandards/0",
                "100, 30, TIG weld, /start/segments",
            })
    void whatCannotBeBegunIsRefusedByName(Integer n, double trim, String standard, String pointer) {
        TakeOff many = item(101, new Blank(560.0, 80.0), QUARTER);
        assertThat(faults(many, new SegmentsWelded(0, n, null, trim, List.of(standard))))
                .containsExactly(pointer);
    }

    // By hand --------------------------------------------------------------------------------

    @Test
    void shrinkingEdgesBecomeMetresByHandAndTheRestStays() {
        TakeOff takeOff =
                item(
                        1,
                        new Blank(1945.0, 120.0),
                        new Standard("Deburr", 4.0),
                        FULL_RING,
                        QUARTER,
                        FLANGE);
        BegunRoute begun = BegunRoute.of(takeOff, new HeatShrunkByHand(null, null), BOOK);
        List<Operation> work = begun.route().takeOff().parts().get(0).operations();
        assertThat(work.get(0)).isEqualTo(new Standard("Deburr", 4.0));
        assertThat(metres(work.get(1))).isCloseTo(2 * Math.PI * 0.3, within(1e-12));
        assertThat(work.get(2)).isEqualTo(QUARTER);
        assertThat(metres(work.get(3))).isCloseTo(3 * Math.PI * 0.2, within(1e-12));
        // a ring shrunk by hand is joined all the same
        assertThat(work.subList(4, work.size()))
                .containsExactly(
                        new Standard("Fit joint", 1.0),
                        new Standard("TIG weld", 0.12),
                        new Standard("Dress weld", 0.12),
                        new Standard("Planish weld", 0.12));
        assertThat(begun.notes())
                .extracting(Finding::code)
                .containsExactly(
                        "shrunk-by-hand",
                        "left-at-the-machine",
                        "shrunk-by-hand",
                        "proposed-lines-typed");
        assertThat(usable(begun)).isTrue();
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource({
        "X5CRNI18-10, heat-on-stainless",
        "DX51D+Z, heat-on-zinc",
    })
    void heatOnTheWrongMetalIsDoubted(String grade, String code) {
        TakeOff takeOff = of(part(1, grade, new Blank(1945.0, 120.0), FULL_RING));
        BegunRoute begun = BegunRoute.of(takeOff, new HeatShrunkByHand(null, null), BOOK);
        assertThat(begun.notes())
                .filteredOn(n -> n.code().equals(code))
                .singleElement()
                .satisfies(n -> assertThat(n.pointer()).isEqualTo("/parts/0/grade"));
        assertThat(RouteDoubts.of(takeOff, BOOK)).isEmpty();
    }

    @Test
    void aPartThatOnlyStretchesHasNothingToShrink() {
        assertThat(
                        faults(
                                item(1, new Blank(560.0, 80.0), QUARTER),
                                new HeatShrunkByHand(null, null)))
                .containsExactly("/start/part");
    }

    @Test
    void aBookWithoutTheStandardAsksForOne() {
        ShopBook book = EditedBook.read("/shop-book/starter.json").without("/routes").book();
        TakeOff takeOff = item(1, new Blank(1945.0, 120.0), FULL_RING);
        assertThatThrownBy(() -> BegunRoute.of(takeOff, new HeatShrunkByHand(null, null), book))
                .isInstanceOfSatisfying(
                        InvalidInput.class,
                        e ->
                                assertThat(e.faults())
                                        .extracting(Fault::pointer)
                                        .containsExactly("/start/standard"));
        assertThat(BegunRoute.of(takeOff, new HeatShrunkByHand(null, "Deburr"), book).route())
                .isNotNull();
        assertThat(faults(takeOff, new HeatShrunkByHand(null, "Rivet")))
                .containsExactly("/start/standard");
    }

    // At a press -----------------------------------------------------------------------------

    @Test
    void allFormingBecomesOneStrokeAndAToolIsBought() {
        TakeOff takeOff =
                item(
                        1,
                        new Blank(1945.0, 120.0),
                        new Standard("Guillotine cut", 4.0),
                        FULL_RING,
                        QUARTER,
                        new Standard("True up", 1.0));
        BegunRoute begun =
                BegunRoute.of(
                        takeOff,
                        new PressTool(null, null, Money.of("4200.00", "EUR"), 5000, 42),
                        BOOK);
        assertThat(begun.route().takeOff().parts().get(0).operations())
                .startsWith(
                        new Standard("Guillotine cut", 4.0),
                        new Standard("Press stroke", 1.0),
                        new Standard("True up", 1.0))
                .contains(new Standard("Fit joint", 1.0));
        assertThat(begun.route().takeOff().extras())
                .singleElement()
                .satisfies(
                        x -> {
                            assertThat(x.kind()).isEqualTo(ExtraKind.TOOLING);
                            assertThat(x.cost()).isEqualTo(Money.of("4200.00", "EUR"));
                            assertThat(x.lifePieces()).isEqualTo(5000);
                            assertThat(x.leadTimeDays()).isEqualTo(42);
                        });
        assertThat(usable(begun)).isTrue();
    }

    @Test
    void whatTheToolCostsMayBeFilledInLater() {
        BegunRoute begun =
                BegunRoute.of(
                        item(1, new Blank(1945.0, 120.0), FULL_RING),
                        new PressTool(null, null, null, null, null),
                        BOOK);
        assertThat(begun.notes()).extracting(Finding::code).contains("tool-without-cost");
        assertThat(TakeOffCheck.faults(begun.route().takeOff(), BOOK))
                .extracting(Fault::pointer)
                .containsExactly("/extras/0/cost");
    }

    @Test
    void aToolThatNobodySellsIsRefused() {
        assertThat(
                        faults(
                                item(1, new Blank(1945.0, 120.0), FULL_RING),
                                new PressTool(null, null, Money.of("1.00", "CHF"), 0, -1)))
                .containsExactlyInAnyOrder(
                        "/start/cost/currency", "/start/lifePieces", "/start/leadTimeDays");
    }

    @Test
    void faultsOfTheTakeOffAreToldAtTheTakeOff() {
        assertThat(
                        faults(
                                of(part(1, "tin", new Blank(1945.0, 120.0), FULL_RING)),
                                new PressTool(null, null, null, null, null)))
                .containsExactly("/takeOff/parts/0/grade");
    }

    // Situations -----------------------------------------------------------------------------

    private static BegunRoute segments(
            TakeOff takeOff, int n, Boolean closed, Double trim, List<String> standards) {
        return BegunRoute.of(takeOff, new SegmentsWelded(null, n, closed, trim, standards), BOOK);
    }

    private static boolean usable(BegunRoute begun) {
        return TakeOffCheck.faults(begun.route().takeOff(), BOOK).isEmpty()
                && !Estimating.estimate(begun.route().takeOff(), BOOK).quantities().isEmpty();
    }

    private static List<String> faults(TakeOff takeOff, RouteStart start) {
        List<String> pointers = new ArrayList<>();
        assertThatThrownBy(() -> BegunRoute.of(takeOff, start, BOOK))
                .isInstanceOfSatisfying(
                        InvalidInput.class,
                        e -> e.faults().forEach(f -> pointers.add(f.pointer())));
        return pointers;
    }

    private static double metres(Operation operation) {
        assertThat(((Standard) operation).standard()).isEqualTo("Heat-shrink by hand");
        return ((Standard) operation).amount();
    }

    private static TakeOff item(int perAssembly, Blank blank, Operation... work) {
        return of(part(perAssembly, "AL99.5-O", blank, work));
    }

    private static TakeOff of(Part part) {
        return new TakeOff(
                "Item",
                null,
                null,
                null,
                null,
                List.of(part),
                null,
                null,
                null,
                List.of(),
                List.of(),
                null);
    }

    private static Part part(int perAssembly, String grade, Blank blank, Operation... work) {
        return new Part(
                "Rim",
                perAssembly,
                grade,
                1.5,
                null,
                blank,
                null,
                null,
                null,
                null,
                null,
                null,
                List.of(work),
                null,
                null,
                null,
                List.of(),
                null);
    }
}
