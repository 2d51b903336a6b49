package strokewright.forming;

import org.jspecify.annotations.Nullable;
import strokewright.quantity.Why.Input;

/**
 * What forming has to know of a metal. K and n are zero for metals that go by a strain per pass.
 *
 * @param origin where the figures come from, in words
 * @param strengthCoefficientMpa K of the annealed metal
 * @param hardeningExponent n of the annealed metal
 * @param proofMpa proof stress as delivered
 * @param annealedProofMpa proof stress after an anneal
 * @param tensileMpa tensile strength
 * @param elongationPercent elongation as delivered, if known
 * @param annealable whether the shop may anneal it
 * @param strainPerPass true strain of one pass, which replaces K, n, bite and stroke work
 */
public record Metal(
        String origin,
        double strengthCoefficientMpa,
        double hardeningExponent,
        double proofMpa,
        double annealedProofMpa,
        double tensileMpa,
        @Nullable Double elongationPercent,
        boolean annealable,
        @Nullable Double strainPerPass) {

    /** A stretching sheet with more prior strain than this counts as delivered hard. */
    static final double DELIVERED_HARD = 0.01;

    /** ε₀, true strain that the proof stress as delivered stands for. */
    public double offset() {
        return strainPerPass != null ? 0 : offset(proofMpa);
    }

    double annealedOffset() {
        return strainPerPass != null ? 0 : offset(annealedProofMpa);
    }

    double priorStrain() {
        return FormingFormula.PRIOR_STRAIN.apply(offset(), annealedOffset());
    }

    private double offset(double proof) {
        return FormingFormula.STRAIN_OFFSET.apply(proof, strengthCoefficientMpa, hardeningExponent);
    }

    Input k() {
        return figure("K", strengthCoefficientMpa, "MPa");
    }

    Input n() {
        return figure("n", hardeningExponent, "");
    }

    public Input figure(String name, double value, String unit) {
        return new Input(name, value, unit, origin);
    }
}
