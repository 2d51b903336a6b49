package strokewright.estimate;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.DoublePredicate;
import org.jspecify.annotations.Nullable;

/** Searches for the nearest size that would do, by halving; each condition must turn only once. */
final class Feasible {

    static final double LARGEST_RADIUS_MM = 1e6;

    private static final int HALVINGS = 100;
    private static final double NEAR_ENOUGH = 1e-9;
    private static final double AS_GOOD_AS_NONE = 1e-6;

    private Feasible() {}

    /** The height at this radius, and the radius at this height, for which it holds. */
    static @Nullable Map<String, Object> edge(
            DoublePredicate height,
            double statedHeight,
            DoublePredicate radius,
            double statedRadius,
            double loosestRadius) {
        Map<String, Object> change = new LinkedHashMap<>();
        Double lower = largest(height, statedHeight);
        if (lower != null) {
            change.put("heightMm", lower);
        }
        if (radius.test(loosestRadius)) {
            change.put("radiusMm", smallest(radius, statedRadius, loosestRadius));
        }
        return change.isEmpty() ? null : change;
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
