package strokewright.estimate;

import static strokewright.forming.FormingFormula.*;
import static strokewright.quantity.Why.Input.computed;
import static strokewright.quantity.Why.Input.drawing;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
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
import strokewright.quantity.Severity;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/** Reckons one forming operation of one piece with given tools. */
final class FormedWork {

    private final Bench bench;
    private final Formed operation;
    private final int position;

    private final Working working = new Working();
    private final Limits limits;
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
        this.limits = new Limits(bench, operation, pointer);
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
        limits.noTool(field);
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
        limits.marks(tool);
    }

    private void curveEdge(Operation.CurveEdge edge, Tool tool) {
        boolean shrink = edge.sense() == Operation.Sense.SHRINK;
        if (shrink && !limits.heightUnderRadius(edge.heightMm(), edge.radiusMm())) {
            return;
        }
        Double start = edge.startRadiusMm();
        if (!limits.startNotTighter(start, edge.radiusMm())) {
            return;
        }
        Edges.CurvedEdge shape =
                new Edges.CurvedEdge(
                        shrink,
                        edge.lengthMm(),
                        edge.radiusMm(),
                        start == null ? 0 : 1 / start,
                        edge.heightMm());
        limits.reach(edge.heightMm());
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
                () ->
                        Feasible.edge(
                                h ->
                                        (!shrink || h < edge.radiusMm())
                                                && shape.edgeStrain(h, edge.radiusMm()) <= room,
                                edge.heightMm(),
                                r ->
                                        (!shrink || r > edge.heightMm())
                                                && shape.edgeStrain(edge.heightMm(), r) <= room,
                                edge.radiusMm(),
                                start == null ? Feasible.LARGEST_RADIUS_MM : start));
    }

    private void turnFlange(Operation.TurnFlange flange, Tool tool) {
        boolean shrink = flange.sense() == Operation.Sense.SHRINK;
        if (!shrink && !limits.heightUnderRadius(flange.heightMm(), flange.radiusMm())) {
            return;
        }
        Edges.TurnedFlange shape =
                new Edges.TurnedFlange(
                        shrink,
                        flange.radiusMm(),
                        flange.heightMm(),
                        Math.toRadians(flange.angleDeg()),
                        Math.toRadians(flange.sweepDeg()));
        limits.reach(flange.heightMm());
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
                () ->
                        Feasible.edge(
                                h ->
                                        (shrink || h < flange.radiusMm())
                                                && shape.edgeStrain(h, flange.radiusMm()) <= room,
                                flange.heightMm(),
                                r ->
                                        (shrink || r > flange.heightMm())
                                                && shape.edgeStrain(flange.heightMm(), r) <= room,
                                flange.radiusMm(),
                                Feasible.LARGEST_RADIUS_MM));
    }

    private void dish(Operation.Dish dish, Tool rimTool, Tool crownTool) {
        if (!limits.atMostAHemisphere(dish.depthMm(), dish.diameterMm())) {
            return;
        }
        Edges.Cap cap =
                Edges.Cap.of(
                        dish.diameterMm(), dish.depthMm(), dish.rimShare(), dish.trimMm(), working);
        rimShare = cap.rimShare();
        blankDiameterMm = cap.blankDiameterMm();
        limits.reach(cap.blankDiameterMm() / 2);
        limits.rimOf(cap.blankDiameterMm());
        List<Row> rings =
                cap.rings(rimTool.jawMm(), bench.book().times().minimumRowStrain(), working);
        double rimBand = rings.stream().mapToDouble(Row::lengthMm).sum() * rimTool.jawMm();
        PassPlan rim = rows("rim", rings, true, rimBand, 0, 0, rimTool);
        PassPlan middle = crown(cap, crownTool);
        if (!bench.metal().annealable() && rim.anneals() + middle.anneals() > 0) {
            boolean atTheRim = rim.anneals() > 0;
            Double depth =
                    Feasible.largest(
                            h ->
                                    withoutAnneal(
                                            dish,
                                            h,
                                            rim.firstCycleRoom(),
                                            middle.firstCycleRoom(),
                                            rimTool),
                            dish.depthMm());
            limits.notAnnealable(
                    atTheRim ? rim : middle,
                    atTheRim ? strains.get(strains.size() - 1) : crown.strain(),
                    depth == null ? null : Map.of("depthMm", depth));
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
        limits.passes(plan);
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
        limits.capacity(bench.thicknessMm(), 0, tool);
        anneal(plan, area);
        crown =
                new Estimate.Crown(
                        strain,
                        plan.total(),
                        plan.anneals(),
                        operation.count() * Math.round(minutes.strokes()),
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
        limits.passes(plan);
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
        limits.capacity(edgeThicknessMm, shrink ? most / 2 : 0, tool);
        anneal(plan, bandMm2);
        anneals = plan.anneals();
        return plan;
    }

    private void area(double areaMm2, int timesOver, Tool tool) {
        limits.reachOverBlank();
        passes = List.of(timesOver);
        // no strain is put in: such a tool needs no bite
        Setting field = new Setting(0, 0, tool.pitchMm(), tool.rowMm());
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
        limits.capacity(bench.thicknessMm(), 0, tool);
    }

    private void dents(Operation.TakeOutDents dents, Tool tool) {
        limits.reachOverBlank();
        stretches.add(
                Minutes.atSpots(
                        "dents",
                        dents.spots(),
                        dents.strokesPerSpot(),
                        bench.book().times().dentFindSeconds(),
                        bench.pace(tool, working),
                        working));
        limits.capacity(bench.thicknessMm(), 0, tool);
    }

    private void anneal(PassPlan plan, double bandMm2) {
        if (plan.anneals() == 0) {
            return;
        }
        if (!bench.metal().annealable()) {
            return; // refused, with what would be feasible, where the shape is known
        }
        limits.anneals(plan);
        annealedBy = bench.book().standard(bench.book().times().annealStandard()).orElse(null);
        if (annealedBy == null) {
            limits.noAnnealStandard();
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

    private void refuseAnneal(PassPlan plan, Supplier<@Nullable Map<String, Object>> change) {
        if (plan.anneals() > 0 && !bench.metal().annealable()) {
            limits.notAnnealable(plan, strains.get(strains.size() - 1), change.get());
        }
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
                        limits.findings(),
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
}
