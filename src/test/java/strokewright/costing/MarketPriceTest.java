package strokewright.costing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import strokewright.costing.MarketPrice.LeastCharge;
import strokewright.quantity.Money;
import strokewright.quantity.Why;
import strokewright.quantity.Working;

class MarketPriceTest {

    /**
     * Published exercise read backward: list 118.1525 with a rebate of 5 % and a settlement
     * discount of 2 % leaves 110.00; on a total of 100 that is 10 %.
     */
    @Test
    void thePublishedExerciseBackward() {
        Job job = Job.of("100", "0", "0", "0", surcharge(0, 0, 0, 0, 10, 2, 0, 5, 0));
        MarketPrice market = job.at("118.1525");

        assertThat(market.left()).isCloseTo(dec("110.00"), within(dec("0.00005")));
        assertThat(market.profit()).isCloseTo(dec("10.00"), within(dec("0.00005")));
        assertThat(market.profitPercent()).isCloseTo(dec("10"), within(dec("0.00005")));
        assertThat(market.shareAtProfit()).as("nothing hangs on hours").isNull();
    }

    /** Derived: machine rate, residual overhead, discounts; 861.7139 is what was planned. */
    @Test
    void thePlannedPriceLeavesThePlannedHours() {
        MarketPrice market = withMachineRate().at("861.713917");

        assertThat(market.shareAtProfit()).isCloseTo(dec("1"), within(dec("0.000001")));
        assertThat(market.profitPercent()).isCloseTo(dec("12"), within(dec("0.00001")));
    }

    /**
     * By hand: 800 × 0.95 × 0.98 = 744.80 leaves 744.80 − 716.2997 = 28.50 of profit; at none of it
     * manufacturing may cost 744.80 / 1.16 = 642.0690, of which 219.40 hang on no hour, so that
     * 422.6690 against the planned 398.0997 are left for hours; with 12 % of profit 744.80 / 1.12 /
     * 1.16 − 219.40 = 353.8759.
     */
    @Test
    void whatALowerPriceLeaves() {
        MarketPrice market = withMachineRate().at("800");

        assertThat(market.left()).isEqualByComparingTo("744.80");
        assertThat(market.profit()).isCloseTo(dec("28.5003"), within(dec("0.0001")));
        assertThat(market.shareAtNone()).isCloseTo(dec("1.061717"), within(dec("0.000005")));
        assertThat(market.shareAtProfit()).isCloseTo(dec("0.888913"), within(dec("0.000005")));
    }

    @Test
    void aPriceThatDoesNotPayTheMetalLeavesNoHours() {
        MarketPrice market = withMachineRate().at("200");

        assertThat(market.profit()).isNegative();
        assertThat(market.shareAtNone()).isEqualByComparingTo("0");
        assertThat(market.shareAtProfit()).isEqualByComparingTo("0");
    }

    @Test
    void simpleSchemeKnowsNoDiscounts() {
        PriceScheme full = surcharge(20, 60, 10, 6, 10, 2, 3, 5, 19);
        Job job = Job.of("100", "200", "50", "30", simple(full));
        MarketPrice market = job.at("440");

        assertThat(market.left()).isEqualByComparingTo("440");
        assertThat(market.profitPercent()).isCloseTo(dec("10"), within(dec("1e-20")));
        assertThat(market.shareAtProfit()).isCloseTo(dec("1"), within(dec("1e-20")));
    }

    /** 25 % on cost are 20 % of the price, 30 % of the price are 42.857 % on cost (arithmetic). */
    @ParameterizedTest
    @CsvSource({"25, 20", "42.857143, 30", "0, 0", "100, 50"})
    void marginIsTheSameMoneyAsMarkUp(double markUp, double margin) {
        Job job = Job.of("0", "80", "0", "0", surcharge(0, 0, 0, 0, markUp, 0, 0, 0, 0));
        BigDecimal price = job.planned().listPrice();
        MarketPrice market = job.at(price.toPlainString());

        assertThat(market.profit().doubleValue() / price.doubleValue() * 100)
                .isCloseTo(margin, within(1e-5));
        assertThat(market.profitPercent().doubleValue()).isCloseTo(markUp, within(1e-9));
    }

