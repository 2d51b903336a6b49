package strokewright.learning;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import strokewright.web.Numbers;

/** Drift charts with what they signal. */
final class DriftViews {

    private final Numbers numbers;

    DriftViews(Numbers numbers) {
        this.numbers = numbers;
    }

    /**
     * @param judged jobs that had enough before them to be compared with
     */
    record Chart(
            String name,
            int jobs,
            int judged,
            List<String> signals,
            List<String> oddJobs,
            String picture) {}

    record Few(String name, int jobs) {}

    /** Those that signal something first. */
    List<Chart> charts(String of, List<Drift> drifts) {
        List<Chart> charts = new ArrayList<>();
        for (boolean signals : new boolean[] {true, false}) {
            for (Drift drift : drifts) {
                if (drift.points().size() > Drift.FEWEST && drift.alarms().isEmpty() != signals) {
                    charts.add(chart(of, drift));
                }
            }
        }
        return charts;
    }

    private Chart chart(String of, Drift drift) {
        String name = of.equals("kind") ? FactorViews.words(drift.subject()) : drift.subject();
        return new Chart(
                name,
                drift.points().size(),
                (int) drift.points().stream().filter(p -> p.centre() != null).count(),
                drift.alarms().stream().map(a -> DriftWords.of(drift, a)).toList(),
                drift.points().stream()
                        .filter(Drift.Point::standsOut)
                        .map(
                                p ->
                                        "Job %s alone took %s times what was estimated: worth a look, no drift."
                                                .formatted(
                                                        p.job(), numbers.show(Math.exp(p.y()), 2)))
                        .toList(),
                new DriftPicture(drift, name, of + "-" + drift.subject().hashCode(), numbers)
                        .draw());
    }

    List<Few> few(Lessons lessons) {
        return Stream.concat(
                        lessons.kinds().stream()
                                .filter(d -> d.points().size() <= Drift.FEWEST)
                                .map(
                                        d ->
                                                new Few(
                                                        FactorViews.words(d.subject()),
                                                        d.points().size())),
                        lessons.families().stream()
                                .filter(d -> d.points().size() <= Drift.FEWEST)
                                .map(d -> new Few(d.subject(), d.points().size())))
                .toList();
    }
}
