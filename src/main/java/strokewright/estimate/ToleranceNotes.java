package strokewright.estimate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook.Correction;
import strokewright.estimate.TakeOff.Part;
import strokewright.estimate.TakeOff.Tolerance;
import strokewright.quantity.Finding;
import strokewright.quantity.Severity;
import strokewright.sheet.GeneralTolerance;

/**
 * What the tolerance class of a part and the gap of its template say about each other. A formed
 * contour is held to its template, not to the class; where the class is the finer one it is not
 * kept by forming alone, and where the gap is, passes are paid for that the class does not ask for.
 * And which size the class says nothing about.
 */
final class ToleranceNotes {

    private ToleranceNotes() {}

    static List<Finding> of(ShopBook book, Part part, String pointer) {
        List<Finding> notes = new ArrayList<>(againstTemplate(book, part, pointer));
        beyond(part, pointer).ifPresent(notes::add);
        return notes;
    }

    /** A size that is measured and that the tables of the class leave out, the worst of them. */
    private static Optional<Finding> beyond(Part part, String pointer) {
        GeneralTolerance tables = part.tolerance().general();
        List<Double> beyond =
                measuredMm(part).filter(s -> tables.linearMm(s).isEmpty()).sorted().toList();
        if (beyond.isEmpty()) {
            return Optional.empty();
        }
        double largest = beyond.get(beyond.size() - 1);
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("class", letter(part.tolerance()));
        values.put("sizeMm", largest > tables.linearUpToMm() ? largest : beyond.get(0));
        values.put("sizes", beyond.size());
        values.put("fromMm", tables.linearFromMm());
        values.put("upToMm", tables.linearUpToMm());
        Arrays.stream(Tolerance.values())
                .filter(t -> beyond.stream().allMatch(s -> t.general().linearMm(s).isPresent()))
                .min(Comparator.comparingInt(t -> Math.abs(t.compareTo(part.tolerance()))))
                .ifPresent(t -> values.put("otherClass", letter(t)));
        return Optional.of(
                new Finding(
                        "size-beyond-tolerances", Severity.NOTE, pointer + "/tolerance", values));
    }

    private static String letter(Tolerance tolerance) {
        return tolerance.name().toLowerCase(Locale.ROOT);
    }

    /** Sizes of the final check, as far as the take-off has them. */
    private static Stream<Double> measuredMm(Part part) {
        Stream<Double> flat =
                part.fold() != null
                        ? Stream.concat(
                                Stream.of(part.fold().lengthMm()), part.fold().legsMm().stream())
                        : part.blank() != null
                                ? Stream.of(part.blank().lengthMm(), part.blank().widthMm())
                                : Stream.empty();
        return Stream.concat(flat, part.operations().stream().flatMap(ToleranceNotes::formedMm));
    }

    private static Stream<Double> formedMm(Operation operation) {
        if (operation instanceof Operation.CurveEdge edge) {
            return Stream.of(edge.heightMm());
        }
        if (operation instanceof Operation.TurnFlange flange) {
            return Stream.of(flange.heightMm());
        }
        return sizesMm(operation);
    }

    private static List<Finding> againstTemplate(ShopBook book, Part part, String pointer) {
        Formed tightest = tightest(part);
        if (tightest == null) {
            return List.of();
        }
        double gap =
                part.templateGapMm() == null ? book.times().templateGapMm() : part.templateGapMm();
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("class", letter(part.tolerance()));
        values.put("sizeMm", tightest.sizeMm);
        values.put("toleranceMm", tightest.toleranceMm);
        values.put("templateGapMm", gap);
        List<Finding> notes = new ArrayList<>();
        if (tightest.toleranceMm < gap && part.tolerance().compareTo(Tolerance.C) < 0) {
            notes.add(
                    new Finding(
                            "tolerance-finer-than-forming",
                            Severity.NOTE,
                            pointer + "/tolerance",
                            values));
        }
        int passes = correctionPasses(book, gap);
        int enough = correctionPasses(book, tightest.toleranceMm);
        if (part.templateGapMm() != null && gap < tightest.toleranceMm && enough < passes) {
            values.put("correctionPasses", passes);
            values.put("correctionPassesByClass", enough);
            notes.add(
                    new Finding(
                            "template-gap-tighter-than-class",
                            Severity.NOTE,
                            pointer + "/templateGapMm",
                            values));
        }
        return notes;
    }

    private static int correctionPasses(ShopBook book, double gapMm) {
        return book.times().corrections().stream()
                .filter(c -> gapMm >= c.gapFromMm())
                .map(Correction::passes)
                .findFirst()
                .orElse(0);
    }

    private record Formed(double sizeMm, double toleranceMm) {}

    /** The formed size that the class leaves least to; null where nothing is formed to a size. */
    private static @Nullable Formed tightest(Part part) {
        return part.operations().stream()
                .flatMap(ToleranceNotes::sizesMm)
                .map(size -> formed(part.tolerance(), size))
                .filter(Objects::nonNull)
                .min(Comparator.comparingDouble(Formed::toleranceMm))
                .orElse(null);
    }

    private static @Nullable Formed formed(Tolerance tolerance, double sizeMm) {
        OptionalDouble of = tolerance.general().linearMm(sizeMm);
        return of.isEmpty() ? null : new Formed(sizeMm, of.getAsDouble());
    }

    private static Stream<Double> sizesMm(Operation operation) {
        if (operation instanceof Operation.CurveEdge edge) {
            return Stream.of(edge.radiusMm());
        }
        if (operation instanceof Operation.TurnFlange flange) {
            return Stream.of(flange.radiusMm());
        }
        return operation instanceof Operation.Dish dish
                ? Stream.of(dish.diameterMm(), dish.depthMm())
                : Stream.empty();
    }
}
