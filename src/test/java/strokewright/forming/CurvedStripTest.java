package strokewright.forming;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class CurvedStripTest {

    @Test
    void aFlangeInsideMakesTheHeelTheOutsideOfTheRing() {
        CurvedStrip ring = new CurvedStrip(600, 360, 40, true);
        assertThat(ring.heelRadiusMm()).isEqualTo(300);
        assertThat(ring.heelLengthMm()).isEqualTo(1884.9555921538758, within(1e-9));
        assertThat(ring.blankWidthMm(80)).isEqualTo(120);
    }

    @Test
    void aFlangeOutsideBringsTheHeelInByItsHeight() {
        CurvedStrip ring = new CurvedStrip(600, 360, 40, false);
        assertThat(ring.heelRadiusMm()).isEqualTo(260);
        assertThat(ring.heelLengthMm()).isEqualTo(1633.6281798666923, within(1e-9));
    }

    @Test
    void aQuarterIsAQuarterOfTheRing() {
        CurvedStrip quarter = new CurvedStrip(600, 90, 40, true);
        assertThat(quarter.heelLengthMm()).isEqualTo(471.23889803846896, within(1e-9));
    }

    @Test
    void itsStrainIsThatOfTheEdgeCurvedToThisHeel() {
        // outside edge of the flange: from the heel's length to 2π · 300 on a heel of 2π · 260
        CurvedStrip ring = new CurvedStrip(600, 360, 40, false);
        double strain =
                FormingFormula.CURVE_EDGE_STRETCH_STRAIN.apply(
                        ring.heightMm(), ring.heelRadiusMm(), 0);
        assertThat(strain).isEqualTo(Math.log(300.0 / 260.0), within(1e-12));
    }

    @Test
    void refusesWhatIsNoRing() {
        assertThatIllegalArgumentException().isThrownBy(() -> new CurvedStrip(600, 361, 40, true));
        assertThatIllegalArgumentException().isThrownBy(() -> new CurvedStrip(600, 0, 40, true));
        assertThatIllegalArgumentException().isThrownBy(() -> new CurvedStrip(600, 90, 300, true));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new CurvedStrip(Double.NaN, 90, 30, true));
        assertThat(new CurvedStrip(600, 360, 299.9, true).heelRadiusMm()).isEqualTo(300);
    }
}
