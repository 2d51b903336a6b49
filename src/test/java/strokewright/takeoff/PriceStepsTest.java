package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.takeoff.Situations.roundFrame;
import static strokewright.takeoff.Situations.simpleBook;
import static strokewright.takeoff.Situations.surchargeBook;
import static strokewright.takeoff.Situations.takeOffs;
import static strokewright.takeoff.Situations.withScheme;
import static strokewright.takeoff.SmallShop.DE;
import static strokewright.takeoff.SmallShop.EN;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.quantity.Money;
import strokewright.takeoff.PriceSteps.Step;
import strokewright.takeoff.PriceSteps.Within;

class PriceStepsTest {

    /** Both schemes, each with an urgency, a minimum order that is reached and one that is not. */
    static Stream<ShopBook> books() {
        return Stream.of(surchargeBook(), simpleBook())
                .flatMap(
                        book ->
                                Stream.of(
                                        book,
                                        withScheme(book, "urgencyPercent", 12.5),
                                        withScheme(book, "roundEachTo", "5"),
                                        withScheme(book, "minimumOrder", eur("9000.00"))));
    }

    @ParameterizedTest
    @MethodSource("books")
    void climbFromNothingToTheOfferWithTaxInTheStoredCents(ShopBook book) {
        for (TakeOff takeOff : takeOffs()) {
            for (ForQuantity quantity : Estimating.estimate(takeOff, book).quantities()) {
                List<Step> steps = steps(quantity, book);
                Money reached = Money.zero(quantity.priceEach().currency());
                for (Step step : steps) {
                    if (step.sum()) {
                        assertThat(step.amount()).as(step.name()).isEqualTo(reached);
                        assertThat(step.from().isZero()).isTrue();
                    } else {
                        assertThat(step.from()).as(step.name()).isEqualTo(reached);
                        assertThat(step.amount().isZero()).as(step.name()).isFalse();
                        reached = reached.plus(step.amount());
                    }
                    assertThat(step.to()).as(step.name()).isEqualTo(reached);
                }
                assertThat(step(steps, "Total cost").amount()).isEqualTo(quantity.cost().total());
                assertThat(step(steps, "Offer").amount()).isEqualTo(quantity.price().offer());
                assertThat(reached).isEqualTo(quantity.price().withTax());
            }
        }
    }

    @ParameterizedTest
    @MethodSource("books")
    void whatAStepConsistsOfAddsUpToIt(ShopBook book) {
        for (TakeOff takeOff : takeOffs()) {
            for (ForQuantity quantity : Estimating.estimate(takeOff, book).quantities()) {
                for (Step step : steps(quantity, book)) {
                    BigDecimal parts =
                            step.within().stream()
                                    .filter(part -> part.amount() != null)
                                    .map(part -> part.amount().amount())
                                    .reduce(BigDecimal.ZERO, BigDecimal::add);
                    if (parts.signum() != 0) {
                        assertThat(parts)
                                .as(step.name())
                                .isEqualByComparingTo(step.amount().amount());
                    }
                }
            }
        }
    }

    @Test
    void eachSaysInWordsWhatItIsTakenOf() {
        ShopBook book = withScheme(surchargeBook(), "urgencyPercent", 12.5);
        ForQuantity two = quantity(book, 2);
        List<Step> steps = steps(two, book);

        assertThat(step(steps, "Material overhead").base())
                .isEqualTo("8 % on material " + EN.show(two.cost().material().amount(), 2));
        assertThat(step(steps, "Production overhead").base())
                .isEqualTo("60 % on labour " + EN.show(two.cost().labour().amount(), 2));
        assertThat(step(steps, "Administration").base())
                .isEqualTo(
                        "10 % on manufacturing cost "
                                + EN.show(two.cost().manufacturing().amount(), 2));
        assertThat(step(steps, "Urgency").base())
                .isEqualTo(
                        "12.5 % on total cost and profit "
                                + EN.show(
                                        two.cost().total().plus(two.price().profit()).amount(), 2));
        assertThat(step(steps, "Commission").base()).startsWith("1.5 % of the price after it, ");
        assertThat(step(steps, "Trade discount").base()).startsWith("5 % of the list price, ");
        assertThat(step(steps, "Offer").base())
                .isEqualTo("2 × " + EN.show(two.priceEach().amount(), 2));
        assertThat(step(steps, "Tax").base())
                .isEqualTo("19 % on the offer " + EN.show(two.price().offer().amount(), 2));
        assertThat(step(PriceSteps.of(two, book.priceScheme(), DE), "Urgency").base())
                .startsWith("12,5 % ");
    }

