package strokewright.demo;

import com.fasterxml.jackson.annotation.JsonProperty;
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
import strokewright.quantity.Money;
import strokewright.quote.CustomerCard;
import strokewright.quote.Letterhead;
import strokewright.quote.Outcome;
import strokewright.quote.Terms;

/** The files of {@code demo-data/}. */
record DemoData(Documents documents) {

    /**
     * @param users the first is the owner
     * @param sheets stock sheets, beside the prices by mass of the starter book
     * @param letterhead its logo is {@code logo.png}
     */
    record DemoShop(
            String about,
            NewShop shop,
            List<DemoUser> users,
            List<DemoQuote> quotes,
            PriceScheme priceScheme,
            List<ShopBook.Sheet> sheets,
            Letterhead letterhead,
            List<CustomerCard> customers) {}

    /**
     * @param customer by name, one of the customers
     * @param takeOff name of its file
     * @param begunDaysAgo when it was begun
     * @param steps what happened since
     */
    record DemoQuote(
            String customer,
            @Nullable String contact,
            String takeOff,
            int begunDaysAgo,
            @Nullable Terms terms,
            List<Step> steps) {}

    /**
     * One thing that happened with a quote.
     *
     * @param validDays of an issued offer, as long as the letterhead says when left out
     * @param net a price that was told
     */
    record Step(
            int daysAgo,
            What what,
            @Nullable Integer validDays,
            @Nullable String orderNumber,
            Outcome.@Nullable Reason reason,
            @Nullable String competition,
            @Nullable Money net,
            @Nullable String to,
            @Nullable String note) {}

    enum What {
        @JsonProperty("issue")
        ISSUE,
        @JsonProperty("revise")
        REVISE,
        @JsonProperty("accept")
        ACCEPT,
        @JsonProperty("decline")
        DECLINE,
        @JsonProperty("note")
        NOTE
    }

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

    byte[] logo() {
        try (InputStream in = DemoData.class.getResourceAsStream("/demo-data/logo.png")) {
            if (in == null) {
                throw new IllegalStateException("demo-data/logo.png is missing");
            }
            return in.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
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
