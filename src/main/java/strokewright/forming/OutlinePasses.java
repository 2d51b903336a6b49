package strokewright.forming;

import static strokewright.forming.FormingFormula.*;
import static strokewright.quantity.Why.Input.computed;
import static strokewright.quantity.Why.Input.drawing;

import java.util.ArrayList;
import java.util.List;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/** How far all passes of one row of a stretch run together: ∫ N(ε(s)) ds. */
final class OutlinePasses {

    private OutlinePasses() {}

    static double lengthMm(
            double height,
            Stretch stretch,
            PassPlan plan,
            Metal metal,
            Input thickness,
            Setting setting,
            Working working) {
        double first =
                ofCycle(
                        height,
                        stretch,
                        plan.firstCycleShare(),
                        metal.offset(),
                        metal,
                        thickness,
                        setting,
                        working);
        if (plan.anneals() == 0) {
            return first;
        }
        double further =
                ofCycle(
                        height,
                        stretch,
                        plan.furtherCycleShare(),
                        metal.annealedOffset(),
                        metal,
                        thickness,
                        setting,
                        working);
        return working.figure(
                "passLengthMm",
                CYCLE_PASSES,
                computed("first cycle", first, "mm"),
                computed("anneals", plan.anneals(), ""),
                computed("further cycle", further, "mm"));
    }

    private static double ofCycle(
            double height,
            Stretch stretch,
            double share,
            double offset,
            Metal metal,
            Input thickness,
            Setting setting,
            Working working) {
        List<Input> inputs = new ArrayList<>();
        inputs.add(drawing("y", height, "mm"));
        inputs.add(computed("share of cycle", share, ""));
        boolean byStrain = metal.strainPerPass() != null;
        if (byStrain) {
            inputs.add(metal.figure("strain per pass", metal.strainPerPass(), ""));
        } else {
            inputs.add(computed("ε₀", offset, ""));
            inputs.add(metal.k());
            inputs.add(metal.n());
            inputs.add(thickness);
            inputs.add(computed("W", setting.workPerAreaNmm(), "N/mm"));
            inputs.add(computed("b", setting.biteStrain(), ""));
        }
        for (Bend bend : stretch.signed()) {
            inputs.add(drawing("length", bend.lengthMm(), "mm"));
            inputs.add(drawing("κ", bend.curvature(), "1/mm"));
        }
        return working.figure(
                "passLengthMm",
                byStrain ? OUTLINE_PASS_LENGTH_BY_STRAIN : OUTLINE_PASS_LENGTH,
                inputs.toArray(Input[]::new));
    }
}
