package strokewright.costing;

import static strokewright.costing.CostingFormula.*;
import static strokewright.quantity.Why.Input.computed;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Arithmetic;
import strokewright.quantity.Why;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/**
 * What an hour of a machine costs, after VDI 3258 sheet 1. All money of one currency. Where one
 * thing can be told in several ways, one of them is stated and the others are left out.
 *
 * @param replacementValue what the machine would cost today; depreciated over its life; from the
 *     acquisition value by price index when left out
 * @param scrappingCost added to the replacement value
 * @param acquisitionValue what was paid
 * @param lifeYears over 0
 * @param interestPercent a year, on half of a value
 * @param areaM2 floor space
 * @param spacePerM2Year rent or cost of the space, of a year
 * @param powerKw rated power
 * @param loadFactor share of the rated power drawn on average; all of it when left out
 * @param energyPerKwh price of energy
 * @param maintenancePerYear repairs and upkeep
 * @param runningHoursPerYear over 0; from the total when left out
 * @param priceIndexThen when the machine was bought
 * @param priceIndexNow of the same index today
 * @param residualValue what it will still bring; not depreciated, and its interest is borne in full
 * @param interestOn which value bears interest: acquisition when left out
 * @param spacePerM2Month the same as {@code spacePerM2Year}, of a month
 * @param maintenanceOverLife for all years together
 * @param maintenancePercent of a value, a year
 * @param maintenanceOn of which value: acquisition when left out
 * @param totalHoursPerYear that it could run
 * @param idleHoursPerYear of these without work
 * @param maintenanceHoursPerYear of these under repair and upkeep
 * @param usedPercent share of what remains that it runs; all when left out
 * @param toolCost of a set of tools that goes with the machine
 * @param toolLifeHours of that set
 * @param otherPerYear insurance, supplies and the like
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
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
        @Nullable Double runningHoursPerYear,
        @Nullable Double priceIndexThen,
        @Nullable Double priceIndexNow,
        @Nullable Double residualValue,
        @Nullable Value interestOn,
        @Nullable Double spacePerM2Month,
        @Nullable Double maintenanceOverLife,
        @Nullable Double maintenancePercent,
        @Nullable Value maintenanceOn,
        @Nullable Double totalHoursPerYear,
        @Nullable Double idleHoursPerYear,
        @Nullable Double maintenanceHoursPerYear,
        @Nullable Double usedPercent,
        @Nullable Double toolCost,
        @Nullable Double toolLifeHours,
        @Nullable Double otherPerYear) {

    private static final int MONTHS = 12;

    /** A value of the machine. */
    public enum Value {
        @JsonProperty("acquisition")
        ACQUISITION,
        @JsonProperty("replacement")
        REPLACEMENT
    }

    /** Whether the running hours are made from the hours that the machine could run. */
    @JsonIgnore
    public boolean isFromTotalHours() {
        return runningHoursPerYear == null && totalHoursPerYear != null;
    }

    /** Whether the replacement value is made from the acquisition value. */
    @JsonIgnore
    public boolean isByPriceIndex() {
        return replacementValue == null && priceIndexNow != null && priceIndexThen != null;
    }

    /** The build-up, last the rate; what is missing must have been refused before. */
    public List<Why> steps(String origin) {
        Working working = new Working();
        perHour(working, "", origin);
        return working.lines();
    }

    public double perHour() {
        return perHour(Stated.unread());
    }

    /**
     * The same, written down: of a year first, of an hour then; energy and tools are of an hour
     * from the start.
     *
     * @param prefix of the names of the figures
     */
    public double perHour(Working working, String prefix, String origin) {
        return perHour(new Stated(working, prefix, origin));
    }

    private double perHour(Stated stated) {
        Input hours = runningHours(stated);
        Input replacement = replacement(stated);
        return stated.figure(
                "machineRate",
                Arithmetic.SUM,
                ofAnHour(stated, "depreciation", depreciation(stated, replacement), hours),
                ofAnHour(stated, "interest", interest(stated, replacement), hours),
                ofAnHour(stated, "space", space(stated), hours),
                ofAnHour(stated, "maintenance", maintenance(stated, replacement).value(), hours),
                ofAnHour(stated, "other", otherPerYear == null ? 0 : otherPerYear, hours),
                energy(stated),
                tools(stated));
    }

    private double depreciation(Stated stated, Input replacement) {
        return stated.figure(
                "depreciationPerYear",
                DEPRECIATION,
                replacement,
                stated.of("scrapping cost", scrappingCost, ""),
                stated.of("residual value", residualValue, ""),
                years(stated));
    }

    private double interest(Stated stated, Input replacement) {
        return stated.figure(
                "interestPerYear",
                INTEREST,
                value(interestOn, stated, replacement),
                stated.of("residual value", residualValue, ""),
                stated.of("interest", interestPercent, "%"));
    }

    private double space(Stated stated) {
        boolean byMonth = spacePerM2Month != null;
        return stated.figure(
                "spacePerYear",
                SPACE,
                stated.of("area", areaM2, "m²"),
                byMonth
                        ? stated.of("price of a m²", spacePerM2Month, "/month")
                        : stated.of("price of a m²", spacePerM2Year, "/year"),
                computed("times a year", byMonth ? MONTHS : 1, ""));
    }

    private Input energy(Stated stated) {
        return stated.step(
                "energy",
                "energyPerHour",
                ENERGY,
                "/h",
                stated.of("power", powerKw, "kW"),
                loadFactor == null
                        ? computed("load factor", 1, "")
                        : stated.of("load factor", loadFactor, ""),
                stated.of("price of a kWh", energyPerKwh, "/kWh"));
    }

    private Input tools(Stated stated) {
        if (toolCost == null) {
            return computed("tools", 0, "/h");
        }
        return stated.step(
                "tools",
                "toolsPerHour",
                TOOL_LIFE,
                "/h",
                stated.of("cost of a set", toolCost, ""),
                stated.of("hours of its life", toolLifeHours, "h"));
    }

    private Input years(Stated stated) {
        return stated.of("years of life", lifeYears, "years");
    }

    private static Input ofAnHour(Stated stated, String name, double ofAYear, Input hours) {
        if (ofAYear == 0) {
            return computed(name, 0, "/h");
        }
        return computed(
                name,
                stated.figure(
                        name + "PerHour",
                        PER_HOUR,
                        computed(name + " of a year", ofAYear, ""),
                        hours),
                "/h");
    }

    /** None or less where nothing is left of the total. */
    public double runningHours() {
        return runningHours(Stated.unread()).value();
    }

    private Input runningHours(Stated stated) {
        if (!isFromTotalHours()) {
            return stated.of("running hours", runningHoursPerYear, "h");
        }
        return stated.step(
                "running hours",
                "runningHours",
                RUNNING_HOURS,
                "h",
                stated.of("total", totalHoursPerYear, "h"),
                stated.of("idle", idleHoursPerYear, "h"),
                stated.of("under maintenance", maintenanceHoursPerYear, "h"),
                usedPercent == null
                        ? computed("share used", 100, "%")
                        : stated.of("share used", usedPercent, "%"));
    }

    private Input replacement(Stated stated) {
        if (!isByPriceIndex()) {
            return stated.of("replacement value", replacementValue, "");
        }
        return stated.step(
                "replacement value",
                "replacementValue",
                REPLACEMENT_VALUE,
                "",
                stated.of("acquisition value", acquisitionValue, ""),
                stated.of("price index now", priceIndexNow, ""),
                stated.of("price index then", priceIndexThen, ""));
    }

    private Input value(@Nullable Value of, Stated stated, Input replacement) {
        return of == Value.REPLACEMENT
                ? replacement
                : stated.of("acquisition value", acquisitionValue, "");
    }

    private Input maintenance(Stated stated, Input replacement) {
        if (maintenanceOverLife != null) {
            return stated.step(
                    "maintenance",
                    "maintenancePerYear",
                    MAINTENANCE_OVER_LIFE,
                    "",
                    stated.of("over the life", maintenanceOverLife, ""),
                    years(stated));
        }
        if (maintenancePercent != null) {
            return stated.step(
                    "maintenance",
                    "maintenancePerYear",
                    MAINTENANCE_SHARE,
                    "",
                    value(maintenanceOn, stated, replacement),
                    stated.of("share a year", maintenancePercent, "%"));
        }
        return stated.of("maintenance", maintenancePerYear, "");
    }
}
