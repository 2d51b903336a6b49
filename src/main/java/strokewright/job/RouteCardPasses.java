package strokewright.job;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimate.Stretched;
import strokewright.estimate.FormedRows;
import strokewright.estimate.FormedRows.Place;
import strokewright.estimate.FormedRows.Row;
import strokewright.estimate.Operation;
import strokewright.quantity.Why;
import strokewright.web.Numbers;

/**
 * What is done at each visit of one line to the machine, for the one who does it: passes row by
 * row, after which of them the template is held on, and where. Read from the line's own figures.
 */
final class RouteCardPasses {

    /** More checks than these are told by their interval. */
    private static final int MOST_NAMED = 14;

    private final Estimate.Line line;
    private final Operation.@Nullable Formed operation;
    private final List<FormedRows> places;
    private final int usualInterval;
    private final Numbers numbers;

    /**
     * @param operation of the take-off; null where the line is none of it
     * @param usualInterval passes between two checks where the line does not say
     */
    RouteCardPasses(
            Estimate.Line line,
            Operation.@Nullable Formed operation,
            int usualInterval,
            Numbers numbers) {
        this.line = line;
        this.operation = operation;
        this.usualInterval = usualInterval;
        this.places = FormedRows.of(line);
        this.numbers = numbers;
    }

    /**
     * One thing to do at a visit.
     *
     * @param where rim, crown or a stretch; empty for the whole of the line
     * @param passes each row, then what follows
     * @param checks after which passes
     * @param template what is held on, and where
     */
    record Task(String where, List<String> passes, String checks, List<String> template) {}

    /**
     * @param visit counted from one
     * @return at least one
     */
    List<Task> at(int visit) {
        if (operation instanceof Operation.Dish dish) {
            return List.of(dish(dish, visit));
        }
        if (line.outline() != null) {
            List<Task> tasks = outline(line.outline(), visit);
            return tasks.isEmpty() ? List.of(new Task("", List.of(), "", List.of())) : tasks;
        }
        if (operation instanceof Operation.CurveEdge edge) {
            return List.of(edge(visit, curve(edge)));
        }
        if (operation instanceof Operation.TurnFlange flange) {
            return List.of(edge(visit, turned(flange)));
        }
        if (operation instanceof Operation.TakeOutDents dents) {
            return List.of(dents(dents));
        }
        return List.of(area());
    }

    // Edges and flanges ---------------------------------------------------------------------------

    private Task edge(int visit, List<String> shape) {
        String name = operation instanceof Operation.CurveEdge ? "edge" : "flange";
        Optional<FormedRows> rows = places.stream().findFirst();
        int cycle = visit - 1;
        List<String> passes = new ArrayList<>();
        rows.ifPresent(r -> passes.addAll(passes(r, cycle)));
        int tipping = Objects.requireNonNullElse(line.tippingPasses(), 0);
        if (tipping > 0 && isLast(rows, cycle)) {
            passes.add(counted(tipping, "tipping pass", "tipping passes") + " along the bend line");
        }
        return new Task(
                "",
                each(passes),
                rows.map(r -> checks(r, cycle, name)).orElse(""),
                with(shape, stations(name)));
    }

    private List<String> curve(Operation.CurveEdge edge) {
        List<String> shape =
                new ArrayList<>(
                        List.of(
                                "R "
                                        + mm(edge.radiusMm())
                                        + " at the heel, "
                                        + mm(edge.lengthMm())
                                        + " long"));
        if (edge.startRadiusMm() != null) {
            shape.add("starts from R " + mm(edge.startRadiusMm()));
        }
        shape.add("flange " + mm(edge.heightMm()) + ", " + inside(edge.sense()));
        return shape;
    }

    private List<String> turned(Operation.TurnFlange flange) {
        return List.of(
                "R " + mm(flange.radiusMm()) + " at the bend",
                "flange " + mm(flange.heightMm()) + ", turned up " + show(flange.angleDeg()) + "°",
                "runs round " + show(flange.sweepDeg()) + "°, " + sense(flange.sense()));
    }

    private static String inside(Operation.@Nullable Sense sense) {
        return sense == Operation.Sense.SHRINK ? "inside: shrink" : "outside: stretch";
    }

    private static String sense(Operation.@Nullable Sense sense) {
        return sense == Operation.Sense.SHRINK ? "shrink" : "stretch";
    }

    // Dishes --------------------------------------------------------------------------------------

