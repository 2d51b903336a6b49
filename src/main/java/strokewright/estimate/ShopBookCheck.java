package strokewright.estimate;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.Currency;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.function.BiConsumer;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import strokewright.costing.Allowance;
import strokewright.costing.AllowanceTable;
import strokewright.costing.LabourRate;
import strokewright.costing.MachineHourRate;
import strokewright.costing.PriceScheme;
import strokewright.costing.SamplingPlan;
import strokewright.estimate.ShopBook.Correction;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.ShopBook.HandlingClass;
import strokewright.estimate.ShopBook.Machine;
import strokewright.estimate.ShopBook.PassLimit;
import strokewright.estimate.ShopBook.Sheet;
import strokewright.estimate.ShopBook.Standard;
import strokewright.estimate.ShopBook.Times;
import strokewright.estimate.ShopBook.Tool;
import strokewright.estimate.ShopBook.ToolKind;
import strokewright.estimate.ShopBook.Unit;
import strokewright.estimate.ShopBook.WorkCentre;
import strokewright.quantity.Fault;
import strokewright.quantity.Faults;
import strokewright.quantity.Money;

/**
 * What a usable shop book looks like. The ranges are wide: they keep out slips of unit and decimal
 * point, and everything that a calculation would choke on, not unusual shops.
 */
public final class ShopBookCheck {

    private static final double DEAREST = 1_000_000;
    private static final double DEAREST_MACHINE = 1_000_000_000;
    private static final double HOURS_OF_A_YEAR = 8784;
    private static final double THICKEST_MM = 50;
    private static final List<String> ROUNDING_STEPS = List.of("0.01", "0.5", "0.50", "1", "5");
    private static final Set<ToolKind> AT_EDGES =
            EnumSet.of(ToolKind.SHRINK, ToolKind.STRETCH, ToolKind.EDGE, ToolKind.FLANGE);
    private static final Set<ToolKind> WITHOUT_STRAIN =
            EnumSet.of(ToolKind.SMOOTH, ToolKind.FLATTEN);

    private final ShopBook book;
    private final Faults faults = new Faults();
    private final Set<String> gradeCodes;
    private final Set<String> families;
    private final Set<String> toolNames;
    private final Set<String> standardNames;
    private final Set<String> workCentreNames;

    private ShopBookCheck(ShopBook book) {
        this.book = book;
        gradeCodes = names(book.grades(), Grade::code);
        families = names(book.grades(), Grade::family);
        toolNames = names(book.tools(), Tool::name);
        standardNames = names(book.standards(), Standard::name);
        workCentreNames = names(book.workCentres(), WorkCentre::name);
    }

    /** Every fault, each with its pointer and what would be right; empty when it can be used. */
    public static List<Fault> faults(ShopBook book) {
        return new ShopBookCheck(book).check();
    }

    private List<Fault> check() {
        currency();
        each("/grades", book.grades(), 1, 200, this::grade);
        faults.distinct("/grades", book.grades(), Grade::code, "/code");
        each("/sheets", book.sheets(), 0, 500, this::sheet);
        faults.distinct(
                "/sheets",
                book.sheets(),
                s -> Arrays.asList(s.grade(), s.thicknessMm(), s.lengthMm(), s.widthMm()),
                "");
        each("/machines", book.machines(), 1, 50, this::machine);
        faults.distinct("/machines", book.machines(), Machine::name, "/name");
        each("/tools", book.tools(), 1, 200, this::tool);
        faults.distinct("/tools", book.tools(), Tool::name, "/name");
        book.familyBite().forEach(this::familyBite);
        each("/passLimits", book.passLimits(), 0, 1000, this::passLimit);
        faults.distinct(
                "/passLimits", book.passLimits(), p -> Arrays.asList(p.tool(), p.family()), "");
        times("/times", book.times());
        each("/standards", book.standards(), 0, 500, this::standard);
        faults.distinct("/standards", book.standards(), Standard::name, "/name");
        each("/workCentres", book.workCentres(), 1, 50, this::workCentre);
        faults.distinct("/workCentres", book.workCentres(), WorkCentre::name, "/name");
        priceScheme("/priceScheme", book.priceScheme());
        routes("/routes", book.routes());
        each("/proposals", book.proposals(), 0, 200, this::proposal);
        faults.distinct("/proposals", book.proposals(), Proposal::code, "/code");
        cutting("/cutting", book.cutting());
        bending("/bending", book.bending());
        inspection("/inspection", book.inspection());
        uncertainty("/uncertainty", book.uncertainty());
        each("/learned", book.learned(), 0, 500, this::learned);
        faults.distinct("/learned", book.learned(), l -> Arrays.asList(l.kind(), l.family()), "");
        return faults.all();
    }

    private void routes(String at, ShopBook.RouteDefaults routes) {
        faults.size(at + "/jointStandards", routes.jointStandards(), 0, 20);
        for (int i = 0; i < routes.jointStandards().size(); i++) {
            faults.known(
                    at + "/jointStandards/" + i,
                    routes.jointStandards().get(i),
                    standardNames,
                    "time standard");
        }
        faults.within(at + "/jointTrimMm", routes.jointTrimMm(), 0, 1000);
        routeStandard(at + "/heatShrinkStandard", routes.heatShrinkStandard(), Unit.METRE);
        routeStandard(at + "/pressStandard", routes.pressStandard(), Unit.PIECE);
        faults.textIfGiven(at + "/origin", routes.origin());
    }

