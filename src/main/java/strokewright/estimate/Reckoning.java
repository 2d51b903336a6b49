package strokewright.estimate;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.costing.PriceScheme;
import strokewright.quantity.Finding;

/**
 * One item with everything worked out that does not hang on how many are made; any quantity can
 * then be asked for.
 */
public final class Reckoning {

    private final TakeOff takeOff;
    private final ShopBook book;
    private final List<Worked> lines;
    private final List<Round> rounds;
    private final Estimate.@Nullable Plan plan;
    private final Metals metals;
    private final List<SpareBlank> spares;
    private final List<Finding> findings;
    private final Simulation simulation;

    Reckoning(
            TakeOff takeOff,
            ShopBook book,
            List<Worked> lines,
            List<Round> rounds,
            Estimate.@Nullable Plan plan,
            Metals metals,
            List<SpareBlank> spares,
            List<Finding> findings) {
        this.takeOff = takeOff;
        this.book = book;
        this.lines = List.copyOf(lines);
        this.rounds = List.copyOf(rounds);
        this.plan = plan;
        this.metals = metals;
        this.spares = List.copyOf(spares);
        this.findings = List.copyOf(findings);
        this.simulation = new Simulation(takeOff, book);
    }

    /** For the quantities of the take-off. */
    public Estimate estimate() {
        List<Estimate.ForQuantity> quantities = new ArrayList<>();
        List<Finding> all = new ArrayList<>(findings);
        List<Estimate.Driver> drivers = List.of();
        for (int i = 0; i < takeOff.quantities().size(); i++) {
            Quantity quantity = quantity(takeOff.quantities().get(i));
            quantities.add(quantity.estimate());
            all.addAll(quantity.notes("/quantities/" + i));
            if (drivers.isEmpty() && takeOff.quantities().get(i).equals(takeOff.mainQuantity())) {
                drivers = quantity.drivers();
            }
        }
        return new Estimate(
                book.edition(),
                Estimate.feasible(findings),
                lines.stream().map(Worked::line).toList(),
                plan,
                quantities,
                all,
                Folding.of(takeOff, book),
                drivers);
    }

    /** For any quantity, 1 to 100,000. */
    public Estimate.ForQuantity forQuantity(int quantity) {
        return quantity(quantity).estimate();
    }

    /**
     * What is done for so many, as people book their time on it; their person-minutes and the
     * reserve together are the planned hours.
     *
     * @param quantity 1 to 100,000
     */
    public List<WorkStep> steps(int quantity) {
        return quantity(quantity).steps();
    }

    /**
     * The same with the reserve of each.
     *
     * @param quantity 1 to 100,000
     */
    public List<PlannedStep> planned(int quantity) {
        return quantity(quantity).planned();
    }

    /**
     * All that is planned for so many, step by step, at the planned hours and without spread.
     *
     * @param quantity 1 to 100,000
     */
    public QuantityPlan plan(int quantity) {
        return quantity(quantity).plan();
    }

    /**
     * What a price that the market pays leaves.
     *
     * @param quantity 1 to 100,000
     * @param priceEach before tax, over 0
     */
    public AtMarketPrice atMarketPrice(int quantity, BigDecimal priceEach) {
        return quantity(quantity).at(priceEach);
    }

    /** Person-hours, then total cost, of one quantity by trial. */
    double[][] trials(int quantity, Draws draws) {
        Quantity reckoned = quantity(quantity);
        reckoned.estimate();
        return reckoned.trials(draws);
    }

    /** Total cost of any quantity before it is rounded to the cent. */
    double exactCost(int quantity) {
        return quantity(quantity).exactCost();
    }

    /** What a larger quantity may cost in all less than a smaller one, at the very most. */
    double mostFall() {
        PriceScheme scheme = book.priceScheme();
        return (metals.mostFall() * (1 + scheme.materialOverheadPercent() / 100)
                        + new FinalCheck(takeOff, book, lines).mostFall())
                * (1 + (scheme.administrationPercent() + scheme.salesPercent()) / 100);
    }

    private Quantity quantity(int quantity) {
        return new Quantity(takeOff, book, lines, rounds, metals, spares, simulation, quantity);
    }
}
