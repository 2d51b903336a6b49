package strokewright.learning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Against certified values of the NIST Statistical Reference Datasets, univariate. */
class SampleTest {

    @ParameterizedTest
    @CsvSource({
        "michelso, 100, 299.8524, 0.0790105478190518, 0.535199668621283",
        "mavro, 50, 2.001856, 0.000429123454003053, 0.937989183438248",
        "lew, 200, -177.435, 277.332168044316, -0.307304800605679",
        "lottery, 218, 518.958715596330, 291.699727470969, -0.120948622967393"
    })
    void observedSetsHaveTheirCertifiedMeanAndDeviation(
            String set, int n, double mean, double deviation, double neighbours) {
        double[] values = Published.sample(set);
        Sample sample = Sample.of(values);

        assertThat(sample.n()).isEqualTo(n);
        assertThat(sample.mean()).isCloseTo(mean, within(1e-14 * Math.abs(mean)));
        assertThat(sample.deviation()).isCloseTo(deviation, within(1e-11 * deviation));
        assertThat(neighbours(values, sample)).isCloseTo(neighbours, within(1e-9));
    }

    /** Three values, or one and then pairs a tenth below and above it. */
    @ParameterizedTest
    @CsvSource({"10000002, 1, 1", "1.2, 0.1, 500", "1000000.2, 0.1, 500", "10000000.2, 0.1, 500"})
    void manyDigitsInCommonCostNoAccuracy(double mean, double deviation, int pairs) {
        double[] values =
                pairs == 1
                        ? new double[] {10000001, 10000003, 10000002}
                        : DoubleStream.concat(
                                        DoubleStream.of(mean),
                                        DoubleStream.iterate(-0.1, d -> -d)
                                                .limit(2L * pairs)
                                                .map(d -> rounded(mean + d)))
                                .toArray();
        Sample sample = Sample.of(values);

        assertThat(sample.mean()).isCloseTo(mean, within(2e-16 * mean));
        // the values themselves are a tenth only to a digit of the mean
        assertThat(sample.deviation()).isCloseTo(deviation, within(1e-13 + 2e-16 * mean));
        assertThat(Individuals.of(values).centre()).isEqualTo(sample.mean());
    }

    @Test
    void oneValueIsItsMean() {
        assertThat(Sample.of(new double[] {7})).isEqualTo(new Sample(1, 7, 0));
    }

    private static double rounded(double value) {
        return Math.round(value * 10) / 10.0;
    }

    /** Lag-1 autocorrelation. */
    private static double neighbours(double[] values, Sample sample) {
        double sum = 0;
        for (int i = 1; i < values.length; i++) {
            sum += (values[i] - sample.mean()) * (values[i - 1] - sample.mean());
        }
        return sum / sample.squares();
    }
}
