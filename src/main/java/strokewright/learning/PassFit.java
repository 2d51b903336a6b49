package strokewright.learning;

import static strokewright.learning.LeastSquares.product;
import static strokewright.learning.LeastSquares.sumOfSquares;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.hipparchus.exception.MathIllegalStateException;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresOptimizer.Optimum;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.util.Pair;
import org.jspecify.annotations.Nullable;

/**
 * Bite b and work per area W from readings, by least squares of the strokes, each weighed by
 * 1/strokes: what is counted up scatters about as its root grows.
 *
 * <p>Strokes are (1/b)·G(s), s = W/b: only the shape depends on s, and with s given the best b
 * follows directly. So every s for which the readings can tell something is looked at first, from
 * where the work alone holds all of them to where the bite alone does, and Levenberg–Marquardt
 * starts from the best of them, in ln b and ln W. When one limit alone explains the readings as
 * well (F-test at 95 %), the other is only bounded.
 *
 * @param bite b; null when the readings tell neither limit from the other
 * @param work W; null likewise
 * @param modelBite for reckoning strokes; infinite where only the work holds
 * @param modelWork for reckoning strokes; infinite where only the bite holds
 */
record PassFit(
        @Nullable Fitted bite,
        @Nullable Fitted work,
        double modelBite,
        double modelWork,
        int degreesOfFreedom,
        double residualSd) {

    private static final int SHAPES = 200;
    private static final int STARTS = 3;

    /**
     * Below this share of the strokes readings are exact, and all differences are of the double.
     */
    private static final double EXACT = 1e-9;

    /**
     * @param readings at least 3
     */
    static PassFit of(List<Observed> readings) {
        return new Search(readings).fit();
    }

    private static final class Search {

        private final List<Observed> readings;
        private final double[] target;
        private final double floor;
        private final List<Shape> shapes;

        Search(List<Observed> readings) {
            this.readings = readings;
            target = weighed(Observed::strokes);
            floor = EXACT * EXACT * sumOfSquares(target);
            double low = readings.stream().mapToDouble(Observed::firstForce).min().orElseThrow();
            double high = readings.stream().mapToDouble(Observed::lastForce).max().orElseThrow();
            shapes =
                    IntStream.rangeClosed(0, SHAPES)
                            .mapToObj(i -> low * Math.pow(high / low, i / (double) SHAPES))
                            .map(this::shape)
                            .toList();
        }

        /**
         * @param force s = W/b, N/mm
         * @param perBite G, strokes times b, weighed
         * @param inverseBite 1/b that fits best
         * @param left sum of squares of the weighed residuals
         */
        private record Shape(double force, double[] perBite, double inverseBite, double left) {

            /** The smallest bite with which this shape leaves no more than so much. */
            double smallestBite(double most) {
                return 1
                        / (inverseBite
                                + Math.sqrt(Math.max(0, most - left) / sumOfSquares(perBite)));
            }
        }

        private Shape shape(double force) {
            double[] perBite = weighed(r -> r.strokesBy(1, force));
            double inverse = product(perBite, target) / sumOfSquares(perBite);
            double[] residuals = new double[target.length];
            for (int i = 0; i < target.length; i++) {
                residuals[i] = target[i] - inverse * perBite[i];
            }
            return new Shape(force, perBite, inverse, sumOfSquares(residuals));
        }

        PassFit fit() {
            int free = target.length - 2;
            double t = LeastSquares.t(free);
            Best best = best();
            double asGood = floor + best.left * (1 + t * t / free);
            Shape byWork = shapes.get(0);
            Shape byBite = shapes.get(SHAPES);
            boolean workExplains = byWork.left <= asGood;
            boolean biteExplains = byBite.left <= asGood;
            if (workExplains && biteExplains) {
                boolean bite = byBite.left <= byWork.left;
                return neither(bite ? byBite : byWork, bite);
            }
            if (biteExplains) {
                return biteOnly(byBite, lowest(asGood, s -> s.force * s.smallestBite(asGood)));
            }
            if (workExplains) {
                return workOnly(byWork, lowest(asGood, s -> s.smallestBite(asGood)));
            }
            return both(best);
        }

        private record Best(double bite, double work, double left) {}

        /** From the best shapes on, until nothing gets better. */
        private Best best() {
            List<Best> found = new ArrayList<>();
            lowestShapes().forEach(s -> found.add(polished(s)));
            return found.stream().min((a, b) -> Double.compare(a.left, b.left)).orElseThrow();
        }

        private List<Shape> lowestShapes() {
            List<Shape> lowest = new ArrayList<>();
            for (int i = 0; i <= SHAPES; i++) {
                boolean overLeft = i > 0 && shapes.get(i - 1).left < shapes.get(i).left;
                boolean overRight = i < SHAPES && shapes.get(i + 1).left < shapes.get(i).left;
                if (!overLeft && !overRight) {
                    lowest.add(shapes.get(i));
                }
            }
            lowest.sort((a, b) -> Double.compare(a.left, b.left));
            return lowest.subList(0, Math.min(STARTS, lowest.size()));
        }

        private Best polished(Shape start) {
            double bite = 1 / start.inverseBite;
            double work = start.force * bite;
            Optimum optimum;
            try {
                optimum = levenbergMarquardt(bite, work);
            } catch (MathIllegalStateException e) {
                return new Best(bite, work, start.left); // no better place within its limits
            }
            double left = optimum.getCost() * optimum.getCost();
            return left < start.left
                    ? new Best(
                            Math.exp(optimum.getPoint().getEntry(0)),
                            Math.exp(optimum.getPoint().getEntry(1)),
                            left)
                    : new Best(bite, work, start.left);
        }

        private Optimum levenbergMarquardt(double bite, double work) {
            return new LevenbergMarquardtOptimizer()
                    .withCostRelativeTolerance(1e-12)
                    .withParameterRelativeTolerance(1e-12)
                    .optimize(
                            new LeastSquaresBuilder()
                                    .start(new double[] {Math.log(bite), Math.log(work)})
                                    .target(target)
                                    .model(
                                            p ->
                                                    predicted(
                                                            Math.exp(p.getEntry(0)),
                                                            Math.exp(p.getEntry(1))))
                                    .maxEvaluations(10_000)
                                    .maxIterations(1000)
                                    .build());
        }

        private Pair<RealVector, RealMatrix> predicted(double bite, double work) {
            return new Pair<>(
                    new ArrayRealVector(weighed(r -> r.strokesBy(bite, work)), false),
                    MatrixUtils.createRealMatrix(slopes(bite, work)));
        }

        /** Of the strokes by ln b and ln W: where the two limits meet, neither has a say. */
        private double[][] slopes(double bite, double work) {
            return readings.stream()
                    .map(
                            r -> {
                                double bitten = r.strokesHeldByBite(bite, work);
                                double root = Math.sqrt(r.strokes());
                                return new double[] {
                                    -bitten / root, (bitten - r.strokesBy(bite, work)) / root
                                };
                            })
                    .toArray(double[][]::new);
        }

        private PassFit both(Best best) {
            double[] residuals = residuals(best.bite, best.work);
            double[] halves = LeastSquares.halfWidths(slopes(best.bite, best.work), residuals);
            return new PassFit(
                    Fitted.within(best.bite, halves[0]),
                    Fitted.within(best.work, halves[1]),
                    best.bite,
                    best.work,
                    target.length - 2,
                    sd(best.bite, best.work, 2));
        }

        private PassFit biteOnly(Shape shape, double leastWork) {
            double bite = 1 / shape.inverseBite;
            double[] residuals = residuals(bite, Double.POSITIVE_INFINITY);
            return new PassFit(
                    Fitted.within(bite, half(shape, residuals)),
                    Fitted.atLeast(leastWork),
                    bite,
                    Double.POSITIVE_INFINITY,
                    target.length - 1,
                    sd(bite, Double.POSITIVE_INFINITY, 1));
        }

        private PassFit workOnly(Shape shape, double leastBite) {
            double work = shape.force / shape.inverseBite;
            double[] residuals = residuals(Double.POSITIVE_INFINITY, work);
            return new PassFit(
                    Fitted.atLeast(leastBite),
                    Fitted.within(work, half(shape, residuals)),
                    Double.POSITIVE_INFINITY,
                    work,
                    target.length - 1,
                    sd(Double.POSITIVE_INFINITY, work, 1));
        }

        private PassFit neither(Shape shape, boolean bite) {
            double b = 1 / shape.inverseBite;
            double modelBite = bite ? b : Double.POSITIVE_INFINITY;
            double modelWork = bite ? Double.POSITIVE_INFINITY : shape.force * b;
            return new PassFit(
                    null,
                    null,
                    modelBite,
                    modelWork,
                    target.length - 1,
                    sd(modelBite, modelWork, 1));
        }

        /**
         * Strokes are in proportion to what is fitted, so their slope is the strokes themselves.
         */
        private double half(Shape shape, double[] residuals) {
            double[][] slopes = new double[target.length][];
            for (int i = 0; i < slopes.length; i++) {
                slopes[i] = new double[] {shape.inverseBite * shape.perBite[i]};
            }
            return LeastSquares.halfWidths(slopes, residuals)[0];
        }

        private double lowest(double asGood, ToDoubleFunction<Shape> figure) {
            return shapes.stream()
                    .filter(s -> s.left <= asGood)
                    .mapToDouble(figure)
                    .min()
                    .orElseThrow();
        }

        private double[] residuals(double bite, double work) {
            return weighed(r -> r.strokes() - r.strokesBy(bite, work));
        }

        /** In strokes, not weighed. */
        private double sd(double bite, double work, int parameters) {
            double sum =
                    readings.stream()
                            .mapToDouble(r -> r.strokes() - r.strokesBy(bite, work))
                            .map(off -> off * off)
                            .sum();
            return Math.sqrt(sum / (readings.size() - parameters));
        }

        private double[] weighed(ToDoubleFunction<Observed> figure) {
            return readings.stream()
                    .mapToDouble(r -> figure.applyAsDouble(r) / Math.sqrt(r.strokes()))
                    .toArray();
        }
    }
}
