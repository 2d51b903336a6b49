package strokewright.demo;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.access.Documents;
import strokewright.access.NewShop;
import strokewright.access.NewUser;
import strokewright.access.Role;
import strokewright.costing.PriceScheme;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;

/** The files of {@code demo-data/}. */
record DemoData(Documents documents) {

    /**
     * @param users the first is the owner
     * @param sheets stock sheets, beside the prices by mass of the starter book
     */
    record DemoShop(
            String about,
            NewShop shop,
            List<DemoUser> users,
            List<DemoQuote> quotes,
            PriceScheme priceScheme,
            List<ShopBook.Sheet> sheets) {}

    /**
     * @param takeOff name of its file
     */
    record DemoQuote(String customer, @Nullable String address, String takeOff, boolean issued) {}

    record DemoUser(String userName, String displayName, Role role) {

        NewUser with(String password) {
            return new NewUser(userName, displayName, role, password);
        }
    }

    DemoShop shop() {
        return read("shop.json", DemoShop.class);
    }

    TakeOff takeOff(String name) {
        return read("quotes/" + name + ".json", TakeOff.class);
    }

    private <T> T read(String file, Class<T> type) {
        try (InputStream in = DemoData.class.getResourceAsStream("/demo-data/" + file)) {
            if (in == null) {
                throw new IllegalStateException("demo-data/" + file + " is missing");
            }
            return documents.read(new String(in.readAllBytes(), StandardCharsets.UTF_8), type);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
