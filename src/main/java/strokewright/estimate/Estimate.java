package strokewright.estimate;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Finding;
import strokewright.quantity.Money;
import strokewright.quantity.Severity;
import strokewright.quantity.Why;

/**
 * The result: every operation with its strokes and minutes, every quantity with hours, cost and
 * price, and what the calculation has to tell.
 *
 * @param operations in the order of the take-off, the assembly's last
 * @param feasible false when any finding is a refusal
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record Estimate(
        Integer shopBookEdition,
        boolean feasible,
        List<Line> operations,
        List<ForQuantity> quantities,
        List<Finding> findings) {

    public Estimate {
        operations = List.copyOf(operations);
        quantities = List.copyOf(quantities);
        findings = List.copyOf(findings);
    }

    static boolean feasible(List<Finding> findings) {
        return findings.stream().noneMatch(f -> f.severity() == Severity.REFUSAL);
    }

    /**
     * One operation. Minutes are normal minutes for one piece, before allowance and practice;
     * {@code strains} and {@code passes} are of one edge, outermost row last, strokes and minutes
     * of all {@code count} of them. Forming fields are null for a time standard and the reverse.
     *
     * @param part null for work on the assembly
     * @param position counted from one within its part or within the assembly
     * @param findMinutes to find and feel dents
     * @param annealMinutes off the machine: anneals, cooling, cleaning
     * @param machineMinutes elapsed at the machine or work centre
     * @param personMinutes elapsed times people
     * @param override the estimator's own elapsed minutes, which go into hours and price instead
     * @param setupMinutes of a time standard, once per order
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Line(
            @Nullable String part,
            int position,
            String type,
            @Nullable String standard,
            String workCentre,
            @Nullable String machine,
            @Nullable String tool,
            @Nullable String crownTool,
            @Nullable List<Double> strains,
            @Nullable List<Integer> passes,
            @Nullable Integer correctionPasses,
            @Nullable Integer tippingPasses,
            @Nullable Integer anneals,
            @Nullable Double edgeThicknessMm,
            @Nullable Double rimShare,
            @Nullable Double blankDiameterMm,
            @Nullable Crown crown,
            @Nullable Long strokes,
            @Nullable Double strokeMinutes,
            @Nullable Double repositionMinutes,
            @Nullable Long checks,
            @Nullable Double checkMinutes,
            @Nullable Double findMinutes,
            @Nullable Double annealMinutes,
            @Nullable Double setupMinutes,
            double machineMinutes,
            double personMinutes,
            int people,
            Operation.@Nullable Override override,
            List<Finding> findings,
            List<Why> why) {}

    /** The stretched middle of a dish; strain and passes are of one, strokes of all of them. */
    public record Crown(double strain, int passes, int anneals, long strokes, double thicknessMm) {}

    /**
     * One quantity of the whole item. Minutes are person-minutes for the whole quantity after
     * allowance and practice; set-up and run together are the plan hours.
     */
    public record ForQuantity(
            int quantity,
            int toolChanges,
            double setupMinutes,
            double runMinutes,
            Hours hours,
            List<AtCentre> workCentres,
            Cost cost,
            Price price,
            Money priceEach,
            List<Why> why) {}

    /** Person-hours for the whole quantity. */
    public record Hours(double plan) {}

    /** What is charged at one work centre for the whole quantity. */
    public record AtCentre(
            String workCentre,
            double labourHours,
            double machineHours,
            Money labourRate,
            Money machineRate) {}

    /** Cost of the whole quantity. */
    public record Cost(
            Money material,
            Money materialOverhead,
            Money labour,
            Money machine,
            Money productionOverhead,
            Money specialDirect,
            Money manufacturing,
            Money administration,
            Money sales,
            Money total) {}

    /**
     * From the cost to the offer, for the whole quantity.
     *
     * @param minimumOrder what lifts the offer to the least order
     * @param rounding what rounding the price each adds or takes
     */
    public record Price(
            Money profit,
            Money urgency,
            Money beforeDiscounts,
            Money settlementDiscount,
            Money commission,
            Money tradeDiscount,
            Money minimumOrder,
            Money rounding,
            Money offer,
            Money tax,
            Money withTax) {}
}
