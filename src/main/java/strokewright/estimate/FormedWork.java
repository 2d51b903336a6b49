package strokewright.estimate;

import static strokewright.forming.FormingFormula.*;
import static strokewright.quantity.Why.Input.computed;
import static strokewright.quantity.Why.Input.drawing;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.DoublePredicate;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Operation.Formed;
import strokewright.estimate.ShopBook.Standard;
import strokewright.estimate.ShopBook.Tool;
import strokewright.forming.Edges;
import strokewright.forming.Minutes;
import strokewright.forming.PassPlan;
import strokewright.forming.Row;
import strokewright.forming.Setting;
import strokewright.quantity.Arithmetic;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Severity;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/** Reckons one forming operation of one piece with given tools. */
final class FormedWork {

    private final Bench bench;
    private final Formed operation;
    private final int position;
    private final String pointer;

    private final Working working = new Working();
    private final List<Finding> findings = new ArrayList<>();
    private final List<Minutes> stretches = new ArrayList<>();
    private final List<Tool> tools = new ArrayList<>();

    // What the kinds of operation leave for the line; each sets what it has.
    private List<Double> strains = List.of();
    private List<Integer> passes = List.of();
    private int correctionPasses;
    private int tippingPasses;
    private int anneals;
    private double annealMinutes;
    private @Nullable Standard annealedBy;
    private @Nullable Double edgeThicknessMm;
    private @Nullable Double rimShare;
    private @Nullable Double blankDiameterMm;
    private Estimate.@Nullable Crown crown;

    private FormedWork(Bench bench, Formed operation, int position, String pointer) {
        this.bench = bench;
        this.operation = operation;
        this.position = position;
        this.pointer = pointer;
    }

    /** With the tools that take the fewest minutes of those that can do it; ties by the book. */
    static Worked quickest(Bench bench, Formed operation, int position, String pointer) {
        List<Tool> candidates =
                ToolChoice.candidates(
                        bench.book(),
                        operation.tool(),
                        ToolChoice.kindsFor(operation),
                        bench.part().surface());
        if (candidates.isEmpty()) {
            return new FormedWork(bench, operation, position, pointer).withoutTool("/tool");
        }
        if (!(operation instanceof Operation.Dish dish)) {
            return best(
                    candidates.stream()
                            .map(
                                    t ->
                                            new FormedWork(bench, operation, position, pointer)
                                                    .with(t, null))
                            .toList());
        }
        List<Tool> crowns =
                ToolChoice.candidates(
                        bench.book(), dish.crownTool(), ToolChoice.CROWN, bench.part().surface());
        if (crowns.isEmpty()) {
            return new FormedWork(bench, operation, position, pointer).withoutTool("/crownTool");
        }
        return best(
                candidates.stream()
                        .flatMap(
                                rim ->
                                        crowns.stream()
                                                .map(
                                                        c ->
                                                                new FormedWork(
                                                                                bench, operation,
                                                                                position, pointer)
                                                                        .with(rim, c)))
                        .toList());
    }

    private static Worked best(List<Worked> choices) {
        return choices.stream()
                .min(
                        Comparator.<Worked>comparingLong(w -> refusals(w.line()))
                                .thenComparingDouble(
                                        w -> w.line().machineMinutes() + w.line().annealMinutes()))
                .orElseThrow();
    }

    static long refusals(Estimate.Line line) {
        return line.findings().stream().filter(f -> f.severity() == Severity.REFUSAL).count();
    }

    private Worked withoutTool(String field) {
        find("no-tool", Severity.REFUSAL, field, Map.of("operation", operation.kind()), null);
        return worked();
    }

