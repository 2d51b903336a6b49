package strokewright.forming;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/** The formulas of forming against handbook figures; sources stand in the table. */
class PublishedFiguresTest {

    @ParameterizedTest(name = "{0} of {1}: {4}")
    @CsvFileSource(
            resources = "/forming/published.csv",
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
        FormingFormula formula =
                Arrays.stream(FormingFormula.values())
                        .filter(f -> f.code().equals(code))
                        .findFirst()
                        .orElseThrow();
        double[] x = Arrays.stream(inputs.split(" ")).mapToDouble(Double::parseDouble).toArray();

        assertThat(formula.apply(x)).isCloseTo(expected, within(tolerance));
    }

    /** Length lost at the edge is height times angle, whatever the radius (geometry). */
    @Test
    void lengthLostByShrinkingIsHeightTimesAngle() {
        for (double radius : new double[] {100, 300, 1200}) {
            double heel = radius * Math.PI / 2;
            double strain = FormingFormula.CURVE_EDGE_SHRINK_STRAIN.apply(25, radius, 0);
            assertThat(heel * (1 - Math.exp(-strain))).isCloseTo(39.270, within(5e-4));
        }
    }

    /** True strains add up, engineering ones do not: curving in two goes is curving in one. */
    @Test
    void strainsOfTwoGoesAddUpToTheStrainOfOne() {
        for (FormingFormula strain :
                new FormingFormula[] {
                    FormingFormula.CURVE_EDGE_SHRINK_STRAIN,
                    FormingFormula.CURVE_EDGE_STRETCH_STRAIN
                }) {
            double first = strain.apply(25, 900, 0);
            double second = strain.apply(25, 300, 1 / 900.0);
            assertThat(first + second).isCloseTo(strain.apply(25, 300, 0), within(1e-12));
        }
    }

    /** Blank diameters by equal area: Machinery's Handbook, diameters of shell blanks. */
    @Test
    void flatDiscsHaveTheDiametersOfTheHandbook() {
        assertThat(FlatDisc.equalAreaOfFlangedDiscMm(80, 60)).isCloseTo(160.000, within(5e-4));
        assertThat(FlatDisc.equalAreaOfCollaredBowlMm(100, 50, 20))
                .isCloseTo(172.0465, within(5e-5));
        assertThat(FlatDisc.equalAreaOfCollaredBowlMm(300, 60, 30))
                .isCloseTo(379.4733, within(5e-5));
    }
}
