package strokewright.learning;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import strokewright.takeoff.Work;

/**
 * What finished jobs teach together: the levels of kinds of work and families, and whether a kind
 * or a family changed meanwhile.
 *
 * @param kinds drift of each kind of work
 * @param families drift of all forming in each family of metal that several kinds are done in
 */
record Lessons(
        List<Observation> observations,
        LearnedModel model,
        List<Drift> kinds,
        List<Drift> families) {

    /**
     * @param observations in the order in which the jobs were finished, one of each job and cell
     */
    static Lessons of(List<Observation> observations) {
        LearnedModel steady = LearnedModel.of(observations, Map.of());
        List<Drift> kinds = drifts(observations, Observation::kind, o -> steady.ofFamily(o.cell()));
        Set<String> watched = watched(observations);
        List<Drift> families =
                drifts(
                        observations,
                        o -> isForming(o) && watched.contains(o.family()) ? o.family() : null,
                        o -> steady.known(o.kind(), null).mean());
        Map<String, Integer> since = new HashMap<>();
        for (Drift drift : kinds) {
            drift.change().ifPresent(alarm -> since.put(drift.subject(), drift.jobsSince(alarm)));
        }
        return new Lessons(
                List.copyOf(observations),
                since.isEmpty() ? steady : LearnedModel.of(observations, since),
                kinds,
                families);
    }

    /** Families with more than one kind of forming: of one kind its own chart says it all. */
    private static Set<String> watched(List<Observation> observations) {
        Map<String, Set<String>> kinds = new HashMap<>();
        for (Observation o : observations) {
            if (isForming(o) && o.family() != null) {
                kinds.computeIfAbsent(o.family(), f -> new HashSet<>()).add(o.kind());
            }
        }
        kinds.values().removeIf(of -> of.size() < 2);
        return kinds.keySet();
    }

    private static boolean isForming(Observation o) {
        return Work.of(o.kind()).isPresent();
    }

    /**
     * One chart for each subject.
     *
     * @param expected y that has another reason than the subject
     */
    static List<Drift> drifts(
            List<Observation> observations,
            Function<Observation, @Nullable String> subject,
            ToDoubleFunction<Observation> expected) {
        Map<String, List<Drift.Value>> values = new LinkedHashMap<>();
        Map<String, List<Drift.Beforehand>> beforehand = new HashMap<>();
        Map<String, double[]> sums = new HashMap<>();
        Scatter scatter = new Scatter();
        for (List<Observation> of : bySubjectAndJob(observations, subject)) {
            String name = Objects.requireNonNull(subject.apply(of.get(0)));
            double actual = of.stream().mapToDouble(Observation::actualMinutes).sum();
            double estimated =
                    of.stream()
                            .mapToDouble(
                                    o -> o.estimatedMinutes() * Math.exp(expected.applyAsDouble(o)))
                            .sum();
            double y = Math.log(actual / estimated);
            Observation job = of.get(0);
            beforehand.computeIfAbsent(name, n -> new ArrayList<>()).add(scatter.known());
            List<Drift.Value> before = values.computeIfAbsent(name, n -> new ArrayList<>());
            double[] sum = sums.computeIfAbsent(name, n -> new double[1]);
            scatter.add(before.size(), before.isEmpty() ? 0 : y - sum[0] / before.size());
            before.add(new Drift.Value(job.job(), job.finishedOn(), y));
            sum[0] += y;
        }
        List<Drift> drifts = new ArrayList<>();
        values.forEach((name, of) -> drifts.add(Drift.of(name, of, beforehand.get(name))));
        return drifts;
    }

    private static List<List<Observation>> bySubjectAndJob(
            List<Observation> observations, Function<Observation, @Nullable String> subject) {
        Map<List<String>, List<Observation>> grouped = new LinkedHashMap<>();
        for (Observation o : observations) {
            String name = subject.apply(o);
            if (name != null) {
                grouped.computeIfAbsent(List.of(name, o.job()), k -> new ArrayList<>()).add(o);
            }
        }
        return List.copyOf(grouped.values());
    }
}
