package strokewright.takeoff;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import strokewright.costing.PriceScheme;
import strokewright.costing.PriceScheme.From;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.estimate.Estimate.MetalUsed;
import strokewright.estimate.Estimate.Spare;
import strokewright.quantity.Money;
import strokewright.quantity.Why;
import strokewright.web.Numbers;

/**
 * The way from material to the offer with tax, for one quantity: each step in the stored cents,
 * with what it is taken of in words. Percentages are read from the reasons that are stored with the
 * figures, so that an old quote shows its own.
 */
final class PriceSteps {

    private static final String OF_LABOUR = ".cost.labour";
    private static final String OF_MACHINE = ".cost.machine";

    private final ForQuantity quantity;
    private final PriceScheme scheme;
    private final Numbers numbers;
    private final List<Step> steps = new ArrayList<>();
    private Money reached;

    private PriceSteps(ForQuantity quantity, PriceScheme scheme, Numbers numbers) {
        this.quantity = quantity;
        this.scheme = scheme;
        this.numbers = numbers;
        this.reached = Money.zero(quantity.priceEach().currency());
    }

    /**
     * One step.
     *
     * @param base what it is taken of, in words; empty where its parts say it
     * @param from sum before it; nothing for a sum
     * @param to sum after it
     * @param sum what stands on the ground
     * @param within what it consists of
     */
    record Step(
            String name,
            String base,
            Money amount,
            Money from,
            Money to,
            boolean sum,
            List<Within> within) {}

    /**
     * A part of a step.
     *
     * @param amount null where it is told in words alone
     */
    record Within(String name, String words, @Nullable Money amount) {}

    /** Steps that come to nothing are left out. */
    static List<Step> of(ForQuantity quantity, PriceScheme scheme, Numbers numbers) {
        PriceSteps made = new PriceSteps(quantity, scheme, numbers);
        made.cost();
        made.price();
        return made.steps;
    }

    private void cost() {
        Estimate.Cost cost = quantity.cost();
        boolean simple = scheme.kind() == PriceScheme.Kind.SIMPLE;
        step("Material", "", cost.material(), material());
        step(
                simple ? "Mark-up on material" : "Material overhead",
                percentOn("cost.materialOverhead", "material", cost.material()),
                cost.materialOverhead());
        step("Labour", hoursPriced(), cost.labour(), labour());
        step("Machine", "", cost.machine(), hours(OF_MACHINE, cost.machine()));
        step(
                "Production overhead",
                percentOn("cost.productionOverhead", "labour", cost.labour()),
                cost.productionOverhead());
        step("Special direct costs", "", cost.specialDirect(), special());
        if (!cost.manufacturing().equals(cost.total())) {
            sum("Manufacturing cost", "", cost.manufacturing());
        }
        Money made = cost.manufacturing();
        step(
                "Administration",
                percentOn("cost.administration", "manufacturing cost", made),
                cost.administration());
        step("Sales", percentOn("cost.sales", "manufacturing cost", made), cost.sales());
        sum("Total cost", "", cost.total());
    }

    private void price() {
        Estimate.Price price = quantity.price();
        Money total = quantity.cost().total();
        Money beforeTrade =
                price.beforeDiscounts().plus(price.settlementDiscount()).plus(price.commission());
        Money list = beforeTrade.plus(price.tradeDiscount());
        step("Profit", percentOn("price.profit", "total cost", total), price.profit());
        step(
                "Urgency",
                percentOn("price.urgency", "total cost and profit", total.plus(price.profit())),
                price.urgency());
        step(
                "Settlement discount",
                shareOf("price.settlementDiscount", "the price after it", beforeTrade),
                price.settlementDiscount());
        step(
                "Commission",
                shareOf("price.commission", "the price after it", beforeTrade),
                price.commission());
        step(
                "Trade discount",
                shareOf("price.tradeDiscount", "the list price", list),
                price.tradeDiscount());
        step(
                "Up to the minimum order",
                "from " + shown(list) + " to " + shown(list.plus(price.minimumOrder())),
                price.minimumOrder());
        step("Rounding", rounding(list.plus(price.minimumOrder())), price.rounding());
        sum("Offer", pieces(), price.offer());
        step("Tax", percentOn("price.tax", "the offer", price.offer()), price.tax());
        if (!price.tax().isZero()) {
            sum("Offer with tax", "", price.withTax());
        }
    }

    // Bases in words --------------------------------------------------------------------------

