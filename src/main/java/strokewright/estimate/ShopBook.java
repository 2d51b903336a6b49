package strokewright.estimate;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.Currency;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import strokewright.costing.Allowance;
import strokewright.costing.LabourRate;
import strokewright.costing.MachineHourRate;
import strokewright.costing.PriceScheme;
import strokewright.forming.Metal;
import strokewright.quantity.Money;
import strokewright.sheet.Gauge;

/**
 * All that a shop believes: grades, machines, tools, times, rates and prices. Kept in numbered,
 * immutable editions. Left-out times take the defaults stated in {@link Times}. {@link
 * ShopBookCheck} says what a usable one looks like.
 *
 * @param edition set when it is stored
 * @param familyBite how much of a tool's bite a metal family takes, where nothing was measured
 */
public record ShopBook(
        @Nullable Integer edition,
        @Nullable Currency currency,
        List<Grade> grades,
        List<Sheet> sheets,
        List<Machine> machines,
        List<Tool> tools,
        Map<String, Double> familyBite,
        List<PassLimit> passLimits,
        Times times,
        List<Standard> standards,
        List<WorkCentre> workCentres,
        @Nullable PriceScheme priceScheme,
        RouteDefaults routes,
        List<Proposal> proposals,
        Cutting cutting,
        Bending bending,
        Inspection inspection,
        Uncertainty uncertainty,
        List<Learned> learned) {

    public ShopBook {
        grades = TakeOff.copy(grades);
        sheets = TakeOff.copy(sheets);
        machines = TakeOff.copy(machines);
        tools = TakeOff.copy(tools);
        familyBite =
                familyBite == null
                        ? Map.of()
                        : java.util.Collections.unmodifiableMap(
                                new java.util.LinkedHashMap<>(familyBite));
        passLimits = TakeOff.copy(passLimits);
        times = times == null ? Times.DEFAULTS : times;
        standards = TakeOff.copy(standards);
        workCentres = TakeOff.copy(workCentres);
        routes = routes == null ? RouteDefaults.NONE : routes;
        proposals = TakeOff.copy(proposals);
        cutting = cutting == null ? Cutting.DEFAULTS : cutting;
        bending = bending == null ? Bending.DEFAULTS : bending;
        inspection = inspection == null ? Inspection.DEFAULTS : inspection;
        uncertainty = uncertainty == null ? Uncertainty.DEFAULTS : uncertainty;
        learned = TakeOff.copy(learned);
    }

    public ShopBook withEdition(int number) {
        return new ShopBook(
                number,
                currency,
                grades,
                sheets,
                machines,
                tools,
                familyBite,
                passLimits,
                times,
                standards,
                workCentres,
                priceScheme,
                routes,
                proposals,
                cutting,
                bending,
                inspection,
                uncertainty,
                learned);
    }

    public ShopBook withPriceScheme(PriceScheme scheme) {
        return new ShopBook(
                edition,
                currency,
                grades,
                sheets,
                machines,
                tools,
                familyBite,
                passLimits,
                times,
                standards,
                workCentres,
                scheme,
                routes,
                proposals,
                cutting,
                bending,
                inspection,
                uncertainty,
                learned);
    }

    public ShopBook withSheets(List<Sheet> lines) {
        return new ShopBook(
                edition,
                currency,
                grades,
                lines,
                machines,
                tools,
                familyBite,
                passLimits,
                times,
                standards,
                workCentres,
                priceScheme,
                routes,
                proposals,
                cutting,
                bending,
                inspection,
                uncertainty,
                learned);
    }

    public ShopBook withPassLimits(List<PassLimit> limits) {
        return new ShopBook(
                edition,
                currency,
                grades,
                sheets,
                machines,
                tools,
                familyBite,
                limits,
                times,
                standards,
                workCentres,
                priceScheme,
                routes,
                proposals,
                cutting,
                bending,
                inspection,
                uncertainty,
                learned);
    }

    public ShopBook withWorkCentres(List<WorkCentre> centres) {
        return new ShopBook(
                edition,
                currency,
                grades,
                sheets,
                machines,
                tools,
                familyBite,
                passLimits,
                times,
                standards,
                centres,
                priceScheme,
                routes,
                proposals,
                cutting,
                bending,
                inspection,
                uncertainty,
                learned);
    }

    public ShopBook withLearned(List<Learned> lines) {
        return new ShopBook(
                edition,
                currency,
                grades,
                sheets,
                machines,
                tools,
                familyBite,
                passLimits,
                times,
                standards,
                workCentres,
                priceScheme,
                routes,
                proposals,
                cutting,
                bending,
                inspection,
                uncertainty,
                lines);
    }

    public ShopBook withUncertainty(Uncertainty other) {
        return new ShopBook(
                edition,
                currency,
                grades,
                sheets,
                machines,
                tools,
                familyBite,
                passLimits,
                times,
                standards,
                workCentres,
                priceScheme,
                routes,
                proposals,
                cutting,
                bending,
                inspection,
                other,
                learned);
    }

    public Optional<Grade> grade(@Nullable String code) {
        return grades.stream().filter(g -> g.code().equals(code)).findFirst();
    }

    public Optional<Machine> machine(@Nullable String name) {
        return machines.stream().filter(m -> m.name().equals(name)).findFirst();
    }

    public Optional<Tool> tool(@Nullable String name) {
        return tools.stream().filter(t -> t.name().equals(name)).findFirst();
    }

    public Optional<Standard> standard(@Nullable String name) {
        return standards.stream().filter(s -> s.name().equals(name)).findFirst();
    }

    public Optional<WorkCentre> workCentre(@Nullable String name) {
        return workCentres.stream().filter(c -> c.name().equals(name)).findFirst();
    }

    /** The line of this tool in this metal family. */
    public Optional<PassLimit> passLimit(@Nullable String tool, @Nullable String family) {
        return passLimits.stream()
                .filter(l -> l.tool().equals(tool) && l.family().equals(family))
                .findFirst();
    }

    /**
     * What was learned about this kind of work: the line of the metal family goes first, that of
     * all other work last.
     */
    public Optional<Learned> learned(String kind, @Nullable String family) {
        return learnedLine(kind, family)
                .or(() -> learnedLine(kind, null))
                .or(
                        () ->
                                kind.equals(Learned.SETUP)
                                        ? Optional.empty()
                                        : learnedLine(Learned.OTHER, null));
    }

    /** The line of just this. */
    public Optional<Learned> learnedLine(String kind, @Nullable String family) {
        return learned.stream()
                .filter(l -> l.kind().equals(kind) && Objects.equals(l.family(), family))
                .findFirst();
    }

    /** Where forming is booked and charged: the one the times name, else the first. */
    @JsonIgnore
    public WorkCentre formingCentre() {
        return workCentre(times.formingWorkCentre()).orElseGet(() -> workCentres.get(0));
    }

    /**
     * A metal in one temper.
     *
     * @param family metals that take a tool's bite alike, e.g. "aluminium-soft", "stainless"
     * @param tensileMpa tensile strength Rm
     * @param proofMpa proof stress as delivered
     * @param annealedProofMpa proof stress after an anneal; as delivered when left out
     * @param strengthCoefficientMpa K of the annealed metal
     * @param hardeningExponent n of the annealed metal
     * @param shrinkLimit true strain that one anneal cycle can take when shrinking
     * @param edgeStretchLimit the same when stretching a dressed edge; 0.9 n when left out
     * @param areaStretchLimit the same when stretching an area; 0.7 n when left out
     * @param strainPerPass for metals without a meaningful K and n (zinc): replaces the pass model
     * @param origin where the figures come from
     * @param minimumBendRadius smallest inside radius in sheet thicknesses; null where unknown
     * @param reductionOfAreaPercent of the tensile test: tells the smallest inside radius where
     *     none is stated
     * @param elasticModulusGpa for springback; null where unknown
     */
    public record Grade(
            @Nullable String code,
            @Nullable String name,
            @Nullable String family,
            @Nullable Double densityKgM3,
            @Nullable Double tensileMpa,
            @Nullable Double proofMpa,
            @Nullable Double annealedProofMpa,
            @Nullable Double strengthCoefficientMpa,
            @Nullable Double hardeningExponent,
            @Nullable Double elongationPercent,
            @Nullable Double shrinkLimit,
            @Nullable Double edgeStretchLimit,
            @Nullable Double areaStretchLimit,
            Boolean annealable,
            @Nullable Double strainPerPass,
            @Nullable String origin,
            @Nullable Double minimumBendRadius,
            @Nullable Double reductionOfAreaPercent,
            @Nullable Double elasticModulusGpa) {

        public Grade {
            annealable = annealable != null && annealable;
        }

        /** By which table a bare gauge of it is read; null where there is none for it. */
        public @Nullable String gaugeTable() {
            return Gauge.tableOf(family, String.valueOf(code), String.valueOf(name));
        }

        /** What forming has to know of it. */
        public Metal metal(String origin) {
            boolean byStrain = strainPerPass != null;
            double proof = proofMpa == null ? 0 : proofMpa;
            return new Metal(
                    origin,
                    byStrain ? 0 : strengthCoefficientMpa,
                    byStrain ? 0 : hardeningExponent,
                    proof,
                    annealedProofMpa == null ? proof : annealedProofMpa,
                    tensileMpa,
                    elongationPercent,
                    annealable,
                    strainPerPass);
        }
    }

    /**
     * What sheet costs: of one size in stock, or without a size by the mass of the blanks.
     *
     * @param thicknessMm null for every thickness that has no line of its own
     * @param lengthMm of a stock sheet, along its grain; null where blanks are paid for by mass
     * @param widthMm of a stock sheet
     * @param pricePerKg or a price per sheet
     * @param breaks cheaper prices from more kg or more sheets on, whichever the line is priced by
     */
    public record Sheet(
            @Nullable String grade,
            @Nullable Double thicknessMm,
            @Nullable Double lengthMm,
            @Nullable Double widthMm,
            @Nullable Money pricePerKg,
            @Nullable Money pricePerSheet,
            List<PriceBreak> breaks,
            @Nullable String origin) {

        public Sheet {
            breaks = TakeOff.copy(breaks);
        }
    }

    /**
     * A cheaper price for more.
     *
     * @param from kg or sheets, whichever the line is priced by
     * @param price of a kg or of a sheet
     */
    public record PriceBreak(@Nullable Double from, @Nullable Money price) {}

    /**
     * A forming machine.
     *
     * @param ratedThicknessMm thickest sheet of the rated strength
     * @param ratedStrengthMpa tensile strength that the rating is stated for; 400 when left out
     * @param strokeWorkJ useful plastic work of one stroke; from the rating when left out (assumed)
     * @param feedEfficiency share of the stroke rate that is left under hand feed; 0.6 when left
     *     out
     * @param origin where the figures come from
     */
    public record Machine(
            @Nullable String name,
            @Nullable Double ratedThicknessMm,
            Double ratedStrengthMpa,
            @Nullable Double throatMm,
            @Nullable Double strokesPerMinute,
            @Nullable Double strokeWorkJ,
            Double feedEfficiency,
            @Nullable String origin) {

        public Machine {
            ratedStrengthMpa = ratedStrengthMpa == null ? Double.valueOf(400) : ratedStrengthMpa;
            feedEfficiency = feedEfficiency == null ? Double.valueOf(0.6) : feedEfficiency;
        }
    }

    /**
     * A pair of forming tools.
     *
     * @param biteStrain largest strain that one pass may put in without wrinkling or marking
     * @param jawMm width of a row at an edge
     * @param rowMm spacing of rows on an area
     * @param pitchMm feed from stroke to stroke
     * @param changeMinutes to put it in
     * @param setMinutes to set it and try it
     * @param origin where the figures come from
     */
    public record Tool(
            @Nullable String name,
            @Nullable ToolKind kind,
            @Nullable ToolSurface surface,
            @Nullable Double biteStrain,
            @Nullable Double jawMm,
            @Nullable Double rowMm,
            @Nullable Double pitchMm,
            @Nullable Double strokesPerMinute,
            Double changeMinutes,
            Double setMinutes,
            @Nullable Double maxThicknessMm,
            @Nullable String origin) {

        public Tool {
            changeMinutes = changeMinutes == null ? Double.valueOf(1) : changeMinutes;
            setMinutes = setMinutes == null ? Double.valueOf(2) : setMinutes;
        }

        double mountMinutes() {
            return changeMinutes + setMinutes;
        }
    }

    public enum ToolKind {
        @JsonProperty("shrink")
        SHRINK,
        @JsonProperty("stretch")
        STRETCH,
        /** Both senses, with no change between them. */
        @JsonProperty("edge")
        EDGE,
        @JsonProperty("dome")
        DOME,
        @JsonProperty("smooth")
        SMOOTH,
        @JsonProperty("flange")
        FLANGE,
        @JsonProperty("flatten")
        FLATTEN
    }

    public enum ToolSurface {
        @JsonProperty("soft-faced")
        SOFT_FACED,
        @JsonProperty("steel-faced")
        STEEL_FACED
    }

    /**
     * What one tool can do in one metal family, measured or set by the shop; it goes before the
     * tool's own bite, the machine's stroke work and the machine's feed efficiency.
     *
     * @param biteStrain of sheet that is not thin; the tool's by the family factor when left out
     * @param strokeWorkJ the machine's when left out
     * @param feedEfficiency the machine's when left out
     */
    public record PassLimit(
            @Nullable String tool,
            @Nullable String family,
            @Nullable Double biteStrain,
            @Nullable Double strokeWorkJ,
            @Nullable Double feedEfficiency,
            @Nullable String origin) {

        /** Beyond these a figure is a slip of unit or decimal point. */
        public static final double LOWEST_BITE = 0.0005;

        public static final double HIGHEST_BITE = 0.2;
        public static final double LOWEST_WORK_J = 0.001;
        public static final double HIGHEST_WORK_J = 1000;
        public static final double LOWEST_EFFICIENCY = 0.05;
    }

    /**
     * Times and limits of the calculation.
     *
     * @param checkEveryPasses passes between two template checks
     * @param stationSeconds to check one station
     * @param minimumRowStrain a row with less is not worth working
     * @param thinSheetMm below this the bite shrinks in proportion when shrinking
     * @param templateGapMm gap to the template where the take-off states none
     * @param corrections correction passes by template gap, widest gap first
     * @param degreesPerTippingPass how far one pass tips a flange
     * @param arcStationMm length along one radius for each check station
     * @param areaStationMm side of the square on an area for each check station
     * @param areaStationsAtLeast fewest stations on an area
     * @param annealStandard name of the time standard that one anneal takes, by dm² of worked band
     * @param annealCoolCleanMinutes cooling and cleaning after each anneal
     * @param outlineStationMm length along a free outline for each check station
     * @param smallestWorkableRadiusMm an outline that bends tighter has a corner there
     * @param stockLengthMm longest sheet or strip that the shop buys; null without limit
     * @param folderLengthMm longest piece that its folder takes; null without limit
     * @param dressMarksStandard name of the time standard that dressing out the marks of
     *     steel-faced tools takes, by dm² of worked band
     * @param formingWorkCentre where forming is charged; the first work centre when left out
     * @param reserveOnePercent risk reserve on forming and welding minutes of one piece
     * @param reserveMorePercent the same from two pieces on
     * @param spareBlankStrain an edge strained more takes a spare blank
     * @param spareBlankUnderMm thinner sheet takes a spare blank
     * @param machineAllowanceBasis how the allowance at the forming machine is built; counts only
     *     where no percentage is stated
     * @param benchAllowanceBasis the same at the bench
     * @param origin where the figures come from
     */
    public record Times(
            Integer checkEveryPasses,
            Double stationSeconds,
            @Nullable Double machineAllowancePercent,
            @Nullable Double benchAllowancePercent,
            Double practiceSlope,
            Integer practiceReferenceUnit,
            Integer practiceFloorUnit,
            Double minimumRowStrain,
            Double shearedEdgeFactor,
            Double dentFindSeconds,
            List<HandlingClass> handling,
            Double thinSheetMm,
            Double templateGapMm,
            List<Correction> corrections,
            Double degreesPerTippingPass,
            Double arcStationMm,
            Double areaStationMm,
            Integer areaStationsAtLeast,
            @Nullable String annealStandard,
            Double annealCoolCleanMinutes,
            @Nullable String formingWorkCentre,
            Double outlineStationMm,
            Double smallestWorkableRadiusMm,
            @Nullable Double stockLengthMm,
            @Nullable Double folderLengthMm,
            @Nullable String dressMarksStandard,
            Double reserveOnePercent,
            Double reserveMorePercent,
            Double spareBlankStrain,
            Double spareBlankUnderMm,
            @Nullable Allowance machineAllowanceBasis,
            @Nullable Allowance benchAllowanceBasis,
            @Nullable String origin) {

        /** Common practice, no source, where not stated otherwise beside the figure. */
        public static final Times DEFAULTS =
                new Times(
                        null, null, null, null, null, null, null, null, null, null, null, null,
                        null, null, null, null, null, null, null, null, null, null, null, null,
                        null, null, null, null, null, null, null, null, null);

        public Times {
            checkEveryPasses = or(checkEveryPasses, 3);
            stationSeconds = or(stationSeconds, 15);
            if (machineAllowanceBasis == null) {
                machineAllowancePercent = or(machineAllowancePercent, 18);
            }
            if (benchAllowanceBasis == null) {
                benchAllowancePercent = or(benchAllowancePercent, 15);
            }
            practiceSlope = or(practiceSlope, 0.92);
            practiceReferenceUnit = or(practiceReferenceUnit, 10);
            practiceFloorUnit = or(practiceFloorUnit, 50);
            minimumRowStrain = or(minimumRowStrain, 0.005);
            shearedEdgeFactor = or(shearedEdgeFactor, 0.55);
            dentFindSeconds = or(dentFindSeconds, 90);
            handling =
                    handling == null
                            ? List.of(
                                    new HandlingClass(1.0, 0.15, 1000.0, 6.0, 1),
                                    new HandlingClass(5.0, 0.5, 2000.0, 10.0, 1),
                                    new HandlingClass(15.0, 1.2, 3000.0, 30.0, 1),
                                    new HandlingClass(25.0, 2.0, 4000.0, 60.0, 2),
                                    new HandlingClass(null, null, null, 150.0, 2))
                            : TakeOff.copy(handling);
            thinSheetMm = or(thinSheetMm, 1);
            templateGapMm = or(templateGapMm, 1.5);
            corrections =
                    corrections == null // assumed
                            ? List.of(
                                    new Correction(3.0, 1),
                                    new Correction(1.0, 2),
                                    new Correction(0.0, 4))
                            : TakeOff.copy(corrections);
            degreesPerTippingPass = or(degreesPerTippingPass, 15);
            arcStationMm = or(arcStationMm, 300);
            areaStationMm = or(areaStationMm, 150);
            areaStationsAtLeast = or(areaStationsAtLeast, 3);
            annealCoolCleanMinutes = or(annealCoolCleanMinutes, 5);
            outlineStationMm = or(outlineStationMm, 120);
            smallestWorkableRadiusMm = or(smallestWorkableRadiusMm, 10); // assumed
            reserveOnePercent = or(reserveOnePercent, 7);
            reserveMorePercent = or(reserveMorePercent, 3);
            spareBlankStrain = or(spareBlankStrain, 0.25);
            spareBlankUnderMm = or(spareBlankUnderMm, 0.8);
        }

        /** Percent of normal time at the forming machine: the stated one, else by its basis. */
        public double machineAllowance() {
            return machineAllowancePercent != null
                    ? machineAllowancePercent
                    : machineAllowanceBasis.percent();
        }

        /** Percent of normal time at the bench: the stated one, else by its basis. */
        public double benchAllowance() {
            return benchAllowancePercent != null
                    ? benchAllowancePercent
                    : benchAllowanceBasis.percent();
        }

        private static Double or(@Nullable Double given, double otherwise) {
            return given == null ? Double.valueOf(otherwise) : given;
        }

        private static Integer or(@Nullable Integer given, int otherwise) {
            return given == null ? Integer.valueOf(otherwise) : given;
        }
    }

    /**
     * How long one pick-up takes. The first class within which mass, blank area and blank length
     * all stay holds; null is without limit.
     */
    public record HandlingClass(
            @Nullable Double upToKg,
            @Nullable Double upToAreaM2,
            @Nullable Double upToLengthMm,
            @Nullable Double seconds,
            Integer people) {

        public HandlingClass {
            people = people == null ? 1 : people;
        }
    }

    /** Correction passes for template gaps of at least so much. */
    public record Correction(@Nullable Double gapFromMm, @Nullable Integer passes) {}

    /**
     * A time standard.
     *
     * @param machinePaced true when practice cannot shorten it
     * @param minimumCharge least that the line costs
     * @param reserve true when it carries the risk reserve, as welding does
     * @param spread how sure the shop is of it; the book's own spread when left out
     */
    public record Standard(
            @Nullable String name,
            @Nullable String workCentre,
            Double setupMinutes,
            @Nullable Double minutesPerUnit,
            @Nullable Unit unit,
            Integer people,
            Boolean machinePaced,
            @Nullable Money minimumCharge,
            Boolean reserve,
            @Nullable Spread spread,
            @Nullable String origin) {

        public Standard {
            setupMinutes = setupMinutes == null ? Double.valueOf(0) : setupMinutes;
            people = people == null ? 1 : people;
            machinePaced = machinePaced != null && machinePaced;
            reserve = reserve != null && reserve;
        }
    }

    /**
     * What another route of an item begins with, when it is started from a take-off.
     *
     * @param jointStandards names of the time standards that one welded joint takes, in their order
     * @param jointTrimMm added to a segment at each end that is welded, to hold it and to cut it
     *     true; common practice, no source
     * @param heatShrinkStandard name of the time standard for shrinking an edge by hand, by metre
     * @param pressStandard name of the time standard for one stroke at a press, by piece
     * @param origin where the choice comes from
     */
    public record RouteDefaults(
            List<String> jointStandards,
            Double jointTrimMm,
            @Nullable String heatShrinkStandard,
            @Nullable String pressStandard,
            @Nullable String origin) {

        static final RouteDefaults NONE = new RouteDefaults(null, null, null, null, null);

        public RouteDefaults {
            jointStandards = TakeOff.copy(jointStandards);
            jointTrimMm = jointTrimMm == null ? Double.valueOf(30) : jointTrimMm;
        }
    }

    /** What a time standard counts. */
    public enum Unit {
        @JsonProperty("order")
        ORDER("order", "orders"),
        @JsonProperty("job")
        JOB("job", "jobs"),
        @JsonProperty("piece")
        PIECE("piece", "pieces"),
        @JsonProperty("metre")
        METRE("m", "m"),
        @JsonProperty("bend")
        BEND("bend", "bends"),
        @JsonProperty("cut")
        CUT("cut", "cuts"),
        @JsonProperty("hole")
        HOLE("hole", "holes"),
        @JsonProperty("joint")
        JOINT("joint", "joints"),
        @JsonProperty("kg")
        KG("kg", "kg"),
        @JsonProperty("dm²")
        DM2("dm²", "dm²"),
        @JsonProperty("spot")
        SPOT("spot", "spots"),
        @JsonProperty("station")
        STATION("station", "stations"),
        @JsonProperty("template")
        TEMPLATE("template", "templates"),
        /** A size measured at the final check, on the pieces that are inspected. */
        @JsonProperty("dimension")
        DIMENSION("dimension", "dimensions"),
        /** A station of a formed contour at the final check, on the pieces that are inspected. */
        @JsonProperty("contour")
        CONTOUR("contour", "contours");

        private final String one;
        private final String many;

        Unit(String one, String many) {
            this.one = one;
            this.many = many;
        }

        /** As it stands behind an amount: "1 cut", "4 cuts", "0.98 m". */
        public String of(double amount) {
            return amount == 1 ? one : many;
        }

        /** Done on the pieces that the final check looks at. */
        boolean onInspectedPieces() {
            return this == DIMENSION || this == CONTOUR;
        }

        /** Done once for the order, however many pieces it has. */
        boolean oncePerOrder() {
            return this == ORDER || this == JOB || this == TEMPLATE;
        }
    }

    /**
     * A place where hours are booked and charged.
     *
     * @param labourRate of a person's productive hour; by its basis when left out
     * @param machineRate of an hour at the machine; by its basis when left out, else none
     * @param labourBasis how the labour rate is built; null where it is only stated
     * @param machineBasis how the machine rate is built; null where it is only stated
     * @param origin where the figures come from
     */
    public record WorkCentre(
            @Nullable String name,
            @Nullable Money labourRate,
            @Nullable Money machineRate,
            @Nullable LabourRate labourBasis,
            @Nullable MachineHourRate machineBasis,
            @Nullable String origin) {

        /** Whether the labour rate is not stated but built. */
        @JsonIgnore
        public boolean isLabourDerived() {
            return labourRate == null && labourBasis != null;
        }

        /** Whether the machine rate is not stated but built. */
        @JsonIgnore
        public boolean isMachineDerived() {
            return machineRate == null && machineBasis != null;
        }

        /** The labour rate that is charged: the stated one, else built and to the cent. */
        public Money labourIn(Currency currency) {
            return isLabourDerived()
                    ? Money.rounded(labourBasis.perProductiveHour(), currency)
                    : orNone(labourRate, currency);
        }

        /** The machine rate that is charged: the stated one, else built and to the cent. */
        public Money machineIn(Currency currency) {
            return isMachineDerived()
                    ? Money.rounded(machineBasis.perHour(), currency)
                    : orNone(machineRate, currency);
        }

        private static Money orNone(@Nullable Money rate, Currency currency) {
            return rate == null ? Money.zero(currency) : rate;
        }
    }
}
