package strokewright.forming;

import java.util.Locale;
import java.util.function.DoubleUnaryOperator;
import java.util.function.ToDoubleFunction;
import strokewright.quantity.Formula;

/**
 * The formulas of forming, each by name. Lengths in mm, areas in mm², stresses in MPa, work in J
 * and N/mm, strains true (logarithmic) and without sign, angles in radians unless the name says
 * degrees.
 */
public enum FormingFormula implements Formula {
    // Geometry.
    CURVE_EDGE_SHRINK_STRAIN(
            "|ln((1 − y/R) / (1 − y·k₀))|, k₀ the starting curvature",
            "geometry of an angle curved in the plane of its leg",
            x -> Math.abs(Math.log((1 - x[0] / x[1]) / (1 - x[0] * x[2])))),
    CURVE_EDGE_STRETCH_STRAIN(
            "|ln((1 + y/R) / (1 + y·k₀))|, k₀ the starting curvature",
            "geometry of an angle curved in the plane of its leg",
            x -> Math.abs(Math.log((1 + x[0] / x[1]) / (1 + x[0] * x[2])))),
    TURN_FLANGE_SHRINK_STRAIN(
            "|ln((R + y·cos α) / (R + y))|",
            "geometry; at 90° the flange strain of ASM Handbook vol. 14B",
            x -> Math.abs(Math.log((x[1] + x[0] * Math.cos(x[2])) / (x[1] + x[0])))),
    TURN_FLANGE_STRETCH_STRAIN(
            "|ln((R − y·cos α) / (R − y))|",
            "geometry; at 90° the flange strain of ASM Handbook vol. 14B",
            x -> Math.abs(Math.log((x[1] - x[0] * Math.cos(x[2])) / (x[1] - x[0])))),
    TURN_FLANGE_SHRINK_LENGTH("θ·(R + y)", "geometry", x -> x[0] * (x[1] + x[2])),
    TURN_FLANGE_STRETCH_LENGTH("θ·(R − y)", "geometry", x -> x[0] * (x[1] - x[2])),
    ARC_LENGTH("θ·R", "geometry", x -> x[0] * x[1]),
    SPHERE_RADIUS(
            "(a² + H²) / 2H",
            "geometry of the spherical cap",
            x -> (x[0] * x[0] + x[1] * x[1]) / (2 * x[1])),
    MERIDIAN(
            "R·asin(a/R)",
            "geometry of the spherical cap",
            x -> x[0] * Math.asin(Math.min(1, x[1] / x[0]))),
    EQUAL_AREA_BLANK(
            "2·√(a² + H²)",
            "area identity, Machinery's Handbook, diameters of shell blanks",
            x -> 2 * Math.hypot(x[0], x[1])),
    EQUAL_AREA_RIM_SHARE(
            "(D − d) / (2S − d), D the equal-area blank",
            "assumed",
            x -> (x[0] - x[1]) / (2 * x[2] - x[1])),
    DISH_BLANK(
            "s·2S + (1 − s)·d + trim", "assumed", x -> x[0] * 2 * x[1] + (1 - x[0]) * x[2] + x[3]),
    RIM_STRAIN(
            "s·|ln(sin φ / φ)|, φ = u/R",
            "geometry of a gathered disc; the share s is assumed",
            x -> x[0] * Math.abs(Math.log(Math.sin(x[1] / x[2]) / (x[1] / x[2])))),
    RING_LENGTH("2π·u", "geometry", x -> 2 * Math.PI * x[0]),
    CROWN_STRAIN(
            "(1 − s)·ln(1 + (H/a)²)",
            "area identity of the spherical cap; the share s is assumed",
            x -> (1 - x[0]) * Math.log1p(x[2] / x[1] * (x[2] / x[1]))),
    CAP_AREA(
            "π·(a² + H²)",
            "geometry of the spherical cap",
            x -> Math.PI * (x[0] * x[0] + x[1] * x[1])),
    SHRUNK_EDGE_THICKNESS("t·exp(ε/2)", "volume constancy", x -> x[0] * Math.exp(x[1] / 2)),
    STRETCHED_EDGE_THICKNESS("t·exp(−ε/2)", "volume constancy", x -> x[0] * Math.exp(-x[1] / 2)),
    STRETCHED_AREA_THICKNESS("t·exp(−ε)", "volume constancy", x -> x[0] * Math.exp(-x[1])),