    private Worked with(Tool tool, @Nullable Tool crownTool) {
        use(tool);
        if (operation instanceof Operation.CurveEdge edge) {
            curveEdge(edge, tool);
        } else if (operation instanceof Operation.TurnFlange flange) {
            turnFlange(flange, tool);
        } else if (operation instanceof Operation.Dish dish) {
            use(crownTool);
            dish(dish, tool, crownTool);
        } else if (operation instanceof Operation.Smooth smooth) {
            area(smooth.areaMm2(), smooth.timesOver(), tool);
        } else if (operation instanceof Operation.Flatten flatten) {
            area(flatten.areaMm2(), flatten.timesOver(), tool);
        } else if (operation instanceof Operation.TakeOutDents dents) {
            dents(dents, tool);
        }
        return worked();
    }

    private void use(Tool tool) {
        tools.add(tool);
        if (ToolChoice.marks(tool, bench.part().surface())) {
            find("marks-on-visible-surface", Severity.DOUBT, "", Map.of("tool", tool.name()), null);
        }
    }

    private void curveEdge(Operation.CurveEdge edge, Tool tool) {
        boolean shrink = edge.sense() == Operation.Sense.SHRINK;
        if (shrink && !heightUnderRadius(edge.heightMm(), edge.radiusMm())) {
            return;
        }
        Double start = edge.startRadiusMm();
        if (start != null && start < edge.radiusMm()) {
            find(
                    "starting-radius-too-tight",
                    Severity.REFUSAL,
                    "/startRadiusMm",
                    Map.of("startRadiusMm", start, "radiusMm", edge.radiusMm()),
                    Map.of("startRadiusMm", edge.radiusMm()));
            return;
        }
        Edges.CurvedEdge shape =
                new Edges.CurvedEdge(
                        shrink,
                        edge.lengthMm(),
                        edge.radiusMm(),
                        start == null ? 0 : 1 / start,
                        edge.heightMm());
        checkReach(edge.heightMm());
        PassPlan plan =
                rows(
                        "edge",
                        shape.rows(tool.jawMm(), bench.book().times().minimumRowStrain(), working),
                        shrink,
                        shape.bandMm2(),
                        0,
                        0,
                        tool);
        double room = plan.firstCycleRoom();
        refuseAnneal(
                plan,
                nearest(
                        h ->
                                (!shrink || h < edge.radiusMm())
                                        && shape.edgeStrain(h, edge.radiusMm()) <= room,
                        edge.heightMm(),
                        r ->
                                (!shrink || r > edge.heightMm())
                                        && shape.edgeStrain(edge.heightMm(), r) <= room,
                        edge.radiusMm(),
                        start == null ? LARGEST_RADIUS_MM : start));
    }

    private void turnFlange(Operation.TurnFlange flange, Tool tool) {
        boolean shrink = flange.sense() == Operation.Sense.SHRINK;
        if (!shrink && !heightUnderRadius(flange.heightMm(), flange.radiusMm())) {
            return;
        }
        Edges.TurnedFlange shape =
                new Edges.TurnedFlange(
                        shrink,
                        flange.radiusMm(),
                        flange.heightMm(),
                        Math.toRadians(flange.angleDeg()),
                        Math.toRadians(flange.sweepDeg()));
        checkReach(flange.heightMm());
        tippingPasses =
                (int)
                        working.figure(
                                "tippingPasses",
                                TIPPING_PASSES,
                                drawing("α", flange.angleDeg(), "°"),
                                bench.ofTimes(
                                        "a pass",
                                        bench.book().times().degreesPerTippingPass(),
                                        "°"));
        PassPlan plan =
                rows(
                        "flange",
                        shape.rows(tool.jawMm(), bench.book().times().minimumRowStrain(), working),
                        shrink,
                        shape.bandMm2(),
                        tippingPasses,
                        shape.bendLineMm(working),
                        tool);
        double room = plan.firstCycleRoom();
        refuseAnneal(
                plan,
                nearest(
                        h ->
                                (shrink || h < flange.radiusMm())
                                        && shape.edgeStrain(h, flange.radiusMm()) <= room,
                        flange.heightMm(),
                        r ->
                                (shrink || r > flange.heightMm())
                                        && shape.edgeStrain(flange.heightMm(), r) <= room,
                        flange.radiusMm(),
                        LARGEST_RADIUS_MM));
    }

