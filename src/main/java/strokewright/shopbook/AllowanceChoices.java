package strokewright.shopbook;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.costing.Allowance;
import strokewright.costing.AllowanceTable;

/** The table of relaxation allowances as choices, for whoever asks what the work is like. */
final class AllowanceChoices {

    private static final Map<Enum<?>, String> WORDS =
            Map.ofEntries(
                    Map.entry(Allowance.Posture.SLIGHTLY_AWKWARD, "slightly awkward"),
                    Map.entry(Allowance.Posture.AWKWARD, "awkward, bent"),
                    Map.entry(Allowance.Posture.VERY_AWKWARD, "very awkward, lying, stretching"),
                    Map.entry(Allowance.Light.SLIGHTLY_BELOW, "enough, or slightly below"),
                    Map.entry(Allowance.Light.WELL_BELOW, "well below what is needed"),
                    Map.entry(Allowance.Light.INADEQUATE, "quite inadequate"),
                    Map.entry(Allowance.Attention.FAIRLY_FINE, "fairly fine work"),
                    Map.entry(Allowance.Attention.FINE, "fine or exacting"),
                    Map.entry(Allowance.Attention.VERY_FINE, "very fine or very exacting"),
                    Map.entry(Allowance.Noise.CONTINUOUS, "continuous"),
                    Map.entry(Allowance.Noise.INTERMITTENT_LOUD, "intermittent, loud"),
                    Map.entry(Allowance.Noise.INTERMITTENT_VERY_LOUD, "intermittent, very loud"),
                    Map.entry(Allowance.Noise.HIGH_PITCHED_LOUD, "high-pitched, loud"),
                    Map.entry(Allowance.MentalStrain.NONE, "none to speak of"),
                    Map.entry(Allowance.MentalStrain.FAIRLY_COMPLEX, "fairly complex"),
                    Map.entry(Allowance.MentalStrain.COMPLEX, "complex, or a wide span"),
                    Map.entry(Allowance.MentalStrain.VERY_COMPLEX, "very complex"),
                    Map.entry(Allowance.Monotony.LOW, "low"),
                    Map.entry(Allowance.Monotony.MEDIUM, "medium"),
                    Map.entry(Allowance.Monotony.HIGH, "high"),
                    Map.entry(Allowance.Tediousness.RATHER_TEDIOUS, "rather tedious at most"),
                    Map.entry(Allowance.Tediousness.TEDIOUS, "tedious"),
                    Map.entry(Allowance.Tediousness.VERY_TEDIOUS, "very tedious"));

    private AllowanceChoices() {}

    /**
     * One line of the table.
     *
     * @param field of {@link Allowance}
     */
    record Line(String field, String label, List<Choice> choices) {}

    /**
     * @param value as JSON has it
     * @param words with what it adds, such as "awkward, bent: 2 %"
     */
    record Choice(String value, String words, boolean chosen) {}

    /**
     * @param basis whose choices are marked; the mildest ones where it is null
     */
    static List<Line> of(@Nullable Allowance basis) {
        Allowance chosen =
                basis != null
                        ? basis
                        : new Allowance(
                                null, null, null, null, null, null, null, null, null, null, null,
                                null);
        return List.of(
                new Line(
                        "standing",
                        "Position",
                        List.of(
                                new Choice(
                                        "false",
                                        "sitting, or as one likes: 0 %",
                                        !chosen.standing()),
                                new Choice(
                                        "true",
                                        "standing: " + percent(AllowanceTable.STANDING),
                                        chosen.standing()))),
                line("posture", "Posture", Allowance.Posture.values(), chosen.posture()),
                line("light", "Light", Allowance.Light.values(), chosen.light()),
                line(
                        "attention",
                        "Close attention",
                        Allowance.Attention.values(),
                        chosen.attention()),
                line("noise", "Noise", Allowance.Noise.values(), chosen.noise()),
                line(
                        "mentalStrain",
                        "Mental strain",
                        Allowance.MentalStrain.values(),
                        chosen.mentalStrain()),
                line("monotony", "Monotony", Allowance.Monotony.values(), chosen.monotony()),
                line(
                        "tediousness",
                        "Tediousness",
                        Allowance.Tediousness.values(),
                        chosen.tediousness()));
    }

    private static Line line(String field, String label, Enum<?>[] values, Enum<?> chosen) {
        List<Choice> choices = new ArrayList<>();
        for (Enum<?> value : values) {
            choices.add(
                    new Choice(
                            name(value),
                            WORDS.get(value) + ": " + percent(AllowanceTable.percent(value)),
                            value == chosen));
        }
        return new Line(field, label, List.copyOf(choices));
    }

    private static String percent(double percent) {
        return Math.round(percent) + " %";
    }

    private static String name(Enum<?> value) {
        try {
            return value.getDeclaringClass()
                    .getField(value.name())
                    .getAnnotation(JsonProperty.class)
                    .value();
        } catch (NoSuchFieldException e) {
            throw new IllegalStateException(e);
        }
    }
}
