package strokewright.takeoff;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.Collectors;
import strokewright.estimate.RouteComparison;
import strokewright.estimate.RouteComparison.BreakEven;
import strokewright.estimate.RouteComparison.Cheapest;
import strokewright.estimate.Routes;
import strokewright.web.Drawing;
import strokewright.web.Numbers;

/**
 * Cost each against quantity, all routes in one picture: each line has a dash and a letter of its
 * own, each break-even a ring. Both axes are logarithmic unless the quantities are few.
 */
final class RouteChart {

    private static final double WIDTH = 640;
    private static final double LEFT = 64;
    private static final double RIGHT = 610;
    private static final double TOP = 22;
    private static final double BOTTOM = 292;
    private static final double HEIGHT = 346;
    private static final int FEW = 30;
    private static final int POINTS = 140;
    private static final int MOST_RINGS = 24;
    private static final int MOST_MARKS = 8;
    private static final double LETTER_STEP = 14;

    private final Numbers numbers;
    private final String currency;

    RouteChart(Numbers numbers, String currency) {
        this.numbers = numbers;
        this.currency = currency;
    }

    /** A straight or logarithmic scale from values to places on the paper. */
    private record Scale(double low, double high, double from, double to, boolean log) {

        double at(double value) {
            double share =
                    log
                            ? Math.log(value / low) / Math.log(high / low)
                            : (value - low) / (high - low);
            return from + share * (to - from);
        }

        /** Round values within: 1, 2, 5, 10 … */
        List<Double> ticks() {
            List<Double> ticks = new ArrayList<>();
            if (log) {
                for (double decade = Math.pow(10, Math.floor(Math.log10(low)));
                        decade <= high;
                        decade *= 10) {
                    for (int step : new int[] {1, 2, 5}) {
                        add(ticks, step * decade);
                    }
                }
                return ticks;
            }
            double raw = (high - low) / 6;
            double decade = Math.pow(10, Math.floor(Math.log10(raw)));
            double step =
                    raw <= 2 * decade ? 2 * decade : raw <= 5 * decade ? 5 * decade : 10 * decade;
            for (double tick = Math.ceil(low / step) * step; tick <= high; tick += step) {
                add(ticks, tick);
            }
            return ticks;
        }

        private void add(List<Double> ticks, double value) {
            if (value >= low * (1 - 1e-9) && value <= high * (1 + 1e-9)) {
                ticks.add(value);
            }
        }
    }

    /**
     * @param letters of the routes in their order
     * @param quantities that must be seen
     */
    String drawn(
            Routes routes,
            RouteComparison comparison,
            List<String> letters,
            List<Integer> quantities,
            String id) {
        int last = last(routes.upTo(), comparison, quantities);
        boolean log = last > FEW;
        TreeSet<Integer> sampled = sampled(last, log, comparison);
        Scale x = new Scale(1, last, LEFT, RIGHT, log);
        Scale y = costs(routes, letters.size(), sampled);
        Drawing drawing =
                new Drawing(WIDTH, HEIGHT, id, "Cost each against quantity", words(comparison));
        axes(drawing, x, y);
        List<End> ends = new ArrayList<>();
        for (int route = 0; route < letters.size(); route++) {
            drawing.path("route " + (char) ('a' + route), line(routes, route, sampled, x, y));
            ends.add(new End(letters.get(route), y.at(each(routes, route, last))));
        }
        letters(drawing, ends);
        marks(drawing, routes, comparison, x, y, last);
        return drawing.svg();
    }

    private static double each(Routes routes, int route, int quantity) {
        return routes.cost(route, quantity) / quantity;
    }

    /** Well past every quantity asked for and every change of the cheapest. */
    private static int last(int upTo, RouteComparison comparison, List<Integer> quantities) {
        int needed = Math.max(10, quantities.stream().mapToInt(q -> q).max().orElse(1));
        List<Cheapest> ranges = comparison.cheapest();
        for (Cheapest range : ranges.subList(Math.min(1, ranges.size()), ranges.size())) {
            needed = Math.max(needed, 2 * range.fromQuantity());
        }
        for (BreakEven b : comparison.breakEvens()) {
            needed = Math.max(needed, b.quantity() + b.quantity() / 4);
        }
        return Math.max(2, Math.min(upTo, needed));
    }

    private static TreeSet<Integer> sampled(int last, boolean log, RouteComparison comparison) {
        TreeSet<Integer> sampled = new TreeSet<>();
        for (int i = 0; i <= POINTS; i++) {
            double share = (double) i / POINTS;
            sampled.add((int) Math.round(log ? Math.pow(last, share) : 1 + share * (last - 1)));
        }
        comparison.breakEvens().stream()
                .limit(MOST_RINGS)
                .filter(b -> b.quantity() <= last)
                .forEach(b -> sampled.addAll(List.of(b.quantity() - 1, b.quantity())));
        return sampled;
    }