    // Metal.
    STRAIN_OFFSET(
            "(Rp / K)^(1/n)",
            "Swift 1952, J. Mech. Phys. Solids 1, with Hollomon's K and n",
            x -> Math.pow(x[0] / x[1], 1 / x[2])),
    PRIOR_STRAIN("max(0, ε₀ − ε₀ annealed)", "Swift 1952", x -> Math.max(0, x[0] - x[1])),
    EDGE_STRETCH_LIMIT(
            "0.9·n", "Considère 1885; the share is common practice, no source", x -> 0.9 * x[0]),
    AREA_STRETCH_LIMIT(
            "0.7·n", "Considère 1885; the share is common practice, no source", x -> 0.7 * x[0]),
    SHEARED_EDGE_LIMIT("limit × factor", "common practice, no source", x -> x[0] * x[1]),
    HARD_SHEET_STRETCH_LIMIT(
            "0.7·ln(1 + A/200)", "common practice, no source", x -> 0.7 * Math.log1p(x[0] / 200)),

    // Passes.
    FAMILY_BITE("tool's bite × family factor", "assumed", x -> x[0] * x[1]),
    THIN_SHEET_BITE(
            "b·min(1, t / thin-sheet limit)", "assumed", x -> x[0] * Math.min(1, x[1] / x[2])),
    RATED_STROKE_WORK(
            "400 MPa × rated thickness × 0.005 × 125 mm²",
            "assumed",
            x -> 400 * x[0] * 0.005 * 125 / 1000),
    WORK_PER_AREA("1000·E / (pitch × width)", "assumed", x -> 1000 * x[0] / (x[1] * x[2])),
    FIRST_CYCLE("min(ε, most)", "assumed", x -> Math.min(x[0], x[1])),
    CYCLE_ROOM(
            "max(0, limit − prior strain)",
            "Considère 1885, less the strain already spent",
            x -> Math.max(0, x[0] - x[1])),
    CYCLE_ROOM_HARD(
            "min(room, limit of hard sheet)",
            "common practice, no source",
            x -> Math.min(x[0], x[1])),
    ANNEALS("⌈(ε − first cycle) / limit⌉", "assumed", x -> Rounding.up((x[0] - x[1]) / x[2])),
    PASS_COUNT(
            "⌈N⌉ with ε_c = clamp((W/(t·b·K))^(1/n) − ε₀, 0, ε),"
                    + " N = ε_c/b + t·K/(W·(n+1))·((ε₀+ε)^(n+1) − (ε₀+ε_c)^(n+1));"
                    + " inputs ε, ε₀, K, n, t, W, b",
            "assumed; plastic work after Hollomon 1945",
            x -> Rounding.up(Passes.needed(x[0], x[1], x[2], x[3], x[4], x[5], x[6]))),
    PASS_COUNT_BY_STRAIN(
            "⌈ε / strain per pass⌉",
            "the shop's own strain per pass",
            x -> Rounding.up(x[0] / x[1])),
    CYCLE_PASSES("first cycle + anneals × each further cycle", "count", x -> x[0] + x[1] * x[2]),
    SHARE_OF_CYCLE("ε × cycle / ε of the most strained row", "assumed", x -> x[0] * x[1] / x[2]),
    CORRECTION_PASSES(
            "passes of the first line of the shop's table whose gap is at most the template's;"
                    + " inputs template gap, then gap and passes of every line",
            "assumed",
            x -> {
                for (int i = 1; i + 1 < x.length; i += 2) {
                    if (x[0] >= x[i]) {
                        return x[i + 1];
                    }
                }
                return 0;
            }),
    TIPPING_PASSES(
            "⌈α / degrees a pass⌉", "common practice, no source", x -> Rounding.up(x[0] / x[1])),
    CAPACITY_THICKNESS(
            "rated × min(1.5, S / Rm)", "assumed", x -> x[0] * Math.min(1.5, x[1] / x[2])),