    private void routeStandard(String at, @Nullable String name, Unit unit) {
        if (name != null && faults.known(at, name, standardNames, "time standard")) {
            unit(at, name, unit);
        }
    }

    private void proposal(String at, Proposal proposal) {
        faults.text(at + "/code", proposal.code());
        faults.present(at + "/when", proposal.when(), listed(Proposal.When.values()));
        faults.withinIfGiven(at + "/from", proposal.from(), 0, 2);
        faults.known(at + "/standard", proposal.standard(), standardNames, "time standard");
        faults.present(at + "/amount", proposal.amount(), listed(Proposal.Amount.values()));
        faults.over(at + "/factor", proposal.factor(), 0, 1000);
        faults.textIfGiven(at + "/origin", proposal.origin());
    }

    private static String listed(Enum<?>[] values) {
        return Arrays.stream(values)
                .map(v -> v.name().toLowerCase(Locale.ROOT).replace('_', '-'))
                .collect(Collectors.joining(", "));
    }

    private void cutting(String at, Cutting cutting) {
        faults.within(at + "/kerfMm", cutting.kerfMm(), 0, 50);
        faults.within(at + "/edgeMarginMm", cutting.edgeMarginMm(), 0, 500);
        faults.within(at + "/keptFromMm", cutting.keptFromMm(), 1, 10_000);
        faults.textIfGiven(at + "/origin", cutting.origin());
    }

    private void bending(String at, Bending bending) {
        each(at + "/kFactors", bending.kFactors(), 0, 200, this::kFactor);
        faults.within(at + "/dieOpeningOfThickness", bending.dieOpeningOfThickness(), 2, 50);
        faults.within(at + "/dieFactor", bending.dieFactor(), 0.1, 5);
        faults.withinIfGiven(at + "/pressForceKn", bending.pressForceKn(), 0.1, 100_000);
        faults.textIfGiven(at + "/origin", bending.origin());
        if (bending.method() == Bending.Method.K_FACTOR && bending.kFactors().isEmpty()) {
            faults.add(at + "/kFactors", "is empty: the method k-factor needs its table");
        }
    }

    private void kFactor(String at, Bending.KFactor line) {
        if (line.family() != null) {
            faults.known(at + "/family", line.family(), families, "grade's family");
        }
        faults.overIfGiven(at + "/upToRadiusOfThickness", line.upToRadiusOfThickness(), 0, 1000);
        faults.within(at + "/k", line.k(), 0.2, 0.5);
    }

    private void inspection(String at, Inspection inspection) {
        faults.within(at + "/everyPieceUpTo", inspection.everyPieceUpTo(), 0, 100_000);
        if (!SamplingPlan.AQLS.contains(inspection.aqlPercent())) {
            faults.add(
                    at + "/aqlPercent",
                    "must be one of the limits of ISO 2859-1: "
                            + SamplingPlan.AQLS.stream()
                                    .map(String::valueOf)
                                    .collect(Collectors.joining(", ")));
        }
        Inspection.Effort effort = inspection.effort();
        faults.within(at + "/effort/f", effort.f(), 0.1, 10);
        faults.within(at + "/effort/m", effort.m(), 0.1, 10);
        faults.within(at + "/effort/c", effort.c(), 0.1, 10);
        faults.within(at + "/effort/v", effort.v(), 0.1, 10);
        faults.textIfGiven(at + "/origin", inspection.origin());
    }

    private void uncertainty(String at, Uncertainty uncertainty) {
        faults.within(at + "/trials", uncertainty.trials(), 1000, 100_000);
        Uncertainty.ByInformation by = uncertainty.information();
        spread(at + "/information/phone", by.phone());
        spread(at + "/information/sketch", by.sketch());
        spread(at + "/information/photo", by.photo());
        spread(at + "/information/drawing", by.drawing());
        spread(at + "/information/drawingAndTemplate", by.drawingAndTemplate());
        spread(at + "/information/oldPart", by.oldPart());
        spread(at + "/information/repeat", by.repeat());
        spread(at + "/biteSpread", uncertainty.biteSpread());
        spread(at + "/strokeWorkSpread", uncertainty.strokeWorkSpread());
        spread(at + "/measuredSpread", uncertainty.measuredSpread());
        spread(at + "/feedEfficiencySpread", uncertainty.feedEfficiencySpread());
        spread(at + "/checkSpread", uncertainty.checkSpread());
        spread(at + "/standardSpread", uncertainty.standardSpread());
        spread(at + "/materialPriceSpread", uncertainty.materialPriceSpread());
        faults.textIfGiven(at + "/origin", uncertainty.origin());
        faults.withinIfGiven(at + "/jobSpread", uncertainty.jobSpread(), 0, 1.5);
        faults.withinIfGiven(at + "/jobSpreadJobs", uncertainty.jobSpreadJobs(), 0, 1_000_000);
    }

    private void spread(String at, @Nullable Double sigma) {
        faults.within(at, sigma, 0, 1.5);
    }

    /** How sure a time standard is of its minutes per unit. */
    private void spread(String at, @Nullable Spread spread, @Nullable Double minutesPerUnit) {
        if (spread == null
                || !faults.present(at + "/kind", spread.kind(), "log-normal, triangular or beta")) {
            return;
        }
        if (spread.kind() == Spread.Kind.LOG_NORMAL) {
            spread(at + "/sigma", spread.sigma());
            return;
        }
        boolean low = faults.within(at + "/low", spread.low(), 0, 10_000);
        boolean high = faults.within(at + "/high", spread.high(), 0, 10_000);
        if (low && high && minutesPerUnit != null) {
            if (!(spread.low() <= minutesPerUnit)) {
                faults.add(
                        at + "/low", "must be at most minutesPerUnit, which is " + minutesPerUnit);
            }
            if (!(spread.high() >= minutesPerUnit && spread.high() > spread.low())) {
                faults.add(
                        at + "/high",
                        "must be at least minutesPerUnit, which is "
                                + minutesPerUnit
                                + ", and more than low");
            }
        }
    }

