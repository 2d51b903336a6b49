package strokewright.estimate;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimating.Metalled;
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
    private final List<Metalled> metal;
    private final List<Finding> findings;

    Reckoning(
            TakeOff takeOff,
            ShopBook book,
            List<Worked> lines,
            List<Round> rounds,
            Estimate.@Nullable Plan plan,
            List<Metalled> metal,
            List<Finding> findings) {
        this.takeOff = takeOff;
        this.book = book;
        this.lines = List.copyOf(lines);
        this.rounds = List.copyOf(rounds);
        this.plan = plan;
        this.metal = List.copyOf(metal);
        this.findings = List.copyOf(findings);
    }

    /** For the quantities of the take-off. */
    public Estimate estimate() {
        List<Estimate.ForQuantity> quantities = new ArrayList<>();
        takeOff.quantities().forEach(q -> quantities.add(forQuantity(q)));
        return new Estimate(
                book.edition(),
                Estimate.feasible(findings),
                lines.stream().map(Worked::line).toList(),
                plan,
                quantities,
                findings,
                List.of(),
                List.of());
    }

    /** For any quantity, 1 to 100,000. */
    public Estimate.ForQuantity forQuantity(int quantity) {
        return new Quantity(takeOff, book, lines, rounds, metal, quantity).estimate();
    }

    /** Total cost of any quantity before it is rounded to the cent. */
    double exactCost(int quantity) {
        return new Quantity(takeOff, book, lines, rounds, metal, quantity).exactCost();
    }
}
