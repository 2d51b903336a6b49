package strokewright.estimate;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import strokewright.estimate.ShopBook.Tool;
import strokewright.quantity.Severity;

/** One forming operation on one machine with every tool that could do it. */
final class Choices {

    private final FormedWork.Maker maker;
    private final List<Phase> phases;
    private final List<List<Phase.Done>> options;

    private Choices(FormedWork.Maker maker, List<Phase> phases) {
        this.maker = maker;
        this.phases = phases;
        this.options = options(maker, phases);
    }

    static Choices of(FormedWork.Maker maker) {
        return new Choices(maker, maker.phases());
    }

    /** The same as if the estimator had chosen no tool. */
    Choices free() {
        return new Choices(maker, phases.stream().map(Phase::free).toList());
    }

    /** The same as if the estimator had chosen no tool for this phase. */
    private Choices free(int phase) {
        List<Phase> free = new ArrayList<>(phases);
        free.set(phase, phases.get(phase).free());
        return new Choices(maker, free);
    }

    /**
     * Tools that would clear all refusals in place of one that the estimator chose, by the name of
     * its field.
     */
    Map<String, Object> otherTools() {
        Map<String, Object> others = new LinkedHashMap<>();
        for (int p = 0; p < phases.size(); p++) {
            if (phases.get(p).chosen() == null) {
                continue;
            }
            Choices free = free(p);
            if (free.hasTools() && free.refusals() == 0) {
                others.put(phases.get(p).field().substring(1), free.quickestTools().get(p).name());
            }
        }
        return others;
    }

    boolean chosen() {
        return phases.stream().anyMatch(p -> p.chosen() != null);
    }

    /**
     * For each phase the tools with fewest refusals, quickest first. The phases do not hang on each
     * other: each is tried beside the first tools of the others.
     */
    private static List<List<Phase.Done>> options(FormedWork.Maker maker, List<Phase> phases) {
        List<List<Tool>> candidates =
                phases.stream().map(p -> p.candidates(maker.bench())).toList();
        if (candidates.stream().anyMatch(List::isEmpty)) {
            return List.of();
        }
        List<Tool> first = candidates.stream().map(c -> c.get(0)).toList();
        List<List<Phase.Done>> options = new ArrayList<>();
        for (int p = 0; p < phases.size(); p++) {
            List<Phase.Done> done = new ArrayList<>();
            for (Tool tool : candidates.get(p)) {
                List<Tool> tools = new ArrayList<>(first);
                tools.set(p, tool);
                done.add(maker.with(tools).phases().get(p));
            }
            long fewest = done.stream().mapToLong(Phase.Done::refusals).min().orElseThrow();
            options.add(
                    done.stream()
                            .filter(d -> d.refusals() == fewest)
                            .sorted(Comparator.comparingDouble(Phase.Done::minutes))
                            .toList());
        }
        return options;
    }

    /** Whether the shop has a tool for all of it. */
    boolean hasTools() {
        return options.size() == phases.size();
    }

    /**
     * What the plan of tools has to choose from, phase by phase. Minutes that the estimator stated
     * stay the same whatever the tool; among equals the quicker tool goes first.
     */
    List<List<Phase.Done>> options() {
        if (!maker.overridden()) {
            return options;
        }
        return options.stream()
                .map(
                        phase ->
                                phase.stream()
                                        .map(d -> new Phase.Done(d.tool(), 0, d.visits(), 0))
                                        .toList())
                .toList();
    }

    /** Refusals that remain whichever tools are taken. */
    long refusals() {
        return refusals(quickest().line());
    }

    Worked quickest() {
        return worked(hasTools() ? quickestTools() : List.of());
    }

    private List<Tool> quickestTools() {
        return options.stream().map(o -> o.get(0).tool()).toList();
    }

    /** Done with these tools, one for each phase. */
    Worked worked(List<Tool> tools) {
        if (!hasTools()) {
            for (Phase phase : phases) {
                if (phase.candidates(maker.bench()).isEmpty()) {
                    return maker.withoutTool(phase.field());
                }
            }
        }
        return maker.with(tools).worked();
    }

    /** The estimator's own choices stand; where another tool takes fewer minutes, that is told. */
    List<Estimate.OwnTool> ownTools() {
        List<Estimate.OwnTool> own = new ArrayList<>();
        if (!chosen() || !hasTools()) {
            return own;
        }
        Choices free = free();
        for (int p = 0; p < phases.size(); p++) {
            Phase.Done chosen = options.get(p).get(0);
            Phase.Done quickest = free.options.get(p).get(0);
            if (phases.get(p).chosen() != null
                    && quickest.refusals() <= chosen.refusals()
                    && quickest.minutes() < chosen.minutes()) {
                own.add(
                        new Estimate.OwnTool(
                                maker.bench().part().name(),
                                maker.position(),
                                chosen.tool().name(),
                                chosen.minutes(),
                                quickest.tool().name(),
                                quickest.minutes()));
            }
        }
        return own;
    }

    /** Refusals of a line. */
    static long refusals(Estimate.Line line) {
        return line.findings().stream().filter(f -> f.severity() == Severity.REFUSAL).count();
    }
}
