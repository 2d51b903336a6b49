package strokewright.estimate;

import static strokewright.forming.FormingFormula.*;
import static strokewright.quantity.Why.Input.computed;
import static strokewright.quantity.Why.Input.drawing;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Operation.Formed;
import strokewright.estimate.ShopBook.Standard;
import strokewright.estimate.ShopBook.Tool;
import strokewright.forming.Minutes;
import strokewright.forming.PassPlan;
import strokewright.forming.Row;
import strokewright.forming.Setting;
import strokewright.quantity.Arithmetic;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/**
 * Reckons one forming operation of one piece with given tools; each kind of operation has its own
 * class, and this one has what they share.
 */
abstract class FormedWork {

    final Bench bench;
    final Working working = new Working();
    final Limits limits;

    private final Formed operation;
    private final int position;
    private final List<Opened> phases = new ArrayList<>();

    // What the kinds of operation leave for the line; each sets what it has.
    List<Double> strains = List.of();
    List<Integer> passes = List.of();
    int correctionPasses;
    int tippingPasses;
    int anneals;
    @Nullable Double edgeThicknessMm;
    @Nullable Double rimShare;
    @Nullable Double blankDiameterMm;
    Estimate.@Nullable Crown crown;
    Estimate.@Nullable Outlined outline;

    private double annealMinutes;
    private double coolMinutes;
    private @Nullable Standard annealedBy;
    private double dressMinutes;
    private @Nullable Standard dressedBy;

    FormedWork(Maker maker) {
        this.bench = maker.bench();
        this.operation = maker.operation();
        this.position = maker.position();
        this.limits = new Limits(bench, operation, maker.pointer());
    }

    /** Does the work with these tools, one for each phase. */
    abstract void reckon(List<Tool> tools);

    /** Starts an operation over for every tool that is tried. */
    record Maker(
            Bench bench,
            Formed operation,
            int position,
            String pointer,
            List<Phase> phases,
            Function<Maker, FormedWork> kind) {

        static Maker of(Bench bench, Formed operation, int position, String pointer) {
            if (operation instanceof Operation.Dish dish) {
                return new Maker(
                        bench,
                        dish,
                        position,
                        pointer,
                        List.of(
                                new Phase("/tool", dish.tool(), ToolChoice.RIM),
                                new Phase("/crownTool", dish.crownTool(), ToolChoice.CROWN)),
                        m -> new DishWork(m, dish));
            }
            if (operation instanceof Operation.FollowOutline follow) {
                LaidOutline laid = LaidOutline.of(follow, bench.book().times());
                return new Maker(
                        bench,
                        follow,
                        position,
                        pointer,
                        laid.phases(),
                        m -> new OutlineWork(m, laid));
            }
            return new Maker(
                    bench,
                    operation,
                    position,
                    pointer,
                    List.of(new Phase("/tool", operation.tool(), ToolChoice.kindsFor(operation))),
                    m -> ofOnePhase(m, operation));
        }

        private static FormedWork ofOnePhase(Maker maker, Formed operation) {
            if (operation instanceof Operation.CurveEdge edge) {
                return new CurvedEdgeWork(maker, edge);
            }
            if (operation instanceof Operation.TurnFlange flange) {
                return new FlangeWork(maker, flange);
            }
            if (operation instanceof Operation.Smooth smooth) {
                return new AreaWork(maker, smooth.areaMm2(), smooth.timesOver());
            }
            if (operation instanceof Operation.Flatten flatten) {
                return new AreaWork(maker, flatten.areaMm2(), flatten.timesOver());
            }
            return new DentWork(maker, (Operation.TakeOutDents) operation);
        }

        boolean overridden() {
            return operation.override() != null;
        }

        FormedWork with(List<Tool> tools) {
            FormedWork work = kind.apply(this);
            work.reckon(tools);
            return work;
        }

        Worked withoutTool(String field) {
            FormedWork work = kind.apply(this);
            work.limits.noTool(field);
            return work.worked();
        }
    }

    /** A phase that has been begun with a tool. */
    private static final class Opened {
        final Tool tool;
        final long refusalsBefore;
        long refusals;
        int anneals;
        double dressMinutes;
        final List<Minutes> stretches = new ArrayList<>();

        Opened(Tool tool, long refusalsBefore) {
            this.tool = tool;
            this.refusalsBefore = refusalsBefore;
        }
    }

    /** What follows is done with this tool. */
    final void use(Tool tool) {
        closePhase();
        phases.add(new Opened(tool, limits.refusals()));
    }

    private void closePhase() {
        if (!phases.isEmpty()) {
            Opened last = phases.get(phases.size() - 1);
            last.refusals = limits.refusals() - last.refusalsBefore;
        }
    }

    final void add(Minutes stretch) {
        phases.get(phases.size() - 1).stretches.add(stretch);
    }

    /** How each phase went, in their order. */
    final List<Phase.Done> phases() {
        closePhase();
        return phases.stream()
                .map(
                        p ->
                                new Phase.Done(
                                        p.tool,
                                        Minutes.elapsed(operation.count(), p.stretches)
                                                + p.dressMinutes,
                                        p.anneals + 1,
                                        p.refusals))
                .toList();
    }

