package strokewright.takeoff;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import strokewright.estimate.Estimate;
import strokewright.estimate.FormedRows;
import strokewright.estimate.FormedRows.Place;
import strokewright.estimate.FormedRows.Row;
import strokewright.forming.PassCourse;
import strokewright.forming.PassCourse.Cycle;
import strokewright.forming.PassCourse.Held;
import strokewright.forming.PassCourse.Pass;
import strokewright.web.Drawing;
import strokewright.web.Numbers;

/** Pictures of the passes of one line of work: strain by row, and the strain after each pass. */
public final class PassPictures {

    /** More stairs than these run into each other; some are then left out of the drawing. */
    private static final int MOST_STAIRS = 250;

    private static final double WIDE = 360;
    private static final double LEFT = 50;
    private static final double RIGHT = 350;
    private static final double TOP = 26;
    private static final double FLOOR = 132;
    private static final double BAND = 142;

    private final Numbers numbers;

    public PassPictures(Numbers numbers) {
        this.numbers = numbers;
    }

    /**
     * Strain by row and the pass plan of a line; of an outline those of its most worked stretch.
     *
     * @param id unique on its page, and a beginning of others
     */
    public List<String> of(Estimate.Line line, String id) {
        List<FormedRows> places = FormedRows.of(line);
        List<String> pictures = new ArrayList<>();
        if (places.isEmpty()) {
            return pictures;
        }
        List<FormedRows> shown = line.outline() == null ? places : List.of(mostWorked(places));
        pictures.add(strains(shown, place(line, places, shown.get(0)), id + "-rows"));
        for (FormedRows rows : shown) {
            if (rows.course() != null && rows.course().passes() > 0) {
                pictures.add(
                        course(
                                rows,
                                rows.course(),
                                place(line, places, rows),
                                id + "-passes-" + places.indexOf(rows)));
            }
        }
        return pictures;
    }

    /** The first of them, as the line's own strains and passes are. */
    private static FormedRows mostWorked(List<FormedRows> places) {
        FormedRows most = places.get(0);
        for (FormedRows rows : places) {
            most = outermost(rows) > outermost(most) ? rows : most;
        }
        return most;
    }

    private static int outermost(FormedRows rows) {
        return rows.rows().get(rows.rows().size() - 1).passes();
    }

    private String place(Estimate.Line line, List<FormedRows> places, FormedRows rows) {
        return switch (rows.place()) {
            case EDGE -> "edge";
            case RIM -> "rim";
            case CROWN -> "crown";
            case STRETCH -> {
                Estimate.Stretched stretch = Objects.requireNonNull(rows.stretch());
                yield (places.size() == 1
                                ? "outline"
                                : "stretch " + stretch.number() + ", worked most")
                        + ", R "
                        + numbers.show(stretch.tightestRadiusMm(), 0);
            }
        };
    }

    // Strain by row -------------------------------------------------------------------------------

    private record Bar(String name, double strain, int passes) {}

    private String strains(List<FormedRows> shown, String place, String id) {
        List<Bar> bars = new ArrayList<>();
        for (FormedRows rows : shown) {
            for (int i = rows.rows().size() - 1; i >= 0; i--) {
                Row row = rows.rows().get(i);
                bars.add(new Bar(name(row), row.strain(), row.passes()));
            }
        }
        boolean ring = shown.get(0).place() == Place.RIM;
        String title = ring ? "Strain by ring" : "Strain by row";
        String words =
                bars.stream()
                        .map(
                                b ->
                                        spoken(b.name)
                                                + " "
                                                + percent(b.strain)
                                                + " in "
                                                + passes(b.passes))
                        .collect(Collectors.joining(", "));
        boolean stretch = shown.get(0).place() == Place.STRETCH;
        double step = bars.size() > 12 ? 14 : 18;
        double head = stretch ? 30 : 16;
        Drawing drawing =
                new Drawing(
                        230,
                        head + bars.size() * step + 8,
                        id,
                        title,
                        title + (stretch ? ", " + place : "") + ": " + words + ".");
        double most = bars.stream().mapToDouble(Bar::strain).max().orElse(1);
        double left = 70;
        double room = 70;
        if (stretch) {
            drawing.text("soft", 0, 11, place);
        }
        drawing.text("soft", 0, head - 5, ring ? "from rim" : "from edge")
                .text("soft", left + 2, head - 5, "strain")
                .text("soft n", 228, head - 5, "passes");
        for (int i = 0; i < bars.size(); i++) {
            Bar bar = bars.get(i);
            double y = head + i * step;
            double length = most > 0 ? room * bar.strain / most : 0;
            drawing.bar("fill-soft", left, y, length, step - 5)
                    .text("", 0, y + 11, bar.name)
                    .text("", left + length + 4, y + 11, percent(bar.strain))
                    .text("n", 228, y + 11, numbers.show(bar.passes));
        }
        drawing.line("thin", left, head - 2, left, head + bars.size() * step);
        return drawing.svg();
    }

