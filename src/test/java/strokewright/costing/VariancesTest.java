package strokewright.costing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Published variances, and parts that add up to the cent. */
class VariancesTest {

    record Case(
            String id,
            String figure,
            CostingFormula formula,
            BigDecimal[] inputs,
            BigDecimal expected,
            BigDecimal tolerance) {

        @Override
        public String toString() {
            return id + " " + figure;
        }
    }

    static Stream<Case> published() throws IOException {
        try (InputStream in =
                Objects.requireNonNull(
                        VariancesTest.class.getResourceAsStream("/costing/variances.csv"))) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8)
                            .lines()
                            .filter(l -> !l.startsWith("#"))
                            .map(l -> l.split(";"))
                            .map(
                                    f ->
                                            new Case(
                                                    f[0],
                                                    f[1],
                                                    formula(f[2]),
                                                    Arrays.stream(f[3].split(" "))
                                                            .map(BigDecimal::new)
                                                            .toArray(BigDecimal[]::new),
                                                    new BigDecimal(f[4]),
                                                    new BigDecimal(f[5])))
                            .toList()
                            .stream();
        }
    }

    private static CostingFormula formula(String code) {
        return Arrays.stream(CostingFormula.values())
                .filter(f -> f.code().equals(code))
                .findFirst()
                .orElseThrow();
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("published")
    void agreesWithThePublishedFigure(Case c) {
        assertThat(c.formula.exact(c.inputs)).isCloseTo(c.expected, within(c.tolerance));
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4})
    void rateAndEfficiencyAddUpToTheWages(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 2000; i++) {
            BigDecimal ar = cents(random);
            BigDecimal sr = cents(random);
            BigDecimal ah = cents(random);
            BigDecimal sh = cents(random);
            assertThat(
                            CostingFormula.RATE_VARIANCE
                                    .exact(ar, sr, ah)
                                    .add(CostingFormula.EFFICIENCY_VARIANCE.exact(ah, sh, sr)))
                    .isEqualByComparingTo(ar.multiply(ah).subtract(sr.multiply(sh)));
            assertThat(
                            CostingFormula.FIXED_OVERHEAD_CAPACITY
                                    .exact(sh, ah, sr)
                                    .add(
                                            CostingFormula.FIXED_OVERHEAD_EFFICIENCY.exact(
                                                    ah, ar, sr)))
                    .isEqualByComparingTo(sh.subtract(ar).multiply(sr));
        }
    }

    private static BigDecimal cents(SplittableRandom random) {
        return BigDecimal.valueOf(random.nextLong(0, 1_000_000), 2);
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {11, 12, 13, 14, 15})
    void roundedPartsAddUpAndNoneIsOffByACent(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 1000; i++) {
            List<BigDecimal> exact = new ArrayList<>();
            for (int n = random.nextInt(1, 30); n > 0; n--) {
                exact.add(
                        random.nextInt(4) == 0
                                ? BigDecimal.ZERO
                                : BigDecimal.valueOf(random.nextLong(-10_000_000, 10_000_000), 5));
            }
            BigDecimal whole =
                    exact.stream()
                            .reduce(BigDecimal.ZERO, BigDecimal::add)
                            .setScale(2, RoundingMode.HALF_UP);
            List<BigDecimal> parts = Adding.upTo(whole, exact);
            assertThat(parts.stream().reduce(BigDecimal.ZERO, BigDecimal::add))
                    .isEqualByComparingTo(whole);
            for (int n = 0; n < parts.size(); n++) {
                assertThat(parts.get(n).subtract(exact.get(n)).abs())
                        .isLessThan(new BigDecimal("0.01"));
                if (exact.get(n).signum() == 0 && whole.signum() != 0) {
                    assertThat(parts.get(n)).isZero();
                }
            }
        }
    }

    @Test
    void aWholeThatIsFarFromItsPartsIsSharedEvenly() {
        assertThat(
                        Adding.upTo(
                                new BigDecimal("10.05"),
                                List.of(BigDecimal.ONE, BigDecimal.ONE, BigDecimal.ZERO)))
                .usingElementComparator(BigDecimal::compareTo)
                .containsExactly(new BigDecimal("5.03"), new BigDecimal("5.02"), BigDecimal.ZERO);
        assertThat(Adding.upTo(new BigDecimal("0.03"), List.of(BigDecimal.ZERO)))
                .usingElementComparator(BigDecimal::compareTo)
                .containsExactly(new BigDecimal("0.03"));
    }
}
