package strokewright.estimate;

import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.ShopBook.PassLimit;

/** Whether forming hours rest on test strips of the shop itself, and what to say until they do. */
public final class FormingHours {

    /** In words for whoever reads hours. */
    public static final String ASSUMED =
            "Forming hours are assumed, good to about a factor of two either way, until a test"
                    + " strip of this metal is measured with the tool used.";

    private FormingHours() {}

    /**
     * The sentence, unless a measured figure stands behind every line that puts strain into the
     * metal.
     *
     * @param takeOff that was estimated with this edition of the shop book
     */
    public static @Nullable String doubt(TakeOff takeOff, Estimate estimate, ShopBook book) {
        return estimate.operations().stream()
                        .filter(line -> line.strains() != null && !line.strains().isEmpty())
                        .allMatch(line -> measured(line, takeOff, book))
                ? null
                : ASSUMED;
    }

    /** The sentence, while nothing at all is measured in this edition. */
    public static @Nullable String doubt(ShopBook book) {
        return book.passLimits().stream().anyMatch(FormingHours::measured) ? null : ASSUMED;
    }

    private static boolean measured(Estimate.Line line, TakeOff takeOff, ShopBook book) {
        return takeOff.parts().stream()
                .filter(part -> part.name().equals(line.part()))
                .flatMap(part -> book.grade(part.grade()).stream())
                .allMatch(
                        grade ->
                                Stream.of(line.tool(), line.crownTool())
                                        .filter(Objects::nonNull)
                                        .allMatch(tool -> measured(tool, grade, book)));
    }

    static boolean biteMeasured(String tool, Grade grade, ShopBook book) {
        return grade.strainPerPass() != null
                ? saysMeasured(grade.origin())
                : book.passLimit(tool, grade.family())
                        .filter(limit -> limit.biteStrain() != null)
                        .filter(limit -> saysMeasured(limit.origin()))
                        .isPresent();
    }

    private static boolean measured(String tool, Grade grade, ShopBook book) {
        return grade.strainPerPass() != null
                ? saysMeasured(grade.origin())
                : book.passLimit(tool, grade.family()).filter(FormingHours::measured).isPresent();
    }

    /** The feed alone leaves the strokes assumed. */
    private static boolean measured(PassLimit limit) {
        return (limit.biteStrain() != null || limit.strokeWorkJ() != null)
                && saysMeasured(limit.origin());
    }

    static boolean saysMeasured(@Nullable String origin) {
        return origin != null && origin.matches("(?is).*(?<!\\bnot |\\bun)\\bmeasured\\b.*");
    }
}