    @Test
    void urgencyStandsApartFromProfit() {
        PriceScheme scheme = scheme("surcharge", 0, 0, 0, 0, 10, 0, 0, 0, 0, 20, "0.01", null);
        MarketPrice market = Job.of("0", "100", "0", "0", scheme).at("132");

        assertThat(market.profit()).isCloseTo(dec("10"), within(dec("1e-20")));
        assertThat(market.urgency()).isCloseTo(dec("22"), within(dec("1e-20")));
    }

    @Test
    void saysWhatAnOrderAndAStepWouldMakeOfIt() {
        Money least = Money.of("150", "EUR");
        PriceScheme scheme = scheme("surcharge", 0, 0, 0, 0, 10, 0, 0, 0, 0, 0, "5", least);
        Job job = new Job(dec("0"), dec("100"), dec("0"), dec("0"), 3, "EUR", scheme, List.of());

        assertThat(job.at("49.99").underMinimum()).isTrue();
        assertThat(job.at("50").underMinimum()).isFalse();
        assertThat(job.at("52").inStep()).isEqualByComparingTo("50");
        assertThat(job.at("52.5").inStep()).isEqualByComparingTo("55");
    }

    /** A line of 30 that is charged 50 at least: from 10/6 of its hours on it would cost more. */
    @Test
    void aLeastChargeStaysWhereItsHoursShrink() {
        PriceScheme scheme = surcharge(0, 0, 0, 0, 0, 0, 0, 0, 0);
        List<LeastCharge> least = List.of(new LeastCharge(dec("50"), dec("30")));
        Job job = new Job(dec("10"), dec("100"), dec("0"), dec("20"), 1, "EUR", scheme, least);

        assertThat(job.planned().total()).isEqualByComparingTo("130");
        assertThat(job.at("130").shareAtNone()).isEqualByComparingTo("1");
        assertThat(job.at("95").shareAtNone())
                .as("10 + 50 + 70 × share")
                .isEqualByComparingTo("0.5");
        assertThat(job.at("60").shareAtNone()).isEqualByComparingTo("0");
        assertThat(job.at("210").shareAtNone()).as("10 + 100 × share").isEqualByComparingTo("2");
    }

    /** All hours in one line: between nothing and its least charge any share costs the same. */
    @Test
    void whereOnlyTheLeastChargeIsPaidTheMostHoursCount() {
        PriceScheme scheme = surcharge(0, 0, 0, 0, 0, 0, 0, 0, 0);
        List<LeastCharge> least = List.of(new LeastCharge(dec("50"), dec("40")));
        Job job = new Job(dec("10"), dec("40"), dec("0"), dec("10"), 1, "EUR", scheme, least);

        assertThat(job.at("60").shareAtNone()).isEqualByComparingTo("1.25");
        assertThat(job.at("59.99").shareAtNone()).isEqualByComparingTo("0");
    }

    static Stream<Seeded> seeds() {
        List<Seeded> cases = new ArrayList<>();
        for (String currency : List.of("EUR", "JPY", "KWD")) {
            IntStream.range(0, 150).forEach(seed -> cases.add(new Seeded(currency, seed)));
        }
        return cases.stream();
    }

    record Seeded(String currency, int seed) {