    /** "8 % on material 180.00". */
    private String percentOn(String figure, String base, Money amount) {
        return percent(figure, "percent")
                .map(percent -> percent + " % on " + base + " " + shown(amount))
                .orElse("on " + base + " " + shown(amount));
    }

    /** "2 % of the price after it, 630.10". */
    private String shareOf(String figure, String base, Money amount) {
        return percent(figure, "share")
                .map(percent -> percent + " % of " + base + ", " + shown(amount))
                .orElse("of " + base + ", " + shown(amount));
    }

    private Optional<String> percent(String figure, String input) {
        return why(figure).flatMap(why -> input(why, input)).map(numbers::show);
    }

    private String pieces() {
        return quantity.quantity() == 1
                ? ""
                : numbers.show(quantity.quantity()) + " × " + shown(quantity.priceEach());
    }

    /** What one piece would cost to the last digit, and what it costs. */
    private String rounding(Money before) {
        BigDecimal each =
                before.amount()
                        .divide(BigDecimal.valueOf(quantity.quantity()), MathContext.DECIMAL64);
        return "each from "
                + numbers.show(each, quantity.priceEach().amount().scale() + 2)
                + " to "
                + shown(quantity.priceEach())
                + (scheme.roundEachTo().equals("0.01")
                        ? ""
                        : ", a multiple of " + numbers.show(new BigDecimal(scheme.roundEachTo())));
    }

    /** Which hours the price is made from, where they are not the plan. */
    private String hoursPriced() {
        Double priced = quantity.priceHours();
        if (priced == null || scheme.priceFrom() == From.PLAN) {
            return "";
        }
        return "priced on "
                + hours(priced)
                + ", "
                + named(scheme.priceFrom())
                + "; the plan is "
                + hours(quantity.hours().plan());
    }

    static String named(From from) {
        return switch (from) {
            case PLAN -> "the plan";
            case MEAN -> "the mean";
            case P65 -> "enough two times in three (P65)";
            case P80 -> "enough four times in five (P80)";
        };
    }

    // What a step consists of -----------------------------------------------------------------

    private List<Within> material() {
        List<Within> within = new ArrayList<>();
        if (quantity.metal().isEmpty()) {
            endingIn(".material")
                    .filter(why -> !why.figure().equals("cost.material"))
                    .forEach(why -> within.add(metalByMass(why)));
            settle(within, quantity.cost().material());
        } else {
            quantity.metal()
                    .forEach(
                            m ->
                                    within.add(
                                            new Within(
                                                    m.grade() + ", " + mm(m.thicknessMm()),
                                                    metal(m),
                                                    m.cost())));
        }
        quantity.spares()
                .forEach(s -> within.add(new Within("Spare blanks, " + s.part(), spare(s), null)));
        return within;
    }

    private Within metalByMass(Why why) {
        double kg =
                why.inputs().stream()
                        .filter(i -> !i.name().startsWith("price"))
                        .mapToDouble(Why.Input::value)
                        .reduce(1, (a, b) -> a * b);
        String words =
                numbers.show(kg, 2)
                        + " kg"
                        + input(why, "price per kg")
                                .map(p -> " at " + numbers.show(p) + " per kg")
                                .orElse("");
        String part = why.figure().substring(0, why.figure().lastIndexOf('.'));
        return new Within(part, words, money(why.value()));
    }

    /** "3 sheets of 2 000 × 1 000 mm, 71 % used, at 58.00", "2.54 kg at 5.37 per kg". */
    private String metal(MetalUsed metal) {
        String kg = numbers.show(metal.kg(), 2) + " kg";
        boolean bySheet = metal.per() == Estimate.PricedPer.SHEET;
        String price =
                metal.price() == null
                        ? ""
                        : " at " + shown(metal.price()) + (bySheet ? " a sheet" : " per kg");
        if (metal.sheets() == null) {
            return kg + price;
        }
        return Words.sheets(metal, numbers)
                + (bySheet ? "," : ", " + kg)
                + price
                + (metal.keptKg() == null || metal.keptKg() == 0
                        ? ""
                        : ", less " + numbers.show(metal.keptKg(), 2) + " kg that goes back");
    }

    private static String spare(Spare spare) {
        return spare.blanks()
                + switch (spare.why()) {
                    case "strain" -> ", the rim is strained far";
                    case "thin" -> ", the sheet is thin";
                    case "irreplaceable" -> ", the metal cannot be bought again";
                    default -> "";
                };
    }

