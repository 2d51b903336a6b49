package strokewright.takeoff;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimate.OwnTool;
import strokewright.estimate.Estimate.Plan;
import strokewright.estimate.Estimate.Visit;
import strokewright.web.Drawing;
import strokewright.web.Numbers;

/**
 * Tools and order of one item as a strip for each machine, read from the top: a tool is put in, and
 * below it stand the visits that are worked with it.
 */
final class ToolPlanPicture {

    /** Longer strips are no picture any more; what is left out is counted. */
    private static final int MOST_VISITS = 120;

    private static final double WIDE = 360;
    private static final double ROW = 21;
    private static final double GAP = 17;
    private static final int LETTERS = 54;

    private final Numbers numbers;

    ToolPlanPicture(Numbers numbers) {
        this.numbers = numbers;
    }

    /** Without forming there is no plan. */
    String of(Estimate estimate, Plan plan, String id) {
        List<Row> rows = rows(estimate, plan);
        double height = rows.stream().mapToDouble(Row::height).sum();
        Drawing drawing =
                new Drawing(
                        WIDE, height + 6, id, "Tools and order", spoken(rows) + exactness(plan));
        double y = 2;
        double toolFrom = 0;
        for (int i = 0; i < rows.size(); i++) {
            Row row = rows.get(i);
            switch (row.kind) {
                case MACHINE -> drawing.text("", 0, y + 14, cut(row.text, LETTERS));
                case CHANGE -> {
                    toolFrom = y;
                    drawing.line("ink", 0, y + 2, WIDE, y + 2);
                    drawing.text("strong", 14, y + 17, cut("Put in " + row.text, LETTERS));
                }
                case ANNEAL ->
                        drawing.line("red", 14, y + GAP / 2, 150, y + GAP / 2)
                                .text("warn", 156, y + GAP / 2 + 4, row.text);
                case VISIT -> {
                    drawing.bar("fill-tint", 14, y, WIDE - 15, ROW - 3);
                    int room = LETTERS - 2 - row.aside.length() - (row.aside.isEmpty() ? 0 : 2);
                    drawing.text("", 20, y + 13, cut(row.text, room));
                    drawing.text("soft n", WIDE - 6, y + 13, row.aside);
                }
                case REST -> drawing.text("soft", 14, y + 13, row.text);
            }
            y += row.height();
            boolean toolEnds = i + 1 == rows.size() || rows.get(i + 1).endsTool();
            if (toolEnds && row.kind != Kind.MACHINE) {
                drawing.bar("fill", 0, toolFrom + 2, 6, y - toolFrom - 6);
            }
        }
        return drawing.svg();
    }

    private enum Kind {
        MACHINE,
        CHANGE,
        ANNEAL,
        VISIT,
        REST
    }

    private record Row(Kind kind, String text, String aside) {
        double height() {
            return switch (kind) {
                case MACHINE -> 20;
                case ANNEAL -> GAP;
                case CHANGE -> 24;
                case VISIT, REST -> ROW;
            };
        }

        boolean endsTool() {
            return kind == Kind.CHANGE || kind == Kind.MACHINE;
        }
    }

    private List<Row> rows(Estimate estimate, Plan plan) {
        Map<String, List<Visit>> lanes = new LinkedHashMap<>();
        plan.visits()
                .forEach(v -> lanes.computeIfAbsent(v.machine(), m -> new ArrayList<>()).add(v));
        List<Row> rows = new ArrayList<>();
        int shown = 0;
        for (Map.Entry<String, List<Visit>> lane : lanes.entrySet()) {
            rows.add(new Row(Kind.MACHINE, lane.getKey(), ""));
            for (Visit visit : lane.getValue()) {
                if (shown++ >= MOST_VISITS) {
                    continue;
                }
                if (visit.change()) {
                    rows.add(new Row(Kind.CHANGE, visit.tool(), ""));
                }
                if (visit.annealed()) {
                    rows.add(new Row(Kind.ANNEAL, "annealed before this", ""));
                }
                rows.add(new Row(Kind.VISIT, name(estimate, visit), times(visit)));
            }
        }
        if (shown > MOST_VISITS) {
            int rest = shown - MOST_VISITS;
            rows.add(
                    new Row(
                            Kind.REST,
                            "and " + rest + (rest == 1 ? " more visit" : " more visits"),
                            ""));
        }
        return rows;
    }

    private static String name(Estimate estimate, Visit visit) {
        return estimate.operations().stream()
                .filter(l -> visit.part().equals(l.part()) && visit.position() == l.position())
                .findFirst()
                .map(Words::operation)
                .orElse(visit.part() + " " + visit.position());
    }

    private static String times(Visit visit) {
        return visit.visits() == 1 ? "" : "visit " + visit.visit() + " of " + visit.visits();
    }

    private static String spoken(List<Row> rows) {
        StringBuilder words = new StringBuilder();
        for (Row row : rows) {
            words.append(
                    switch (row.kind) {
                        case MACHINE -> "On " + row.text + ". ";
                        case CHANGE -> "Put in " + row.text + ". ";
                        case ANNEAL -> "Annealed. ";
                        case VISIT ->
                                row.text + (row.aside.isEmpty() ? ". " : ", " + row.aside + ". ");
                        case REST -> row.text + ". ";
                    });
        }
        return words.toString();
    }

    private static String cut(String text, int letters) {
        return text.length() <= letters ? text : text.substring(0, letters - 1) + "…";
    }

    private static String exactness(Plan plan) {
        return plan.exact()
                ? "Exact plan."
                : "Planned step by step: too many ways to look through all of them.";
    }

    // In words ------------------------------------------------------------------------------------

    /** What the strip cannot show. */
    List<String> words(Plan plan) {
        List<String> words = new ArrayList<>();
        words.add(
                numbers.show(plan.changes())
                        + (plan.changes() == 1 ? " tool put in" : " tools put in")
                        + " for one item, "
                        + minutes(plan.minutes())
                        + " with them, before allowance.");
        words.add(
                plan.exact()
                        ? "Exact plan: no other choice of tools and order takes fewer minutes."
                        : "Planned step by step: too many ways to look through all of them, so each"
                                + " time the tool whose change and slower work cost least for each"
                                + " visit that it can do next.");
        for (OwnTool own : plan.ownTools()) {
            words.add(
                    "Own choice at %s %d: %s takes %s, %s would take %s."
                            .formatted(
                                    own.part(),
                                    own.position(),
                                    own.tool(),
                                    minutes(own.minutes()),
                                    own.quickestTool(),
                                    minutes(own.quickestMinutes())));
        }
        if (plan.ownToolMinutes() != null) {
            words.add(
                    plan.ownToolMinutes() < 0.005
                            ? "Own choices of tools add no minutes."
                            : "Own choices of tools add "
                                    + minutes(plan.ownToolMinutes())
                                    + " to one item, tool changes included.");
        }
        return words;
    }

    private String minutes(double minutes) {
        return numbers.show(minutes, 1) + " min";
    }
}
