package strokewright.learning;

import java.util.ArrayList;
import java.util.List;

/**
 * Charts of all subjects, and in words what they signal.
 *
 * @param kinds of work, and set-up
 * @param families of metal, over all kinds of forming
 */
record Drifts(List<Drift> kinds, List<Drift> families, List<Signal> signals) {

    Drifts {
        kinds = List.copyOf(kinds);
        families = List.copyOf(families);
        signals = List.copyOf(signals);
    }

    /**
     * An alarm.
     *
     * @param of {@code kind} or {@code family}
     * @param signalledBy job with which it was noticed
     * @param since job with which the hours seem to have changed
     * @param jobs from then to the signal
     * @param factor hours since over hours before
     * @param passed whether the jobs after it lie where those before did
     */
    record Signal(
            String of,
            String subject,
            String signalledBy,
            String since,
            int jobs,
            double factor,
            boolean latest,
            boolean passed,
            String words) {}

    static Drifts of(Lessons lessons) {
        List<Signal> signals = new ArrayList<>();
        lessons.kinds().forEach(d -> add("kind", d, signals));
        lessons.families().forEach(d -> add("family", d, signals));
        return new Drifts(lessons.kinds(), lessons.families(), signals);
    }

    private static void add(String of, Drift drift, List<Signal> signals) {
        for (int i = 0; i < drift.alarms().size(); i++) {
            Drift.Alarm alarm = drift.alarms().get(i);
            signals.add(
                    new Signal(
                            of,
                            drift.subject(),
                            drift.points().get(alarm.at()).job(),
                            drift.points().get(alarm.since()).job(),
                            alarm.at() - alarm.since() + 1,
                            alarm.factor(),
                            i == drift.alarms().size() - 1,
                            alarm.passed(),
                            DriftWords.of(drift, alarm)));
        }
    }
}
