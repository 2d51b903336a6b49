package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.entry;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.Proposal.Amount;
import strokewright.estimate.Proposal.Place;
import strokewright.estimate.Proposal.When;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Part;
import strokewright.quantity.Fault;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Severity;

/** Rules that propose lines: when, how much, where, and what keeps them away. */
class ProposingTest {

    private static final Blank STRIP = new Blank(1950.0, 120.0);

    // What has to be there --------------------------------------------------------------------

    @Test
    void aBlankIsProposedItsCuts() {
        assertThat(amounts(rule(When.BLANK, Amount.CUTS), part(STRIP)))
                .containsExactly(entry("rule", 4.0));
        assertThat(amounts(rule(When.BLANK, Amount.CUTS), withMass(5))).isEmpty();
    }

    @Test
    void aCustomersPanelWithDentsWasCutBySomebodyElse() {
        Operation dents = new Operation.TakeOutDents(3, null, 1, null, null, null);
        EditedTakeOff item = EditedTakeOff.of(item(part(STRIP, dents)));

        assertThat(amounts(rule(When.BLANK, Amount.CUTS), item.takeOff())).hasSize(1);
        assertThat(
                        amounts(
                                rule(When.BLANK, Amount.CUTS),
                                item.with("/parts/0/supply", "customer").takeOff()))
                .isEmpty();
        assertThat(
                        amounts(
                                rule(When.BLANK, Amount.CUTS),
                                EditedTakeOff.of(item(part(STRIP, arc(600, 500))))
                                        .with("/parts/0/supply", "customer")
                                        .takeOff()))
                .hasSize(1);
    }

    @Test
    void aDishIsProposedTheCutAroundItsDiscAndTheTrimOfItsRim() {
        Part bowl = part(new Blank(420.0, 420.0), dish(400, 60));
        double blank = Math.sqrt(400 * 400 + 4 * 60 * 60); // equal area, worked by hand

        assertThat(only(rule(When.DISH, Amount.CIRCUMFERENCE), bowl))
                .isCloseTo(Math.PI * blank / 1000, within(1e-9));
        assertThat(only(rule(When.DISH, Amount.EDGE_LENGTH), bowl))
                .isCloseTo(Math.PI * 0.4, within(1e-12));
        assertThat(amounts(rule(When.DISH, Amount.ONE), part(STRIP, arc(600, 500)))).isEmpty();
    }

    @Test
    void aCurvedEdgeIsProposedTheEndsOfItsStrip() {
        assertThat(only(rule(When.CURVED_EDGE, Amount.ENDS), part(STRIP, arc(600, 500))))
                .isEqualTo(2);
        assertThat(
                        only(
                                rule(When.CURVED_EDGE, Amount.ENDS),
                                part(STRIP, edge(Sense.SHRINK, 600, 500, 25, 2))))
                .as("two flanges of one strip")
                .isEqualTo(2);
        assertThat(amounts(rule(When.CURVED_EDGE, Amount.ENDS), part(STRIP, ring(300)))).isEmpty();
        assertThat(amounts(rule(When.CURVED_EDGE, Amount.ENDS), part(STRIP, flange(90)))).isEmpty();
        assertThat(amounts(rule(When.CURVED_EDGE, Amount.ONE), part(STRIP, flange(90)))).hasSize(1);
        assertThat(amounts(rule(When.CURVED_EDGE, Amount.ONE), part(STRIP, dish(400, 60))))
                .isEmpty();
    }

    @ParameterizedTest(name = "{0} mm high: {1} m to dress")
    @CsvSource({"40, 0", "41, 0", "42, 0.6", "60, 0.6"}) // ln(1 + h / 500) is 0.08 at 41.64 mm
    void anEdgeIsDressedFirstFromAStretchOnThatTheRuleStates(double height, double metres) {
        Proposal rule = rule("rule", When.STRETCH, 0.08, "Work 1", Amount.EDGE_LENGTH, 1, null);
        Part part = part(STRIP, edge(Sense.STRETCH, 600, 500, height, 1), arc(700, 500));

        assertThat(amounts(rule, part).getOrDefault("rule", 0.0)).isEqualTo(metres);
    }

