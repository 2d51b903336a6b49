package strokewright.sheet;

import java.util.Locale;
import java.util.function.ToDoubleFunction;
import strokewright.quantity.Formula;

/**
 * What is bought of sheet and what becomes of it in a bend, each figure by name. Lengths in mm,
 * areas in mm², masses in kg, angles in degrees: β between the legs, 180° for flat.
 */
public enum SheetFormula implements Formula {
    SHEET_MASS(
            "length × width × thickness × density / 10⁹",
            "geometry",
            x -> Mass.kg(x[0] * x[1], x[2], x[3])),
    BLANK_AREA(
            "Σ pieces × length × width; inputs in threes",
            "geometry",
            x -> {
                double sum = 0;
                for (int i = 0; i < x.length; i += 3) {
                    sum += x[i] * x[i + 1] * x[i + 2];
                }
                return sum;
            }),
    BOUGHT_KG("sheets × mass of a sheet", "arithmetic", x -> x[0] * x[1]),
    SHEET_YIELD(
            "area of blanks / (sheets × length × width) × 100",
            "arithmetic",
            x -> x[0] / (x[1] * x[2] * x[3]) * 100),
    KEPT_SHARE(
            "area of kept offcuts / (sheets × length × width)",
            "arithmetic",
            x -> x[0] / (x[1] * x[2] * x[3])),

    // Bends.
    DIN_K(
            "0.65 + 0.5·log₁₀(r/t), but not under 0; 1 where r/t > 5",
            "DIN 6935:2011-10",
            x -> x[0] > 5 * x[1] ? 1 : Math.max(0, 0.65 + 0.5 * Math.log10(x[0] / x[1]))),
    K_OF_DIN(
            "k / 2",
            "DIN 6935:2011-10: its k counts half thicknesses, a K-factor whole ones",
            x -> x[0] / 2),
    OUTSIDE_SETBACK(
            "(r + t)·tan((180° − β)/2) where β is 90° or more, else r + t; inputs β, r, t",
            "geometry: legs are measured to the sharp corner outside, under 90° to the outermost"
                    + " line of the bend, as in DIN 6935",
            x -> (x[1] + x[2]) * (x[0] > 90 ? Math.tan(turned(x[0]) / 2) : 1)),
    DIN_COMPENSATION(
            "π·(180 − β)/180·(r + k·t/2) − 2·setback; 0 where β > 165°; inputs β, r, k, t, setback",
            "DIN 6935:2011-10, v",
            x -> x[0] > 165 ? 0 : turned(x[0]) * (x[1] + x[2] * x[3] / 2) - 2 * x[4]),
    ALLOWANCE_IN_BEND("v + 2·setback", "geometry", x -> x[0] + 2 * x[1]),
    BEND_ALLOWANCE(
            "π·(180 − β)/180·(r + K·t); inputs β, r, K, t",
            "length of the neutral line in the bend (geometry)",
            x -> turned(x[0]) * (x[1] + x[2] * x[3])),
    BEND_COMPENSATION("allowance − 2·setback", "geometry", x -> x[0] - 2 * x[1]),
    DEVELOPED_LENGTH("Σ outside legs + Σ v of the bends", "DIN 6935:2011-10", SheetFormula::sum),
    BEND_LINE(
            "line before + half of its v + leg + half of its own v",
            "geometry: the middle of the allowance",
            x -> x[0] + x[1] / 2 + x[2] + x[3] / 2),
    DIE_OPENING("thicknesses × t", "common practice, no source", x -> x[0] * x[1]),
    BEND_FORCE(
            "k·Rm·L·t² / W / 1000, kN; inputs k, Rm, L, t, W",
            "Kalpakjian & Schmid, Manufacturing Engineering and Technology, eq. 16.7 (from memory)",
            x -> x[0] * x[1] * x[2] * x[3] * x[3] / x[4] / 1000),
    SHORTEST_LEG(
            "W / (2·sin(β/2)), where β < 90° less (r + t)·(1/tan(β/2) − 1), but not under W/2; β"
                    + " from 30° on; inputs W, β, r, t",
            "geometry: the leg still lies on the die's shoulder when it is bent",
            x -> shortestLeg(x[0], Math.max(x[1], 30), x[2] + x[3])),
    SMALLEST_BEND_RADIUS(
            "thicknesses × t", "the shop's own smallest radius of the grade", x -> x[0] * x[1]),
    RADIUS_OF_REDUCTION(
            "max(0, t·(50/q − 1)), q the reduction of area in percent; inputs t, q",
            "Kalpakjian & Schmid, Manufacturing Engineering and Technology, eq. 16.5 (from memory)",
            x -> Math.max(0, x[0] * (50 / x[1] - 1))),
    SPRINGBACK_RADIUS(
            "R so that R/r = 4x³ − 3x + 1 with x = R·Rp/(1000·E·t); inputs r, Rp, E in GPa, t",
            "Kalpakjian & Schmid, Manufacturing Engineering and Technology, example 16.4 (from"
                    + " memory): bending of thin sheet that does not harden",
            x -> radiusBeforeSpringback(x[0], x[1] / (1000 * x[2] * x[3]))),
    SPRINGBACK_OPENING(
            "max(0, 180 − (180 − β)·(r + t/2)/(R + t/2)); inputs β, r, t, R",
            "Kalpakjian & Schmid, the same: the middle of the sheet keeps its length in the bend",
            x -> Math.max(0, 180 - (180 - x[0]) * (x[1] + x[2] / 2) / (x[3] + x[2] / 2)));

    private static double turned(double openingDeg) {
        return Math.toRadians(180 - openingDeg);
    }

    private static double sum(double[] x) {
        double sum = 0;
        for (double value : x) {
            sum += value;
        }
        return sum;
    }

    /**
     * The smallest root of 4x³ − (3 + 1/(r·e))·x + 1 = 0, which always lies between 0 and 0.5,
     * where a bend would spring back flat.
     *
     * @param perMm yield strain of the sheet's outside for each mm of radius
     */
    private static double radiusBeforeSpringback(double radius, double perMm) {
        if (radius == 0) {
            return 0;
        }
        double third = (3 + 1 / (radius * perMm)) / 12;
        double sine = Math.asin(Math.min(1, 1 / (8 * third * Math.sqrt(third)))) / 3;
        return 2 * Math.sqrt(third) * Math.sin(sine) / perMm;
    }

    private static double shortestLeg(double die, double openingDeg, double outsideRadius) {
        double half = Math.toRadians(openingDeg) / 2;
        double toShoulder = die / (2 * Math.sin(half));
        double beyondBend = openingDeg < 90 ? outsideRadius * (1 / Math.tan(half) - 1) : 0;
        return Math.max(toShoulder - beyondBend, die / 2);
    }

    private final String text;
    private final String source;
    private final ToDoubleFunction<double[]> function;

    SheetFormula(String text, String source, ToDoubleFunction<double[]> function) {
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