    private void learned(String at, Learned learned) {
        faults.text(at + "/kind", learned.kind());
        if (learned.family() != null) {
            faults.known(at + "/family", learned.family(), families, "grade's family");
        }
        faults.within(at + "/planFactor", learned.planFactor(), 0.1, 10);
        faults.withinIfGiven(at + "/meanFactor", learned.meanFactor(), 0.1, 10);
        faults.withinIfGiven(at + "/spread", learned.spread(), 0, 1.5);
        faults.withinIfGiven(at + "/jobs", learned.jobs(), 0, 1_000_000);
        faults.textIfGiven(at + "/origin", learned.origin());
    }

    private void currency() {
        Currency currency = book.currency();
        if (faults.present("/currency", currency, "a currency by ISO 4217, such as EUR")
                && currency.getDefaultFractionDigits() < 0) {
            faults.add("/currency", "must be money that people pay with, such as EUR");
        }
    }

    private void grade(String at, Grade grade) {
        faults.text(at + "/code", grade.code());
        faults.text(at + "/name", grade.name());
        faults.within(at + "/densityKgM3", grade.densityKgM3(), 1000, 25_000);
        faults.within(at + "/tensileMpa", grade.tensileMpa(), 10, 3000);
        faults.withinIfGiven(at + "/minimumBendRadius", grade.minimumBendRadius(), 0, 20);
        faults.withinIfGiven(
                at + "/reductionOfAreaPercent", grade.reductionOfAreaPercent(), 1, 100);
        faults.withinIfGiven(at + "/elasticModulusGpa", grade.elasticModulusGpa(), 10, 1000);
        faults.withinIfGiven(at + "/elongationPercent", grade.elongationPercent(), 0.1, 100);
        faults.text(at + "/origin", grade.origin());
        proofStress(at, grade);
        family(at + "/family", grade);
        hardening(at, grade);
        strainLimits(at, grade);
    }

    private void proofStress(String at, Grade grade) {
        if (faults.within(at + "/proofMpa", grade.proofMpa(), 1, 3000)) {
            atMost(at + "/proofMpa", grade.proofMpa(), grade.tensileMpa(), "tensileMpa");
        }
        if (faults.withinIfGiven(at + "/annealedProofMpa", grade.annealedProofMpa(), 1, 3000)) {
            atMost(
                    at + "/annealedProofMpa",
                    grade.annealedProofMpa(),
                    grade.proofMpa(),
                    "proofMpa");
        }
    }

    private void family(String at, Grade grade) {
        if (faults.text(at, grade.family())
                && grade.strainPerPass() == null
                && !book.familyBite().containsKey(grade.family())) {
            faults.add(at, "has no factor in familyBite: each family of a grade needs one");
        }
    }

    /** K above the proof stress, since strain before delivery is (Rp/K)^(1/n). */
    private void hardening(String at, Grade grade) {
        faults.withinIfGiven(at + "/strainPerPass", grade.strainPerPass(), 0.001, 0.5);
        Double k = grade.strengthCoefficientMpa();
        Double n = grade.hardeningExponent();
        if (grade.strainPerPass() == null) {
            String needed = "a metal without strainPerPass needs it";
            faults.present(at + "/strengthCoefficientMpa", k, needed);
            faults.present(at + "/hardeningExponent", n, needed);
        }
        if (faults.withinIfGiven(at + "/strengthCoefficientMpa", k, 10, 5000)) {
            atMost(at + "/proofMpa", grade.proofMpa(), k, "strengthCoefficientMpa");
        }
        faults.withinIfGiven(at + "/hardeningExponent", n, 0.02, 1);
    }

    private void strainLimits(String at, Grade grade) {
        faults.within(at + "/shrinkLimit", grade.shrinkLimit(), 0.01, 2);
        faults.withinIfGiven(at + "/edgeStretchLimit", grade.edgeStretchLimit(), 0.01, 2);
        faults.withinIfGiven(at + "/areaStretchLimit", grade.areaStretchLimit(), 0.01, 2);
        if (grade.strainPerPass() != null && grade.hardeningExponent() == null) {
            String needed = "a metal without hardeningExponent needs it";
            faults.present(at + "/edgeStretchLimit", grade.edgeStretchLimit(), needed);
            faults.present(at + "/areaStretchLimit", grade.areaStretchLimit(), needed);
        }
    }

    private void sheet(String at, Sheet sheet) {
        faults.known(at + "/grade", sheet.grade(), gradeCodes, "grade");
        faults.withinIfGiven(at + "/thicknessMm", sheet.thicknessMm(), 0.05, THICKEST_MM);
        if (faults.withinIfGiven(at + "/lengthMm", sheet.lengthMm(), 10, 20_000)
                & faults.withinIfGiven(at + "/widthMm", sheet.widthMm(), 10, 10_000)) {
            size(at, sheet);
        }
        sheetPrice(at, sheet);
        each(at + "/breaks", sheet.breaks(), 0, 20, this::priceBreak);
        if (sheet.breaks().stream()
                .allMatch(b -> b != null && b.from() != null && b.price() != null)) {
            rising(at + "/breaks", sheet);
        }
        faults.text(at + "/origin", sheet.origin());
    }

