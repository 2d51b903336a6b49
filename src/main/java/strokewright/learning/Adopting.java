package strokewright.learning;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Faults;

/**
 * Which of the proposed lines to take over.
 *
 * @param lines all of them when left out
 */
record Adopting(@Nullable List<Line> lines) {

    /** Stands for what all work of a job has in common. */
    static final String JOB = "job";

    static final Adopting ALL = new Adopting(null);

    Adopting {
        lines =
                lines == null
                        ? null
                        : java.util.Collections.unmodifiableList(new ArrayList<>(lines));
    }

    /**
     * @param kind of work as proposed, or {@link #JOB}
     */
    record Line(@Nullable String kind, @Nullable String family) {}

    boolean takes(String kind, @Nullable String family) {
        return lines == null || lines.contains(new Line(kind, family));
    }

    Faults faults(Factors proposed) {
        Faults faults = new Faults();
        Set<Line> seen = new HashSet<>();
        for (int i = 0; lines != null && i < lines.size(); i++) {
            String at = "/lines/" + i;
            Line line = lines.get(i);
            if (!faults.present(at, line, "a kind with its family")
                    || !faults.present(at + "/kind", line.kind, "a kind of work as proposed")) {
                continue;
            }
            boolean job = line.kind.equals(JOB) && line.family == null;
            if (!job && proposed.line(line.kind, line.family).isEmpty()) {
                faults.add(at, "is not among the proposed lines");
            } else if (!seen.add(line)) {
                faults.add(at, "is named twice");
            }
        }
        return faults;
    }
}
