package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.estimate.Estimate.Bent;
import strokewright.estimate.Estimate.Folded;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Fold;
import strokewright.estimate.TakeOff.FoldBend;
import strokewright.estimate.TakeOff.Grain;
import strokewright.estimate.TakeOff.Part;
import strokewright.quantity.Fault;
import strokewright.quantity.Finding;
import strokewright.quantity.Severity;
import strokewright.quantity.Why;

/** Folded parts: how long they are flat, what that costs, and what holds them back. */
class FoldingTest {

    private static final String AT = "/parts/0/fold";

    private static final ShopBook STARTER = starterJson().book();

    // Length ----------------------------------------------------------------------------------

    /** DIN 6935:2011-10 with outside legs; the last two rows from the table of v at 90°. */
    @ParameterizedTest(name = "{0} + {1}, {2}°, r {3}, t {4}: {5}")
    @CsvSource({
        "50, 50, 90, 3, 3, 94.244",
        "50, 40, 90, 3, 2, 85.8717",
        "50, 40, 120, 3, 2, 88.1410",
        "50, 40, 60, 3, 2, 87.8289",
        "50, 40, 170, 3, 2, 90",
        "30, 20, 90, 1, 1, 48.081",
        "80, 60, 90, 10, 1, 134.493",
    })
    void aBendTakesWhatTheStandardSays(
            double a, double b, double beta, double r, double t, double flat) {
        assertThat(folded(part(t, fold(List.of(a, b), bend(beta, r))), starter()).developedMm())
                .isCloseTo(flat, within(6e-4));
    }

    @Test
    void aBendSaysAllThatTheFolderWantsToKnow() {
        Bent bend =
                folded(part(2, fold(List.of(50.0, 40.0), bend(90, 3))), starter()).bends().get(0);

        assertThat(bend.k()).isCloseTo(0.738046, within(5e-7));
        assertThat(bend.kFactor()).isCloseTo(0.369023, within(5e-7));
        assertThat(bend.setbackMm()).isCloseTo(5, within(1e-12));
        assertThat(bend.allowanceMm()).isCloseTo(5.8717, within(5e-5));
        assertThat(bend.compensationMm()).isCloseTo(-4.1283, within(5e-5));
        assertThat(bend.deductionMm()).isEqualTo(-bend.compensationMm());
        assertThat(bend.lineMm()).isCloseTo(50 - 5 + 5.8717 / 2, within(5e-5));
        assertThat(bend.dieOpeningMm()).isEqualTo(16);
        assertThat(bend.forceKn()).isCloseTo(1.3 * 300 * 600 * 4 / 16 / 1000, within(1e-9));
        assertThat(bend.shortestLegMm()).isCloseTo(11.3137, within(5e-5));
        assertThat(bend.minimumRadiusMm()).isEqualTo(1);
        assertThat(bend.bendToRadiusMm()).isCloseTo(2.9869, within(5e-5));
        assertThat(bend.bendToDeg()).isCloseTo(180 - 90 * 4 / 3.9869, within(5e-4));
    }

    /** Of flat, of folded back and of bends sharper than the sheet the formula says nothing. */
    @ParameterizedTest(name = "{0}°, r {1}: {2}")
    @CsvSource({
        "180, 3, false",
        "179, 3, true",
        "1, 3, true",
        "0, 3, false",
        "90, 1.99, false",
        "90, 2, true"
    })
    void whatIsNoBendSpringsNotBack(double beta, double r, boolean told) {
        Bent bend = folded(part(2, fold(List.of(50.0, 40.0), bend(beta, r)))).bends().get(0);

        assertThat(bend.bendToDeg() != null).isEqualTo(told);
        assertThat(bend.bendToRadiusMm() != null).isEqualTo(told);
        assertThat(bend.bendToDeg() == null || bend.bendToDeg() < beta && bend.bendToDeg() >= 0)
                .isTrue();
    }

