package strokewright.estimate;

import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.ShopBook.Machine;
import strokewright.estimate.ShopBook.Standard;
import strokewright.estimate.ShopBook.Tool;
import strokewright.forming.Effort;
import strokewright.quantity.Finding;

/**
 * One line of the estimate with what the reckoning over quantities needs beside it.
 *
 * @param perAssembly pieces of it in one item
 * @param grade of its metal; null for work on the assembly
 * @param pacedMinutes part of the elapsed minutes of one piece that practice cannot shorten
 * @param machine null for a time standard
 * @param phases how each part of it went, with its tool; none for a time standard
 * @param standard null for forming
 * @param annealedBy the time standard that its anneals take; null without anneals
 * @param coolMinutes what of its anneals no time standard holds
 * @param dressedBy the time standard that dressing out its marks takes; null without marks
 * @param count how often {@code efforts} are done on one piece
 * @param efforts the forming of one piece as it changes with what is doubtful; none for a time
 *     standard
 */
record Worked(
        Estimate.Line line,
        int perAssembly,
        @Nullable Grade grade,
        double pacedMinutes,
        @Nullable Machine machine,
        List<Phase.Done> phases,
        @Nullable Standard standard,
        @Nullable Standard annealedBy,
        double coolMinutes,
        @Nullable Standard dressedBy,
        int count,
        List<Doubtful> efforts) {

    /** Whether its minutes per unit are worked once per order, with its set-up. */
    boolean isOncePerOrder() {
        return standard != null && standard.unit().oncePerOrder();
    }

    @Nullable String family() {
        return grade == null ? null : grade.family();
    }

    /** Work done with one tool. */
    record Doubtful(Tool tool, Effort effort) {}

    Worked instead(List<Finding> findings) {
        return new Worked(
                line.withFindings(findings),
                perAssembly,
                grade,
                pacedMinutes,
                machine,
                phases,
                standard,
                annealedBy,
                coolMinutes,
                dressedBy,
                count,
                efforts);
    }

    /** Elapsed minutes of one piece that are reckoned with: the estimator's own go first. */
    double elapsedMinutes() {
        return line.override() == null ? line.machineMinutes() : line.override().minutes();
    }

    /** The same share of them is paced by the machine, whoever stated them. */
    double elapsedPacedMinutes() {
        return line.machineMinutes() == 0
                ? 0
                : pacedMinutes * elapsedMinutes() / line.machineMinutes();
    }
}
