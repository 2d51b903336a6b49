package strokewright.demo;

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
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.demo.DemoData.DemoShop;
import strokewright.demo.DemoData.DemoUser;
import strokewright.estimate.ShopBook;
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
    private final DemoData data;
    private final Environment environment;

    Demo(Shops shops, ShopBooks books, Documents documents, Environment environment) {
        this.shops = shops;
        this.books = books;
        this.data = new DemoData(documents);
        this.environment = environment;
    }

    @Override
    public void run(ApplicationArguments arguments) {
        DemoShop demo = data.shop();
        SignedIn owner = shops.open(demo.shop(), demo.users().get(0).with(PASSWORD));
        for (DemoUser user : demo.users().subList(1, demo.users().size())) {
            shops.admit(owner, user.with(PASSWORD));
        }
        owner.run(() -> secondEdition(demo));
    }

    /** The starter book with the price scheme of a shop that knows its overheads. */
    private void secondEdition(DemoShop demo) {
        ShopBook current = books.current();
        if (current.edition() == 1) {
            books.change(
                    current.withPriceScheme(demo.priceScheme()),
                    "\"1\"",
                    "Invented surcharge scheme for the demo");
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
