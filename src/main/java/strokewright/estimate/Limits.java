package strokewright.estimate;

import static strokewright.forming.FormingFormula.CAPACITY_THICKNESS;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Operation.Formed;
import strokewright.estimate.ShopBook.Tool;
import strokewright.forming.PassPlan;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Severity;

/**
 * What holds one forming operation back. A refusal is a finding with the nearest change that would
 * clear it, never an exception: minutes are reckoned all the same where they can be.
 */
final class Limits {

    /** Below this thickness to blank diameter a rim buckles; assumed. */
    private static final double RIM_BUCKLES_BELOW = 0.002;

    /** Tools are rated like machines, for steel of this tensile strength. */
    private static final double RATED_STRENGTH_MPA = 400;

    private final Bench bench;
    private final Formed operation;
    private final String pointer;
    private final List<Finding> findings = new ArrayList<>();

    Limits(Bench bench, Formed operation, String pointer) {
        this.bench = bench;
        this.operation = operation;
        this.pointer = pointer;
    }

    /**
     * What is found at several rows, rims or stretches of one operation is told once: the worst.
     */
    List<Finding> findings() {
        Map<List<Object>, Finding> told = new LinkedHashMap<>();
        for (Finding finding : findings) {
            List<Object> matter = matter(finding);
            if (finding.code().startsWith("longer-than-")) { // each length has its own joints
                matter.add(told.size());
            }
            told.merge(matter, finding, (a, b) -> grade(b) > grade(a) ? b : a);
        }
        return told.values().stream().map(this::forAllTools).toList();
    }

    /** Of several tools that are too weak, each offers the sheet that all of them take. */
    private Finding forAllTools(Finding finding) {
        return !finding.code().equals("over-tool-capacity")
                ? finding
                : finding.offering(
                        findings.stream()
                                .filter(f -> f.code().equals(finding.code()))
                                .map(Finding::change)
                                .min(Comparator.comparingDouble(c -> (double) c.get("thicknessMm")))
                                .orElseThrow());
    }

    /** The same matter whatever its figures; an anneal is another one for the other sense. */
    private static List<Object> matter(Finding finding) {
        Map<String, Object> values = finding.values();
        List<Object> matter = new ArrayList<>(List.of(finding.code(), finding.pointer()));
        switch (finding.code()) {
            case "over-capacity", "height-not-under-radius" -> {}
            case "over-tool-capacity" -> matter.add(values.get("tool"));
            case "anneals-needed" -> matter.add(values.get("strainPerCycle"));
            case "not-annealable" -> matter.add(values.get("strainWithoutAnneal"));
            default -> matter.add(values);
        }
        return matter;
    }

    private static double grade(Finding finding) {
        Map<String, Object> values = finding.values();
        return switch (finding.code()) {
            case "over-capacity", "over-tool-capacity" ->
                    ((Number) values.get("thicknessMm")).doubleValue();
            case "height-not-under-radius" -> -((Number) values.get("radiusMm")).doubleValue();
            case "anneals-needed" -> ((Number) values.get("anneals")).doubleValue();
            case "not-annealable" -> ((Number) values.get("strain")).doubleValue();
            default -> 0;
        };
    }

    void noTool(String field) {
        find("no-tool", Severity.REFUSAL, field, Map.of("operation", operation.kind()), null);
    }

    long refusals() {
        return findings.stream().filter(f -> f.severity() == Severity.REFUSAL).count();
    }

    /** The shop book has no time standard for dressing them out. */
    void marksStay(Tool tool) {
        find("marks-on-visible-surface", Severity.DOUBT, "", Map.of("tool", tool.name()), null);
    }

    /**
     * @param change the height and the radius that would do; asked for only where it is refused
     */
    boolean heightUnderRadius(
            double height, double radius, Supplier<@Nullable Map<String, Object>> change) {
        if (height < radius) {
            return true;
        }
        find(
                "height-not-under-radius",
                Severity.REFUSAL,
                "/heightMm",
                values("heightMm", height, "radiusMm", radius),
                change.get());
        return false;
    }

    boolean startNotTighter(@Nullable Double start, double radius) {
        if (start == null || start >= radius) {
            return true;
        }
        find(
                "starting-radius-too-tight",
                Severity.REFUSAL,
                "/startRadiusMm",
                values("startRadiusMm", start, "radiusMm", radius),
                Map.of("startRadiusMm", radius));
        return false;
    }

