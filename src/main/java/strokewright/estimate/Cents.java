package strokewright.estimate;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import strokewright.costing.BuildUp;
import strokewright.quantity.Money;

/**
 * Shows a build-up in whole cents. Every subtotal is the true one, rounded; where the rounded steps
 * of a subtotal would miss it, the largest of them takes the difference, so that what is shown adds
 * up.
 */
final class Cents {

    private Cents() {}

    static Estimate.Cost cost(BuildUp build, Currency currency) {
        Money manufacturing = Money.rounded(build.manufacturing(), currency);
        List<Money> direct =
                addingUp(
                        manufacturing,
                        build.material(),
                        build.materialOverhead(),
                        build.labour(),
                        build.machine(),
                        build.productionOverhead(),
                        build.specialDirect());
        Money total = Money.rounded(build.total(), currency);
        List<Money> overhead =
                addingUp(total.minus(manufacturing), build.administration(), build.sales());
        return new Estimate.Cost(
                direct.get(0),
                direct.get(1),
                direct.get(2),
                direct.get(3),
                direct.get(4),
                direct.get(5),
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
                offer.plus(tax));
    }

    private static List<Money> addingUp(Money total, BigDecimal... steps) {
        List<Money> rounded = new ArrayList<>();
        Money left = total;
        int largest = 0;
        for (int i = 0; i < steps.length; i++) {
            rounded.add(Money.rounded(steps[i], total.currency()));
            left = left.minus(rounded.get(i));
            if (steps[i].abs().compareTo(steps[largest].abs()) > 0) {
                largest = i;
            }
        }
        rounded.set(largest, rounded.get(largest).plus(left));
        return rounded;
    }
}
