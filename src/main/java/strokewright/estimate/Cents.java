package strokewright.estimate;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import strokewright.costing.BuildUp;
import strokewright.quantity.Money;

/**
 * Shows a build-up in whole cents. Every subtotal is the true one, rounded; where the rounded steps
 * of a subtotal would miss it, one step takes the difference, so that what is shown adds up. That
 * is an overhead where there is any, else hours at a rate: never a bill that somebody can lay
 * beside it.
 */
final class Cents {

    private Cents() {}

    static Estimate.Cost cost(BuildUp build, Currency currency) {
        Money manufacturing = Money.rounded(build.manufacturing(), currency);
        List<Money> direct =
                addingUp(
                        manufacturing,
                        build.productionOverhead(),
                        build.materialOverhead(),
                        build.machine(),
                        build.labour(),
                        build.specialDirect(),
                        build.material());
        Money total = Money.rounded(build.total(), currency);
        List<Money> overhead =
                addingUp(total.minus(manufacturing), build.administration(), build.sales());
        return new Estimate.Cost(
                direct.get(5),
                direct.get(1),
                direct.get(3),
                direct.get(2),
                direct.get(0),
                direct.get(4),
                manufacturing,
                overhead.get(0),
                overhead.get(1),
                total);
    }

    static Estimate.Price price(BuildUp build, Currency currency) {
        Money total = Money.rounded(build.total(), currency);
        Money before = Money.rounded(build.beforeDiscounts(), currency);
        List<Money> gain = addingUp(before.minus(total), build.profit(), build.urgency());
        Money settlement = Money.rounded(build.settlementDiscount(), currency);
        Money commission = Money.rounded(build.commission(), currency);
        Money trade = Money.rounded(build.tradeDiscount(), currency);
        Money minimum = Money.rounded(build.minimumLift(), currency);
        Money offer = Money.rounded(build.offer(), currency);
        Money rounding =
                offer.minus(before).minus(settlement).minus(commission).minus(trade).minus(minimum);
        Money tax = Money.rounded(build.tax(), currency);
        return new Estimate.Price(
                gain.get(0),
                gain.get(1),
                before,
                settlement,
                commission,
                trade,
                minimum,
                rounding,
                offer,
                tax,
                offer.plus(tax),
                Money.rounded(build.net(), currency));
    }

    /** The first step that is not nothing takes the difference. */
    static List<Money> addingUp(Money total, BigDecimal... steps) {
        List<Money> rounded = new ArrayList<>();
        Money left = total;
        for (BigDecimal step : steps) {
            rounded.add(Money.rounded(step, total.currency()));
            left = left.minus(rounded.get(rounded.size() - 1));
        }
        int bearer = 0;
        while (bearer < steps.length - 1 && steps[bearer].signum() == 0) {
            bearer++;
        }
        rounded.set(bearer, rounded.get(bearer).plus(left));
        return rounded;
    }
}