    @Test
    void whatShrinksIsNoStretch() {
        assertThat(
                        amounts(
                                rule(When.STRETCH, Amount.EDGE_LENGTH),
                                part(STRIP, edge(Sense.SHRINK, 600, 500, 60, 1))))
                .isEmpty();
    }

    @ParameterizedTest(name = "{0} degrees: {1} joints")
    @CsvSource({"359, 0", "359.4, 0", "359.6, 1", "360, 1", "365, 1"})
    void aRingHasAJointAsLongAsItsStripIsWide(double degrees, int joints) {
        Part part = part(STRIP, arc(Math.toRadians(degrees) * 300, 300));

        assertThat(amounts(rule(When.CLOSED, Amount.JOINTS), part).getOrDefault("rule", 0.0))
                .isEqualTo(joints);
        assertThat(amounts(rule(When.CLOSED, Amount.WELD_LENGTH), part).getOrDefault("rule", 0.0))
                .isCloseTo(joints * 0.12, within(1e-12));
    }

    @Test
    void aClosedOutlineHasAJointAndAnOpenOneTwoEnds() {
        String round = "M200 0A200 200 0 0 1 -200 0A200 200 0 0 1 200 0Z";
        String half = "M200 0A200 200 0 0 1 -200 0";
        Part closed = part(new Blank(1300.0, 40.0), outline(round, 25));
        Part open = part(new Blank(700.0, 40.0), outline(half, 25));
        Part onPanel = part(new Blank(500.0, 500.0), outline(round, 25));

        assertThat(only(rule(When.CLOSED, Amount.JOINTS), closed)).isEqualTo(1);
        assertThat(only(rule(When.CLOSED, Amount.WELD_LENGTH), closed)).isEqualTo(0.04);
        assertThat(only(rule(When.CLOSED, Amount.WELD_LENGTH), onPanel))
                .as("shorter than the outline: no strip")
                .isEqualTo(0.025);
        assertThat(amounts(rule(When.CURVED_EDGE, Amount.ENDS), closed)).isEmpty();
        assertThat(amounts(rule(When.CLOSED, Amount.JOINTS), open)).isEmpty();
        assertThat(only(rule(When.CURVED_EDGE, Amount.ENDS), open)).isEqualTo(2);
    }

    @Test
    void aFlangeTurnedAllRoundADiscHasNoJoint() {
        assertThat(
                        amounts(
                                rule(When.CLOSED, Amount.JOINTS),
                                part(new Blank(450.0, 450.0), flange(360))))
                .isEmpty();
    }

    @Test
    void aVisibleSurfaceIsProposedItsArea() {
        EditedTakeOff item = EditedTakeOff.of(item(part(STRIP)));
        Proposal rule = rule("rule", When.VISIBLE, null, "Work 1", Amount.AREA, 2, null);

        assertThat(amounts(rule, item.takeOff())).isEmpty();
        assertThat(amounts(rule, item.with("/parts/0/surface", "visible").takeOff()))
                .containsExactly(entry("rule", 2 * 19.5 * 1.2));
    }

    @Test
    void everyDistinctRadiusIsProposedOneTemplate() {
        Proposal rule = rule(When.RADIUS, Amount.TEMPLATES);
        List<Part> parts =
                List.of(
                        part("A", 3, STRIP, arc(600, 500), arc(300, 500.03), arc(400, 620)),
                        part("B", 1, STRIP, edge(Sense.STRETCH, 600, 620, 20, 4)),
                        part("C", 1, new Blank(420.0, 420.0), dish(400, 100)));
        // (200² + 100²) / 200 = 250 is the sphere's

        assertThat(amounts(rule, item(parts))).containsExactly(entry("rule", 3.0));
        assertThat(amounts(rule, held(parts, 620.0))).containsExactly(entry("rule", 2.0));
        assertThat(amounts(rule, held(parts, 620.04, 250.0))).containsExactly(entry("rule", 1.0));
        assertThat(amounts(rule, held(parts, 620.0, 250.0, 500.0))).isEmpty();
        assertThat(amounts(rule, held(parts, 620.1, 250.0, 500.0)))
                .containsExactly(entry("rule", 1.0));
    }

