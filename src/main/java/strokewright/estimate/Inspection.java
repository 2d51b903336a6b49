package strokewright.estimate;

import org.jspecify.annotations.Nullable;
import strokewright.costing.InspectionLevel;

/**
 * How many pieces the final check looks at, and how much longer a finer tolerance takes.
 *
 * @param everyPieceUpTo pieces of an order up to which every one is checked
 * @param level inspection level of ISO 2859-1
 * @param aqlPercent acceptance quality limit of ISO 2859-1
 * @param effort factor on the time of one dimension by class of ISO 2768-1; assumed
 * @param origin where the figures come from
 */
public record Inspection(
        Integer everyPieceUpTo,
        InspectionLevel level,
        Double aqlPercent,
        Effort effort,
        @Nullable String origin) {

    public static final Inspection DEFAULTS = new Inspection(null, null, null, null, null);

    public Inspection {
        everyPieceUpTo = everyPieceUpTo == null ? Integer.valueOf(8) : everyPieceUpTo;
        level = level == null ? InspectionLevel.II : level;
        aqlPercent = aqlPercent == null ? Double.valueOf(2.5) : aqlPercent;
        effort = effort == null ? new Effort(null, null, null, null) : effort;
    }

    /** Factor for each class of ISO 2768-1. */
    public record Effort(Double f, Double m, Double c, Double v) {

        public Effort {
            f = f == null ? Double.valueOf(2) : f;
            m = m == null ? Double.valueOf(1.4) : m;
            c = c == null ? Double.valueOf(1) : c;
            v = v == null ? Double.valueOf(0.8) : v;
        }

        public double of(TakeOff.Tolerance tolerance) {
            return switch (tolerance) {
                case F -> f;
                case M -> m;
                case C -> c;
                case V -> v;
            };
        }
    }
}