    private List<Within> labour() {
        List<Within> within = hours(OF_LABOUR, quantity.cost().labour());
        if (quantity.reserveMinutes() > 0) {
            within.add(
                    new Within(
                            "Of these, risk reserve", hours(quantity.reserveMinutes() / 60), null));
        }
        return within;
    }

    private List<Within> hours(String ending, Money step) {
        List<Within> within =
                endingIn(ending)
                        .filter(why -> why.value() != 0)
                        .map(
                                why ->
                                        new Within(
                                                why.figure()
                                                        .substring(
                                                                0,
                                                                why.figure().length()
                                                                        - ending.length()),
                                                input(why, "hours").map(this::hours).orElse("")
                                                        + input(why, "rate")
                                                                .map(r -> " at " + rate(r))
                                                                .orElse(""),
                                                money(why.value())))
                        .collect(Collectors.toCollection(ArrayList::new));
        settle(within, step);
        return within;
    }

    /** What is bought out or made for the order, and what lifts lines to their minimum charge. */
    private List<Within> special() {
        List<Within> within = new ArrayList<>();
        why("cost.specialDirect")
                .ifPresent(
                        why ->
                                why.inputs()
                                        .forEach(
                                                i ->
                                                        within.add(
                                                                new Within(
                                                                        i.name(),
                                                                        handled(i.name()),
                                                                        money(i.value())))));
        settle(within, quantity.cost().specialDirect());
        return within;
    }

    /** "5 % on 85.00" where it is the handling of something bought out. */
    private String handled(String name) {
        String suffix = ", handling";
        return !name.endsWith(suffix)
                ? ""
                : why(name.substring(0, name.length() - suffix.length()) + ".handling")
                        .map(
                                why ->
                                        input(why, "percent").map(numbers::show).orElse("")
                                                + " % on "
                                                + shown(money(input(why, "cost").orElse(0.0))))
                        .orElse("");
    }

    /**
     * Parts rounded one by one may miss the step by a cent or two: the largest takes them. More
     * than that is no rounding, and stays to be seen.
     */
    private static void settle(List<Within> within, Money step) {
        if (within.isEmpty()) {
            return;
        }
        Money left = step;
        for (Within part : within) {
            left = left.minus(part.amount());
        }
        BigDecimal most = step.amount().ulp().multiply(BigDecimal.valueOf(within.size()));
        if (left.amount().abs().compareTo(most) <= 0) {
            Within largest =
                    within.stream()
                            .max(Comparator.comparing(w -> w.amount().amount()))
                            .orElseThrow();
            within.set(
                    within.indexOf(largest),
                    new Within(largest.name(), largest.words(), largest.amount().plus(left)));
        }
    }

    // Steps -----------------------------------------------------------------------------------

    private void step(String name, String base, Money amount) {
        step(name, base, amount, List.of());
    }

    private void step(String name, String base, Money amount, List<Within> within) {
        if (!amount.isZero()) {
            Money before = reached;
            reached = before.plus(amount);
            steps.add(new Step(name, base, amount, before, reached, false, List.copyOf(within)));
        }
    }

    private void sum(String name, String base, Money amount) {
        reached = amount;
        Money none = Money.zero(amount.currency());
        steps.add(new Step(name, base, amount, none, amount, true, List.of()));
    }

    // Reading the reasons ---------------------------------------------------------------------

    private Optional<Why> why(String figure) {
        return quantity.why().stream().filter(w -> w.figure().equals(figure)).findFirst();
    }

    private java.util.stream.Stream<Why> endingIn(String ending) {
        return quantity.why().stream().filter(w -> w.figure().endsWith(ending));
    }

    private static Optional<Double> input(Why why, String name) {
        return why.inputs().stream()
                .filter(i -> i.name().equals(name))
                .map(Why.Input::value)
                .findFirst();
    }

    private Money money(double value) {
        return Money.rounded(value, quantity.priceEach().currency());
    }

    private String rate(double value) {
        return numbers.show(BigDecimal.valueOf(value).setScale(2, RoundingMode.HALF_UP), 2);
    }

    private String shown(Money money) {
        return numbers.show(money.amount(), money.amount().scale());
    }

    private String hours(double hours) {
        return numbers.show(hours, 2) + " h";
    }

    private String mm(double value) {
        return numbers.show(value) + " mm";
    }
}
