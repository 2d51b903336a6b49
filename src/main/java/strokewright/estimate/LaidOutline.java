package strokewright.estimate;

import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
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
        return new LaidOutline(
                operation,
                outline,
                outline.stretches(
                        operation.flange() == FlangeSide.INSIDE,
                        PassPlan.NOT_WORTH_A_PASS / operation.heightMm()));
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

    static Sense sense(Stretch stretch) {
        return stretch.shrink() ? Sense.SHRINK : Sense.STRETCH;
    }

    boolean has(Sense sense) {
        return stretches.stream().anyMatch(s -> sense(s) == sense);
    }

    List<Phase> phases() {
        List<Phase> phases = new ArrayList<>();
        boolean stretches = has(Sense.STRETCH);
        boolean shrinks = has(Sense.SHRINK) || !stretches;
        if (shrinks) {
            phases.add(phase("/tool", operation.tool(), Sense.SHRINK));
        }
        if (stretches) {
            phases.add(
                    shrinks || operation.stretchTool() != null
                            ? phase("/stretchTool", operation.stretchTool(), Sense.STRETCH)
                            : phase("/tool", operation.tool(), Sense.STRETCH));
        }
        return phases;
    }

    private static Phase phase(String field, @Nullable String chosen, Sense sense) {
        return new Phase(field, chosen, ToolChoice.inSense(ToolChoice.EDGE, sense));
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
        Map<Outline.Bit, Worked> worked = new IdentityHashMap<>();
        for (int i = 0; i < stretches.size(); i++) {
            Edges.OutlinedEdge edge =
                    new Edges.OutlinedEdge(stretches.get(i), operation.heightMm());
            for (Outline.Bit bit : stretches.get(i).bits()) {
                worked.put(bit, new Worked(bit, i + 1, edge.strainAt(bit)));
            }
        }
        return outline.runs().stream()
                .map(
                        run ->
                                run.bits().stream()
                                        .map(b -> worked.getOrDefault(b, new Worked(b, 0, 0)))
                                        .toList())
                .toList();
    }
}
