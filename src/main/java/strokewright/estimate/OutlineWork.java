package strokewright.estimate;

import static strokewright.forming.FormingFormula.PIECES_OF_STOCK;
import static strokewright.forming.FormingFormula.SHRUNK_EDGE_THICKNESS;
import static strokewright.forming.FormingFormula.STRETCHED_EDGE_THICKNESS;
import static strokewright.quantity.Why.Input.computed;
import static strokewright.quantity.Why.Input.drawing;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.ShopBook.Tool;
import strokewright.forming.Edges;
import strokewright.forming.Minutes;
import strokewright.forming.Outline;
import strokewright.forming.PassPlan;
import strokewright.forming.Row;
import strokewright.forming.Setting;
import strokewright.forming.Stretch;
import strokewright.quantity.Severity;

/**
 * An outline followed with a flange along it: each stretch of one sense is worked like an edge,
 * first all that shrinks, then all that stretches.
 */
final class OutlineWork extends FormedWork {

    private final LaidOutline laid;

    OutlineWork(Maker maker, LaidOutline laid) {
        super(maker);
        this.laid = laid;
    }

    @Override
    void reckon(List<Tool> tools) {
        limits.reach(laid.operation().heightMm());
        pieces();
        corners();
        List<Estimate.Stretched> done = new ArrayList<>();
        int phase = 0;
        for (Sense sense : Sense.values()) {
            if (!laid.has(sense)) {
                continue;
            }
            Tool tool = tools.get(phase++);
            use(tool);
            for (int i = 0; i < laid.stretches().size(); i++) {
                if (LaidOutline.sense(laid.stretches().get(i)) == sense) {
                    stretch(i + 1, laid.stretches().get(i), tool, done);
                }
            }
        }
        if (phase == 0) {
            use(tools.get(0));
            limits.find("outline-straight", Severity.DOUBT, "/path", Map.of(), null);
        }
        outline =
                new Estimate.Outlined(
                        laid.outline().lengthMm(),
                        Math.toDegrees(
                                laid.outline().runs().stream()
                                        .mapToDouble(Outline.Run::turning)
                                        .sum()),
                        done,
                        laid.outline().corners().stream()
                                .map(
                                        c ->
                                                new Estimate.Turn(
                                                        c.atMm(),
                                                        c.x(),
                                                        c.y(),
                                                        Math.toDegrees(c.angle())))
                                .toList());
    }

    private void stretch(int number, Stretch stretch, Tool tool, List<Estimate.Stretched> done) {
        double height = laid.operation().heightMm();
        double radius = 1 / stretch.tightest();
        Edges.OutlinedEdge edge = new Edges.OutlinedEdge(stretch, height);
        if (stretch.shrink() && !limits.heightUnderRadius(height, radius, this::lower)) {
            return;
        }
        List<Double> heights = edge.heights(tool.jawMm(), bench.book().times().minimumRowStrain());
        List<Row> rows = edge.rows(heights, working);
        Setting setting = bench.setting(tool, tool.jawMm(), stretch.shrink(), working);
        PassPlan plan =
                PassPlan.of(
                        "passes",
                        rows.stream().map(Row::strain).toList(),
                        bench.metal(),
                        stretch.shrink() ? bench.shrinkLimit() : bench.edgeStretchLimit(working),
                        !stretch.shrink(),
                        setting,
                        bench.thickness(),
                        working);
        limits.passes(plan);
        correctionPasses = bench.correctionPasses(working);
        Minutes minutes =
                Minutes.alongStretch(
                        "stretch " + number,
                        stretch,
                        heights,
                        plan,
                        bench.metal(),
                        bench.thickness(),
                        correctionPasses,
                        bench.ofTimes(
                                "station length", bench.book().times().outlineStationMm(), "mm"),
                        setting,
                        bench.pace(tool, working),
                        working);
        add(minutes);
        double most = rows.get(rows.size() - 1).strain();
        double finished =
                working.figure(
                        "edgeThicknessMm",
                        stretch.shrink() ? SHRUNK_EDGE_THICKNESS : STRETCHED_EDGE_THICKNESS,
                        bench.thickness(),
                        computed("ε", most, ""));
        limits.capacity(finished, stretch.shrink() ? most / 2 : 0, tool);
        dressMarks(tool, edge.bandMm2());
        anneal(plan, edge.bandMm2());
        if (plan.anneals() > 0 && !bench.metal().annealable()) {
            limits.notAnnealable(plan, most, lower());
        }
        anneals = Math.max(anneals, plan.anneals());
        Estimate.Stretched line =
                new Estimate.Stretched(
                        number,
                        LaidOutline.sense(stretch),
                        tool.name(),
                        stretch.fromMm(),
                        stretch.lengthMm(),
                        stretch.bentMm(),
                        radius,
                        rows.stream().map(Row::strain).toList(),
                        plan.passes(),
                        plan.anneals(),
                        laid.operation().count() * Math.round(minutes.strokes()),
                        finished);
        if (done.stream().allMatch(d -> most(d.passes()) < most(line.passes()))) {
            strains = line.strains();
            passes = line.passes();
            edgeThicknessMm = finished;
        }
        done.add(line);
    }

    private static int most(List<Integer> passes) {
        return passes.stream().mapToInt(p -> p).max().orElse(0);
    }

    /** The radii are the drawing's; only the height can be less, for all stretches at once. */
    private @Nullable Map<String, Object> lower() {
        Double height =
                Feasible.largest(
                        h -> laid.stretches().stream().allMatch(s -> takes(s, h)),
                        laid.operation().heightMm());
        return height == null ? null : Map.of("heightMm", height);
    }

    private boolean takes(Stretch stretch, double height) {
        return (!stretch.shrink() || height * stretch.tightest() < 1)
                && new Edges.OutlinedEdge(stretch, height).strainAt(height)
                        <= feasibleStrain(stretch.shrink());
    }

    /** What lies between two corners is made of one piece where stock and folder allow it. */
    private void pieces() {
        Double stock = bench.book().times().stockLengthMm();
        Double folder = bench.book().times().folderLengthMm();
        if (stock != null) {
            tooLong("longer-than-stock", stock);
        }
        if (folder != null) {
            tooLong("longer-than-folder", folder);
        }
    }

    private void tooLong(String code, double longestMm) {
        for (Outline.Run run : laid.outline().runs()) {
            for (double length : run.betweenCornersMm()) {
                if (length > longestMm) {
                    int pieces =
                            (int)
                                    working.figure(
                                            "pieces",
                                            PIECES_OF_STOCK,
                                            drawing("length", length, "mm"),
                                            bench.ofTimes("longest", longestMm, "mm"));
                    boolean ring = run.closed() && run.corners().isEmpty();
                    limits.find(
                            code,
                            Severity.NOTE,
                            "",
                            Limits.values(
                                    "lengthMm", length,
                                    "longestMm", longestMm,
                                    "pieces", pieces,
                                    "joints", ring ? pieces : pieces - 1),
                            null);
                }
            }
        }
    }

    private void corners() {
        List<Outline.Corner> corners = laid.outline().corners();
        if (!corners.isEmpty()) {
            limits.find(
                    "corners-in-outline",
                    Severity.NOTE,
                    "",
                    Limits.values(
                            "corners", corners.size(),
                            "smallestRadiusMm", bench.book().times().smallestWorkableRadiusMm()),
                    null);
        }
    }
}