    private String name(Row row) {
        return row.fromEdgeMm() == null ? "crown" : numbers.show(row.fromEdgeMm(), 0) + " mm";
    }

    private static String spoken(String name) {
        return switch (name) {
            case "0 mm" -> "at the edge";
            case "crown" -> name;
            default -> name + " from the edge";
        };
    }

    // Pass plan -----------------------------------------------------------------------------------

    /** Passes one after the other that the same holds back, within one cycle. */
    private record Run(Held held, int from, int to) {}

    private String course(FormedRows rows, PassCourse course, String place, String id) {
        List<Pass> passes = course.cycles().stream().flatMap(c -> c.passes().stream()).toList();
        int corrections = rows.correctionPasses();
        double most = passes.get(passes.size() - 1).to();
        List<Run> runs = runs(course);
        Drawing drawing =
                new Drawing(WIDE, 186, id, "Pass plan, " + place, words(place, course, runs, rows));
        double step = (RIGHT - LEFT) / (passes.size() + corrections);
        double scale = (FLOOR - TOP) / most;
        drawing.text("soft", 0, 11, "strain after each pass, " + place);
        drawing.line("thin", LEFT, TOP - 4, LEFT, FLOOR).line("thin", LEFT, FLOOR, RIGHT, FLOOR);
        drawing.line("dim", LEFT, TOP, RIGHT, TOP);
        drawing.text("n", LEFT - 4, TOP + 4, percent(most)).text("n", LEFT - 4, FLOOR, "0");
        drawing.path("ink", stairs(passes, corrections, step, scale));
        corrections(drawing, passes.size(), corrections, step);
        anneals(drawing, course, step, scale);
        runs.forEach(run -> band(drawing, run, step));
        legend(drawing, runs, course, corrections);
        return drawing.svg();
    }

    /** The level over a pass is the strain after it. */
    private static String stairs(List<Pass> passes, int corrections, double step, double scale) {
        StringBuilder path =
                new StringBuilder("M").append(Drawing.plain(LEFT)).append(' ').append(FLOOR);
        int every = (passes.size() + MOST_STAIRS - 1) / MOST_STAIRS;
        for (int i = 0; i < passes.size(); i += every) {
            int last = Math.min(i + every, passes.size()) - 1;
            path.append('V')
                    .append(Drawing.plain(FLOOR - passes.get(last).to() * scale))
                    .append('H')
                    .append(Drawing.plain(LEFT + (last + 1) * step));
        }
        if (corrections > 0) {
            path.append('H').append(Drawing.plain(LEFT + (passes.size() + corrections) * step));
        }
        return path.toString();
    }

    /** Each a mark through the level line: they put no strain in that counts. */
    private static void corrections(Drawing drawing, int passes, int corrections, double step) {
        for (int i = 0; i < corrections; i++) {
            double x = LEFT + (passes + i + 0.5) * step;
            drawing.line("ink", x, TOP - 5, x, TOP + 5);
        }
    }

    private static void anneals(Drawing drawing, PassCourse course, double step, double scale) {
        int done = 0;
        for (Cycle cycle : course.cycles().subList(0, course.anneals())) {
            done += cycle.passes().size();
            double x = LEFT + done * step;
            drawing.line("red", x, TOP - 8, x, BAND + 12);
            if (course.anneals() <= 6) {
                boolean before = x > LEFT + 50; // the stairs are low there
                drawing.text(before ? "warn n" : "warn", x + (before ? -4 : 4), TOP + 14, "anneal");
            }
        }
    }

