package strokewright.costing;

import java.math.BigDecimal;
import java.util.Currency;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Working;

/**
 * What a build-up makes of one unit of money of each direct cost. A build-up adds and multiplies
 * only, so that any other amounts follow.
 *
 * @param material total cost of one unit of material
 * @param labour total cost of one unit of labour
 * @param machine total cost of one unit of machine hours
 * @param specialDirect total cost of one unit of special direct cost
 * @param listPrice of one unit of total cost, before minimum order and rounding
 */
public record UnitCosts(
        double material, double labour, double machine, double specialDirect, double listPrice) {

    /**
     * @param urgencyPercent of this order alone; the scheme's when null
     */
    public static UnitCosts of(
            PriceScheme scheme, Currency currency, @Nullable Double urgencyPercent) {
        BigDecimal one = BigDecimal.ONE;
        BigDecimal no = BigDecimal.ZERO;
        Asked asked = new Asked(scheme, currency, urgencyPercent);
        BuildUp material = asked.of(one, no, no, no);
        return new UnitCosts(
                material.total().doubleValue(),
                asked.of(no, one, no, no).total().doubleValue(),
                asked.of(no, no, one, no).total().doubleValue(),
                asked.of(no, no, no, one).total().doubleValue(),
                material.listPrice().doubleValue() / material.total().doubleValue());
    }

    private record Asked(PriceScheme scheme, Currency currency, @Nullable Double urgencyPercent) {

        BuildUp of(
                BigDecimal material,
                BigDecimal labour,
                BigDecimal machine,
                BigDecimal specialDirect) {
            return BuildUp.forward(
                    material,
                    labour,
                    machine,
                    specialDirect,
                    1,
                    currency,
                    scheme,
                    urgencyPercent,
                    "",
                    new Working());
        }
    }
}
