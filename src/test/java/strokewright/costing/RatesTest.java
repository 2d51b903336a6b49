package strokewright.costing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class RatesTest {

    /**
     * A published exercise on the machine-hour rate (public page of a business administration
     * course): replacement 1 040 000, 3600 h; printed 29.17, 16.67, 2.50, 4.90 and 0.04 an hour.
     * Its energy price of 0.35 is taken with 14 kWh each hour; its tool cost is no machine cost
     * here.
     */
    @Test
    void machineHourRateOfThePublishedExercise() {
        MachineHourRate rate =
                new MachineHourRate(
                        1_040_000.0,
                        10_000.0,
                        800_000.0,
                        10.0,
                        15.0,
                        20.0,
                        8.0,
                        14.0,
                        1.0,
                        0.35,
                        9_000.0,
                        3_600.0);

        assertThat(rate.depreciationPerHour()).isCloseTo(29.17, within(5e-3));
        assertThat(rate.interestPerHour()).isCloseTo(16.67, within(5e-3));
        assertThat(rate.maintenancePerHour()).isCloseTo(2.50, within(5e-3));
        assertThat(rate.energyPerHour()).isCloseTo(4.90, within(5e-3));
        assertThat(rate.spacePerHour()).isCloseTo(0.04, within(5e-3));
        assertThat(rate.perHour()).isCloseTo(70.811 - 2630.0 / 150, within(5e-3));
    }

    /** A forming machine of an invented shop, recomputed by hand. */
    @Test
    void machineHourRateOfAFormingMachine() {
        assertThat(formingMachine(900).perHour()).isCloseTo(9.553778, within(5.1e-7));
        assertThat(formingMachine(450).perHour()).isCloseTo(18.711556, within(5.1e-7));
    }

    private static MachineHourRate formingMachine(double hours) {
        return new MachineHourRate(
                48_000.0,
                0.0,
                42_000.0,
                12.0,
                5.0,
                14.0,
                9.0 * 12.0,
                2.2,
                0.6,
                0.30,
                0.04 * 42_000.0,
                hours);
    }

    /** Derived: 2080 paid, 392 absent, 85 % productive, 24 an hour with 21 % on-costs. */
    @Test
    void labourRateOfAProductiveHour() {
        LabourRate rate = new LabourRate(24.0, 21.0, 2080.0, (30.0 + 11.0 + 8.0) * 8.0, 85.0);

        assertThat(rate.presentHours()).isEqualTo(1688);
        assertThat(rate.productiveHours()).isCloseTo(1434.8, within(1e-9));
        assertThat(rate.perProductiveHour()).isCloseTo(42.0987, within(5.1e-5));
    }

    /** Stevenson, Operations Management, chapter 7: 15 % on a normal time of 18 minutes. */
    @Test
    void allowanceOnNormalTime() {
        assertThat(CostingFormula.STANDARD_MINUTES.apply(18, 15)).isEqualTo(20.7);
    }

    /** Set-up and quantity times unit time (work-study scheme, from memory): 168 minutes. */
    @Test
    void setUpAndRunOfTheWorkStudyScheme() {
        assertThat(30 + CostingFormula.RUN_MINUTES.apply(10, 12, 0, 0, 15)).isEqualTo(168.0);
    }
}
