package strokewright.estimate;

import java.math.BigDecimal;
import java.math.MathContext;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;

/**
 * A price that the market pays for so many of an item, and the question what it leaves.
 *
 * @param quantity the main quantity of the take-off when left out
 * @param priceEach before tax; or the price of all
 * @param priceTotal before tax
 */
public record AskedPrice(
        @Nullable TakeOff takeOff,
        @Nullable Integer quantity,
        @Nullable Money priceEach,
        @Nullable Money priceTotal) {

    private static final double DEAREST = 1e9;
    private static final int MOST_DECIMALS = 6;

    /**
     * @throws InvalidInput naming every fault; those of the take-off stand under {@code /takeOff}
     */
    public AtMarketPrice answer(ShopBook book) {
        Faults faults = new Faults();
        if (faults.present("/takeOff", takeOff, "a take-off")) {
            TakeOffCheck.faults(takeOff, book)
                    .forEach(f -> faults.add("/takeOff" + f.pointer(), f.message()));
        }
        faults.withinIfGiven("/quantity", quantity, 1, TakeOffCheck.LARGEST_QUANTITY);
        if (priceEach == null && priceTotal == null) {
            faults.add("/priceEach", "is missing: an amount with its currency, or a priceTotal");
        } else if (priceEach != null && priceTotal != null) {
            faults.add("/priceTotal", "must be left out where there is a priceEach");
        }
        price("/priceEach", priceEach, book, faults);
        price("/priceTotal", priceTotal, book, faults);
        faults.throwIfAny();
        int pieces = quantity == null ? takeOff.mainQuantity() : quantity;
        BigDecimal each =
                priceEach != null
                        ? priceEach.amount()
                        : priceTotal
                                .amount()
                                .divide(BigDecimal.valueOf(pieces), MathContext.DECIMAL128);
        try {
            return Estimating.reckon(takeOff, book).atMarketPrice(pieces, each);
        } catch (InvalidInput e) { // what shows only while reckoning
            e.faults().forEach(f -> faults.add("/takeOff" + f.pointer(), f.message()));
            throw new InvalidInput(faults.all());
        }
    }

    private static void price(String at, @Nullable Money price, ShopBook book, Faults faults) {
        if (price == null) {
            return;
        }
        if (faults.over(at + "/amount", price.amount(), 0, DEAREST)
                && price.amount().scale() > MOST_DECIMALS) {
            faults.add(at + "/amount", "must have at most " + MOST_DECIMALS + " decimals");
        }
        if (!price.currency().equals(book.currency())) {
            faults.add(at + "/currency", "must be " + book.currency() + ", the shop's");
        }
    }
}
