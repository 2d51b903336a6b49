package strokewright.comparison;

import java.math.BigDecimal;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import strokewright.costing.PriceScheme;
import strokewright.estimate.Estimate;
import strokewright.estimate.QuantityPlan;
import strokewright.job.JobRecord;
import strokewright.quantity.Money;

/**
 * One item with its plans, and what it really took while that is gathered, to the cent. The last
 * one of a job holds what belongs to no item and has no plans.
 */
final class Block {

    final JobRecord.Ordered order;

    /** Null of what belongs to no item. */
    final JobRecord.@Nullable Line line;

    private final @Nullable QuantityPlan quoted;
    private final @Nullable QuantityPlan made;

    BigDecimal material = BigDecimal.ZERO;
    BigDecimal labour = BigDecimal.ZERO;
    BigDecimal machine = BigDecimal.ZERO;
    BigDecimal special = BigDecimal.ZERO;

    /** With overheads, once they are reckoned. */
    BigDecimal total = BigDecimal.ZERO;

    /**
     * @param made null where nothing was made
     */
    Block(
            JobRecord.Ordered order,
            JobRecord.Line line,
            QuantityPlan quoted,
            @Nullable QuantityPlan made) {
        this.order = order;
        this.line = line;
        this.quoted = quoted;
        this.made = made;
    }

    /** Of what belongs to no item. */
    Block(JobRecord.Ordered order) {
        this.order = order;
        this.line = null;
        this.quoted = null;
        this.made = null;
    }

    @Nullable QuantityPlan plan(Plan of) {
        return of == Plan.QUOTED ? quoted : made;
    }

    PriceScheme scheme() {
        return order.book().priceScheme().effective();
    }

    /** Nothing where there is no such plan. */
    Money planned(Plan of, Function<Estimate.Cost, Money> part, Cents cents) {
        QuantityPlan plan = plan(of);
        return plan == null ? cents.zero() : part.apply(plan.cost());
    }
}
