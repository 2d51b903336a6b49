package strokewright.learning;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.ShopBook.Machine;
import strokewright.estimate.ShopBook.Tool;
import strokewright.learning.TestStrips.Reading;
import strokewright.learning.TestStrips.Strip;

/**
 * Strips as a shop would have noted them if metal and machine did just what the method says, with
 * known bite, stroke work and feed efficiency. Reckoned by numeric integration from the definition
 * of the passes, with a geometry written down a second time.
 *
 * @param off what a figure that should be x was noted as
 */
record FormedStrips(
        Tool tool,
        Machine machine,
        double bite,
        double strokeWorkJ,
        double efficiency,
        DoubleUnaryOperator off) {

    private static final double THIN_MM = 1;
    private static final double LEAST_ROW_STRAIN = 0.005;
    private static final int STEPS = 4000;

    static FormedStrips exact(Tool tool, double bite, double strokeWorkJ, double efficiency) {
        return new FormedStrips(tool, StripShop.PRESS, bite, strokeWorkJ, efficiency, x -> x);
    }

    /** Every figure is off by so much of itself, one standard deviation. */
    static FormedStrips rough(
            Tool tool,
            double bite,
            double strokeWorkJ,
            double efficiency,
            double share,
            SplittableRandom random) {
        return new FormedStrips(
                tool,
                StripShop.PRESS,
                bite,
                strokeWorkJ,
                efficiency,
                x -> x * (1 + share * random.nextGaussian()));
    }

    TestStrips of(Strip... strips) {
        return new TestStrips(tool.name(), machine.name(), null, List.of(strips));
    }

    /**
     * @param start heel radius to start from; null when straight
     * @param radii heel radii at which something was noted
     */
    Strip strip(
            Grade grade,
            double thickness,
            Sense sense,
            double length,
            double height,
            Double start,
            double... radii) {
        List<Reading> readings = new ArrayList<>();
        for (double radius : radii) {
            double true_ = strokes(grade, thickness, sense, length, height, start, radius);
            double minutes =
                    true_
                            / (Math.min(tool.strokesPerMinute(), machine.strokesPerMinute())
                                    * efficiency);
            readings.add(new Reading(radius, off.applyAsDouble(true_), off.applyAsDouble(minutes)));
        }
        return new Strip(grade.code(), thickness, sense, length, height, start, readings);
    }

    private double strokes(
            Grade grade,
            double thickness,
            Sense sense,
            double length,
            double height,
            Double start,
            double radius) {
        double sign = sense == Sense.SHRINK ? -1 : 1;
        double passes = 0;
        for (double y = height; y > 0; y -= tool.jawMm()) {
            double before = start == null ? 1 : 1 + sign * y / start;
            double strain = Math.abs(Math.log((1 + sign * y / radius) / before));
            if (y == height || strain >= LEAST_ROW_STRAIN) {
                passes += passes(grade, thickness, sense, strain);
            }
        }
        return passes * Math.ceil(length / tool.pitchMm());
    }

    /** ∫ max(1/b, t σ(x)/W) dx, cut where the two are alike, which is found by halving. */
    private double passes(Grade grade, double thickness, Sense sense, double strain) {
        double b = sense == Sense.SHRINK ? bite * Math.min(1, thickness / THIN_MM) : bite;
        double w = 1000 * strokeWorkJ / (tool.pitchMm() * tool.jawMm());
        double k = grade.strengthCoefficientMpa();
        double n = grade.hardeningExponent();
        double offset = Math.pow(grade.proofMpa() / k, 1 / n);
        DoubleUnaryOperator byWork = x -> thickness * k * Math.pow(offset + x, n) / w;
        double low = 0;
        double high = strain;
        for (int i = 0; i < 200; i++) {
            double middle = (low + high) / 2;
            if (byWork.applyAsDouble(middle) < 1 / b) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low / b + simpson(byWork, low, strain);
    }

    /** With x = from + width·u⁵, which puts the steps where the stress rises fastest. */
    private static double simpson(DoubleUnaryOperator f, double from, double to) {
        double width = to - from;
        double sum = 0;
        for (int i = 0; i <= STEPS; i++) {
            double u = i / (double) STEPS;
            double weight = i == 0 || i == STEPS ? 1 : i % 2 == 1 ? 4 : 2;
            sum +=
                    weight
                            * f.applyAsDouble(from + width * Math.pow(u, 5))
                            * 5
                            * width
                            * Math.pow(u, 4);
        }
        return sum / (3.0 * STEPS);
    }
}