    private static void band(Drawing drawing, Run run, double step) {
        box(drawing, run.held, LEFT + (run.from - 1) * step, BAND, (run.to - run.from + 1) * step);
    }

    /** Open where the bite holds, hatched where the stroke work does. */
    private static void box(Drawing drawing, Held held, double x, double y, double width) {
        double open =
                switch (held) {
                    case BITE, STATED -> width;
                    case BOTH -> width / 2;
                    case STROKE_WORK -> 0;
                };
        drawing.bar("open", x, y, width, 10);
        if (open < width) {
            drawing.hatched(x + open, y, width - open, 10);
        }
    }

    private void legend(Drawing drawing, List<Run> runs, PassCourse course, int corrections) {
        int passes = course.passes();
        drawing.text("n", LEFT - 4, BAND + 9, "held");
        drawing.text("soft", 0, 168, numbers.show(passes) + (passes == 1 ? " pass" : " passes"));
        if (corrections > 0) {
            drawing.text(
                    "soft n",
                    RIGHT,
                    168,
                    "then " + corrections + (corrections == 1 ? " correction" : " corrections"));
        }
        if (course.anneals() > 0) {
            drawing.text(
                    "warn m",
                    WIDE / 2 + 8,
                    168,
                    numbers.show(course.anneals())
                            + (course.anneals() == 1 ? " anneal" : " anneals"));
        }
        double x = 0;
        for (Held held : runs.stream().map(Run::held).distinct().sorted().toList()) {
            box(drawing, held, x, 175, 16);
            String label = label(held);
            drawing.text("", x + 20, 184, label);
            x += 30 + label.length() * 6.2;
        }
    }

    private static String label(Held held) {
        return switch (held) {
            case BITE -> "by the bite";
            case STROKE_WORK -> "by the stroke work";
            case BOTH -> "by both";
            case STATED -> "a stated strain per pass";
        };
    }

    private static List<Run> runs(PassCourse course) {
        List<Run> runs = new ArrayList<>();
        int number = 0;
        for (Cycle cycle : course.cycles()) {
            Run open = null;
            for (Pass pass : cycle.passes()) {
                number++;
                if (open != null && open.held == pass.held()) {
                    runs.set(runs.size() - 1, new Run(open.held, open.from, number));
                } else {
                    runs.add(new Run(pass.held(), number, number));
                }
                open = runs.get(runs.size() - 1);
            }
        }
        return runs;
    }

    private String words(String place, PassCourse course, List<Run> runs, FormedRows rows) {
        StringBuilder words =
                new StringBuilder("Pass plan, ")
                        .append(place)
                        .append(": ")
                        .append(passes(course.passes()))
                        .append(rows.rows().size() > 1 ? " of the outermost row to " : " to ")
                        .append(percent(rows.rows().get(rows.rows().size() - 1).strain()))
                        .append(" strain.");
        for (Run run : runs) {
            words.append(run.from == run.to ? " Pass " + run.from : " Passes ")
                    .append(run.from == run.to ? "" : run.from + " to " + run.to)
                    .append(run.held == Held.STATED ? ": " : " held ")
                    .append(label(run.held))
                    .append('.');
        }
        int done = 0;
        for (Cycle cycle : course.cycles().subList(0, course.anneals())) {
            done += cycle.passes().size();
            words.append(" Anneal ")
                    .append(done == 0 ? "before the first pass" : "after pass " + done)
                    .append('.');
        }
        if (rows.correctionPasses() > 0) {
            words.append(" Then ")
                    .append(rows.correctionPasses())
                    .append(
                            rows.correctionPasses() == 1
                                    ? " correction pass."
                                    : " correction passes.");
        }
        return words.toString();
    }

    private String passes(int passes) {
        return numbers.show(passes) + (passes == 1 ? " pass" : " passes");
    }

    private String percent(double strain) {
        return numbers.show(strain * 100, 1) + " %";
    }
}