    @Test
    void shareOfThePriceAfterItIsThatShareOfTheAmountThatIsNamed() {
        ForQuantity two = quantity(surchargeBook(), 2);
        Money after =
                two.price()
                        .beforeDiscounts()
                        .plus(two.price().settlementDiscount())
                        .plus(two.price().commission());
        assertThat(step(steps(two, surchargeBook()), "Settlement discount").base())
                .isEqualTo("2 % of the price after it, " + EN.show(after.amount(), 2));
        assertThat(two.price().settlementDiscount().amount().doubleValue())
                .isCloseTo(
                        0.02 * after.amount().doubleValue(),
                        org.assertj.core.data.Offset.offset(0.011));
    }

    @Test
    void minimumOrderAndRoundingAreStepsOfTheirOwn() {
        ShopBook least = withScheme(surchargeBook(), "minimumOrder", eur("9000.00"));
        assertThat(step(steps(quantity(least, 2), least), "Up to the minimum order").base())
                .startsWith("from ")
                .endsWith(" to 9\u202f000.00");

        ShopBook fives = withScheme(surchargeBook(), "roundEachTo", "5");
        assertThat(step(steps(quantity(fives, 2), fives), "Rounding").base())
                .startsWith("each from ")
                .endsWith(", a multiple of 5");
        assertThat(steps(quantity(surchargeBook(), 2), surchargeBook()))
                .extracting(Step::name)
                .doesNotContain("Up to the minimum order", "Urgency");
    }

    @Test
    void simpleSchemeCallsItsMarkUpSoAndHasNoSumBetween() {
        assertThat(steps(quantity(simpleBook(), 2), simpleBook()))
                .extracting(Step::name)
                .contains("Mark-up on material", "Total cost", "Profit", "Offer")
                .doesNotContain("Manufacturing cost", "Sales", "Commission");
    }

    @Test
    void labourIsToldByWorkCentreAtItsRateAndWhatIsBoughtOutByName() {
        List<Step> steps = steps(quantity(surchargeBook(), 2), surchargeBook());
        assertThat(step(steps, "Labour").within())
                .anySatisfy(
                        part -> {
                            assertThat(part.name()).isEqualTo("Forming");
                            assertThat(part.words()).endsWith(" h at 42.00");
                        });
        assertThat(step(steps, "Special direct costs").within())
                .extracting(Within::name)
                .contains("Powder coat", "=Hinge pair");
        assertThat(step(steps, "Material").within()).isNotEmpty();
    }

    @Test
    void handlingOfWhatIsBoughtOutStandsBesideIt() {
        ShopBook book = withScheme(surchargeBook(), "boughtOutHandlingPercent", 5);
        assertThat(step(steps(quantity(book, 2), book), "Special direct costs").within())
                .anySatisfy(
                        part -> {
                            assertThat(part.name()).isEqualTo("Powder coat, handling");
                            assertThat(part.words()).isEqualTo("5 % on 85.00");
                            assertThat(part.amount()).isEqualTo(Money.of("4.25", "EUR"));
                        });
    }

    private static List<Step> steps(ForQuantity quantity, ShopBook book) {
        return PriceSteps.of(quantity, book.priceScheme(), EN);
    }

    private static Step step(List<Step> steps, String name) {
        return steps.stream().filter(s -> s.name().equals(name)).findFirst().orElseThrow();
    }

    private static ForQuantity quantity(ShopBook book, int quantity) {
        return Estimating.estimate(roundFrame(), book).quantities().stream()
                .filter(q -> q.quantity() == quantity)
                .findFirst()
                .orElseThrow();
    }

    private static Map<String, String> eur(String amount) {
        return Map.of("amount", amount, "currency", "EUR");
    }
}
