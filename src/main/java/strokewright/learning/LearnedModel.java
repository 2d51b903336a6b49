package strokewright.learning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.DecompositionSolver;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.jspecify.annotations.Nullable;
import strokewright.job.Booking;
import strokewright.learning.Observation.Cell;
import strokewright.learning.Shrinkage.Group;
import strokewright.learning.Shrinkage.Level;

/**
 * What finished jobs say about the shop: y of a job's work of one kind in one family is the level
 * of all work, plus what the kind adds, plus what the family adds within the kind, plus what all
 * work of the job has in common, plus scatter of the kind. All are normal. Levels and job effects
 * are shrunk together (Henderson 1975, Biometrics 31), the variances come from the data, with some
 * jobs' worth of what is assumed, so that few jobs say little.
 */
final class LearnedModel {

    /** Jobs of a kind after which an older one counts half. */
    static final double HALF_LIFE = 30;

    /** What a job counts that came before its kind of work changed: assumed. */
    static final double BEFORE_CHANGE = 0.25;

    /** Beyond so many standard deviations a job counts less: Huber's weights, squared. */
    private static final double FAR_OFF = 2.5;

    private static final double SHOP_SPREAD = 0.20;
    private static final Assumed KINDS = new Assumed(0.20, 3);
    private static final Assumed FAMILIES = new Assumed(0.10, 3);
    private static final Assumed JOBS = new Assumed(0.10, 3);
    private static final Assumed SCATTER = new Assumed(0.25, 3);

    /** Scatter of a kind starts from that of all kinds, as if it were seen in so many jobs. */
    private static final double SCATTER_ALIKE = 8;

    private static final int ROUNDS = 12;

    /** A spread that is assumed, with the number of cases that it counts for. */
    private record Assumed(double spread, double cases) {
        double variance() {
            return spread * spread;
        }

        double and(double variance, double seen) {
            return (cases * variance() + seen * variance) / (cases + seen);
        }
    }

    private final List<Cell> cells;
    private final List<String> kinds;
    private final int[] kindOfCell;
    private final int[] cell;
    private final double[] y;
    private final double[] age;
    private final double[] fineness;
    private final double[] doubt;
    private final int[][] jobs;
    private final int[] jobsOfCell;
    private final Map<String, Integer> jobsOfKind;

    private double jobVariance = JOBS.variance();
    private double betweenKinds = KINDS.variance();
    private double betweenFamilies = FAMILIES.variance();
    private double scatterOfAll = SCATTER.variance();
    private final double[] scatter;
    private final double[] scatterSeen;
    private final double[] robust;
    private double[] effects;
    private double[][] covariance;

    private LearnedModel(List<Observation> observations, Map<String, Integer> sinceChange) {
        cells = observations.stream().map(Observation::cell).distinct().toList();
        kinds = cells.stream().map(Cell::kind).distinct().toList();
        kindOfCell = cells.stream().mapToInt(c -> kinds.indexOf(c.kind())).toArray();
        cell = observations.stream().mapToInt(o -> cells.indexOf(o.cell())).toArray();
        y = observations.stream().mapToDouble(Observation::y).toArray();
        fineness = observations.stream().mapToDouble(o -> fineness(o.source())).toArray();
        doubt = observations.stream().mapToDouble(Observation::doubt).toArray();
        age = ages(observations, sinceChange);
        List<String> numbers = observations.stream().map(Observation::job).distinct().toList();
        jobs = new int[numbers.size()][];
        for (int j = 0; j < jobs.length; j++) {
            String number = numbers.get(j);
            jobs[j] =
                    IntStream.range(0, y.length)
                            .filter(i -> observations.get(i).job().equals(number))
                            .toArray();
        }
        jobsOfCell = new int[cells.size()];
        Arrays.stream(cell).forEach(c -> jobsOfCell[c]++);
        jobsOfKind = new HashMap<>();
        for (String kind : kinds) {
            jobsOfKind.put(
                    kind,
                    Observation.jobs(
                            observations.stream().filter(o -> o.kind().equals(kind)).toList()));
        }
        scatter = filled(kinds.size(), scatterOfAll);
        scatterSeen = new double[kinds.size()];
        robust = filled(y.length, 1);
    }

    /**
     * @param observations in the order in which the jobs were finished, one of each job and cell
     * @param sinceChange for a kind of work that changed, how many of its newest jobs came since
     */
    static LearnedModel of(List<Observation> observations, Map<String, Integer> sinceChange) {
        LearnedModel model = new LearnedModel(observations, sinceChange);
        model.solve();
        for (int round = 0; round < ROUNDS && !observations.isEmpty(); round++) {
            model.learnVariances();
            model.solve();
        }
        return model;
    }

    /** How much hours say by the way in which they were booked: assumed. */
    static double fineness(Booking.Source source) {
        return switch (source) {
            case CLOCK -> 1;
            case MINUTES -> 0.9;
            case SHEET -> 0.7;
        };
    }

    private static double[] filled(int length, double with) {
        double[] filled = new double[length];
        Arrays.fill(filled, with);
        return filled;
    }