    @Test
    void aGradeWithoutItsModulusSaysNothingOfSpringback() {
        EditedBook book = starterJson();
        for (int i = 0; i < book.book().grades().size(); i++) {
            book.without("/grades/" + i + "/elasticModulusGpa");
        }
        Folded folded = folded(part(2, fold(List.of(50.0, 40.0), bend(90, 3))), book.book());

        assertThat(folded.bends().get(0).bendToDeg()).isNull();
        assertThat(folded.why()).noneMatch(w -> w.formula().startsWith("springback"));
    }

    /** Walks along the neutral line of the bent piece in steps that are added up. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void aBlankIsAsLongAsTheNeutralLineOfThePiece(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 20; i++) {
            Part part = profile(random, 165);
            assertThat(folded(part, starter()).developedMm())
                    .as(part.toString())
                    .isCloseTo(walked(part), within(1e-5));
        }
    }

    private static double walked(Part part) {
        Fold fold = part.fold();
        double t = part.thicknessMm();
        double x = 0;
        double y = 0;
        double heading = 0;
        double length = 0;
        for (int i = 0; i < fold.legsMm().size(); i++) {
            double flat = fold.legsMm().get(i);
            flat -= i == 0 ? 0 : back(fold.bends().get(i - 1), t);
            flat -= i == fold.bends().size() ? 0 : back(fold.bends().get(i), t);
            x += flat * Math.cos(heading);
            y += flat * Math.sin(heading);
            length += flat;
            if (i < fold.bends().size()) {
                FoldBend bend = fold.bends().get(i);
                double ratio = bend.radiusMm() / t;
                double k = ratio > 5 ? 1 : 0.65 + 0.5 * Math.log10(ratio);
                double radius = bend.radiusMm() + k * t / 2;
                int steps = 4000;
                double turn = Math.toRadians(180 - bend.openingDeg()) / steps;
                for (int s = 0; s < steps; s++) {
                    double chord = 2 * radius * Math.sin(turn / 2);
                    double nextX = x + chord * Math.cos(heading + turn / 2);
                    double nextY = y + chord * Math.sin(heading + turn / 2);
                    length += Math.hypot(nextX - x, nextY - y);
                    x = nextX;
                    y = nextY;
                    heading += turn;
                }
            }
        }
        return length;
    }

    private static double back(FoldBend bend, double t) {
        double outside = bend.radiusMm() + t;
        return bend.openingDeg() < 90
                ? outside
                : outside * Math.tan(Math.toRadians(180 - bend.openingDeg()) / 2);
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {11, 12, 13})
    void turnedRoundItIsAsLongAndItsLinesLieFromTheOtherEdge(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 30; i++) {
            Part part = profile(random, 180);
            List<Double> legs = new ArrayList<>(part.fold().legsMm());
            List<FoldBend> bends = new ArrayList<>(part.fold().bends());
            Collections.reverse(legs);
            Collections.reverse(bends);
            Folded there = folded(part, starter());
            Folded back = folded(part(part.thicknessMm(), new Fold(600.0, legs, bends)), starter());

            assertThat(back.developedMm()).isCloseTo(there.developedMm(), within(1e-9));
            for (int j = 0; j < bends.size(); j++) {
                assertThat(back.bends().get(bends.size() - 1 - j).lineMm())
                        .isCloseTo(
                                there.developedMm() - there.bends().get(j).lineMm(), within(1e-9));
            }
        }
    }

    /** Cut through the middle of a leg, the two pieces are as long as the whole. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {21, 22, 23})
    void twoHalvesOfAProfileAreAsLongAsTheWhole(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 30; i++) {
            Part part = profile(random, 180);
            Fold fold = part.fold();
            if (fold.bends().size() < 2) {
                continue;
            }
            int leg = random.nextInt(1, fold.bends().size());
            double cut = fold.legsMm().get(leg) * random.nextDouble(0.1, 0.9);
            List<Double> first = new ArrayList<>(fold.legsMm().subList(0, leg));
            first.add(cut);
            List<Double> second = new ArrayList<>(fold.legsMm().subList(leg, fold.legsMm().size()));
            second.set(0, fold.legsMm().get(leg) - cut);
            double t = part.thicknessMm();

            assertThat(
                            folded(part(t, new Fold(600.0, first, fold.bends().subList(0, leg))))
                                            .developedMm()
                                    + folded(
                                                    part(
                                                            t,
                                                            new Fold(
                                                                    600.0,
                                                                    second,
                                                                    fold.bends()
                                                                            .subList(
                                                                                    leg,
                                                                                    fold.bends()
                                                                                            .size()))))
                                            .developedMm())
                    .isCloseTo(folded(part).developedMm(), within(1e-9));
        }
    }

    @Test
    void whatStaysFlatTakesNothingAndWhatIsFoldedBackTakesHalfATurn() {
        Bent flat = folded(part(2, fold(List.of(50.0, 40.0), bend(180, 3)))).bends().get(0);
        Folded back = folded(part(2, fold(List.of(50.0, 40.0), bend(0, 0))));

        assertThat(flat.compensationMm()).isZero();
        assertThat(flat.allowanceMm()).isCloseTo(0, within(1e-12));
        // sharp: the neutral line lies at the inside, and only the legs' insides are left
        assertThat(back.developedMm()).isCloseTo(50 + 40 - 2 * 2, within(1e-12));
        assertThat(folded(part(2, fold(List.of(50.0, 40.0), bend(0, 3)))).developedMm())
                .isCloseTo(90 - 10 + Math.PI * (3 + 0.738046), within(1e-5));
    }

    // K-factors -------------------------------------------------------------------------------

    @ParameterizedTest(name = "K {0}, {1}°: {2}")
    @CsvSource({"0.44, 90, 86.0947", "0.369022814763920, 90, 85.8717", "0.5, 170, 90.2087"})
    void theShopsOwnFactorGoesBeforeTheStandard(double k, double beta, double flat) {
        ShopBook book = kFactors(List.of(Map.of("k", k)));
        Folded folded = folded(part(2, fold(List.of(50.0, 40.0), bend(beta, 3))), book);

        // 170°: π/18 · (3 + 0.5 · 2) − 2 · 5 · tan 5°, and no end at 165°
        double expected = beta == 170 ? 90 + Math.PI / 18 * 4 - 10 * Math.tan(Math.PI / 36) : flat;
        assertThat(folded.developedMm()).isCloseTo(expected, within(5e-5));
        assertThat(folded.bends().get(0).kFactor()).isEqualTo(k);
        assertThat(folded.bends().get(0).k()).isEqualTo(2 * k);
    }

    @ParameterizedTest(name = "r {0} mm: K {1}")
    @CsvSource({"2, 0.33", "2.01, 0.4", "6, 0.4", "6.01, 0.5", "0, 0.33"})
    void theFirstLineThatHoldsIsTaken(double radius, double k) {
        ShopBook book =
                kFactors(
                        List.of(
                                Map.of("family", "stainless", "k", 0.45),
                                Map.of("upToRadiusOfThickness", 1, "k", 0.33),
                                Map.of("upToRadiusOfThickness", 3, "k", 0.4),
                                Map.of("k", 0.5)));

        assertThat(
                        folded(part(2, fold(List.of(50.0, 40.0), bend(90, radius))), book)
                                .bends()
                                .get(0)
                                .kFactor())
                .isEqualTo(k);
    }

    /** Half of DIN's k as K-factor develops alike; over 165° the standard leaves the bend out. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {31, 32})
    void halfOfDinsKAsFactorGivesTheSame(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 30; i++) {
            double t = 1 + random.nextInt(20) / 10.0;
            double r = t * (0.4 + random.nextInt(80) / 10.0);
            double k = r / t > 5 ? 1 : 0.65 + 0.5 * Math.log10(r / t);
            Part part = part(t, fold(List.of(90.0, 80.0), bend(random.nextDouble(5, 165), r)));

            assertThat(folded(part, kFactors(List.of(Map.of("k", k / 2)))).developedMm())
                    .isCloseTo(folded(part, starter()).developedMm(), within(1e-9));
        }
    }

    @Test
    void withoutALineForItTheStandardIsTakenAndSaysSo() {
        ShopBook book = kFactors(List.of(Map.of("upToRadiusOfThickness", 1, "k", 0.33)));
        Part part = part(2, fold(List.of(50.0, 40.0), bend(90, 3)));

        assertThat(folded(part, book)).isEqualTo(folded(part, starter()));
        assertThat(only("no-k-factor", part, book).severity()).isEqualTo(Severity.NOTE);
        assertThat(codes(part(2, fold(List.of(50.0, 40.0), bend(90, 2))), book)).isEmpty();
    }

    // Blank -----------------------------------------------------------------------------------

    @Test
    void aFoldWithoutABlankIsBoughtAsItsDevelopedRectangle() {
        Part fold = part(2, fold(List.of(50.0, 40.0), bend(90, 3)));
        Blank flat = new Blank(600.0, folded(fold).developedMm());
        ShopBook book =
                starterJson()
                        .with(
                                "/sheets/-",
                                Map.of(
                                        "grade",
                                        "DC04",
                                        "thicknessMm",
                                        2,
                                        "lengthMm",
                                        2000,
                                        "widthMm",
                                        1000,
                                        "pricePerKg",
                                        Map.of("amount", "1.50", "currency", "EUR"),
                                        "origin",
                                        "invented"))
                        .book();
        Estimate developed = estimate(fold, book);
        Estimate typed = estimate(fold.withBlank(flat), book);

        assertThat(developed.quantities())
                .usingRecursiveComparison()
                .ignoringFields("why")
                .isEqualTo(typed.quantities());
        assertThat(developed.quantities().get(0).metal().get(0).sheets()).isEqualTo(1);
        assertThat(developed.findings()).isEmpty();
        assertThat(typed.findings()).isEmpty();
        assertThat(
                        developed.quantities().get(0).why().stream()
                                .flatMap(w -> w.inputs().stream())
                                .filter(i -> i.name().equals("width"))
                                .map(Why.Input::origin))
                .contains("computed");
        assertThat(Folding.massKg(fold, book))
                .isCloseTo(600 * 85.8717 * 2 * 7850 / 1e9, within(1e-6));
    }

    @ParameterizedTest(name = "{0} × {1}, grain {2}: {3}")
    @CsvSource({
        "600, 85.9, free, ''",
        "600, 85.4, free, ''",
        "600, 85.3, free, DOUBT",
        "600, 86.8, free, ''",
        "600, 87, free, NOTE",
        "85.9, 600, free, ''",
        "85.9, 600, along-length, DOUBT",
        "700, 200, free, NOTE",
        "580, 90, free, DOUBT",
    })
    void theTypedBlankStandsAndWhatItHasOtherwiseIsTold(
            double length, double width, String grain, String severity) {
        Part part =
                with(
                        part(2, fold(List.of(50.0, 40.0), bend(90, 3))),
                        Map.of(
                                "blank",
                                Map.of("lengthMm", length, "widthMm", width),
                                "grain",
                                grain));
        List<Finding> findings = estimate(part, starter()).findings();

        assertThat(findings.stream().map(f -> f.severity().name()).toList())
                .isEqualTo(severity.isEmpty() ? List.of() : List.of(severity));
        assertThat(estimate(part, starter()).quantities().get(0).metal().get(0).kg())
                .isCloseTo(length * width * 2 * 7850 / 1e9, within(1e-9));
    }

    @Test
    void aStatedMassIsThatOfHandlingAndTheMetalIsTheDevelopedBlanks() {
        Part part = with(part(2, fold(List.of(50.0, 40.0), bend(90, 3))), Map.of("massKg", 3));

        assertThat(Folding.massKg(part, starter())).isEqualTo(3);
        assertThat(estimate(part, starter()).quantities().get(0).metal().get(0).kg())
                .isCloseTo(600 * 85.8717 * 2 * 7850 / 1e9, within(1e-6));
    }

    // Faults ----------------------------------------------------------------------------------

    @ParameterizedTest(name = "{0} = {1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "/lengthMm | null | /lengthMm",
                "/lengthMm | 0 | /lengthMm",
                "/legsMm | [50] | /legsMm",
                "/legsMm | [50, 40, 30] | /legsMm",
                "/legsMm/1 | -1 | /legsMm/1",
                "/legsMm/1 | null | /legsMm/1",
                "/bends | [] | /bends",
                "/bends/0 | null | /bends/0",
                "/bends/0/radiusMm | null | /bends/0/radiusMm",
                "/bends/0/radiusMm | -0.1 | /bends/0/radiusMm",
                "/bends/0/openingDeg | 180.1 | /bends/0/openingDeg",
                "/bends/0/openingDeg | -1 | /bends/0/openingDeg",
                "/legsMm | [1, 1] | /legsMm",
                "/legsMm | [60000, 60000] | /legsMm",
            })
    void faultIsNamedWhereItStands(String field, String value, String pointer) {
        TakeOff takeOff =
                EditedTakeOff.of(takeOff(part(2, fold(List.of(50.0, 40.0), bend(90, 3)))))
                        .with(AT + field, EditedBook.JSON.readTree(value))
                        .takeOff();

        assertThat(TakeOffCheck.faults(takeOff, starter()))
                .extracting(Fault::pointer)
                .contains(AT + pointer)
                .allMatch(p -> p.startsWith(AT));
    }

    @ParameterizedTest(name = "{0} = {1}")
    @CsvSource({"/bends/0/openingDeg, 0", "/bends/0/openingDeg, 180", "/bends/0/radiusMm, 0"})
    void theEndsOfEachRangeCanBeWorkedWith(String field, double value) {
        TakeOff takeOff =
                EditedTakeOff.of(takeOff(part(2, fold(List.of(50.0, 40.0), bend(90, 3)))))
                        .with(AT + field, value)
                        .takeOff();

        assertThat(TakeOffCheck.faults(takeOff, starter())).isEmpty();
        assertThat(Estimating.estimate(takeOff, starter()).folds().get(0).developedMm())
                .isPositive();
    }

    // Findings --------------------------------------------------------------------------------

    @ParameterizedTest(name = "{0}, {1} mm: r {2}")
    @CsvSource({
        "DC04, 2, 1",
        "DX51D+Z, 2, 2",
        "X5CRNI18-10, 1.5, 0.75",
        "ALMG3-O, 3, 3",
        "TI2, 1, 2"
    })
    void aTighterRadiusThanTheGradeTakesIsRefused(String grade, double t, double smallest) {
        Fold good = fold(List.of(50.0, 40.0), bend(90, smallest));
        Fold tight = fold(List.of(50.0, 40.0), bend(90, smallest - 0.001));

        assertThat(codes(with(part(t, good), Map.of("grade", grade)), starter())).isEmpty();
        Finding finding =
                only(
                        "bend-radius-too-small",
                        with(part(t, tight), Map.of("grade", grade)),
                        starter());
        assertThat(finding.severity()).isEqualTo(Severity.REFUSAL);
        assertThat(finding.pointer()).isEqualTo(AT + "/bends/0");
        assertThat(finding.change()).containsEntry("radiusMm", smallest);
        assertThat(finding.values()).containsEntry("grain", "free");
    }

    @Test
    void theTightestOfSeveralBendsIsToldWithTheirNumber() {
        Part part =
                with(
                        part(
                                2,
                                fold(
                                        List.of(50.0, 40.0, 40.0, 50.0),
                                        bend(90, 0.8),
                                        bend(90, 0.5),
                                        bend(90, 1))),
                        Map.of("grain", "along-length"));
        Finding finding = only("bend-radius-too-small", part, starter());

        assertThat(finding.pointer()).isEqualTo(AT + "/bends/1");
        assertThat(finding.values()).containsEntry("bends", 2).containsEntry("grain", "along-bend");
    }

    @Test
    void aGradeWithoutASmallestRadiusRefusesNone() {
        EditedBook book = starterJson();
        for (int i = 0; i < book.book().grades().size(); i++) {
            book.without("/grades/" + i + "/minimumBendRadius");
        }
        assertThat(codes(part(2, fold(List.of(50.0, 40.0), bend(90, 0))), book.book())).isEmpty();
    }

    /** 2 mm at 40 %: 2 · (50/40 − 1); what the grade states itself goes before it and refuses. */
    @ParameterizedTest(name = "r {0}: {1}")
    @CsvSource({"0.5, false", "0.499, true"})
    void withoutASmallestRadiusTheReductionOfAreaDoubts(double radius, boolean doubted) {
        EditedBook book = starterJson();
        for (int i = 0; i < book.book().grades().size(); i++) {
            book.without("/grades/" + i + "/minimumBendRadius");
            book.with("/grades/" + i + "/reductionOfAreaPercent", 40);
        }
        Part part = part(2, fold(List.of(50.0, 40.0), bend(90, radius)));

        assertThat(folded(part, book.book()).bends().get(0).minimumRadiusMm())
                .isCloseTo(0.5, within(1e-12));
        assertThat(codes(part, book.book()))
                .isEqualTo(doubted ? List.of("bend-radius-too-small") : List.of());
        if (doubted) {
            Finding finding = only("bend-radius-too-small", part, book.book());
            assertThat(finding.severity()).isEqualTo(Severity.DOUBT);
            assertThat(finding.values()).containsEntry("from", "reduction-of-area");
        }
        book.with("/grades/5/minimumBendRadius", 1);
        assertThat(only("bend-radius-too-small", part, book.book()).severity())
                .isEqualTo(Severity.REFUSAL);
    }

