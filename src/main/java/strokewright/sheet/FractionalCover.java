package strokewright.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * The fewest sheets if sheets could be cut in fractions: the linear programme of the cutting stock
 * problem, its patterns made as they are needed (Gilmore and Gomory, Operations Research 9, 1961;
 * from memory). Rounded up it is a bound for whole sheets, if the patterns were the best possible.
 */
final class FractionalCover {

    private static final int MOST_ROUNDS = 80;
    private static final double LEAST_GAIN = 1e-7;

    private final int sizes;
    private final double[] wanted;
    private final @Nullable Cut[] basis;
    private final double[][] inverse;
    private final double[] times;
    private boolean settled;

    /**
     * @param alone for each size a pattern that holds it alone
     * @param best the pattern of most value for given values of the pieces; null for none
     */
    FractionalCover(int[] demand, List<Cut> alone, Function<double[], @Nullable Cut> best) {
        sizes = demand.length;
        wanted = new double[sizes];
        basis = new Cut[sizes];
        inverse = new double[sizes][sizes];
        times = new double[sizes];
        for (int i = 0; i < sizes; i++) {
            wanted[i] = demand[i];
            basis[i] = alone.get(i);
            inverse[i][i] = 1.0 / alone.get(i).counts()[i];
            times[i] = demand[i] * inverse[i][i];
        }
        for (int round = 0; round < MOST_ROUNDS && !settled; round++) {
            settled = !improve(best);
        }
    }

    /** Whether the last look found no pattern that would help. */
    boolean settled() {
        return settled;
    }

    double sheets() {
        double sum = 0;
        for (int r = 0; r < sizes; r++) {
            sum += basis[r] == null ? 0 : times[r];
        }
        return sum;
    }

    /** Patterns with the fraction of sheets that is cut to each. */
    List<Part> parts() {
        List<Part> parts = new ArrayList<>();
        for (int r = 0; r < sizes; r++) {
            if (basis[r] != null && times[r] > 0) {
                parts.add(new Part(basis[r], times[r]));
            }
        }
        return parts;
    }

    record Part(Cut cut, double times) {}

    private boolean improve(Function<double[], @Nullable Cut> best) {
        double[] value = new double[sizes];
        for (int r = 0; r < sizes; r++) {
            for (int i = 0; i < sizes; i++) {
                value[i] += basis[r] == null ? 0 : inverse[r][i];
            }
        }
        for (int i = 0; i < sizes; i++) {
            if (value[i] < -LEAST_GAIN) {
                return enter(null, surplus(i)); // more of it than is wanted costs nothing
            }
        }
        for (int i = 0; i < sizes; i++) {
            value[i] = Math.max(0, value[i]);
        }
        Cut cut = best.apply(value);
        if (cut == null || cut.worth(value) <= 1 + LEAST_GAIN) {
            return false;
        }
        double[] column = new double[sizes];
        for (int i = 0; i < sizes; i++) {
            column[i] = cut.counts()[i];
        }
        return enter(cut, column);
    }

    private double[] surplus(int size) {
        double[] column = new double[sizes];
        column[size] = -1;
        return column;
    }

    private boolean enter(@Nullable Cut cut, double[] column) {
        double[] through = new double[sizes];
        int leaves = -1;
        for (int r = 0; r < sizes; r++) {
            for (int i = 0; i < sizes; i++) {
                through[r] += inverse[r][i] * column[i];
            }
            if (through[r] > 1e-9
                    && (leaves < 0 || times[r] / through[r] < times[leaves] / through[leaves])) {
                leaves = r;
            }
        }
        if (leaves < 0) {
            return false;
        }
        for (int i = 0; i < sizes; i++) {
            inverse[leaves][i] /= through[leaves];
        }
        for (int r = 0; r < sizes; r++) {
            for (int i = 0; r != leaves && i < sizes; i++) {
                inverse[r][i] -= through[r] * inverse[leaves][i];
            }
        }
        basis[leaves] = cut;
        for (int r = 0; r < sizes; r++) {
            times[r] = 0;
            for (int i = 0; i < sizes; i++) {
                times[r] += inverse[r][i] * wanted[i];
            }
            times[r] = Math.max(0, times[r]);
        }
        return true;
    }
}