    private void dish(Operation.Dish dish, Tool rimTool, Tool crownTool) {
        if (dish.depthMm() > dish.diameterMm() / 2) {
            find(
                    "depth-over-half-diameter",
                    Severity.REFUSAL,
                    "/depthMm",
                    Map.of("depthMm", dish.depthMm(), "diameterMm", dish.diameterMm()),
                    Map.of("depthMm", dish.diameterMm() / 2));
            return;
        }
        Edges.Cap cap =
                Edges.Cap.of(
                        dish.diameterMm(), dish.depthMm(), dish.rimShare(), dish.trimMm(), working);
        rimShare = cap.rimShare();
        blankDiameterMm = cap.blankDiameterMm();
        checkReach(cap.blankDiameterMm() / 2);
        if (bench.thicknessMm() / cap.blankDiameterMm() < RIM_BUCKLES_BELOW) {
            find(
                    "rim-buckles",
                    Severity.DOUBT,
                    "",
                    Map.of(
                            "thicknessMm",
                            bench.thicknessMm(),
                            "blankDiameterMm",
                            cap.blankDiameterMm()),
                    Map.of("thicknessMm", RIM_BUCKLES_BELOW * cap.blankDiameterMm()));
        }
        List<Row> rings =
                cap.rings(rimTool.jawMm(), bench.book().times().minimumRowStrain(), working);
        double rimBand = rings.stream().mapToDouble(Row::lengthMm).sum() * rimTool.jawMm();
        PassPlan rim = rows("rim", rings, true, rimBand, 0, 0, rimTool);
        PassPlan middle = crown(cap, crownTool);
        if (!bench.metal().annealable() && rim.anneals() + middle.anneals() > 0) {
            Double depth =
                    largest(
                            h ->
                                    withoutAnneal(
                                            dish,
                                            h,
                                            rim.firstCycleRoom(),
                                            middle.firstCycleRoom(),
                                            rimTool),
                            dish.depthMm());
            Input strain = computed("", rings.get(rings.size() - 1).strain(), "");
            refuseAnneal(
                    rim.anneals() > 0 ? rim : middle,
                    depth == null ? null : Map.of("depthMm", depth),
                    rim.anneals() > 0 ? strain.value() : crown.strain());
        }
    }

    private boolean withoutAnneal(
            Operation.Dish dish, double depth, double rimRoom, double crownRoom, Tool rimTool) {
        Working aside = new Working();
        Edges.Cap cap = Edges.Cap.of(dish.diameterMm(), depth, dish.rimShare(), 0, aside);
        List<Row> rings = cap.rings(rimTool.jawMm(), 1, aside);
        return rings.get(rings.size() - 1).strain() <= rimRoom
                && cap.crownStrain(aside) <= crownRoom;
    }

    private PassPlan crown(Edges.Cap cap, Tool tool) {
        double strain = cap.crownStrain(working);
        double area = cap.areaMm2(working);
        Setting setting = bench.setting(tool, tool.rowMm(), false, working);
        PassPlan plan =
                PassPlan.of(
                        "crown.passes",
                        List.of(strain),
                        bench.metal(),
                        bench.areaStretchLimit(working),
                        true,
                        setting,
                        bench.thicknessMm(),
                        working);
        limitPasses(plan.total());
        Minutes minutes =
                Minutes.overArea(
                        "crown",
                        area,
                        plan.total(),
                        bench.book().times().areaStationsAtLeast(),
                        bench.book().times().areaStationMm(),
                        setting,
                        bench.pace(tool, working),
                        working);
        stretches.add(minutes);
        double thickness =
                working.figure(
                        "crown.thicknessMm",
                        STRETCHED_AREA_THICKNESS,
                        drawing("t", bench.thicknessMm(), "mm"),
                        computed("ε", strain, ""));
        checkCapacity(bench.thicknessMm(), 0, tool);
        anneal(plan, area);
        crown =
                new Estimate.Crown(
                        strain,
                        plan.total(),
                        plan.anneals(),
                        Math.round(minutes.strokes()),
                        thickness);
        return plan;
    }

