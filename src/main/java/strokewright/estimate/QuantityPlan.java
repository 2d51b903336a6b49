package strokewright.estimate;

import java.math.BigDecimal;
import java.util.List;

/**
 * All that is planned for one quantity of an item, at the planned hours.
 *
 * @param workCentres hours with their rates; steps and reserves together
 * @param minimumCharges what lines are lifted by to the least that they are charged for
 * @param cost at the planned hours, whatever hours the price was made from
 */
public record QuantityPlan(
        int quantity,
        List<PlannedStep> steps,
        List<Estimate.AtCentre> workCentres,
        List<Estimate.MetalUsed> metal,
        List<Extra> extras,
        BigDecimal minimumCharges,
        Estimate.Cost cost) {

    public QuantityPlan {
        steps = List.copyOf(steps);
        workCentres = List.copyOf(workCentres);
        metal = List.copyOf(metal);
        extras = List.copyOf(extras);
    }

    /** What is bought for the item, with what handling it costs. */
    public record Extra(TakeOff.Extra of, BigDecimal cost, BigDecimal handling) {}
}