    private static double[] ages(List<Observation> all, Map<String, Integer> sinceChange) {
        double[] weights = new double[all.size()];
        Map<String, Set<String>> newer = new HashMap<>();
        for (int i = all.size() - 1; i >= 0; i--) {
            Observation o = all.get(i);
            Set<String> since = newer.computeIfAbsent(o.kind(), k -> new HashSet<>());
            since.add(o.job());
            int age = since.size() - 1;
            weights[i] =
                    Math.pow(0.5, age / HALF_LIFE)
                            * (age < sinceChange.getOrDefault(o.kind(), Integer.MAX_VALUE)
                                    ? 1
                                    : BEFORE_CHANGE);
        }
        return weights;
    }

    /** What is known about new work of a kind. */
    record Known(double mean, double variance, double scatter, int jobs) {

        /** Standard deviation of y of a new job about its job effect. */
        double spread() {
            return Math.sqrt(variance + scatter);
        }
    }

    /**
     * @param family null, or one that was not seen, for work of the kind in any other family
     * @return the level of all work where the kind was not seen
     */
    Known known(String kind, @Nullable String family) {
        int k = kinds.indexOf(kind);
        int c = cells.indexOf(new Cell(kind, family));
        double[] x = new double[effects.length];
        x[0] = 1;
        if (k >= 0) {
            x[1 + k] = 1;
        }
        if (c >= 0) {
            x[1 + kinds.size() + c] = 1;
        }
        double more = (k < 0 ? betweenKinds : 0) + (c < 0 ? betweenFamilies : 0);
        int seen = c >= 0 ? jobsOfCell[c] : k >= 0 ? jobsOfKind.get(kind) : 0;
        return new Known(
                times(x, effects), quadratic(x) + more, k < 0 ? scatterOfAll : scatter[k], seen);
    }

    /** What is peculiar to a cell's family within its kind. */
    double ofFamily(Cell of) {
        int c = cells.indexOf(of);
        return c < 0 ? 0 : effects[1 + kinds.size() + c];
    }

    List<Cell> cells() {
        return cells;
    }

    List<String> kinds() {
        return kinds;
    }

    int jobs() {
        return jobs.length;
    }

    /** Standard deviation of what all work of a job quoted from a drawing has in common. */
    double jobSpread() {
        return Math.sqrt(jobVariance);
    }

    /** Weight of an observation by age, change and how finely it was booked. */
    double weight(int observation) {
        return age[observation] * fineness[observation] * robust[observation];
    }

    /** What all work of each observation's job had in common, as far as it can be told. */
    double[] jobEffects() {
        double[] of = new double[y.length];
        for (int[] job : jobs) {
            double effect = new OfJob(job, true).effect();
            Arrays.stream(job).forEach(i -> of[i] = effect);
        }
        return of;
    }

    private int kind(int i) {
        return kindOfCell[cell[i]];
    }

    private double precision(int i, boolean aged) {
        return fineness[i] * robust[i] * (aged ? age[i] : 1) / scatter[kind(i)];
    }

    private double residual(int i) {
        return y[i] - effects[0] - effects[1 + kind(i)] - effects[1 + kinds.size() + cell[i]];
    }

    /** The work of one job, whose scatter is independent beside what it has in common. */
    private final class OfJob {
        final int[] of;
        final double[] p;
        final double variance;
        final double common;

        OfJob(int[] of, boolean aged) {
            this.of = of;
            p = Arrays.stream(of).mapToDouble(i -> precision(i, aged)).toArray();
            double d = doubt[of[0]];
            variance = jobVariance * d * d;
            common = variance / (1 + variance * Arrays.stream(p).sum());
        }

        double effect() {
            double sum = 0;
            for (int a = 0; a < of.length; a++) {
                sum += p[a] * residual(of[a]);
            }
            return common * sum;
        }
    }

    /** Levels given the variances. */
    private void solve() {
        int n = 1 + kinds.size() + cells.size();
        double[][] normal = new double[n][n];
        double[] right = new double[n];
        normal[0][0] = 1 / (SHOP_SPREAD * SHOP_SPREAD);
        for (int k = 0; k < kinds.size(); k++) {
            normal[1 + k][1 + k] = 1 / betweenKinds;
        }
        for (int c = 0; c < cells.size(); c++) {
            normal[1 + kinds.size() + c][1 + kinds.size() + c] = 1 / betweenFamilies;
        }
        for (int[] of : jobs) {
            OfJob job = new OfJob(of, true);
            double[] px = new double[n];
            double py = 0;
            for (int a = 0; a < of.length; a++) {
                int[] at = at(of[a]);
                for (int r : at) {
                    px[r] += job.p[a];
                    right[r] += job.p[a] * y[of[a]];
                    for (int s : at) {
                        normal[r][s] += job.p[a];
                    }
                }
                py += job.p[a] * y[of[a]];
            }
            for (int r = 0; r < n; r++) {
                if (px[r] != 0) {
                    right[r] -= job.common * px[r] * py;
                    for (int s = 0; s < n; s++) {
                        normal[r][s] -= job.common * px[r] * px[s];
                    }
                }
            }
        }
        DecompositionSolver solver =
                new CholeskyDecomposition(MatrixUtils.createRealMatrix(normal), 1e-9, 1e-14)
                        .getSolver();
        RealMatrix inverse = solver.getInverse();
        covariance = inverse.getData();
        effects = inverse.operate(right);
    }

