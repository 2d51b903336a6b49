package strokewright.learning;

import java.util.Arrays;
import java.util.List;
import org.hipparchus.distribution.continuous.TDistribution;
import org.hipparchus.linear.DecompositionSolver;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.SingularValueDecomposition;

/** What least squares share: the uncertainty of what was fitted. */
final class LeastSquares {

    private static final double CONFIDENCE = 0.95;

    private LeastSquares() {}

    /** Student's t for the 95 % interval. */
    static double t(int degreesOfFreedom) {
        return new TDistribution(degreesOfFreedom)
                .inverseCumulativeProbability(1 - (1 - CONFIDENCE) / 2);
    }

    /**
     * Half the width of the 95 % interval of each parameter. The variance is the larger of two: the
     * usual one, of scatter that is alike everywhere, and one that holds when the scatter grows
     * with the figure itself (HC3, MacKinnon and White 1985, J. Econometrics 29), as it does when
     * strokes are some percent off.
     *
     * @param slopes change of each predicted figure with each parameter
     * @param residuals noted less predicted
     */
    static double[] halfWidths(double[][] slopes, double[] residuals) {
        RealMatrix j = MatrixUtils.createRealMatrix(slopes);
        DecompositionSolver solver =
                new SingularValueDecomposition(j.transposeMultiply(j)).getSolver();
        RealMatrix inverse = solver.getInverse();
        int parameters = j.getColumnDimension();
        int free = residuals.length - parameters;
        double alike = sumOfSquares(residuals) / free;
        RealMatrix spread = MatrixUtils.createRealMatrix(parameters, parameters);
        for (int i = 0; i < residuals.length; i++) {
            RealMatrix row = j.getRowMatrix(i);
            double rest = 1 - row.multiply(inverse).multiplyTransposed(row).getEntry(0, 0);
            if (rest > 1e-9) { // else nothing is left of it to judge by
                double without = residuals[i] / rest;
                spread = spread.add(row.transposeMultiply(row).scalarMultiply(without * without));
            }
        }
        RealMatrix growing = inverse.multiply(spread).multiply(inverse);
        double t = t(free);
        double[] halves = new double[parameters];
        for (int p = 0; p < parameters; p++) {
            halves[p] =
                    t * Math.sqrt(Math.max(alike * inverse.getEntry(p, p), growing.getEntry(p, p)));
        }
        return halves;
    }

    static double sumOfSquares(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value * value;
        }
        return sum;
    }

    /** The slope of a line through the origin, each point weighed by 1/x, with its interval. */
    static Fitted slope(double[] x, double[] y) {
        double slope = Arrays.stream(y).sum() / Arrays.stream(x).sum();
        double[][] slopes = new double[x.length][];
        double[] residuals = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            slopes[i] = new double[] {Math.sqrt(x[i])};
            residuals[i] = (y[i] - slope * x[i]) / Math.sqrt(x[i]);
        }
        double half = halfWidths(slopes, residuals)[0];
        return Fitted.between(slope - half, slope, slope + half);
    }

    static double product(double[] x, double[] y) {
        double sum = 0;
        for (int i = 0; i < x.length; i++) {
            sum += x[i] * y[i];
        }
        return sum;
    }

    static double mean(List<Double> values) {
        return values.stream().mapToDouble(v -> v).average().orElseThrow();
    }
}
