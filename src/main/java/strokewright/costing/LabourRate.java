package strokewright.costing;

import org.jspecify.annotations.Nullable;

/**
 * What a productive hour of labour costs.
 *
 * @param wagePerHour paid for each paid hour
 * @param onCostPercent social and other on-costs on the wage
 * @param paidHoursPerYear e.g. 52 weeks × 40 h
 * @param absentHoursPerYear leave, holidays, sickness: paid, not present
 * @param productivePercent share of the presence that a job's clock runs
 */
public record LabourRate(
        @Nullable Double wagePerHour,
        @Nullable Double onCostPercent,
        @Nullable Double paidHoursPerYear,
        @Nullable Double absentHoursPerYear,
        @Nullable Double productivePercent) {

    public double presentHours() {
        return paidHoursPerYear - absentHoursPerYear;
    }

    public double productiveHours() {
        return presentHours() * productivePercent / 100;
    }

    public double perProductiveHour() {
        return wagePerHour * (1 + onCostPercent / 100) * paidHoursPerYear / productiveHours();
    }
}
