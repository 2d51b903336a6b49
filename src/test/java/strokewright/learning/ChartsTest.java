package strokewright.learning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

class ChartsTest {

    @Test
    void theIndividualsChartHasThePublishedLimits() {
        Individuals chart = Individuals.of(Published.sample("individuals"));

        assertThat(chart.centre()).isCloseTo(50.81, within(1e-9));
        assertThat(chart.movingRange()).isCloseTo(1.8778, within(5e-5));
        assertThat(chart.upper()).isCloseTo(55.8041, within(5e-5));
        assertThat(chart.lower()).isCloseTo(45.8159, within(5e-5));
        assertThat(chart.mostRange()).isCloseTo(6.1347, within(5e-4));
    }

    @Test
    void theEwmaGoesAsPublishedAndStaysWithinItsLimits() {
        double[] values = Published.sample("ewma");
        double[] means = Published.sample("ewma-means");
        Ewma chart = new Ewma(0.3, 50);

        for (int i = 0; i < values.length; i++) {
            assertThat(chart.add(values[i])).isCloseTo(means[i], within(6e-3));
            assertThat(chart.isOff(3, 2.0539)).isFalse();
        }

        assertThat(50 + 3 * chart.sigma(2.0539)).isCloseTo(52.5884, within(6e-4));
    }

    @Test
    void theCusumSignalsWhereItIsKnownTo() {
        double[] values = Published.sample("cusum");
        Cusum chart = new Cusum(325, 0.3175, 4.1959);
        double mostDown = 0;
        int first = 0;
        double up = 0;
        for (int i = 0; i < values.length; i++) {
            chart.add(values[i]);
            mostDown = Math.max(mostDown, chart.down());
            if (i == 12) {
                assertThat(chart.up()).isCloseTo(3.007, within(1e-3));
            }
            if (chart.signals() && first == 0) {
                first = i + 1;
                up = chart.up();
                assertThat(chart.since()).isEqualTo(12);
            }
        }

        assertThat(first).isEqualTo(14);
        assertThat(up).isCloseTo(4.940, within(1e-3));
        assertThat(chart.up()).isCloseTo(19.035, within(1e-3));
        assertThat(mostDown).isCloseTo(0.715, within(1e-3));
    }

    /** Montgomery, Introduction to Statistical Quality Control, table 9.3, from memory. */
    @Test
    void theCusumRunsAsLongAsTabled() {
        assertThat(runLength(4, 0)).isCloseTo(168, within(8.0));
        assertThat(runLength(4, 1)).isCloseTo(8.4, within(0.2));
        assertThat(runLength(5, 0)).isCloseTo(465, within(20.0));
        assertThat(runLength(5, 1)).isCloseTo(10.4, within(0.2));
    }

    private static double runLength(double limit, double shift) {
        Random random = new Random(3);
        int runs = 4000;
        long values = 0;
        for (int i = 0; i < runs; i++) {
            Cusum chart = new Cusum(0, 0.5, limit);
            do {
                chart.add(shift + random.nextGaussian());
                values++;
            } while (!chart.signals());
        }
        return (double) values / runs;
    }
}
