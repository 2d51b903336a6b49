package strokewright.learning;

import java.util.Locale;

/** What a chart signals, for people who read no charts. */
final class DriftWords {

    private DriftWords() {}

    static String of(Drift drift, Drift.Alarm alarm) {
        double percent = 100 * (alarm.factor() - 1);
        int jobs = alarm.at() - alarm.since() + 1;
        return String.format(
                Locale.ROOT,
                "Since job %s it takes about %.0f %% %s than before: %d jobs since then lie %s, taken"
                        + " together too far to be chance%s.%s",
                drift.points().get(alarm.since()).job(),
                Math.abs(percent),
                alarm.slower() ? "longer" : "less",
                jobs,
                alarm.slower() ? "mostly above" : "mostly below",
                alarm.ewmaAgrees() ? "; the smoothed mean says the same" : "",
                alarm.passed()
                        ? " It has passed: the %d jobs after them lie near those before again."
                                .formatted(Drift.SETTLING)
                        : "");
    }
}
