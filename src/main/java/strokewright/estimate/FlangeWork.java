package strokewright.estimate;

import static strokewright.forming.FormingFormula.TIPPING_PASSES;
import static strokewright.quantity.Why.Input.drawing;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook.Tool;
import strokewright.forming.Edges;
import strokewright.forming.PassPlan;

/** A flange turned up on a curved edge. */
final class FlangeWork extends FormedWork {

    private final Operation.TurnFlange flange;
    private Edges.TurnedFlange shape;

    FlangeWork(Maker maker, Operation.TurnFlange flange) {
        super(maker);
        this.flange = flange;
    }

    @Override
    void reckon(List<Tool> tools) {
        Tool tool = tools.get(0);
        use(tool);
        boolean shrink = flange.sense() == Operation.Sense.SHRINK;
        shape =
                new Edges.TurnedFlange(
                        shrink,
                        flange.radiusMm(),
                        flange.heightMm(),
                        Math.toRadians(flange.angleDeg()),
                        Math.toRadians(flange.sweepDeg()));
        if (!shrink
                && !limits.heightUnderRadius(
                        flange.heightMm(), flange.radiusMm(), this::feasible)) {
            return;
        }
        limits.reach(flange.heightMm());
        tippingPasses =
                (int)
                        working.figure(
                                "tippingPasses",
                                TIPPING_PASSES,
                                drawing("α", flange.angleDeg(), "°"),
                                bench.ofTimes(
                                        "a pass",
                                        bench.book().times().degreesPerTippingPass(),
                                        "°"));
        PassPlan plan =
                rows(
                        "flange",
                        shape.rows(tool.jawMm(), bench.book().times().minimumRowStrain(), working),
                        shrink,
                        shape.bandMm2(),
                        tippingPasses,
                        shape.bendLineMm(working),
                        tool);
        refuseAnneal(plan, this::feasible);
    }

    /** The largest height at this radius and the smallest radius at this height. */
    private @Nullable Map<String, Object> feasible() {
        return Feasible.edge(
                shape::edgeStrain,
                !shape.shrink(),
                feasibleStrain(shape.shrink()),
                flange.heightMm(),
                flange.radiusMm(),
                Feasible.LARGEST_RADIUS_MM);
    }
}
