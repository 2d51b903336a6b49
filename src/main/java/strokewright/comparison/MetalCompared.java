package strokewright.comparison;

import static strokewright.quantity.Why.Input.computed;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.comparison.JobComparison.Metal;
import strokewright.costing.Adding;
import strokewright.costing.CostingFormula;
import strokewright.estimate.Estimate;
import strokewright.estimate.QuantityPlan;
import strokewright.estimate.ShopBook;
import strokewright.job.MetalUsed;
import strokewright.quantity.Working;

/** The metal of a job, grade by grade. */
final class MetalCompared {

    private final List<Block> blocks;
    private final Cents cents;

    MetalCompared(List<Block> blocks, Cents cents) {
        this.blocks = blocks;
        this.cents = cents;
    }

    /** One grade while it is gathered. */
    private static final class Taken {
        final Planned quoted = new Planned();
        final Planned made = new Planned();
        BigDecimal kg = BigDecimal.ZERO;
        BigDecimal paid = BigDecimal.ZERO;
        @Nullable String family;
    }

    private static final class Planned {
        BigDecimal kg = BigDecimal.ZERO;
        BigDecimal cost = BigDecimal.ZERO;
        BigDecimal exactCost = BigDecimal.ZERO;
    }

    /** Adds what each item took to its block. */
    List<Metal> compared(List<MetalUsed> booked) {
        Map<String, Taken> grades = new LinkedHashMap<>();
        for (Block block : blocks) {
            for (Plan of : Plan.values()) {
                planned(grades, block, of);
            }
        }
        for (MetalUsed used : booked) {
            Block block = blockOf(used.entry().item());
            Taken taken = grades.computeIfAbsent(used.entry().grade(), grade -> new Taken());
            taken.family = taken.family == null ? used.family() : taken.family;
            BigDecimal cost = cents.of(used.cost()).amount();
            taken.kg = taken.kg.add(BigDecimal.valueOf(used.netKg()));
            taken.paid = taken.paid.add(cost);
            block.material = block.material.add(cost);
        }
        return grades.entrySet().stream().map(e -> metal(e.getKey(), e.getValue())).toList();
    }

    private static void family(Taken taken, String grade, ShopBook book) {
        if (taken.family == null) {
            taken.family = book.grade(grade).map(ShopBook.Grade::family).orElse(null);
        }
    }

    private void planned(Map<String, Taken> grades, Block block, Plan of) {
        QuantityPlan plan = block.plan(of);
        if (plan == null || plan.metal().isEmpty()) {
            return;
        }
        List<BigDecimal> costs =
                Adding.upTo(
                        plan.cost().material().amount(),
                        plan.metal().stream().map(m -> m.cost().amount()).toList());
        for (int i = 0; i < costs.size(); i++) {
            Estimate.MetalUsed metal = plan.metal().get(i);
            Taken taken = grades.computeIfAbsent(metal.grade(), grade -> new Taken());
            family(taken, metal.grade(), block.order.book());
            double kept = metal.keptKg() == null ? 0 : metal.keptKg();
            BigDecimal kg = BigDecimal.valueOf(metal.kg() - kept);
            Planned planned = of == Plan.QUOTED ? taken.quoted : taken.made;
            planned.kg = planned.kg.add(kg);
            planned.cost = planned.cost.add(costs.get(i));
            planned.exactCost = planned.exactCost.add(exactly(metal, kg));
        }
    }

    /**
     * What is paid for the kilograms before it is rounded to cents: a planned price that were made
     * of rounded cents would be wrong by far where much more is used than was planned.
     */
    private BigDecimal exactly(Estimate.MetalUsed metal, BigDecimal kg) {
        BigDecimal cost = metal.cost().amount();
        if (metal.price() == null || metal.kg() <= 0) {
            return cost;
        }
        BigDecimal price = metal.price().amount();
        BigDecimal exact =
                metal.per() == Estimate.PricedPer.SHEET && metal.sheets() != null
                        ? price.multiply(BigDecimal.valueOf(metal.sheets()))
                                .multiply(kg)
                                .divide(BigDecimal.valueOf(metal.kg()), MathContext.DECIMAL128)
                        : price.multiply(kg);
        // a price that was rounded itself tells less than the cost
        return cents.of(exact).amount().compareTo(cost) == 0 ? exact : cost;
    }

    /**
     * What nobody planned has no planned price: all of it is usage. The price of what was planned
     * is that of its mean kilogram.
     */
    private Metal metal(String grade, Taken taken) {
        BigDecimal actual = perKg(taken.paid, taken.kg);
        BigDecimal planned =
                taken.made.kg.signum() > 0
                        ? perKg(taken.made.exactCost, taken.made.kg)
                        : taken.quoted.kg.signum() > 0
                                ? perKg(taken.quoted.exactCost, taken.quoted.kg)
                                : actual;
        Working working = new Working();
        working.figure(
                "price",
                CostingFormula.PRICE_VARIANCE,
                computed("actual price", actual.doubleValue(), "/kg"),
                computed("planned price", planned.doubleValue(), "/kg"),
                computed("actual amount", taken.kg.doubleValue(), "kg"));
        working.figure(
                "usage",
                CostingFormula.USAGE_VARIANCE,
                computed("actual amount", taken.kg.doubleValue(), "kg"),
                computed("planned amount", taken.made.kg.doubleValue(), "kg"),
                computed("planned price", planned.doubleValue(), "/kg"));
        List<BigDecimal> parts =
                Adding.upTo(
                        taken.paid.subtract(taken.made.cost),
                        List.of(
                                taken.paid.subtract(planned.multiply(taken.kg)),
                                CostingFormula.USAGE_VARIANCE.exact(
                                        taken.kg, taken.made.kg, planned)));
        return new Metal(
                grade,
                taken.family,
                new Figures(grams(taken.quoted.kg), grams(taken.made.kg), grams(taken.kg)),
                new Amounts(
                        cents.of(taken.quoted.cost),
                        cents.of(taken.made.cost),
                        cents.of(taken.paid)),
                cents.of(parts.get(0)),
                cents.of(parts.get(1)),
                working.lines());
    }

    private static BigDecimal perKg(BigDecimal cost, BigDecimal kg) {
        return kg.signum() > 0 ? cost.divide(kg, MathContext.DECIMAL128) : BigDecimal.ZERO;
    }

    private static BigDecimal grams(BigDecimal kg) {
        return kg.setScale(3, RoundingMode.HALF_UP);
    }

    private Block blockOf(@Nullable Integer item) {
        return blocks.stream()
                .filter(b -> b.line != null && item != null)
                .filter(b -> b.line.item().position() == item)
                .findFirst()
                .orElse(blocks.get(blocks.size() - 1));
    }
}