    /**
     * Rows of an edge, flange or rim: passes, corrections, minutes, finished thickness, capacity.
     */
    private PassPlan rows(
            String name,
            List<Row> rows,
            boolean shrink,
            double bandMm2,
            int tipping,
            double bendLineMm,
            Tool tool) {
        Setting setting = bench.setting(tool, tool.jawMm(), shrink, working);
        PassPlan plan =
                PassPlan.of(
                        "passes",
                        rows.stream().map(Row::strain).toList(),
                        bench.metal(),
                        shrink ? bench.shrinkLimit() : bench.edgeStretchLimit(working),
                        !shrink,
                        setting,
                        bench.thicknessMm(),
                        working);
        limitPasses(plan.total());
        strains = rows.stream().map(Row::strain).toList();
        passes = plan.passes();
        correctionPasses = bench.correctionPasses();
        stretches.add(
                Minutes.alongRows(
                        name,
                        rows,
                        plan,
                        correctionPasses,
                        tipping,
                        bendLineMm,
                        bench.book().times().arcStationMm(),
                        setting,
                        bench.pace(tool, working),
                        working));
        double most = strains.get(strains.size() - 1);
        edgeThicknessMm =
                working.figure(
                        "edgeThicknessMm",
                        shrink ? SHRUNK_EDGE_THICKNESS : STRETCHED_EDGE_THICKNESS,
                        drawing("t", bench.thicknessMm(), "mm"),
                        computed("ε", most, ""));
        checkCapacity(edgeThicknessMm, shrink ? most / 2 : 0, tool);
        anneal(plan, bandMm2);
        anneals = plan.anneals();
        return plan;
    }

    private void area(double areaMm2, int timesOver, Tool tool) {
        checkBlankReach();
        passes = List.of(timesOver);
        Working aside = new Working(); // bite and stroke work play no part here
        Setting field = bench.setting(tool, tool.rowMm(), false, aside);
        stretches.add(
                Minutes.overArea(
                        "area",
                        areaMm2,
                        timesOver,
                        bench.book().times().areaStationsAtLeast(),
                        bench.book().times().areaStationMm(),
                        field,
                        bench.pace(tool, working),
                        working));
        checkCapacity(bench.thicknessMm(), 0, tool);
    }

    private void dents(Operation.TakeOutDents dents, Tool tool) {
        checkBlankReach();
        stretches.add(
                Minutes.atSpots(
                        "dents",
                        dents.spots(),
                        dents.strokesPerSpot(),
                        bench.book().times().dentFindSeconds(),
                        bench.pace(tool, working),
                        working));
        checkCapacity(bench.thicknessMm(), 0, tool);
    }

    // Limits. A refusal is a finding, and the minutes are reckoned all the same where they can be.

    /** Below this thickness to blank diameter a rim buckles; assumed. */
    private static final double RIM_BUCKLES_BELOW = 0.002;

    private static final double LARGEST_RADIUS_MM = 1e6;

    private boolean heightUnderRadius(double height, double radius) {
        if (height < radius) {
            return true;
        }
        find(
                "height-not-under-radius",
                Severity.REFUSAL,
                "/heightMm",
                Map.of("heightMm", height, "radiusMm", radius),
                null);
        return false;
    }

