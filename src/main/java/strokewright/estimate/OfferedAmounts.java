package strokewright.estimate;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.TakeOff.Part;

/**
 * A take-off in which lines by a time standard that state no amount have the one that the geometry
 * offers: as the first rule that takes the standard says, else by the standard's unit.
 *
 * @param offered amounts by pointer to their line, e.g. {@code /parts/0/operations/2}
 */
public record OfferedAmounts(TakeOff takeOff, Map<String, Double> offered) {

    /**
     * @param takeOff may be half typed; what cannot be worked with yet offers nothing
     */
    public static OfferedAmounts in(TakeOff takeOff, ShopBook book) {
        return new Maker(takeOff, book).filled();
    }

    private static final class Maker {
        private final TakeOff takeOff;
        private final ShopBook book;
        private final Map<String, Double> offered = new LinkedHashMap<>();

        Maker(TakeOff takeOff, ShopBook book) {
            this.takeOff = takeOff;
            this.book = book;
        }

        OfferedAmounts filled() {
            List<Part> parts = new ArrayList<>();
            for (int i = 0; i < takeOff.parts().size(); i++) {
                Part part = takeOff.parts().get(i);
                List<Operation> work =
                        filled(part.operations(), "/parts/" + i + "/operations/", List.of(part), 0);
                parts.add(
                        work == part.operations()
                                ? part
                                : Varied.with(part, part.blank(), part.fold(), work));
            }
            List<Operation> assembly =
                    filled(takeOff.assembly(), "/assembly/", takeOff.parts(), null);
            return new OfferedAmounts(
                    offered.isEmpty() ? takeOff : Varied.with(takeOff, parts, assembly), offered);
        }

        /** The same list where nothing is missing. */
        private List<Operation> filled(
                List<Operation> work, String at, List<Part> parts, @Nullable Integer part) {
            if (work.stream().noneMatch(Maker::lacksItsAmount)) {
                return work;
            }
            TakeOff geometry = geometry(parts);
            List<Operation> filled = new ArrayList<>();
            for (int i = 0; i < work.size(); i++) {
                Operation operation = work.get(i);
                Double amount =
                        lacksItsAmount(operation)
                                ? amount(
                                        geometry, part, ((Operation.Standard) operation).standard())
                                : null;
                if (amount == null) {
                    filled.add(operation);
                } else {
                    offered.put(at + i, amount);
                    filled.add(
                            new Operation.Standard(
                                    ((Operation.Standard) operation).standard(), amount));
                }
            }
            return filled;
        }

        private static boolean lacksItsAmount(Operation operation) {
            return operation instanceof Operation.Standard s
                    && s.standard() != null
                    && s.amount() == null;
        }

        /** As it is shown: three decimals, but not nothing. */
        private @Nullable Double amount(TakeOff geometry, @Nullable Integer part, String standard) {
            if (part != null && geometry.parts().isEmpty()) {
                return null;
            }
            Double exact = Proposing.offered(geometry, part, standard, book);
            return exact == null ? null : Math.max(0.001, Math.round(exact * 1000) / 1000.0);
        }

        /** Parts with their forming alone; none where one of them cannot be worked with yet. */
        private TakeOff geometry(List<Part> parts) {
            List<Part> bare = parts.stream().map(Maker::formedAlone).toList();
            boolean usable = bare.stream().allMatch(p -> isUsable(p));
            TakeOff geometry =
                    new TakeOff(
                            null,
                            takeOff.information(),
                            null,
                            null,
                            null,
                            usable ? bare : List.of(),
                            null,
                            null,
                            null,
                            takeOff.heldTemplatesMm(),
                            null,
                            null);
            return Folding.withBlanks(geometry, book);
        }

        private boolean isUsable(Part part) {
            TakeOff alone =
                    new TakeOff(
                            null,
                            null,
                            null,
                            null,
                            null,
                            List.of(part),
                            null,
                            null,
                            null,
                            null,
                            null,
                            null);
            return TakeOffCheck.faults(alone, book).isEmpty();
        }

        private static Part formedAlone(Part part) {
            List<Operation> formed =
                    part.operations().stream().filter(o -> o instanceof Operation.Formed).toList();
            return Varied.with(part, part.blank(), part.fold(), formed);
        }
    }
}
