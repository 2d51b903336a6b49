package strokewright.learning;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Whether one kind of work goes on as it did. Each job is compared with those before it: how far
 * off it is in standard deviations, allowing for how few they are (Hawkins 1987, The Statistician
 * 36), is summed up in a CUSUM, whose signal alone is an alarm. While the sum fills, the jobs that
 * fill it are not compared with. The jobs after an alarm tell whether it has passed: then all jobs
 * are compared with as before, otherwise only those since the change.
 *
 * @param subject kind of work, or a family of metal
 * @param points one a job, in the order in which the jobs were finished
 * @param alarms the oldest first
 */
record Drift(String subject, List<Point> points, List<Alarm> alarms) {

    static final double ALLOWANCE = 0.45;
    static final double LIMIT = 4.9;
    static final double LAMBDA = 0.2;
    static final double EWMA_WIDTH = 2.2;

    /** Before there are so many jobs to compare with, nothing is said. */
    static final int FEWEST = 6;

    /** Once the sum is so full, the jobs that filled it are no longer compared with. */
    private static final double SUSPECT = 0.4;

    /** So many jobs after an alarm tell whether it has passed; meanwhile nothing is summed up. */
    static final int SETTLING = 4;

    /** An alarm has passed when they went back by more than the rest of this share of the way. */
    private static final double STANDS = 0.7;

    /** So far off one job counts at most in the sum. */
    private static final double MOST_AT_ONCE = 2.5;

    /** A job that is farther off stands out; later ones are not compared with it. */
    static final double FARTHEST = 3;

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
     * @param passed whether the jobs after it lie where those before did
     */
    record Alarm(
            int at, int since, double before, double after, boolean ewmaAgrees, boolean passed) {

        boolean slower() {
            return after > before;
        }

        /** Hours now over hours before. */
        double factor() {
            return Math.exp(after - before);
        }

        private Alarm passedIf(double later) {
            boolean back = (later - before) / (after - before) < STANDS;
            return new Alarm(at, since, before, after, ewmaAgrees, back);
        }
    }

    /** A job's y of one subject, in the order in which jobs were finished. */
    record Value(String job, LocalDate finishedOn, double y) {}

    /** The latest alarm that has not passed. */
    Optional<Alarm> change() {
        return alarms.stream().filter(a -> !a.passed).reduce((earlier, later) -> later);
    }

    /** How many of the newest jobs came since a change. */
    int jobsSince(Alarm change) {
        return points.size() - change.since;
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
        private @Nullable Alarm open;
        private double squaresBefore;
        private double freeBefore;

        /** What later jobs are compared with: y, but the mean in place of an odd one. */
        private final double[] held;

        Watch(List<Value> values, List<Beforehand> beforehand) {
            this.values = values;
            this.beforehand = beforehand;
            held = values.stream().mapToDouble(Value::y).toArray();
        }

        Drift watched(String subject) {
            for (int i = 0; i < values.size(); i++) {
                watch(i);
            }
            settle(values.size());
            return new Drift(subject, points, alarms);
        }

        private void watch(int i) {
            settle(i);
            if (settling()) {
                skip(i);
                return;
            }
            int end = i;
            if (cusum.share() > SUSPECT) {
                end = Math.max(Math.min(i, first + FEWEST), start(cusum.since()));
            }
            int n = end - first;
            if (n < FEWEST) {
                skip(i);
                return;
            }
            Sample before = held(first, end);
            double centre = before.mean();
            Beforehand known = beforehand.get(i);
            double free = known.cases + freeBefore + n - 1;
            double sigma =
                    Math.sqrt(
                            (known.cases * known.sigma * known.sigma
                                            + squaresBefore
                                            + before.squares())
                                    / free);
            double width = sigma * Math.sqrt(1 + 1.0 / n);
            double t = (values.get(i).y - centre) / width;
            double z = normal(t, free);
            held[i] = Math.abs(z) > FARTHEST ? centre : values.get(i).y;
            cusum.add(Math.max(-MOST_AT_ONCE, Math.min(MOST_AT_ONCE, z)));
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
            open =
                    new Alarm(
                            i,
                            since,
                            held(first, since).mean(),
                            asItWas(since, i + 1),
                            ewma.isOff(EWMA_WIDTH, 1),
                            false);
            alarms.add(open);
            cusum.restart();
            ewma = new Ewma(LAMBDA, 0);
        }

        private boolean settling() {
            return open != null;
        }

        private void settle(int i) {
            if (open == null || i <= open.at + SETTLING) {
                return;
            }
            Alarm settled = open.passedIf(asItWas(open.at + 1, i));
            alarms.set(alarms.size() - 1, settled);
            if (!settled.passed) {
                squaresBefore += held(first, settled.since).squares();
                freeBefore += settled.since - first - 1;
                first = settled.since;
                for (int of = first; of <= settled.at; of++) {
                    held[of] = values.get(of).y;
                }
            }
            open = null;
        }

        private double asItWas(int from, int to) {
            return values.subList(from, to).stream().mapToDouble(Value::y).average().orElseThrow();
        }

        private Sample held(int from, int to) {
            return Sample.of(Arrays.copyOfRange(held, from, to));
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
