package strokewright.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class GeneralToleranceTest {

    /** One step of a table as printed: both of its ends and the middle, in all four classes. */
    @ParameterizedTest(name = "{0} over {1} up to {2}")
    @CsvFileSource(resources = "/sheet/general-tolerances.csv", commentCharacter = '#')
    void agreesWithThePrintedTables(
            String table, double over, double upTo, String f, String m, String c, String v) {
        String[] printed = {f, m, c, v};
        for (double size : new double[] {Math.nextUp(over), (over + upTo) / 2, upTo}) {
            for (GeneralTolerance of : GeneralTolerance.values()) {
                OptionalDouble tolerance = tolerance(table, of, size);
                String expected = printed[of.ordinal()];
                if (expected.equals("-")) {
                    assertThat(tolerance).as("%s %s", of, size).isEmpty();
                } else {
                    assertThat(tolerance.orElseThrow())
                            .as("%s %s", of, size)
                            .isCloseTo(Double.parseDouble(expected), within(1e-12));
                }
            }
        }
    }

    private static OptionalDouble tolerance(String table, GeneralTolerance of, double size) {
        return switch (table) {
            case "linear" -> of.linearMm(size);
            case "edge" -> of.edgeMm(size);
            default -> {
                OptionalDouble degrees = of.angleDeg(size);
                yield OptionalDouble.of(degrees.orElseThrow() * 60);
            }
        };
    }

    @Test
    void aStepHoldsItsUpperLimitAndNotItsLower() {
        assertThat(GeneralTolerance.C.linearMm(6)).hasValue(0.3);
        assertThat(GeneralTolerance.C.linearMm(6.01)).hasValue(0.5);
        assertThat(GeneralTolerance.M.linearMm(400)).hasValue(0.5);
        assertThat(GeneralTolerance.M.linearMm(400.001)).hasValue(0.8);
    }

    @Test
    void theFirstStepHoldsItsLowerLimitToo() {
        assertThat(GeneralTolerance.F.linearMm(0.5)).hasValue(0.05);
        assertThat(GeneralTolerance.F.edgeMm(0.5)).hasValue(0.2);
        assertThat(GeneralTolerance.F.linearMm(0.499)).isEmpty();
        assertThat(GeneralTolerance.F.edgeMm(0.499)).isEmpty();
    }

    @Test
    void hasNoToleranceBeyondItsTables() {
        assertThat(GeneralTolerance.F.linearMm(2000)).hasValue(0.5);
        assertThat(GeneralTolerance.F.linearMm(2000.1)).isEmpty();
        assertThat(GeneralTolerance.V.linearMm(3)).isEmpty();
        assertThat(GeneralTolerance.V.linearMm(3.1)).hasValue(0.5);
        assertThat(GeneralTolerance.V.linearMm(4000)).hasValue(8);
        assertThat(GeneralTolerance.V.linearMm(4000.1)).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, -1, Double.NaN, Double.NEGATIVE_INFINITY})
    void hasNoToleranceForWhatIsNoSize(double size) {
        for (GeneralTolerance of : GeneralTolerance.values()) {
            assertThat(of.linearMm(size)).isEmpty();
            assertThat(of.edgeMm(size)).isEmpty();
            assertThat(of.angleDeg(size)).isEmpty();
        }
    }

    @ParameterizedTest
    @EnumSource(GeneralTolerance.class)
    void aLargerSizeNeverHasATighterToleranceAndAnAngleNeverAWider(GeneralTolerance of) {
        double linear = 0;
        double angle = Double.POSITIVE_INFINITY;
        for (double size = 0.1; size < 5000; size *= 1.01) {
            double now = of.linearMm(size).orElse(linear);
            assertThat(now).isGreaterThanOrEqualTo(linear);
            linear = now;
            double degrees = of.angleDeg(size).orElseThrow();
            assertThat(degrees).isLessThanOrEqualTo(angle);
            angle = degrees;
        }
    }
}
