package strokewright.job;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import strokewright.estimate.WorkStep;
import strokewright.takeoff.Words;

/** What a step is called where people read it. */
final class StepWords {

    private StepWords() {}

    /** With the part that it is done on. */
    static String of(WorkStep work) {
        String what =
                work.kind().equals(WorkStep.TOOL_CHANGES)
                        ? "Tool changes"
                        : Words.kind(work.kind());
        return work.part() == null ? what : work.part() + " " + work.position() + ": " + what;
    }

    static Map<Integer, String> byNumber(List<Step> steps) {
        return steps.stream().collect(Collectors.toMap(Step::n, s -> of(s.work())));
    }
}
