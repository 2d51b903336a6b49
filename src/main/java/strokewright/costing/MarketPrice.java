package strokewright.costing;

import static strokewright.costing.CostingFormula.*;
import static strokewright.quantity.Why.Input.computed;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Currency;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/**
 * The build-up read backward: from a price each that the market pays to the profit and to the hours
 * that it leaves. Amounts are of the whole quantity at full precision, in the shop's currency.
 *
 * @param offer price each times pieces; at least as much as the shop asks for an order, or {@code
 *     underMinimum} says so
 * @param tradeDiscount share of the offer
 * @param commission share of the price after the trade discount
 * @param settlementDiscount share of the same price
 * @param left of the offer after them
 * @param urgency surcharge that is in what is left
 * @param profit what remains beyond total cost and urgency; negative for a loss
 * @param profitPercent of total cost; null where nothing costs anything
 * @param shareAtProfit labour and machine hours as a share of the planned ones at which the profit
 *     is the scheme's percentage exactly; 0 where even none would leave it, null without hours
 * @param shareAtNone the same where no profit is left
 * @param underMinimum whether the offer is less than the least that an order costs
 * @param inStep the price each that the scheme's rounding makes of it
 */
public record MarketPrice(
        BigDecimal priceEach,
        BigDecimal offer,
        BigDecimal tradeDiscount,
        BigDecimal commission,
        BigDecimal settlementDiscount,
        BigDecimal left,
        BigDecimal urgency,
        BigDecimal profit,
        @Nullable BigDecimal profitPercent,
        @Nullable BigDecimal shareAtProfit,
        @Nullable BigDecimal shareAtNone,
        boolean underMinimum,
        BigDecimal inStep) {

    /**
     * A line that is charged at least so much: with fewer hours it is lifted further.
     *
     * @param cost of its hours as planned
     */
    public record LeastCharge(BigDecimal least, BigDecimal cost) {

        /** Share of the planned hours under which the least is charged. */
        private BigDecimal from() {
            return least.divide(cost, MathContext.DECIMAL128);
        }

        private BigDecimal lift() {
            return least.subtract(cost).max(BigDecimal.ZERO);
        }
    }

    /**
     * @param planned the build-up forward, of the same pieces and scheme
     * @param leastCharges lines with a minimum charge, whose lifts are in the planned special
     *     direct cost
     * @param pieces at least one
     * @param each what the market pays for one, before tax
     * @param urgencyPercent of this order alone; the scheme's when null
     */
    public static MarketPrice backward(
            BuildUp planned,
            List<LeastCharge> leastCharges,
            int pieces,
            BigDecimal each,
            Currency currency,
            PriceScheme stated,
            @Nullable Double urgencyPercent,
            String origin,
            Working working) {
        PriceScheme scheme = stated.effective();
        Steps s = new Steps(origin, working);
        BigDecimal offer =
                s.step(
                        "market.offer",
                        MULTIPLE,
                        s.of("price each", each),
                        s.of("pieces", BigDecimal.valueOf(pieces)));
        BigDecimal trade = s.percent("market.tradeDiscount", offer, scheme.tradeDiscountPercent());
        BigDecimal afterTrade = offer.subtract(trade);
        BigDecimal commission =
                s.percent("market.commission", afterTrade, scheme.commissionPercent());
        BigDecimal settlement =
                s.percent(
                        "market.settlementDiscount",
                        afterTrade,
                        scheme.settlementDiscountPercent());
        BigDecimal left =
                s.step(
                        "market.left",
                        LESS,
                        s.of("offer", offer),
                        s.of("trade discount", trade),
                        s.of("commission", commission),
                        s.of("settlement discount", settlement));
        BigDecimal before =
                s.step(
                        "market.beforeUrgency",
                        BEFORE_SURCHARGE,
                        s.of("left", left),
                        urgencyPercent == null
                                ? s.stated("urgency", scheme.urgencyPercent())
                                : s.ofOrder("urgency", urgencyPercent));
        BigDecimal profit =
                s.step(
                        "market.profit",
                        LESS,
                        s.of("before urgency", before),
                        s.of("total cost", planned.total()));
        BigDecimal percent =
                planned.total().signum() == 0
                        ? null
                        : s.step(
                                "market.profitPercent",
                                PERCENT_OF_WHOLE,
                                s.of("profit", profit),
                                s.of("total cost", planned.total()));
        Hours hours = new Hours(planned, leastCharges, scheme, s);
        BigDecimal minimum =
                scheme.minimumOrder() == null ? BigDecimal.ZERO : scheme.minimumOrder().amount();
        return new MarketPrice(
                each,
                offer,
                trade,
                commission,
                settlement,
                left,
                left.subtract(before),
                profit,
                percent,
                hours.share("market.hoursAtProfit", before, scheme.profitPercent()),
                hours.share("market.hoursAtNone", before, 0),
                offer.compareTo(minimum) < 0,
                PRICE_EACH.exact(each, BigDecimal.ONE, scheme.roundingStep(currency)));
    }

    /** Labour and machine scale together; metal, extras and least charges stay. */
    private static final class Hours {

        private final List<LeastCharge> least;
        private final PriceScheme scheme;
        private final Steps s;
        private final BigDecimal hanging;
        private final BigDecimal fixed;

        Hours(BuildUp planned, List<LeastCharge> charges, PriceScheme scheme, Steps s) {
            this.least =
                    charges.stream()
                            .filter(c -> c.cost.signum() > 0)
                            .sorted(Comparator.comparing(LeastCharge::from).reversed())
                            .toList();
            this.scheme = scheme;
            this.s = s;
            hanging = planned.labour().add(planned.productionOverhead()).add(planned.machine());
            BigDecimal lifts =
                    least.stream().map(LeastCharge::lift).reduce(BigDecimal.ZERO, BigDecimal::add);
            fixed = planned.manufacturing().subtract(hanging).subtract(lifts);
        }

        /**
         * Manufacturing cost rises with the hours, and less steeply while lines are charged at
         * their least: from many hours to few, one line after the other comes under its least.
         */
        @Nullable BigDecimal share(String figure, BigDecimal before, double profitPercent) {
            if (hanging.signum() == 0) {
                return null;
            }
            BigDecimal room =
                    s.step(
                            figure + ".total",
                            BEFORE_SURCHARGE,
                            s.of("before urgency", before),
                            s.stated("profit", profitPercent));
            BigDecimal manufacturing =
                    s.step(
                            figure + ".manufacturing",
                            BEFORE_SURCHARGE,
                            s.of("total cost", room),
                            s.stated(
                                    "administration and sales",
                                    scheme.administrationPercent() + scheme.salesPercent()));
            BigDecimal stays = fixed;
            BigDecimal scales = hanging;
            BigDecimal most = null;
            for (LeastCharge line : least) {
                if (reached(manufacturing, stays, scales, line.from())) {
                    break;
                }
                stays = stays.add(line.least);
                scales = scales.subtract(line.cost);
                most = line.from();
            }
            List<Steps.Amount> amounts = new ArrayList<>();
            amounts.add(s.of("manufacturing cost", manufacturing));
            amounts.add(s.of("without hours", stays));
            amounts.add(s.of("cost of planned hours", scales.max(BigDecimal.ZERO)));
            if (most != null) {
                amounts.add(s.of("at most", most));
            }
            return s.step(figure, SHARE_OF_HOURS, amounts.toArray(Steps.Amount[]::new));
        }

        private static boolean reached(
                BigDecimal manufacturing, BigDecimal stays, BigDecimal scales, BigDecimal share) {
            return manufacturing.compareTo(stays.add(scales.multiply(share))) >= 0;
        }
    }

    /** Takes one step after the other and writes each down. */
    private record Steps(String origin, Working working) {

        record Amount(String name, BigDecimal value, String unit, String origin) {}

        Amount of(String name, BigDecimal value) {
            return new Amount(name, value, "", computed("", 0, "").origin());
        }

        Amount stated(String name, double percent) {
            return new Amount(name, BigDecimal.valueOf(percent), "%", origin);
        }

        Amount ofOrder(String name, double percent) {
            return new Amount(
                    name, BigDecimal.valueOf(percent), "%", Input.drawing("", 0, "").origin());
        }

        BigDecimal percent(String figure, BigDecimal base, double percent) {
            return step(figure, PERCENT_OF, of("base", base), stated("percent", percent));
        }

        BigDecimal step(String figure, CostingFormula formula, Amount... amounts) {
            BigDecimal value =
                    formula.exact(
                            Arrays.stream(amounts).map(Amount::value).toArray(BigDecimal[]::new));
            note(figure, formula, value, amounts);
            return value;
        }

        private void note(
                String figure, CostingFormula formula, BigDecimal value, Amount... amounts) {
            working.note(
                    figure,
                    formula,
                    value.doubleValue(),
                    Arrays.stream(amounts)
                            .map(a -> new Input(a.name, a.value.doubleValue(), a.unit, a.origin))
                            .toArray(Input[]::new));
        }
    }
}