    // Outlines.
    OUTLINE_PASS_LENGTH(
            "Σ length·N(share·|ln(1 − y·κ)|), N as for passes but not rounded up; inputs y, share,"
                    + " ε₀, K, n, t, W, b, then length and curvature κ of every bend, stretching"
                    + " negative",
            "assumed; the sum is the trapezoid rule with steps of at most 2 mm",
            x ->
                    alongBends(
                            x,
                            8,
                            e -> Passes.needed(e * x[1], x[2], x[3], x[4], x[5], x[6], x[7]))),
    OUTLINE_PASS_LENGTH_BY_STRAIN(
            "Σ length·share·|ln(1 − y·κ)| / strain per pass; inputs y, share, strain per pass, then"
                    + " length and curvature κ of every bend, stretching negative",
            "the shop's own strain per pass",
            x -> alongBends(x, 3, e -> e * x[1] / x[2])),
    OUTLINE_STROKES("⌈pass length / pitch⌉", "count", x -> Rounding.up(x[0] / x[1])),
    PIECES_OF_STOCK("⌈length / longest⌉", "count", x -> Rounding.up(x[0] / x[1])),

    // Strokes and minutes.
    ROW_STROKES("passes × ⌈length / pitch⌉", "count", x -> x[0] * Rounding.up(x[1] / x[2])),
    AREA_STROKES(
            "passes × ⌈area / (pitch × row spacing)⌉",
            "count",
            x -> x[0] * Rounding.up(x[1] / (x[2] * x[3]))),
    SPOT_STROKES("spots × strokes each", "count", x -> x[0] * x[1]),
    STROKE_RATE(
            "min(tool's rate, machine's rate)",
            "the slower of the two governs",
            x -> Math.min(x[0], x[1])),
    STROKE_MINUTES(
            "strokes / (rate × η)",
            "the feed efficiency is common practice, no source",
            x -> x[0] / (x[1] * x[2])),
    REPOSITION_MINUTES(
            "pick-ups × seconds / 60", "common practice, no source", x -> x[0] * x[1] / 60),
    CHECKS(
            "⌈passes / k⌉ + correction passes",
            "common practice, no source",
            x -> Rounding.up(x[0] / x[1]) + x[2]),
    ARC_STATIONS(
            "⌈length / station length⌉",
            "common practice, no source",
            x -> Rounding.up(x[0] / x[1])),
    AREA_STATIONS(
            "max(fewest, ⌈area / station²⌉)",
            "common practice, no source",
            x -> Math.max(x[0], Rounding.up(x[1] / (x[2] * x[2])))),
    CHECK_MINUTES(
            "checks × stations × seconds / 60",
            "common practice, no source",
            x -> x[0] * x[1] * x[2] / 60),
    FIND_MINUTES("spots × seconds / 60", "common practice, no source", x -> x[0] * x[1] / 60),
    ANNEAL_MINUTES(
            "anneals × (minutes per dm² × mm² / 10 000 + cooling and cleaning)",
            "common practice, no source",
            x -> x[0] * (x[1] * x[2] / 10_000 + x[3])),
    TOOL_CHANGES(
            "first round + further rounds × a further round, counted",
            "count",
            x -> x[0] + x[1] * x[2]),
    MOUNT_MINUTES(
            "first round + further rounds × a further round",
            "common practice, no source",
            x -> x[0] + x[1] * x[2]),
    DRESS_MINUTES(
            "count × minutes per dm² × mm² / 10 000",
            "common practice, no source",
            x -> x[0] * x[1] * x[2] / 10_000),
    PERSON_MINUTES("elapsed × people", "count", x -> x[0] * x[1]);

    private static double alongBends(double[] x, int first, DoubleUnaryOperator passes) {
        double sum = 0;
        for (int i = first; i + 1 < x.length; i += 2) {
            double strain = Math.abs(Math.log(1 - x[0] * x[i + 1]));
            sum += strain < PassPlan.NOT_WORTH_A_PASS ? 0 : x[i] * passes.applyAsDouble(strain);
        }
        return sum;
    }

    private final String text;
    private final String source;
    private final ToDoubleFunction<double[]> function;

    FormingFormula(String text, String source, ToDoubleFunction<double[]> function) {
        this.text = text;
        this.source = source;
        this.function = function;
    }

    @Override
    public String code() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    @Override
    public String text() {
        return text;
    }

    @Override
    public String source() {
        return source;
    }

    @Override
    public double apply(double... inputs) {
        return function.applyAsDouble(inputs);
    }
}
