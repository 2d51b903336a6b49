package strokewright.costing;

import static strokewright.costing.CostingFormula.*;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.Currency;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Arithmetic;
import strokewright.quantity.Formula;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/**
 * From cost to offer at full precision: nothing is rounded before the price each. Discounts and
 * commission are shares of the price after them, tax comes last. Amounts are of the whole quantity,
 * in the shop's currency.
 *
 * @param listPrice after all discounts, before minimum order and rounding
 * @param minimumLift what lifts the list price to the minimum order
 * @param priceEach rounded first
 * @param offer price each times pieces
 * @param net what discounts and commission leave of the offer
 * @param tax on the offer
 */
public record BuildUp(
        BigDecimal material,
        BigDecimal materialOverhead,
        BigDecimal labour,
        BigDecimal machine,
        BigDecimal productionOverhead,
        BigDecimal specialDirect,
        BigDecimal manufacturing,
        BigDecimal administration,
        BigDecimal sales,
        BigDecimal total,
        BigDecimal profit,
        BigDecimal urgency,
        BigDecimal beforeDiscounts,
        BigDecimal settlementDiscount,
        BigDecimal commission,
        BigDecimal tradeDiscount,
        BigDecimal listPrice,
        BigDecimal minimumLift,
        BigDecimal priceEach,
        BigDecimal offer,
        BigDecimal net,
        BigDecimal tax) {

    /**
     * @param pieces at least one
     * @param currency its minor unit is the least that a price each is rounded to
     * @param urgencyPercent of this order alone; the scheme's when null
     */
    public static BuildUp forward(
            BigDecimal material,
            BigDecimal labour,
            BigDecimal machine,
            BigDecimal specialDirect,
            int pieces,
            Currency currency,
            PriceScheme stated,
            @Nullable Double urgencyPercent,
            String origin,
            Working working) {
        PriceScheme scheme = stated.effective();
        Steps s = new Steps(origin, working);
        BigDecimal materialOverhead =
                s.percent(
                        "cost.materialOverhead",
                        "material",
                        material,
                        scheme.materialOverheadPercent());
        BigDecimal productionOverhead =
                s.percent(
                        "cost.productionOverhead",
                        "labour",
                        labour,
                        scheme.productionOverheadPercent());
        BigDecimal manufacturing =
                s.sum(
                        "cost.manufacturing",
                        List.of(
                                "material",
                                "material overhead",
                                "labour",
                                "machine",
                                "production overhead",
                                "special direct"),
                        material,
                        materialOverhead,
                        labour,
                        machine,
                        productionOverhead,
                        specialDirect);
        BigDecimal administration =
                s.percent(
                        "cost.administration",
                        "manufacturing",
                        manufacturing,
                        scheme.administrationPercent());
        BigDecimal sales =
                s.percent("cost.sales", "manufacturing", manufacturing, scheme.salesPercent());
        BigDecimal total =
                s.sum(
                        "cost.total",
                        List.of("manufacturing", "administration", "sales"),
                        manufacturing,
                        administration,
                        sales);
        BigDecimal profit = s.percent("price.profit", "total", total, scheme.profitPercent());
        BigDecimal urgency =
                s.percent(
                        "price.urgency",
                        "total and profit",
                        total.add(profit),
                        urgencyPercent == null
                                ? s.stated("percent", scheme.urgencyPercent())
                                : Input.drawing("percent", urgencyPercent, "%"));
        BigDecimal before =
                s.sum(
                        "price.beforeDiscounts",
                        List.of("total", "profit", "urgency"),
                        total,
                        profit,
                        urgency);
        double early = scheme.settlementDiscountPercent() + scheme.commissionPercent();
        BigDecimal settlement =
                s.share(
                        "price.settlementDiscount",
                        before,
                        early,
                        scheme.settlementDiscountPercent());
        BigDecimal commission =
                s.share("price.commission", before, early, scheme.commissionPercent());
        BigDecimal afterEarly = before.add(settlement).add(commission);
        BigDecimal trade =
                s.share(
                        "price.tradeDiscount",
                        afterEarly,
                        scheme.tradeDiscountPercent(),
                        scheme.tradeDiscountPercent());
        BigDecimal list =
                s.sum(
                        "price.list",
                        List.of(
                                "before discounts",
                                "settlement discount",
                                "commission",
                                "trade discount"),
                        before,
                        settlement,
                        commission,
                        trade);
        BigDecimal minimum =
                scheme.minimumOrder() == null ? BigDecimal.ZERO : scheme.minimumOrder().amount();
        BigDecimal lift = UP_TO_MINIMUM_CHARGE.exact(minimum, list);
        BigDecimal each =
                s.each(
                        lift.signum() > 0,
                        lift.signum() > 0 ? minimum : list,
                        pieces,
                        scheme.roundingStep(currency));
        BigDecimal offer =
                s.step(
                        "price.offer",
                        MULTIPLE,
                        List.of("price each", "pieces"),
                        each,
                        BigDecimal.valueOf(pieces));
        BigDecimal net = s.net(offer, scheme);
        BigDecimal tax = s.percent("price.tax", "offer", offer, scheme.taxPercent());
        return new BuildUp(
                material,
                materialOverhead,
                labour,
                machine,
                productionOverhead,
                specialDirect,
                manufacturing,
                administration,
                sales,
                total,
                profit,
                urgency,
                before,
                settlement,
                commission,
                trade,
                list,
                lift,
                each,
                offer,
                net,
                tax);
    }

    /** Takes one step after the other and writes each down. */
    private record Steps(String origin, Working working) {

        BigDecimal percent(String figure, String base, BigDecimal amount, double percent) {
            return percent(figure, base, amount, stated("percent", percent));
        }

        BigDecimal percent(String figure, String base, BigDecimal amount, Input percent) {
            BigDecimal value = PERCENT_OF.exact(amount, BigDecimal.valueOf(percent.value()));
            working.note(
                    figure,
                    PERCENT_OF,
                    value.doubleValue(),
                    Input.computed(base, amount.doubleValue(), ""),
                    percent);
            return value;
        }

        Input stated(String name, double percent) {
            return new Input(name, percent, "%", origin);
        }

        BigDecimal share(String figure, BigDecimal amount, double all, double share) {
            BigDecimal value =
                    SHARE_OF_PRICE_AFTER.exact(
                            amount, BigDecimal.valueOf(all), BigDecimal.valueOf(share));
            working.note(
                    figure,
                    SHARE_OF_PRICE_AFTER,
                    value.doubleValue(),
                    Input.computed("price before", amount.doubleValue(), ""),
                    new Input("all shares", all, "%", origin),
                    new Input("share", share, "%", origin));
            return value;
        }

        BigDecimal sum(String figure, List<String> names, BigDecimal... amounts) {
            BigDecimal sum = Arrays.stream(amounts).reduce(BigDecimal.ZERO, BigDecimal::add);
            note(figure, Arithmetic.SUM, sum, names, amounts);
            return sum;
        }

        BigDecimal each(boolean minimum, BigDecimal price, int pieces, BigDecimal step) {
            return step(
                    "priceEach",
                    minimum ? PRICE_EACH_OF_MINIMUM : PRICE_EACH,
                    List.of("price", "pieces", "step"),
                    price,
                    BigDecimal.valueOf(pieces),
                    step);
        }

        BigDecimal step(
                String figure, CostingFormula formula, List<String> names, BigDecimal... amounts) {
            BigDecimal value = formula.exact(amounts);
            note(figure, formula, value, names, amounts);
            return value;
        }

        BigDecimal net(BigDecimal offer, PriceScheme scheme) {
            Input[] shares = {
                stated("trade discount", scheme.tradeDiscountPercent()),
                stated("settlement discount", scheme.settlementDiscountPercent()),
                stated("commission", scheme.commissionPercent())
            };
            BigDecimal net =
                    AFTER_DISCOUNTS.exact(
                            offer,
                            BigDecimal.valueOf(shares[0].value()),
                            BigDecimal.valueOf(shares[1].value()),
                            BigDecimal.valueOf(shares[2].value()));
            working.note(
                    "price.net",
                    AFTER_DISCOUNTS,
                    net.doubleValue(),
                    Input.computed("offer", offer.doubleValue(), ""),
                    shares[0],
                    shares[1],
                    shares[2]);
            return net;
        }

        private void note(
                String figure,
                Formula formula,
                BigDecimal value,
                List<String> names,
                BigDecimal... amounts) {
            Input[] inputs = new Input[amounts.length];
            for (int i = 0; i < amounts.length; i++) {
                inputs[i] = Input.computed(names.get(i), amounts[i].doubleValue(), "");
            }
            working.note(figure, formula, value.doubleValue(), inputs);
        }
    }
}
