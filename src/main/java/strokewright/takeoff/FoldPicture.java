package strokewright.takeoff;

import java.util.ArrayList;
import java.util.List;
import strokewright.estimate.Estimate.Bent;
import strokewright.estimate.Estimate.Folded;
import strokewright.estimate.TakeOff.Fold;
import strokewright.estimate.TakeOff.FoldBend;
import strokewright.estimate.TakeOff.Way;
import strokewright.web.Drawing;
import strokewright.web.Numbers;

/** A folded part seen from its end, and the blank that it is folded from with its bend lines. */
public final class FoldPicture {

    private static final double WIDE = 340;
    private static final double PROFILE_ROOM = 150;
    private static final double MARGIN = 40;

    /** Sheet is drawn at least this thick, or its two faces run together. */
    private static final double LEAST_DRAWN = 3.2;

    private static final double DEGREES_A_STEP = 4;

    /** With more of them the figures run into each other; the words beside it have them all. */
    private static final int MOST_NAMED = 8;

    private static final double LEFT = 26;
    private static final double BLANK_ROOM = 252;
    private static final double FIGURE_ROOM = 30;
    private static final double ROW = 11;

    private final Numbers numbers;

    public FoldPicture(Numbers numbers) {
        this.numbers = numbers;
    }

    // Profile ---------------------------------------------------------------------------------

    private record Point(double x, double y) {}

    /**
     * @param heading where the centre line goes here, radians against the clock
     */
    private record Step(Point at, double heading) {}

    /** Centre line of the sheet, with the middle of every leg and of every bend. */
    private record Line(List<Step> steps, List<Step> legs, List<Step> bends) {

        double low(java.util.function.ToDoubleFunction<Point> of) {
            return steps.stream().map(Step::at).mapToDouble(of).min().orElse(0);
        }

        double high(java.util.function.ToDoubleFunction<Point> of) {
            return steps.stream().map(Step::at).mapToDouble(of).max().orElse(0);
        }
    }

    public String profile(Fold fold, Folded folded, double thicknessMm, String id) {
        Line line = line(fold, folded, thicknessMm);
        double wide = Math.max(line.high(Point::x) - line.low(Point::x), 1e-6);
        double tall = Math.max(line.high(Point::y) - line.low(Point::y), 1e-6);
        double scale = Math.min((WIDE - 2 * MARGIN) / wide, PROFILE_ROOM / tall);
        double height = Math.max(tall * scale, 24) + 2 * MARGIN;
        Drawing drawing = new Drawing(WIDE, height, id, "Folded profile", profileWords(fold));
        double left = (WIDE - wide * scale) / 2 - line.low(Point::x) * scale;
        double down = (height + tall * scale) / 2 + line.low(Point::y) * scale;
        double half = Math.max(thicknessMm * scale, LEAST_DRAWN) / 2;
        List<Point> outline = new ArrayList<>();
        for (Step step : line.steps) {
            outline.add(beside(step, scale, left, down, half));
        }
        for (int i = line.steps.size() - 1; i >= 0; i--) {
            outline.add(beside(line.steps.get(i), scale, left, down, -half));
        }
        drawing.path("thin", path(outline));
        if (fold.bends().size() <= MOST_NAMED) {
            name(drawing, fold, line, scale, left, down);
        }
        return drawing.svg();
    }

    private static Line line(Fold fold, Folded folded, double thicknessMm) {
        List<Step> steps = new ArrayList<>();
        List<Step> legs = new ArrayList<>();
        List<Step> bends = new ArrayList<>();
        double x = 0;
        double y = 0;
        double heading = 0;
        steps.add(new Step(new Point(x, y), heading));
        for (int i = 0; i < fold.legsMm().size(); i++) {
            double flat = Math.max(0, flat(fold, folded, i));
            legs.add(
                    new Step(
                            new Point(
                                    x + flat / 2 * Math.cos(heading),
                                    y + flat / 2 * Math.sin(heading)),
                            heading));
            x += flat * Math.cos(heading);
            y += flat * Math.sin(heading);
            steps.add(new Step(new Point(x, y), heading));
            if (i == fold.bends().size()) {
                break;
            }
            FoldBend bend = fold.bends().get(i);
            double turn = 180 - bend.openingDeg();
            int pieces = Math.max(1, (int) Math.ceil(turn / DEGREES_A_STEP));
            double each = Math.toRadians(turn) / pieces * (bend.way() == Way.UP ? 1 : -1);
            double chord = 2 * (bend.radiusMm() + thicknessMm / 2) * Math.sin(Math.abs(each) / 2);
            for (int piece = 0; piece < pieces; piece++) {
                x += chord * Math.cos(heading + each / 2);
                y += chord * Math.sin(heading + each / 2);
                heading += each;
                steps.add(new Step(new Point(x, y), heading));
                if (piece == (pieces - 1) / 2) {
                    bends.add(new Step(new Point(x, y), heading));
                }
            }
        }
        return new Line(steps, legs, bends);
    }

    /** What is straight of a leg. */
    private static double flat(Fold fold, Folded folded, int leg) {
        double before = leg == 0 ? 0 : folded.bends().get(leg - 1).setbackMm();
        double behind = leg == fold.bends().size() ? 0 : folded.bends().get(leg).setbackMm();
        return fold.legsMm().get(leg) - before - behind;
    }