    private void size(String at, Sheet sheet) {
        if ((sheet.lengthMm() == null) != (sheet.widthMm() == null)) {
            faults.add(at, "lengthMm and widthMm of a stock sheet go together");
        } else if (sheet.lengthMm() != null
                && book.cutting().edgeMarginMm() != null
                && Math.min(sheet.lengthMm(), sheet.widthMm())
                        <= 2 * book.cutting().edgeMarginMm()) {
            faults.add(at, "has no room for a blank between the edge margins of /cutting");
        }
    }

    /** By the kg, or, of one size and thickness, by the sheet. */
    private void sheetPrice(String at, Sheet sheet) {
        if (sheet.pricePerSheet() == null) {
            money(at + "/pricePerKg", sheet.pricePerKg());
            return;
        }
        moneyIfGiven(at + "/pricePerSheet", sheet.pricePerSheet());
        if (sheet.pricePerKg() != null) {
            faults.add(at + "/pricePerKg", "goes without pricePerSheet: one of the two");
        }
        String one = "is missing: a price of a sheet is for one size and thickness";
        if (sheet.lengthMm() == null && sheet.widthMm() == null) {
            faults.add(at + "/lengthMm", one);
        }
        if (sheet.thicknessMm() == null) {
            faults.add(at + "/thicknessMm", one);
        }
    }

    /** Each from more than the one before it, and cheaper. */
    private void rising(String at, Sheet sheet) {
        Money before = sheet.pricePerSheet() == null ? sheet.pricePerKg() : sheet.pricePerSheet();
        double from = 0;
        for (int i = 0; i < sheet.breaks().size(); i++) {
            ShopBook.PriceBreak line = sheet.breaks().get(i);
            if (line.from() <= from) {
                faults.add(at + "/" + i + "/from", "is not more than that of the line before");
            }
            if (sheet.pricePerSheet() != null && line.from() % 1 != 0) {
                faults.add(at + "/" + i + "/from", "counts sheets: a whole number");
            }
            if (before != null && line.price().amount().compareTo(before.amount()) >= 0) {
                faults.add(at + "/" + i + "/price", "is not cheaper than the price before it");
            }
            from = line.from();
            before = line.price();
        }
    }

    private void priceBreak(String at, ShopBook.PriceBreak line) {
        faults.over(at + "/from", line.from(), 0, 1_000_000);
        money(at + "/price", line.price());
    }

    private void machine(String at, Machine machine) {
        faults.text(at + "/name", machine.name());
        faults.within(at + "/ratedThicknessMm", machine.ratedThicknessMm(), 0.1, THICKEST_MM);
        faults.within(at + "/ratedStrengthMpa", machine.ratedStrengthMpa(), 50, 3000);
        faults.within(at + "/throatMm", machine.throatMm(), 1, 10_000);
        faults.within(at + "/strokesPerMinute", machine.strokesPerMinute(), 1, 5000);
        faults.withinIfGiven(at + "/strokeWorkJ", machine.strokeWorkJ(), 0.001, 1000);
        faults.within(at + "/feedEfficiency", machine.feedEfficiency(), 0.05, 1);
        faults.textIfGiven(at + "/origin", machine.origin());
    }

    private void tool(String at, Tool tool) {
        faults.text(at + "/name", tool.name());
        faults.present(
                at + "/kind",
                tool.kind(),
                "shrink, stretch, edge, dome, smooth, flange or flatten");
        faults.present(at + "/surface", tool.surface(), "soft-faced or steel-faced");
        faults.within(at + "/pitchMm", tool.pitchMm(), 0.5, 200);
        faults.within(at + "/strokesPerMinute", tool.strokesPerMinute(), 1, 5000);
        faults.within(at + "/changeMinutes", tool.changeMinutes(), 0, 480);
        faults.within(at + "/setMinutes", tool.setMinutes(), 0, 480);
        faults.withinIfGiven(at + "/maxThicknessMm", tool.maxThicknessMm(), 0.1, THICKEST_MM);
        faults.textIfGiven(at + "/origin", tool.origin());
        bite(at, tool);
        width(at, tool);
    }

    private void bite(String at, Tool tool) {
        if (tool.biteStrain() != null || !WITHOUT_STRAIN.contains(tool.kind())) {
            faults.within(
                    at + "/biteStrain",
                    tool.biteStrain(),
                    PassLimit.LOWEST_BITE,
                    PassLimit.HIGHEST_BITE);
        }
    }

    private void width(String at, Tool tool) {
        faults.withinIfGiven(at + "/jawMm", tool.jawMm(), 1, 500);
        faults.withinIfGiven(at + "/rowMm", tool.rowMm(), 0.5, 500);
        if (AT_EDGES.contains(tool.kind())) {
            faults.present(at + "/jawMm", tool.jawMm(), "a tool for edges has a jaw width");
        } else if (tool.kind() != null) {
            faults.present(at + "/rowMm", tool.rowMm(), "a tool for areas has a row spacing");
        }
    }

    private void familyBite(@Nullable String family, @Nullable Double factor) {
        String at = "/familyBite/" + escaped(Objects.requireNonNullElse(family, ""));
        if (faults.text(at, family)) {
            faults.within(at, factor, 0.01, 5);
        }
    }

