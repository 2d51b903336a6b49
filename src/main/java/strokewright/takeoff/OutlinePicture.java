package strokewright.takeoff;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.springframework.web.util.HtmlUtils;
import strokewright.estimate.Estimate;
import strokewright.estimate.LaidOutline;
import strokewright.estimate.LaidOutline.Worked;
import strokewright.forming.Outline;
import strokewright.forming.Stretch;
import strokewright.web.Drawing;
import strokewright.web.Numbers;

/**
 * An outline to scale with the strain on it: the more strain the broader the line, whole where it
 * is shrunk and broken where it is stretched, so that print and every eye can tell them apart.
 */
final class OutlinePicture {

    private static final double WIDTH = 320;
    private static final double TALLEST = 270;
    private static final double MARGIN = 30;
    private static final int MOST_STEPS = 4;
    private static final double CLOSEST = 1.2;
    private static final double AWAY = 17;
    private static final double LEAST_ROOM = 8;
    private static final int DIRECTIONS = 16;
    private static final double SAMPLES_APART = 3;
    private static final int MOST_TOLD = 12;
    private static final int MOST_LABELS = 100;

    private final LaidOutline laid;
    private final Estimate.Outlined outlined;
    private final Numbers numbers;
    private final List<List<Worked>> runs;
    private final double step;
    private final double scale;
    private final double left;
    private final double top;
    private final double height;

    /** Places that a label keeps away from: the line itself and other labels. */
    private final List<double[]> taken = new ArrayList<>();

    private OutlinePicture(LaidOutline laid, Estimate.Outlined outlined, Numbers numbers) {
        this.laid = laid;
        this.outlined = outlined;
        this.numbers = numbers;
        this.runs = laid.bits();
        double x0 = Double.POSITIVE_INFINITY;
        double y0 = Double.POSITIVE_INFINITY;
        double x1 = Double.NEGATIVE_INFINITY;
        double y1 = Double.NEGATIVE_INFINITY;
        double most = 0;
        for (List<Worked> run : runs) {
            for (Worked worked : run) {
                Outline.Bit bit = worked.bit();
                x0 = Math.min(x0, Math.min(bit.x(), bit.toX()));
                x1 = Math.max(x1, Math.max(bit.x(), bit.toX()));
                y0 = Math.min(y0, Math.min(bit.y(), bit.toY()));
                y1 = Math.max(y1, Math.max(bit.y(), bit.toY()));
                if (Double.isFinite(worked.strain())) {
                    most = Math.max(most, worked.strain());
                }
            }
        }
        this.step = step(most);
        double wide = Math.max(x1 - x0, 1e-6);
        double high = Math.max(y1 - y0, 1e-6);
        this.scale = Math.min((WIDTH - 2 * MARGIN) / wide, (TALLEST - 2 * MARGIN) / high);
        this.height = high * scale + 2 * MARGIN;
        this.left = (WIDTH - wide * scale) / 2 - x0 * scale;
        this.top = MARGIN - y0 * scale;
        runs.forEach(run -> run.forEach(worked -> sample(worked.bit())));
    }

    private void sample(Outline.Bit bit) {
        double x = x(bit.x());
        double y = y(bit.y());
        double alongX = x(bit.toX()) - x;
        double alongY = y(bit.toY()) - y;
        int pieces = (int) Math.ceil(Math.hypot(alongX, alongY) / SAMPLES_APART);
        for (int i = 0; i < pieces; i++) {
            double[] place = {x + alongX * i / pieces, y + alongY * i / pieces};
            double[] last = taken.isEmpty() ? null : taken.get(taken.size() - 1);
            if (last == null
                    || Math.hypot(last[0] - place[0], last[1] - place[1]) >= SAMPLES_APART / 2) {
                taken.add(place);
            }
        }
    }

    /** With a caption in words, as a figure. */
    static String of(LaidOutline laid, Estimate.Outlined outlined, Numbers numbers, String id) {
        OutlinePicture picture = new OutlinePicture(laid, outlined, numbers);
        return "<figure class=\"picture outline\">"
                + picture.svg(id)
                + "<figcaption>"
                + HtmlUtils.htmlEscape(picture.words(), "UTF-8")
                + "</figcaption></figure>";
    }

    /** So that the strongest strain falls into the last of at most four equal classes. */
    private static double step(double most) {
        if (!(most > 0)) {
            return 0.01;
        }
        double least = most / MOST_STEPS;
        double power = Math.pow(10, Math.floor(Math.log10(least)));
        for (double factor : new double[] {1, 1.5, 2, 2.5, 3, 4, 5, 6, 8}) {
            if (factor * power >= least) {
                return factor * power;
            }
        }
        return 10 * power;
    }

