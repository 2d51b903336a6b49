package strokewright.estimate;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Finding;
import strokewright.quantity.Money;
import strokewright.quantity.Severity;
import strokewright.quantity.Why;
import strokewright.sheet.Nest;

/**
 * The result: every operation with its strokes and minutes, every quantity with hours, cost and
 * price, and what the calculation has to tell.
 *
 * @param operations in the order of the work: part by part, the assembly's last, proposed lines
 *     before and after those of the take-off
 * @param feasible false when any finding is a refusal
 * @param plan tools and order of one item; null without forming
 * @param folds development of every folded part
 * @param drivers what the spread of the main quantity comes from, the widest swing first
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record Estimate(
        Integer shopBookEdition,
        boolean feasible,
        List<Line> operations,
        @Nullable Plan plan,
        List<ForQuantity> quantities,
        List<Finding> findings,
        List<Folded> folds,
        List<Driver> drivers) {

    public Estimate {
        operations = List.copyOf(operations);
        quantities = List.copyOf(quantities);
        findings = List.copyOf(findings);
        folds = folds == null ? List.of() : List.copyOf(folds);
        drivers = drivers == null ? List.of() : List.copyOf(drivers);
    }

    /** Lines that the take-off states, in its order; without those that a rule proposed. */
    public List<Line> typed() {
        return operations.stream().filter(l -> l.proposal() == null).toList();
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
     * @param position counted from one within its part or within the assembly; proposed lines go on
     *     from the typed ones
     * @param findMinutes to find and feel dents
     * @param annealMinutes off the machine: anneals, cooling, cleaning
     * @param dressMinutes off the machine: dressing out the marks of steel-faced tools
     * @param machineMinutes elapsed at the machine or work centre
     * @param personMinutes elapsed times people
     * @param override the estimator's own elapsed minutes, which go into hours and price instead
     * @param setupMinutes of a time standard, once per order
     * @param amount of a time standard, in its unit
     * @param proposal code of the rule that proposed the line; null for what the take-off states
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
            @Nullable Outlined outline,
            @Nullable Long strokes,
            @Nullable Double strokeMinutes,
            @Nullable Double repositionMinutes,
            @Nullable Long checks,
            @Nullable Double checkMinutes,
            @Nullable Double findMinutes,
            @Nullable Double annealMinutes,
            @Nullable Double dressMinutes,
            @Nullable Double setupMinutes,
            double machineMinutes,
            double personMinutes,
            int people,
            Operation.@Nullable Override override,
            List<Finding> findings,
            List<Why> why,
            @Nullable Double amount,
            @Nullable String proposal) {

        /**
         * Of a time standard.
         *
         * @param part null for work on the assembly
         * @param setupMinutes once per order
         * @param minutes elapsed, of one piece
         * @param amount in the unit of the standard
         * @param proposal code of the rule that proposed the line
         */
        static Line byStandard(
                @Nullable String part,
                int position,
                ShopBook.Standard standard,
                double setupMinutes,
                double minutes,
                double amount,
                @Nullable String proposal,
                List<Why> why) {
            return new Line(
                    part,
                    position,
                    Operation.Standard.KIND,
                    standard.name(),
                    standard.workCentre(),
                    null,
                    null,
                    null,
                    null,
                    null,
                    null,
                    null,
                    null,
                    null,
                    null,
                    null,
                    null,
                    null,
                    null,
                    null,
                    null,
                    null,
                    null,
                    null,
                    null,
                    null,
                    setupMinutes,
                    minutes,
                    minutes * standard.people(),
                    standard.people(),
                    null,
                    List.of(),
                    why,
                    amount,
                    proposal);
        }

        Line withFindings(List<Finding> other) {
            return new Line(
                    part,
                    position,
                    type,
                    standard,
                    workCentre,
                    machine,
                    tool,
                    crownTool,
                    strains,
                    passes,
                    correctionPasses,
                    tippingPasses,
                    anneals,
                    edgeThicknessMm,
                    rimShare,
                    blankDiameterMm,
                    crown,
                    outline,
                    strokes,
                    strokeMinutes,
                    repositionMinutes,
                    checks,
                    checkMinutes,
                    findMinutes,
                    annealMinutes,
                    dressMinutes,
                    setupMinutes,
                    machineMinutes,
                    personMinutes,
                    people,
                    override,
                    List.copyOf(other),
                    why,
                    amount,
                    proposal);
        }
    }

    /** The stretched middle of a dish; strain and passes are of one, strokes of all of them. */
    public record Crown(double strain, int passes, int anneals, long strokes, double thicknessMm) {}

    /**
     * An outline that was followed.
     *
     * @param turningDeg of all its runs together, corners included
     * @param stretches what is worked, each in one sense
     * @param corners to fold or to join
     */
    public record Outlined(
            double lengthMm, double turningDeg, List<Stretched> stretches, List<Turn> corners) {

        public Outlined {
            stretches = List.copyOf(stretches);
            corners = List.copyOf(corners);
        }
    }

    /**
     * One stretch of an outline; strains and passes where it is tightest, outermost row last.
     *
     * @param number counted from one along the outline, run after run
     * @param fromMm where it begins along its run
     */
    public record Stretched(
            int number,
            Operation.Sense sense,
            String tool,
            double fromMm,
            double lengthMm,
            double bentMm,
            double tightestRadiusMm,
            List<Double> strains,
            List<Integer> passes,
            int anneals,
            long strokes,
            double edgeThicknessMm) {}

    /**
     * A corner of an outline.
     *
     * @param atMm where it is along its run
     */
    public record Turn(double atMm, double xMm, double yMm, double angleDeg) {}

    /**
     * Which tool does what, and in which order.
     *
     * @param changes of tools for one item, the first tool put in included
     * @param minutes at the machines for one item, tool changes included, before allowance
     * @param exact false where there was too much to look through, and the plan was made step by
     *     step; there may be a better one
     * @param ownToolMinutes what the estimator's own choices of tools add; null where the estimator
     *     made none
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Plan(
            List<Visit> visits,
            int changes,
            double minutes,
            boolean exact,
            @Nullable Double ownToolMinutes,
            List<OwnTool> ownTools) {

        public Plan {
            visits = List.copyOf(visits);
            ownTools = List.copyOf(ownTools);
        }
    }

    /**
     * A tool that the estimator chose where another would take fewer minutes; both of one piece.
     */
    public record OwnTool(
            String part,
            int position,
            String tool,
            double minutes,
            String quickestTool,
            double quickestMinutes) {}

    /**
     * One visit of a part to its machine.
     *
     * @param visit of the operation, counted from one
     * @param annealed whether the part was annealed since the visit before
     * @param change whether the tool has to be put in
     */
    public record Visit(
            String machine,
            String part,
            int position,
            int visit,
            int visits,
            boolean annealed,
            String tool,
            boolean change) {}

    /** How a number of items goes over the machine. */
    public enum Passage {
        /** All of them at each tool before the tool is changed. */
        @JsonProperty("batch")
        BATCH,
        /** Each through all its tools before the next. */
        @JsonProperty("piece")
        PIECE
    }

    /**
     * One quantity of the whole item. Minutes are person-minutes for the whole quantity after
     * allowance and practice; set-up, run and reserve together are the plan hours.
     *
     * @param passage the cheaper of batch and piece by piece; null in estimates of method 1
     * @param provingRound whether the first item goes through on its own before the others
     * @param reserveMinutes risk reserve for rework and spoilt pieces
     * @param priceHours hours that the price is made from, by the price scheme
     * @param metal what is bought, by grade and thickness
     * @param spares blanks more than pieces
     * @param samples how many pieces of each part the final check looks at
     * @param leadTimeDays the longest wait for what is bought in
     * @param spread of cost and price
     * @param lossChance that the total cost without profit passes the net price after discounts and
     *     commission
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record ForQuantity(
            int quantity,
            @Nullable Passage passage,
            boolean provingRound,
            int toolChanges,
            double setupMinutes,
            double runMinutes,
            Hours hours,
            List<AtCentre> workCentres,
            Cost cost,
            Price price,
            Money priceEach,
            List<Why> why,
            double reserveMinutes,
            @Nullable Double priceHours,
            List<MetalUsed> metal,
            List<Spare> spares,
            List<Sample> samples,
            @Nullable Integer leadTimeDays,
            @Nullable Spreads spread,
            @Nullable Double lossChance) {

        public ForQuantity {
            metal = metal == null ? List.of() : List.copyOf(metal);
            spares = spares == null ? List.of() : List.copyOf(spares);
            samples = samples == null ? List.of() : List.copyOf(samples);
        }
    }

    /**
     * Person-hours for the whole quantity: the plan, and how the simulation spreads around it; all
     * but the plan null where no spread was reckoned.
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Hours(
            double plan,
            @Nullable Double mean,
            @Nullable Double p10,
            @Nullable Double p50,
            @Nullable Double p65,
            @Nullable Double p80,
            @Nullable Double p90) {}

    /** How cost and price spread. */
    public record Spreads(Band cost, Band price) {}

    /** Percentiles of an amount for the whole quantity. */
    public record Band(Money mean, Money p10, Money p50, Money p65, Money p80, Money p90) {}

    /**
     * A parameter alone at its P10 and at its P90, all others at their median; hours and total cost
     * of the main quantity.
     */
    public record Driver(
            String parameter, double lowHours, double highHours, Money lowCost, Money highCost) {}

    /**
     * Sheet of one grade and thickness for the whole quantity.
     *
     * @param sheetLengthMm of the stock sheet; null where blanks are paid for by mass
     * @param sheets bought; null where blanks are paid for by mass
     * @param yieldPercent area of the blanks of the area of the sheets
     * @param kg bought
     * @param cost what of it the order pays for
     * @param price of a kg or of a sheet, at the break that is reached; null in earlier estimates
     * @param per what the price is of
     * @param keptKg offcuts that go back to stock and are not paid for; null where whole sheets are
     * @param leastSheets that no way of cutting edge to edge can do with fewer than
     * @param patterns ways in which the sheets are cut
     * @param others what the same blanks would take of the other stock sizes that hold them
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record MetalUsed(
            String grade,
            double thicknessMm,
            @Nullable Double sheetLengthMm,
            @Nullable Double sheetWidthMm,
            @Nullable Integer sheets,
            @Nullable Double yieldPercent,
            double kg,
            Money cost,
            @Nullable Money price,
            @Nullable PricedPer per,
            @Nullable Double keptKg,
            @Nullable Integer leastSheets,
            List<Nest.Pattern> patterns,
            List<OtherSheet> others) {

        public MetalUsed {
            patterns = patterns == null ? List.of() : List.copyOf(patterns);
            others = others == null ? List.of() : List.copyOf(others);
        }
    }

    /** A stock size that was not taken because it costs more. */
    public record OtherSheet(double lengthMm, double widthMm, int sheets, Money cost) {}

    public enum PricedPer {
        @JsonProperty("kg")
        KG,
        @JsonProperty("sheet")
        SHEET
    }

    /**
     * Blanks of a part that are cut beyond its pieces.
     *
     * @param why "strain", "thin" or "irreplaceable"
     */
    public record Spare(String part, int blanks, String why) {}

    /**
     * Final check of one part, after ISO 2859-1 where not every piece is checked.
     *
     * @param part null for the assembled item
     * @param lot pieces of the order
     * @param letter code letter of the sample size by table 1; null where every piece is checked
     * @param planLetter code letter of the plan that is taken, where table 2-A has an arrow another
     *     one; null where every piece is checked
     * @param inspected pieces that are checked
     * @param accept most pieces that may fail; null where every piece is checked
     * @param reject fewest failed pieces that refuse the lot; null where every piece is checked
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Sample(
            @Nullable String part,
            int lot,
            @Nullable String letter,
            @Nullable String planLetter,
            int inspected,
            @Nullable Integer accept,
            @Nullable Integer reject) {}

    /**
     * A folded part.
     *
     * @param lengthMm along the bend lines
     * @param developedMm flat length across the bends
     */
    public record Folded(
            String part, double lengthMm, double developedMm, List<Bent> bends, List<Why> why) {

        public Folded {
            bends = List.copyOf(bends);
            why = List.copyOf(why);
        }
    }

    /**
     * One bend of a folded part.
     *
     * @param radiusMm inside
     * @param k place of the neutral line in half thicknesses from the inside, as in DIN 6935
     * @param kFactor the same in thicknesses: half of k
     * @param setbackMm from where the bend begins to where the outside leg is measured to
     * @param allowanceMm length in the bend itself
     * @param compensationMm what it adds to the outside legs, mostly negative
     * @param deductionMm the same with the other sign
     * @param lineMm where its middle lies on the blank, from the edge of the first leg
     * @param forceKn to press it in a die of that opening along its length
     * @param shortestLegMm that reaches over the die
     * @param minimumRadiusMm smallest inside radius of the metal; null where unknown
     * @param bendToRadiusMm inside radius before the bend springs back to its own; null where it
     *     stays flat, is folded back or sharper than the sheet is thick, or the metal's modulus of
     *     elasticity is unknown
     * @param bendToDeg angle between the legs before it springs back to its own; null likewise
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Bent(
            double openingDeg,
            double radiusMm,
            double k,
            double kFactor,
            double setbackMm,
            double allowanceMm,
            double compensationMm,
            double deductionMm,
            double lineMm,
            double dieOpeningMm,
            double forceKn,
            double shortestLegMm,
            @Nullable Double minimumRadiusMm,
            @Nullable Double bendToRadiusMm,
            @Nullable Double bendToDeg) {}

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
     * @param net what discounts and commission leave of the offer, before tax; null in earlier
     *     estimates
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
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
            Money withTax,
            @Nullable Money net) {}
}
