package strokewright.estimate;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.DoubleBinaryOperator;
import java.util.function.DoublePredicate;
import org.jspecify.annotations.Nullable;

/** Searches for the nearest size that would do, by halving; each condition must turn only once. */
final class Feasible {

    static final double LARGEST_RADIUS_MM = 1e6;

    private static final int HALVINGS = 100;
    private static final double NEAR_ENOUGH = 1e-9;
    private static final double AS_GOOD_AS_NONE = 1e-6;

    private Feasible() {}

    /**
     * The largest height at the stated radius, and the smallest radius at the stated height.
     *
     * @param strain at the edge, by height and radius
     * @param insideBend whether the height must stay under the radius
     * @param most strain that can be put in
     * @param loosestRadius of which no looser one is asked for
     */
    static @Nullable Map<String, Object> edge(
            DoubleBinaryOperator strain,
            boolean insideBend,
            double most,
            double height,
            double radius,
            double loosestRadius) {
        DoubleBinaryPredicate holds =
                (h, r) -> (!insideBend || h < r) && strain.applyAsDouble(h, r) <= most;
        Map<String, Object> change = new LinkedHashMap<>();
        Double lower = largest(h -> holds.test(h, radius), height);
        if (lower != null) {
            change.put("heightMm", lower);
        }
        if (holds.test(height, loosestRadius)) {
            change.put("radiusMm", smallest(r -> holds.test(height, r), radius, loosestRadius));
        }
        return change.isEmpty() ? null : change;
    }

    private interface DoubleBinaryPredicate {
        boolean test(double height, double radius);
    }

    /** The largest value under the stated one for which it holds; null when there is none. */
    static @Nullable Double largest(DoublePredicate holds, double stated) {
        double good = 0;
        double bad = stated;
        for (int i = 0; i < HALVINGS && bad - good > NEAR_ENOUGH * stated; i++) {
            double middle = (good + bad) / 2;
            if (holds.test(middle)) {
                good = middle;
            } else {
                bad = middle;
            }
        }
        return good > AS_GOOD_AS_NONE * stated ? good : null;
    }

    private static double smallest(DoublePredicate holds, double bad, double good) {
        for (int i = 0; i < HALVINGS && good - bad > NEAR_ENOUGH * good; i++) {
            double middle = (bad + good) / 2;
            if (holds.test(middle)) {
                good = middle;
            } else {
                bad = middle;
            }
        }
        return good;
    }
}