    @ParameterizedTest(name = "press of {0} kN: {1}")
    @CsvSource({"58.5, false", "58.4, true", ", false"})
    void moreForceThanThePressHasIsRefused(@Nullable Double press, boolean refused) {
        ShopBook book = starterJson().with("/bending/pressForceKn", press).book();
        List<Finding> findings =
                estimate(part(2, fold(List.of(50.0, 40.0), bend(90, 3))), book).findings();

        assertThat(findings.stream().anyMatch(f -> f.code().equals("bend-force-over-press")))
                .isEqualTo(refused);
    }

    @ParameterizedTest(name = "leg of {0}: {1}")
    @CsvSource({
        "11.32, ''",
        "11.31, leg-shorter-than-die",
        "5, leg-shorter-than-die",
        "4.99, leg-inside-bend",
    })
    void aLegHasToReachOverTheDieAndPastItsBend(double leg, String code) {
        assertThat(codes(part(2, fold(List.of(leg, 40.0), bend(90, 3))), starter()))
                .isEqualTo(code.isEmpty() ? List.of() : List.of(code));
    }

    @Test
    void aLegBetweenTwoBendsHoldsBothOfThem() {
        Fold fold = fold(List.of(40.0, 13.0, 40.0), bend(90, 5), bend(90, 5));

        assertThat(codes(part(2, fold), starter())).containsExactly("leg-inside-bend");
        assertThat(
                        codes(
                                part(2, fold(List.of(40.0, 14.0, 40.0), bend(90, 5), bend(90, 5))),
                                starter()))
                .isEmpty();
    }

