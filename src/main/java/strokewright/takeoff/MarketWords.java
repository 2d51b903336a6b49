package strokewright.takeoff;

import java.util.ArrayList;
import java.util.List;
import strokewright.estimate.AtMarketPrice;
import strokewright.estimate.AtMarketPrice.HoursLeft;
import strokewright.quantity.Money;
import strokewright.web.Numbers;

/** What a price that the market pays leaves, in sentences. */
record MarketWords(Numbers numbers) {

    /** Hours nearer than that to the plan are the plan's. */
    private static final double SAME_HOURS = 0.005;

    List<String> of(AtMarketPrice at) {
        List<String> sentences = new ArrayList<>();
        sentences.add(brings(at));
        sentences.add(profit(at));
        hours(at, sentences);
        if (at.minimumOrder() != null) {
            sentences.add(
                    "That is less than the "
                            + numbers.show(at.minimumOrder())
                            + " that you ask for an order at least.");
        }
        if (!at.priceInStep().equals(at.priceEach())) {
            sentences.add(
                    "Your rounding would make it " + numbers.show(at.priceInStep()) + " each.");
        }
        return List.copyOf(sentences);
    }

    private String brings(AtMarketPrice at) {
        String brings =
                at.quantity()
                        + " at "
                        + numbers.show(at.priceEach())
                        + (at.quantity() == 1 ? "" : " each bring " + numbers.show(at.offer()));
        return at.left().equals(at.offer())
                ? brings + "."
                : brings
                        + ", of which "
                        + numbers.show(at.left())
                        + " are left after discounts and commission.";
    }

    private String profit(AtMarketPrice at) {
        String urgency =
                at.urgency().isZero()
                        ? ""
                        : " Of what is left "
                                + numbers.show(at.urgency())
                                + " are the surcharge for urgency.";
        Money profit = at.profit();
        String percent =
                at.profitPercent() == null
                        ? ""
                        : ", " + numbers.show(Math.abs(at.profitPercent()), 1) + " % of total cost";
        if (profit.amount().signum() < 0) {
            return "A loss of "
                    + numbers.show(new Money(profit.amount().negate(), profit.currency()))
                    + percent
                    + ": total cost is "
                    + numbers.show(at.total())
                    + "."
                    + urgency;
        }
        return "Profit left: "
                + numbers.show(profit)
                + percent
                + "; your price scheme asks for "
                + numbers.show(at.schemeProfitPercent())
                + " %."
                + urgency;
    }

    private void hours(AtMarketPrice at, List<String> sentences) {
        if (at.atSchemeProfit() == null || at.atNoProfit() == null) {
            return;
        }
        if (at.atNoProfit().share() == 0) {
            sentences.add("No hours are left: what is not hours costs more than that.");
            return;
        }
        sentences.add(
                at.atSchemeProfit().share() == 0
                        ? "With "
                                + numbers.show(at.schemeProfitPercent())
                                + " % of profit no hours are left."
                        : "Hours left with "
                                + numbers.show(at.schemeProfitPercent())
                                + " % of profit: "
                                + hours(at.atSchemeProfit(), at)
                                + ".");
        sentences.add("Hours left with no profit: " + hours(at.atNoProfit(), at) + ".");
    }

    private String hours(HoursLeft left, AtMarketPrice at) {
        double more = left.labourHours() - at.labourHours();
        String beside =
                Math.abs(more) < SAME_HOURS
                        ? ", just what your price is made from"
                        : ", "
                                + numbers.show(Math.abs(more), 2)
                                + " h "
                                + (more < 0 ? "less" : "more")
                                + " than the "
                                + numbers.show(at.labourHours(), 2)
                                + " h that your price is made from";
        String machine =
                left.machineHours() == 0
                        ? ""
                        : " (machine " + numbers.show(left.machineHours(), 2) + " h)";
        return numbers.show(left.labourHours(), 2) + " h" + machine + beside;
    }
}
