package strokewright.estimate;

import static strokewright.estimate.Estimate.Driver;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import strokewright.costing.UnitCosts;
import strokewright.estimate.ShopBook.WorkCentre;

/**
 * Monte Carlo over the parameters of one item. What is drawn for a parameter is the same for all
 * lines and quantities, so that errors that belong together move together.
 */
final class Simulation {

    private final ShopBook book;
    private final Variations varying;
    private final LatinHypercube hypercube;
    private final Drawn drawn;
    private final UnitCosts unit;
    private final Currency currency;

    Simulation(TakeOff takeOff, ShopBook book) {
        this.book = book;
        varying = new Variations(new Doubts(book, takeOff.information()));
        hypercube = new LatinHypercube(book.uncertainty().trials(), book.uncertainty().seed());
        drawn = new Drawn(hypercube);
        currency = Objects.requireNonNull(book.currency());
        unit =
                UnitCosts.of(
                        Objects.requireNonNull(book.priceScheme()),
                        currency,
                        takeOff.urgencyPercent());
    }

    Variations varying() {
        return varying;
    }

    UnitCosts unit() {
        return unit;
    }

    /**
     * @param material cost by grade, at today's price
     * @param specialDirect without what lines are lifted to their minimum charge
     */
    Outcome of(Term.Sum sum, Map<String, Double> material, double specialDirect) {
        double[][] both = trials(sum, material, specialDirect, drawn);
        return new Outcome(both[0], both[1]);
    }

    /**
     * Each parameter alone, widest swing of hours first, then of cost.
     *
     * @param trials person-hours, then total cost, by trial
     */
    List<Driver> drivers(Function<Draws, double[][]> trials) {
        List<Parameter> parameters = List.copyOf(hypercube.asked());
        double[][] both = trials.apply(new OneByOne(parameters));
        List<Driver> drivers = new ArrayList<>();
        for (int p = 0; p < parameters.size(); p++) {
            int low =
                    rises(both[0], p) || !falls(both[0], p) && !falls(both[1], p)
                            ? 2 * p
                            : 2 * p + 1;
            int high = 4 * p + 1 - low;
            if (both[1][low] != both[1][high] || both[0][low] != both[0][high]) {
                drivers.add(
                        new Driver(
                                parameters.get(p).name(),
                                both[0][low],
                                both[0][high],
                                Outcome.money(both[1][low], currency),
                                Outcome.money(both[1][high], currency)));
            }
        }
        drivers.sort(
                Comparator.comparingDouble((Driver d) -> d.highHours() - d.lowHours())
                        .thenComparing(d -> d.highCost().minus(d.lowCost()).amount().doubleValue())
                        .reversed());
        return drivers;
    }

    private static boolean rises(double[] of, int parameter) {
        return of[2 * parameter] < of[2 * parameter + 1];
    }

    private static boolean falls(double[] of, int parameter) {
        return of[2 * parameter] > of[2 * parameter + 1];
    }

    /** Person-hours, then total cost, by trial. */
    double[][] trials(
            Term.Sum sum, Map<String, Double> material, double specialDirect, Draws draws) {
        return trials(sum, material, specialDirect, new Drawn(draws));
    }

    private double[][] trials(
            Term.Sum sum, Map<String, Double> material, double specialDirect, Drawn from) {
        int trials = from.draws().trials();
        double[] hours = new double[trials];
        double[] cost = new double[trials];
        Arrays.fill(cost, specialDirect * unit.specialDirect());
        material.forEach(
                (grade, amount) -> {
                    double[] price = from.draws().of(varying.doubts().price(grade));
                    for (int t = 0; t < trials; t++) {
                        cost[t] += unit.material() * amount * price[t];
                    }
                });
        for (Term term : together(sum.terms())) {
            double[][] minutes = from.minutes(term.varying());
            double costed =
                    term.persons() * labour(term.centre()) * unit.labour()
                            + term.onMachine() * machine(term.centre()) * unit.machine();
            for (int t = 0; t < trials; t++) {
                double elapsed = (term.paced() * minutes[0][t] + term.hand() * minutes[1][t]) / 60;
                hours[t] += elapsed * term.persons();
                cost[t] += elapsed * costed;
            }
        }
        for (Term.Least least : sum.leasts()) {
            lift(least, from, cost);
        }
        return new double[][] {hours, cost};
    }

    private void lift(Term.Least least, Drawn from, double[] cost) {
        WorkCentre centre = book.workCentre(least.standard().workCentre()).orElseThrow();
        double perHour = least.people() * labour(centre) + machine(centre);
        double charge = least.standard().minimumCharge().amount().doubleValue();
        double[] elapsed = new double[cost.length];
        for (Term term : least.terms()) {
            double[][] minutes = from.minutes(term.varying());
            for (int t = 0; t < cost.length; t++) {
                elapsed[t] += term.paced() * minutes[0][t] + term.hand() * minutes[1][t];
            }
        }
        for (int t = 0; t < cost.length; t++) {
            cost[t] += unit.specialDirect() * Math.max(0, charge - elapsed[t] / 60 * perHour);
        }
    }

    /** Terms that differ in their amounts only, as one. */
    private static List<Term> together(List<Term> terms) {
        record Key(Varying varying, double persons, double onMachine, String centre) {}
        Map<Key, Term> sums = new LinkedHashMap<>();
        for (Term term : terms) {
            Key key =
                    new Key(term.varying(), term.persons(), term.onMachine(), term.centre().name());
            sums.merge(
                    key,
                    term,
                    (a, b) ->
                            new Term(
                                    a.varying(),
                                    a.paced() + b.paced(),
                                    a.hand() + b.hand(),
                                    a.persons(),
                                    a.onMachine(),
                                    a.centre()));
        }
        return List.copyOf(sums.values());
    }

    private double labour(WorkCentre centre) {
        return centre.labourIn(currency).amount().doubleValue();
    }

    private double machine(WorkCentre centre) {
        return centre.machineIn(currency).amount().doubleValue();
    }
}
