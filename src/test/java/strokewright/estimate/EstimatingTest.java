package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.costing.Practice;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.TakeOff.Blank;
import strokewright.quantity.Money;
import strokewright.quantity.Why;

/** What must hold for every take-off, seen over many seeded ones. */
class EstimatingTest {

    private static final int CASES = 60;

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {101, 102, 103})
    void everyFigureIsRecomputedFromItsTrace(long seed) {
        for (Estimate estimate : estimates(seed)) {
            List<Why> trace = new ArrayList<>();
            estimate.operations().forEach(o -> trace.addAll(o.why()));
            estimate.quantities().forEach(q -> trace.addAll(q.why()));
            for (Why why : trace) {
                double[] inputs = why.inputs().stream().mapToDouble(Why.Input::value).toArray();
                double again = Formulas.named(why.formula()).orElseThrow().apply(inputs);
                assertThat(again)
                        .as(why.figure() + " by " + why.formula())
                        .isCloseTo(why.value(), within(1e-9 * Math.max(1, Math.abs(why.value()))));
            }
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {201, 202, 203})
    void whatIsShownOfTheMoneyAddsUpToTheCent(long seed) {
        for (Estimate estimate : estimates(seed)) {
            for (Estimate.ForQuantity q : estimate.quantities()) {
                Estimate.Cost cost = q.cost();
                assertThat(
                                cost.material()
                                        .plus(cost.materialOverhead())
                                        .plus(cost.labour())
                                        .plus(cost.machine())
                                        .plus(cost.productionOverhead())
                                        .plus(cost.specialDirect()))
                        .isEqualTo(cost.manufacturing());
                assertThat(cost.manufacturing().plus(cost.administration()).plus(cost.sales()))
                        .isEqualTo(cost.total());
                Estimate.Price price = q.price();
                assertThat(cost.total().plus(price.profit()).plus(price.urgency()))
                        .isEqualTo(price.beforeDiscounts());
                assertThat(
                                price.beforeDiscounts()
                                        .plus(price.settlementDiscount())
                                        .plus(price.commission())
                                        .plus(price.tradeDiscount())
                                        .plus(price.minimumOrder())
                                        .plus(price.rounding()))
                        .isEqualTo(price.offer());
                assertThat(q.priceEach().times(q.quantity()).amount())
                        .isEqualByComparingTo(price.offer().amount());
                assertThat(price.offer().plus(price.tax())).isEqualTo(price.withTax());
                // Rounding moves no price each by more than half a cent.
                assertThat(price.rounding().amount().abs())
                        .isLessThanOrEqualTo(
                                new BigDecimal("0.005")
                                        .multiply(BigDecimal.valueOf(q.quantity()))
                                        .add(new BigDecimal("0.03")));
            }
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {301, 302, 303})
    void hoursAreSetUpRunAndReserveAndAreAllCharged(long seed) {
        for (Estimate estimate : estimates(seed)) {
            for (Estimate.ForQuantity q : estimate.quantities()) {
                assertThat(q.hours().plan() * 60)
                        .isCloseTo(
                                q.setupMinutes() + q.runMinutes() + q.reserveMinutes(),
                                within(1e-6));
                assertThat(
                                q.workCentres().stream()
                                        .mapToDouble(Estimate.AtCentre::labourHours)
                                        .sum())
                        .isCloseTo(q.hours().plan(), within(1e-9 * q.hours().plan()));
            }
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {401, 402, 403})
    void morePiecesCostMoreInAllAndNoMoreHoursEach(long seed) {
        for (Estimate estimate : estimates(seed)) {
            for (int i = 1; i < estimate.quantities().size(); i++) {
                Estimate.ForQuantity fewer = estimate.quantities().get(i - 1);
                Estimate.ForQuantity more = estimate.quantities().get(i);
                assertThat(more.cost().total().amount())
                        .isGreaterThan(fewer.cost().total().amount());
                assertThat(more.hours().plan() / more.quantity())
                        .isLessThanOrEqualTo(fewer.hours().plan() / fewer.quantity() + 1e-9);
            }
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {501, 502})
    void theSameTakeOffGivesTheSameEstimate(long seed) {
        assertThat(estimates(seed)).isEqualTo(estimates(seed));
    }

    /** Rows, passes, strokes and minutes of a curved edge once more, in plain loops. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {601, 602, 603})
    void curvedEdgeEqualsAReckoningByHand(long seed) {
        java.util.SplittableRandom random = new java.util.SplittableRandom(seed);
        for (int i = 0; i < CASES; i++) {
            double radius = random.nextDouble(100, 2000);
            double height = random.nextDouble(10, 90);
            double length = random.nextDouble(100, 3000);
            double thickness = random.nextDouble(1, 3);
            Estimate.Line line =
                    WorkedShop.lines(
                                    WorkedShop.of(
                                            WorkedShop.curve(
                                                    Sense.STRETCH, length, radius, height, "rib"),
                                            "5xxx",
                                            thickness))
                            .get(0);
            if (line.anneals() > 0) {
                continue;
            }
            long strokes = 0;
            int pickUps = 0;
            int most = 0;
            int rows = 0;
            for (double y = height; y > 0; y -= 25) {
                double strain = Math.log(1 + y / radius);
                if (rows > 0 && strain < 0.005) {
                    break;
                }
                // 430 MPa, 0.31, 100 MPa; bite 0.014, 1.25 J on 5 × 25 mm: W = 10 N/mm
                double n = passesByHand(strain, Math.pow(100.0 / 430, 1 / 0.31), thickness);
                int passes = strain < 0.0005 ? 0 : (int) Math.ceil(n - 1e-9);
                int corrections = rows == 0 ? 2 : 0;
                strokes += (passes + corrections) * (long) Math.ceil(length / 5 - 1e-9);
                pickUps += passes + corrections;
                most = Math.max(most, passes);
                rows++;
            }
            double checks = Math.ceil(most / 3.0 - 1e-9) + 2;
            double minutes =
                    strokes / (300 * 0.6)
                            + pickUps * 10.0 / 60 // 1.27 kg, 0.234 m², 1.95 m
                            + checks * Math.ceil(length / 300 - 1e-9) * 0.25;

            assertThat(line.strains()).hasSize(rows);
            assertThat(line.strokes()).isEqualTo(strokes);
            assertThat(line.machineMinutes()).isCloseTo(minutes, within(1e-9 * minutes));
        }
    }

    private static double passesByHand(double strain, double offset, double thickness) {
        int steps = 200_000;
        double sum = 0;
        for (int i = 0; i < steps; i++) {
            double x = strain * (i + 0.5) / steps;
            sum += Math.max(1 / 0.014, thickness * 430 * Math.pow(offset + x, 0.31) / 10);
        }
        return sum * strain / steps;
    }

    @Test
    void countRepeatsStrokesAndMinutesButNotStrainsAndPasses() {
        Operation.CurveEdge once = WorkedShop.curve(Sense.SHRINK, 1885, 300, 40, "soft");
        Operation.CurveEdge thrice =
                new Operation.CurveEdge(
                        Sense.SHRINK, 1885.0, 300.0, null, 40.0, 3, null, "soft", null);
        Estimate.Line one = WorkedShop.lines(WorkedShop.of(once, "al", 2)).get(0);
        Estimate.Line three = WorkedShop.lines(WorkedShop.of(thrice, "al", 2)).get(0);

        assertThat(three.strains()).isEqualTo(one.strains());
        assertThat(three.passes()).isEqualTo(one.passes());
        assertThat(three.strokes()).isEqualTo(3 * one.strokes());
        assertThat(three.checks()).isEqualTo(3 * one.checks());
        assertThat(three.machineMinutes()).isCloseTo(3 * one.machineMinutes(), within(1e-9));
    }

    @Test
    void countRepeatsTheCrownsStrokesOfADishToo() {
        Estimate.Line one = dishes(1);
        Estimate.Line three = dishes(3);

        assertThat(three.crown().passes()).isEqualTo(one.crown().passes());
        assertThat(three.crown().strokes()).isEqualTo(3 * one.crown().strokes());
        assertThat(three.strokes()).isEqualTo(3 * one.strokes());
    }

    private static Estimate.Line dishes(int count) {
        Operation.Dish dish =
                new Operation.Dish(300.0, 60.0, null, 0.0, count, null, "steel", "crown", null);
        return WorkedShop.lines(WorkedShop.of(dish, "al", 1.5)).get(0);
    }

    /** One frame, reckoned step by step with a pocket calculator's operations. */
    @Test
    void hoursCostAndPriceOfOneFrame() {
        TakeOff takeOff =
                new TakeOff(
                        "Round sign frame",
                        null,
                        List.of(1, 4),
                        null,
                        0,
                        List.of(
                                WorkedShop.part(
                                        "al",
                                        2.0,
                                        1.27,
                                        new Blank(1950.0, 120.0),
                                        null,
                                        WorkedShop.curve(Sense.SHRINK, 1885, 300, 40, "soft"),
                                        new Operation.Standard("Cut", 4.0))),
                        List.of(new Operation.Standard("Weld", 1.9)),
                        null,
                        null,
                        List.of(),
                        List.of(),
                        null);
        Estimate estimate = Estimating.estimate(takeOff, WorkedShop.book());

        double paced = 5278 / 300.0;
        double forming = 42.155555555555556;
        Practice practice = new Practice(0.92, 10, 50);
        for (Estimate.ForQuantity q : estimate.quantities()) {
            int n = q.quantity();
            double factors = practice.sum(0, n);
            double run = (paced * n + (forming - paced) * factors) * 1.18;
            double reserve = run * (n == 1 ? 0.07 : 0.03);
            double atMachine = run + reserve + 3 * 1.18;
            double atBench = (5 + 10) * 1.15 + 4 * 0.25 * n * 1.15 + 1.9 * 12 * factors * 1.15;
            assertThat(q.toolChanges()).isEqualTo(1);
            assertThat(q.setupMinutes()).isCloseTo(3 * 1.18 + 15 * 1.15, within(1e-9));
            assertThat(q.reserveMinutes()).isCloseTo(reserve, within(1e-9));
            assertThat(q.hours().plan()).isCloseTo((atMachine + atBench) / 60, within(1e-9));

            double mass = 1.950 * 0.120 * 0.002 * 2710;
            double material = mass * 5 * n;
            double labour = atMachine / 60 * 42 + atBench / 60 * 40;
            double machine = atMachine / 60 * 9.5;
            double manufacturing = material * 1.08 + labour * 1.6 + machine;
            double list = manufacturing * 1.16 * 1.12 / 0.98 / 0.95;
            assertThat(q.cost().manufacturing().amount().doubleValue())
                    .isCloseTo(manufacturing, within(0.0051));
            assertThat(q.priceEach().amount().doubleValue()).isCloseTo(list / n, within(0.0051));
        }
    }

    /** Tools in the order of the take-off: one that is in the machine already is no change. */
    @Test
    void toolIsChangedOnlyWhereAnotherOneIsIn() {
        assertThat(toolChanges("soft")).isEqualTo(1);
        assertThat(toolChanges("soft", "soft", "soft")).isEqualTo(1);
        assertThat(toolChanges("soft", "steel")).isEqualTo(2);
        assertThat(toolChanges("soft", "steel", "soft")).isEqualTo(3);
    }

    @Test
    void toolChangesAreSetUpForTheWholeQuantity() {
        TakeOff takeOff =
                WorkedShop.withQuantities(
                        WorkedShop.of(edge("steel"), "al", 2.0), List.of(1, 20), 0);

        assertThat(Estimating.estimate(takeOff, WorkedShop.book()).quantities())
                .allSatisfy(q -> assertThat(q.setupMinutes()).isCloseTo(3 * 1.18, within(1e-9)));
    }

    private static int toolChanges(String... tools) {
        Operation[] work = Stream.of(tools).map(EstimatingTest::edge).toArray(Operation[]::new);
        return Estimating.estimate(
                        WorkedShop.takeOff(WorkedShop.part("al", 2.0, 1.0, null, null, work)),
                        WorkedShop.book())
                .quantities()
                .get(0)
                .toolChanges();
    }

    private static Operation.CurveEdge edge(String tool) {
        return WorkedShop.curve(Sense.SHRINK, 500, 400, 20, tool);
    }

    /** Three items of two pieces each made before: the next item's are the 7th and the 8th. */
    @Test
    void practiceCountsPiecesOnFromThoseOfTheItemsMadeBefore() {
        TakeOff.Part one =
                WorkedShop.part("al", 2.0, 1.0, null, null, new Operation.Standard("Weld", 1.0));
        TakeOff.Part two =
                new TakeOff.Part(
                        one.name(),
                        2,
                        one.grade(),
                        one.thicknessMm(),
                        one.massKg(),
                        null,
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
        TakeOff takeOff = WorkedShop.withQuantities(WorkedShop.takeOff(two), List.of(1), 3);
        double exponent = Math.log(0.92) / Math.log(2);

        assertThat(Estimating.estimate(takeOff, WorkedShop.book()).quantities().get(0).runMinutes())
                .isCloseTo(
                        12 * 1.15 * (Math.pow(0.7, exponent) + Math.pow(0.8, exponent)),
                        within(1e-9));
    }

    @Test
    void overrideGoesIntoHoursAndBothFiguresAreKept() {
        Operation.Override override = new Operation.Override(30.0, "made one like it last year");
        Operation.CurveEdge edge =
                new Operation.CurveEdge(
                        Sense.SHRINK, 1885.0, 300.0, null, 40.0, null, null, "soft", override);
        Estimate computed =
                Estimating.estimate(
                        WorkedShop.of(
                                WorkedShop.curve(Sense.SHRINK, 1885, 300, 40, "soft"), "al", 2),
                        WorkedShop.book());
        Estimate overridden = Estimating.estimate(WorkedShop.of(edge, "al", 2), WorkedShop.book());

        assertThat(overridden.operations().get(0).machineMinutes())
                .isEqualTo(computed.operations().get(0).machineMinutes());
        assertThat(overridden.operations().get(0).override()).isEqualTo(override);
        assertThat(overridden.quantities().get(0).runMinutes())
                .isCloseTo(
                        computed.quantities().get(0).runMinutes() * 30 / 42.155555555555556,
                        within(1e-9));
    }

    @Test
    void workDoneOnceForTheOrderDoesNotGrowWithTheQuantity() {
        TakeOff takeOff =
                WorkedShop.withQuantities(
                        WorkedShop.takeOff(
                                WorkedShop.part(
                                        "al",
                                        2.0,
                                        1.0,
                                        null,
                                        null,
                                        new Operation.Standard("Template", 2.0))),
                        List.of(1, 50),
                        0);
        Estimate estimate = Estimating.estimate(takeOff, WorkedShop.book());

        assertThat(estimate.quantities())
                .allSatisfy(q -> assertThat(q.setupMinutes()).isCloseTo(46.0, within(1e-9)))
                .allSatisfy(q -> assertThat(q.runMinutes()).isZero());
    }

    @ParameterizedTest(name = "{0} pieces need {1} tools")
    @CsvSource({"1, 1", "399, 1", "400, 1", "401, 2", "800, 2", "801, 3"})
    void aToolThatWearsIsPaidForEveryBegunLife(int quantity, int tools) {
        TakeOff takeOff = withTool(400);
        Estimate.ForQuantity figures =
                Estimating.reckon(takeOff, WorkedShop.book()).forQuantity(quantity);
        assertThat(figures.cost().specialDirect().amount()).isEqualByComparingTo(1900 * tools + "");
        assertThat(figures.why())
                .filteredOn(w -> w.figure().equals("Press tool.cost"))
                .singleElement()
                .satisfies(w -> assertThat(w.value()).isEqualTo(1900.0 * tools));
    }

    @Test
    void aToolThatLastsIsPaidOnce() {
        Reckoning reckoning = Estimating.reckon(withTool(null), WorkedShop.book());
        assertThat(reckoning.forQuantity(100_000).cost().specialDirect())
                .isEqualTo(Money.of("1900.00", "EUR"));
    }

    @Test
    void anExtraWithoutLifeAndLeadTimeIsWrittenAsBefore() {
        TakeOff.Extra coat =
                new TakeOff.Extra("Coat", null, null, Money.of("85.00", "EUR"), null, null, null);
        assertThat(EditedBook.JSON.writeValueAsString(coat))
                .isEqualTo(
                        "{\"name\":\"Coat\",\"per\":\"order\",\"kind\":\"bought-out\","
                                + "\"cost\":{\"amount\":\"85.00\",\"currency\":\"EUR\"}}");
    }

    private static TakeOff withTool(Integer lifePieces) {
        TakeOff frame =
                WorkedShop.of(
                        WorkedShop.curve(Operation.Sense.SHRINK, 1885, 300, 40, "soft"), "al", 2);
        return new TakeOff(
                frame.title(),
                null,
                null,
                null,
                null,
                frame.parts(),
                null,
                List.of(
                        new TakeOff.Extra(
                                "Press tool",
                                null,
                                TakeOff.ExtraKind.TOOLING,
                                Money.of("1900.00", "EUR"),
                                lifePieces,
                                35,
                                null)),
                null,
                List.of(),
                List.of(),
                null);
    }

    @Test
    void customersMetalCostsNothing() {
        TakeOff.Part part =
                WorkedShop.part(
                        "al",
                        2.0,
                        1.27,
                        new Blank(1950.0, 120.0),
                        null,
                        new Operation.Standard("Cut", 1.0));
        TakeOff.Part customers =
                new TakeOff.Part(
                        part.name(),
                        1,
                        part.grade(),
                        part.thicknessMm(),
                        part.massKg(),
                        part.blank(),
                        null,
                        null,
                        null,
                        null,
                        TakeOff.Supply.CUSTOMER,
                        null,
                        part.operations(),
                        null,
                        null,
                        null,
                        List.of(),
                        null);

        // 1.950 × 0.120 m × 2 mm × 2710 kg/m³ at 5 a kg
        assertThat(material(part)).isEqualTo(Money.of("6.34", "EUR"));
        assertThat(material(customers)).isEqualTo(Money.of("0.00", "EUR"));
    }

    private static Money material(TakeOff.Part part) {
        return Estimating.estimate(WorkedShop.takeOff(part), WorkedShop.book())
                .quantities()
                .get(0)
                .cost()
                .material();
    }

    private static List<Estimate> estimates(long seed) {
        RandomTakeOffs takeOffs = RandomTakeOffs.withFolds(seed);
        return Stream.generate(takeOffs::next)
                .limit(CASES)
                .map(t -> Estimating.estimate(t, WorkedShop.book()))
                .toList();
    }
}
