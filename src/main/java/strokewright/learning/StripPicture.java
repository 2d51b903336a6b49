package strokewright.learning;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import strokewright.estimate.ShopBook;
import strokewright.learning.StripFit.Compared;
import strokewright.learning.TestStrips.Strip;
import strokewright.web.Drawing;
import strokewright.web.Numbers;

/** One strip: strokes over strain as they were noted, on the curve that the fit makes of them. */
final class StripPicture {

    private static final double WIDTH = 460;
    private static final double HEIGHT = 300;
    private static final double LEFT = 52;
    private static final double RIGHT = 14;
    private static final double TOP = 26;
    private static final double BOTTOM = 44;
    private static final int STEPS = 120;
    private static final double ROOM_FOR_WORDS = 105;

    private final TestStrips notes;
    private final StripFit fit;
    private final ShopBook book;
    private final Numbers numbers;
    private final int at;
    private final List<Compared> readings;
    private final double mostStrain;
    private final double mostStrokes;

    private StripPicture(TestStrips notes, StripFit fit, ShopBook book, Numbers numbers, int at) {
        this.notes = notes;
        this.fit = fit;
        this.book = book;
        this.numbers = numbers;
        this.at = at;
        this.readings = fit.readings().stream().filter(r -> r.strip() == at).toList();
        this.mostStrain = 1.05 * readings.stream().mapToDouble(Compared::strain).max().orElse(0.1);
        this.mostStrokes =
                1.08
                        * readings.stream()
                                .mapToDouble(r -> Math.max(r.strokes(), r.fittedStrokes()))
                                .max()
                                .orElse(1);
    }

    /**
     * @param book the edition that the fit was made with
     * @param at which strip
     */
    static String of(TestStrips notes, StripFit fit, ShopBook book, Numbers numbers, int at) {
        return new StripPicture(notes, fit, book, numbers, at).draw();
    }

    private String draw() {
        Drawing drawing =
                new Drawing(
                        WIDTH, HEIGHT, "strip-" + (at + 1), "Strokes over strain", description());
        axes(drawing);
        if (fit.biteStrain() != null) {
            curve(drawing);
        }
        for (Compared r : readings) {
            drawing.arc("ink", x(r.strain()), y(r.strokes()), 4, 0, 360);
        }
        return drawing.svg();
    }

    private String description() {
        return "Strip "
                + (at + 1)
                + ": "
                + readings.size()
                + " readings up to a strain of "
                + percent(readings.isEmpty() ? 0 : readings.get(readings.size() - 1).strain())
                + (fit.biteStrain() == null ? "." : ", on the fitted curve; " + parted() + ".");
    }

    private String parted() {
        double parting = parting();
        return parting >= mostStrain
                ? "the bite holds all of it"
                : parting <= 0
                        ? "the stroke work holds all of it"
                        : "the bite holds it up to "
                                + percent(parting)
                                + ", the stroke work from there on";
    }

    private void axes(Drawing drawing) {
        double bottom = HEIGHT - BOTTOM;
        for (double strain : marks(mostStrain)) {
            drawing.line("dim", x(strain), bottom, x(strain), bottom + 4);
            drawing.text("m", x(strain), bottom + 18, numbers.show(100 * strain));
        }
        for (double strokes : marks(mostStrokes)) {
            drawing.line("dim", LEFT - 4, y(strokes), LEFT, y(strokes));
            drawing.text("n", LEFT - 8, y(strokes) + 4, numbers.show(strokes));
        }
        drawing.line("thin", LEFT, TOP, LEFT, bottom)
                .line("thin", LEFT, bottom, WIDTH - RIGHT, bottom)
                .text("n soft", WIDTH - RIGHT, HEIGHT - 6, "strain of the edge, %")
                .text("soft", 4, 14, "strokes");
    }

    private void curve(Drawing drawing) {
        double parting = Math.max(0, Math.min(mostStrain, parting()));
        if (parting > 0) {
            drawing.path("accent", between(0, parting));
        }
        if (parting < mostStrain) {
            drawing.path("accent dashed", between(parting, mostStrain));
        }
        if (parting > 0 && parting < mostStrain) {
            drawing.line("centre", x(parting), TOP - 4, x(parting), HEIGHT - BOTTOM);
        }
        words(drawing, 0, parting, "held by the bite");
        words(drawing, parting, mostStrain, "held by the work");
    }

    private void words(Drawing drawing, double from, double to, String words) {
        if (x(to) - x(from) > ROOM_FOR_WORDS) {
            drawing.text("m soft", (x(from) + x(to)) / 2, 14, words);
        }
    }

    private String between(double from, double to) {
        StringBuilder data = new StringBuilder();
        for (int i = 0; i <= STEPS; i++) {
            double strain = from + (to - from) * i / STEPS;
            double strokes = strain <= 0 ? 0 : at(strain).strokesBy(fit.modelBite(), modelWork());
            data.append(i == 0 ? "M" : "L")
                    .append(String.format(Locale.ROOT, "%.2f", x(strain)))
                    .append(' ')
                    .append(String.format(Locale.ROOT, "%.2f", y(strokes)));
        }
        return data.toString();
    }

    private double parting() {
        return at(mostStrain).partingStrain(fit.modelBite(), modelWork());
    }

    private double modelWork() {
        ShopBook.Tool tool = book.tool(notes.tool()).orElseThrow();
        return fit.modelWork(tool);
    }

    /** The strip at the radius where its edge has this strain. */
    private Observed at(double strain) {
        Strip strip = notes.strips().get(at);
        double h = strip.heightMm();
        double start = strip.startRadiusMm() == null ? 0 : h / strip.startRadiusMm();
        double radius =
                strip.shrinks()
                        ? h / (1 - (1 - start) * Math.exp(-strain))
                        : h / ((1 + start) * Math.exp(strain) - 1);
        return Observed.at(notes, at, 0, radius, book);
    }

    /** Round figures, about five of them. */
    private static List<Double> marks(double most) {
        double rough = most / 5;
        double ten = Math.pow(10, Math.floor(Math.log10(rough)));
        double step =
                rough / ten < 1.5
                        ? ten
                        : rough / ten < 3.5 ? 2 * ten : rough / ten < 7.5 ? 5 * ten : 10 * ten;
        List<Double> marks = new ArrayList<>();
        for (int i = 0; i * step <= most; i++) {
            marks.add(i * step);
        }
        return marks;
    }

    private double x(double strain) {
        return LEFT + (WIDTH - LEFT - RIGHT) * strain / mostStrain;
    }

    private double y(double strokes) {
        return HEIGHT - BOTTOM - (HEIGHT - BOTTOM - TOP) * strokes / mostStrokes;
    }

    private String percent(double share) {
        return numbers.show(100 * share, 1) + " %";
    }
}
