package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.TakeOff.Blank;
import strokewright.quantity.Money;

/** Risk reserve, spare blanks and learned factors; percentages common practice, no source. */
class ReserveTest {

    private static final Blank BLANK = new Blank(1950.0, 120.0);

    @ParameterizedTest(name = "{0} items of {1} pieces: {2} %")
    @CsvSource({"1, 1, 7", "1, 2, 3", "2, 1, 3", "500, 4, 3"})
    void isSevenPercentOfOnePieceAndThreeFromTwoOn(int items, int perAssembly, double percent) {
        Estimate.ForQuantity q = of(book(), items, perAssembly, false);

        assertThat(q.reserveMinutes()).isCloseTo(q.runMinutes() * percent / 100, within(1e-9));
        assertThat(q.hours().plan() * 60)
                .isCloseTo(
                        q.setupMinutes() + q.runMinutes() + q.reserveMinutes(),
                        within(1e-9 * q.runMinutes()));
    }

    @Test
    void isPutOnWeldingButNotOnCutting() {
        ShopBook book = EditedBook.of(book()).with("/standards/1/reserve", true).book();
        String welded = book.standards().get(1).name();
        String cut = book.standards().get(0).name();

        assertThat(standard(book, welded).reserveMinutes())
                .isCloseTo(0.07 * standard(book, welded).runMinutes(), within(1e-9))
                .isPositive();
        assertThat(standard(book, cut).reserveMinutes()).isZero();
    }

    @Test
    void isNoneWhereTheShopWantsNone() {
        ShopBook book = EditedBook.of(book()).with("/times/reserveOnePercent", 0).book();

        assertThat(of(book, 1, 1, false).reserveMinutes()).isZero();
        assertThat(of(book, 2, 1, false).reserveMinutes()).isPositive();
    }

    @Test
    void noSpareBlankAtTheLimitsThemselves() {
        // case A: strain 0.143101, 2 mm
        ShopBook atStrain =
                EditedBook.of(book())
                        .with("/times/spareBlankStrain", strain())
                        .with("/times/spareBlankUnderMm", 2.0)
                        .book();
        assertThat(of(atStrain, 1, 1, false).spares()).isEmpty();
        ShopBook under = EditedBook.of(book()).with("/times/spareBlankStrain", 0.1431).book();
        assertThat(of(under, 1, 1, false).spares())
                .containsExactly(new Estimate.Spare("P", 1, "strain"));
        ShopBook thin = EditedBook.of(book()).with("/times/spareBlankUnderMm", 2.001).book();
        assertThat(of(thin, 7, 3, false).spares())
                .containsExactly(new Estimate.Spare("P", 1, "thin"));
    }

    @Test
    void aSpareBlankOfIrreplaceableMetalCostsOneBlankMore() {
        Money without = of(book(), 3, 2, false).cost().material();
        Estimate.ForQuantity q = of(book(), 3, 2, true);

        assertThat(q.spares()).containsExactly(new Estimate.Spare("P", 1, "irreplaceable"));
        assertThat(q.cost().material().amount().multiply(BigDecimal.valueOf(6)))
                .isCloseTo(
                        without.amount().multiply(BigDecimal.valueOf(7)),
                        within(new BigDecimal("0.05")));
        assertThat(q.hours()).isEqualTo(of(book(), 3, 2, false).hours());
    }

    @Test
    void customersMetalTakesASpareBlankThatCostsNothing() {
        TakeOff.Part own = part(1, false);
        TakeOff takeOff =
                EditedTakeOff.of(item(1, own)).with("/parts/0/supply", "customer").takeOff();
        ShopBook thin = EditedBook.of(book()).with("/times/spareBlankUnderMm", 5).book();
        Estimate.ForQuantity q = Estimating.estimate(takeOff, thin).quantities().get(0);

        assertThat(q.spares()).hasSize(1);
        assertThat(q.cost().material().isZero()).isTrue();
    }

