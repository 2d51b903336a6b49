package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.estimate.Estimate.Line;
import strokewright.estimate.Estimate.Passage;
import strokewright.estimate.Operation.FlangeSide;
import strokewright.estimate.Operation.FollowOutline;
import strokewright.estimate.Operation.Segment;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Part;
import strokewright.estimate.TakeOff.Surface;
import strokewright.quantity.Money;
import strokewright.quantity.Why;

/**
 * Every figure that is shown of a line or of a quantity has a reason, and the reason's formula and
 * inputs give the figure. In the shop book that a new shop begins with, where steel-faced tools
 * leave marks that are dressed out.
 */
class TraceTest {

    private static final ShopBook BOOK =
            EditedBook.read("/shop-book/starter.json").book().withEdition(1);

    private static final String RING = "M300 0A300 300 0 1 1 -300 0A300 300 0 1 1 300 0Z";
    private static final String WAVE = "M0 0C200 0 200 150 400 150S600 300 800 300";

    record Situation(String name, String grade, Surface surface, Operation operation) {
        @Override
        public String toString() {
            return name;
        }
    }

    static Stream<Situation> situations() {
        return Stream.of(
                of("curve an edge", "DC04", curve(Sense.SHRINK, null)),
                of("curve an edge with an anneal", "AL99.5-H14", curve(Sense.SHRINK, null)),
                of("curve an edge, hard sheet stretched", "AL99.5-H14", curve(Sense.STRETCH, null)),
                of(
                        "curve an edge of zinc",
                        "ZN-CU-TI",
                        new Operation.CurveEdge(
                                Sense.STRETCH, 700.0, 400.0, null, 20.0, 1, null, null, null)),
                new Situation(
                        "curve an edge and dress out the marks",
                        "DC04",
                        Surface.VISIBLE,
                        curve(Sense.SHRINK, "Edge, steel-faced")),
                of(
                        "turn up a flange",
                        "DC04",
                        new Operation.TurnFlange(
                                Sense.STRETCH, 60.0, 12.0, 90.0, 180.0, 2, null, null, null)),
                of(
                        "dish a disc",
                        "DC04",
                        new Operation.Dish(300.0, 100.0, null, 5.0, 1, null, null, null, null)),
                of(
                        "dish a disc of stated rim share",
                        "DC04",
                        new Operation.Dish(300.0, 100.0, 0.4, 5.0, 1, null, null, null, null)),
                new Situation(
                        "smooth with marks",
                        "DC04",
                        Surface.VISIBLE,
                        new Operation.Smooth(
                                150_000.0, 2, 1, null, "Smooth rough, steel-faced", null)),
                of("flatten", "DC04", new Operation.Flatten(90_000.0, 3, 2, null, null, null)),
                of(
                        "take out dents",
                        "DC04",
                        new Operation.TakeOutDents(6, 60, 1, null, null, null)),
                of("follow a path", "AL99.5-O", follow(RING, null, null)),
                of("follow a path of both senses", "DC04", follow(WAVE, null, null)),
                of(
                        "follow segments with an anneal",
                        "AL99.5-H14",
                        follow(
                                null,
                                List.of(
                                        new Segment(300.0, 150.0),
                                        new Segment(200.0, null),
                                        new Segment(300.0, -180.0)),
                                null)),
                new Situation(
                        "follow segments and dress out the marks",
                        "DC04",
                        Surface.VISIBLE,
                        follow(
                                null,
                                List.of(new Segment(300.0, 150.0), new Segment(300.0, 400.0)),
                                "Edge, steel-faced")),
                of("by time standard", "DC04", new Operation.Standard("Guillotine cut", 4.0)),
                of(
                        "by time standard once per order",
                        "DC04",
                        new Operation.Standard("Make template", 1.0)));
    }

    @ParameterizedTest
    @MethodSource("situations")
    void everyReasonGivesItsFigure(Situation situation) {
        Estimate estimate = estimate(situation);
        assertThat(estimate.feasible()).isTrue();
        estimate.operations().forEach(line -> recomputed(line.why()));
        estimate.quantities().forEach(quantity -> recomputed(quantity.why()));
    }

    private static void recomputed(List<Why> trace) {
        assertThat(trace).isNotEmpty();
        for (Why why : trace) {
            double[] inputs = why.inputs().stream().mapToDouble(Why.Input::value).toArray();
            assertThat(Formulas.named(why.formula()).orElseThrow().apply(inputs))
                    .as(why.figure() + " by " + why.formula())
                    .isCloseTo(why.value(), within(1e-9 * Math.max(1, Math.abs(why.value()))));
        }
    }