    private static Scale costs(Routes routes, int count, TreeSet<Integer> sampled) {
        double low = Double.MAX_VALUE;
        double high = 0;
        for (int route = 0; route < count; route++) {
            for (int quantity : sampled) {
                double each = each(routes, route, quantity);
                low = Math.min(low, each);
                high = Math.max(high, each);
            }
        }
        boolean log = low > 0 && high / low > 4;
        return log
                ? new Scale(low / 1.15, high * 1.15, BOTTOM, TOP, true)
                : new Scale(0, high > 0 ? high * 1.08 : 1, BOTTOM, TOP, false);
    }

    private void axes(Drawing drawing, Scale x, Scale y) {
        for (double tick : y.ticks()) {
            drawing.line("grid", LEFT, y.at(tick), RIGHT, y.at(tick));
            drawing.text("n", LEFT - 6, y.at(tick) + 4, numbers.show(tick));
        }
        double free = 0;
        for (double tick : x.ticks()) {
            double at = x.at(tick);
            if (tick == Math.rint(tick) && at >= free) {
                drawing.line("thin", at, BOTTOM, at, BOTTOM + 4);
                drawing.text("m", at, BOTTOM + 17, numbers.show(tick));
                free = at + 34;
            }
        }
        drawing.line("thin", LEFT, TOP, LEFT, BOTTOM).line("thin", LEFT, BOTTOM, RIGHT, BOTTOM);
        drawing.text("soft", 0, 12, "Cost each, " + currency);
        drawing.text("soft n", RIGHT, HEIGHT - 4, "Pieces");
    }

    private static String line(
            Routes routes, int route, TreeSet<Integer> sampled, Scale x, Scale y) {
        StringBuilder path = new StringBuilder();
        for (int quantity : sampled) {
            path.append(path.isEmpty() ? "M" : "L")
                    .append(Math.round(x.at(quantity) * 100) / 100.0)
                    .append(' ')
                    .append(Math.round(y.at(each(routes, route, quantity)) * 100) / 100.0);
        }
        return path.toString();
    }

    private record End(String letter, double y) {}

    /** At the right ends, pushed apart where lines end close together. */
    private static void letters(Drawing drawing, List<End> ends) {
        List<End> downwards = new ArrayList<>(ends);
        downwards.sort(Comparator.comparingDouble(End::y));
        double free = TOP + 4;
        for (int i = 0; i < downwards.size(); i++) {
            End end = downwards.get(i);
            double room = BOTTOM - (downwards.size() - 1 - i) * LETTER_STEP;
            double y = Math.min(Math.max(end.y + 4, free), room);
            drawing.text("letter", RIGHT + 7, y, end.letter);
            free = y + LETTER_STEP;
        }
    }

    private void marks(
            Drawing drawing,
            Routes routes,
            RouteComparison comparison,
            Scale x,
            Scale y,
            int last) {
        List<String> names = comparison.routes().stream().map(RouteComparison.Curve::name).toList();
        comparison.breakEvens().stream()
                .limit(MOST_RINGS)
                .filter(b -> b.quantity() <= last)
                .forEach(
                        b ->
                                drawing.arc(
                                        "ring",
                                        x.at(b.quantity()),
                                        y.at(
                                                each(
                                                        routes,
                                                        names.indexOf(b.cheaper()),
                                                        b.quantity())),
                                        4,
                                        0,
                                        360));
        List<Cheapest> ranges = comparison.cheapest();
        double free = 0;
        for (Cheapest range :
                ranges.subList(
                        Math.min(1, ranges.size()), Math.min(ranges.size(), MOST_MARKS + 1))) {
            int quantity = range.fromQuantity();
            if (quantity <= last) {
                double at = x.at(quantity);
                double cost = each(routes, names.indexOf(range.route()), quantity);
                boolean crowded = at < free;
                drawing.line("centre", at, y.at(cost), at, BOTTOM + 22);
                drawing.text("m mark", at, BOTTOM + (crowded ? 46 : 33), numbers.show(quantity));
                free = crowded ? free : at + 30;
            }
        }
    }

    private String words(RouteComparison comparison) {
        String cheapest =
                comparison.cheapest().stream()
                        .limit(MOST_MARKS + 1)
                        .map(
                                c ->
                                        c.route()
                                                + " from "
                                                + numbers.show(c.fromQuantity())
                                                + " to "
                                                + numbers.show(c.toQuantity())
                                                + " pieces")
                        .collect(Collectors.joining(", "));
        return cheapest.isEmpty() ? "No route can be made." : "Cheapest: " + cheapest + ".";
    }
}
