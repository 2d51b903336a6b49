package strokewright.takeoff;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.estimate.TakeOffCheck;
import strokewright.quantity.Fault;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;
import strokewright.web.Numbers;

/**
 * A typed take-off with what came of it. While some rows cannot be worked with yet, the others are
 * estimated without them, so that figures do not come and go with every key; what was left out is
 * said.
 *
 * @param takeOff all that was typed
 * @param faults each at the path of its field
 * @param estimate null while nothing can be estimated
 * @param read what the estimate was made from
 * @param leftOut paths of the rows, or of their own minutes, that it was made without
 */
public record Reckoned(
        TypedTakeOff typed,
        TakeOff takeOff,
        List<Fault> faults,
        @Nullable Estimate estimate,
        TakeOffReading.Read read,
        Set<String> leftOut) {

    public static Reckoned of(TypedTakeOff typed, ShopBook book, Numbers numbers) {
        TakeOffReading.Read all = TakeOffReading.read(typed, book, numbers, Set.of());
        List<Fault> faults = faults(all, typed, book);
        if (faults.isEmpty()) {
            return estimated(typed, all, all, faults, Set.of(), book);
        }
        Set<String> leftOut = rowsOf(faults, all, typed);
        TakeOffReading.Read rest = TakeOffReading.read(typed, book, numbers, leftOut);
        if (leftOut.isEmpty() || !faults(rest, typed, book).isEmpty()) {
            return new Reckoned(typed, all.takeOff(), faults, null, all, Set.of());
        }
        return estimated(typed, all, rest, faults, leftOut, book);
    }

    private static Reckoned estimated(
            TypedTakeOff typed,
            TakeOffReading.Read all,
            TakeOffReading.Read read,
            List<Fault> faults,
            Set<String> leftOut,
            ShopBook book) {
        try {
            Estimate estimate = Estimating.estimate(read.takeOff(), book);
            return new Reckoned(typed, all.takeOff(), faults, estimate, read, leftOut);
        } catch (InvalidInput tooMuch) {
            List<Fault> more = new ArrayList<>(faults);
            tooMuch.faults().forEach(f -> more.add(new Fault(read.path(f.pointer()), f.message())));
            return new Reckoned(typed, all.takeOff(), more, null, all, Set.of());
        }
    }

    /** Of reading and of checking, at most one at a field; what was misread is not missing too. */
    private static List<Fault> faults(TakeOffReading.Read read, TypedTakeOff typed, ShopBook book) {
        List<Fault> faults = new ArrayList<>(read.faults());
        Set<String> told = faults.stream().map(Fault::pointer).collect(Collectors.toSet());
        for (Fault fault : TakeOffCheck.faults(read.takeOff(), book)) {
            String path = field(read.path(fault.pointer()), typed);
            if (told.add(path)) {
                faults.add(new Fault(path, fault.message()));
            }
        }
        return faults;
    }

    /** The field to turn to, where the take-off says it in another way than the page. */
    private static String field(String path, TypedTakeOff typed) {
        int end = path.lastIndexOf('/');
        String row = path.substring(0, Math.max(end, 0));
        return switch (path.substring(end + 1)) {
            case "massKg" -> typed.isEmpty(path) ? row + "/blank/lengthMm" : path;
            case "minutes" -> path.replace("/override/minutes", "/overrideMinutes");
            case "reason" -> path.replace("/override/reason", "/overrideReason");
            case "amount" -> path.replace("/cost/amount", "/cost");
            default -> path;
        };
    }

    /**
     * The innermost row of each fault, of an outline all of it; of own minutes that are half typed,
     * they alone, and of a fold it alone where the part has its blank or mass without it.
     */
    private static Set<String> rowsOf(
            List<Fault> faults, TakeOffReading.Read read, TypedTakeOff typed) {
        Set<String> rows = new LinkedHashSet<>();
        for (Fault fault : faults) {
            read.pathOf().values().stream()
                    .filter(row -> !row.contains(TakeOffReading.SEGMENTS + "/"))
                    .filter(row -> fault.pointer().startsWith(row + "/"))
                    .max((a, b) -> Integer.compare(a.length(), b.length()))
                    .map(
                            row ->
                                    TakeOffReading.isOwn(fault.pointer())
                                            ? row + TakeOffReading.OWN
                                            : fault.pointer()
                                                                    .startsWith(
                                                                            row
                                                                                    + TakeOffReading
                                                                                            .FOLD
                                                                                    + "/")
                                                            && hasMass(row, typed)
                                                    ? row + TakeOffReading.FOLD
                                                    : row)
                    .ifPresent(rows::add);
        }
        return rows;
    }

    private static boolean hasMass(String part, TypedTakeOff typed) {
        return !typed.isEmpty(part + "/massKg") || !typed.isEmpty(part + "/blank/lengthMm");
    }

    /** Whether it can be saved as a quote: nothing is wrong and nothing missing. */
    public boolean complete() {
        return faults.isEmpty() && estimate != null;
    }

    /** The lines of the estimate by the path of their row. */
    Map<String, Estimate.Line> lines() {
        Map<String, Estimate.Line> lines = new HashMap<>();
        if (estimate != null) {
            List<Estimate.Line> typed = estimate.typed();
            for (int i = 0; i < typed.size(); i++) {
                lines.put(read.operationRows().get(i), typed.get(i));
            }
        }
        return lines;
    }

    /** What the calculation has to tell about a row itself, not about a row inside it. */
    List<Finding> findingsAt(String row) {
        return estimate == null
                ? List.of()
                : estimate.findings().stream()
                        .filter(f -> rowOf(read.path(f.pointer())).equals(row))
                        .toList();
    }

    private String rowOf(String path) {
        return read.pathOf().values().stream()
                .filter(row -> path.equals(row) || path.startsWith(row + "/"))
                .max((a, b) -> Integer.compare(a.length(), b.length()))
                .orElse("");
    }

    Estimate.@Nullable ForQuantity main() {
        return estimate == null
                ? null
                : estimate.quantities().stream()
                        .filter(q -> q.quantity() == read.takeOff().mainQuantity())
                        .findFirst()
                        .orElse(null);
    }
}