        Job job(Random random) {
            String[] steps =
                    currency.equals("JPY")
                            ? new String[] {"1", "5"}
                            : new String[] {"0.01", "0.50", "1", "5"};
            boolean simple = random.nextInt(4) == 0;
            PriceScheme scheme =
                    scheme(
                            simple ? "simple" : "surcharge",
                            percent(random, 40),
                            percent(random, 200),
                            percent(random, 20),
                            percent(random, 20),
                            percent(random, 30),
                            percent(random, 4),
                            percent(random, 6),
                            percent(random, 25),
                            percent(random, 25),
                            random.nextBoolean() ? 0 : percent(random, 50),
                            steps[random.nextInt(steps.length)],
                            null);
            BigDecimal labour = amount(random, 3000);
            BigDecimal machine = amount(random, 900);
            List<LeastCharge> least = new ArrayList<>();
            BigDecimal lifts = BigDecimal.ZERO;
            BigDecimal room = labour.add(machine);
            for (int i = random.nextInt(4); i > 0; i--) {
                BigDecimal cost = room.divide(BigDecimal.valueOf(4)); // together under all hours
                LeastCharge line = new LeastCharge(amount(random, 900), cost);
                least.add(line);
                lifts = lifts.add(line.least().subtract(cost).max(BigDecimal.ZERO));
            }
            return new Job(
                    amount(random, 800),
                    labour,
                    machine,
                    amount(random, 400).add(lifts),
                    1 + random.nextInt(60),
                    currency,
                    scheme,
                    least);
        }

        private static double percent(Random random, int most) {
            return random.nextInt(most * 100) / 100.0;
        }

        private static BigDecimal amount(Random random, int most) {
            return BigDecimal.valueOf(1 + random.nextInt(most * 1000), 3);
        }
    }

    /** With the profit that is left put into the scheme, the price comes out again. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("seeds")
    void forwardOfBackwardIsThePriceAgain(Seeded seeded) {
        Random random = new Random(seeded.seed());
        Job job = seeded.job(random);
        BigDecimal step = job.scheme().roundingStep(job.unit());
        BigDecimal asked = job.planned().priceEach();
        BigDecimal each =
                asked.multiply(BigDecimal.valueOf(0.5 + random.nextDouble()))
                        .divide(step, 0, java.math.RoundingMode.HALF_UP)
                        .multiply(step)
                        .max(step);
        MarketPrice market = job.at(each.toPlainString());
        PriceScheme tuned = job.scheme().withProfit(market.profitPercent().doubleValue());

        assertThat(market.inStep()).isEqualByComparingTo(each);
        assertThat(job.with(tuned).planned().priceEach()).isEqualByComparingTo(each);
        assertThat(
                        market.left()
                                .add(market.tradeDiscount())
                                .add(market.commission())
                                .add(market.settlementDiscount()))
                .isEqualByComparingTo(market.offer());
        assertThat(market.profit().add(market.urgency()).add(job.planned().total()))
                .isCloseTo(market.left(), within(dec("1e-20")));
    }

    /** With the hours that are left, the scheme's own profit and none give the price again. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("seeds")
    void forwardWithTheHoursLeftIsThePriceAgain(Seeded seeded) {
        Random random = new Random(seeded.seed());
        Job job = seeded.job(random);
        BigDecimal step = job.scheme().roundingStep(job.unit());
        BigDecimal each =
                job.planned()
                        .priceEach()
                        .multiply(BigDecimal.valueOf(0.7 + random.nextDouble()))
                        .divide(step, 0, java.math.RoundingMode.HALF_UP)
                        .multiply(step)
                        .max(step);
        MarketPrice market = job.at(each.toPlainString());

        assertThat(market.shareAtNone()).isGreaterThanOrEqualTo(market.shareAtProfit());
        again(job, market.shareAtProfit(), job.scheme(), each);
        again(job, market.shareAtNone(), job.scheme().withProfit(0.0), each);
    }

    private static void again(Job job, BigDecimal share, PriceScheme scheme, BigDecimal each) {
        Job scaled = job.with(scheme).scaled(share);
        if (share.signum() > 0) {
            assertThat(scaled.planned().listPrice())
                    .isCloseTo(
                            each.multiply(BigDecimal.valueOf(job.pieces())), within(dec("1e-9")));
            assertThat(scaled.planned().priceEach()).isEqualByComparingTo(each);
        } else {
            assertThat(scaled.planned().priceEach()).isGreaterThanOrEqualTo(each);
        }
    }

    /** Every figure follows from the inputs that stand beside it. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("seeds")
    void theWorkingIsTheFigure(Seeded seeded) {
        Job job = seeded.job(new Random(seeded.seed()));
        Working working = new Working();
        job.at(job.planned().priceEach(), working);
        for (Why line : working.lines()) {
            double[] inputs = line.inputs().stream().mapToDouble(Why.Input::value).toArray();
            CostingFormula formula =
                    Stream.of(CostingFormula.values())
                            .filter(f -> f.code().equals(line.formula()))
                            .findFirst()
                            .orElseThrow();
            assertThat(formula.apply(inputs))
                    .as(line.toString())
                    .isCloseTo(line.value(), within(1e-9 * Math.max(1, Math.abs(line.value()))));
        }
    }

    private static Job withMachineRate() {
        BigDecimal machine = CostingFormula.HOURS_AT_RATE.exact(dec("6.5"), dec("9.5538"));
        return new Job(
                dec("180"),
                dec("210"),
                machine,
                dec("25"),
                1,
                "EUR",
                surcharge(8, 60, 10, 6, 12, 2, 0, 5, 0),
                List.of());
    }

    /** What a quantity costs; the lifts of least charges are in special direct cost. */
    record Job(
            BigDecimal material,
            BigDecimal labour,
            BigDecimal machine,
            BigDecimal special,
            int pieces,
            String currency,
            PriceScheme scheme,
            List<LeastCharge> least) {

        static Job of(
                String material,
                String labour,
                String machine,
                String special,
                PriceScheme scheme) {
            return new Job(
                    dec(material),
                    dec(labour),
                    dec(machine),
                    dec(special),
                    1,
                    "EUR",
                    scheme,
                    List.of());
        }

        Currency unit() {
            return Currency.getInstance(currency);
        }

        Job with(PriceScheme other) {
            return new Job(material, labour, machine, special, pieces, currency, other, least);
        }

        /** As somebody would reckon who has so many hours: lines under their least are lifted. */
        Job scaled(BigDecimal share) {
            BigDecimal extras = special;
            for (LeastCharge line : least) {
                extras =
                        extras.subtract(line.least().subtract(line.cost()).max(BigDecimal.ZERO))
                                .add(
                                        line.least()
                                                .subtract(line.cost().multiply(share))
                                                .max(BigDecimal.ZERO));
            }
            return new Job(
                    material,
                    labour.multiply(share),
                    machine.multiply(share),
                    extras,
                    pieces,
                    currency,
                    scheme,
                    least);
        }

        BuildUp planned() {
            return BuildUp.forward(
                    material,
                    labour,
                    machine,
                    special,
                    pieces,
                    unit(),
                    scheme,
                    null,
                    "shop book",
                    new Working());
        }

        MarketPrice at(String each) {
            return at(dec(each), new Working());
        }

        MarketPrice at(BigDecimal each, Working working) {
            return MarketPrice.backward(
                    planned(), least, pieces, each, unit(), scheme, null, "shop book", working);
        }
    }

