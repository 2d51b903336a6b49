package strokewright.quote;

import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;

/** What an estimate's lines are called where people read them. */
final class Words {

    private Words() {}

    /** Where and what, e.g. "Rim 2: Curve an edge". */
    static String operation(Estimate.Line line) {
        String where = line.part() == null ? "Assembly" : line.part();
        return where
                + " "
                + line.position()
                + ": "
                + (line.standard() == null ? kind(line.type()) : line.standard());
    }

    private static String kind(String type) {
        return Work.of(type).map(Work::label).orElse(type);
    }

    /** The tools that it takes, and on which machine; for a time standard its work centre. */
    static String tools(Estimate.Line line) {
        return Stream.of(
                        Objects.requireNonNullElse(line.tool(), ""),
                        Objects.requireNonNullElse(line.crownTool(), ""),
                        Objects.requireNonNullElse(line.machine(), line.workCentre()))
                .filter(name -> !name.isEmpty())
                .distinct()
                .collect(Collectors.joining(", "));
    }

    /** Passes of each row, the inmost first; null where there are none. */
    static @Nullable String passes(Estimate.Line line) {
        return line.passes() == null ? null : joined(line.passes());
    }

    /** Correction and tipping passes, those that the line has. */
    static @Nullable String furtherPasses(Estimate.Line line) {
        List<Integer> further =
                Stream.of(line.correctionPasses(), line.tippingPasses())
                        .filter(passes -> passes != null && passes > 0)
                        .toList();
        return further.isEmpty() ? null : joined(further);
    }

    private static String joined(List<Integer> numbers) {
        return numbers.stream().map(String::valueOf).collect(Collectors.joining(" + "));
    }
}