    private static final Map<String, ToDoubleFunction<Line>> ONCE =
            Map.of(
                    "strokes", Line::strokes,
                    "strokeMinutes", Line::strokeMinutes,
                    "repositionMinutes", Line::repositionMinutes,
                    "checks", Line::checks,
                    "checkMinutes", Line::checkMinutes,
                    "machineMinutes", Line::machineMinutes,
                    "personMinutes", Line::personMinutes);

    @ParameterizedTest
    @MethodSource("situations")
    void everyFigureOfALineHasItsReason(Situation situation) {
        Line line = estimate(situation).operations().get(0);
        if (line.standard() != null) {
            Double setup = line.setupMinutes();
            boolean once = line.machineMinutes() == 0;
            assertThat(figures(line.why(), once ? "setupMinutes" : "machineMinutes"))
                    .containsExactly(once ? setup : line.machineMinutes());
            return;
        }
        ONCE.forEach(
                (figure, of) ->
                        assertThat(figures(line.why(), figure))
                                .as(figure)
                                .containsExactly(of.applyAsDouble(line)));
        sum(line, "annealMinutes", line.annealMinutes());
        sum(line, "dressMinutes", line.dressMinutes());
        if (line.findMinutes() != null) {
            assertThat(figures(line.why(), "findMinutes")).containsExactly(line.findMinutes());
        }
        if (line.edgeThicknessMm() != null) {
            assertThat(figures(line.why(), "edgeThicknessMm")).contains(line.edgeThicknessMm());
            assertThat(figures(line.why(), "strains")).containsAll(line.strains());
            assertThat(figures(line.why(), "passes"))
                    .containsAll(line.passes().stream().map(Integer::doubleValue).toList());
            assertThat(figures(line.why(), "correctionPasses"))
                    .containsOnly((double) line.correctionPasses());
        }
        if (line.tippingPasses() > 0) {
            assertThat(figures(line.why(), "tippingPasses"))
                    .containsExactly((double) line.tippingPasses());
        }
        if (line.anneals() > 0) {
            assertThat(figures(line.why(), "anneals")).contains((double) line.anneals());
        }
        if (line.crown() != null) {
            assertThat(figures(line.why(), "blankDiameterMm"))
                    .containsExactly(line.blankDiameterMm());
            assertThat(figures(line.why(), "crown.strain")).containsExactly(line.crown().strain());
            assertThat(figures(line.why(), "crown.passes"))
                    .containsExactly((double) line.crown().passes());
            assertThat(figures(line.why(), "crown.thicknessMm"))
                    .containsExactly(line.crown().thicknessMm());
        }
        if (line.outline() != null) {
            for (Estimate.Stretched stretch : line.outline().stretches()) {
                assertThat(figures(line.why(), "strains")).containsAll(stretch.strains());
                assertThat(figures(line.why(), "edgeThicknessMm"))
                        .contains(stretch.edgeThicknessMm());
            }
        }
    }

    private static void sum(Line line, String figure, Double shown) {
        assertThat(figures(line.why(), figure).stream().mapToDouble(f -> f).sum())
                .as(figure)
                .isCloseTo(shown == null ? 0 : shown, within(1e-9));
    }

    @ParameterizedTest
    @MethodSource("situations")
    void everyFigureOfAQuantityHasItsReason(Situation situation) {
        for (ForQuantity q : estimate(situation).quantities()) {
            one(q, "setupMinutes", q.setupMinutes());
            one(q, "runMinutes", q.runMinutes());
            one(q, "hours.plan", q.hours().plan());
            if (q.toolChanges() > 0) {
                one(q, "toolChanges", q.toolChanges());
            }
            Estimate.Cost cost = q.cost();
            money(q, "cost.material", cost.material());
            money(q, "cost.materialOverhead", cost.materialOverhead());
            money(q, "cost.labour", cost.labour());
            money(q, "cost.machine", cost.machine());
            money(q, "cost.productionOverhead", cost.productionOverhead());
            money(q, "cost.specialDirect", cost.specialDirect());
            money(q, "cost.manufacturing", cost.manufacturing());
            money(q, "cost.administration", cost.administration());
            money(q, "cost.sales", cost.sales());
            money(q, "cost.total", cost.total());
            Estimate.Price price = q.price();
            money(q, "price.profit", price.profit());
            money(q, "price.urgency", price.urgency());
            money(q, "price.beforeDiscounts", price.beforeDiscounts());
            money(q, "price.settlementDiscount", price.settlementDiscount());
            money(q, "price.commission", price.commission());
            money(q, "price.tradeDiscount", price.tradeDiscount());
            money(q, "price.offer", price.offer());
            money(q, "price.net", price.net());
            money(q, "price.tax", price.tax());
            one(q, "priceEach", q.priceEach().amount().doubleValue());
        }
    }

