package strokewright.costing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.Currency;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import strokewright.quantity.Money;
import strokewright.quantity.Working;

class BuildUpTest {

    private static final Currency EUR = Currency.getInstance("EUR");

    /** Published exercise: total 100, profit 10 %, settlement discount 2 %, rebate 5 %: 118.15. */
    @Test
    void discountsAreSharesOfThePriceAfterThem() {
        BuildUp build = build("100", "0", "0", "0", 1, scheme(0, 0, 0, 0, 10, 2, 0, 5, 0));

        assertThat(build.beforeDiscounts()).isEqualByComparingTo("110");
        assertThat(build.settlementDiscount()).isCloseTo(dec("2.2449"), within(dec("0.00005")));
        assertThat(build.listPrice()).isCloseTo(dec("118.1525"), within(dec("0.00005")));
        assertThat(build.offer()).isEqualByComparingTo("118.15");
    }

    /** Published exercise for industrial clerks: manufacturing 19 308.10, total 21 953.31. */
    @Test
    void manufacturingAndTotalCostOfThePublishedExercise() {
        BuildUp build =
                build("8420", "3720", "0", "890", 1, scheme(10.5, 145, 13.7, 0, 0, 0, 0, 0, 0));

        assertThat(build.material().add(build.materialOverhead())).isEqualByComparingTo("9304.10");
        assertThat(build.manufacturing()).isEqualByComparingTo("19308.10");
        assertThat(build.total()).isCloseTo(dec("21953.31"), within(dec("0.005")));
    }

    /** Derived: machine rate, residual overhead, discounts; list 861.7139. */
    @Test
    void buildUpWithAMachineRate() {
        BigDecimal machine = CostingFormula.HOURS_AT_RATE.exact(dec("6.5"), dec("9.5538"));
        BuildUp build =
                BuildUp.forward(
                        dec("180"),
                        dec("210"),
                        machine,
                        dec("25"),
                        1,
                        EUR,
                        scheme(8, 60, 10, 6, 12, 2, 0, 5, 0),
                        null,
                        "shop book",
                        new Working());

        assertThat(build.manufacturing()).isCloseTo(dec("617.4997"), within(dec("0.00005")));
        assertThat(build.total()).isCloseTo(dec("716.2997"), within(dec("0.00006")));
        assertThat(build.beforeDiscounts()).isCloseTo(dec("802.2556"), within(dec("0.00006")));
        assertThat(build.listPrice()).isCloseTo(dec("861.7139"), within(dec("0.00006")));
        assertThat(build.priceEach()).isEqualByComparingTo("861.71");
    }

    @Test
    void commissionIsTakenTogetherWithTheSettlementDiscount() {
        BuildUp build = build("95", "0", "0", "0", 1, scheme(0, 0, 0, 0, 0, 2, 3, 0, 0));

        assertThat(build.listPrice()).isEqualByComparingTo("100");
        assertThat(build.settlementDiscount()).isEqualByComparingTo("2");
        assertThat(build.commission()).isEqualByComparingTo("3");
    }

    @ParameterizedTest
    @CsvSource({
        "0.01, 33.33, 99.99",
        "0.50, 33.50, 100.50",
        "1, 33, 99",
        "5, 35, 105",
        "0.5, 33.5, 100.5"
    })
    void priceEachIsRoundedFirst(String step, String each, String offer) {
        BuildUp build = build("100", "0", "0", "0", 3, rounding(step, null));

        assertThat(build.priceEach()).isEqualByComparingTo(each);
        assertThat(build.offer()).isEqualByComparingTo(offer);
    }

    @Test
    void halfAStepIsRoundedUp() {
        assertThat(build("2.005", "0", "0", "0", 1, rounding("0.01", null)).priceEach())
                .isEqualByComparingTo("2.01");
        assertThat(build("2.00499", "0", "0", "0", 1, rounding("0.01", null)).priceEach())
                .isEqualByComparingTo("2.00");
    }

    @Test
    void minimumOrderLiftsAndIsNeverRoundedAwayAgain() {
        BuildUp build = build("40", "0", "0", "0", 3, rounding("0.01", Money.of("100", "EUR")));

        assertThat(build.minimumLift()).isEqualByComparingTo("60");
        assertThat(build.priceEach()).isEqualByComparingTo("33.34");
        assertThat(build.offer()).isGreaterThanOrEqualTo(dec("100"));
    }

    @Test
    void simpleSchemeKnowsMarkUpRatesProfitAndTaxAlone() {
        PriceScheme full = scheme(20, 60, 10, 6, 10, 2, 3, 5, 19);
        PriceScheme simple =
                new PriceScheme(
                        PriceScheme.Kind.SIMPLE,
                        null,
                        full.materialOverheadPercent(),
                        60.0,
                        10.0,
                        6.0,
                        10.0,
                        2.0,
                        3.0,
                        5.0,
                        19.0,
                        null,
                        null,
                        null,
                        null);
        BuildUp build = build("100", "200", "50", "30", 1, simple);

        assertThat(build.total()).isEqualByComparingTo("400");
        assertThat(build.offer()).isEqualByComparingTo("440");
        assertThat(build.tax()).isEqualByComparingTo("83.60");
    }

    private static BuildUp build(
            String material,
            String labour,
            String machine,
            String special,
            int pieces,
            PriceScheme scheme) {
        return BuildUp.forward(
                dec(material),
                dec(labour),
                dec(machine),
                dec(special),
                pieces,
                EUR,
                scheme,
                null,
                "shop book",
                new Working());
    }

    private static PriceScheme scheme(
            double material,
            double production,
            double administration,
            double sales,
            double profit,
            double settlement,
            double commission,
            double trade,
            double tax) {
        return new PriceScheme(
                PriceScheme.Kind.SURCHARGE,
                null,
                material,
                production,
                administration,
                sales,
                profit,
                settlement,
                commission,
                trade,
                tax,
                "0.01",
                null,
                0.0,
                null);
    }

    private static PriceScheme rounding(String step, Money minimumOrder) {
        return new PriceScheme(
                PriceScheme.Kind.SURCHARGE,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                step,
                minimumOrder,
                null,
                null);
    }

    private static BigDecimal dec(String value) {
        return new BigDecimal(value);
    }
}