    @Test
    void anOldPartIsMeasured() {
        EditedTakeOff item = EditedTakeOff.of(item(part(STRIP)));
        Proposal rule = rule(When.OLD_PART, Amount.ONE);

        assertThat(amounts(rule, item.takeOff())).isEmpty();
        assertThat(amounts(rule, item.with("/information", "old-part").takeOff())).hasSize(1);
    }

    @Test
    void severalPartsMeetInOnePlaceFewerThanPieces() {
        Proposal rule = rule(When.SEVERAL_PARTS, Amount.MEETINGS);

        assertThat(amounts(rule, item(part(STRIP)))).isEmpty();
        assertThat(amounts(rule, item(List.of(part("A", 2, STRIP))))).containsValue(1.0);
        assertThat(amounts(rule, item(List.of(part("A", 2, STRIP), part("B", 3, STRIP)))))
                .containsValue(4.0);
    }

    @Test
    void whatTypedJointsOfTheShopBookHoldTogetherDoesNotMeetAnew() {
        Proposal rule = rule(When.SEVERAL_PARTS, Amount.MEETINGS);
        ShopBook book =
                EditedBook.of(book(rule))
                        .with("/standards/9/unit", "joint")
                        .with("/routes/jointStandards", List.of("Work 9"))
                        .book();
        TakeOff item =
                EditedTakeOff.of(item(List.of(part("A", 4, STRIP), part("B", 3, STRIP))))
                        .with("/assembly/-", new Operation.Standard("Work 9", 4.0))
                        .takeOff();

        assertThat(amounts(Estimating.estimate(item, book))).containsExactly(entry("rule", 2.0));
    }

    @Test
    void aFoldIsProposedItsBends() {
        TakeOff item =
                EditedTakeOff.of(item(part(STRIP)))
                        .with(
                                "/parts/0/fold",
                                Map.of(
                                        "lengthMm",
                                        1950,
                                        "legsMm",
                                        List.of(40, 40, 43),
                                        "bends",
                                        List.of(Map.of("radiusMm", 2), Map.of("radiusMm", 2))))
                        .takeOff();

        assertThat(amounts(rule(When.BENDS, Amount.BENDS), item)).containsValue(2.0);
        assertThat(amounts(rule(When.BLANK, Amount.DIMENSIONS), item))
                .as("a length, three legs, two angles")
                .containsValue(6.0);
        assertThat(amounts(rule(When.BENDS, Amount.BENDS), part(STRIP))).isEmpty();
    }

    @Test
    void anItemIsAlwaysPrepared() {
        assertThat(amounts(rule(When.ALWAYS, Amount.ONE), item(part(STRIP)))).hasSize(1);
    }

    // Amounts ---------------------------------------------------------------------------------

    @Test
    void aSquareThatBecomesADiscHasTheDiscsEdgeAndArea() {
        Part bowl = part(new Blank(418.0, 418.0), dish(400, 60));
        Part disc = part(new Blank(450.0, 450.0), flange(360));
        Part square = part(new Blank(450.0, 450.0), flange(90));

        assertThat(only(rule(When.BLANK, Amount.PERIMETER), bowl))
                .isCloseTo(Math.PI * 0.418, within(1e-12));
        assertThat(only(rule(When.BLANK, Amount.AREA), disc))
                .isCloseTo(Math.PI * 2.25 * 2.25, within(1e-12));
        assertThat(only(rule(When.BLANK, Amount.PERIMETER), square)).isEqualTo(1.8);
    }

