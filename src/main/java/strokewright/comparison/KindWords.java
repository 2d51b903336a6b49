package strokewright.comparison;

import strokewright.estimate.WorkStep;
import strokewright.takeoff.Words;

/** What kinds of work are called. */
final class KindWords {

    private KindWords() {}

    static String of(String kind) {
        return kind.equals(WorkStep.TOOL_CHANGES) ? "Tool changes" : Words.kind(kind);
    }
}
