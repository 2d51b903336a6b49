package strokewright.estimate;

import static strokewright.quantity.Why.Input.computed;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import strokewright.estimate.Estimate.MetalUsed;
import strokewright.quantity.Arithmetic;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/** The metal of one quantity, gathered as it is reckoned. */
final class Bought {

    private final Working working;
    private final List<Input> parts = new ArrayList<>();
    private final List<MetalUsed> used = new ArrayList<>();
    private final List<Map<String, Object>> cheaperAtBreak = new ArrayList<>();
    private BigDecimal cost = BigDecimal.ZERO;

    Bought(Working working) {
        this.working = working;
    }

    Working working() {
        return working;
    }

    void add(String what, BigDecimal costOfIt) {
        parts.add(computed(what, costOfIt.doubleValue(), ""));
        cost = cost.add(costOfIt);
    }

    void add(MetalUsed metal) {
        used.add(metal);
    }

    /** A higher price break would make the whole cheaper. */
    void cheaperAtBreak(Map<String, Object> values) {
        cheaperAtBreak.add(new LinkedHashMap<>(values));
    }

    /** Exact, its sum written down. */
    BigDecimal cost() {
        working.note(
                "cost.material", Arithmetic.SUM, cost.doubleValue(), parts.toArray(Input[]::new));
        return cost;
    }

    /** The same by grade, as its shown amounts share it. */
    Map<String, Double> costByGrade() {
        double shown = used.stream().mapToDouble(m -> m.cost().amount().doubleValue()).sum();
        Map<String, Double> byGrade = new LinkedHashMap<>();
        for (MetalUsed metal : used) {
            double share =
                    shown == 0 ? 1.0 / used.size() : metal.cost().amount().doubleValue() / shown;
            byGrade.merge(metal.grade(), share * cost.doubleValue(), Double::sum);
        }
        return byGrade;
    }

    List<MetalUsed> used() {
        return used;
    }

    List<Map<String, Object>> cheaperAtBreak() {
        return cheaperAtBreak;
    }
}
