package strokewright.costing;

import static strokewright.quantity.Why.Input.computed;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Why;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/**
 * What a productive hour of labour costs: wage and on-costs of all paid hours are borne by the
 * hours that a job pays for. All money of one currency. Absence is stated in hours, or as days and
 * hours a day.
 *
 * @param wagePerHour paid for each paid hour
 * @param onCostPercent social and other on-costs on the wage
 * @param paidHoursPerYear e.g. 52 weeks × 40 h
 * @param absentHoursPerYear leave, holidays, sickness: paid, not present
 * @param productivePercent share of the presence that a job's clock runs
 * @param leaveDays paid leave, where absence is told in days
 * @param publicHolidays on working days
 * @param sickDays paid
 * @param hoursPerDay of a working day
 * @param otherPerYear what else somebody costs in a year, such as clothing and training; no
 *     on-costs on it
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record LabourRate(
        @Nullable Double wagePerHour,
        @Nullable Double onCostPercent,
        @Nullable Double paidHoursPerYear,
        @Nullable Double absentHoursPerYear,
        @Nullable Double productivePercent,
        @Nullable Double leaveDays,
        @Nullable Double publicHolidays,
        @Nullable Double sickDays,
        @Nullable Double hoursPerDay,
        @Nullable Double otherPerYear) {

    /** With absence in hours and nothing else to pay. */
    public LabourRate(
            Double wagePerHour,
            Double onCostPercent,
            Double paidHoursPerYear,
            Double absentHoursPerYear,
            Double productivePercent) {
        this(
                wagePerHour,
                onCostPercent,
                paidHoursPerYear,
                absentHoursPerYear,
                productivePercent,
                null,
                null,
                null,
                null,
                null);
    }

    /** Whether absence is told in days; then hours of absence are left out. */
    @JsonIgnore
    public boolean isInDays() {
        return leaveDays != null || publicHolidays != null || sickDays != null;
    }

    /** The build-up, last the rate; what is missing must have been refused before. */
    public List<Why> steps(String origin) {
        Working working = new Working();
        perProductiveHour(working, "", origin);
        return working.lines();
    }

    /** What is left of the paid hours; none or less where absence takes them all. */
    public double presentHours() {
        return present(Stated.unread()).value();
    }

    public double perProductiveHour() {
        return perProductiveHour(Stated.unread());
    }

    /**
     * The same, written down.
     *
     * @param prefix of the names of the figures
     */
    public double perProductiveHour(Working working, String prefix, String origin) {
        return perProductiveHour(new Stated(working, prefix, origin));
    }

    private double perProductiveHour(Stated stated) {
        Input present = present(stated);
        double productive =
                stated.figure(
                        "productiveHours",
                        CostingFormula.PRODUCTIVE_HOURS,
                        present,
                        stated.of("productive share", productivePercent, "%"));
        double year =
                stated.figure(
                        "labourPerYear",
                        CostingFormula.LABOUR_PER_YEAR,
                        stated.of("wage", wagePerHour, "/h"),
                        stated.of("on-costs", onCostPercent, "%"),
                        paid(stated),
                        stated.of("other", otherPerYear, "/year"));
        return stated.figure(
                "labourRate",
                CostingFormula.PER_HOUR,
                computed("cost of a year", year, ""),
                computed("productive hours", productive, "h"));
    }

    private Input present(Stated stated) {
        Input absent =
                isInDays()
                        ? stated.step(
                                "absent hours",
                                "absentHours",
                                CostingFormula.ABSENT_HOURS,
                                "h",
                                stated.of("leave", leaveDays, "d"),
                                stated.of("public holidays", publicHolidays, "d"),
                                stated.of("sick days", sickDays, "d"),
                                stated.of("hours a day", hoursPerDay, "h"))
                        : stated.of("absent hours", absentHoursPerYear, "h");
        return stated.step(
                "hours present",
                "presentHours",
                CostingFormula.PRESENT_HOURS,
                "h",
                paid(stated),
                absent);
    }

    private Input paid(Stated stated) {
        return stated.of("paid hours", paidHoursPerYear, "h");
    }
}
