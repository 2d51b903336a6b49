package strokewright.job;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** What the steps of a job are called, by their numbers. */
final class StepWords {

    private StepWords() {}

    static Map<Integer, String> byNumber(List<Step> steps) {
        return steps.stream().collect(Collectors.toMap(Step::n, s -> RouteCard.words(s.work())));
    }
}
