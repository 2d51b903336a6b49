package strokewright.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MassTest {

    /** A square metre of 1 mm weighs a thousandth of the density (derived). */
    @ParameterizedTest(name = "{0} kg/m³: {1} kg")
    @CsvSource({"7850, 7.85", "2710, 2.71", "8000, 8.00", "8940, 8.94", "8530, 8.53", "7200, 7.20"})
    void ofASquareMetreOfOneMillimetre(double density, double kg) {
        assertThat(Mass.kg(1_000_000, 1, density)).isCloseTo(kg, within(1e-12));
        assertThat(Mass.kg(500_000, 2.5, density)).isCloseTo(1.25 * kg, within(1e-12));
    }
}
