package strokewright.estimate;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * How folded parts are developed and what the folder can do.
 *
 * @param method how the length in a bend is reckoned
 * @param kFactors table of the shop for {@link Method#K_FACTOR}: the first line holds whose family
 *     fits and whose ratio is not passed
 * @param dieOpeningOfThickness opening of the die in sheet thicknesses; common practice, no source
 * @param dieFactor k of the bend force, by the kind of die
 * @param pressForceKn what the folder can press; null where nobody has to ask
 * @param origin where the figures come from
 */
public record Bending(
        Method method,
        List<KFactor> kFactors,
        Double dieOpeningOfThickness,
        Double dieFactor,
        @Nullable Double pressForceKn,
        @Nullable String origin) {

    public static final Bending DEFAULTS = new Bending(null, null, null, null, null, null);

    public Bending {
        method = method == null ? Method.DIN_6935 : method;
        kFactors = TakeOff.copy(kFactors);
        dieOpeningOfThickness =
                dieOpeningOfThickness == null ? Double.valueOf(8) : dieOpeningOfThickness;
        dieFactor = dieFactor == null ? Double.valueOf(1.3) : dieFactor;
    }

    public enum Method {
        @JsonProperty("din-6935")
        DIN_6935,
        @JsonProperty("k-factor")
        K_FACTOR
    }

    /**
     * Where the neutral line lies.
     *
     * @param family metals that it holds for; null for all others
     * @param upToRadiusOfThickness inside radius in sheet thicknesses; null without limit
     * @param k distance of the neutral line from the inside, in sheet thicknesses
     */
    public record KFactor(
            @Nullable String family, @Nullable Double upToRadiusOfThickness, @Nullable Double k) {

        boolean holds(@Nullable String otherFamily, double radiusOfThickness) {
            return (family == null || family.equals(otherFamily))
                    && (upToRadiusOfThickness == null
                            || radiusOfThickness <= upToRadiusOfThickness);
        }
    }

    /** The line that holds for a bend; nothing where the table has none for it. */
    Optional<KFactor> kFactor(@Nullable String family, double radiusOfThickness) {
        return kFactors.stream().filter(l -> l.holds(family, radiusOfThickness)).findFirst();
    }
}