    /** Rows of an edge, flange or rim: passes, corrections, minutes, finished thickness. */
    final PassPlan rows(
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
                        bench.thickness(),
                        working);
        limits.passes(plan);
        strains = rows.stream().map(Row::strain).toList();
        passes = plan.passes();
        correctionPasses = bench.correctionPasses(working);
        add(
                Minutes.alongRows(
                        name,
                        rows,
                        plan,
                        bench.metal(),
                        bench.thicknessMm(),
                        correctionPasses,
                        tipping,
                        bendLineMm,
                        bench.ofTimes("station length", bench.book().times().arcStationMm(), "mm"),
                        setting,
                        bench.pace(tool, working),
                        working));
        double most = strains.get(strains.size() - 1);
        double finished =
                working.figure(
                        "edgeThicknessMm",
                        shrink ? SHRUNK_EDGE_THICKNESS : STRETCHED_EDGE_THICKNESS,
                        bench.thickness(),
                        computed("ε", most, ""));
        edgeThicknessMm = finished;
        limits.capacity(finished, shrink ? most / 2 : 0, tool);
        dressMarks(tool, bandMm2);
        anneal(plan, bandMm2);
        anneals = plan.anneals();
        return plan;
    }

    /** A steel-faced tool leaves marks on a visible surface, which are dressed out at the bench. */
    final void dressMarks(Tool tool, double bandMm2) {
        if (!ToolChoice.marks(tool, bench.part().surface())) {
            return;
        }
        dressedBy = bench.book().standard(bench.book().times().dressMarksStandard()).orElse(null);
        if (dressedBy == null) {
            limits.marksStay(tool);
            return;
        }
        double minutes =
                working.figure(
                        "dressMinutes",
                        DRESS_MINUTES,
                        drawing("count", operation.count(), ""),
                        new Input(
                                "dressing",
                                dressedBy.minutesPerUnit(),
                                "min/dm²",
                                Bench.origin(bench.book(), dressedBy.origin())),
                        computed("band", bandMm2, "mm²"));
        dressMinutes += minutes;
        phases.get(phases.size() - 1).dressMinutes += minutes;
    }

    /** Strain that can be put in without a refusal. */
    final double feasibleStrain(boolean shrink) {
        if (bench.metal().annealable()) {
            return Double.POSITIVE_INFINITY;
        }
        return PassPlan.roomAsDelivered(
                bench.metal(),
                shrink ? bench.shrinkLimit() : bench.edgeStretchLimit(new Working()),
                !shrink);
    }

    /** Anneals between the cycles of a plan, by the area of the worked band. */
    final void anneal(PassPlan plan, double bandMm2) {
        if (plan.anneals() == 0) {
            return;
        }
        if (!bench.metal().annealable()) {
            return; // refused, with what would be feasible, where the shape is known
        }
        Opened phase = phases.get(phases.size() - 1);
        phase.anneals = Math.max(phase.anneals, plan.anneals());
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
        coolMinutes +=
                plan.anneals() * operation.count() * bench.book().times().annealCoolCleanMinutes();
    }

    /** Where anneals would be needed and may not be: with the sizes that need none. */
    final void refuseAnneal(PassPlan plan, Supplier<@Nullable Map<String, Object>> change) {
        if (plan.anneals() > 0 && !bench.metal().annealable()) {
            limits.notAnnealable(plan, strains.get(strains.size() - 1), change.get());
        }
    }

    private List<Worked.Doubtful> efforts() {
        List<Worked.Doubtful> efforts = new ArrayList<>();
        for (Opened phase : phases) {
            for (Minutes stretch : phase.stretches) {
                efforts.add(new Worked.Doubtful(phase.tool, stretch.effort()));
            }
        }
        return efforts;
    }

    final Worked worked() {
        List<Minutes> stretches = phases.stream().flatMap(p -> p.stretches.stream()).toList();
        List<Tool> tools = phases.stream().map(p -> p.tool).toList();
        Minutes total =
                stretches.isEmpty()
                        ? Minutes.NONE
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
                        tools.size() > 1 && crown != null ? tools.get(1).name() : null,
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
                        Math.round(total.strokes()),
                        total.strokeMinutes(),
                        total.repositionMinutes(),
                        Math.round(total.checks()),
                        total.checkMinutes(),
                        total.findMinutes() > 0 ? total.findMinutes() : null,
                        annealMinutes,
                        dressedBy == null ? null : dressMinutes,
                        null,
                        machineMinutes,
                        personMinutes,
                        people,
                        operation.override(),
                        limits.findings(),
                        working.lines(),
                        null,
                        null);
        return new Worked(
                line,
                bench.part().perAssembly(),
                bench.grade(),
                total.pacedMinutes(),
                bench.machine(),
                phases(),
                null,
                annealedBy,
                coolMinutes,
                dressedBy,
                operation.count(),
                efforts());
    }
}
