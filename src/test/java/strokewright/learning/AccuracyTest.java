package strokewright.learning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import strokewright.learning.Accuracy.Pair;

/** Measures of accuracy by hand, and on hours that others published. */
class AccuracyTest {

    @Test
    void measuresAreWhatTheirNamesSay() {
        List<Pair> pairs = new ArrayList<>();
        for (int i = 0; i < 5; i++) {
            pairs.add(pair(i, 10, 10, 12.0));
            pairs.add(pair(i, 10, 8, 9.0));
        }
        pairs.add(pair(10, 10, 20, 12.0));

        Accuracy accuracy = Accuracy.of(pairs);

        assertThat(accuracy.jobs()).isEqualTo(11);
        assertThat(accuracy.meanErrorPercent())
                .isCloseTo(100 * (5 * 0.25 + 0.5) / 11, within(1e-9));
        assertThat(accuracy.medianErrorPercent()).isCloseTo(25, within(1e-9));
        assertThat(accuracy.within25Percent()).isCloseTo(100 * 10 / 11.0, within(1e-9));
        assertThat(accuracy.biasPercent()).isCloseTo(0, within(1e-9));
        assertThat(accuracy.p80Jobs()).isEqualTo(11);
        assertThat(accuracy.p80CoveragePercent()).isNull();
    }

    @Test
    void tooFewJobsGiveNoFigures() {
        List<Pair> nine = new ArrayList<>();
        for (int i = 0; i < Accuracy.FEWEST - 1; i++) {
            nine.add(pair(i, 10, 11, 12.0));
        }
        assertThat(Accuracy.of(nine).tooFew()).isTrue();
        assertThat(Accuracy.of(nine).meanErrorPercent()).isNull();
        nine.add(pair(9, 10, 11, 12.0));
        assertThat(Accuracy.of(nine).tooFew()).isFalse();
        assertThat(Accuracy.of(nine).biasPercent()).isCloseTo(10, within(1e-9));
        assertThat(Accuracy.of(List.of()).jobs()).isZero();
    }

    @Test
    void coverageIsCountedFromTwentyOn() {
        List<Pair> pairs = new ArrayList<>();
        for (int i = 0; i < Accuracy.FEWEST_FOR_COVERAGE; i++) {
            pairs.add(pair(i, 10, i < 15 ? 9 : 13, 12.0));
        }
        assertThat(Accuracy.of(pairs).p80CoveragePercent()).isCloseTo(75, within(1e-9));
        assertThat(Accuracy.of(pairs.subList(0, 19)).p80CoveragePercent()).isNull();
    }

    /** Figures of the whole set reckoned apart from the code here. */
    @Test
    void publishedHoursAreMeasuredAndReplayed() {
        List<Pair> pairs = published();
        Accuracy estimated = Accuracy.of(pairs);

        assertThat(pairs).hasSize(145);
        assertThat(estimated.meanErrorPercent()).isCloseTo(26.349564, within(1e-3));
        assertThat(estimated.medianErrorPercent()).isCloseTo(16.650988, within(1e-3));
        assertThat(estimated.within25Percent()).isCloseTo(62.068966, within(1e-3));
        assertThat(estimated.biasPercent()).isCloseTo(9.003757, within(1e-3));

        List<Pair> replayed = Replay.ofPairs(pairs);
        Accuracy learned = Accuracy.of(replayed);

        assertThat(replayed).hasSize(144);
        assertThat(learned.p80CoveragePercent()).isBetween(77.0, 88.0);
        assertThat(learned.meanErrorPercent()).isLessThan(estimated.meanErrorPercent());
    }

    @Test
    void aSteadyErrorIsReplayedAway_seed4() {
        Random random = new Random(4);
        List<Pair> pairs = new ArrayList<>();
        for (int i = 0; i < 120; i++) {
            double estimated = 5 + 20 * random.nextDouble();
            pairs.add(
                    pair(
                            i,
                            estimated,
                            estimated * Math.exp(0.3 + 0.2 * random.nextGaussian()),
                            null));
        }
        Accuracy before = Accuracy.of(pairs);
        Accuracy after = Accuracy.of(Replay.ofPairs(pairs));

        assertThat(before.biasPercent()).isGreaterThan(25);
        assertThat(after.biasPercent()).isBetween(-6.0, 10.0);
        assertThat(after.meanErrorPercent()).isLessThan(before.meanErrorPercent() - 5);
        assertThat(after.p80CoveragePercent()).isBetween(72.0, 88.0);
    }

    @Test
    void nothingLaterIsKnownBefore() {
        List<Pair> pairs = published();
        List<Pair> beginning = pairs.subList(0, 60);

        assertThat(Replay.ofPairs(pairs).subList(0, 59)).isEqualTo(Replay.ofPairs(beginning));
    }

    private static Pair pair(int n, double estimated, double actual, Double p80) {
        return new Pair("J-" + n, LocalDate.EPOCH.plusDays(n), null, estimated, actual, p80);
    }

    private static List<Pair> published() {
        try (InputStream file =
                AccuracyTest.class.getResourceAsStream(
                        "/learning/estimated-and-actual-hours.csv")) {
            return new String(file.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .filter(line -> line.matches("\\d.*"))
                    .map(line -> line.split(","))
                    .map(
                            c ->
                                    new Pair(
                                            c[0],
                                            LocalDate.parse(c[1]),
                                            null,
                                            Double.parseDouble(c[2]),
                                            Double.parseDouble(c[3]),
                                            null))
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
