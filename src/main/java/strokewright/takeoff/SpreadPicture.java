package strokewright.takeoff;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.DoubleStream;
import strokewright.takeoff.Spreading.Band;
import strokewright.web.Drawing;
import strokewright.web.Numbers;

/**
 * Where hours, cost and price of one quantity come to lie four times in five, each on a scale of
 * its own, with the net price as a line across the cost: what is hatched behind it is a loss.
 */
final class SpreadPicture {

    private static final double WIDTH = 420;
    private static final double LEFT = 72;
    private static final double RIGHT = 348;
    private static final double LANE = 92;
    private static final double BAND = 16;
    private static final double LEGEND = 62;

    private final Numbers numbers;
    private final Drawing drawing;
    private final double low;
    private final double high;
    private final double top;
    private final int decimals;

    private SpreadPicture(
            Numbers numbers, Drawing drawing, double top, int decimals, DoubleStream values) {
        this.numbers = numbers;
        this.drawing = drawing;
        this.top = top;
        this.decimals = decimals;
        double[] all = values.toArray();
        this.low = DoubleStream.of(all).min().orElse(0);
        double most = DoubleStream.of(all).max().orElse(1);
        this.high = most > low ? most : low + 1;
    }

    static String of(Spreading spread, Numbers numbers, String currency, String id) {
        int money = spread.net().amount().scale();
        double plan = spread.quantity().hours().plan();
        double cost = spread.quantity().cost().total().amount().doubleValue();
        double offer = spread.quantity().price().offer().amount().doubleValue();
        double net = spread.net().amount().doubleValue();
        Drawing drawing =
                new Drawing(
                        WIDTH,
                        3 * LANE + LEGEND,
                        id,
                        "Spread of hours, cost and price",
                        described("Hours", spread.hours(), plan, numbers, 2)
                                + described("Cost", spread.cost(), cost, numbers, money)
                                + described("Price", spread.price(), offer, numbers, money)
                                + " Net price "
                                + numbers.show(net, money)
                                + " "
                                + currency
                                + ".");
        lane(numbers, drawing, 0, 2, spread.hours(), plan).drawn("Hours, h", spread.hours(), plan);
        SpreadPicture costs =
                new SpreadPicture(
                        numbers,
                        drawing,
                        LANE,
                        money,
                        DoubleStream.of(spread.cost().p10(), spread.cost().p90(), cost, net));
        costs.drawn("Cost, " + currency, spread.cost(), cost);
        costs.net(spread.cost(), net);
        lane(numbers, drawing, 2 * LANE, money, spread.price(), offer)
                .drawn("Price, " + currency, spread.price(), offer);
        legend(drawing, 3 * LANE + 10);
        return drawing.svg();
    }

    private static SpreadPicture lane(
            Numbers numbers,
            Drawing drawing,
            double top,
            int decimals,
            Band band,
            double reckoned) {
        return new SpreadPicture(
                numbers, drawing, top, decimals, DoubleStream.of(band.p10(), band.p90(), reckoned));
    }

    private static String described(
            String what, Band band, double reckoned, Numbers numbers, int decimals) {
        return "%s %s as reckoned: P10 %s, P50 %s, mean %s, P80 %s, P90 %s. "
                .formatted(
                        what,
                        numbers.show(reckoned, decimals),
                        numbers.show(band.p10(), decimals),
                        numbers.show(band.p50(), decimals),
                        numbers.show(band.mean(), decimals),
                        numbers.show(band.p80(), decimals),
                        numbers.show(band.p90(), decimals));
    }

    private double x(double value) {
        return LEFT + (value - low) / (high - low) * (RIGHT - LEFT);
    }

    private void drawn(String title, Band band, double reckoned) {
        double left = x(band.p10());
        double right = x(band.p90());
        double y = top + 38;
        drawing.text("strong", 0, top + 13, title);
        drawing.bar("fill-soft", left, y, right - left, BAND);
        drawing.line("dim", left, y - 14, left, y);
        drawing.line("dim", right, y - 14, right, y);
        if (right - left > 20) {
            drawing.dimension(left, y - 11, right, y - 11, "");
        }
        drawing.text("n", left - 4, y - 7, numbers.show(band.p10(), decimals));
        drawing.text("", right + 4, y - 7, numbers.show(band.p90(), decimals));
        drawing.line("ink", x(band.p50()), y, x(band.p50()), y + BAND);
        drawing.line("hidden-line", x(band.p80()), y - 5, x(band.p80()), y + BAND + 5);
        drawing.arc("ring-ink", x(band.mean()), y + BAND / 2, 3.2, 0, 360);
        triangle(drawing, x(reckoned), y + BAND + 1);
        axis(y + BAND + 12);
    }

    private void axis(double y) {
        drawing.line("thin", LEFT, y, RIGHT, y);
        for (double tick : ticks(low, high)) {
            drawing.line("thin", x(tick), y, x(tick), y + 3);
            drawing.text("m soft", x(tick), y + 15, numbers.show(tick));
        }
    }

    /** Round figures inside the scale, five at most. */
    static List<Double> ticks(double low, double high) {
        double rough = (high - low) / 4;
        double power = Math.pow(10, Math.floor(Math.log10(rough)));
        double step = power;
        for (double factor : new double[] {1, 2, 2.5, 5, 10}) {
            step = factor * power;
            if (step >= rough * 0.999) {
                break;
            }
        }
        List<Double> ticks = new ArrayList<>();
        for (double n = Math.ceil(low / step - 1e-9); n * step <= high + 1e-9 * step; n++) {
            ticks.add(Math.round(n * step / power * 10) * power / 10);
        }
        return ticks;
    }

    private void net(Band band, double net) {
        double at = x(net);
        double y = top + 38;
        if (net < band.p90()) {
            double from = Math.max(at, x(band.p10()));
            drawing.hatched(from, y, x(band.p90()) - from, BAND);
        }
        drawing.line("accent", at, top + 17, at, y + BAND + 12);
        String label = "net price " + numbers.show(net, decimals);
        double half = label.length() * 3.1;
        drawing.text("m", Math.max(96 + half, Math.min(at, WIDTH - half)), top + 13, label);
    }

    private static void triangle(Drawing drawing, double x, double y) {
        drawing.path("arrow", "M%s %sl4.5 8h-9z".formatted(Drawing.plain(x), Drawing.plain(y)));
    }

    private static void legend(Drawing drawing, double y) {
        drawing.line("thin", 0, y - 4, WIDTH, y - 4);
        drawing.bar("fill-soft", 2, y + 3, 26, 10);
        drawing.text("soft", 34, y + 12, "four times in five");
        drawing.line("ink", 152, y + 2, 152, y + 14);
        drawing.text("soft", 160, y + 12, "middle (P50)");
        drawing.line("hidden-line", 254, y + 1, 254, y + 15);
        drawing.text("soft", 262, y + 12, "enough 4 times in 5 (P80)");
        drawing.arc("ring-ink", 15, y + 27, 3.2, 0, 360);
        drawing.text("soft", 34, y + 31, "mean");
        triangle(drawing, 152, y + 22);
        drawing.text("soft", 160, y + 31, "as reckoned");
        drawing.hatched(246, y + 22, 14, 10);
        drawing.text("soft", 266, y + 31, "costs more than it brings");
    }
}