    /** The machine meets the sheet as delivered and as finished: the thicker of the two counts. */
    private void checkCapacity(double finishedMm, double thickening, Tool tool) {
        double thickest = Math.max(bench.thicknessMm(), finishedMm);
        double tensile = bench.metal().tensileMpa();
        double machine =
                CAPACITY_THICKNESS.apply(
                        bench.machine().ratedThicknessMm(),
                        bench.machine().ratedStrengthMpa(),
                        tensile);
        if (thickest > machine) {
            find(
                    "over-capacity",
                    Severity.REFUSAL,
                    "",
                    values(
                            "machine", bench.machine().name(),
                            "thicknessMm", thickest,
                            "capacityMm", machine,
                            "tensileMpa", tensile),
                    Map.of("thicknessMm", machine / Math.exp(thickening)));
        }
        if (tool.maxThicknessMm() == null) {
            return;
        }
        double most = CAPACITY_THICKNESS.apply(tool.maxThicknessMm(), RATED_STRENGTH_MPA, tensile);
        if (thickest > most) {
            find(
                    "over-tool-capacity",
                    Severity.REFUSAL,
                    "",
                    values(
                            "tool", tool.name(),
                            "thicknessMm", thickest,
                            "capacityMm", most,
                            "tensileMpa", tensile),
                    Map.of("thicknessMm", most / Math.exp(thickening)));
        }
    }

    /** Tools are rated like machines, for steel of this tensile strength. */
    private static final double RATED_STRENGTH_MPA = 400;

    private void checkReach(double natural) {
        double reach = operation.reachMm() == null ? natural : operation.reachMm();
        Double throat = bench.machine().throatMm();
        if (throat != null && reach > throat) {
            find(
                    "beyond-throat",
                    Severity.REFUSAL,
                    operation.reachMm() == null ? "" : "/reachMm",
                    values("machine", bench.machine().name(), "reachMm", reach, "throatMm", throat),
                    Map.of("reachMm", throat));
        }
    }

    private void checkBlankReach() {
        if (operation.reachMm() != null || bench.part().blank() != null) {
            checkReach(bench.part().blank() == null ? 0 : bench.part().blank().shorterMm() / 2);
        }
    }

    private void limitPasses(long count) {
        if (count > PassPlan.MOST_PASSES) {
            throw new InvalidInput(
                    pointer,
                    "takes more than 100,000 passes: check the sizes, the bite of the tool and the"
                            + " grade");
        }
    }

    private void anneal(PassPlan plan, double bandMm2) {
        if (plan.anneals() == 0) {
            return;
        }
        if (!bench.metal().annealable()) {
            return; // refused, with what would be feasible, where the shape is known
        }
        find(
                "anneals-needed",
                Severity.NOTE,
                "",
                values(
                        "anneals", plan.anneals(),
                        "strainPerCycle", plan.firstCycleRoom()),
                null);
        annealedBy = bench.book().standard(bench.book().times().annealStandard()).orElse(null);
        if (annealedBy == null) {
            find("no-anneal-standard", Severity.DOUBT, "", Map.of(), null);
            return;
        }
        annealMinutes +=
                working.figure(
                        "annealMinutes",
                        ANNEAL_MINUTES,
                        computed("anneals", plan.anneals() * operation.count(), ""),
                        new Input(
                                "anneal",
                                annealedBy.minutesPerUnit(),
                                "min/dm²",
                                Bench.origin(bench.book(), annealedBy.origin())),
                        computed("band", bandMm2, "mm²"),
                        bench.ofTimes(
                                "cooling and cleaning",
                                bench.book().times().annealCoolCleanMinutes(),
                                "min"));
    }

    private void refuseAnneal(PassPlan plan, @Nullable Map<String, Object> change) {
        if (!bench.metal().annealable() && plan.anneals() > 0) {
            refuseAnneal(plan, change, strains.get(strains.size() - 1));
        }
    }

    private void refuseAnneal(PassPlan plan, @Nullable Map<String, Object> change, double strain) {
        find(
                "not-annealable",
                Severity.REFUSAL,
                "",
                values(
                        "grade", bench.grade().code(),
                        "strain", strain,
                        "strainWithoutAnneal", plan.firstCycleRoom(),
                        "anneals", plan.anneals()),
                change);
    }

