package strokewright.job;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimate.Line;
import strokewright.estimate.Estimate.Visit;
import strokewright.estimate.Operation;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.estimate.WorkStep;
import strokewright.web.Numbers;

/**
 * The work of one item in the order in which it is planned: what has to be done before a part comes
 * to the machine, then the visits of all parts as the tool plan has them, each part's other work
 * between its visits, then what is left.
 */
final class RouteCardOrder {

    private final Estimate estimate;
    private final TakeOff takeOff;
    private final Estimate.ForQuantity planned;
    private final ShopBook book;
    private final List<Step> steps;
    private final Numbers numbers;

    private final List<Row> rows = new ArrayList<>();
    private final Set<Line> done = new LinkedHashSet<>();
    private final Set<Step> told = new LinkedHashSet<>();

    private RouteCardOrder(
            Estimate estimate,
            TakeOff takeOff,
            Estimate.ForQuantity planned,
            ShopBook book,
            List<Step> steps,
            Numbers numbers) {
        this.estimate = estimate;
        this.takeOff = takeOff;
        this.planned = planned;
        this.book = book;
        this.steps = steps;
        this.numbers = numbers;
    }

    /**
     * One row of the card.
     *
     * @param kind work, tool, anneal
     * @param step its number; empty where it has been told, or nobody books on it
     * @param aside beside what is done: the visit, the work centre
     */
    record Row(
            Kind kind,
            String step,
            String what,
            String aside,
            List<String> passes,
            String checks,
            List<String> template) {

        public boolean isWork() {
            return kind == Kind.WORK;
        }

        public String look() {
            return kind.name().toLowerCase(Locale.ROOT);
        }
    }

    enum Kind {
        WORK,
        TOOL,
        ANNEAL
    }

    /**
     * @param steps those of the item
     */
    static List<Row> of(
            Estimate estimate,
            TakeOff takeOff,
            Estimate.ForQuantity planned,
            ShopBook book,
            List<Step> steps,
            Numbers numbers) {
        RouteCardOrder order = new RouteCardOrder(estimate, takeOff, planned, book, steps, numbers);
        order.lay();
        return order.rows;
    }

    private void lay() {
        List<Visit> visits = estimate.plan() == null ? List.of() : estimate.plan().visits();
        Set<Line> visited = new LinkedHashSet<>();
        visits.forEach(v -> line(v).ifPresent(visited::add));
        before(visited);
        toolChanges();
        for (Visit visit : visits) {
            line(visit).ifPresent(line -> visit(visit, line));
        }
        estimate.operations().stream().filter(l -> !done.contains(l)).toList().forEach(this::work);
        steps.stream().filter(s -> !told.contains(s)).toList().forEach(this::rest);
    }

    private Optional<Line> line(Visit visit) {
        return estimate.operations().stream()
                .filter(l -> visit.part().equals(l.part()) && visit.position() == l.position())
                .filter(l -> l.standard() == null)
                .findFirst();
    }

    /** Of the item as a whole and of every part, all that comes before its forming. */
    private void before(Set<Line> visited) {
        Set<String> begun = new LinkedHashSet<>();
        boolean partsBegun = false;
        for (Line line : estimate.operations()) {
            if (line.part() == null) {
                if (!partsBegun) {
                    work(line);
                }
                continue;
            }
            partsBegun = true;
            if (visited.contains(line)) {
                begun.add(line.part());
            }
            if (!begun.contains(line.part())) {
                work(line);
            }
        }
    }

    private void toolChanges() {
        steps.stream()
                .filter(s -> s.work().kind().equals(WorkStep.TOOL_CHANGES))
                .findFirst()
                .ifPresent(
                        step -> {
                            told.add(step);
                            rows.add(
                                    row(
                                            Kind.WORK,
                                            step,
                                            "Tool changes, all of them",
                                            passage(),
                                            NOTHING));
                        });
    }

    /** How so many items go over the machines. */
    private String passage() {
        int changes = planned.toolChanges();
        String counted = changes == 1 ? "1 change" : numbers.show(changes) + " changes";
        if (planned.quantity() == 1 || planned.passage() == null) {
            return counted;
        }
        if (planned.passage() == Estimate.Passage.PIECE) {
            return counted + "; piece by piece, each through all its tools before the next";
        }
        return counted
                + "; all at each tool before it is changed"
                + (planned.provingRound() ? ", once the first one has gone right through" : "");
    }

    private void visit(Visit visit, Line line) {
        between(line);
        if (visit.annealed()) {
            anneal(visit, line);
        }
        if (visit.change()) {
            rows.add(
                    new Row(
                            Kind.TOOL,
                            "",
                            "Put in " + visit.tool(),
                            visit.machine() + rate(visit),
                            List.of(),
                            "",
                            List.of()));
        }
        Step step = step(line, line.type()).orElse(null);
        String times =
                visit.visits() == 1 ? "" : "visit " + visit.visit() + " of " + visit.visits();
        List<RouteCardPasses.Task> tasks =
                new RouteCardPasses(line, operation(line), book.times().checkEveryPasses(), numbers)
                        .at(visit.visit());
        for (RouteCardPasses.Task task : tasks) {
            String aside =
                    Stream.of(task.where(), times, people(line))
                            .filter(t -> !t.isEmpty())
                            .reduce((a, b) -> a + " · " + b)
                            .orElse("");
            rows.add(row(Kind.WORK, step, RouteCard.words(line), aside, task));
        }
        if (step != null) {
            told.add(step);
        }
        done.add(line);
        if (visit.visit() == visit.visits()) {
            dressing(line);
        }
    }

