package strokewright.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

class GaugeTest {

    @ParameterizedTest(name = "gauge {0}")
    @CsvFileSource(resources = "/sheet/gauges.csv", numLinesToSkip = 4)
    void agreesWithThePrintedTables(
            int gauge,
            double steel,
            @Nullable Double galvanised,
            double stainless,
            double aluminium) {
        // to three decimals of a millimetre; of stainless to four of an inch
        assertThat(mm(Gauge.STEEL, gauge)).isEqualTo(steel, within(0.00051));
        if (galvanised == null) {
            assertThat(Gauge.GALVANISED.thicknessMm(gauge)).isEmpty();
        } else {
            assertThat(mm(Gauge.GALVANISED, gauge)).isEqualTo(galvanised, within(0.00051));
        }
        assertThat(mm(Gauge.STAINLESS, gauge)).isEqualTo(stainless, within(0.0018));
        assertThat(mm(Gauge.ALUMINIUM, gauge)).isEqualTo(aluminium, within(0.00051));
    }

    @Test
    void knowsNoThicknessOutsideItsTables() {
        assertThat(Gauge.STEEL.thicknessMm(2)).isEmpty();
        assertThat(Gauge.STEEL.thicknessMm(3)).isPresent();
        assertThat(Gauge.ALUMINIUM.thicknessMm(30)).isPresent();
        assertThat(Gauge.ALUMINIUM.thicknessMm(31)).isEmpty();
    }

    @ParameterizedTest(name = "{0} oz")
    @CsvFileSource(resources = "/sheet/copper-ounces.csv", numLinesToSkip = 4)
    void copperByItsWeightAgreesWithThePublishedTable(int ounces, double inches) {
        // printed to four decimals of an inch, the heaviest a digit below what its weight says
        assertThat(mm(Gauge.COPPER_OUNCES, ounces) / 25.4).isEqualTo(inches, within(0.000101));
    }

    @Test
    void knowsNoCopperOfNoWeight() {
        assertThat(Gauge.COPPER_OUNCES.thicknessMm(2)).isEmpty();
        assertThat(Gauge.COPPER_OUNCES.thicknessMm(3)).isPresent();
        assertThat(Gauge.COPPER_OUNCES.thicknessMm(99)).isPresent();
        assertThat(Gauge.COPPER_OUNCES.thicknessMm(100)).isEmpty();
    }

    @Test
    void aGaugeIsTheSameSheetAsItsInches() {
        assertThat(mm(Gauge.STEEL, 16)).isEqualTo(1.51892); // 0.0598 in × 25.4
        assertThat(mm(Gauge.COPPER_OUNCES, 16)).isEqualTo(0.54864); // 0.0216 in × 25.4
        for (Gauge table : Gauge.values()) {
            for (int number = Gauge.THICKEST; number <= Gauge.THINNEST; number++) {
                table.thicknessMm(number)
                        .ifPresent(
                                mm ->
                                        assertThat(new BigDecimal(Double.toString(mm)).scale())
                                                .isLessThanOrEqualTo(5));
            }
        }
    }

    @ParameterizedTest
    @CsvSource({
        "low-carbon-steel,DC04,Low-carbon steel,steel",
        "low-carbon-steel,DX51D+Z,Coated,galvanised",
        "low-carbon-steel,DX51D+Z275,Coated,galvanised",
        "low-carbon-steel,G90,Galvanized sheet,galvanised",
        "galvanised-steel,X,Sheet,galvanised",
        "stainless,X5CRNI18-10,Stainless,stainless",
        "stainless-steel,1.4301,Stainless,stainless",
        "aluminium-magnesium,ALMG3,Sheet,aluminium",
        "copper,CU-DHP,Sheet,copper",
        "brass,CUZN30,Sheet,aluminium",
        "zinc,ZN-CU-TI,Sheet,",
        "titanium,TI2,Sheet,",
        ",OWN,Sheet,"
    })
    void aBareGaugeIsReadByTheTableOfTheGrade(
            @Nullable String family, String code, String name, @Nullable String table) {
        assertThat(Gauge.tableOf(family, code, name)).isEqualTo(table);
    }

    private static double mm(Gauge table, int gauge) {
        return table.thicknessMm(gauge).orElseThrow();
    }
}
