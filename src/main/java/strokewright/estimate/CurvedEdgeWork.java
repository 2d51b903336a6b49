package strokewright.estimate;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook.Tool;
import strokewright.forming.Edges;
import strokewright.forming.PassPlan;

/** A flanged strip curved in the plane of its flange. */
final class CurvedEdgeWork extends FormedWork {

    private final Operation.CurveEdge edge;
    private Edges.CurvedEdge shape;

    CurvedEdgeWork(Maker maker, Operation.CurveEdge edge) {
        super(maker);
        this.edge = edge;
    }

    @Override
    void reckon(List<Tool> tools) {
        Tool tool = tools.get(0);
        use(tool);
        boolean shrink = edge.sense() == Operation.Sense.SHRINK;
        Double start = edge.startRadiusMm();
        shape =
                new Edges.CurvedEdge(
                        shrink,
                        edge.lengthMm(),
                        edge.radiusMm(),
                        start == null ? 0 : 1 / start,
                        edge.heightMm());
        if (shrink && !limits.heightUnderRadius(edge.heightMm(), edge.radiusMm(), this::feasible)) {
            return;
        }
        if (!limits.startNotTighter(start, edge.radiusMm())) {
            return;
        }
        limits.reach(edge.heightMm());
        PassPlan plan =
                rows(
                        "edge",
                        shape.rows(tool.jawMm(), bench.book().times().minimumRowStrain(), working),
                        shrink,
                        shape.bandMm2(),
                        0,
                        0,
                        tool);
        refuseAnneal(plan, this::feasible);
    }

    /** The largest height at this radius and the smallest radius at this height. */
    private @Nullable Map<String, Object> feasible() {
        return Feasible.edge(
                shape::edgeStrain,
                shape.shrink(),
                feasibleStrain(shape.shrink()),
                edge.heightMm(),
                edge.radiusMm(),
                edge.startRadiusMm() == null ? Feasible.LARGEST_RADIUS_MM : edge.startRadiusMm());
    }
}