    @Test
    void cutSheetWithoutFormingTakesNoSpareBlankForBeingThin() {
        TakeOff flat =
                EditedTakeOff.of(item(1, part(1, false)))
                        .with(
                                "/parts/0/operations",
                                List.of(Map.of("type", "standard", "standard", cut(), "amount", 4)))
                        .takeOff();
        ShopBook thin = EditedBook.of(book()).with("/times/spareBlankUnderMm", 5).book();

        assertThat(Estimating.estimate(flat, thin).quantities().get(0).spares()).isEmpty();
    }

    @Test
    void learnedFactorOfTheFamilyGoesBeforeThatOfTheKind() {
        Learned kind = new Learned("curve-edge", null, 1.3, null, null, 12, "finished jobs");
        Learned family = new Learned("curve-edge", "aluminium", 0.8, null, null, 5, null);
        Learned other = new Learned("dish", "aluminium", 5.0, null, null, 5, null);
        double plain = of(book(), 2, 1, false).runMinutes();

        assertThat(of(learning(kind, other), 2, 1, false).runMinutes())
                .isCloseTo(1.3 * plain, within(1e-9));
        assertThat(of(learning(kind, family), 2, 1, false).runMinutes())
                .isCloseTo(0.8 * plain, within(1e-9));
        assertThat(of(learning(kind), 2, 1, false).setupMinutes())
                .isEqualTo(of(book(), 2, 1, false).setupMinutes());
    }

    @Test
    void setUpHasAFactorOfItsOwnAndStandardsGoByTheirName() {
        Estimate.ForQuantity plain = of(book(), 2, 1, false);
        ShopBook setup = learning(new Learned(Learned.SETUP, null, 1.5, null, null, 9, null));

        assertThat(of(setup, 2, 1, false).setupMinutes())
                .isCloseTo(1.5 * plain.setupMinutes(), within(1e-9));
        assertThat(of(setup, 2, 1, false).runMinutes()).isEqualTo(plain.runMinutes());
        ShopBook named = learning(new Learned(cut(), null, 2.0, null, null, 9, null));
        assertThat(standard(named, cut()).runMinutes())
                .isCloseTo(2 * standard(book(), cut()).runMinutes(), within(1e-9));
    }

    @Test
    void theReserveItselfIsLearnedForOnePieceAndForMore() {
        ShopBook half = learning(new Learned(Learned.RESERVE, null, 0.5, null, null, 9, null));
        ShopBook run = learning(new Learned("curve-edge", null, 2.0, null, null, 9, null));
        ShopBook both =
                learning(
                        new Learned(Learned.RESERVE, null, 0.5, null, null, 9, null),
                        new Learned("curve-edge", null, 2.0, null, null, 9, null));

        for (int items : new int[] {1, 3}) {
            Estimate.ForQuantity plain = of(book(), items, 1, false);
            Estimate.ForQuantity learned = of(half, items, 1, false);
            assertThat(learned.runMinutes()).isEqualTo(plain.runMinutes());
            assertThat(learned.reserveMinutes())
                    .isCloseTo(0.5 * plain.reserveMinutes(), within(1e-9));
            assertThat(of(both, items, 1, false).reserveMinutes())
                    .isCloseTo(0.5 * of(run, items, 1, false).reserveMinutes(), within(1e-9));
            assertThat(learned.hours().p80()).isLessThan(plain.hours().p80());
            assertThat(learned.workCentres().stream().mapToDouble(c -> c.labourHours() * 60).sum())
                    .isCloseTo(learned.hours().plan() * 60, within(1e-6));
        }
    }

    @Test
    void estimatorsOwnMinutesStandWhateverWasLearned() {
        TakeOff own =
                EditedTakeOff.of(item(1, part(1, false)))
                        .with(
                                "/parts/0/operations/0/override",
                                new Operation.Override(50.0, "timed last year"))
                        .takeOff();
        ShopBook book = learning(new Learned("curve-edge", null, 1.3, null, null, 12, null));

        assertThat(Estimating.estimate(own, book).quantities().get(0).runMinutes())
                .isEqualTo(Estimating.estimate(own, book()).quantities().get(0).runMinutes());
    }

