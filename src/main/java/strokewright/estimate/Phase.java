package strokewright.estimate;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook.Tool;
import strokewright.estimate.ShopBook.ToolKind;

/**
 * A part of an operation that is done with one tool: the rim and the crown of a dish, the shrunk
 * and the stretched parts of an outline, the whole of everything else.
 *
 * @param field of the take-off that names the estimator's own choice
 * @param chosen the estimator's own choice
 * @param kinds of tools that can do it
 */
record Phase(String field, @Nullable String chosen, Set<ToolKind> kinds) {

    /**
     * How a phase went with one tool.
     *
     * @param minutes elapsed at the machine and dressing out marks, of one piece
     * @param visits to the machine: an anneal ends one
     * @param refusals how many findings rule it out
     */
    record Done(Tool tool, double minutes, int visits, long refusals) {}

    List<Tool> candidates(Bench bench) {
        return ToolChoice.candidates(bench.book(), chosen, kinds, bench.part().surface());
    }

    /** As if the estimator had left the choice open. */
    Phase free() {
        return new Phase(field, null, kinds);
    }
}
