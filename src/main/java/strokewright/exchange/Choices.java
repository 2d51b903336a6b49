package strokewright.exchange;

import org.jspecify.annotations.Nullable;
import strokewright.quantity.InvalidInput;

/**
 * What whoever sends a file says about it.
 *
 * @param decimal "point" or "comma"; null to find it out
 * @param remove whether what the file does not have is taken out
 * @param others whether columns that nobody knows are passed over
 */
public record Choices(@Nullable String decimal, boolean remove, boolean others) {

    public static final Choices NONE = new Choices(null, false, false);

    public Choices {
        decimal = decimal == null || decimal.isBlank() ? null : decimal;
        if (decimal != null && !decimal.equals("point") && !decimal.equals("comma")) {
            throw new InvalidInput("?decimal", "must be point or comma");
        }
    }
}
