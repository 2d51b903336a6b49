package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import strokewright.costing.BuildUp;
import strokewright.costing.PriceScheme;
import strokewright.quantity.Money;
import strokewright.quantity.Working;

/** What is shown of a build-up adds up to the last coin, whatever the currency and the step. */
class CentsTest {

    record Seeded(String currency, String step, int seed) {

        BuildUp build(Random random, int pieces, PriceScheme scheme) {
            return BuildUp.forward(
                    amount(random),
                    amount(random),
                    amount(random),
                    amount(random),
                    pieces,
                    Currency.getInstance(currency),
                    scheme,
                    null,
                    "shop book",
                    new Working());
        }

        PriceScheme scheme(Random random) {
            return new PriceScheme(
                    random.nextInt(4) == 0 ? PriceScheme.Kind.SIMPLE : PriceScheme.Kind.SURCHARGE,
                    null,
                    percent(random, 40),
                    percent(random, 200),
                    percent(random, 20),
                    percent(random, 20),
                    percent(random, 30),
                    percent(random, 4),
                    percent(random, 6),
                    percent(random, 25),
                    percent(random, 25),
                    step,
                    random.nextBoolean()
                            ? null
                            : new Money(
                                    BigDecimal.valueOf(random.nextInt(2000)),
                                    Currency.getInstance(currency)),
                    random.nextBoolean() ? 0 : percent(random, 50),
                    null);
        }

        /** Now and then nothing, and always more digits than a coin has. */
        private static BigDecimal amount(Random random) {
            return random.nextInt(6) == 0
                    ? BigDecimal.ZERO
                    : BigDecimal.valueOf(random.nextInt(2_000_000), 5)
                            .multiply(BigDecimal.valueOf(1 + random.nextInt(90)));
        }

        private static double percent(Random random, int most) {
            return random.nextInt(most * 1000) / 1000.0;
        }
    }

    static Stream<Seeded> seeds() {
        List<Seeded> cases = new ArrayList<>();
        for (String currency : List.of("EUR", "JPY", "KWD")) {
            for (String step : List.of("0.01", "0.50", "1", "5")) {
                if (!currency.equals("JPY") || !step.startsWith("0")) {
                    IntStream.range(0, 60)
                            .forEach(seed -> cases.add(new Seeded(currency, step, seed)));
                }
            }
        }
        return cases.stream();
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("seeds")
    void everySubtotalIsTheSumOfWhatIsShown(Seeded seeded) {
        Random random = new Random(seeded.seed());
        int pieces = 1 + random.nextInt(200);
        PriceScheme scheme = seeded.scheme(random);
        BuildUp build = seeded.build(random, pieces, scheme);
        Currency currency = Currency.getInstance(seeded.currency());
        Estimate.Cost cost = Cents.cost(build, currency);
        Estimate.Price price = Cents.price(build, currency);

        assertThat(
                        sum(
                                cost.material(),
                                cost.materialOverhead(),
                                cost.labour(),
                                cost.machine(),
                                cost.productionOverhead(),
                                cost.specialDirect()))
                .isEqualTo(cost.manufacturing());
        assertThat(sum(cost.manufacturing(), cost.administration(), cost.sales()))
                .isEqualTo(cost.total());
        assertThat(sum(cost.total(), price.profit(), price.urgency()))
                .isEqualTo(price.beforeDiscounts());
        assertThat(
                        sum(
                                price.beforeDiscounts(),
                                price.settlementDiscount(),
                                price.commission(),
                                price.tradeDiscount(),
                                price.minimumOrder(),
                                price.rounding()))
                .isEqualTo(price.offer());
        assertThat(sum(price.offer(), price.tax())).isEqualTo(price.withTax());
        assertThat(price.net()).isEqualTo(Money.rounded(build.net(), currency));
        assertThat(price.offer())
                .isEqualTo(Money.rounded(build.priceEach(), currency).times(pieces));
    }

    /**
     * No step strays from the true one by more than a few coins, and nothing is made of nothing.
     */
    @ParameterizedTest(name = "{0}")
    @MethodSource("seeds")
    void everyStepIsTheTrueOneWithinAFewCoins(Seeded seeded) {
        Random random = new Random(seeded.seed());
        int pieces = 1 + random.nextInt(200);
        PriceScheme scheme = seeded.scheme(random);
        BuildUp build = seeded.build(random, pieces, scheme);
        Currency currency = Currency.getInstance(seeded.currency());
        BigDecimal coin = Money.zero(currency).amount().ulp();
        Estimate.Cost cost = Cents.cost(build, currency);

        near(cost.material(), build.material(), coin);
        near(cost.materialOverhead(), build.materialOverhead(), coin);
        near(cost.labour(), build.labour(), coin);
        near(cost.machine(), build.machine(), coin);
        near(cost.productionOverhead(), build.productionOverhead(), coin);
        near(cost.specialDirect(), build.specialDirect(), coin);
        near(cost.administration(), build.administration(), coin);
        near(cost.sales(), build.sales(), coin);
        assertThat(cost.total()).isEqualTo(Money.rounded(build.total(), currency));
    }

    /** The price each is a multiple of the step, nearest to the price or above the least order. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("seeds")
    void priceEachIsTheNearestStep(Seeded seeded) {
        Random random = new Random(seeded.seed());
        int pieces = 1 + random.nextInt(200);
        PriceScheme scheme = seeded.scheme(random);
        BuildUp build = seeded.build(random, pieces, scheme);
        BigDecimal step = new BigDecimal(seeded.step());

        assertThat(build.priceEach().remainder(step)).isEqualByComparingTo("0");
        BigDecimal off =
                build.priceEach()
                        .multiply(BigDecimal.valueOf(pieces))
                        .subtract(build.listPrice())
                        .subtract(build.minimumLift());
        BigDecimal all = step.multiply(BigDecimal.valueOf(pieces));
        if (build.minimumLift().signum() > 0) {
            assertThat(build.offer()).isGreaterThanOrEqualTo(scheme.minimumOrder().amount());
            assertThat(off).isBetween(BigDecimal.ZERO, all);
        } else {
            assertThat(off.abs()).isLessThanOrEqualTo(all.divide(BigDecimal.valueOf(2)));
        }
    }

    private static void near(Money shown, BigDecimal exact, BigDecimal coin) {
        assertThat(shown.amount().subtract(exact).abs())
                .isLessThanOrEqualTo(coin.multiply(BigDecimal.valueOf(4)));
        if (exact.signum() == 0) {
            assertThat(shown.amount().abs()).isLessThanOrEqualTo(coin);
        }
    }

    private static Money sum(Money first, Money... others) {
        Money sum = first;
        for (Money other : others) {
            sum = sum.plus(other);
        }
        return sum;
    }
}
