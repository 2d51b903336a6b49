package strokewright.costing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.aggregator.ArgumentsAccessor;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

class PracticeTest {

    private static final int NO_FLOOR = Integer.MAX_VALUE;

    @ParameterizedTest(name = "unit {0}")
    @CsvFileSource(resources = "/costing/unit-curve.csv", commentCharacter = '#')
    void reproducesTheUnitCurveTables(ArgumentsAccessor row) {
        int unit = row.getInteger(0);
        double[] slopes = {0.70, 0.75, 0.80, 0.85, 0.90, 0.95};
        for (int i = 0; i < slopes.length; i++) {
            Practice practice = new Practice(slopes[i], 1, NO_FLOOR);
            assertThat(practice.factor(unit)).isCloseTo(row.getDouble(1 + i), within(5.1e-5));
            assertThat(practice.sum(0, unit)).isCloseTo(row.getDouble(7 + i), within(5.1e-5));
        }
    }

    /** Exponents: Wright 1936, J. Aeronaut. Sci. 3(4); the value for 80 % seen in public text. */
    @ParameterizedTest
    @CsvSource({
        "0.70, -0.514573", "0.75, -0.415037", "0.80, -0.321928",
        "0.85, -0.234465", "0.90, -0.152003", "0.95, -0.074001"
    })
    void exponentIsTheBinaryLogarithmOfTheSlope(double slope, double exponent) {
        assertThat(new Practice(slope, 1, NO_FLOOR).exponent()).isCloseTo(exponent, within(5.1e-7));
    }

    /** Heizer and Render, Operations Management, module E (from memory): 85 %, 125 000 h. */
    @Test
    void fourthUnitOfTheTextbook() {
        Practice practice = new Practice(0.85, 1, NO_FLOOR);

        assertThat(125_000 * practice.factor(4)).isCloseTo(90_312.5, within(0.05));
        assertThat(125_000 * practice.sum(0, 4)).isCloseTo(125_000 * 3.3454, within(7.0));
    }

    @ParameterizedTest(name = "unit {0} at {1}")
    @CsvFileSource(resources = "/costing/textbook-curve.csv", commentCharacter = '#')
    void textbookTableToItsPrintedDigits(int unit, double slope, double factor, double total) {
        Practice practice = new Practice(slope, 1, NO_FLOOR);

        assertThat(practice.factor(unit)).isCloseTo(factor, within(5.1e-4));
        assertThat(practice.sum(0, unit)).isCloseTo(total, within(5.1e-4));
    }

    /**
     * Wright's own form, the average of all pieces so far: not reckoned with, but its tables share
     * the factor, and what they add from unit to unit is another way to the same figures.
     */
    @ParameterizedTest(name = "unit {0}")
    @CsvFileSource(resources = "/costing/cumulative-average-curve.csv", commentCharacter = '#')
    void factorIsTheCumulativeAverageOfWrightsForm(ArgumentsAccessor row) {
        int unit = row.getInteger(0);
        double[] slopes = {0.70, 0.75, 0.80, 0.85, 0.90, 0.95};
        for (int i = 0; i < slopes.length; i++) {
            Practice practice = new Practice(slopes[i], 1, NO_FLOOR);
            double total = unit * practice.factor(unit);
            double before = unit == 1 ? 0 : (unit - 1) * practice.factor(unit - 1);

            assertThat(total).isCloseTo(row.getDouble(1 + i), within(5.1e-5));
            assertThat(total - before).isCloseTo(row.getDouble(7 + i), within(5.1e-5));
        }
    }

    /** Published workbook page (online.flipbuilder.com/bmcx/vksq p. 330): 80 %, first unit 100. */
    @ParameterizedTest
    @CsvSource({"1, 100, 100", "2, 80, 160", "4, 64, 256", "8, 51.2, 409.6", "16, 40.96, 655.36"})
    void averagesOfThePublishedWorkbook(int unit, double average, double total) {
        Practice practice = new Practice(0.80, 1, NO_FLOOR);

        assertThat(100 * practice.factor(unit)).isCloseTo(average, within(1e-9));
        assertThat(100 * unit * practice.factor(unit)).isCloseTo(total, within(1e-9));
    }

    /**
     * The same page: what each doubling of the pieces adds, all of it and on average (the page
     * misprints 245.76 as 254.76; its own totals give the former).
     */
    @ParameterizedTest(name = "{0} to {1}")
    @CsvSource({"1, 2, 60, 60", "2, 4, 96, 48", "4, 8, 153.6, 38.4", "8, 16, 245.76, 30.72"})
    void whatADoublingAddsInThePublishedWorkbook(int from, int to, double added, double average) {
        Practice practice = new Practice(0.80, 1, NO_FLOOR);
        double more = 100 * (to * practice.factor(to) - from * practice.factor(from));

        assertThat(more).isCloseTo(added, within(1e-9));
        assertThat(more / (to - from)).isCloseTo(average, within(1e-9));
    }