    private void passLimit(String at, PassLimit limit) {
        faults.known(at + "/tool", limit.tool(), toolNames, "tool");
        faults.known(at + "/family", limit.family(), families, "grade's family");
        faults.withinIfGiven(
                at + "/biteStrain",
                limit.biteStrain(),
                PassLimit.LOWEST_BITE,
                PassLimit.HIGHEST_BITE);
        faults.withinIfGiven(
                at + "/strokeWorkJ",
                limit.strokeWorkJ(),
                PassLimit.LOWEST_WORK_J,
                PassLimit.HIGHEST_WORK_J);
        faults.withinIfGiven(
                at + "/feedEfficiency", limit.feedEfficiency(), PassLimit.LOWEST_EFFICIENCY, 1);
        faults.text(at + "/origin", limit.origin());
        if (limit.biteStrain() == null
                && limit.strokeWorkJ() == null
                && limit.feedEfficiency() == null) {
            faults.add(at, "limits nothing: biteStrain, strokeWorkJ, feedEfficiency or several");
        }
    }

    private void times(String at, Times times) {
        checks(at, times);
        allowances(at, times);
        practice(at, times);
        strains(at, times);
        handling(at + "/handling", times.handling());
        corrections(at + "/corrections", times.corrections());
        places(at, times);
    }

    private void checks(String at, Times times) {
        faults.within(at + "/checkEveryPasses", times.checkEveryPasses(), 1, 1000);
        faults.within(at + "/stationSeconds", times.stationSeconds(), 0, 3600);
        faults.within(at + "/arcStationMm", times.arcStationMm(), 10, 10_000);
        faults.within(at + "/areaStationMm", times.areaStationMm(), 10, 10_000);
        faults.within(at + "/areaStationsAtLeast", times.areaStationsAtLeast(), 1, 1000);
        faults.within(at + "/dentFindSeconds", times.dentFindSeconds(), 0, 3600);
    }

    private void allowances(String at, Times times) {
        faults.withinIfGiven(
                at + "/machineAllowancePercent", times.machineAllowancePercent(), 0, 200);
        faults.withinIfGiven(at + "/benchAllowancePercent", times.benchAllowancePercent(), 0, 200);
        allowanceBasis(at + "/machineAllowanceBasis", times.machineAllowanceBasis());
        allowanceBasis(at + "/benchAllowanceBasis", times.benchAllowanceBasis());
    }

    private void practice(String at, Times times) {
        faults.within(at + "/practiceSlope", times.practiceSlope(), 0.5, 1);
        boolean known =
                faults.within(
                        at + "/practiceReferenceUnit", times.practiceReferenceUnit(), 1, 10_000);
        double from = known ? times.practiceReferenceUnit() : 1;
        faults.within(at + "/practiceFloorUnit", times.practiceFloorUnit(), from, 10_000);
    }

    private void strains(String at, Times times) {
        faults.within(at + "/minimumRowStrain", times.minimumRowStrain(), 0.0001, 0.1);
        faults.within(at + "/shearedEdgeFactor", times.shearedEdgeFactor(), 0.1, 1);
        faults.within(at + "/thinSheetMm", times.thinSheetMm(), 0.01, 10);
        faults.within(at + "/templateGapMm", times.templateGapMm(), 0.01, 100);
        faults.within(at + "/degreesPerTippingPass", times.degreesPerTippingPass(), 1, 90);
        faults.within(at + "/outlineStationMm", times.outlineStationMm(), 1, 100_000);
        faults.within(
                at + "/smallestWorkableRadiusMm", times.smallestWorkableRadiusMm(), 0.1, 1000);
        faults.within(at + "/reserveOnePercent", times.reserveOnePercent(), 0, 200);
        faults.within(at + "/reserveMorePercent", times.reserveMorePercent(), 0, 200);
        faults.within(at + "/spareBlankStrain", times.spareBlankStrain(), 0, 2);
        faults.within(at + "/spareBlankUnderMm", times.spareBlankUnderMm(), 0, THICKEST_MM);
        faults.withinIfGiven(at + "/stockLengthMm", times.stockLengthMm(), 100, 100_000);
        faults.withinIfGiven(at + "/folderLengthMm", times.folderLengthMm(), 100, 100_000);
    }

    private void places(String at, Times times) {
        faults.textIfGiven(at + "/origin", times.origin());
        faults.within(at + "/annealCoolCleanMinutes", times.annealCoolCleanMinutes(), 0, 1440);
        if (times.annealStandard() != null) {
            byDm2(at + "/annealStandard", times.annealStandard());
        }
        if (times.dressMarksStandard() != null) {
            byDm2(at + "/dressMarksStandard", times.dressMarksStandard());
        }
        if (times.formingWorkCentre() != null) {
            faults.known(
                    at + "/formingWorkCentre",
                    times.formingWorkCentre(),
                    workCentreNames,
                    "work centre");
        }
    }

    private void byDm2(String at, String name) {
        if (faults.known(at, name, standardNames, "time standard")) {
            unit(at, name, Unit.DM2);
        }
    }

    private void unit(String at, String standard, Unit unit) {
        if (book.standards().stream()
                .filter(s -> s != null && standard.equals(s.name()))
                .anyMatch(s -> s.unit() != unit)) {
            String word = unit == Unit.DM2 ? "dm²" : unit.name().toLowerCase(Locale.ROOT);
            faults.add(at, "must name a time standard whose unit is " + word);
        }
    }

