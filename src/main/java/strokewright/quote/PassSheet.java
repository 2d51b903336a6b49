package strokewright.quote;

import static strokewright.office.Cell.number;
import static strokewright.office.Cell.text;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;
import strokewright.estimate.FormedRows;
import strokewright.estimate.ShopBook;
import strokewright.forming.PassCourse;
import strokewright.office.Cell;
import strokewright.office.Look;
import strokewright.office.Look.Align;
import strokewright.office.Sheet;
import strokewright.takeoff.Cautions;
import strokewright.takeoff.TakeOffView.PlanView;
import strokewright.takeoff.Words;
import strokewright.web.Numbers;

/**
 * How the items of a quote are made: tools in the order of their use, and for each operation the
 * passes of every row with checks and anneals. Shows no cost.
 */
final class PassSheet {

    private static final int LAST = 10;

    private static final Look STRONG = Look.PLAIN.inBold();
    private static final Look RIGHT = Look.PROSE.aligned(Align.RIGHT);
    private static final Look WHOLE = Look.number(0);
    private static final Look QUIET = Look.PROSE.quietly();

    private final Sheet sheet;
    private final ShopBook book;
    private int row;

    private PassSheet(Sheet sheet, ShopBook book) {
        this.sheet = sheet;
        this.book = book;
    }

    static void write(Sheet sheet, QuoteDocument quote, ShopBook book) {
        PassSheet made = new PassSheet(sheet, book);
        made.wide("Pass plan", STRONG.sized(14));
        made.wide(
                quote.number()
                        + ", revision "
                        + quote.revision()
                        + ". Of one piece; passes are of one edge, strokes and minutes of all"
                        + " repeats. What the metal does at the machine counts, not the plan.",
                QUIET);
        quote.items().forEach(made::item);
        sheet.widths(6, 40, 42, 16, 10, 9, 11, 16, 9, 10, 10);
        sheet.freeze(1, 0);
        sheet.repeat(0, 0);
        sheet.landscape();
        sheet.lock();
    }

    private void item(PricedItem item) {
        row++;
        wide(item.position() + ". " + item.title(), STRONG.sized(12).wrapped());
        if (item.estimate().plan() != null) {
            tools(item.estimate(), item.estimate().plan());
        }
        passes(item.estimate());
        cautions(item);
    }

    private void wide(String text, Look look) {
        sheet.across(row++, 0, LAST, text(text, look));
    }

    // Tools and order -----------------------------------------------------------------------------

    private void tools(Estimate estimate, Estimate.Plan plan) {
        heads("Step", "Tools and order", "Tool, machine", "Put in", "Before it", "Visit");
        int step = 1;
        for (Estimate.Visit visit : plan.visits()) {
            line(
                    number(step++, WHOLE.aligned(Align.LEFT)),
                    text(name(estimate, visit), Look.PROSE),
                    text(visit.tool() + ", " + visit.machine(), Look.PROSE),
                    text(visit.change() ? "put in" : "stays in", Look.PROSE),
                    text(visit.annealed() ? "anneal" : null, RIGHT),
                    text(
                            visit.visits() == 1 ? null : visit.visit() + " of " + visit.visits(),
                            RIGHT));
        }
        PlanView words = PlanView.of(estimate, "plan", Numbers.of(Locale.ENGLISH));
        Objects.requireNonNull(words).words().forEach(line -> wide(line, QUIET));
        row++;
    }

    private static String name(Estimate estimate, Estimate.Visit visit) {
        return estimate.operations().stream()
                .filter(l -> visit.part().equals(l.part()) && visit.position() == l.position())
                .findFirst()
                .map(Words::operation)
                .orElse(visit.part() + " " + visit.position());
    }

    // Passes --------------------------------------------------------------------------------------

    private void passes(Estimate estimate) {
        heads(
                "No.",
                "Operations",
                "Tool, machine or work centre",
                "Row",
                "Strain, %",
                "Passes",
                "Correction, tipping",
                "Anneals",
                "Checks",
                "Strokes",
                "Elapsed min");
        int no = 1;
        for (Estimate.Line line : estimate.operations()) {
            line(
                    number(no++, WHOLE.aligned(Align.LEFT)),
                    text(Words.operation(line), Look.PROSE.inBold()),
                    text(Words.tools(line), Look.PROSE),
                    text(null),
                    text(null),
                    text(null),
                    text(Words.furtherPasses(line), RIGHT),
                    number(line.anneals(), WHOLE),
                    number(line.checks(), WHOLE),
                    number(line.strokes(), WHOLE),
                    number(minutes(line), Look.number(2)));
            FormedRows.of(line).forEach(this::rows);
        }
    }

    private static double minutes(Estimate.Line line) {
        return line.override() == null ? line.machineMinutes() : line.override().minutes();
    }

    /** The inmost first, as they are counted. */
    private void rows(FormedRows formed) {
        List<FormedRows.Row> rows = formed.rows();
        for (int i = 0; i < rows.size(); i++) {
            FormedRows.Row at = rows.get(i);
            line(
                    text(null),
                    text(null),
                    text(i == 0 ? place(formed) : null, QUIET),
                    text(where(at), Look.PROSE),
                    number(at.strain() * 100, Look.number(2)),
                    number(at.passes(), WHOLE),
                    text(null),
                    text(i == rows.size() - 1 ? anneals(formed.course()) : null, RIGHT));
        }
    }

    private static String place(FormedRows formed) {
        return switch (formed.place()) {
            case EDGE -> "edge";
            case RIM -> "rim";
            case CROWN -> "crown";
            case STRETCH ->
                    formed.stretch() == null
                            ? "stretch"
                            : "stretch %d, %s"
                                    .formatted(formed.stretch().number(), formed.stretch().tool());
        };
    }

    private static String where(FormedRows.Row at) {
        if (at.fromEdgeMm() == null) {
            return "the whole of it";
        }
        return at.fromEdgeMm() == 0
                ? "at the edge"
                : Numbers.of(Locale.ENGLISH).show(at.fromEdgeMm(), 0) + " mm from it";
    }

    /** "after pass 6, 14"; passes of the outermost row. */
    private static @Nullable String anneals(@Nullable PassCourse course) {
        if (course == null || course.anneals() == 0) {
            return null;
        }
        List<Integer> after = new ArrayList<>();
        int passes = 0;
        for (PassCourse.Cycle cycle : course.cycles().subList(0, course.anneals())) {
            passes += cycle.passes().size();
            after.add(passes);
        }
        return after.get(0) == 0 && after.size() == 1
                ? "before the first"
                : after.stream()
                        .map(String::valueOf)
                        .collect(Collectors.joining(", ", "after ", ""));
    }

    // Cautions ------------------------------------------------------------------------------------

    private void cautions(PricedItem item) {
        var found = Cautions.of(item.takeOff(), item.estimate(), book);
        if (found.isEmpty()) {
            return;
        }
        row++;
        sheet.across(row++, 0, LAST, text("Cautions", Look.HEAD));
        found.keySet().forEach(c -> wide(c.title() + ": " + c.text(), Look.PROSE));
        wide(
                "They remind of the usual; the machine's manual, local codes and licensed practice"
                        + " decide.",
                QUIET);
    }

    private void heads(String... heads) {
        row++;
        List<Cell> cells = new ArrayList<>();
        for (String head : heads) {
            cells.add(text(head, cells.size() < 4 ? Look.HEAD : Look.HEAD.aligned(Align.RIGHT)));
        }
        line(cells.toArray(Cell[]::new));
    }

    private void line(Cell... cells) {
        sheet.put(row++, 0, List.of(cells));
    }
}
