package strokewright.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static strokewright.sheet.SheetFormula.BEND_ALLOWANCE;
import static strokewright.sheet.SheetFormula.BEND_FORCE;
import static strokewright.sheet.SheetFormula.DIN_COMPENSATION;
import static strokewright.sheet.SheetFormula.DIN_K;
import static strokewright.sheet.SheetFormula.OUTSIDE_SETBACK;
import static strokewright.sheet.SheetFormula.SHORTEST_LEG;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Bends against published figures, and against the geometry of the neutral line. */
class BendTest {

    @ParameterizedTest(name = "{0} of {1}: {4}")
    @CsvFileSource(
            resources = "/sheet/bends.csv",
            delimiter = ';',
            quoteCharacter = '\0',
            commentCharacter = '#')
    void agreesWithThePublishedFigure(
            String code,
            String inputs,
            double expected,
            double tolerance,
            String source,
            String status) {
        SheetFormula formula =
                Arrays.stream(SheetFormula.values())
                        .filter(f -> f.code().equals(code))
                        .findFirst()
                        .orElseThrow();
        double[] x = Arrays.stream(inputs.split(" ")).mapToDouble(Double::parseDouble).toArray();

        assertThat(formula.apply(x)).isCloseTo(expected, within(tolerance));
    }

    /** The neutral line lies k/2 thicknesses from the inside: chords of it, added up. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3})
    void theLengthInABendIsThatOfTheNeutralLine(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 200; i++) {
            double beta = random.nextDouble(0, 165);
            double t = random.nextDouble(0.5, 4);
            double r = random.nextDouble(0.1, 8) * t;
            double k = DIN_K.apply(r, t);
            double setback = OUTSIDE_SETBACK.apply(beta, r, t);
            double inBend = DIN_COMPENSATION.apply(beta, r, k, t, setback) + 2 * setback;

            assertThat(inBend).isCloseTo(chords(beta, r + k / 2 * t), within(1e-6));
            assertThat(inBend).isCloseTo(BEND_ALLOWANCE.apply(beta, r, k / 2, t), within(1e-9));
        }
    }

    private static double chords(double openingDeg, double radius) {
        int pieces = 20_000;
        double step = Math.toRadians(180 - openingDeg) / pieces;
        double sum = 0;
        for (int i = 0; i < pieces; i++) {
            double from = step * i;
            double to = step * (i + 1);
            sum +=
                    Math.hypot(
                            radius * (Math.cos(to) - Math.cos(from)),
                            radius * (Math.sin(to) - Math.sin(from)));
        }
        return sum;
    }

    /** The setback is where the outer corner of two straight legs lies, found by intersection. */
    @ParameterizedTest(name = "{0}°")
    @ValueSource(doubles = {90, 100, 120, 150, 170})
    void legsAreMeasuredToWhereTheirOutsidesMeet(double beta) {
        double outside = 5;
        double turn = Math.toRadians(180 - beta);
        // first leg along x with its outside at y = 0 ends at x = 0; the bend's centre is above it
        double endX = outside * Math.sin(turn);
        double endY = outside * (1 - Math.cos(turn));
        double back = endY / Math.sin(turn);
        double cornerX = endX - back * Math.cos(turn);

        assertThat(OUTSIDE_SETBACK.apply(beta, 3, 2)).isCloseTo(cornerX, within(1e-12));
        assertThat(back).isCloseTo(cornerX, within(1e-12));
    }

    /** Under 90° the outermost point of the outside arc is as far as its radius. */
    @ParameterizedTest(name = "{0}°")
    @ValueSource(doubles = {0, 30, 60, 89})
    void legsOfSharperBendsAreMeasuredToTheOutermostLine(double beta) {
        double furthest = 0;
        for (double at = 0; at <= 180 - beta; at += 0.01) {
            furthest = Math.max(furthest, 5 * Math.sin(Math.toRadians(at)));
        }
        assertThat(OUTSIDE_SETBACK.apply(beta, 3, 2)).isCloseTo(furthest, within(1e-6));
    }

    @Test
    void theNeutralLineMovesOutwardWithTheRadiusAndStopsInTheMiddle() {
        double before = -1;
        for (double r = 0; r <= 30; r += 0.05) {
            double k = DIN_K.apply(r, 2);
            assertThat(k).isBetween(Math.max(0, before), 1.0);
            before = k;
        }
        assertThat(before).isEqualTo(1);
    }

    @Test
    void aSharperBendTakesLessOfTheBlank() {
        double before = 0;
        for (double beta = 165; beta >= 90; beta--) {
            double v = DIN_COMPENSATION.apply(beta, 3, 0.74, 2, OUTSIDE_SETBACK.apply(beta, 3, 2));
            assertThat(v).isLessThan(before);
            before = v;
        }
    }

    @Test
    void theSetbackIsTheSameFromBothSidesOfARightAngle() {
        assertThat(OUTSIDE_SETBACK.apply(90, 3, 2))
                .isCloseTo(OUTSIDE_SETBACK.apply(89.999999, 3, 2), within(1e-9));
        assertThat(SHORTEST_LEG.apply(16, 90, 3, 2))
                .isCloseTo(SHORTEST_LEG.apply(16, 89.999999, 3, 2), within(1e-6));
    }

    /**
     * A machine that just bends 2 mm steel of 350 MPa: in the same die the square of the thickness
     * counts, with dies in proportion the thickness.
     */
    @Test
    void whatAMachineBendsGoesByStrengthAndThickness() {
        double rated = BEND_FORCE.apply(1.3, 350, 1000, 2, 16);

        assertThat(BEND_FORCE.apply(1.3, 600, 1000, 1.5275252, 16)).isCloseTo(rated, within(1e-4));
        assertThat(BEND_FORCE.apply(1.3, 110, 1000, 3.5675303, 16)).isCloseTo(rated, within(1e-4));
        assertThat(BEND_FORCE.apply(1.3, 600, 1000, 7.0 / 6, 8 * 7.0 / 6))
                .isCloseTo(rated, within(1e-9));
        assertThat(BEND_FORCE.apply(1.3, 110, 1000, 70.0 / 11, 8 * 70.0 / 11))
                .isCloseTo(rated, within(1e-9));
    }
}