    private static PriceScheme surcharge(
            double material,
            double production,
            double administration,
            double sales,
            double profit,
            double settlement,
            double commission,
            double trade,
            double tax) {
        return scheme(
                "surcharge",
                material,
                production,
                administration,
                sales,
                profit,
                settlement,
                commission,
                trade,
                tax,
                0,
                "0.01",
                null);
    }

    private static PriceScheme simple(PriceScheme full) {
        return scheme(
                "simple",
                full.materialOverheadPercent(),
                full.productionOverheadPercent(),
                full.administrationPercent(),
                full.salesPercent(),
                full.profitPercent(),
                full.settlementDiscountPercent(),
                full.commissionPercent(),
                full.tradeDiscountPercent(),
                full.taxPercent(),
                0,
                "0.01",
                null);
    }

    private static PriceScheme scheme(
            String kind,
            double material,
            double production,
            double administration,
            double sales,
            double profit,
            double settlement,
            double commission,
            double trade,
            double tax,
            double urgency,
            String step,
            Money minimumOrder) {
        return new PriceScheme(
                PriceScheme.Kind.valueOf(kind.toUpperCase(java.util.Locale.ROOT)),
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
                step,
                minimumOrder,
                urgency,
                null);
    }

    private static BigDecimal dec(String value) {
        return new BigDecimal(value);
    }
}