    private static void one(ForQuantity quantity, String figure, double shown) {
        assertThat(figures(quantity.why(), figure)).as(figure).hasSize(1);
        assertThat(figures(quantity.why(), figure).get(0))
                .as(figure)
                .isCloseTo(shown, within(1e-9 * Math.max(1, Math.abs(shown))));
    }

    /** Shown in whole cents that add up; the reason has all its digits. */
    private static void money(ForQuantity quantity, String figure, Money shown) {
        assertThat(figures(quantity.why(), figure)).as(figure).hasSize(1);
        assertThat(figures(quantity.why(), figure).get(0))
                .as(figure)
                .isCloseTo(shown.amount().doubleValue(), within(0.05));
    }

    /** The part of a batch that is proved, and pieces that go through one after the other. */
    @Test
    void batchesAreAmongThem() {
        List<ForQuantity> all =
                situations().flatMap(s -> estimate(s).quantities().stream()).toList();

        assertThat(all).anyMatch(q -> q.passage() == Passage.BATCH && q.provingRound());
        assertThat(all).anyMatch(q -> q.passage() == Passage.PIECE && q.quantity() > 1);
        assertThat(all).anyMatch(q -> !figures(q.why(), "normalPickUpMinutes").isEmpty());
    }

    @Test
    void aChargeThatIsLiftedToItsMinimumSaysByHowMuch() {
        ShopBook.Standard dear = BOOK.standards().get(0);
        ShopBook book =
                EditedBook.read("/shop-book/starter.json")
                        .with(
                                "/standards/0/minimumCharge",
                                Map.of("amount", "500.00", "currency", "EUR"))
                        .book()
                        .withEdition(1);
        ForQuantity q =
                Estimating.estimate(
                                takeOff(
                                        of(
                                                "least",
                                                "DC04",
                                                new Operation.Standard(dear.name(), 1.0))),
                                book)
                        .quantities()
                        .get(0);

        recomputed(q.why());
        double lift = figures(q.why(), "P/1.upToMinimumCharge").get(0);
        assertThat(lift).isPositive();
        assertThat(lift + figures(q.why(), "P/1.cost").get(0)).isCloseTo(500, within(1e-9));
        assertThat(q.cost().specialDirect().amount().doubleValue()).isCloseTo(lift, within(0.05));
    }

    private static List<Double> figures(List<Why> trace, String figure) {
        return trace.stream().filter(w -> w.figure().equals(figure)).map(Why::value).toList();
    }

    private static Situation of(String name, String grade, Operation operation) {
        return new Situation(name, grade, Surface.HIDDEN, operation);
    }

    private static Operation.CurveEdge curve(Sense sense, String tool) {
        return new Operation.CurveEdge(sense, 700.0, 220.0, null, 45.0, 2, null, tool, null);
    }

    private static FollowOutline follow(String path, List<Segment> segments, String tool) {
        return new FollowOutline(
                path, segments, 25.0, FlangeSide.INSIDE, null, null, tool, null, null);
    }

    private static Estimate estimate(Situation situation) {
        return Estimating.estimate(takeOff(situation), BOOK);
    }

    /** With a second operation, so that tools are changed. */
    private static TakeOff takeOff(Situation situation) {
        Part part =
                new Part(
                        "P",
                        2,
                        situation.grade,
                        1.5,
                        null,
                        new Blank(900.0, 300.0),
                        situation.surface,
                        null,
                        null,
                        null,
                        null,
                        null,
                        List.of(
                                situation.operation,
                                new Operation.Smooth(20_000.0, 1, 1, null, null, null)),
                        null,
                        null,
                        null,
                        List.of(),
                        null);
        return new TakeOff(
                "Item",
                null,
                List.of(1, 2, 60),
                null,
                3,
                List.of(part),
                null,
                null,
                null,
                List.of(),
                List.of(),
                null);
    }
}
