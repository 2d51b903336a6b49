package strokewright.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class GaugeTest {

    @ParameterizedTest(name = "gauge {0}")
    @CsvFileSource(resources = "/sheet/gauges.csv", numLinesToSkip = 4)
    void agreesWithThePrintedTables(
            int gauge, double steel, double galvanised, double stainless, double aluminium) {
        // printed to three decimals of a millimetre, 1.5875 as 1.587
        assertThat(mm(Gauge.STEEL, gauge)).isEqualTo(steel, within(0.00051));
        assertThat(mm(Gauge.GALVANISED, gauge)).isEqualTo(galvanised, within(0.00051));
        assertThat(mm(Gauge.STAINLESS, gauge)).isEqualTo(stainless, within(0.0011));
        assertThat(mm(Gauge.ALUMINIUM, gauge)).isEqualTo(aluminium, within(0.00051));
    }

    @Test
    void knowsNoThicknessOutsideItsTables() {
        assertThat(Gauge.STEEL.thicknessMm(9)).isEmpty();
        assertThat(Gauge.STEEL.thicknessMm(10)).isPresent();
        assertThat(Gauge.ALUMINIUM.thicknessMm(24)).isPresent();
        assertThat(Gauge.ALUMINIUM.thicknessMm(25)).isEmpty();
    }

    private static double mm(Gauge table, int gauge) {
        return table.thicknessMm(gauge).orElseThrow();
    }
}
