package strokewright.comparison;

import java.math.BigDecimal;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.comparison.JobComparison.Margin;
import strokewright.comparison.OwnerReport.Group;
import strokewright.comparison.OwnerReport.Hours;
import strokewright.comparison.OwnerReport.Won;
import strokewright.web.Drawing;
import strokewright.web.Numbers;

/** What the owner looks at, drawn: all bars of a kind have one scale. */
final class OwnerViews {

    private static final double WIDTH = 200;
    private static final double HEIGHT = 22;
    private static final double HOURS_LEFT = 130;
    private static final double HOURS_LONG = 260;
    private static final double HOURS_ROW = 24;

    /** What lost more than it was paid for is drawn no longer than this. */
    private static final double LOWEST = -100;

    private final Numbers numbers;
    private final OverWords words;
    private final double low;
    private final double high;
    private int drawn;

    OwnerViews(Numbers numbers, OwnerReport report) {
        this.numbers = numbers;
        this.words = new OverWords(numbers);
        List<Double> percents =
                Stream.of(report.works(), report.customers(), report.sizes())
                        .flatMap(List::stream)
                        .flatMap(g -> Stream.of(g.margin().quoted(), g.margin().earned()))
                        .map(OwnerViews::percent)
                        .toList();
        low = Math.min(0, percents.stream().mapToDouble(p -> p).min().orElse(0));
        high = Math.max(1, percents.stream().mapToDouble(p -> p).max().orElse(1));
    }

    /** Quoted above, earned below, in percent of the net price; a loss lies left of the line. */
    public String margins(Group group) {
        Drawing drawing =
                new Drawing(
                        WIDTH,
                        HEIGHT,
                        "margin-" + drawn++,
                        "Margin, " + group.name(),
                        "Quoted "
                                + said(group.margin().quoted())
                                + ", earned "
                                + said(group.margin().earned()));
        bar(drawing, group.margin().quoted(), 2, "fill-tint");
        bar(drawing, group.margin().earned(), 12, "fill");
        return drawing.line("ink", x(0), 0, x(0), HEIGHT).svg();
    }

    private void bar(Drawing drawing, Margin margin, double y, String look) {
        double to = x(percent(margin));
        if (margin.amount().amount().signum() < 0) {
            drawing.hatched(to, y, x(0) - to, 8);
        } else {
            drawing.bar(look, x(0), y, to - x(0), 8);
        }
    }

    private double x(double percent) {
        return 1 + (WIDTH - 2) * (percent - low) / (high - low);
    }

    private static double percent(Margin margin) {
        return margin.percent() == null ? 0 : Math.max(LOWEST, margin.percent().doubleValue());
    }

    private String said(Margin margin) {
        return margin.percent() == null ? "of nothing paid" : words.percent(margin.percent());
    }

    /**
     * Won, declined and lapsed, one after the other.
     *
     * @param most decided in any row
     */
    public String decided(Won won, int most) {
        Drawing drawing =
                new Drawing(
                        WIDTH,
                        12,
                        "won-" + drawn++,
                        "Decided, " + won.name(),
                        "Won %d, declined %d, lapsed %d"
                                .formatted(won.won(), won.declined(), won.lapsed()));
        double one = (WIDTH - 2) / Math.max(1, most);
        double declined = 1 + one * won.won();
        double lapsed = declined + one * won.declined();
        drawing.bar("fill", 1, 1, one * won.won(), 10)
                .bar("open", declined, 1, one * won.declined(), 10);
        if (won.lapsed() > 0) {
            drawing.hatched(lapsed, 1, one * won.lapsed(), 10);
        }
        return drawing.svg();
    }

    public int most(List<Won> rows) {
        return rows.stream().mapToInt(w -> w.won() + w.declined() + w.lapsed()).max().orElse(0);
    }

    private record Bar(String name, @Nullable BigDecimal hours, String look) {}

    /** Presence, what of it should be on jobs, and what was booked. */
    public String hours(Hours hours) {
        List<Bar> bars =
                Stream.of(
                                new Bar("Present", hours.presence(), "fill-tint"),
                                new Bar("Available for jobs", hours.available(), "open"),
                                new Bar("Booked on jobs", hours.onJobs(), "fill"),
                                new Bar("Booked on no job", hours.onNoJob(), "fill-soft"))
                        .filter(b -> b.hours != null)
                        .toList();
        double most = bars.stream().mapToDouble(b -> b.hours.doubleValue()).max().orElse(0);
        double scale = most == 0 ? 0 : HOURS_LONG / most;
        Drawing drawing =
                new Drawing(
                        HOURS_LEFT + HOURS_LONG + 72,
                        bars.size() * HOURS_ROW,
                        "hours",
                        "Hours",
                        bars.stream()
                                .map(b -> b.name + " " + numbers.show(b.hours, 1) + " h")
                                .collect(Collectors.joining(", ")));
        for (int i = 0; i < bars.size(); i++) {
            Bar bar = bars.get(i);
            double y = i * HOURS_ROW;
            double width = bar.hours.doubleValue() * scale;
            drawing.text("", 0, y + 16, bar.name)
                    .bar(bar.look, HOURS_LEFT, y + 4, width, 15)
                    .text("", HOURS_LEFT + width + 6, y + 16, numbers.show(bar.hours, 1) + " h");
        }
        return drawing.line("thin", HOURS_LEFT, 0, HOURS_LEFT, bars.size() * HOURS_ROW).svg();
    }
}
