package strokewright.learning;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;

/**
 * How near estimates came to what work took. Errors are shares of what it took.
 *
 * @param jobs that were compared
 * @param tooFew fewer than {@link #FEWEST}: no figures then
 * @param meanErrorPercent mean of |estimated − actual| / actual
 * @param medianErrorPercent median of the same
 * @param within25Percent share of jobs whose error is 25 % at most
 * @param biasPercent what all jobs took more than estimated, as a share of what was estimated; less
 *     is negative
 * @param p80Jobs that had a P80
 * @param p80CoveragePercent share of them that took no more than their P80; null under {@link
 *     #FEWEST_FOR_COVERAGE}
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record Accuracy(
        int jobs,
        boolean tooFew,
        @Nullable Double meanErrorPercent,
        @Nullable Double medianErrorPercent,
        @Nullable Double within25Percent,
        @Nullable Double biasPercent,
        int p80Jobs,
        @Nullable Double p80CoveragePercent) {

    static final int FEWEST = 10;
    static final int FEWEST_FOR_COVERAGE = 20;

    private static final double WITHIN = 0.25;

    /**
     * What was estimated and what it took, in any unit.
     *
     * @param group of work that is alike; null for none
     * @param p80 null where none was given
     */
    record Pair(
            String name,
            LocalDate on,
            @Nullable String group,
            double estimated,
            double actual,
            @Nullable Double p80) {

        Pair {
            if (!(estimated > 0 && actual > 0)) {
                throw new IllegalArgumentException(name + ": " + estimated + ", " + actual);
            }
        }

        double error() {
            return Math.abs(estimated - actual) / actual;
        }
    }

    static Accuracy of(List<Pair> pairs) {
        List<Pair> withP80 = pairs.stream().filter(p -> p.p80 != null).toList();
        Double coverage =
                withP80.size() < FEWEST_FOR_COVERAGE
                        ? null
                        : Double.valueOf(100 * mean(withP80, p -> p.actual <= p.p80 ? 1 : 0));
        if (pairs.size() < FEWEST) {
            return new Accuracy(
                    pairs.size(), true, null, null, null, null, withP80.size(), coverage);
        }
        double estimated = pairs.stream().mapToDouble(Pair::estimated).sum();
        double actual = pairs.stream().mapToDouble(Pair::actual).sum();
        return new Accuracy(
                pairs.size(),
                false,
                100 * mean(pairs, Pair::error),
                100 * median(pairs),
                100 * mean(pairs, p -> p.error() <= WITHIN ? 1 : 0),
                100 * (actual / estimated - 1),
                withP80.size(),
                coverage);
    }

    private static double mean(List<Pair> pairs, ToDoubleFunction<Pair> of) {
        return pairs.stream().mapToDouble(of).average().orElseThrow();
    }

    private static double median(List<Pair> pairs) {
        double[] errors = pairs.stream().mapToDouble(Pair::error).toArray();
        Arrays.sort(errors);
        int middle = errors.length / 2;
        return errors.length % 2 == 1 ? errors[middle] : (errors[middle - 1] + errors[middle]) / 2;
    }
}
