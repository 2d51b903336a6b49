package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Function;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.RouteComparison.BreakEven;
import strokewright.estimate.RouteComparison.Cheapest;
import strokewright.estimate.TakeOff.Extra;
import strokewright.estimate.TakeOff.ExtraKind;
import strokewright.estimate.TakeOff.Per;
import strokewright.quantity.Fault;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;

class RoutesTest {

    private static final ShopBook BOOK = WorkedShop.book();

    // Straight lines: extras alone, F once and v a piece, so that costs cross at (F2−F1)/(v1−v2) --

    @ParameterizedTest(name = "{0} + {1} q against {2} + {3} q: from {4}, equal at {5}")
    @CsvSource({
        "0, 40, 1800, 1, 47, 46.1538461538",
        "100, 10, 500, 2, 51, 50",
        "10, 5, 12, 4, 3, 2",
        "0, 3, 2.99, 0.01, 2, 1",
        "0, 2, 1990, 0.01, 1000, 1000",
    })
    void straightLinesCrossWhereTheClosedFormSays(
            String once1, String each1, String once2, String each2, int from, double equalAt) {
        RouteComparison compared =
                compare(1200, linear(once1, each1, null), linear(once2, each2, null));
        double closed =
                (Double.parseDouble(once2) - Double.parseDouble(once1))
                        / (Double.parseDouble(each1) - Double.parseDouble(each2));
        assertThat(compared.breakEvens())
                .singleElement()
                .satisfies(
                        b -> {
                            assertThat(b.cheaper()).isEqualTo("B");
                            assertThat(b.dearer()).isEqualTo("A");
                            assertThat(b.quantity()).isEqualTo((int) Math.floor(closed + 1e-9) + 1);
                            assertThat(b.equalAt()).isCloseTo(closed, within(1e-6));
                        });
    }

    @Test
    void beingEqualForAWhileOvertakesNothing() {
        double[] first = {0, 1, 5, 5, 9};
        double[] second = {0, 2, 5, 6, 8};

        assertThat(
                        Routes.turns(
                                4,
                                new Routes.Costs(q -> first[q], 0),
                                new Routes.Costs(q -> second[q], 0)))
                .extracting(Routes.Turn::quantity, Routes.Turn::sign, Routes.Turn::overtakes)
                .containsExactly(tuple(2, 0, false), tuple(3, -1, false), tuple(4, 1, true));
    }