    private int[] at(int i) {
        return new int[] {0, 1 + kind(i), 1 + kinds.size() + cell[i]};
    }

    private double covariance(int i, int other) {
        double sum = 0;
        for (int r : at(i)) {
            for (int s : at(other)) {
                sum += covariance[r][s];
            }
        }
        return sum;
    }

    private static double times(double[] x, double[] z) {
        double sum = 0;
        for (int i = 0; i < x.length; i++) {
            sum += x[i] * z[i];
        }
        return sum;
    }

    private double quadratic(double[] x) {
        double sum = 0;
        for (int i = 0; i < x.length; i++) {
            if (x[i] != 0) {
                sum += x[i] * times(covariance[i], x);
            }
        }
        return sum;
    }

    private void learnVariances() {
        learnJobVariance();
        learnScatter();
        learnBetween();
    }

    /** By moments: what the residuals of two lines of one job have in common. */
    private void learnJobVariance() {
        double seen = 0;
        double sum = 0;
        for (int[] of : jobs) {
            double weights = 0;
            double products = 0;
            for (int a = 0; a < of.length; a++) {
                for (int b = 0; b < a; b++) {
                    double weight = precision(of[a], true) * precision(of[b], true);
                    weights += weight;
                    products +=
                            weight
                                    * (residual(of[a]) * residual(of[b]) + covariance(of[a], of[b]))
                                    / (doubt[of[a]] * doubt[of[b]]);
                }
            }
            if (weights > 0) {
                double counts = 2.0 * (of.length - 1) / of.length;
                seen += counts;
                sum += counts * products / weights;
            }
        }
        double moment = seen == 0 ? 0 : Math.max(0, sum / seen);
        jobVariance = JOBS.and(moment, seen);
    }

    /** By expected squares, given the residuals of the whole job. */
    private void learnScatter() {
        double[] squares = new double[kinds.size()];
        Arrays.fill(scatterSeen, 0);
        for (int[] of : jobs) {
            OfJob job = new OfJob(of, false);
            double effect = job.effect();
            for (int i : of) {
                double e = residual(i) - effect;
                double sd = Math.sqrt(scatter[kind(i)] / fineness[i]);
                double near = Math.min(1, FAR_OFF * sd / Math.abs(e));
                robust[i] = near * near;
            }
            for (int a = 0; a < of.length; a++) {
                int i = of[a];
                double expected = expectedSquare(job, a, effect);
                squares[kind(i)] += age[i] * fineness[i] * robust[i] * expected;
                scatterSeen[kind(i)] += age[i];
            }
        }
        double all = Arrays.stream(squares).sum();
        double seen = Arrays.stream(scatterSeen).sum();
        scatterOfAll = SCATTER.and(seen == 0 ? 0 : all / seen, seen);
        for (int k = 0; k < scatter.length; k++) {
            scatter[k] =
                    (SCATTER_ALIKE * scatterOfAll + squares[k]) / (SCATTER_ALIKE + scatterSeen[k]);
        }
    }

    /** Of the scatter of one line: what is left, with what the job and the levels leave open. */
    private double expectedSquare(OfJob job, int a, double effect) {
        double left = residual(job.of[a]) - effect;
        double open = job.common;
        for (int b = 0; b < job.of.length; b++) {
            double gb = (a == b ? 1 : 0) - job.common * job.p[b];
            for (int c = 0; c < job.of.length; c++) {
                double gc = (a == c ? 1 : 0) - job.common * job.p[c];
                open += gb * gc * covariance(job.of[b], job.of[c]);
            }
        }
        return left * left + open;
    }

    /** By moments, families within their kinds and then the kinds. */
    private void learnBetween() {
        double[] effect = jobEffects();
        double[] precision = new double[cells.size()];
        double[] sum = new double[cells.size()];
        for (int[] of : jobs) {
            OfJob job = new OfJob(of, true);
            for (int i : of) {
                double p = 1 / (1 / precision(i, true) + job.common);
                precision[cell[i]] += p;
                sum[cell[i]] += p * (y[i] - effect[i]);
            }
        }
        List<List<Group>> families = new ArrayList<>();
        kinds.forEach(k -> families.add(new ArrayList<>()));
        for (int c = 0; c < precision.length; c++) {
            families.get(kindOfCell[c]).add(new Group(sum[c] / precision[c], 1 / precision[c]));
        }
        betweenFamilies =
                FAMILIES.and(Shrinkage.between(families), cells.size() - (double) kinds.size());
        List<Group> levels = new ArrayList<>();
        for (List<Group> of : families) {
            Level level = Shrinkage.common(of, betweenFamilies);
            levels.add(new Group(level.mean(), level.variance()));
        }
        betweenKinds = KINDS.and(Shrinkage.between(List.of(levels)), kinds.size() - 1.0);
    }
}