    /** The rim with its anneals, then the crown with its own. */
    private Task dish(Operation.Dish dish, int visit) {
        int ofRim = Objects.requireNonNullElse(line.anneals(), 0) + 1;
        boolean rim = visit <= ofRim;
        Place wanted = rim ? Place.RIM : Place.CROWN;
        int cycle = rim ? visit - 1 : visit - 1 - ofRim;
        String name = rim ? "rim" : "crown";
        Optional<FormedRows> rows = places.stream().filter(r -> r.place() == wanted).findFirst();
        List<String> shape = new ArrayList<>();
        shape.add("Ø " + mm(dish.diameterMm()) + ", " + mm(dish.depthMm()) + " deep");
        figure("sphereRadiusMm").ifPresent(r -> shape.add("template R " + mm(r.value())));
        return new Task(
                rim ? "Rim" : "Crown",
                each(rows.map(r -> passes(r, cycle)).orElse(List.of())),
                rows.map(r -> checks(r, cycle, name)).orElse(""),
                with(shape, stations(name)));
    }

    // Outlines ------------------------------------------------------------------------------------

    /** All that shrinks with its anneals, then all that stretches with its own. */
    private List<Task> outline(Estimate.Outlined outline, int visit) {
        int ofShrinking = visits(outline, Operation.Sense.SHRINK);
        boolean shrink = visit <= ofShrinking;
        Operation.Sense sense = shrink ? Operation.Sense.SHRINK : Operation.Sense.STRETCH;
        int cycle = shrink ? visit - 1 : visit - 1 - ofShrinking;
        List<Task> tasks = new ArrayList<>();
        for (FormedRows rows : places) {
            Stretched stretch = rows.stretch();
            if (stretch != null && stretch.sense() == sense && cycle <= stretch.anneals()) {
                String name = "stretch " + stretch.number();
                tasks.add(
                        new Task(
                                "Stretch " + stretch.number() + ", " + sense(sense),
                                each(passes(rows, cycle)),
                                checks(rows, cycle, name),
                                with(
                                        List.of(
                                                "R "
                                                        + mm(stretch.tightestRadiusMm())
                                                        + " at its tightest",
                                                "from "
                                                        + mm(stretch.fromMm())
                                                        + " on, "
                                                        + mm(stretch.lengthMm())
                                                        + " long"),
                                        stations(name))));
            }
        }
        return tasks;
    }

    /** None where nothing of that sense is worked. */
    private static int visits(Estimate.Outlined outline, Operation.Sense sense) {
        return outline.stretches().stream()
                .filter(s -> s.sense() == sense)
                .mapToInt(s -> s.anneals() + 1)
                .max()
                .orElse(0);
    }

    // Areas and dents -----------------------------------------------------------------------------

    private Task area() {
        int times =
                line.passes() == null || line.passes().isEmpty()
                        ? 0
                        : line.passes().get(line.passes().size() - 1);
        Double area =
                operation instanceof Operation.Smooth smooth
                        ? smooth.areaMm2()
                        : operation instanceof Operation.Flatten flatten ? flatten.areaMm2() : null;
        return new Task(
                "",
                each(List.of(counted(times, "pass", "passes") + " over the whole area")),
                after(1, times, interval("area")),
                with(
                        area == null
                                ? List.of()
                                : List.of(numbers.show(area / 10_000, 1) + " dm² of area"),
                        stations("area")));
    }

    private Task dents(Operation.TakeOutDents dents) {
        return new Task(
                "",
                each(
                        List.of(
                                counted(dents.spots(), "spot", "spots")
                                        + ", about "
                                        + numbers.show(dents.strokesPerSpot())
                                        + " strokes each")),
                "Feel and check each spot",
                List.of());
    }

    // Passes --------------------------------------------------------------------------------------

    /** Rows from the edge inwards, those of the cycle alone; corrections after the last one. */
    private List<String> passes(FormedRows rows, int cycle) {
        List<String> passes = new ArrayList<>();
        List<Row> inwards = new ArrayList<>(rows.rows());
        Collections.reverse(inwards);
        for (Row row : inwards) {
            if (cycle < row.cycles().size()) {
                passes.add(place(row, rows.place()) + ": " + ofCycle(row, cycle));
            }
        }
        if (isLast(Optional.of(rows), cycle) && rows.correctionPasses() > 0) {
            passes.add(
                    "then "
                            + counted(
                                    rows.correctionPasses(), "correction pass", "correction passes")
                            + (rows.place() == Place.RIM ? " at the rim" : " at the edge"));
        }
        return passes;
    }