    /** Every piece must fall into a class, so each is wider than the one before, the last open. */
    private void handling(String at, List<HandlingClass> classes) {
        each(at, classes, 1, 20, this::handlingClass);
        for (int i = 1; i < classes.size(); i++) {
            HandlingClass before = classes.get(i - 1);
            HandlingClass here = classes.get(i);
            if (before != null && here != null && !wider(here, before)) {
                faults.add(
                        at + "/" + i,
                        "must reach further than the class before it, and in nothing less far");
            }
        }
        HandlingClass last = classes.isEmpty() ? null : classes.get(classes.size() - 1);
        if (last != null && !limits(last).stream().allMatch(Objects::isNull)) {
            faults.add(at + "/" + (classes.size() - 1), "must be without limits: it is the last");
        }
    }

    private void handlingClass(String at, HandlingClass handling) {
        faults.overIfGiven(at + "/upToKg", handling.upToKg(), 0, 100_000);
        faults.overIfGiven(at + "/upToAreaM2", handling.upToAreaM2(), 0, 1000);
        faults.overIfGiven(at + "/upToLengthMm", handling.upToLengthMm(), 0, 100_000);
        faults.within(at + "/seconds", handling.seconds(), 0, 3600);
        faults.within(at + "/people", handling.people(), 1, 10);
    }

    private static boolean wider(HandlingClass here, HandlingClass before) {
        List<@Nullable Double> now = limits(here);
        List<@Nullable Double> then = limits(before);
        boolean further = false;
        for (int i = 0; i < now.size(); i++) {
            double reach = orEndless(now.get(i));
            double reached = orEndless(then.get(i));
            if (reach < reached) {
                return false;
            }
            further |= reach > reached;
        }
        return further;
    }

    private static List<@Nullable Double> limits(HandlingClass handling) {
        return Arrays.asList(handling.upToKg(), handling.upToAreaM2(), handling.upToLengthMm());
    }

    private static double orEndless(@Nullable Double limit) {
        return limit == null ? Double.POSITIVE_INFINITY : limit;
    }

    /** Every template gap must find its line. */
    private void corrections(String at, List<Correction> corrections) {
        each(at, corrections, 1, 20, this::correction);
        double before = Double.POSITIVE_INFINITY;
        for (int i = 0; i < corrections.size(); i++) {
            Double gap = corrections.get(i) == null ? null : corrections.get(i).gapFromMm();
            boolean last = i == corrections.size() - 1;
            if (gap != null && !(gap < before)) {
                faults.add(at + "/" + i + "/gapFromMm", "must be less than in the line before it");
            } else if (gap != null && last && gap > 0) {
                faults.add(at + "/" + i + "/gapFromMm", "must be 0 in the last line");
            }
            before = gap == null ? before : gap;
        }
    }

    private void correction(String at, Correction correction) {
        faults.within(at + "/gapFromMm", correction.gapFromMm(), 0, 1000);
        faults.within(at + "/passes", correction.passes(), 0, 100);
    }

    private void standard(String at, Standard standard) {
        faults.text(at + "/name", standard.name());
        faults.known(at + "/workCentre", standard.workCentre(), workCentreNames, "work centre");
        faults.within(at + "/setupMinutes", standard.setupMinutes(), 0, 10_000);
        faults.within(at + "/minutesPerUnit", standard.minutesPerUnit(), 0, 10_000);
        faults.present(
                at + "/unit",
                standard.unit(),
                "order, job, piece, metre, bend, cut, hole, joint, kg, dm², spot, station,"
                        + " template, dimension or contour");
        faults.within(at + "/people", standard.people(), 1, 10);
        moneyIfGiven(at + "/minimumCharge", standard.minimumCharge());
        spread(at + "/spread", standard.spread(), standard.minutesPerUnit());
        faults.text(at + "/origin", standard.origin());
    }

    private void workCentre(String at, WorkCentre centre) {
        faults.text(at + "/name", centre.name());
        if (centre.labourBasis() == null) {
            faults.present(
                    at + "/labourRate",
                    centre.labourRate(),
                    "an amount with its currency, or a labourBasis");
        }
        moneyIfGiven(at + "/labourRate", centre.labourRate());
        moneyIfGiven(at + "/machineRate", centre.machineRate());
        if (centre.labourBasis() != null) {
            labourBasis(at + "/labourBasis", centre.labourBasis());
        }
        if (centre.machineBasis() != null) {
            machineBasis(at + "/machineBasis", centre.machineBasis());
        }
        faults.textIfGiven(at + "/origin", centre.origin());
    }

    private void labourBasis(String at, LabourRate basis) {
        int before = faults.all().size();
        faults.within(at + "/wagePerHour", basis.wagePerHour(), 0, DEAREST);
        faults.within(at + "/onCostPercent", basis.onCostPercent(), 0, 500);
        faults.over(at + "/paidHoursPerYear", basis.paidHoursPerYear(), 0, HOURS_OF_A_YEAR);
        if (basis.isInDays()) {
            daysAbsent(at, basis);
        } else {
            faults.within(
                    at + "/absentHoursPerYear", basis.absentHoursPerYear(), 0, HOURS_OF_A_YEAR);
            faults.withinIfGiven(at + "/hoursPerDay", basis.hoursPerDay(), 0, 24);
        }
        faults.over(at + "/productivePercent", basis.productivePercent(), 0, 100);
        faults.withinIfGiven(at + "/otherPerYear", basis.otherPerYear(), 0, DEAREST_MACHINE);
        if (faults.all().size() > before) {
            return;
        }
        if (!(basis.presentHours() > 0)) {
            String field = basis.isInDays() ? "/leaveDays" : "/absentHoursPerYear";
            faults.add(at + field, "leaves no hours: absence must be less than paidHoursPerYear");
        } else {
            affordable(at, basis.perProductiveHour());
        }
    }

