package strokewright.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;
import static strokewright.sheet.SheetFormula.BEND_ALLOWANCE;
import static strokewright.sheet.SheetFormula.BEND_FORCE;
import static strokewright.sheet.SheetFormula.DIN_COMPENSATION;
import static strokewright.sheet.SheetFormula.DIN_K;
import static strokewright.sheet.SheetFormula.OUTSIDE_SETBACK;
import static strokewright.sheet.SheetFormula.SHORTEST_LEG;
import static strokewright.sheet.SheetFormula.SPRINGBACK_RADIUS;

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
     * A second way to the radius before springback: what is let go of after bending to it, by the
     * published ratio, is the radius that was wanted; and halving finds no smaller one.
     */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3})
    void whatSpringsBackFromTheRadiusIsTheRadiusWanted(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 500; i++) {
            double t = random.nextDouble(0.3, 6);
            double r = t * Math.exp(random.nextDouble(-3, 9));
            double proof = random.nextDouble(20, 1500);
            double modulus = random.nextDouble(40, 220);
            double before = SPRINGBACK_RADIUS.apply(r, proof, modulus, t);
            double x = before * proof / (1000 * modulus * t);

            assertThat(x).isBetween(0.0, 0.5);
            assertThat(before / (4 * x * x * x - 3 * x + 1)).isCloseTo(r, withinPercentage(1e-6));
            assertThat(before).isCloseTo(halved(r, proof / (1000 * modulus * t)), within(1e-6 * r));
        }
    }

    /** Curvatures: 1/r = 1/R − 3e + 4e³R², which rises with 1/R. */
    private static double halved(double r, double e) {
        double flat = 2 * e;
        double sharp = 1 / r + 3 * e;
        for (int i = 0; i < 200; i++) {
            double middle = (flat + sharp) / 2;
            if (middle - 3 * e + 4 * e * e * e / (middle * middle) > 1 / r) {
                sharp = middle;
            } else {
                flat = middle;
            }
        }
        return 1 / flat;
    }

    @Test
    void strongerThinnerAndWiderBendsSpringBackMore() {
        double usual = SPRINGBACK_RADIUS.apply(10, 200, 210, 1) / 10;

        assertThat(usual).isLessThan(1);
        assertThat(SPRINGBACK_RADIUS.apply(10, 400, 210, 1) / 10).isLessThan(usual);
        assertThat(SPRINGBACK_RADIUS.apply(10, 200, 70, 1) / 10).isLessThan(usual);
        assertThat(SPRINGBACK_RADIUS.apply(10, 200, 210, 0.5) / 10).isLessThan(usual);
        assertThat(SPRINGBACK_RADIUS.apply(20, 200, 210, 1) / 20).isLessThan(usual);
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