    /** Work on the part that comes before this line and was not done yet. */
    private void between(Line until) {
        for (Line line : estimate.operations()) {
            if (line.equals(until)) {
                return;
            }
            if (Objects.equals(line.part(), until.part()) && !done.contains(line)) {
                work(line);
            }
        }
    }

    private void anneal(Visit visit, Line line) {
        Optional<Step> step = step(line, book.times().annealStandard());
        step.ifPresent(told::add);
        rows.add(
                new Row(
                        Kind.ANNEAL,
                        step.map(s -> numbers.show(s.n())).orElse(""),
                        "Anneal " + visit.part(),
                        "before visit "
                                + visit.visit()
                                + " of "
                                + visit.visits()
                                + step.map(s -> " · " + s.work().workCentre()).orElse(""),
                        List.of(),
                        "",
                        List.of()));
    }

    private void dressing(Line line) {
        if (line.dressMinutes() == null) {
            return;
        }
        step(line, book.times().dressMarksStandard())
                .filter(told::add)
                .ifPresent(
                        step ->
                                rows.add(
                                        row(
                                                Kind.WORK,
                                                step,
                                                RouteCard.words(step.work()),
                                                step.work().workCentre(),
                                                NOTHING)));
    }

    /** A line that is no visit. */
    private void work(Line line) {
        if (!done.add(line)) {
            return;
        }
        String kind = line.standard() == null ? line.type() : line.standard();
        Step step = step(line, kind).orElse(null);
        if (step != null) {
            told.add(step);
        }
        String aside =
                Stream.of(amount(line), line.workCentre(), people(line))
                        .filter(t -> !t.isEmpty())
                        .reduce((a, b) -> a + " · " + b)
                        .orElse("");
        rows.add(row(Kind.WORK, step, RouteCard.words(line), aside, NOTHING));
    }

    private void rest(Step step) {
        told.add(step);
        rows.add(
                row(
                        Kind.WORK,
                        step,
                        RouteCard.words(step.work()),
                        step.work().workCentre(),
                        NOTHING));
    }

    private static final RouteCardPasses.Task NOTHING =
            new RouteCardPasses.Task("", List.of(), "", List.of());

    private Row row(
            Kind kind, @Nullable Step step, String what, String aside, RouteCardPasses.Task task) {
        return new Row(
                kind,
                step == null ? "" : numbers.show(step.n()),
                what,
                aside,
                task.passes(),
                task.checks(),
                task.template());
    }

    private Optional<Step> step(Line line, @Nullable String kind) {
        return steps.stream()
                .filter(s -> Objects.equals(s.work().part(), line.part()))
                .filter(s -> s.work().position() == line.position())
                .filter(s -> s.work().kind().equals(kind))
                .findFirst();
    }

    private Operation.@Nullable Formed operation(Line line) {
        return takeOff.parts().stream()
                .filter(p -> Objects.equals(p.name(), line.part()))
                .filter(p -> line.position() <= p.operations().size())
                .map(p -> p.operations().get(line.position() - 1))
                .filter(Operation.Formed.class::isInstance)
                .map(Operation.Formed.class::cast)
                .findFirst()
                .orElse(null);
    }

    /** The slower of tool and machine. */
    private String rate(Visit visit) {
        double rate = Double.POSITIVE_INFINITY;
        Double ofTool = book.tool(visit.tool()).map(ShopBook.Tool::strokesPerMinute).orElse(null);
        Double ofMachine =
                book.machine(visit.machine()).map(ShopBook.Machine::strokesPerMinute).orElse(null);
        rate = ofTool == null ? rate : Math.min(rate, ofTool);
        rate = ofMachine == null ? rate : Math.min(rate, ofMachine);
        return Double.isInfinite(rate) ? "" : " · " + numbers.show(rate) + " strokes/min";
    }

    /** What one piece takes of the standard's unit, or the order. */
    private String amount(Line line) {
        Double amount = line.amount();
        if (amount == null) {
            return "";
        }
        return book.standard(line.standard()).map(s -> amount(amount, s.unit())).orElse("");
    }

    private String amount(double amount, ShopBook.Unit unit) {
        return unit == ShopBook.Unit.PIECE && amount == 1
                ? "each piece"
                : numbers.show(amount) + "\u00a0" + unit.of(amount) + per(unit);
    }

    private static String per(ShopBook.Unit unit) {
        return switch (unit) {
            case ORDER, JOB, TEMPLATE -> " in all";
            case DIMENSION, CONTOUR -> " on each piece inspected";
            case PIECE, METRE, BEND, CUT, HOLE, JOINT, KG, DM2, SPOT, STATION -> " each";
        };
    }

    private static String people(Line line) {
        return line.people() > 1 ? line.people() + " people" : "";
    }
}