    private void daysAbsent(String at, LabourRate basis) {
        faults.withinIfGiven(at + "/leaveDays", basis.leaveDays(), 0, 366);
        faults.withinIfGiven(at + "/publicHolidays", basis.publicHolidays(), 0, 366);
        faults.withinIfGiven(at + "/sickDays", basis.sickDays(), 0, 366);
        faults.over(at + "/hoursPerDay", basis.hoursPerDay(), 0, 24);
        leftOutBeside(at, "absentHoursPerYear", basis.absentHoursPerYear(), "days of absence");
    }

    private void machineBasis(String at, MachineHourRate basis) {
        int before = faults.all().size();
        values(at, basis);
        faults.over(at + "/lifeYears", basis.lifeYears(), 0, 100);
        faults.within(at + "/interestPercent", basis.interestPercent(), 0, 100);
        space(at, basis);
        faults.within(at + "/powerKw", basis.powerKw(), 0, 10_000);
        faults.withinIfGiven(at + "/loadFactor", basis.loadFactor(), 0, 1);
        faults.within(at + "/energyPerKwh", basis.energyPerKwh(), 0, DEAREST);
        maintenance(at, basis);
        runningHours(at, basis);
        if (basis.toolCost() != null || basis.toolLifeHours() != null) {
            faults.within(at + "/toolCost", basis.toolCost(), 0, DEAREST_MACHINE);
            faults.over(at + "/toolLifeHours", basis.toolLifeHours(), 0, 1_000_000);
        }
        faults.withinIfGiven(at + "/otherPerYear", basis.otherPerYear(), 0, DEAREST_MACHINE);
        if (faults.all().size() == before) {
            affordable(at, basis.perHour());
        }
    }

    private void values(String at, MachineHourRate basis) {
        faults.within(at + "/acquisitionValue", basis.acquisitionValue(), 0, DEAREST_MACHINE);
        faults.withinIfGiven(at + "/scrappingCost", basis.scrappingCost(), 0, DEAREST_MACHINE);
        if (basis.replacementValue() != null) {
            faults.within(at + "/replacementValue", basis.replacementValue(), 0, DEAREST_MACHINE);
            String beside = "a replacementValue";
            leftOutBeside(at, "priceIndexThen", basis.priceIndexThen(), beside);
            leftOutBeside(at, "priceIndexNow", basis.priceIndexNow(), beside);
        } else if (basis.priceIndexThen() == null && basis.priceIndexNow() == null) {
            faults.add(
                    at + "/replacementValue",
                    "is missing: an amount, or priceIndexThen and priceIndexNow");
        } else {
            faults.over(at + "/priceIndexThen", basis.priceIndexThen(), 0, 1_000_000);
            faults.over(at + "/priceIndexNow", basis.priceIndexNow(), 0, 1_000_000);
        }
        if (faults.withinIfGiven(at + "/residualValue", basis.residualValue(), 0, DEAREST_MACHINE)
                && basis.residualValue() != null) {
            boolean stated = basis.replacementValue() != null;
            atMost(
                    at + "/residualValue",
                    basis.residualValue(),
                    stated ? basis.replacementValue() : basis.acquisitionValue(),
                    stated ? "replacementValue" : "acquisitionValue");
        }
    }

    private void space(String at, MachineHourRate basis) {
        faults.within(at + "/areaM2", basis.areaM2(), 0, 100_000);
        if (basis.spacePerM2Month() == null) {
            faults.within(at + "/spacePerM2Year", basis.spacePerM2Year(), 0, DEAREST);
        } else {
            faults.within(at + "/spacePerM2Month", basis.spacePerM2Month(), 0, DEAREST);
            leftOutBeside(at, "spacePerM2Year", basis.spacePerM2Year(), "spacePerM2Month");
        }
    }

    private void maintenance(String at, MachineHourRate basis) {
        if (basis.maintenanceOverLife() != null) {
            faults.within(
                    at + "/maintenanceOverLife", basis.maintenanceOverLife(), 0, DEAREST_MACHINE);
            String beside = "maintenanceOverLife";
            leftOutBeside(at, "maintenancePercent", basis.maintenancePercent(), beside);
            leftOutBeside(at, "maintenancePerYear", basis.maintenancePerYear(), beside);
        } else if (basis.maintenancePercent() != null) {
            faults.within(at + "/maintenancePercent", basis.maintenancePercent(), 0, 100);
            leftOutBeside(
                    at, "maintenancePerYear", basis.maintenancePerYear(), "maintenancePercent");
        } else {
            faults.within(
                    at + "/maintenancePerYear", basis.maintenancePerYear(), 0, DEAREST_MACHINE);
        }
    }

    private void runningHours(String at, MachineHourRate basis) {
        if (!basis.isFromTotalHours()) {
            faults.over(
                    at + "/runningHoursPerYear", basis.runningHoursPerYear(), 0, HOURS_OF_A_YEAR);
            leftOutBeside(
                    at, "totalHoursPerYear", basis.totalHoursPerYear(), "runningHoursPerYear");
            return;
        }
        boolean good =
                faults.over(
                        at + "/totalHoursPerYear", basis.totalHoursPerYear(), 0, HOURS_OF_A_YEAR);
        good &=
                faults.withinIfGiven(
                        at + "/idleHoursPerYear", basis.idleHoursPerYear(), 0, HOURS_OF_A_YEAR);
        good &=
                faults.withinIfGiven(
                        at + "/maintenanceHoursPerYear",
                        basis.maintenanceHoursPerYear(),
                        0,
                        HOURS_OF_A_YEAR);
        good &=
                basis.usedPercent() == null
                        || faults.over(at + "/usedPercent", basis.usedPercent(), 0, 100);
        if (good && !(basis.runningHours() > 0)) {
            faults.add(
                    at + "/idleHoursPerYear",
                    "leaves no running hours: with maintenanceHoursPerYear it must be less than"
                            + " totalHoursPerYear");
        }
    }

