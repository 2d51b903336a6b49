package strokewright.takeoff;

import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import strokewright.estimate.Caution;
import strokewright.estimate.Estimate;
import strokewright.estimate.Folding;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.TakeOff;
import strokewright.estimate.TakeOff.Part;

/** The cautions of a whole item, each with the parts and lines that call it up. */
public final class Cautions {

    private Cautions() {}

    public static Map<Caution, Set<String>> of(TakeOff takeOff, Estimate estimate, ShopBook book) {
        Map<Caution, Set<String>> found = new EnumMap<>(Caution.class);
        Caution.of(takeOff).forEach(c -> found.put(c, new LinkedHashSet<>()));
        for (Part typed : takeOff.parts()) {
            Part part = Folding.withBlank(typed, book);
            add(found, Caution.of(part, Folding.massKg(part, book)), part.name());
        }
        for (Estimate.Line line : estimate.operations()) {
            for (Optional<Grade> grade : gradesOf(line, takeOff.parts(), book)) {
                add(found, Caution.of(line, grade), Words.operation(line));
            }
        }
        return found;
    }

    /** Planned at the machine for the main quantity, all people together. */
    public static double strokeMinutes(TakeOff takeOff, Estimate estimate) {
        double minutes = 0;
        for (Estimate.Line line : estimate.operations()) {
            if (line.strokeMinutes() != null) {
                int each =
                        takeOff.parts().stream()
                                .filter(part -> part.name().equals(line.part()))
                                .mapToInt(Part::perAssembly)
                                .findFirst()
                                .orElse(1);
                minutes += line.strokeMinutes() * each * takeOff.mainQuantity();
            }
        }
        return minutes;
    }

    private static void add(Map<Caution, Set<String>> found, Set<Caution> cautions, String place) {
        cautions.forEach(c -> found.computeIfAbsent(c, x -> new LinkedHashSet<>()).add(place));
    }

    /** Work on the whole item is work on the metal of each of its parts. */
    private static List<Optional<Grade>> gradesOf(
            Estimate.Line line, List<Part> parts, ShopBook book) {
        return parts.isEmpty()
                ? List.of(Optional.empty())
                : parts.stream()
                        .filter(part -> line.part() == null || part.name().equals(line.part()))
                        .map(part -> book.grade(part.grade()))
                        .toList();
    }
}
