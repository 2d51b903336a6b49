package strokewright.quote;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import strokewright.costing.CostingFormula;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.quantity.Arithmetic;
import strokewright.quantity.Why;

/**
 * What metal is paid for, read from the reasons of an estimate, so that it can be reckoned again:
 * amount × price × (1 − share kept).
 *
 * @param name part, or grade and thickness of a stock sheet
 * @param unit kg or sheets
 * @param share of it that goes back to stock and is not paid for
 */
record MetalPaid(String name, String unit, double amount, double price, double share) {

    private static final String MATERIAL = ".material";

    /**
     * Lines of each quantity by what they are called, in one order.
     *
     * @return empty where an estimate pays for metal in a way that is not known here
     */
    static Optional<Map<String, List<MetalPaid>>> of(List<ForQuantity> quantities) {
        Map<String, MetalPaid[]> found = new LinkedHashMap<>();
        for (int i = 0; i < quantities.size(); i++) {
            double sum = 0;
            Map<String, Integer> namesakes = new LinkedHashMap<>();
            for (MetalPaid paid : of(quantities.get(i))) {
                int nth = namesakes.merge(paid.name, 1, Integer::sum);
                found.computeIfAbsent(
                                        nth == 1 ? paid.name : paid.name + " (" + nth + ")",
                                        name -> new MetalPaid[quantities.size()])[i] =
                        paid;
                sum += paid.amount * paid.price * (1 - paid.share);
            }
            double cost = cost(quantities.get(i));
            if (Math.abs(sum - cost) > 1e-6 * Math.max(1, cost)) {
                return Optional.empty();
            }
        }
        Map<String, List<MetalPaid>> lines = new LinkedHashMap<>();
        found.forEach((name, paid) -> lines.put(name, filled(name, paid)));
        return Optional.of(lines);
    }

    private static List<MetalPaid> filled(String name, MetalPaid[] paid) {
        List<MetalPaid> filled = new ArrayList<>();
        for (MetalPaid line : paid) {
            filled.add(line == null ? new MetalPaid(name, "", 0, 0, 0) : line);
        }
        return filled;
    }

    private static double cost(ForQuantity quantity) {
        return quantity.why().stream()
                .filter(MetalPaid::isSum)
                .mapToDouble(Why::value)
                .findFirst()
                .orElse(0);
    }

    /** Not of a part that is called "cost". */
    private static boolean isSum(Why why) {
        return why.figure().equals("cost" + MATERIAL)
                && why.formula().equals(Arithmetic.SUM.code());
    }

    private static List<MetalPaid> of(ForQuantity quantity) {
        List<MetalPaid> lines = new ArrayList<>();
        MetalPaid whole = null;
        for (Why why : quantity.why()) {
            String figure = why.figure();
            if (figure.endsWith("/sheet.bought")) {
                whole = read(why, figure.substring(0, figure.lastIndexOf('/')));
            } else if (figure.endsWith(MATERIAL) && !isSum(why)) {
                String name =
                        figure.substring(0, figure.length() - MATERIAL.length())
                                .replaceFirst("/sheet$", "");
                lines.add(
                        why.formula().equals(CostingFormula.WITHOUT_KEPT_OFFCUTS.code())
                                        && whole != null
                                ? new MetalPaid(
                                        name, whole.unit, whole.amount, whole.price, value(why, 1))
                                : read(why, name));
            }
        }
        return lines;
    }

    private static MetalPaid read(Why why, String name) {
        if (why.formula().equals(CostingFormula.MASS_AT_PRICE.code())) {
            return new MetalPaid(name, "kg", value(why, 0) * value(why, 1), value(why, 2), 0);
        }
        if (why.formula().equals(CostingFormula.SHEETS_AT_PRICE.code())) {
            return new MetalPaid(name, "sheets", value(why, 0), value(why, 1), 0);
        }
        return new MetalPaid(name, "", 0, 0, 0); // adds up to no cost, which is noticed
    }

    private static double value(Why why, int input) {
        return why.inputs().get(input).value();
    }
}