    boolean atMostAHemisphere(double depth, double diameter) {
        if (depth <= diameter / 2) {
            return true;
        }
        find(
                "depth-over-half-diameter",
                Severity.REFUSAL,
                "/depthMm",
                values("depthMm", depth, "diameterMm", diameter),
                Map.of("depthMm", diameter / 2));
        return false;
    }

    void rimOf(double blankDiameterMm) {
        if (bench.thicknessMm() / blankDiameterMm < RIM_BUCKLES_BELOW) {
            find(
                    "rim-buckles",
                    Severity.DOUBT,
                    "",
                    values("thicknessMm", bench.thicknessMm(), "blankDiameterMm", blankDiameterMm),
                    Map.of("thicknessMm", RIM_BUCKLES_BELOW * blankDiameterMm));
        }
    }

    /**
     * The machine and the tool meet the sheet as delivered and as finished: the thicker counts.
     *
     * @param finishedMm thickness after the work
     * @param thickening ln(finished / delivered) where the work thickens it, else 0
     */
    void capacity(double finishedMm, double thickening, Tool tool) {
        double thickest = Math.max(bench.thicknessMm(), finishedMm);
        double tensile = bench.metal().tensileMpa();
        capacity(
                "over-capacity",
                "machine",
                bench.machine().name(),
                thickest,
                CAPACITY_THICKNESS.apply(
                        bench.machine().ratedThicknessMm(),
                        bench.machine().ratedStrengthMpa(),
                        tensile),
                thickening);
        if (tool.maxThicknessMm() != null) {
            capacity(
                    "over-tool-capacity",
                    "tool",
                    tool.name(),
                    thickest,
                    CAPACITY_THICKNESS.apply(tool.maxThicknessMm(), RATED_STRENGTH_MPA, tensile),
                    thickening);
        }
    }

    private void capacity(
            String code,
            String what,
            String name,
            double thickest,
            double capacity,
            double thickening) {
        if (thickest > capacity) {
            find(
                    code,
                    Severity.REFUSAL,
                    "",
                    values(
                            what,
                            name,
                            "thicknessMm",
                            thickest,
                            "capacityMm",
                            capacity,
                            "tensileMpa",
                            bench.metal().tensileMpa()),
                    Map.of("thicknessMm", capacity / Math.exp(thickening)));
        }
    }

    /**
     * @param natural how far the work reaches where the take-off does not say
     */
    void reach(double natural) {
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

    /** Work on an area reaches to the middle of the blank. */
    void reachOverBlank() {
        if (operation.reachMm() != null || bench.part().blank() != null) {
            reach(bench.part().blank() == null ? 0 : bench.part().blank().shorterMm() / 2);
        }
    }

    /**
     * @throws InvalidInput when no one would ever do so much
     */
    void passes(PassPlan plan) {
        if (plan.total() > PassPlan.MOST_PASSES) {
            throw new InvalidInput(
                    pointer,
                    "takes more than 100,000 passes: check the sizes, the bite of the tool and the"
                            + " grade");
        }
    }

    void anneals(PassPlan plan) {
        find(
                "anneals-needed",
                Severity.NOTE,
                "",
                values("anneals", plan.anneals(), "strainPerCycle", plan.firstCycleRoom()),
                null);
    }

    void noAnnealStandard() {
        find("no-anneal-standard", Severity.DOUBT, "", Map.of(), null);
    }

    /**
     * @param change the height, radius or depth that would need no anneal; null where none would
     */
    void notAnnealable(PassPlan plan, double strain, @Nullable Map<String, Object> change) {
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

    void find(
            String code,
            Severity severity,
            String field,
            Map<String, Object> values,
            @Nullable Map<String, Object> change) {
        findings.add(new Finding(code, severity, pointer + field, values, change));
    }

    static Map<String, Object> values(Object... namesAndValues) {
        Map<String, Object> values = new LinkedHashMap<>();
        for (int i = 0; i < namesAndValues.length; i += 2) {
            values.put((String) namesAndValues[i], namesAndValues[i + 1]);
        }
        return values;
    }
}
