package strokewright.estimate;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonInclude;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Faults;

/**
 * What is to be otherwise in a take-off; one thing or several at once, the rest stays. What follows
 * from it is said at {@link Varied}.
 *
 * @param name that it is shown by; told from the change when left out
 * @param part index of the only part to change; all parts when left out
 * @param grade code of another grade
 * @param thicknessMm another thickness
 * @param diameterMm another {@link MainSize}: Ø at the heel or bend line, or over an outline
 * @param lengthMm another longer side of the longest blank, what is curved along it keeping its
 *     radius
 * @param information behind the quote
 * @param machine name of the machine to take
 * @param tool name of the tool to take for all work that it can do
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record Variant(
        @Nullable String name,
        @Nullable Integer part,
        @Nullable String grade,
        @Nullable Double thicknessMm,
        @Nullable Double diameterMm,
        @Nullable Double lengthMm,
        TakeOff.@Nullable Information information,
        TakeOff.@Nullable Surface surface,
        TakeOff.@Nullable Edge edge,
        @Nullable String machine,
        @Nullable String tool) {

    private static final Variant NOTHING =
            new Variant(null, null, null, null, null, null, null, null, null, null, null);

    public static Variant ofGrade(String code) {
        return NOTHING.withGrade(code);
    }

    public static Variant ofThickness(double mm) {
        return NOTHING.withThickness(mm);
    }

    public static Variant ofDiameter(double mm) {
        return NOTHING.withDiameter(mm);
    }

    public static Variant ofLength(double mm) {
        return NOTHING.withLength(mm);
    }

    public static Variant nothing() {
        return NOTHING;
    }

    public Variant named(String newName) {
        return copy(newName, part, grade, thicknessMm, diameterMm, lengthMm);
    }

    public Variant ofPart(int index) {
        return copy(name, index, grade, thicknessMm, diameterMm, lengthMm);
    }

    public Variant withGrade(String code) {
        return copy(name, part, code, thicknessMm, diameterMm, lengthMm);
    }

    public Variant withThickness(double mm) {
        return copy(name, part, grade, Double.valueOf(mm), diameterMm, lengthMm);
    }

    public Variant withDiameter(double mm) {
        return copy(name, part, grade, thicknessMm, Double.valueOf(mm), lengthMm);
    }

    public Variant withLength(double mm) {
        return copy(name, part, grade, thicknessMm, diameterMm, Double.valueOf(mm));
    }

    private Variant copy(
            @Nullable String newName,
            @Nullable Integer newPart,
            @Nullable String newGrade,
            @Nullable Double thickness,
            @Nullable Double diameter,
            @Nullable Double length) {
        return new Variant(
                newName,
                newPart,
                newGrade,
                thickness,
                diameter,
                length,
                information,
                surface,
                edge,
                machine,
                tool);
    }

    @JsonIgnore
    public boolean isEmpty() {
        return Stream.of(
                        grade,
                        thicknessMm,
                        diameterMm,
                        lengthMm,
                        information,
                        surface,
                        edge,
                        machine,
                        tool)
                .allMatch(Objects::isNull);
    }

    /** Its name, else what it changes. */
    String called(TakeOff takeOff) {
        if (name != null && !name.isBlank()) {
            return name.strip();
        }
        List<String> changes = new ArrayList<>();
        add(changes, "", grade, "");
        add(changes, "", plain(thicknessMm), " mm");
        add(changes, "Ø ", plain(diameterMm), " mm");
        add(changes, "", plain(lengthMm), " mm long");
        add(changes, "", word(information), "");
        add(changes, "", word(surface), " surface");
        add(changes, "", word(edge), " edge");
        add(changes, "", machine, "");
        add(changes, "", tool, "");
        String all = String.join(", ", changes);
        return part == null || takeOff.parts().size() < 2
                ? all
                : takeOff.parts().get(part).name() + ": " + all;
    }

    private static void add(
            List<String> changes, String before, @Nullable String value, String behind) {
        if (value != null) {
            changes.add(before + value + behind);
        }
    }

    private static @Nullable String word(@Nullable Enum<?> value) {
        return value == null ? null : value.name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    private static @Nullable String plain(@Nullable Double mm) {
        return mm == null
                ? null
                : BigDecimal.valueOf(mm)
                        .setScale(3, RoundingMode.HALF_UP)
                        .stripTrailingZeros()
                        .toPlainString();
    }

    /**
     * What is wrong with it, whatever it leads to.
     *
     * @param takeOff one that was found usable
     */
    void check(String at, TakeOff takeOff, ShopBook book, Faults faults) {
        faults.textIfGiven(at + "/name", name);
        if (isEmpty()) {
            faults.add(
                    at,
                    "changes nothing: give grade, thicknessMm, diameterMm, lengthMm, information,"
                            + " surface, edge, machine or tool");
        }
        if (part != null) {
            if (takeOff.parts().isEmpty()) {
                faults.add(at + "/part", "there is no part");
            } else {
                faults.within(at + "/part", part, 0, takeOff.parts().size() - 1);
            }
        }
        if (grade != null) {
            faults.known(
                    at + "/grade",
                    grade,
                    book.grades().stream().map(ShopBook.Grade::code).toList(),
                    "grade");
        }
        if (machine != null) {
            faults.known(
                    at + "/machine",
                    machine,
                    book.machines().stream().map(ShopBook.Machine::name).toList(),
                    "machine");
        }
        if (tool != null) {
            faults.known(
                    at + "/tool",
                    tool,
                    book.tools().stream().map(ShopBook.Tool::name).toList(),
                    "tool");
        }
        faults.overIfGiven(at + "/thicknessMm", thicknessMm, 0, 50);
        faults.overIfGiven(at + "/diameterMm", diameterMm, 0, TakeOffCheck.LARGEST_RADIUS_MM);
        faults.overIfGiven(at + "/lengthMm", lengthMm, 0, TakeOffCheck.LONGEST_MM);
        if (diameterMm != null && lengthMm != null) {
            faults.add(at + "/lengthMm", "must be left out where there is a diameter");
        }
    }
}