    /**
     * Wideman, Learning curve mathematics, appendix 2 (published, maxwideman.com): at 80 % of the
     * average the second piece takes 60 % of the first, and the average of four is 64 %.
     */
    @Test
    void secondPieceAndAverageOfFourByTheCumulativeAverage() {
        Practice practice = new Practice(0.80, 1, NO_FLOOR);

        assertThat(2 * practice.factor(2) - 1).isCloseTo(0.60, within(1e-12));
        assertThat(practice.factor(4)).isCloseTo(0.64, within(1e-12));
    }

    /**
     * Heizer and Render, module E (from memory): the printed factors of 85 %, 0.723 and 3.345, make
     * 90 375 and 418 125 h of 125 000.
     */
    @Test
    void printedFactorsOfTheTextbookAreTheRoundedOnes() {
        Practice practice = new Practice(0.85, 1, NO_FLOOR);

        assertThat(125_000 * practice.factor(4)).isCloseTo(90_375, within(125_000 * 5.1e-4));
        assertThat(125_000 * practice.sum(0, 4)).isCloseTo(418_125, within(125_000 * 5.1e-4));
    }

    /**
     * Two readings, 80 at the second piece and 52 at the tenth, lie on a slope of 0.83067
     * (derived).
     */
    @Test
    void slopeThroughTwoReadings() {
        Practice practice = new Practice(0.83067, 10, NO_FLOOR);

        assertThat(practice.exponent()).isCloseTo(-0.267660, within(1e-5));
        assertThat(80 * practice.factor(10) / practice.factor(2)).isCloseTo(52, within(1e-3));
    }

    /**
     * Stanford-B (GAO-20-195G, appendix; from memory): 80 %, four pieces made before, the tenth of
     * this order takes 0.427592 of the first ever.
     */
    @Test
    void piecesMadeBeforeAreTheExperienceOfStanfordB() {
        Practice practice = new Practice(0.80, 1, NO_FLOOR);

        assertThat(practice.sum(4 + 9, 1)).isCloseTo(0.427592, within(5.1e-7));
        assertThat(practice.sum(4, 10) - practice.sum(4, 9)).isCloseTo(0.427592, within(5.1e-7));
    }

    /**
     * Sum of the unit curve by an integral with half a unit's correction (Camm, Evans and Womer
     * 1987, published): 80 %, 100 units, 32.6781 against the exact 32.6508.
     */
    @Test
    void sumIsNearTheIntegralOfTheCurve() {
        double b = new Practice(0.80, 1, NO_FLOOR).exponent();
        double integral = (Math.pow(100.5, 1 + b) - Math.pow(0.5, 1 + b)) / (1 + b);

        assertThat(integral).isCloseTo(32.6781, within(5.1e-5));
        assertThat(new Practice(0.80, 1, NO_FLOOR).sum(0, 100)).isCloseTo(32.6508, within(5.1e-5));
    }

    /** Reference unit and slope only scale and tilt: with unit 10 the tenth is the standard. */
    @ParameterizedTest
    @CsvSource({"0.85, 1", "0.85, 10", "0.92, 10", "0.70, 25"})
    void doublingThePiecesTakesTheSlope(double slope, int reference) {
        Practice practice = new Practice(slope, reference, NO_FLOOR);

        assertThat(practice.factor(reference)).isEqualTo(1);
        assertThat(practice.factor(24) / practice.factor(12)).isCloseTo(slope, within(1e-12));
    }

    /** DeJong 1957, Ergonomics 1 (from memory): 80 %, fixed part 0.3, tenth unit. */
    @Test
    void fixedPartDoesNotLearn() {
        double practised = new Practice(0.80, 1, NO_FLOOR).factor(10);

        assertThat(CostingFormula.RUN_MINUTES.apply(0.3, 1, 0.7, practised, 0))
                .isCloseTo(0.633557, within(5.1e-7));
    }

    @Test
    void oneOffTakesAThirdMoreThanTheTenthPiece() {
        Practice practice = new Practice(0.92, 10, 50);

        assertThat(practice.factor(1)).isCloseTo(1.319, within(5e-4));
        assertThat(practice.factor(10)).isEqualTo(1);
    }

    @Test
    void fromTheFloorUnitOnNothingGetsQuicker() {
        Practice practice = new Practice(0.92, 10, 50);

        assertThat(practice.factor(49)).isGreaterThan(practice.factor(50));
        assertThat(practice.factor(51)).isEqualTo(practice.factor(50));
        assertThat(practice.factor(100_000)).isEqualTo(practice.factor(50));
    }

    @ParameterizedTest
    @CsvSource({"0, 1", "0, 49", "0, 50", "0, 51", "0, 1000", "30, 40", "49, 2", "50, 3", "70, 30"})
    void sumIsTheSumOfTheFactors(int alreadyMade, int pieces) {
        Practice practice = new Practice(0.92, 10, 50);
        double sum = 0;
        for (int piece = alreadyMade + 1; piece <= alreadyMade + pieces; piece++) {
            sum += practice.factor(piece);
        }

        assertThat(practice.sum(alreadyMade, pieces)).isCloseTo(sum, within(1e-9));
    }
}
