package strokewright.estimate;

import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook.Machine;
import strokewright.estimate.ShopBook.Tool;
import strokewright.forming.ToolPlan;

/**
 * Tools and order of all parts, machine by machine: least minutes of forming and tool changes for
 * one item. Then every operation is worked out with the tools that the plan gave it.
 */
final class Planning {

    private final List<Planned> parts;
    private final List<List<Worked>> worked = new ArrayList<>();
    private final List<Round> rounds = new ArrayList<>();
    private final List<Estimate.Visit> visits = new ArrayList<>();
    private double minutes;
    private double freeMinutes;
    private boolean exact = true;

    Planning(List<Planned> parts) {
        this.parts = parts;
        Map<Machine, List<Integer>> byMachine = new LinkedHashMap<>();
        for (int p = 0; p < parts.size(); p++) {
            if (parts.get(p).machine() != null && !parts.get(p).choices().isEmpty()) {
                byMachine.computeIfAbsent(parts.get(p).machine(), m -> new ArrayList<>()).add(p);
            }
        }
        Map<Choices, List<Tool>> tools = new IdentityHashMap<>();
        byMachine.forEach((machine, on) -> plan(machine, on, tools));
        for (Planned part : parts) {
            List<Worked> lines = new ArrayList<>();
            for (int i = 0; i < part.part().operations().size(); i++) {
                Choices choices = part.choices().get(i);
                lines.add(
                        choices == null
                                ? part.standard(i)
                                : part.withOtherWays(
                                        i, choices.worked(tools.getOrDefault(choices, List.of()))));
            }
            worked.add(lines);
        }
    }

    /** Lines of a part, in the order of its operations. */
    List<Worked> worked(int part) {
        return worked.get(part);
    }

    /** How one item goes over each machine. */
    List<Round> rounds() {
        return rounds;
    }

    Estimate.@Nullable Plan plan() {
        if (visits.isEmpty()) {
            return null;
        }
        List<Choices> all = parts.stream().flatMap(p -> p.choices().values().stream()).toList();
        boolean chosen = all.stream().anyMatch(Choices::chosen);
        return new Estimate.Plan(
                visits,
                rounds.stream().mapToInt(Round::changes).sum(),
                minutes,
                exact,
                chosen ? Math.max(0, minutes - freeMinutes) : null,
                all.stream().flatMap(c -> c.ownTools().stream()).toList());
    }

    private void plan(Machine machine, List<Integer> on, Map<Choices, List<Tool>> tools) {
        Desk desk = new Desk(on, false);
        ToolPlan plan = desk.plan();
        minutes += plan.minutes();
        exact &= plan.exact();
        boolean chosen =
                on.stream()
                        .flatMap(p -> parts.get(p).choices().values().stream())
                        .anyMatch(Choices::chosen);
        freeMinutes += chosen ? new Desk(on, true).plan().minutes() : plan.minutes();
        Round.Growing round = new Round.Growing(parts.get(on.get(0)).book());
        Tool held = null;
        for (ToolPlan.Step step : plan.steps()) {
            Planned part = parts.get(on.get(step.part()));
            Desk.Place place = desk.place(step);
            Tool tool = desk.tools.get(step.tool());
            boolean change = !tool.equals(held);
            held = tool;
            round.visit(part, tool, change);
            visits.add(
                    new Estimate.Visit(
                            machine.name(),
                            part.part().name(),
                            place.operation() + 1,
                            place.visitsBefore() + step.visit() + 1,
                            place.visits(),
                            step.visit() > 0,
                            tool.name(),
                            change));
            List<Tool> chosenTools =
                    tools.computeIfAbsent(
                            part.choices().get(place.operation()), c -> new ArrayList<>());
            if (step.visit() == 0) {
                chosenTools.add(tool);
            }
        }
        rounds.add(round.grown());
    }

    /** The work of one machine as the plan takes it: phases of operations one after the other. */
    private final class Desk {
        final List<Tool> tools = new ArrayList<>();
        private final List<List<ToolPlan.Work>> works = new ArrayList<>();
        private final List<List<Place>> places = new ArrayList<>();

        /** Where a piece of work belongs. */
        record Place(int operation, int visitsBefore, int visits) {}

        /**
         * @param free as if the estimator had chosen no tool
         */
        Desk(List<Integer> on, boolean free) {
            for (int p : on) {
                List<ToolPlan.Work> ofPart = new ArrayList<>();
                List<Place> placesOfPart = new ArrayList<>();
                int perAssembly = parts.get(p).part().perAssembly();
                parts.get(p)
                        .choices()
                        .forEach(
                                (index, choices) -> {
                                    Choices offered = free ? choices.free() : choices;
                                    if (offered.hasTools()) {
                                        add(
                                                index,
                                                offered.options(),
                                                perAssembly,
                                                ofPart,
                                                placesOfPart);
                                    }
                                });
                works.add(ofPart);
                places.add(placesOfPart);
            }
        }

        private void add(
                int index,
                List<List<Phase.Done>> phases,
                int perAssembly,
                List<ToolPlan.Work> ofPart,
                List<Place> placesOfPart) {
            int all = phases.stream().mapToInt(p -> p.get(0).visits()).sum();
            int before = 0;
            for (List<Phase.Done> phase : phases) {
                int visits = phase.get(0).visits();
                ofPart.add(
                        new ToolPlan.Work(
                                visits,
                                phase.stream()
                                        .map(
                                                d ->
                                                        new ToolPlan.Option(
                                                                number(d.tool()),
                                                                d.minutes() * perAssembly))
                                        .toList()));
                placesOfPart.add(new Place(index, before, all));
                before += visits;
            }
        }

        private int number(Tool tool) {
            int known = tools.indexOf(tool);
            if (known < 0) {
                tools.add(tool);
                return tools.size() - 1;
            }
            return known;
        }

        ToolPlan plan() {
            return ToolPlan.of(works, tools.stream().mapToDouble(Tool::mountMinutes).toArray());
        }

        Place place(ToolPlan.Step step) {
            return places.get(step.part()).get(step.operation());
        }
    }
}
