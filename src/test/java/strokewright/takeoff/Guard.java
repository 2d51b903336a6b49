package strokewright.takeoff;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;

/**
 * An item with work of nearly every kind in the shop book that a new shop begins with: hard sheet
 * that is annealed, a dish, an outline with stretches of both senses, own choice of a tool.
 */
public final class Guard {

    public static final ShopBook BOOK =
            read("/shop-book/starter.json", ShopBook.class).withEdition(1);
    static final TakeOff TAKE_OFF = read("/take-off/guard.json", TakeOff.class);

    private Guard() {}

    static Estimate estimate() {
        return Estimating.estimate(TAKE_OFF, BOOK);
    }

    static Estimate.Line line(String part, int position) {
        return estimate().operations().stream()
                .filter(l -> part.equals(l.part()) && l.position() == position)
                .findFirst()
                .orElseThrow();
    }

    private static <T> T read(String resource, Class<T> type) {
        try (InputStream in = Guard.class.getResourceAsStream(resource)) {
            return Situations.JSON.readValue(in, type);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