    private int classOf(double strain) {
        return Math.max(1, Math.min(MOST_STEPS, (int) Math.ceil(strain / step - 1e-9)));
    }

    private String look(Worked worked) {
        if (worked.stretch() == 0) {
            return "outline-straight";
        }
        if (!Double.isFinite(worked.strain())) {
            return "outline-tight";
        }
        return look(shrinks(worked), classOf(worked.strain()));
    }

    private static String look(boolean shrinks, int strong) {
        return (shrinks ? "outline-shrink strong-" : "outline-stretch strong-") + strong;
    }

    private boolean shrinks(Worked worked) {
        return laid.stretches().get(worked.stretch() - 1).shrink();
    }

    // Drawing ---------------------------------------------------------------------------------

    private String svg(String id) {
        Set<String> looks = new TreeSet<>();
        runs.forEach(run -> run.forEach(worked -> looks.add(look(worked))));
        boolean shrinks = looks.stream().anyMatch(l -> l.startsWith("outline-shrink"));
        boolean stretches = looks.stream().anyMatch(l -> l.startsWith("outline-stretch"));
        boolean tight = looks.contains("outline-tight");
        double rows = (shrinks ? 1 : 0) + (stretches ? 1 : 0) + (tight ? 1 : 0);
        Drawing drawing =
                new Drawing(
                        WIDTH,
                        height + 26 + 22 * rows,
                        id,
                        "Outline with its strain",
                        "Outline to scale. " + words());
        for (List<Worked> run : runs) {
            line(drawing, run);
        }
        corners(drawing);
        numbers(drawing);
        double y = height + 10;
        scaleBar(drawing, y);
        y += 26;
        if (shrinks) {
            legend(drawing, "shrinks to", true, looks, y);
            y += 22;
        }
        if (stretches) {
            legend(drawing, "stretches to", false, looks, y);
            y += 22;
        }
        if (tight) {
            drawing.text("soft", 0, y + 4, "too tight for this flange");
            drawing.line("outline-tight", 160, y, 200, y);
        }
        return drawing.svg();
    }

    private double x(double mm) {
        return left + mm * scale;
    }

    private double y(double mm) {
        return top + mm * scale;
    }

    /** Bits of one look as one line; points closer than can be seen are left out. */
    private void line(Drawing drawing, List<Worked> run) {
        int i = 0;
        while (i < run.size()) {
            String look = look(run.get(i));
            StringBuilder data = new StringBuilder("M" + place(run.get(i).bit(), false));
            double lastX = x(run.get(i).bit().x());
            double lastY = y(run.get(i).bit().y());
            while (i < run.size() && look(run.get(i)).equals(look)) {
                Outline.Bit bit = run.get(i).bit();
                boolean last = i + 1 == run.size() || !look(run.get(i + 1)).equals(look);
                if (last || Math.hypot(x(bit.toX()) - lastX, y(bit.toY()) - lastY) > CLOSEST) {
                    data.append('L').append(place(bit, true));
                    lastX = x(bit.toX());
                    lastY = y(bit.toY());
                }
                i++;
            }
            drawing.path(look, data.toString());
        }
    }

    private String place(Outline.Bit bit, boolean end) {
        return String.format(
                Locale.ROOT,
                "%.2f %.2f",
                x(end ? bit.toX() : bit.x()),
                y(end ? bit.toY() : bit.y()));
    }

    private void corners(Drawing drawing) {
        int number = 0;
        for (Outline.Corner corner : laid.outline().corners()) {
            number++;
            double x = x(corner.x());
            double y = y(corner.y());
            drawing.bar("outline-corner", x - 3.5, y - 3.5, 7, 7);
            if (number <= MOST_LABELS) {
                label(drawing, "C" + number, corner.x(), corner.y());
            }
        }
    }

    /** Each stretch's number where it is half done. */
    private void numbers(Drawing drawing) {
        Map<Integer, List<Outline.Bit>> bits = new TreeMap<>();
        for (List<Worked> run : runs) {
            for (Worked worked : run) {
                if (worked.stretch() > 0 && worked.stretch() <= MOST_LABELS) {
                    bits.computeIfAbsent(worked.stretch(), n -> new ArrayList<>())
                            .add(worked.bit());
                }
            }
        }
        bits.forEach(
                (number, of) -> {
                    Outline.Bit middle = of.get(of.size() / 2);
                    label(drawing, String.valueOf(number), middle.x(), middle.y());
                });
    }

