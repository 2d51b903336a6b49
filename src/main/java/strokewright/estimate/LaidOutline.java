package strokewright.estimate;

import java.util.ArrayList;
import java.util.List;
import strokewright.estimate.Operation.FlangeSide;
import strokewright.estimate.Operation.FollowOutline;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.ShopBook.Times;
import strokewright.forming.Bend;
import strokewright.forming.Edges;
import strokewright.forming.Outline;
import strokewright.forming.PassPlan;
import strokewright.forming.Stretch;

/**
 * An outline to follow as it lies in the plane; the same whatever tools are tried.
 *
 * @param stretches in the order of the outline, which numbers them
 */
public record LaidOutline(FollowOutline operation, Outline outline, List<Stretch> stretches) {

    public LaidOutline {
        stretches = List.copyOf(stretches);
    }

    /**
     * @throws IllegalArgumentException with what is wrong with the path
     */
    public static LaidOutline of(FollowOutline operation, Times times) {
        Outline outline = outline(operation, times.smallestWorkableRadiusMm());
        return new LaidOutline(operation, outline, stretches(operation, outline));
    }

    /**
     * @throws IllegalArgumentException with what is wrong with the path
     */
    static Outline outline(FollowOutline operation, double smallestRadiusMm) {
        if (operation.path() != null) {
            return Outline.ofPath(operation.path(), smallestRadiusMm);
        }
        return Outline.ofSegments(
                operation.segments().stream()
                        .map(
                                s ->
                                        new Bend(
                                                s.lengthMm(),
                                                s.radiusMm() == null || s.radiusMm() == 0
                                                        ? 0
                                                        : 1 / s.radiusMm()))
                        .toList(),
                smallestRadiusMm);
    }

    private static List<Stretch> stretches(FollowOutline operation, Outline outline) {
        return outline.stretches(
                operation.flange() == FlangeSide.INSIDE,
                operation.path() == null,
                worthACurvature(operation));
    }

    private static double worthACurvature(FollowOutline operation) {
        return PassPlan.NOT_WORTH_A_PASS / operation.heightMm();
    }

    static Sense sense(Stretch stretch) {
        return stretch.shrink() ? Sense.SHRINK : Sense.STRETCH;
    }

    boolean has(Sense sense) {
        return stretches.stream().anyMatch(s -> sense(s) == sense);
    }

    List<Phase> phases() {
        List<Phase> phases = new ArrayList<>();
        if (has(Sense.SHRINK) || !has(Sense.STRETCH)) {
            phases.add(
                    new Phase(
                            "/tool",
                            operation.tool(),
                            ToolChoice.inSense(ToolChoice.EDGE, Sense.SHRINK)));
        }
        if (has(Sense.STRETCH)) {
            String field = operation.stretchTool() == null ? "/tool" : "/stretchTool";
            phases.add(
                    new Phase(
                            has(Sense.SHRINK) ? "/stretchTool" : field,
                            operation.stretchTool() == null && !has(Sense.SHRINK)
                                    ? operation.tool()
                                    : operation.stretchTool(),
                            ToolChoice.inSense(ToolChoice.EDGE, Sense.STRETCH)));
        }
        return phases;
    }

    /**
     * A bit of the outline with what is worked there.
     *
     * @param stretch its number, counted from one; 0 where nothing is worked
     * @param strain at the edge of the flange; not finite where a flange does not fit into the bend
     */
    public record Worked(Outline.Bit bit, int stretch, double strain) {}

    /** Bit by bit along each run. */
    public List<List<Worked>> bits() {
        List<List<Worked>> runs = new ArrayList<>();
        int before = 0;
        for (Outline.Run run : outline.runs()) {
            List<Stretch> ofRun = stretches(operation, new Outline(List.of(run)));
            runs.add(bits(run, ofRun, before));
            before += ofRun.size();
        }
        return runs;
    }

    private List<Worked> bits(Outline.Run run, List<Stretch> ofRun, int before) {
        boolean[] turnsUp = turnsUp(run, ofRun);
        double worth = worthACurvature(operation);
        List<Worked> bits = new ArrayList<>();
        int next = 0;
        for (Outline.Bit bit : run.bits()) {
            double at = bit.atMm() + bit.lengthMm() / 2;
            while (next + 1 < ofRun.size() && at > toMm(ofRun.get(next))) {
                next++;
            }
            int found = -1;
            if (!ofRun.isEmpty() && Math.abs(bit.curvature()) >= worth) {
                int last = ofRun.size() - 1;
                if (at >= ofRun.get(next).fromMm() && at <= toMm(ofRun.get(next))) {
                    found = next;
                } else if (at + run.lengthMm() <= toMm(ofRun.get(last))) {
                    found = last; // a closed line goes on where it began
                }
            }
            boolean worked = found >= 0 && bit.curvature() > 0 == turnsUp[found];
            bits.add(
                    new Worked(
                            bit,
                            worked ? before + found + 1 : 0,
                            worked
                                    ? strain(ofRun.get(found).shrink(), Math.abs(bit.curvature()))
                                    : 0));
        }
        return bits;
    }

    private static double toMm(Stretch stretch) {
        return stretch.fromMm() + stretch.lengthMm();
    }

    /** Whether each stretch turns from x towards y; it begins with a bit that is worked. */
    private static boolean[] turnsUp(Outline.Run run, List<Stretch> ofRun) {
        boolean[] turnsUp = new boolean[ofRun.size()];
        int next = 0;
        for (Outline.Bit bit : run.bits()) {
            if (next < ofRun.size() && bit.atMm() >= ofRun.get(next).fromMm() - 1e-9) {
                turnsUp[next++] = bit.curvature() > 0;
            }
        }
        return turnsUp;
    }

    private double strain(boolean shrink, double curvature) {
        double height = operation.heightMm();
        if (shrink && height * curvature >= 1) {
            return Double.POSITIVE_INFINITY;
        }
        Stretch here = new Stretch(shrink, 0, 1, List.of(new Bend(1, curvature)));
        return new Edges.OutlinedEdge(here, height).strainAt(height);
    }
}
