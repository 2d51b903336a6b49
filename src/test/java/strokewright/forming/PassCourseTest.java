package strokewright.forming;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static strokewright.forming.FormingFormula.ANNEALS;
import static strokewright.forming.FormingFormula.PASS_COUNT;
import static strokewright.forming.FormingFormula.PASS_COUNT_BY_STRAIN;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.forming.PassCourse.Cycle;
import strokewright.forming.PassCourse.Held;
import strokewright.forming.PassCourse.Pass;

class PassCourseTest {

    /** ∫ max(1/b, t·σ(x)/W) dx over a pass, by Simpson's rule on both sides of the kink. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void everyPassButTheLastTakesJustOnePassByNumbers(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        Set<Held> seen = EnumSet.noneOf(Held.class);
        for (int i = 0; i < 60; i++) {
            double[] x = inputs(random);
            List<Pass> passes = Cycle.counted(0, PASS_COUNT, x).passes();

            assertThat(passes).hasSize((int) PASS_COUNT.apply(x));
            for (Pass pass : passes) {
                double byNumbers = byNumbers(pass.from(), pass.to(), x);
                boolean last = pass == passes.get(passes.size() - 1);
                assertThat(byNumbers).isLessThanOrEqualTo(1 + 1e-6);
                if (!last) {
                    assertThat(byNumbers).isCloseTo(1, within(1e-6));
                }
                seen.add(pass.held());
            }
            assertThat(passes.get(passes.size() - 1).to()).isEqualTo(x[0]);
        }
        assertThat(seen).containsOnly(Held.BITE, Held.STROKE_WORK, Held.BOTH);
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {11, 12, 13})
    void aPassIsHeldByWhatGivesItLeastAtEitherEnd(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 60; i++) {
            double[] x = inputs(random);
            for (Pass pass : Cycle.counted(0, PASS_COUNT, x).passes()) {
                boolean beginsByWork = byWork(pass.from() + 1e-9, x);
                boolean endsByWork = byWork(pass.to() - 1e-9, x);
                Held expected =
                        endsByWork ? (beginsByWork ? Held.STROKE_WORK : Held.BOTH) : Held.BITE;
                assertThat(pass.held()).isEqualTo(expected);
            }
        }
    }

    @Test
    void theStrainAfterSomePassesNeedsJustThosePasses() {
        SplittableRandom random = new SplittableRandom(21);
        for (int i = 0; i < 200; i++) {
            double[] x = inputs(random);
            double passes = random.nextDouble(0, 80);
            double strain = Passes.strainAfter(passes, x[1], x[2], x[3], x[4], x[5], x[6]);
            assertThat(Passes.needed(strain, x[1], x[2], x[3], x[4], x[5], x[6]))
                    .isCloseTo(passes, within(1e-9 * (1 + passes)));
        }
    }

    @Test
    void aLaterCycleGoesOnFromTheStrainReached() {
        List<Pass> passes = Cycle.counted(0.2, PASS_COUNT_BY_STRAIN, 0.025, 0.01).passes();

        assertThat(passes).extracting(Pass::held).containsOnly(Held.STATED).hasSize(3);
        assertThat(passes.get(0).from()).isEqualTo(0.2);
        assertThat(passes.get(1).to()).isCloseTo(0.22, within(1e-12));
        assertThat(passes.get(2).to()).isCloseTo(0.225, within(1e-12));
    }

    @Test
    void noStrainIsNoPass() {
        assertThat(Cycle.counted(0, PASS_COUNT, 0, 0.01, 530, 0.26, 1, 12, 0.02).passes())
                .isEmpty();
        assertThat(new PassCourse(List.of(new Cycle(List.of()))).passes()).isZero();
    }

    @Test
    void morePassesThanAnyWorkHasAreNotGoneThrough() {
        assertThatThrownBy(() -> Cycle.counted(0, PASS_COUNT_BY_STRAIN, 1, 1e-6))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Cycle.counted(0, ANNEALS, 1, 0.5, 0.2))
                .isInstanceOf(IllegalArgumentException.class);
    }

    /** ε, ε₀, K, n, t, W, b. */
    private static double[] inputs(SplittableRandom random) {
        double n = random.nextDouble(0.05, 0.55);
        return new double[] {
            random.nextDouble(0.001, 0.6),
            Math.pow(random.nextDouble(0.1, 0.8), 1 / n),
            random.nextDouble(100, 1500),
            n,
            random.nextDouble(0.5, 6),
            random.nextDouble(2, 30),
            random.nextDouble(0.004, 0.03)
        };
    }

    private static boolean byWork(double strain, double[] x) {
        return x[4] * x[2] * Math.pow(x[1] + strain, x[3]) / x[5] > 1 / x[6];
    }

    private static double byNumbers(double from, double to, double[] x) {
        // the kink lies where both limits are equal; find it by halving, not by the formula
        double kink = from;
        if (byWork(to, x) && !byWork(from, x)) {
            double low = from;
            double high = to;
            for (int i = 0; i < 80; i++) {
                double middle = (low + high) / 2;
                if (byWork(middle, x)) {
                    high = middle;
                } else {
                    low = middle;
                }
            }
            kink = high;
        }
        return simpson(from, kink, x) + simpson(kink, to, x);
    }

    /** In u, with x = from + (to − from)·u⁶: σ may rise steeply at its beginning. */
    private static double simpson(double from, double to, double[] x) {
        int steps = 2000;
        double sum = 0;
        for (int i = 0; i <= steps; i++) {
            double u = (double) i / steps;
            double at = from + (to - from) * Math.pow(u, 6);
            double weight = i == 0 || i == steps ? 1 : i % 2 == 1 ? 4 : 2;
            double work = x[4] * x[2] * Math.pow(x[1] + at, x[3]) / x[5];
            sum += weight * Math.max(1 / x[6], work) * 6 * Math.pow(u, 5);
        }
        return sum * (to - from) / steps / 3;
    }
}