    private String place(Row row, Place place) {
        if (row.fromEdgeMm() == null) {
            return "All over";
        }
        boolean outermost = row.fromEdgeMm() < 0.05;
        String edge = place == Place.RIM ? "rim" : "edge";
        return outermost ? "At the " + edge : mm(row.fromEdgeMm()) + " from the " + edge;
    }

    private String ofCycle(Row row, int cycle) {
        int now = row.cycles().get(cycle);
        if (row.cycles().size() == 1) {
            return counted(now, "pass", "passes");
        }
        int before = before(row, cycle);
        String of = " of " + numbers.show(row.passes());
        return now == 1
                ? "pass " + numbers.show(before + 1) + of
                : "passes " + numbers.show(before + 1) + " to " + numbers.show(before + now) + of;
    }

    private static int before(Row row, int cycle) {
        return row.cycles().subList(0, cycle).stream().mapToInt(p -> p).sum();
    }

    private static boolean isLast(Optional<FormedRows> rows, int cycle) {
        return rows.map(r -> cycle >= r.rows().get(r.rows().size() - 1).cycles().size() - 1)
                .orElse(true);
    }

    private List<String> each(List<String> passes) {
        int count = operation == null ? 1 : operation.count();
        if (count == 1) {
            return passes;
        }
        List<String> all = new ArrayList<>(List.of("On each of " + numbers.show(count) + ":"));
        all.addAll(passes);
        return all;
    }

    // Checks --------------------------------------------------------------------------------------

    /** After every so many passes of the most worked row, after its last and each correction. */
    private String checks(FormedRows rows, int cycle, String name) {
        Row most = rows.rows().get(0);
        for (Row row : rows.rows()) {
            most = row.passes() >= most.passes() ? row : most;
        }
        String after = "";
        if (cycle < most.cycles().size()) {
            int before = before(most, cycle);
            after =
                    after(
                            before + 1,
                            before + most.cycles().get(cycle),
                            most.passes(),
                            interval(name));
        }
        boolean corrects = rows.correctionPasses() > 0 && isLast(Optional.of(rows), cycle);
        if (!corrects) {
            return after;
        }
        String each =
                rows.correctionPasses() == 1
                        ? "after the correction pass"
                        : "after each correction pass";
        return after.isEmpty() ? "Check " + each : after + "; and " + each;
    }

    private String after(int from, int last, int every) {
        return after(from, last, last, every);
    }

    private String after(int from, int to, int last, int every) {
        List<Integer> named =
                IntStream.rangeClosed(from, to)
                        .filter(pass -> pass % every == 0 || pass == last)
                        .limit(MOST_NAMED + 1L)
                        .boxed()
                        .toList();
        if (named.isEmpty()) {
            return "";
        }
        if (named.size() > MOST_NAMED) {
            return "Check after every "
                    + (every == 1 ? "pass" : ordinal(every) + " pass")
                    + (to == last ? " and after pass " + numbers.show(last) : "");
        }
        return (named.size() == 1 ? "Check after pass " : "Check after passes ")
                + named.stream().map(numbers::show).collect(Collectors.joining(", "));
    }

    private static String ordinal(int n) {
        return switch (n) {
            case 2 -> "2nd";
            case 3 -> "3rd";
            default -> n + "th";
        };
    }

    private int interval(String name) {
        return figure(name + ".checks")
                .map(why -> (int) why.inputs().get(1).value())
                .orElse(usualInterval);
    }

    /** How many and how far apart along an edge; over an area how many. */
    private String stations(String name) {
        Optional<Why> figure = figure(name + ".stations");
        if (figure.isEmpty()) {
            return "";
        }
        Why why = figure.get();
        String stations = counted((int) why.value(), "station", "stations");
        boolean area = name.equals("area") || name.equals("crown");
        if (area) {
            return "Check at " + stations + " over the area";
        }
        double length = why.inputs().get(0).value();
        return "Check at "
                + stations
                + (why.value() > 1 ? ", " + mm(length / why.value()) + " apart" : "");
    }

    private Optional<Why> figure(String name) {
        return line.why().stream().filter(w -> w.figure().equals(name)).findFirst();
    }

    private static List<String> with(List<String> lines, String more) {
        List<String> all = new ArrayList<>(lines);
        if (!more.isEmpty()) {
            all.add(more);
        }
        return all;
    }

    private String counted(int number, String one, String many) {
        return numbers.show(number) + " " + (number == 1 ? one : many);
    }

    private String mm(@Nullable Double value) {
        return value == null ? "?" : show(Math.round(value * 10) / 10.0) + "\u00a0mm";
    }

    private String show(double value) {
        return numbers.show(value);
    }
}