    /** The height at this radius, and the radius at this height, that need no anneal. */
    private static @Nullable Map<String, Object> nearest(
            DoublePredicate height,
            double statedHeight,
            DoublePredicate radius,
            double statedRadius,
            double loosestRadius) {
        Map<String, Object> change = new LinkedHashMap<>();
        Double low = largest(height, statedHeight);
        if (low != null) {
            change.put("heightMm", low);
        }
        if (radius.test(loosestRadius)) {
            double tight = statedRadius;
            double loose = loosestRadius;
            for (int i = 0; i < 100 && loose - tight > 1e-9 * loose; i++) {
                double middle = (tight + loose) / 2;
                if (radius.test(middle)) {
                    loose = middle;
                } else {
                    tight = middle;
                }
            }
            change.put("radiusMm", loose);
        }
        return change.isEmpty() ? null : change;
    }

    /** The largest value under the stated one for which it holds; null when there is none. */
    private static @Nullable Double largest(DoublePredicate holds, double stated) {
        double good = 0;
        double bad = stated;
        for (int i = 0; i < 100 && bad - good > 1e-9 * stated; i++) {
            double middle = (good + bad) / 2;
            if (holds.test(middle)) {
                good = middle;
            } else {
                bad = middle;
            }
        }
        return good > 1e-6 * stated ? good : null;
    }

    private Worked worked() {
        Minutes total =
                stretches.isEmpty()
                        ? new Minutes(0, 0, 0, 0, 0, 0, 0)
                        : Minutes.total(operation.count(), stretches, working);
        double machineMinutes =
                working.figure(
                        "machineMinutes",
                        Arithmetic.SUM,
                        computed("strokes", total.strokeMinutes(), "min"),
                        computed("repositioning", total.repositionMinutes(), "min"),
                        computed("checks", total.checkMinutes(), "min"),
                        computed("finding", total.findMinutes(), "min"));
        int people = bench.handling().people();
        double personMinutes =
                working.figure(
                        "personMinutes",
                        PERSON_MINUTES,
                        computed("elapsed", machineMinutes, "min"),
                        bench.ofTimes("people", people, ""));
        Estimate.Line line =
                new Estimate.Line(
                        bench.part().name(),
                        position,
                        operation.kind(),
                        null,
                        bench.book().formingCentre().name(),
                        bench.machine().name(),
                        tools.isEmpty() ? null : tools.get(0).name(),
                        tools.size() > 1 ? tools.get(1).name() : null,
                        strains,
                        passes,
                        correctionPasses,
                        tippingPasses,
                        anneals,
                        edgeThicknessMm,
                        rimShare,
                        blankDiameterMm,
                        crown,
                        Math.round(total.strokes()),
                        total.strokeMinutes(),
                        total.repositionMinutes(),
                        Math.round(total.checks()),
                        total.checkMinutes(),
                        total.findMinutes() > 0 ? total.findMinutes() : null,
                        annealMinutes,
                        null,
                        machineMinutes,
                        personMinutes,
                        people,
                        operation.override(),
                        List.copyOf(findings),
                        working.lines());
        return new Worked(
                line,
                bench.part().perAssembly(),
                total.pacedMinutes(),
                bench.machine(),
                List.copyOf(tools),
                null,
                annealedBy);
    }

    private void find(
            String code,
            Severity severity,
            String field,
            Map<String, Object> values,
            @Nullable Map<String, Object> change) {
        findings.add(new Finding(code, severity, pointer + field, values, change));
    }

    private static Map<String, Object> values(Object... namesAndValues) {
        Map<String, Object> values = new LinkedHashMap<>();
        for (int i = 0; i < namesAndValues.length; i += 2) {
            values.put((String) namesAndValues[i], namesAndValues[i + 1]);
        }
        return values;
    }
}