    @Test
    void annealsTakeWhatWasLearnedOfTheirStandard() {
        TakeOff annealed =
                WorkedShop.takeOff(
                        WorkedShop.part(
                                "half",
                                2.0,
                                0.9,
                                BLANK,
                                null,
                                WorkedShop.curve(Sense.SHRINK, 700, 120, 45, "soft")));
        String anneal = cut();
        EditedBook plainBook = EditedBook.of(book()).with("/times/annealStandard", anneal);
        double plain = run(annealed, plainBook.book(), anneal);

        assertThat(plain).isPositive();
        assertThat(
                        run(
                                annealed,
                                plainBook
                                        .with(
                                                "/learned",
                                                List.of(
                                                        new Learned(
                                                                anneal, null, 1.5, null, 0.2, 9,
                                                                null)))
                                        .book(),
                                anneal))
                .isCloseTo(1.5 * plain, within(1e-9));
        assertThat(
                        run(
                                annealed,
                                plainBook
                                        .with(
                                                "/learned",
                                                List.of(
                                                        new Learned(
                                                                anneal, null, 1.5, null, null, 9,
                                                                null)))
                                        .book(),
                                anneal))
                .isCloseTo(1.5 * plain, within(1e-9));
    }

    private static double run(TakeOff takeOff, ShopBook book, String kind) {
        return Estimating.reckon(takeOff, book).steps(1).stream()
                .filter(step -> step.kind().equals(kind))
                .mapToDouble(WorkStep::runMinutes)
                .sum();
    }

    @Test
    void theEstimatorsOwnMinutesCanBeTakenOut() {
        TakeOff computed = item(1, part(1, false));
        TakeOff own =
                EditedTakeOff.of(computed)
                        .with(
                                "/parts/0/operations/0/override",
                                new Operation.Override(50.0, "timed last year"))
                        .takeOff();

        assertThat(own.withoutOwnMinutes()).isEqualTo(computed);
        assertThat(computed.withoutOwnMinutes()).isSameAs(computed);
    }

    private static double strain() {
        return Estimating.estimate(item(1, part(1, false)), book())
                .operations()
                .get(0)
                .strains()
                .get(0);
    }

    private static Estimate.ForQuantity of(
            ShopBook book, int items, int perAssembly, boolean irreplaceable) {
        return Estimating.estimate(item(items, part(perAssembly, irreplaceable)), book)
                .quantities()
                .get(0);
    }

    private static Estimate.ForQuantity standard(ShopBook book, String name) {
        TakeOff takeOff =
                EditedTakeOff.of(item(1, part(1, false)))
                        .with(
                                "/parts/0/operations",
                                List.of(Map.of("type", "standard", "standard", name, "amount", 4)))
                        .takeOff();
        return Estimating.estimate(takeOff, book).quantities().get(0);
    }

    private static TakeOff item(int quantity, TakeOff.Part part) {
        return EditedTakeOff.of(WorkedShop.takeOff(part))
                .with("/quantities", List.of(quantity))
                .with("/mainQuantity", quantity)
                .takeOff();
    }

    private static TakeOff.Part part(int perAssembly, boolean irreplaceable) {
        TakeOff.Part part =
                WorkedShop.part(
                        "al",
                        2.0,
                        1.27,
                        BLANK,
                        null,
                        WorkedShop.curve(Sense.SHRINK, 1885, 300, 40, "soft"));
        return EditedTakeOff.of(WorkedShop.takeOff(part))
                .with("/parts/0/perAssembly", perAssembly)
                .with("/parts/0/irreplaceable", irreplaceable)
                .takeOff()
                .parts()
                .get(0);
    }

    private static ShopBook learning(Learned... lines) {
        return EditedBook.of(book()).with("/learned", List.of(lines)).book();
    }

    private static ShopBook book() {
        return WorkedShop.book();
    }

    private static String cut() {
        return WorkedShop.book().standards().get(0).name();
    }
}
