package strokewright.estimate;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.IntToDoubleFunction;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.RouteComparison.At;
import strokewright.estimate.RouteComparison.BreakEven;
import strokewright.estimate.RouteComparison.Cheapest;
import strokewright.estimate.RouteComparison.Curve;
import strokewright.quantity.Fault;
import strokewright.quantity.Faults;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;

/**
 * The cost of several routes, and every quantity at which one overtakes another. Practice, worn
 * tools, least charges and choices that hang on the quantity make the cost of an order anything but
 * a straight line, and two routes may overtake each other many times. So small quantities are
 * reckoned one by one; beyond, where more pieces never cost less in all, a stretch is passed over
 * only if one route costs less at its end than the other at its beginning.
 */
public final class Routes {

    public static final int FEWEST = 2;
    public static final int MOST = 6;
    public static final int USUAL_UP_TO = 1_000;
    public static final int LARGEST_UP_TO = 10_000;

    /** Closer than this, in parts of the cost, two routes cost the same. */
    private static final double SAME = 1e-9;

    /** Up to here reserves, proving and the like may make one more piece cheaper in all. */
    private static final int ONE_BY_ONE_UP_TO = 100;

    /** So many lines of work times quantities are a few seconds. */
    private static final long MOST_TO_RECKON = 600_000;

    private static final int MOST_CHANGES_SAMPLED = 25;

    private final ShopBook book;
    private final List<Route> routes;
    private final List<Reckoning> reckonings;
    private final List<Estimate> estimates;
    private final int upTo;
    private final double[][] costs;

    private Routes(ShopBook book, List<Route> routes, List<Reckoning> reckonings, int upTo) {
        this.book = book;
        this.routes = routes;
        this.reckonings = reckonings;
        this.estimates = reckonings.stream().map(Reckoning::estimate).toList();
        this.upTo = upTo;
        this.costs = new double[routes.size()][upTo + 1];
    }

    /**
     * @param upTo largest quantity looked at; {@link #USUAL_UP_TO} when null
     * @throws InvalidInput naming every fault, with pointers such as {@code /routes/1/takeOff/…}
     */
    public static Routes compare(List<Route> routes, @Nullable Integer upTo, ShopBook book) {
        Faults faults = new Faults();
        if (faults.size("/routes", routes, FEWEST, MOST)) {
            check("/routes", routes, book, faults);
            faults.distinct("/routes", routes, Route::name, "/name");
        }
        faults.withinIfGiven("/upToQuantity", upTo, 1, LARGEST_UP_TO);
        faults.throwIfAny();
        int most = most(routes, book);
        if (upTo != null && upTo > most) {
            faults.add("/upToQuantity", "must be at most " + most + " with so many lines of work");
        }
        List<Reckoning> reckonings = new ArrayList<>();
        for (int i = 0; i < routes.size(); i++) {
            reckon("/routes/" + i + "/takeOff", routes.get(i), book, faults)
                    .ifPresent(reckonings::add);
        }
        faults.throwIfAny();
        return new Routes(
                book,
                List.copyOf(routes),
                reckonings,
                upTo == null ? Math.min(USUAL_UP_TO, most) : upTo);
    }

    private static int most(List<Route> routes, ShopBook book) {
        long lines = 0;
        for (Route route : routes) {
            ProposedLines proposed = ProposedLines.of(route.takeOff(), book);
            lines += route.takeOff().assembly().size() + proposed.item().size() + 1;
            for (int i = 0; i < proposed.parts().size(); i++) {
                lines += route.takeOff().parts().get(i).operations().size();
                lines += proposed.parts().get(i).size();
            }
        }
        return (int) Math.min(LARGEST_UP_TO, MOST_TO_RECKON / lines);
    }

    /** Every fault of some routes, without comparing them. */
    public static void check(String at, List<Route> routes, ShopBook book, Faults faults) {
        for (int i = 0; i < routes.size(); i++) {
            Route route = routes.get(i);
            String here = at + "/" + i;
            if (!faults.present(here, route, "a name and a take-off")) {
                continue;
            }
            faults.text(here + "/name", route.name());
            if (faults.present(here + "/takeOff", route.takeOff(), "a take-off")) {
                add(here + "/takeOff", TakeOffCheck.faults(route.takeOff(), book), faults);
            }
        }
    }