    @Test
    void aToolThatWearsMakesStepsAndTheCheaperOneChangesAtEach() {
        // A: 10 each. B: 95 for every begun 10 pieces, so A wins 1–9, B 10, A 11–19, B 20, …
        RouteComparison compared = compare(25, linear("0", "10", null), linear("95", "0", 10));
        assertThat(compared.breakEvens())
                .extracting(BreakEven::quantity, BreakEven::cheaper)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple(10, "B"),
                        org.assertj.core.groups.Tuple.tuple(11, "A"),
                        org.assertj.core.groups.Tuple.tuple(20, "B"),
                        org.assertj.core.groups.Tuple.tuple(21, "A"));
        assertThat(compared.cheapest())
                .containsExactly(
                        new Cheapest(1, 9, "A"),
                        new Cheapest(10, 10, "B"),
                        new Cheapest(11, 19, "A"),
                        new Cheapest(20, 20, "B"),
                        new Cheapest(21, 25, "A"));
    }

    @Test
    void routesThatCostTheSameNeverOvertake() {
        RouteComparison compared = compare(50, linear("7", "3", null), linear("7", "3", null));
        assertThat(compared.breakEvens()).isEmpty();
        assertThat(compared.cheapest()).containsExactly(new Cheapest(1, 50, "A"));
    }

    @Test
    void oneQuantityHasNoBreakEven() {
        RouteComparison compared = compare(1, linear("7", "3", null), linear("1", "9", null));
        assertThat(compared.breakEvens()).isEmpty();
        assertThat(compared.cheapest()).containsExactly(new Cheapest(1, 1, "A"));
    }

    // Real take-offs, against counting by brute force ----------------------------------------

    static IntStream seeds() {
        return IntStream.range(0, 40);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void breakEvensAndCheapestRoutesEqualBruteForce(int seed) {
        equalBruteForce(seed, 60, route -> q -> cost(route, q));
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(ints = {0, 7, 11, 23, 31})
    void nothingIsPassedOverAmongManyPieces(int seed) {
        equalBruteForce(seed, 700, RoutesTest::reckonedOnce);
    }

    private static void equalBruteForce(
            int seed, int upTo, Function<Route, IntToDoubleFunction> costing) {
        List<Route> routes = seeded(seed);
        RouteComparison compared = Routes.compare(routes, upTo, BOOK).comparison();
        List<Route> possible =
                routes.stream()
                        .filter(r -> Estimating.estimate(r.takeOff(), BOOK).feasible())
                        .toList();
        double[][] costs = new double[possible.size()][upTo + 1];
        for (int i = 0; i < costs.length; i++) {
            IntToDoubleFunction cost = costing.apply(possible.get(i));
            for (int q = 1; q <= upTo; q++) {
                costs[i][q] = cost.applyAsDouble(q);
            }
        }
        List<String> expected = new ArrayList<>();
        for (int q = 2; q <= upTo; q++) {
            for (int a = 0; a < costs.length; a++) {
                for (int b = 0; b < costs.length; b++) {
                    if (costs[a][q] < costs[b][q] && costs[a][q - 1] > costs[b][q - 1]) {
                        expected.add(
                                q
                                        + " "
                                        + possible.get(a).name()
                                        + " under "
                                        + possible.get(b).name());
                    }
                }
            }
        }
        assertThat(compared.breakEvens())
                .extracting(b -> b.quantity() + " " + b.cheaper() + " under " + b.dearer())
                .containsExactlyInAnyOrderElementsOf(expected);
        for (int q = 1; q <= upTo && !possible.isEmpty(); q++) {
            int quantity = q;
            double least = Arrays.stream(costs).mapToDouble(c -> c[quantity]).min().getAsDouble();
            String cheapest =
                    compared.cheapest().stream()
                            .filter(c -> c.fromQuantity() <= quantity && quantity <= c.toQuantity())
                            .map(Cheapest::route)
                            .findFirst()
                            .orElseThrow();
            int index = possible.stream().map(Route::name).toList().indexOf(cheapest);
            assertThat(costs[index][quantity]).isEqualTo(least);
        }
    }

    @Test
    void theSeededCasesOvertakeEachOtherOften() {
        long overtakes =
                seeds().mapToObj(RoutesTest::seeded)
                        .mapToLong(
                                r -> Routes.compare(r, 60, BOOK).comparison().breakEvens().size())
                        .sum();
        assertThat(overtakes).isGreaterThan(40);
    }

    /** Before it is rounded, and reckoned for this quantity alone. */
    private static double cost(Route route, int quantity) {
        return reckonedOnce(route).applyAsDouble(quantity);
    }

    /** Before it is rounded, for one quantity after the other. */
    private static IntToDoubleFunction reckonedOnce(Route route) {
        Reckoning reckoning = Estimating.reckon(route.takeOff(), BOOK);
        return quantity -> cost(reckoning.forQuantity(quantity));
    }

    private static double cost(Estimate.ForQuantity reckoned) {
        return reckoned.why().stream()
                .filter(w -> w.figure().equals("cost.total"))
                .findFirst()
                .orElseThrow()
                .value();
    }

    /** The same item with more or less practice, a tool once or anew, and some of it bought. */
    private static List<Route> seeded(int seed) {
        SplittableRandom random = new SplittableRandom(seed);
        TakeOff base = RandomTakeOffs.withFolds(seed).next();
        List<Route> routes = new ArrayList<>();
        int count = random.nextInt(2, 5);
        for (int i = 0; i < count; i++) {
            TakeOff practised = WorkedShop.withQuantities(base, List.of(1), random.nextInt(0, 60));
            double gain =
                    cost(new Route("", base), 30) / 30 - cost(new Route("", practised), 30) / 30;
            double tool = random.nextDouble(10, 900);
            List<Extra> extras = new ArrayList<>(base.extras());
            extras.add(
                    extra(
                            "Tool",
                            Per.ORDER,
                            cents(tool),
                            random.nextBoolean() ? null : random.nextInt(5, 30)));
            extras.add(
                    extra(
                            "Each",
                            Per.PIECE,
                            cents(gain + 60 - tool / 15 + random.nextDouble()),
                            null));
            routes.add(new Route("Route " + i, with(practised, extras)));
        }
        return routes;
    }

    private static BigDecimal cents(double amount) {
        return BigDecimal.valueOf(Math.max(0, Math.round(amount * 100)), 2);
    }

    @Test
    void routesThatCannotBeMadeAreShownButNeverCheapest() {
        TakeOff tooThick =
                WorkedShop.of(WorkedShop.curve(Sense.SHRINK, 1885, 300, 40, "soft"), "304", 20);
        RouteComparison compared =
                Routes.compare(
                                List.of(
                                        new Route("Too thick", tooThick),
                                        new Route("A", linear("900000", "0", null))),
                                20,
                                BOOK)
                        .comparison();
        assertThat(compared.routes().get(0).feasible()).isFalse();
        assertThat(compared.routes().get(0).findings()).isNotEmpty();
        assertThat(compared.routes().get(0).quantities()).isNotEmpty();
        assertThat(compared.breakEvens()).isEmpty();
        assertThat(compared.cheapest()).containsExactly(new Cheapest(1, 20, "A"));
    }

    @Test
    void figuresAreThoseOfTheEstimateAndStandAtItsQuantities() {
        TakeOff takeOff =
                WorkedShop.withQuantities(
                        WorkedShop.of(WorkedShop.curve(Sense.SHRINK, 1885, 300, 40, null), "al", 2),
                        List.of(3, 7, 400),
                        0);
        Estimate estimate = Estimating.estimate(takeOff, BOOK);
        RouteComparison compared =
                Routes.compare(
                                List.of(
                                        new Route("A", takeOff),
                                        new Route("B", linear("9", "9", null))),
                                100,
                                BOOK)
                        .comparison();
        for (Estimate.ForQuantity q : estimate.quantities()) {
            assertThat(compared.routes().get(0).quantities())
                    .filteredOn(at -> at.quantity() == q.quantity())
                    .singleElement()
                    .satisfies(
                            at -> {
                                assertThat(at.cost()).isEqualTo(q.cost().total());
                                assertThat(at.hours()).isEqualTo(q.hours().plan());
                                assertThat(at.priceEach()).isEqualTo(q.priceEach());
                            });
        }
    }

    @Test
    void leadTimeIsTheLongestOfTheExtras() {
        TakeOff takeOff =
                with(
                        linear("1", "1", null),
                        List.of(
                                new Extra("Coat", Per.ORDER, null, euro("1"), null, 5, null),
                                new Extra("Tool", Per.ORDER, null, euro("1"), 10, 35, null),
                                new Extra("Box", Per.ORDER, null, euro("1"), null, null, null)));
        RouteComparison compared = compare(5, takeOff, linear("1", "1", null));
        assertThat(compared.routes()).extracting("leadTimeDays").containsExactly(35, null);
    }

    @Test
    void everyFaultOfEveryRouteIsToldAtOnce() {
        TakeOff none =
                new TakeOff(
                        null, null, null, null, null, List.of(), null, null, null, List.of(),
                        List.of(), null);
        assertThatThrownBy(
                        () ->
                                Routes.compare(
                                        List.of(
                                                new Route("A", linear("1", "1", null)),
                                                new Route("A", none),
                                                new Route(" ", null)),
                                        10_001,
                                        BOOK))
                .isInstanceOfSatisfying(
                        InvalidInput.class,
                        e ->
                                assertThat(e.faults())
                                        .extracting(Fault::pointer)
                                        .containsExactlyInAnyOrder(
                                                "/routes/1/name",
                                                "/routes/1/takeOff/parts",
                                                "/routes/2/name",
                                                "/routes/2/takeOff",
                                                "/upToQuantity"));
    }

    @ParameterizedTest(name = "{0} routes")
    @CsvSource({"1", "7"})
    void takesTwoToSixRoutes(int count) {
        List<Route> routes = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            routes.add(new Route("Route " + i, linear("1", "1", null)));
        }
        assertThatThrownBy(() -> Routes.compare(routes, null, BOOK))
                .isInstanceOfSatisfying(
                        InvalidInput.class,
                        e ->
                                assertThat(e.faults())
                                        .extracting(Fault::pointer)
                                        .containsExactly("/routes"));
    }

    // Situations -----------------------------------------------------------------------------

    private static RouteComparison compare(int upTo, TakeOff a, TakeOff b) {
        return Routes.compare(List.of(new Route("A", a), new Route("B", b)), upTo, BOOK)
                .comparison();
    }

    /** Costs of its own alone: the same work in each, so that it falls out of the difference. */
    private static TakeOff linear(String once, String each, Integer life) {
        TakeOff base =
                new TakeOff(
                        "Straight",
                        null,
                        null,
                        null,
                        null,
                        List.of(),
                        List.of(new Operation.Standard("Template", 1.0)),
                        null,
                        null,
                        List.of(),
                        List.of(),
                        null);
        return with(
                base,
                List.of(
                        extra("Once", Per.ORDER, new BigDecimal(once), life),
                        extra("Each", Per.PIECE, new BigDecimal(each), null)));
    }

    private static TakeOff with(TakeOff takeOff, List<Extra> extras) {
        return new TakeOff(
                takeOff.title(),
                takeOff.information(),
                takeOff.quantities(),
                takeOff.mainQuantity(),
                takeOff.alreadyMade(),
                takeOff.parts(),
                takeOff.assembly(),
                extras,
                takeOff.proveFirst(),
                List.of(),
                List.of(),
                null);
    }

    private static Extra extra(String name, Per per, BigDecimal cost, Integer life) {
        return new Extra(
                name, per, ExtraKind.TOOLING, new Money(cost, WorkedShop.EUR), life, null, null);
    }

    private static Money euro(String amount) {
        return Money.of(amount, "EUR");
    }
}
