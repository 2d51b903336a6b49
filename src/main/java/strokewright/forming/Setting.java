package strokewright.forming;

import static strokewright.forming.FormingFormula.*;
import static strokewright.quantity.Why.Input.computed;

import org.jspecify.annotations.Nullable;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/**
 * What one pass of a tool can put into a metal, and the field that one stroke works.
 *
 * @param biteStrain b, true strain
 * @param workPerAreaNmm W, plastic work of one pass per sheet area, N/mm
 * @param pitchMm feed from stroke to stroke
 * @param widthMm jaw at an edge, row spacing on an area
 */
public record Setting(double biteStrain, double workPerAreaNmm, double pitchMm, double widthMm) {

    /**
     * @param bite the tool's own bite, or the one measured for the family
     * @param familyFactor what the family takes of the tool's bite; null when measured
     * @param thickness null when not shrinking: only there does thin sheet wrinkle
     * @param thinSheet thickness below which the bite shrinks in proportion
     */
    public static Setting of(
            Input bite,
            @Nullable Input familyFactor,
            @Nullable Input thickness,
            Input thinSheet,
            Input strokeWork,
            Input pitch,
            Input width,
            Working working) {
        if (familyFactor != null) {
            bite = computed("b", working.figure("biteStrain", FAMILY_BITE, bite, familyFactor), "");
        }
        double strain = bite.value();
        if (thickness != null && thickness.value() < thinSheet.value()) {
            strain = working.figure("biteStrain", THIN_SHEET_BITE, bite, thickness, thinSheet);
        }
        double work = working.figure("workPerAreaNmm", WORK_PER_AREA, strokeWork, pitch, width);
        return new Setting(strain, work, pitch.value(), width.value());
    }
}