    /** What shows only while reckoning is told at the route, too. */
    private static Optional<Reckoning> reckon(
            String at, Route route, ShopBook book, Faults faults) {
        try {
            return Optional.of(Estimating.reckon(route.takeOff(), book));
        } catch (InvalidInput e) {
            add(at, e.faults(), faults);
            return Optional.empty();
        }
    }

    private static void add(String at, List<Fault> found, Faults faults) {
        found.forEach(f -> faults.add(at + f.pointer(), f.message()));
    }

    public int upTo() {
        return upTo;
    }

    /**
     * Exact cost of the whole quantity at plan hours; reckoned when first asked for.
     *
     * @param quantity 1 to {@link #upTo}
     */
    public double cost(int route, int quantity) {
        if (costs[route][quantity] == 0) {
            costs[route][quantity] = reckonings.get(route).exactCost(quantity);
        }
        return costs[route][quantity];
    }

    public RouteComparison comparison() {
        List<Integer> possible = new ArrayList<>();
        for (int i = 0; i < routes.size(); i++) {
            if (estimates.get(i).feasible()) {
                possible.add(i);
            }
        }
        List<BreakEven> breakEvens = new ArrayList<>();
        TreeSet<Integer> moments = new TreeSet<>();
        for (int a = 0; a < possible.size(); a++) {
            for (int b = a + 1; b < possible.size(); b++) {
                int first = possible.get(a);
                int second = possible.get(b);
                List<Turn> turns = turns(upTo, costs(first), costs(second));
                for (Turn turn : turns) {
                    moments.add(turn.quantity);
                    if (turn.overtakes) {
                        breakEvens.add(breakEven(turn, first, second));
                    }
                }
            }
        }
        breakEvens.sort(Comparator.comparingInt(BreakEven::quantity));
        List<Cheapest> cheapest = cheapest(possible, moments);
        TreeSet<Integer> sampled = sampled(cheapest);
        List<Curve> curves = new ArrayList<>();
        for (int i = 0; i < routes.size(); i++) {
            curves.add(curve(i, sampled));
        }
        return new RouteComparison(book.edition(), upTo, curves, breakEvens, cheapest);
    }

    private BreakEven breakEven(Turn turn, int first, int second) {
        int cheaper = turn.sign < 0 ? first : second;
        return new BreakEven(
                turn.quantity,
                name(cheaper),
                name(cheaper == first ? second : first),
                turn.equalAt);
    }

    /**
     * A quantity at which two routes compare otherwise than at the one before.
     *
     * @param sign −1 where the first is cheaper, 1 where the second is, 0 where they are equal
     * @param overtakes whether the cheaper one is another than it was last
     */
    record Turn(int quantity, int sign, boolean overtakes, double equalAt) {}

    /** Every turn; that two are equal for a while overtakes nothing. */
    static List<Turn> turns(int upTo, Costs first, Costs second) {
        List<Turn> turns = new ArrayList<>();
        int cheaper = 0;
        int before = 0;
        double lead = 0;
        for (int q : undecided(upTo, first, second)) {
            double a = first.of(q);
            double b = second.of(q);
            int sign = same(a, b) ? 0 : a < b ? -1 : 1;
            double ahead = sign == 0 ? 0 : a - b;
            if (q > 1 && sign != before) {
                turns.add(
                        new Turn(
                                q, sign, sign != 0 && sign != cheaper, q - ahead / (ahead - lead)));
            }
            cheaper = sign == 0 ? cheaper : sign;
            before = sign;
            lead = ahead;
        }
        return turns;
    }

    /** Between two of these that are no neighbours the same one is cheaper all the way. */
    private static TreeSet<Integer> undecided(int upTo, Costs first, Costs second) {
        TreeSet<Integer> quantities = new TreeSet<>();
        int small = Math.min(upTo, ONE_BY_ONE_UP_TO);
        for (int q = 1; q <= small; q++) {
            quantities.add(q);
        }
        quantities.add(upTo);
        divide(small, upTo, first, second, quantities);
        return quantities;
    }