    private void leftOutBeside(String at, String field, @Nullable Double value, String beside) {
        if (value != null) {
            faults.add(at + "/" + field, "must be left out where there is " + beside);
        }
    }

    private void affordable(String at, double rate) {
        if (!(rate <= DEAREST)) {
            faults.add(at, "gives a rate of more than " + (long) DEAREST + " an hour");
        }
    }

    private void allowanceBasis(String at, @Nullable Allowance basis) {
        if (basis == null) {
            return;
        }
        faults.within(at + "/personalPercent", basis.personalPercent(), 0, 50);
        faults.within(at + "/fatiguePercent", basis.fatiguePercent(), 0, 50);
        faults.within(at + "/liftedKg", basis.liftedKg(), 0, AllowanceTable.HEAVIEST_KG);
        faults.within(at + "/contingencyPercent", basis.contingencyPercent(), 0, 50);
    }

    private void priceScheme(String at, @Nullable PriceScheme scheme) {
        if (!faults.present(at, scheme, "kind, percentages and rounding")) {
            return;
        }
        faults.within(at + "/materialOverheadPercent", scheme.materialOverheadPercent(), 0, 1000);
        faults.within(
                at + "/productionOverheadPercent", scheme.productionOverheadPercent(), 0, 1000);
        faults.within(at + "/administrationPercent", scheme.administrationPercent(), 0, 500);
        faults.within(at + "/salesPercent", scheme.salesPercent(), 0, 500);
        faults.within(at + "/profitPercent", scheme.profitPercent(), 0, 500);
        faults.within(at + "/taxPercent", scheme.taxPercent(), 0, 100);
        faults.within(at + "/urgencyPercent", scheme.urgencyPercent(), 0, 500);
        faults.within(at + "/boughtOutHandlingPercent", scheme.boughtOutHandlingPercent(), 0, 500);
        discounts(at, scheme);
        rounding(at + "/roundEachTo", scheme.roundEachTo());
        moneyIfGiven(at + "/minimumOrder", scheme.minimumOrder());
    }

    /** Each is a share of the price after it, so that together they must leave something. */
    private void discounts(String at, PriceScheme scheme) {
        double settlement = scheme.settlementDiscountPercent();
        double commission = scheme.commissionPercent();
        double trade = scheme.tradeDiscountPercent();
        faults.within(at + "/settlementDiscountPercent", settlement, 0, 90);
        faults.within(at + "/commissionPercent", commission, 0, 90);
        faults.within(at + "/tradeDiscountPercent", trade, 0, 90);
        if (!(settlement + commission + trade < 100)) {
            faults.add(
                    at,
                    "settlementDiscountPercent, commissionPercent and tradeDiscountPercent"
                            + " together must stay below 100");
        }
    }

    private void rounding(String at, @Nullable String step) {
        if (!ROUNDING_STEPS.contains(step)) {
            faults.add(at, "must be one of 0.01, 0.50, 1, 5");
        } else if (book.currency() != null
                && book.currency().getDefaultFractionDigits() == 0
                && step.startsWith("0")) {
            faults.add(at, "must be 1 or 5: " + book.currency() + " has no smaller coin");
        }
    }

    private void money(String at, @Nullable Money money) {
        if (faults.present(at, money, "an amount with its currency")) {
            moneyIfGiven(at, money);
        }
    }

    private void moneyIfGiven(String at, @Nullable Money money) {
        if (money == null) {
            return;
        }
        BigDecimal amount = money.amount();
        if (amount.signum() < 0 || amount.compareTo(BigDecimal.valueOf(DEAREST)) > 0) {
            faults.add(at + "/amount", "must be from 0 to " + (long) DEAREST);
        } else if (amount.scale() > 6) {
            faults.add(at + "/amount", "must have at most 6 decimals");
        }
        if (book.currency() != null && !money.currency().equals(book.currency())) {
            faults.add(at + "/currency", "must be " + book.currency() + ", as in the whole book");
        }
    }

    private void atMost(String at, @Nullable Double value, @Nullable Double most, String field) {
        if (value != null && most != null && !(value <= most)) {
            faults.add(at, "must be at most " + field + ", which is " + most);
        }
    }

    private <T> void each(String at, List<T> list, int low, int high, BiConsumer<String, T> check) {
        faults.size(at, list, low, high);
        for (int i = 0; i < list.size(); i++) {
            T entry = list.get(i);
            if (entry == null) {
                faults.add(at + "/" + i, "is null: an entry or nothing");
            } else {
                check.accept(at + "/" + i, entry);
            }
        }
    }

    private static <T> Set<String> names(List<T> list, Function<T, @Nullable String> name) {
        return list.stream()
                .filter(Objects::nonNull)
                .map(name)
                .filter(Objects::nonNull)
                .collect(Collectors.toCollection(LinkedHashSet::new));
    }

    /** A member name as JSON Pointer (RFC 6901) writes it. */
    private static String escaped(String name) {
        return name.replace("~", "~0").replace("/", "~1");
    }
}
