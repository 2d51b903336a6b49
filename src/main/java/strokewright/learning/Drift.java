package strokewright.learning;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Whether one kind of work goes on as it did. Each job is compared with those before it: how far
 * off it is in standard deviations, allowing for how few they are (Hawkins 1987, The Statistician
 * 36), is summed up in a CUSUM, whose signal alone is an alarm. Once it has given one, the jobs
 * since the change are what later ones are compared with.
 *
 * @param subject kind of work, or a family of metal
 * @param points one a job, in the order in which the jobs were finished
 * @param alarms the oldest first
 */
record Drift(String subject, List<Point> points, List<Alarm> alarms) {

    static final double ALLOWANCE = 0.4;
    static final double LIMIT = 4.75;
    static final double LAMBDA = 0.2;
    static final double EWMA_WIDTH = 2.2;

    /** Before there are so many jobs to compare with, nothing is said. */
    static final int FEWEST = 8;

    /** Once the sum is so full, the jobs that filled it are no longer compared with. */
    private static final double SUSPECT = 0.85;

    private static final double FARTHEST = 3;

    Drift {
        points = List.copyOf(points);
        alarms = List.copyOf(alarms);
    }

    /**
     * One job's y on the charts.
     *
     * @param centre mean of the jobs that it is compared with; null while they are too few
     * @param sigma standard deviation of one job
     * @param offBy standard deviations that it lies off, allowing for how little is known
     * @param standsOut by itself beyond three of them
     * @param ewmaWidth where the EWMA would be off, on either side of zero
     */
    record Point(
            String job,
            LocalDate finishedOn,
            double y,
            @Nullable Double centre,
            @Nullable Double sigma,
            @Nullable Double offBy,
            boolean standsOut,
            double up,
            double down,
            double ewma,
            double ewmaWidth) {}

    /**
     * @param at point that gave the signal
     * @param since point from which on the hours seem to have changed
     * @param before mean y until then
     * @param after mean y from then to the signal
     * @param ewmaAgrees whether the EWMA was off as well
     */
    record Alarm(int at, int since, double before, double after, boolean ewmaAgrees) {

        boolean slower() {
            return after > before;
        }

        /** Hours now over hours before. */
        double factor() {
            return Math.exp(after - before);
        }
    }

    /** A job's y of one subject, in the order in which jobs were finished. */
    record Value(String job, LocalDate finishedOn, double y) {}

    /** How many of the newest jobs came since the latest change; null without one. */
    @Nullable Integer jobsSinceChange() {
        return alarms.isEmpty() ? null : points.size() - alarms.get(alarms.size() - 1).since;
    }

    /** What is known beforehand of how jobs scatter, as of so many. */
    record Beforehand(double sigma, double cases) {}

    /**
     * @param beforehand by value: what other kinds of work showed until then
     */
    static Drift of(String subject, List<Value> values, List<Beforehand> beforehand) {
        return new Watch(values, beforehand).watched(subject);
    }

    private static final class Watch {
        private final List<Value> values;
        private final List<Beforehand> beforehand;
        private final List<Point> points = new ArrayList<>();
        private final List<Alarm> alarms = new ArrayList<>();
        private final Cusum cusum = new Cusum(0, ALLOWANCE, LIMIT);
        private Ewma ewma = new Ewma(LAMBDA, 0);
        private int first;
        private double squaresBefore;
        private double freeBefore;

        Watch(List<Value> values, List<Beforehand> beforehand) {
            this.values = values;
            this.beforehand = beforehand;
        }

        Drift watched(String subject) {
            for (int i = 0; i < values.size(); i++) {
                watch(i);
            }
            return new Drift(subject, points, alarms);
        }

        private void watch(int i) {
            int end = i;
            if (cusum.share() > SUSPECT) {
                end = Math.max(Math.min(i, first + FEWEST), start(cusum.since()));
            }
            int n = end - first;
            if (n < FEWEST) {
                skip(i);
                return;
            }
            double centre = mean(first, end);
            Beforehand known = beforehand.get(i);
            double free = known.cases + freeBefore + n - 1;
            double sigma =
                    Math.sqrt(
                            (known.cases * known.sigma * known.sigma
                                            + squaresBefore
                                            + squares(first, end))
                                    / free);
            double t = (values.get(i).y - centre) / (sigma * Math.sqrt(1 + 1.0 / n));
            double z = normal(t, free);
            cusum.add(Math.max(-FARTHEST, Math.min(FARTHEST, z)));
            ewma.add(z);
            places.add(i);
            points.add(point(i, centre, sigma, z, Math.abs(z) > FARTHEST));
            if (cusum.signals()) {
                alarm(i);
            }
        }

        /** Points of the values that were summed. */
        private final List<Integer> places = new ArrayList<>();

        private int start(int summedFrom) {
            return places.get(summedFrom);
        }

        private void skip(int i) {
            points.add(point(i, null, null, null, false));
        }

        private Point point(
                int i,
                @Nullable Double centre,
                @Nullable Double sigma,
                @Nullable Double z,
                boolean standsOut) {
            Value value = values.get(i);
            return new Point(
                    value.job,
                    value.finishedOn,
                    value.y,
                    centre,
                    sigma,
                    z,
                    standsOut,
                    cusum.up(),
                    cusum.down(),
                    ewma.mean(),
                    EWMA_WIDTH * ewma.sigma(1));
        }

        private void alarm(int i) {
            int since = start(cusum.since());
            alarms.add(
                    new Alarm(
                            i,
                            since,
                            mean(first, since),
                            mean(since, i + 1),
                            ewma.isOff(EWMA_WIDTH, 1)));
            squaresBefore += squares(first, since);
            freeBefore += since - first - 1;
            first = since;
            cusum.restart();
            ewma = new Ewma(LAMBDA, 0);
        }

        private double mean(int from, int to) {
            return values.subList(from, to).stream().mapToDouble(Value::y).average().orElseThrow();
        }

        private double squares(int from, int to) {
            double mean = mean(from, to);
            return values.subList(from, to).stream()
                    .mapToDouble(v -> (v.y - mean) * (v.y - mean))
                    .sum();
        }

        /** The normal score of a Student's t: Wallace 1959, Ann. Math. Statist. 30. */
        private static double normal(double t, double free) {
            return Math.signum(t)
                    * (8 * free + 1)
                    / (8 * free + 3)
                    * Math.sqrt(free * Math.log1p(t * t / free));
        }
    }
}
