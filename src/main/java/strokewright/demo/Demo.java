package strokewright.demo;

import java.time.Clock;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.ApplicationArguments;
import org.springframework.boot.ApplicationRunner;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Primary;
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
import strokewright.demo.DemoOrders.Inquiry;
import strokewright.estimate.ShopBook;
import strokewright.quote.Acceptance;
import strokewright.quote.CustomerCard;
import strokewright.quote.Customers;
import strokewright.quote.Declining;
import strokewright.quote.Letterheads;
import strokewright.quote.Outcomes;
import strokewright.quote.QuoteHistory;
import strokewright.quote.QuoteNote;
import strokewright.quote.Quotes;
import strokewright.quote.Terms;
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
    private final Outcomes outcomes;
    private final QuoteHistory history;
    private final Customers customers;
    private final Letterheads letterheads;
    private final DemoPast past;
    private final List<Inquiry> inquiries;
    private final DemoClock clock;
    private final DemoData data;
    private final Environment environment;

    @Autowired
    Demo(
            Shops shops,
            ShopBooks books,
            Quotes quotes,
            Outcomes outcomes,
            QuoteHistory history,
            Customers customers,
            Letterheads letterheads,
            DemoPast past,
            DemoClock clock,
            Documents documents,
            Environment environment) {
        this(
                shops,
                books,
                quotes,
                outcomes,
                history,
                customers,
                letterheads,
                past,
                DemoOrders.ofTheShop(documents),
                clock,
                documents,
                environment);
    }

    /**
     * @param inquiries the past of the shop, the oldest first
     */
    Demo(
            Shops shops,
            ShopBooks books,
            Quotes quotes,
            Outcomes outcomes,
            QuoteHistory history,
            Customers customers,
            Letterheads letterheads,
            DemoPast past,
            List<Inquiry> inquiries,
            DemoClock clock,
            Documents documents,
            Environment environment) {
        this.shops = shops;
        this.books = books;
        this.quotes = quotes;
        this.outcomes = outcomes;
        this.history = history;
        this.customers = customers;
        this.letterheads = letterheads;
        this.past = past;
        this.inquiries = inquiries;
        this.clock = clock;
        this.data = new DemoData(documents);
        this.environment = environment;
    }

    @Bean
    @Primary
    @Profile("demo")
    static DemoClock demoClock() {
        return new DemoClock(Clock.systemUTC());
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
        owner.run(() -> letterhead(demo));
        owner.run(() -> customers(demo));
        past.payPeople(owner);
        int there = owner.call(quotes::count);
        rest(inquiries, there).forEach(inquiry -> past.live(inquiry, others));
        rest(demo.quotes(), Math.max(0, there - inquiries.size()))
                .forEach(quote -> quote(quote, others));
    }

    /** Those that are not there yet. */
    private static <T> List<T> rest(List<T> all, int there) {
        return all.subList(Math.min(there, all.size()), all.size());
    }

    private void quote(DemoQuote quote, Map<Role, SignedIn> people) {
        SignedIn estimator = people.get(Role.ESTIMATOR);
        SignedIn office = people.get(Role.OFFICE);
        String[] number = new String[1];
        clock.daysAgo(
                quote.begunDaysAgo(),
                () -> number[0] = estimator.call(() -> begin(quote, quote.terms())));
        for (DemoData.Step step : quote.steps()) {
            boolean estimates = step.what() == DemoData.What.REVISE;
            clock.daysAgo(
                    step.daysAgo(),
                    () -> (estimates ? estimator : office).run(() -> take(step, number[0])));
        }
    }

    private String begin(DemoQuote quote, @Nullable Terms terms) {
        return quotes.begin(
                quote.customer(), quote.contact(), terms, data.takeOff(quote.takeOff()));
    }

    private void take(DemoData.Step step, String number) {
        switch (step.what()) {
            case ISSUE -> quotes.issue(number, null);
            case REVISE -> quotes.revise(number, Map.of());
            case ACCEPT ->
                    outcomes.accept(
                            number,
                            new Acceptance(step.orderNumber(), null, List.of(), null, step.note()));
            case DECLINE ->
                    outcomes.decline(
                            number,
                            new Declining(null, step.reason(), step.competition(), step.note()));
            case NOTE ->
                    history.note(
                            number, new QuoteNote(null, null, step.note(), step.net(), step.to()));
        }
    }

    private void letterhead(DemoShop demo) {
        if (letterheads.get().version().version() == 0) {
            letterheads.change(demo.letterhead(), "*");
            letterheads.change(new Letterheads.Logo(data.logo(), "image/png"));
        }
    }

    private void customers(DemoShop demo) {
        Set<String> known =
                customers.list(null, null, 200).stream()
                        .map(CustomerCard::name)
                        .collect(Collectors.toSet());
        demo.customers().stream()
                .filter(card -> !known.contains(card.name()))
                .forEach(customers::add);
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