    @Test
    void areaWithoutABlankIsToldByTheMass() {
        double dm2 = 5 / (2710 * 0.002) * 100; // the density of the shop's "al"

        assertThat(amounts(rule(When.ALWAYS, Amount.AREA), item(withMass(5))).get("rule"))
                .isCloseTo(dm2, within(1e-9));
        assertThat(amounts(rule(When.ALWAYS, Amount.MASS), item(withMass(5)))).containsValue(5.0);
    }

    @Test
    void stationsOfTheFinalCheckAreThoseAtTheMachine() {
        // 601 mm at one for every 300 mm; a bowl by its area: π (200² + 60²) at 150 mm square
        assertThat(
                        only(
                                rule(When.CURVED_EDGE, Amount.CONTOUR_STATIONS),
                                part(STRIP, arc(601, 500))))
                .isEqualTo(3);
        assertThat(
                        only(
                                rule(When.DISH, Amount.CONTOUR_STATIONS),
                                part(new Blank(418.0, 418.0), dish(400, 60))))
                .isEqualTo(Math.ceil(Math.PI * 43_600 / 22_500));
    }

    @Test
    void rulesForTheItemAddUpItsPieces() {
        TakeOff item = item(List.of(part("A", 3, STRIP), part("B", 1, new Blank(500.0, 200.0))));

        assertThat(amounts(rule(When.ALWAYS, Amount.CUTS), item)).containsValue(16.0);
        assertThat(amounts(rule(When.ALWAYS, Amount.AREA), item).get("rule"))
                .isCloseTo(3 * 23.4 + 10, within(1e-12));
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void amountsOfTheBlankEqualAWalkAroundIt(long seed) {
        RandomTakeOffs random = new RandomTakeOffs(seed);
        ShopBook book =
                book(
                        rule("around", When.BLANK, null, "Work 1", Amount.PERIMETER, 1, null),
                        rule("area", When.BLANK, null, "Work 2", Amount.AREA, 1, null));
        for (int n = 0; n < 40; n++) {
            TakeOff takeOff = random.next();
            Estimate estimate = Estimating.estimate(takeOff, book);
            for (Part part : takeOff.parts()) {
                if (part.supply() == TakeOff.Supply.CUSTOMER) {
                    continue;
                }
                double[] xs = {0, part.blank().lengthMm(), part.blank().lengthMm(), 0};
                double[] ys = {0, 0, part.blank().widthMm(), part.blank().widthMm()};
                double around = 0;
                double twice = 0;
                for (int i = 0; i < 4; i++) {
                    int j = (i + 1) % 4;
                    around += Math.hypot(xs[j] - xs[i], ys[j] - ys[i]);
                    twice += xs[i] * ys[j] - xs[j] * ys[i]; // shoelace
                }
                assertThat(line(estimate, part.name(), "around").amount() * 1000)
                        .isCloseTo(around, within(1e-6));
                assertThat(line(estimate, part.name(), "area").amount() * 10_000)
                        .isCloseTo(twice / 2, within(1e-6 * twice));
            }
        }
    }

    // What keeps them away --------------------------------------------------------------------

    @Test
    void aTypedLineByTheSameStandardInThePartKeepsItAway() {
        Proposal rule = rule(When.BLANK, Amount.CUTS);
        Operation typed = new Operation.Standard("Work 1", 7.0);
        Part with = part("A", 1, STRIP, typed);
        Part without = part("B", 1, STRIP);

        Estimate estimate = Estimating.estimate(item(List.of(with, without)), book(rule));

        assertThat(estimate.operations())
                .extracting(Estimate.Line::part, Estimate.Line::proposal)
                .containsExactly(tuple("A", null), tuple("B", "rule"));
    }

    @Test
    void aTypedLineOfTheAssemblySpeaksForTheOnlyPart() {
        Proposal rule = rule(When.BLANK, Amount.CUTS);
        Operation typed = new Operation.Standard("Work 1", 7.0);
        TakeOff one = EditedTakeOff.of(item(part(STRIP))).with("/assembly/-", typed).takeOff();
        TakeOff two =
                EditedTakeOff.of(item(List.of(part("A", 1, STRIP), part("B", 1, STRIP))))
                        .with("/assembly/-", typed)
                        .takeOff();

        assertThat(amounts(rule, one)).isEmpty();
        assertThat(amounts(Estimating.estimate(two, book(rule)))).hasSize(1);
    }

    @Test
    void aTypedLineAnywhereKeepsARuleForTheItemAway() {
        Operation typed = new Operation.Standard("Work 1", 7.0);

        assertThat(
                        amounts(
                                rule(When.ALWAYS, Amount.ONE),
                                item(List.of(part("A", 1, STRIP), part("B", 1, STRIP, typed)))))
                .isEmpty();
    }

    @Test
    void whatFormingTakesByItselfIsNotProposedBesides() {
        ShopBook book =
                EditedBook.of(book(rule(When.BLANK, Amount.AREA)))
                        .with("/times/dressMarksStandard", "Work 1")
                        .with("/standards/1/unit", "dm²")
                        .book();

        assertThat(amounts(Estimating.estimate(item(part(STRIP, arc(600, 500))), book))).isEmpty();
        assertThat(amounts(Estimating.estimate(item(part(STRIP)), book))).hasSize(1);
    }

    @Test
    void aLineThatWasTakenOutIsToldWithItsAmountAndMinutes() {
        Proposal rule = rule(When.BLANK, Amount.CUTS);
        TakeOff item =
                EditedTakeOff.of(item(List.of(part("A", 1, STRIP), part("B", 1, STRIP))))
                        .with("/parts/1/leftOut", List.of("rule"))
                        .takeOff();

        Estimate estimate = Estimating.estimate(item, book(rule));

        assertThat(estimate.operations()).extracting(Estimate.Line::part).containsExactly("A");
        Finding told = estimate.findings().get(0);
        assertThat(told.code()).isEqualTo("line-left-out");
        assertThat(told.severity()).isEqualTo(Severity.NOTE);
        assertThat(told.pointer()).isEqualTo("/parts/1/leftOut/0");
        assertThat(told.values())
                .containsEntry("code", "rule")
                .containsEntry("standard", "Work 1")
                .containsEntry("amount", 4.0)
                .containsEntry("minutesEach", 4.0 * 3)
                .containsEntry("setupMinutes", 2.0);
    }

    @Test
    void aCodeOutsideTheRulesIsAFaultThatNamesThem() {
        ShopBook book =
                book(
                        rule("cut", When.BLANK, null, "Work 1", Amount.CUTS, 1, null),
                        rule("pack", When.ALWAYS, null, "Work 2", Amount.ONE, 1, null));
        TakeOff item =
                EditedTakeOff.of(item(part(STRIP)))
                        .with("/parts/0/leftOut", List.of("cut", "pack"))
                        .with("/leftOut", List.of("cuts"))
                        .takeOff();

        assertThat(TakeOffCheck.faults(item, book))
                .extracting(Fault::pointer, Fault::message)
                .containsExactlyInAnyOrder(
                        tuple(
                                "/parts/0/leftOut/1",
                                "names no rule for a part of the shop book; there are: cut"),
                        tuple(
                                "/leftOut/0",
                                "names no rule for the item of the shop book; there are: pack"));
        assertThatThrownBy(() -> Estimating.estimate(item, book)).isInstanceOf(InvalidInput.class);
        assertThat(TakeOffCheck.faults(item, WorkedShop.book()))
                .as("a book that has no rules yet")
                .isEmpty();
    }

    // As lines of the estimate ----------------------------------------------------------------

    @Test
    void linesStandBeforeAndAfterTheTypedOnesWhichKeepTheirPositions() {
        ShopBook book =
                book(
                        rule("after", When.BLANK, null, "Work 1", Amount.ONE, 1, Place.AFTER),
                        rule("before", When.BLANK, null, "Work 2", Amount.ONE, 1, Place.BEFORE),
                        rule("prepare", When.ALWAYS, null, "Work 3", Amount.ONE, 1, Place.BEFORE),
                        rule("pack", When.ALWAYS, null, "Work 4", Amount.ONE, 1, Place.AFTER));
        Part part = part(STRIP, new Operation.Standard("Cut", 4.0), arc(600, 500));
        TakeOff item =
                EditedTakeOff.of(item(part))
                        .with("/assembly/-", new Operation.Standard("Weld", 1.0))
                        .takeOff();

        assertThat(Estimating.estimate(item, book).operations())
                .extracting(
                        l ->
                                "%s %d %s"
                                        .formatted(
                                                l.part(),
                                                l.position(),
                                                l.proposal() == null ? "typed" : l.proposal()))
                .containsExactly(
                        "null 2 prepare",
                        "P 4 before",
                        "P 1 typed",
                        "P 2 typed",
                        "P 3 after",
                        "null 1 typed",
                        "null 3 pack");
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {11, 12, 13})
    void aProposedLineCostsWhatTheSameLineTypedCosts(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        RandomTakeOffs takeOffs = new RandomTakeOffs(seed);
        for (int n = 0; n < 30; n++) {
            TakeOff takeOff = takeOffs.next();
            Amount amount = pick(random, Amount.CUTS, Amount.AREA, Amount.MASS, Amount.EDGE_LENGTH);
            Proposal rule =
                    rule(
                            "rule",
                            When.BLANK,
                            null,
                            "Work " + random.nextInt(1, 10),
                            amount,
                            random.nextDouble(0.2, 3),
                            null);
            ShopBook book = book(rule);
            Estimate proposed = Estimating.estimate(takeOff, book);
            EditedTakeOff typed = EditedTakeOff.of(takeOff);
            for (Estimate.Line line : proposed.operations()) {
                if (line.proposal() != null) {
                    int index =
                            takeOff.parts().stream().map(Part::name).toList().indexOf(line.part());
                    typed.with(
                            "/parts/" + index + "/operations/-",
                            new Operation.Standard(line.standard(), line.amount()));
                }
            }
            Estimate same = Estimating.estimate(typed.takeOff(), book);

            assertThat(same.operations()).allMatch(l -> l.proposal() == null);
            assertThat(costs(proposed)).isEqualTo(costs(same));
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {21, 22, 23})
    void aLineTakenOutTakesAwayExactlyItsMinutesAndMoney(long seed) {
        RandomTakeOffs takeOffs = new RandomTakeOffs(seed);
        Proposal rule = rule("rule", When.BLANK, null, "Work 3", Amount.PERIMETER, 1, null);
        for (int n = 0; n < 30; n++) {
            TakeOff takeOff = takeOffs.next();
            EditedTakeOff edited = EditedTakeOff.of(takeOff);
            for (int i = 0; i < takeOff.parts().size(); i++) {
                edited.with("/parts/" + i + "/leftOut", List.of("rule"));
            }
            Estimate with = Estimating.estimate(takeOff, book(rule));
            Estimate without = Estimating.estimate(edited.takeOff(), book(rule));
            Estimate bare = Estimating.estimate(takeOff, book());

            assertThat(costs(without)).isEqualTo(costs(bare));
            assertThat(without.findings().stream().filter(f -> f.code().equals("line-left-out")))
                    .hasSize(
                            (int)
                                    with.operations().stream()
                                            .filter(l -> l.proposal() != null)
                                            .count());
            for (int q = 0; q < with.quantities().size(); q++) {
                double minutes = 0;
                int quantity = with.quantities().get(q).quantity();
                for (Estimate.Line line : with.operations()) {
                    if (line.proposal() != null) {
                        int per =
                                takeOff.parts().stream()
                                        .filter(p -> p.name().equals(line.part()))
                                        .findFirst()
                                        .orElseThrow()
                                        .perAssembly();
                        minutes += minutesByHand(line, takeOff.alreadyMade(), quantity, per);
                    }
                }
                assertThat(
                                60
                                        * (with.quantities().get(q).hours().plan()
                                                - without.quantities().get(q).hours().plan()))
                        .isCloseTo(minutes, within(1e-6));
                assertThat(
                                with.quantities().get(q).cost().labour().amount().doubleValue()
                                        - without.quantities()
                                                .get(q)
                                                .cost()
                                                .labour()
                                                .amount()
                                                .doubleValue())
                        .isCloseTo(
                                minutes / 60 * 40, within(0.011)); // the bench's rate, to the cent
            }
        }
    }

    /** Set-up and run after allowance and practice, added up piece by piece. */
    private static double minutesByHand(
            Estimate.Line line, int alreadyMade, int quantity, int perAssembly) {
        double run = 0;
        for (int i = 1; i <= quantity * perAssembly; i++) {
            double piece = Math.min(alreadyMade * perAssembly + i, 50);
            run += line.machineMinutes() * Math.pow(piece / 10, Math.log(0.92) / Math.log(2));
        }
        return 1.15 * (line.setupMinutes() + run);
    }

    @ParameterizedTest(name = "{0}")
    @ValueSource(strings = {"order", "job", "template"})
    void whatIsDoneOncePerOrderDoesNotGrowWithTheQuantity(String unit) {
        ShopBook book =
                EditedBook.of(book(rule(When.ALWAYS, Amount.ONE)))
                        .with("/standards/1/unit", unit)
                        .book();
        TakeOff item =
                EditedTakeOff.of(item(part(STRIP)))
                        .with("/quantities", List.of(1, 10, 1000))
                        .takeOff();

        assertThat(Estimating.estimate(item, book).quantities())
                .extracting(q -> q.hours().plan() * 60)
                .allSatisfy(minutes -> assertThat(minutes).isCloseTo(1.15 * 5, within(1e-9)));
    }

    @Test
    void theAmountIsTracedToTheGeometryAndTheRule() {
        Proposal rule = rule("rule", When.BLANK, null, "Work 1", Amount.PERIMETER, 2, null);
        Estimate.Line line = Estimating.estimate(item(part(STRIP)), book(rule)).operations().get(0);

        assertThat(line.why()).extracting(w -> w.figure()).contains("geometry", "amount");
        assertThat(line.why())
                .filteredOn(w -> w.figure().equals("amount"))
                .first()
                .satisfies(w -> assertThat(w.value()).isCloseTo(2 * 4.14, within(1e-12)))
                .satisfies(
                        w ->
                                assertThat(w.inputs().get(1).origin())
                                        .isEqualTo("shop book 7, said by the shop"));
    }

    @Test
    void aRuleByAStandardThatTheBookLacksIsAFaultOfTheBook() {
        ShopBook book = book(rule("rule", When.BLANK, null, "Work 99", Amount.CUTS, 1, null));

        assertThat(ShopBookCheck.faults(book))
                .extracting(Fault::pointer)
                .contains("/proposals/0/standard");
    }

    // Situations ------------------------------------------------------------------------------

    private static Proposal rule(When when, Amount amount) {
        return rule("rule", when, null, "Work 1", amount, 1, null);
    }

    private static Proposal rule(
            String code,
            When when,
            @Nullable Double from,
            String standard,
            Amount amount,
            double factor,
            @Nullable Place place) {
        return new Proposal(code, when, from, standard, amount, factor, place, "said by the shop");
    }

    /** The shop of the worked examples with ten standards that take 3 minutes for one. */
    static ShopBook book(Proposal... rules) {
        EditedBook book = EditedBook.of(WorkedShop.book());
        List<Object> all = new ArrayList<>();
        for (int i = 0; i < 10; i++) {
            all.add(
                    Map.of(
                            "name",
                            "Work " + i,
                            "workCentre",
                            "Bench",
                            "setupMinutes",
                            2,
                            "minutesPerUnit",
                            3,
                            "unit",
                            "piece"));
        }
        all.addAll(WorkedShop.book().standards());
        return book.with("/standards", all).with("/proposals", List.of(rules)).book();
    }

    private static Map<String, Double> amounts(Proposal rule, Part part) {
        return amounts(rule, item(part));
    }

    private static Map<String, Double> amounts(Proposal rule, TakeOff item) {
        return amounts(Estimating.estimate(item, book(rule)));
    }

    private static Map<String, Double> amounts(Estimate estimate) {
        Map<String, Double> amounts = new TreeMap<>();
        for (Estimate.Line line : estimate.operations()) {
            if (line.proposal() != null) {
                amounts.merge(line.proposal(), line.amount(), Double::sum);
            }
        }
        return amounts;
    }

    private static double only(Proposal rule, Part part) {
        Map<String, Double> amounts = amounts(rule, part);
        assertThat(amounts).hasSize(1);
        return amounts.get("rule");
    }

    private static Estimate.Line line(Estimate estimate, String part, String code) {
        return estimate.operations().stream()
                .filter(l -> part.equals(l.part()) && code.equals(l.proposal()))
                .findFirst()
                .orElseThrow();
    }

    private static List<Object> costs(Estimate estimate) {
        List<Object> costs = new ArrayList<>();
        for (Estimate.ForQuantity q : estimate.quantities()) {
            costs.add(q.cost());
            costs.add(q.priceEach());
            costs.add(Math.round(q.hours().plan() * 1e9));
        }
        return costs;
    }

    @SafeVarargs
    private static <T> T pick(SplittableRandom random, T... all) {
        return all[random.nextInt(all.length)];
    }

    static TakeOff item(Part part) {
        return item(List.of(part));
    }

    static TakeOff item(List<Part> parts) {
        return held(parts);
    }

    private static TakeOff held(List<Part> parts, Double... held) {
        return new TakeOff(
                "Item",
                null,
                null,
                null,
                null,
                parts,
                List.of(),
                List.of(),
                null,
                List.of(held),
                List.of(),
                null);
    }

    static Part part(Blank blank, Operation... work) {
        return part("P", 1, blank, work);
    }

    static Part part(String name, int perAssembly, Blank blank, Operation... work) {
        return new Part(
                name,
                perAssembly,
                "al",
                2.0,
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

    private static Part withMass(double kg) {
        return new Part(
                "P", 1, "al", 2.0, kg, null, null, null, null, null, null, null, List.of(), null,
                null, null, List.of(), null);
    }

    private static Operation arc(double lengthMm, double radiusMm) {
        return edge(Sense.SHRINK, lengthMm, radiusMm, 25, 1);
    }

    private static Operation ring(double radiusMm) {
        return arc(2 * Math.PI * radiusMm, radiusMm);
    }

    private static Operation edge(
            Sense sense, double lengthMm, double radiusMm, double heightMm, int count) {
        return new Operation.CurveEdge(
                sense, lengthMm, radiusMm, null, heightMm, count, null, null, null);
    }

    private static Operation flange(double sweepDeg) {
        return new Operation.TurnFlange(
                Sense.SHRINK, 200.0, 20.0, 90.0, sweepDeg, 1, null, null, null);
    }

    private static Operation dish(double diameterMm, double depthMm) {
        return new Operation.Dish(diameterMm, depthMm, null, 0.0, 1, null, null, null, null);
    }

    private static Operation outline(String path, double heightMm) {
        return new Operation.FollowOutline(path, null, heightMm, null, 1, null, null, null, null);
    }
}
