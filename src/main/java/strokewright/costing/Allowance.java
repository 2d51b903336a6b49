package strokewright.costing;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.List;
import strokewright.quantity.Arithmetic;
import strokewright.quantity.Why;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/**
 * How an allowance is built, in percent of normal time, line by line of {@link AllowanceTable}.
 * What is left out counts as the mildest line.
 *
 * @param personalPercent personal needs
 * @param fatiguePercent basic fatigue
 * @param standing whether the work is done standing
 * @param liftedKg mass handled, or force in kg
 * @param contingencyPercent small delays while the job's clock runs; the shop's own, not in the
 *     table
 */
public record Allowance(
        Double personalPercent,
        Double fatiguePercent,
        Boolean standing,
        Posture posture,
        Double liftedKg,
        Light light,
        Attention attention,
        Noise noise,
        MentalStrain mentalStrain,
        Monotony monotony,
        Tediousness tediousness,
        Double contingencyPercent) {

    public Allowance {
        personalPercent = personalPercent == null ? Double.valueOf(5) : personalPercent;
        fatiguePercent = fatiguePercent == null ? Double.valueOf(4) : fatiguePercent;
        standing = standing != null && standing;
        posture = posture == null ? Posture.SLIGHTLY_AWKWARD : posture;
        liftedKg = liftedKg == null ? Double.valueOf(0) : liftedKg;
        light = light == null ? Light.SLIGHTLY_BELOW : light;
        attention = attention == null ? Attention.FAIRLY_FINE : attention;
        noise = noise == null ? Noise.CONTINUOUS : noise;
        mentalStrain = mentalStrain == null ? MentalStrain.NONE : mentalStrain;
        monotony = monotony == null ? Monotony.LOW : monotony;
        tediousness = tediousness == null ? Tediousness.RATHER_TEDIOUS : tediousness;
        contingencyPercent = contingencyPercent == null ? Double.valueOf(0) : contingencyPercent;
    }

    public enum Posture {
        @JsonProperty("slightly-awkward")
        SLIGHTLY_AWKWARD,
        /** Bent. */
        @JsonProperty("awkward")
        AWKWARD,
        /** Lying, stretching. */
        @JsonProperty("very-awkward")
        VERY_AWKWARD
    }

    /** Against what the work needs. */
    public enum Light {
        @JsonProperty("slightly-below")
        SLIGHTLY_BELOW,
        @JsonProperty("well-below")
        WELL_BELOW,
        @JsonProperty("inadequate")
        INADEQUATE
    }

    /** Close attention. */
    public enum Attention {
        @JsonProperty("fairly-fine")
        FAIRLY_FINE,
        @JsonProperty("fine")
        FINE,
        @JsonProperty("very-fine")
        VERY_FINE
    }

    public enum Noise {
        @JsonProperty("continuous")
        CONTINUOUS,
        @JsonProperty("intermittent-loud")
        INTERMITTENT_LOUD,
        @JsonProperty("intermittent-very-loud")
        INTERMITTENT_VERY_LOUD,
        @JsonProperty("high-pitched-loud")
        HIGH_PITCHED_LOUD
    }

    public enum MentalStrain {
        @JsonProperty("none")
        NONE,
        @JsonProperty("fairly-complex")
        FAIRLY_COMPLEX,
        @JsonProperty("complex")
        COMPLEX,
        @JsonProperty("very-complex")
        VERY_COMPLEX
    }

    public enum Monotony {
        @JsonProperty("low")
        LOW,
        @JsonProperty("medium")
        MEDIUM,
        @JsonProperty("high")
        HIGH
    }

    public enum Tediousness {
        @JsonProperty("rather-tedious")
        RATHER_TEDIOUS,
        @JsonProperty("tedious")
        TEDIOUS,
        @JsonProperty("very-tedious")
        VERY_TEDIOUS
    }

    /** The build-up, last the allowance. */
    public List<Why> steps(String origin) {
        Working working = new Working();
        percent(working, "", origin);
        return working.lines();
    }

    /** Of normal time. */
    @JsonIgnore
    public double percent() {
        return percent(Stated.unread());
    }

    /**
     * The same, written down.
     *
     * @param prefix of the names of the figures
     */
    public double percent(Working working, String prefix, String origin) {
        return percent(new Stated(working, prefix, origin));
    }

    private double percent(Stated stated) {
        return stated.figure(
                "allowance",
                Arithmetic.SUM,
                stated.of("personal needs", personalPercent, "%"),
                stated.of("basic fatigue", fatiguePercent, "%"),
                stated.of("standing", standing ? AllowanceTable.STANDING : 0, "%"),
                line(stated, "posture", posture),
                stated.step(
                        "mass",
                        "liftingAllowance",
                        CostingFormula.LIFTING_ALLOWANCE,
                        "%",
                        stated.of("mass", liftedKg, "kg")),
                line(stated, "light", light),
                line(stated, "close attention", attention),
                line(stated, "noise", noise),
                line(stated, "mental strain", mentalStrain),
                line(stated, "monotony", monotony),
                line(stated, "tediousness", tediousness),
                stated.of("small delays", contingencyPercent, "%"));
    }

    private static Input line(Stated stated, String name, Enum<?> choice) {
        return stated.of(name, AllowanceTable.percent(choice), "%");
    }
}