    private static void divide(
            int from, int to, Costs first, Costs second, TreeSet<Integer> quantities) {
        if (to - from <= 1
                || decided(first, from, second, to)
                || decided(second, from, first, to)) {
            return;
        }
        int middle = from + (to - from) / 2;
        quantities.add(middle);
        divide(from, middle, first, second, quantities);
        divide(middle, to, first, second, quantities);
    }

    /** Even the most of the cheaper one is less than the least of the dearer one. */
    private static boolean decided(Costs dearer, int from, Costs cheaper, int to) {
        double most = cheaper.of(to) + cheaper.mostFall;
        double least = dearer.of(from) - dearer.mostFall;
        return most < least && !same(most, least);
    }

    /**
     * Cost by quantity.
     *
     * @param mostFall what a larger quantity may cost less than a smaller one: a price break of the
     *     metal is reached
     */
    record Costs(IntToDoubleFunction at, double mostFall) {

        double of(int quantity) {
            return at.applyAsDouble(quantity);
        }
    }

    private Costs costs(int route) {
        return new Costs(q -> cost(route, q), reckonings.get(route).mostFall());
    }

    private static boolean same(double a, double b) {
        return Math.abs(a - b) <= SAME * Math.max(Math.abs(a), Math.abs(b));
    }

    /** It can only change where two routes turn. */
    private List<Cheapest> cheapest(List<Integer> possible, TreeSet<Integer> moments) {
        List<Cheapest> ranges = new ArrayList<>();
        if (possible.isEmpty()) {
            return ranges;
        }
        int holder = cheapestAt(1, possible);
        int from = 1;
        for (int q : moments) {
            int least = cheapestAt(q, possible);
            if (least != holder && !same(cost(least, q), cost(holder, q))) {
                ranges.add(new Cheapest(from, q - 1, name(holder)));
                holder = least;
                from = q;
            }
        }
        ranges.add(new Cheapest(from, upTo, name(holder)));
        return ranges;
    }

    /** Of equal ones the first. */
    private int cheapestAt(int quantity, List<Integer> possible) {
        int least = possible.get(0);
        for (int route : possible) {
            double cost = cost(route, quantity);
            if (cost < cost(least, quantity) && !same(cost, cost(least, quantity))) {
                least = route;
            }
        }
        return least;
    }

    private TreeSet<Integer> sampled(List<Cheapest> cheapest) {
        TreeSet<Integer> sampled = new TreeSet<>(List.of(1, upTo));
        for (int decade = 1; decade <= upTo; decade *= 10) {
            for (int step : new int[] {1, 2, 5}) {
                if (step * decade <= upTo) {
                    sampled.add(step * decade);
                }
            }
        }
        routes.forEach(r -> sampled.addAll(r.takeOff().quantities()));
        cheapest.stream()
                .skip(1)
                .limit(MOST_CHANGES_SAMPLED)
                .forEach(c -> sampled.addAll(List.of(c.fromQuantity() - 1, c.fromQuantity())));
        return sampled;
    }

    private Curve curve(int route, TreeSet<Integer> quantities) {
        Estimate estimate = estimates.get(route);
        List<Finding> findings = new ArrayList<>(estimate.findings());
        findings.addAll(RouteDoubts.of(routes.get(route).takeOff(), book));
        return new Curve(
                name(route),
                estimate.feasible(),
                findings,
                routes.get(route).takeOff().leadTimeDays(),
                quantities.stream().map(q -> at(route, q)).toList());
    }

    private At at(int route, int quantity) {
        Estimate.ForQuantity figures = reckonings.get(route).forQuantity(quantity);
        Money cost =
                Outcome.money(
                        reckonings.get(route).exactCost(quantity),
                        Objects.requireNonNull(book.currency()));
        BigDecimal each =
                cost.amount()
                        .divide(BigDecimal.valueOf(figures.quantity()), MathContext.DECIMAL128);
        return new At(
                figures.quantity(),
                figures.hours().plan(),
                cost,
                Money.rounded(each, cost.currency()),
                figures.priceEach());
    }

    private String name(int route) {
        return Objects.requireNonNull(routes.get(route).name());
    }
}