    @ParameterizedTest(name = "folder of {0} mm: {1}")
    @CsvSource({"600, ''", "599, longer-than-folder"})
    void aFoldLongerThanTheFolderIsDoubted(double folder, String code) {
        ShopBook book = starterJson().with("/times/folderLengthMm", folder).book();
        Part part = part(2, fold(List.of(50.0, 40.0), bend(90, 3)));

        assertThat(codes(part, book)).isEqualTo(code.isEmpty() ? List.of() : List.of(code));
    }

    /** A change, applied by itself where its finding points, takes the finding away. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4})
    void whatIsOfferedClearsTheFinding(long seed) {
        Map<String, Integer> tried = new TreeMap<>();
        SplittableRandom random = new SplittableRandom(seed);
        ShopBook book =
                starterJson()
                        .with("/bending/pressForceKn", 60)
                        .with("/times/folderLengthMm", 1500)
                        .book();
        for (int i = 0; i < 150; i++) {
            Part part = rough(random);
            TakeOff takeOff = takeOff(part);
            if (!TakeOffCheck.faults(takeOff, book).isEmpty()) {
                continue;
            }
            for (Finding finding : Estimating.estimate(takeOff, book).findings()) {
                if (finding.change() == null) {
                    continue;
                }
                for (Map.Entry<String, Object> change : changes(finding).entrySet()) {
                    EditedTakeOff edited = EditedTakeOff.of(takeOff);
                    apply(edited, finding, change);
                    assertThat(Estimating.estimate(edited.takeOff(), book).findings())
                            .as("%s by %s in %s", finding, change, takeOff)
                            .noneMatch(
                                    f ->
                                            f.code().equals(finding.code())
                                                    && f.pointer().equals(finding.pointer()));
                    tried.merge(finding.code() + " " + change.getKey(), 1, Integer::sum);
                }
            }
        }
        assertThat(tried.keySet())
                .containsExactlyInAnyOrder(
                        "bend-force-over-press lengthMm",
                        "bend-force-over-press thicknessMm",
                        "bend-radius-too-small radiusMm",
                        "bend-radius-too-small thicknessMm",
                        "blank-not-developed blank",
                        "leg-inside-bend legMm",
                        "leg-shorter-than-die legMm",
                        "longer-than-folder lengthMm");
    }

    /** Both sides of a blank belong together. */
    private static Map<String, Object> changes(Finding finding) {
        return finding.code().equals("blank-not-developed")
                ? Map.of("blank", finding.change())
                : finding.change();
    }

