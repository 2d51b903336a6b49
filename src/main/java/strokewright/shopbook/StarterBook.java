package strokewright.shopbook;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Currency;
import org.springframework.stereotype.Component;
import strokewright.access.Documents;
import strokewright.estimate.ShopBook;
import tools.jackson.databind.node.ObjectNode;

/**
 * What a new shop believes until it has its own figures. Every figure says where it comes from;
 * rates and prices are invented, and keep their number whatever the currency.
 */
@Component
public class StarterBook {

    private static final String RESOURCE = "/shop-book/starter.json";
    private static final String WRITTEN_IN = "\"EUR\"";

    private final Documents documents;

    StarterBook(Documents documents) {
        this.documents = documents;
    }

    public ShopBook in(Currency currency) {
        String stamped = text().replace(WRITTEN_IN, '"' + currency.getCurrencyCode() + '"');
        ObjectNode book = documents.read(stamped, ObjectNode.class);
        if (currency.getDefaultFractionDigits() == 0) { // no smaller coin to round to
            book.withObject("/priceScheme").put("roundEachTo", "1");
        }
        return documents.read(book.toString(), ShopBook.class);
    }

    private static String text() {
        try (InputStream in = StarterBook.class.getResourceAsStream(RESOURCE)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
