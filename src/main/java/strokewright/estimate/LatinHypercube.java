package strokewright.estimate;

import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.concurrent.ConcurrentHashMap;
import org.hipparchus.distribution.RealDistribution;

/**
 * Latin hypercube: every parameter takes the middle of each of as many strata of equal chance as
 * there are trials once, in an order of its own. The order hangs on the seed and on the parameter's
 * name alone, so that another line added or taken out leaves all others as they were. McKay,
 * Beckman and Conover 1979, Technometrics 21(2).
 */
final class LatinHypercube implements Draws {

    /** Quantiles of a beta are reckoned at so many places of the normal scale, and between them. */
    private static final double BETA_STEP = 0.02;

    private static final double BETA_END = 5;
    private static final int MOST_BETAS = 200;
    private static final Map<Double, double[]> BETAS = new ConcurrentHashMap<>();

    private final int trials;
    private final long seed;
    private final double[] scores;
    private final Map<String, int[]> orders = new HashMap<>();
    private final Map<Double, double[]> logNormals = new HashMap<>();
    private final Map<Key, double[]> drawn = new HashMap<>();
    private final Map<String, Parameter> asked = new LinkedHashMap<>();

    private record Key(String name, double exponent) {}

    LatinHypercube(int trials, long seed) {
        this.trials = trials;
        this.seed = seed;
        this.scores = NormalScores.of(trials);
    }

    @Override
    public int trials() {
        return trials;
    }

    /** Parameters that were asked for and can move, in the order in which they were. */
    Collection<Parameter> asked() {
        return asked.values();
    }

    @Override
    public double[] of(Parameter parameter, double exponent) {
        return drawn.computeIfAbsent(
                new Key(parameter.name(), exponent), k -> draw(parameter, exponent));
    }

    private double[] draw(Parameter parameter, double exponent) {
        double[] draws = new double[trials];
        if (parameter.isCertain()) {
            Arrays.fill(draws, 1);
            return draws;
        }
        asked.putIfAbsent(parameter.name(), parameter);
        double[] rising =
                parameter.isFactor()
                        ? logNormals.computeIfAbsent(parameter.sigma() * exponent, this::logNormal)
                        : threePoint(parameter);
        int[] order = orders.computeIfAbsent(parameter.name(), this::order);
        for (int t = 0; t < trials; t++) {
            draws[t] = rising[order[t]];
        }
        return draws;
    }

    private double[] logNormal(double sigma) {
        double[] rising = new double[trials];
        for (int i = 0; i < (trials + 1) / 2; i++) {
            double factor = StrictMath.exp(sigma * scores[i]);
            rising[i] = factor;
            rising[trials - 1 - i] = 1 / factor;
        }
        return rising;
    }

    private double[] threePoint(Parameter parameter) {
        double span = parameter.high() - parameter.low();
        double[] rising = new double[trials];
        RealDistribution unit = parameter.onUnit();
        if (parameter.kind() == Spread.Kind.TRIANGULAR) {
            for (int i = 0; i < trials; i++) {
                rising[i] =
                        parameter.low()
                                + span * unit.inverseCumulativeProbability((i + 0.5) / trials);
            }
            return rising;
        }
        double[] places = beta((parameter.mode() - parameter.low()) / span, unit);
        for (int i = 0; i < trials; i++) {
            double place = (scores[i] + BETA_END) / BETA_STEP;
            int below = (int) Math.max(0, Math.min(places.length - 2, Math.floor(place)));
            double between = place - below;
            rising[i] =
                    parameter.low()
                            + span * (places[below] * (1 - between) + places[below + 1] * between);
        }
        return rising;
    }

    private static double[] beta(double mode, RealDistribution unit) {
        double[] kept = BETAS.get(mode);
        if (kept != null) {
            return kept;
        }
        double[] places = new double[(int) Math.round(2 * BETA_END / BETA_STEP) + 1];
        for (int i = 0; i < places.length; i++) {
            places[i] =
                    unit.inverseCumulativeProbability(NormalScores.below(i * BETA_STEP - BETA_END));
        }
        if (BETAS.size() < MOST_BETAS) {
            BETAS.put(mode, places);
        }
        return places;
    }

    /** Fisher and Yates; without the bounded numbers of the library, which may change with it. */
    private int[] order(String name) {
        SplittableRandom random = new SplittableRandom(seed ^ hash(name));
        int[] order = new int[trials];
        for (int i = 0; i < trials; i++) {
            order[i] = i;
        }
        for (int i = trials - 1; i > 0; i--) {
            int other = (int) (((random.nextLong() >>> 32) * (i + 1)) >>> 32);
            int kept = order[i];
            order[i] = order[other];
            order[other] = kept;
        }
        return order;
    }

    /** FNV-1a with 64 bits: the same on every machine, and no two names are likely to share it. */
    private static long hash(String name) {
        long hash = 0xcbf29ce484222325L;
        for (int i = 0; i < name.length(); i++) {
            hash = (hash ^ name.charAt(i)) * 0x100000001b3L;
        }
        return hash;
    }
}
