package strokewright.costing;

import org.jspecify.annotations.Nullable;

/**
 * What an hour of a machine costs, after VDI 3258 sheet 1. All money of one currency.
 *
 * @param replacementValue what the machine would cost today; depreciated over its life
 * @param scrappingCost added to the replacement value
 * @param acquisitionValue half of it bears interest over the life
 * @param lifeYears over 0
 * @param interestPercent a year
 * @param areaM2 floor space
 * @param spacePerM2Year rent or cost of the space
 * @param powerKw rated power
 * @param loadFactor share of the rated power drawn on average
 * @param energyPerKwh price of energy
 * @param maintenancePerYear repairs and upkeep
 * @param runningHoursPerYear over 0
 */
public record MachineHourRate(
        @Nullable Double replacementValue,
        @Nullable Double scrappingCost,
        @Nullable Double acquisitionValue,
        @Nullable Double lifeYears,
        @Nullable Double interestPercent,
        @Nullable Double areaM2,
        @Nullable Double spacePerM2Year,
        @Nullable Double powerKw,
        @Nullable Double loadFactor,
        @Nullable Double energyPerKwh,
        @Nullable Double maintenancePerYear,
        @Nullable Double runningHoursPerYear) {

    public double depreciationPerHour() {
        return (replacementValue + scrappingCost) / lifeYears / runningHoursPerYear;
    }

    public double interestPerHour() {
        return acquisitionValue / 2 * interestPercent / 100 / runningHoursPerYear;
    }

    public double spacePerHour() {
        return areaM2 * spacePerM2Year / runningHoursPerYear;
    }

    public double energyPerHour() {
        return powerKw * loadFactor * energyPerKwh;
    }

    public double maintenancePerHour() {
        return maintenancePerYear / runningHoursPerYear;
    }

    public double perHour() {
        return depreciationPerHour()
                + interestPerHour()
                + spacePerHour()
                + energyPerHour()
                + maintenancePerHour();
    }
}