    /** On whichever side there is most room; not at all where there is none. */
    private void label(Drawing drawing, String text, double atX, double atY) {
        double[] best = null;
        double most = LEAST_ROOM;
        for (int direction = 0; direction < DIRECTIONS; direction++) {
            double angle = 2 * Math.PI * direction / DIRECTIONS;
            double x = x(atX) + AWAY * Math.cos(angle);
            double y = y(atY) + AWAY * Math.sin(angle);
            double room =
                    taken.stream()
                            .mapToDouble(t -> Math.hypot(t[0] - x, t[1] - y))
                            .min()
                            .orElse(AWAY);
            if (room > most + 0.5) {
                most = room;
                best = new double[] {x, y};
            }
        }
        if (best != null) {
            taken.add(best);
            drawing.text("m strong", best[0], best[1] + 4, text);
        }
    }

    private void scaleBar(Drawing drawing, double y) {
        double room = WIDTH / 3 / scale;
        double length = Math.pow(10, Math.floor(Math.log10(room)));
        for (double factor : new double[] {5, 2}) {
            if (factor * length <= room) {
                length *= factor;
                break;
            }
        }
        double end = length * scale;
        drawing.line("ink", 1, y, 1 + end, y)
                .line("ink", 1, y - 4, 1, y + 4)
                .line("ink", 1 + end, y - 4, 1 + end, y + 4)
                .text("", 7 + end, y + 4, numbers.show(length) + " mm");
    }

    private void legend(Drawing drawing, String word, boolean shrink, Set<String> looks, double y) {
        drawing.text("", 0, y + 4, word);
        double x = 76;
        for (int i = 1; i <= MOST_STEPS; i++) {
            if (looks.contains(look(shrink, i))) {
                drawing.line(look(shrink, i), x, y, x + 20, y);
                drawing.text("", x + 25, y + 4, percent(i * step));
                x += 62;
            }
        }
    }

    // Words -----------------------------------------------------------------------------------

    private String words() {
        StringBuilder words = new StringBuilder("Outline ");
        words.append(mm(outlined.lengthMm()));
        if (laid.outline().runs().size() > 1) {
            words.append(" in ").append(laid.outline().runs().size()).append(" parts");
        }
        words.append(". ");
        List<String> stretches = new ArrayList<>();
        int told = Math.min(MOST_TOLD, laid.stretches().size());
        for (int i = 0; i < told; i++) {
            stretches.add(stretch(i));
        }
        if (!stretches.isEmpty()) {
            words.append(String.join("; ", stretches));
            int more = laid.stretches().size() - told;
            words.append(more > 0 ? "; and " + more + " more. " : ". ");
        }
        List<Outline.Corner> corners = laid.outline().corners();
        if (!corners.isEmpty()) {
            words.append(corners.size() == 1 ? "Corner, " : "Corners, ")
                    .append("to fold or to join: ")
                    .append(
                            IntStream.range(0, Math.min(corners.size(), MOST_TOLD))
                                    .mapToObj(i -> corner(i + 1, corners.get(i)))
                                    .collect(Collectors.joining(", ")))
                    .append(
                            corners.size() > MOST_TOLD
                                    ? ", and " + (corners.size() - MOST_TOLD) + " more."
                                    : ".");
        }
        return words.toString().strip();
    }

    private String corner(int number, Outline.Corner corner) {
        return "C"
                + number
                + " turns "
                + numbers.show(Math.abs(Math.toDegrees(corner.angle())), 0)
                + "°";
    }

    /** As the estimate has it; a stretch that is refused has no passes there. */
    private String stretch(int index) {
        Stretch stretch = laid.stretches().get(index);
        int number = index + 1;
        String begins =
                number
                        + (stretch.shrink() ? ": shrinks over " : ": stretches over ")
                        + mm(stretch.bentMm())
                        + ", tightest R "
                        + numbers.show(1 / stretch.tightest(), 0);
        return outlined.stretches().stream()
                .filter(s -> s.number() == number)
                .findFirst()
                .map(s -> begins + ", strain " + percent(most(s.strains())) + ", " + passes(s))
                .orElse(begins + ", too tight for this flange");
    }

    private static double most(List<Double> strains) {
        return strains.isEmpty() ? 0 : strains.get(strains.size() - 1);
    }

    private static String passes(Estimate.Stretched stretch) {
        int passes = stretch.passes().stream().mapToInt(p -> p).max().orElse(0);
        return passes + (passes == 1 ? " pass" : " passes");
    }

    private String mm(double value) {
        return numbers.show(value, 0) + " mm";
    }

    private String percent(double strain) {
        return numbers.show(Math.round(strain * 1000) / 10.0) + " %";
    }
}
