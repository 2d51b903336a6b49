package strokewright.shopbook;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.costing.Allowance;
import strokewright.costing.LabourRate;
import strokewright.costing.MachineHourRate;
import strokewright.quantity.Why;
import strokewright.web.Numbers;

/** How a rate or an allowance is built, step by step, as an owner would write it on a pad. */
record RateSteps(Numbers numbers) {

    private static final Map<String, String> NAMES =
            Map.ofEntries(
                    Map.entry("absentHours", "Hours absent"),
                    Map.entry("presentHours", "Hours present"),
                    Map.entry("productiveHours", "Productive hours"),
                    Map.entry("labourPerYear", "A year of labour"),
                    Map.entry("labourRate", "Labour rate"),
                    Map.entry("runningHours", "Running hours"),
                    Map.entry("replacementValue", "Replacement value"),
                    Map.entry("energyPerHour", "Energy"),
                    Map.entry("toolsPerHour", "Tools"),
                    Map.entry("depreciationPerHour", "Depreciation"),
                    Map.entry("interestPerHour", "Interest"),
                    Map.entry("spacePerHour", "Space"),
                    Map.entry("maintenancePerHour", "Upkeep"),
                    Map.entry("otherPerHour", "Other"),
                    Map.entry("machineRate", "Machine rate"));

    /**
     * One step.
     *
     * @param reckoned with its figures, such as "2 080 − 392"
     * @param unit such as "h a year"
     * @param sum whether it is what all lead to
     */
    record Step(String name, String reckoned, String value, String unit, boolean sum) {}

    List<Step> of(LabourRate basis) {
        return basis.steps("").stream().map(why -> step(why, reckoned(why))).toList();
    }

    /** What a year costs goes into the line of its hour. */
    List<Step> of(MachineHourRate basis) {
        Map<String, Why> years = new HashMap<>();
        List<Step> steps = new ArrayList<>();
        for (Why why : basis.steps("")) {
            String figure = why.figure();
            if (figure.endsWith("PerYear")) {
                years.put(figure, why);
            } else if (figure.endsWith("PerHour")) {
                Why year = years.get(figure.replace("PerHour", "PerYear"));
                steps.add(
                        step(
                                why,
                                year == null
                                        ? reckoned(why)
                                        : reckoned(year) + " / " + at(why, 1) + " h"));
            } else {
                steps.add(step(why, why.figure().equals("machineRate") ? "" : reckoned(why)));
            }
        }
        return List.copyOf(steps);
    }

    /** Only the lines that add something, then what they are together. */
    List<Step> of(Allowance basis) {
        List<Step> steps = new ArrayList<>();
        List<Why> whys = basis.steps("");
        Why all = whys.get(whys.size() - 1);
        for (Why.Input line : all.inputs()) {
            if (line.value() != 0) {
                boolean lifted = line.name().equals("mass");
                steps.add(
                        new Step(
                                capital(line.name()),
                                lifted ? numbers.show(basis.liftedKg()) + " kg" : "",
                                numbers.show(line.value()),
                                "%",
                                false));
            }
        }
        steps.add(new Step("Allowance", "of normal time", numbers.show(all.value()), "%", true));
        return List.copyOf(steps);
    }

    private Step step(Why why, String reckoned) {
        String figure = why.figure();
        boolean sum = figure.equals("labourRate") || figure.equals("machineRate");
        boolean hours = figure.endsWith("Hours");
        return new Step(
                NAMES.get(figure),
                reckoned,
                numbers.show(why.value(), hours ? 1 : 2),
                hours
                        ? "h a year"
                        : sum || figure.endsWith("PerHour")
                                ? "an hour"
                                : figure.equals("labourPerYear") ? "a year" : "",
                sum);
    }

    private String reckoned(Why why) {
        return switch (why.formula()) {
            case "absent-hours" -> "(" + added(why, 0, 3) + ") d × " + at(why, 3) + " h";
            case "present-hours" -> at(why, 0) + " − " + at(why, 1);
            case "productive-hours" -> at(why, 0) + " × " + at(why, 1) + " %";
            case "labour-per-year" ->
                    at(why, 0)
                            + " × (1 + "
                            + at(why, 1)
                            + " %) × "
                            + at(why, 2)
                            + " h"
                            + given(" + ", why, 3);
            case "per-hour", "tool-life" -> at(why, 0) + " / " + at(why, 1) + " h";
            case "running-hours" ->
                    bracketed(at(why, 0) + given(" − ", why, 1) + given(" − ", why, 2))
                            + " × "
                            + at(why, 3)
                            + " %";
            case "replacement-value" -> at(why, 0) + " × " + at(why, 1) + " / " + at(why, 2);
            case "depreciation" ->
                    bracketed(at(why, 0) + given(" + ", why, 1) + given(" − ", why, 2))
                            + " / "
                            + at(why, 3)
                            + " years";
            case "interest" ->
                    bracketed(at(why, 0) + given(" + ", why, 1)) + " / 2 × " + at(why, 2) + " %";
            case "space" ->
                    at(why, 0)
                            + " m² × "
                            + at(why, 1)
                            + (why.inputs().get(2).value() == 1 ? "" : " × " + at(why, 2));
            case "energy" -> at(why, 0) + " kW × " + at(why, 1) + " × " + at(why, 2);
            case "maintenance-over-life" -> at(why, 0) + " / " + at(why, 1) + " years";
            case "maintenance-share" -> at(why, 0) + " × " + at(why, 1) + " %";
            default -> added(why, 0, why.inputs().size());
        };
    }

    private String added(Why why, int from, int to) {
        return why.inputs().subList(from, to).stream()
                .filter(i -> i.value() != 0)
                .map(i -> shown(i.value()))
                .reduce((a, b) -> a + " + " + b)
                .orElse("0");
    }

    private static String bracketed(String sum) {
        return sum.contains(" ") ? "(" + sum + ")" : sum;
    }

    private String given(String sign, Why why, int index) {
        double value = why.inputs().get(index).value();
        return value == 0 ? "" : sign + shown(value);
    }

    private String at(Why why, int index) {
        return shown(why.inputs().get(index).value());
    }

    /** A rate of an hour in three decimals, larger amounts in two. */
    private String shown(double value) {
        return value >= 100 ? numbers.show(Math.round(value * 100) / 100.0) : numbers.show(value);
    }

    private static String capital(@Nullable String name) {
        return name == null || name.isEmpty()
                ? ""
                : Character.toUpperCase(name.charAt(0)) + name.substring(1);
    }
}
