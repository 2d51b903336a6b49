package strokewright.demo;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.boot.ApplicationArguments;
import org.springframework.boot.ApplicationRunner;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.context.annotation.Profile;
import org.springframework.context.event.EventListener;
import org.springframework.core.env.Environment;
import org.springframework.stereotype.Component;
import strokewright.access.Documents;
import strokewright.access.Role;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.demo.DemoData.DemoQuote;
import strokewright.demo.DemoData.DemoShop;
import strokewright.demo.DemoData.DemoUser;
import strokewright.estimate.ShopBook;
import strokewright.quote.Quotes;
import strokewright.shopbook.ShopBooks;

/**
 * Brings the invented shop in, step by step; a step that was done before, by this start or one that
 * was cut off, changes nothing.
 */
@Component
@Profile("demo")
class Demo implements ApplicationRunner {

    /** Known to everybody: that is why the shop stands under its own profile alone. */
    static final String PASSWORD = "strokewright-demo";

    private static final Logger log = LoggerFactory.getLogger(Demo.class);

    private final Shops shops;
    private final ShopBooks books;
    private final Quotes quotes;
    private final DemoData data;
    private final Environment environment;

    Demo(
            Shops shops,
            ShopBooks books,
            Quotes quotes,
            Documents documents,
            Environment environment) {
        this.shops = shops;
        this.books = books;
        this.quotes = quotes;
        this.data = new DemoData(documents);
        this.environment = environment;
    }

    @Override
    public void run(ApplicationArguments arguments) {
        DemoShop demo = data.shop();
        SignedIn owner = shops.open(demo.shop(), demo.users().get(0).with(PASSWORD));
        Map<Role, SignedIn> others = new EnumMap<>(Role.class);
        for (DemoUser user : demo.users().subList(1, demo.users().size())) {
            others.put(user.role(), shops.admit(owner, user.with(PASSWORD)));
        }
        owner.run(() -> secondEdition(demo));
        int there = owner.call(quotes::count);
        for (DemoQuote quote :
                demo.quotes()
                        .subList(Math.min(there, demo.quotes().size()), demo.quotes().size())) {
            quote(quote, others.get(Role.ESTIMATOR), others.get(Role.OFFICE));
        }
    }

    private void quote(DemoQuote quote, SignedIn estimator, SignedIn office) {
        String number =
                estimator.call(
                        () ->
                                quotes.begin(
                                        quote.customer(),
                                        quote.address(),
                                        data.takeOff(quote.takeOff()),
                                        List.of()));
        if (quote.issued()) {
            office.run(() -> quotes.issue(number, null));
        }
    }

    /**
     * The starter book with stock sheets and the price scheme of a shop that knows its overheads.
     */
    private void secondEdition(DemoShop demo) {
        ShopBook current = books.current();
        if (current.edition() == 1) {
            List<ShopBook.Sheet> sheets = new ArrayList<>(demo.sheets());
            sheets.addAll(current.sheets());
            books.change(
                    current.withSheets(sheets).withPriceScheme(demo.priceScheme()),
                    "\"1\"",
                    "Invented stock sheets and surcharge scheme for the demo");
        }
    }

    @EventListener(ApplicationReadyEvent.class)
    void sayWhereToGo() {
        log.info(
                "Demo shop: http://localhost:{} – sign in as estimator, owner, office or floor with"
                        + " the password {}",
                environment.getProperty("local.server.port"),
                PASSWORD);
    }
}
