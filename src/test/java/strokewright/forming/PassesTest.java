package strokewright.forming;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PassesTest {

    /** Worked figures of the method, computed independently. */
    @ParameterizedTest
    @CsvSource({
        "0.10, 205, 530, 0.26, 1, 12, 0.020, 5.0000",
        "0.10, 205, 530, 0.26, 6, 12, 0.020, 13.3427",
        "0.20, 240, 1275, 0.45, 4, 12, 0.020, 32.2355",
        "0.143, 35, 180, 0.20, 2, 12, 0.020, 7.1500",
    })
    void agreesWithTheWorkedFigures(
            double strain,
            double proof,
            double k,
            double n,
            double thickness,
            double work,
            double bite,
            double expected) {
        double offset = Math.pow(proof / k, 1 / n);

        assertThat(Passes.needed(strain, offset, k, n, thickness, work, bite))
                .isCloseTo(expected, within(5e-5));
    }

    /**
     * Plastic work per volume up to strain 0.30 of K 530, n 0.26 is 92.274 MJ/m³ (Kalpakjian and
     * Schmid, Manufacturing Engineering and Technology, chapter 2; derived): a pass that gives just
     * that to 1 mm of sheet, and is not held by its bite, is one pass.
     */
    @Test
    void onePassGivesThePlasticWorkOfTheTextbook() {
        assertThat(Passes.needed(0.30, 0, 530, 0.26, 1, 92.274, 1e9)).isCloseTo(1, within(1e-5));
    }

    /**
     * Swift 1952, J. Mech. Phys. Solids 1, with K 530, n 0.26, ε₀ 0.02: at the strain n − ε₀ = 0.24
     * the flow stress is 373.40 MPa (derived). Where the work alone holds, the passes rise with the
     * strain as the flow stress does.
     */
    @Test
    void passesRiseWithTheFlowStressOfSwift() {
        double step = 1e-5;
        double rise =
                Passes.needed(0.24 + step, 0.02, 530, 0.26, 1, 1, 1e9)
                        - Passes.needed(0.24 - step, 0.02, 530, 0.26, 1, 1, 1e9);

        assertThat(rise / (2 * step)).isCloseTo(373.40, within(5e-3));
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void equalsTheIntegralByNumbers(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 40; i++) {
            double strain = random.nextDouble(0.001, 0.6);
            double k = random.nextDouble(100, 1500);
            double n = random.nextDouble(0.05, 0.55);
            double offset = Math.pow(random.nextDouble(0.1, 0.8), 1 / n);
            double thickness = random.nextDouble(0.5, 6);
            double work = random.nextDouble(2, 30);
            double bite = random.nextDouble(0.004, 0.03);

            double byNumbers = integral(strain, offset, k, n, thickness, work, bite);

            assertThat(Passes.needed(strain, offset, k, n, thickness, work, bite))
                    .isCloseTo(byNumbers, within(1e-6 * byNumbers));
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {11, 12, 13})
    void moreStrainThicknessOrStrengthNeverTakesFewerPasses(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 200; i++) {
            double strain = random.nextDouble(0.001, 0.5);
            double k = random.nextDouble(100, 1500);
            double n = random.nextDouble(0.05, 0.55);
            double thickness = random.nextDouble(0.5, 6);
            double more = random.nextDouble(1, 1.5);
            double passes = Passes.needed(strain, 0.01, k, n, thickness, 8, 0.015);

            assertThat(Passes.needed(strain * more, 0.01, k, n, thickness, 8, 0.015))
                    .isGreaterThanOrEqualTo(passes);
            assertThat(Passes.needed(strain, 0.01, k * more, n, thickness, 8, 0.015))
                    .isGreaterThanOrEqualTo(passes - 1e-9);
            assertThat(Passes.needed(strain, 0.01, k, n, thickness * more, 8, 0.015))
                    .isGreaterThanOrEqualTo(passes - 1e-9);
        }
    }

    /**
     * Midpoint rule over ∫ max(1/b, t σ(x)/W) dx, straight from the definition; x = ε·u⁴ puts the
     * steps where σ rises fastest.
     */
    static double integral(
            double strain, double offset, double k, double n, double t, double w, double b) {
        int steps = 20_000;
        double sum = 0;
        for (int i = 0; i < steps; i++) {
            double u = (i + 0.5) / steps;
            double x = strain * Math.pow(u, 4);
            double sigma = k * Math.pow(offset + x, n);
            sum += Math.max(1 / b, t * sigma / w) * 4 * strain * Math.pow(u, 3) / steps;
        }
        return sum;
    }
}