    private static void apply(
            EditedTakeOff takeOff, Finding finding, Map.Entry<String, Object> change) {
        switch (change.getKey()) {
            case "thicknessMm" ->
                    takeOff.with("/parts/0/thicknessMm", (double) change.getValue() * (1 - 1e-9));
            case "blank", "legMm" -> takeOff.with(finding.pointer(), change.getValue());
            case "lengthMm" -> takeOff.with(finding.pointer(), change.getValue());
            default -> takeOff.with(finding.pointer() + "/" + change.getKey(), change.getValue());
        }
    }

    // Reasons ---------------------------------------------------------------------------------

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {41, 42})
    void everyFigureOfABendIsInItsWorkingAndComesOutAgain(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        for (ShopBook book : List.of(starter(), kFactors(List.of(Map.of("k", 0.42))))) {
            for (int i = 0; i < 10; i++) {
                Folded folded = folded(profile(random, 180), book);
                for (Why why : folded.why()) {
                    double[] x = why.inputs().stream().mapToDouble(Why.Input::value).toArray();
                    assertThat(Formulas.named(why.formula()).orElseThrow().apply(x))
                            .as(why.toString())
                            .isEqualTo(why.value());
                }
                assertThat(named(folded, "developedMm")).containsExactly(folded.developedMm());
                for (int b = 0; b < folded.bends().size(); b++) {
                    Bent bent = folded.bends().get(b);
                    String at = "bend " + (b + 1) + ".";
                    assertThat(named(folded, at + "setbackMm")).containsExactly(bent.setbackMm());
                    assertThat(named(folded, at + "allowanceMm"))
                            .containsExactly(bent.allowanceMm());
                    assertThat(named(folded, at + "compensationMm"))
                            .containsExactly(bent.compensationMm());
                    assertThat(named(folded, at + "lineMm")).containsExactly(bent.lineMm());
                    assertThat(named(folded, at + "dieOpeningMm"))
                            .containsExactly(bent.dieOpeningMm());
                    assertThat(named(folded, at + "forceKn")).containsExactly(bent.forceKn());
                    assertThat(named(folded, at + "shortestLegMm"))
                            .containsExactly(bent.shortestLegMm());
                    assertThat(named(folded, at + "minimumRadiusMm"))
                            .containsExactly(bent.minimumRadiusMm());
                    assertThat(named(folded, at + "bendToDeg"))
                            .isEqualTo(Stream.ofNullable(bent.bendToDeg()).toList());
                    assertThat(named(folded, at + "bendToRadiusMm"))
                            .isEqualTo(Stream.ofNullable(bent.bendToRadiusMm()).toList());
                }
            }
        }
    }

    private static List<Double> named(Folded folded, String figure) {
        return folded.why().stream()
                .filter(w -> w.figure().equals(figure))
                .map(Why::value)
                .toList();
    }

    @Test
    void aPartCountsItsBends() {
        assertThat(part(2, fold(List.of(50.0, 40.0, 30.0), bend(90, 3), bend(90, 3))).bendCount())
                .isEqualTo(2);
        assertThat(
                        with(part(2, fold(List.of(50.0, 40.0), bend(90, 3))), Map.of("massKg", 1))
                                .bendCount())
                .isEqualTo(1);
    }

    // Situations ------------------------------------------------------------------------------

    /** Legs long enough for their bends, radii the metal takes. */
    private static Part profile(SplittableRandom random, double widest) {
        int bends = random.nextInt(1, 7);
        double t = random.nextInt(5, 40) / 10.0;
        List<Double> legs = new ArrayList<>();
        List<FoldBend> all = new ArrayList<>();
        for (int i = 0; i <= bends; i++) {
            legs.add(random.nextInt(700, 3000) / 10.0);
            if (i < bends) {
                all.add(bend(random.nextInt((int) widest + 1), t * random.nextInt(1, 80) / 10.0));
            }
        }
        return part(t, new Fold(600.0, legs, all));
    }

    /** As people type it, with all that can be wrong. */
    private static Part rough(SplittableRandom random) {
        int bends = random.nextInt(1, 4);
        double t = random.nextInt(5, 40) / 10.0;
        List<Double> legs = new ArrayList<>();
        List<FoldBend> all = new ArrayList<>();
        for (int i = 0; i <= bends; i++) {
            legs.add(random.nextInt(20, 600) / 10.0);
            if (i < bends) {
                all.add(bend(random.nextInt(181), random.nextInt(0, 60) / 10.0));
            }
        }
        String[] grades = {"DC04", "X5CRNI18-10", "ALMG3-O", "AL99.5-O"};
        Part part =
                with(
                        part(t, new Fold((double) random.nextInt(100, 3000), legs, all)),
                        Map.of("grade", grades[random.nextInt(grades.length)]));
        return random.nextInt(3) > 0
                ? part
                : part.withBlank(
                        new Blank(
                                (double) random.nextInt(100, 3000),
                                (double) random.nextInt(50, 300)));
    }

    private static FoldBend bend(double openingDeg, double radiusMm) {
        return new FoldBend(openingDeg, radiusMm, null);
    }

    private static Fold fold(List<Double> legs, FoldBend... bends) {
        return new Fold(600.0, legs, Arrays.asList(bends));
    }

    private static Part part(double thicknessMm, Fold fold) {
        return new Part(
                "Bracket",
                1,
                "DC04",
                thicknessMm,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                List.of(),
                fold,
                Grain.FREE,
                null,
                List.of(),
                null);
    }

    private static Part with(Part part, Map<String, Object> fields) {
        EditedTakeOff edited = EditedTakeOff.of(takeOff(part));
        fields.forEach((name, value) -> edited.with("/parts/0/" + name, value));
        return edited.takeOff().parts().get(0);
    }

    private static TakeOff takeOff(Part part) {
        return new TakeOff(
                "Item",
                null,
                List.of(1, 7),
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

    private static Estimate estimate(Part part, ShopBook book) {
        return Estimating.estimate(takeOff(part), book);
    }

    private static Folded folded(Part part) {
        return folded(part, starter());
    }

    private static Folded folded(Part part, ShopBook book) {
        return estimate(part, book).folds().get(0);
    }

    private static List<String> codes(Part part, ShopBook book) {
        return estimate(part, book).findings().stream().map(Finding::code).toList();
    }

    private static Finding only(String code, Part part, ShopBook book) {
        List<Finding> found =
                estimate(part, book).findings().stream()
                        .filter(f -> f.code().equals(code))
                        .toList();
        assertThat(found).hasSize(1);
        return found.get(0);
    }

    private static ShopBook starter() {
        return STARTER;
    }

    private static EditedBook starterJson() {
        return EditedBook.read("/shop-book/starter.json");
    }

    private static ShopBook kFactors(List<Map<String, Object>> lines) {
        return starterJson()
                .with("/bending/method", "k-factor")
                .with("/bending/kFactors", lines)
                .book();
    }
}
