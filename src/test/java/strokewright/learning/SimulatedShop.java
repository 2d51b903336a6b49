package strokewright.learning;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.random.RandomGenerator;
import strokewright.job.Booking;

/**
 * A shop whose true factors are known: kinds of work and metal families with factors of their own,
 * what a job's work has in common, and scatter.
 */
final class SimulatedShop {

    private static final LocalDate BEGINNING = LocalDate.of(2024, 1, 8);

    /** Work of a job: its kind and family, minutes as estimated and as they came. */
    record Line(int kind, int family, double estimated, double actual) {}

    record Job(int n, List<Line> lines) {
        double actual() {
            return lines.stream().mapToDouble(Line::actual).sum();
        }
    }

    private final java.util.Random normal;
    private final RandomGenerator random;
    final double[] kinds;
    final double[][] families;
    final double[] scatter;
    final double jobSpread;
    final double[] share;
    final int mostLines;
    private int n;

    /** Of everything something else: how many kinds and families, how far off, how it scatters. */
    SimulatedShop(long seed) {
        random = new SplittableRandom(seed);
        normal = new java.util.Random(random.nextLong());
        int k = random.nextInt(3, 13);
        int f = random.nextInt(1, 5);
        double level = 0.15 * normal.nextGaussian();
        double kindSpread = random.nextDouble(0.1, 0.35);
        double familySpread = random.nextDouble(0, 0.2);
        boolean alike = random.nextBoolean();
        double one = random.nextDouble(0.10, 0.35);
        jobSpread = random.nextDouble(0, 0.25);
        mostLines = random.nextInt(1, 7);
        kinds = new double[k];
        families = new double[k][f];
        scatter = new double[k];
        share = new double[k];
        for (int i = 0; i < k; i++) {
            kinds[i] = level + kindSpread * normal.nextGaussian();
            scatter[i] = alike ? one : random.nextDouble(0.10, 0.35);
            share[i] = Math.pow(random.nextDouble(), 1.5) + 0.05;
            for (int j = 0; j < f; j++) {
                families[i][j] = familySpread * normal.nextGaussian();
            }
        }
    }

    double truth(Line line) {
        return kinds[line.kind] + families[line.kind][line.family];
    }

    Job job() {
        double effect = jobSpread * normal.nextGaussian();
        int family = random.nextInt(families[0].length);
        List<Line> lines = new ArrayList<>();
        int count = random.nextInt(1, mostLines + 1);
        for (int i = 0; i < 3 * count && lines.size() < count; i++) {
            int kind = kind();
            if (lines.stream().noneMatch(l -> l.kind == kind)) {
                double estimated = 10 + 60 * Math.exp(0.7 * normal.nextGaussian());
                double y =
                        kinds[kind]
                                + families[kind][family]
                                + effect
                                + scatter[kind] * normal.nextGaussian();
                lines.add(new Line(kind, family, estimated, estimated * Math.exp(y)));
            }
        }
        return new Job(n++, lines);
    }

    private int kind() {
        double all = 0;
        for (double s : share) {
            all += s;
        }
        double at = random.nextDouble() * all;
        int k = 0;
        while (k < share.length - 1 && at > share[k]) {
            at -= share[k++];
        }
        return k;
    }

    static String kindName(int kind) {
        return "kind-" + kind;
    }

    static String familyName(int family) {
        return "family-" + family;
    }

    static List<Observation> observed(Job job) {
        return job.lines.stream()
                .map(
                        l ->
                                new Observation(
                                        "J-" + job.n,
                                        BEGINNING.plusDays(3L * job.n),
                                        kindName(l.kind),
                                        familyName(l.family),
                                        l.estimated,
                                        l.actual,
                                        Booking.Source.CLOCK,
                                        1))
                .toList();
    }
}