    /** On the page, so many points to the left of the way along the line. */
    private static Point beside(
            Step step, double scale, double left, double down, double toTheLeft) {
        return new Point(
                left + step.at.x * scale - toTheLeft * Math.sin(step.heading),
                down - step.at.y * scale - toTheLeft * Math.cos(step.heading));
    }

    private static String path(List<Point> points) {
        StringBuilder path = new StringBuilder();
        for (Point point : points) {
            path.append(path.isEmpty() ? 'M' : 'L')
                    .append(Drawing.plain(point.x))
                    .append(' ')
                    .append(Drawing.plain(point.y));
        }
        return path.append('Z').toString();
    }

    /** Legs outside, angles inside their bend. */
    private void name(
            Drawing drawing, Fold fold, Line line, double scale, double left, double down) {
        for (int i = 0; i < fold.legsMm().size(); i++) {
            boolean up = fold.bends().get(Math.min(i, fold.bends().size() - 1)).way() == Way.UP;
            Point at = beside(line.legs.get(i), scale, left, down, up ? -14 : 14);
            drawing.text("m", at.x, at.y + 4, numbers.show(fold.legsMm().get(i)));
        }
        for (int i = 0; i < fold.bends().size(); i++) {
            FoldBend bend = fold.bends().get(i);
            double away = bend.radiusMm() * scale * 0.4 + 20;
            Point at =
                    beside(
                            line.bends.get(i),
                            scale,
                            left,
                            down,
                            bend.way() == Way.UP ? away : -away);
            drawing.text("m soft", at.x, at.y + 4, numbers.show(bend.openingDeg()) + "°");
        }
    }

    private String profileWords(Fold fold) {
        StringBuilder words = new StringBuilder("Seen from the end: a leg of ");
        words.append(mm(fold.legsMm().get(0)));
        for (int i = 0; i < fold.bends().size(); i++) {
            FoldBend bend = fold.bends().get(i);
            words.append(", then ")
                    .append(bend.way() == Way.UP ? "up" : "down")
                    .append(", opening ")
                    .append(numbers.show(bend.openingDeg()))
                    .append("°, inside radius ")
                    .append(mm(bend.radiusMm()))
                    .append(", to a leg of ")
                    .append(mm(fold.legsMm().get(i + 1)));
        }
        return words.append(". Legs are measured outside.").toString();
    }

    // Blank -----------------------------------------------------------------------------------

    /** The bend lines are in proportion across the blank; along it room is saved. */
    public String blank(Folded folded, String id) {
        double scale = BLANK_ROOM / folded.developedMm();
        double tall = Math.min(110, Math.max(36, folded.lengthMm() * scale));
        List<Integer> rows = rows(folded, scale);
        double top = 12 + ROW * (1 + rows.stream().mapToInt(r -> r).max().orElse(0));
        Drawing drawing =
                new Drawing(WIDE, top + tall + 34, id, "Developed blank", blankWords(folded));
        for (int i = 0; i < folded.bends().size(); i++) {
            double x = LEFT + folded.bends().get(i).lineMm() * scale;
            drawing.line("centre", x, top - 3, x, top + tall + 3);
            if (folded.bends().size() <= MOST_NAMED) {
                drawing.text("m", x, top - 6 - ROW * rows.get(i), round(folded.bends().get(i)));
            }
        }
        double bottom = top + tall;
        drawing.path(
                "ink",
                "M%s %sh%sv%sh-%sZ"
                        .formatted(
                                Drawing.plain(LEFT),
                                Drawing.plain(top),
                                Drawing.plain(BLANK_ROOM),
                                Drawing.plain(tall),
                                Drawing.plain(BLANK_ROOM)));
        drawing.line("dim", LEFT, bottom + 3, LEFT, bottom + 22)
                .line("dim", LEFT + BLANK_ROOM, bottom + 3, LEFT + BLANK_ROOM, bottom + 22);
        drawing.dimension(
                LEFT, bottom + 18, LEFT + BLANK_ROOM, bottom + 18, show(folded.developedMm()));
        drawing.dimension(
                LEFT + BLANK_ROOM + 12,
                top,
                LEFT + BLANK_ROOM + 12,
                bottom,
                show(folded.lengthMm()));
        return drawing.svg();
    }

    /** Figures that would run into each other stand one above the other. */
    private static List<Integer> rows(Folded folded, double scale) {
        List<Integer> rows = new ArrayList<>();
        if (folded.bends().size() > MOST_NAMED) {
            return rows;
        }
        for (int i = 0; i < folded.bends().size(); i++) {
            boolean near =
                    i > 0
                            && (folded.bends().get(i).lineMm() - folded.bends().get(i - 1).lineMm())
                                            * scale
                                    < FIGURE_ROOM;
            rows.add(near ? rows.get(i - 1) + 1 : 0);
        }
        return rows;
    }

    private String blankWords(Folded folded) {
        StringBuilder words =
                new StringBuilder("Flat blank of ")
                        .append(mm(folded.lengthMm()))
                        .append(" along the bends by ")
                        .append(show(folded.developedMm()))
                        .append(" mm across them; bend lines from the edge of the first leg: ");
        for (int i = 0; i < folded.bends().size(); i++) {
            words.append(i == 0 ? "" : ", ").append(round(folded.bends().get(i)));
        }
        return words.append(" mm.").toString();
    }

    private String round(Bent bend) {
        return numbers.show(Math.round(bend.lineMm() * 10) / 10.0);
    }

    private String mm(double value) {
        return show(value) + " mm";
    }

    private String show(double value) {
        return numbers.show(Math.round(value * 100) / 100.0);
    }
}
