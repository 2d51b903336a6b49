package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import strokewright.Person;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.estimate.TakeOff;
import strokewright.takeoff.OnThePage;
import strokewright.takeoff.Situations;

/** From the take-off page into a quote, and from a quote to the page and back. */
class SavingPagesTests extends ServiceTest {

    private static final TakeOff FRAME = Situations.takeOff(QuotesApiTests.TAKE_OFF);

    @Autowired private Quotes quotes;

    private TestShop shop;
    private Person estimator;

    @BeforeEach
    void signIn() {
        shop = openShop();
        estimator = signedIn(Role.ESTIMATOR);
    }

    @Test
    void aCompleteTakeOffBecomesAQuoteAndTheNextPageIsFresh() {
        String path = Person.target(save("/take-off", typed(FRAME, "Harbour Theatre", "p")));

        assertThat(path).matches("/quotes/Q-20[0-9]{2}-0001");
        QuoteDocument quote = stored(path);
        assertThat(quote.customer().name()).isEqualTo("Harbour Theatre");
        assertThat(quote.items().get(0).takeOff().parts()).isEqualTo(FRAME.parts());
        assertThat(estimator.open("/take-off").body()).doesNotContain("Round sign frame");
    }

    /** In the quote's working and, opened again, in its field. */
    @Test
    void aGaugeStaysAGaugeInTheQuote() {
        Map<String, String> form = typed(FRAME, "Harbour Theatre", "p");
        String field =
                form.keySet().stream().filter(f -> f.endsWith("/thicknessMm")).findFirst().get();
        form.put(field, "14 ga aluminium");
        String path = Person.target(save("/take-off", form));

        TakeOff.Part part = stored(path).items().get(0).takeOff().parts().get(0);
        assertThat(part.gauge()).isEqualTo("14 ga aluminium");
        assertThat(part.thicknessMm()).isEqualTo(1.62814); // 0.0641 in
        assertThat(estimator.open(path + "/revisions/1/items/1/working").body())
                .contains("drawing, 14 ga aluminium");
        assertThat(estimator.open(path + "/items/1").body())
                .contains("value=\"14 ga aluminium\"", "14 ga aluminium = 1.63");
    }

    @Test
    void pressingTwiceSavesOnce() throws Exception {
        Map<String, String> form = typed(FRAME, "Harbour Theatre", "page-1");
        estimator.open("/take-off");
        ExecutorService threads = Executors.newFixedThreadPool(4);
        List<String> paths = new ArrayList<>();
        try {
            List<Future<HttpResponse<String>>> answers = new ArrayList<>();
            for (int i = 0; i < 4; i++) {
                answers.add(threads.submit(() -> save("/take-off", form)));
            }
            for (Future<HttpResponse<String>> answer : answers) {
                paths.add(Person.target(answer.get()));
            }
        } finally {
            threads.shutdown();
        }
        assertThat(paths).hasSize(4).containsOnly(paths.get(0));

        form.put("/title", "Another frame");
        assertThat(Person.target(save("/take-off", form))).isNotEqualTo(paths.get(0));
    }

    @Test
    void withoutCustomerNothingIsSavedAndNothingLost() {
        HttpResponse<String> answer = save("/take-off", typed(FRAME, " ", "p"));

        assertThat(Person.target(answer)).isEqualTo("/take-off?unsaved");
        assertThat(estimator.open("/take-off?unsaved").body())
                .contains("Not saved yet", "the customer is missing", "Round sign frame")
                .contains("is missing: a text of 1 to 200 characters");
        assertThat(shop.user(Role.OWNER).call(() -> quotes.count())).isZero();
    }

    @Test
    void withoutATitleNothingIsSavedAndNothingLost() {
        Map<String, String> form = typed(FRAME, "Harbour Theatre", "p");
        form.put("/title", " ");
        assertThat(Person.target(save("/take-off", form))).isEqualTo("/take-off?unsaved");
        assertThat(estimator.open("/take-off?unsaved").body())
                .contains("Not saved yet", "the title is missing", "Harbour Theatre");
        assertThat(shop.user(Role.OWNER).call(() -> quotes.count())).isZero();
    }

    @Test
    void anItemIsChangedAndAnotherAdded() {
        String path = Person.target(save("/take-off", typed(FRAME, "Harbour Theatre", "p")));
        String item = path + "/items/1";
        String page = estimator.open(item).body();
        assertThat(page).contains("Save into Q-", "value=\"Round sign frame\"", "value=\"1885\"");

        Map<String, String> form = typed(FRAME, "Harbour Theatre", "p");
        form.put("/version", version(page));
        form.put("/quantities", "4");
        form.put("/mainQuantity", "4");
        assertThat(Person.target(save(item, form))).isEqualTo(path);
        assertThat(stored(path).items().get(0).takeOff().quantities()).containsExactly(4);

        Map<String, String> second = typed(FRAME, "Harbour Theatre", "p");
        second.put("/version", version(estimator.open(path + "/items/2").body()));
        second.put("/title", "Second frame");
        assertThat(Person.target(save(path + "/items/2", second))).isEqualTo(path);
        assertThat(stored(path).items())
                .extracting(PricedItem::title)
                .containsExactly("Round sign frame", "Second frame");
    }

    @Test
    void whatSomebodyElseSavedMeanwhileIsNotOverwritten() {
        String path = Person.target(save("/take-off", typed(FRAME, "Harbour Theatre", "p")));
        String item = path + "/items/1";
        String seen = version(estimator.open(item).body());
        Map<String, String> mine = typed(FRAME, "Harbour Theatre", "p");
        mine.put("/version", seen);
        mine.put("/alreadyMade", "1");
        assertThat(Person.target(save(item, mine))).isEqualTo(path);

        mine.put("/alreadyMade", "2");
        assertThat(save(item, mine).statusCode()).isEqualTo(412);
        assertThat(stored(path).items().get(0).takeOff().alreadyMade()).isEqualTo(1);
        assertThat(estimator.open(item).body()).contains("This is what you last typed");
        estimator.submit(item, item, Map.of("do", "fresh"));
        assertThat(version(estimator.open(item).body())).isNotEqualTo(seen);
    }

    @Test
    void anIssuedQuoteIsNoLongerOpenedForChange() {
        String path = Person.target(save("/take-off", typed(FRAME, "Harbour Theatre", "p")));
        shop.user(Role.OFFICE).run(() -> quotes.issue(path.substring("/quotes/".length()), null));

        assertThat(estimator.open(path + "/items/1").statusCode()).isEqualTo(409);
        assertThat(estimator.open(path).body()).doesNotContain("/items/1\"");
        assertThat(signedIn(Role.OFFICE).open(path).body()).doesNotContain(">Change<");
    }

    private HttpResponse<String> save(String path, Map<String, String> form) {
        return estimator.submit(path, path, form);
    }

    private QuoteDocument stored(String path) {
        return shop.user(Role.OWNER)
                .call(() -> quotes.get(path.substring("/quotes/".length())))
                .document();
    }

    private Person signedIn(Role role) {
        Person person = new Person(port());
        person.signIn(shop.user(role).userName(), TestShop.PASSWORD);
        return person;
    }

    private static Map<String, String> typed(TakeOff takeOff, String customer, String page) {
        Map<String, String> form = new LinkedHashMap<>();
        form.put("do", "save");
        form.put("page", page);
        form.putAll(OnThePage.fields(takeOff));
        form.put("/customer", customer);
        return form;
    }

    static String version(String page) {
        var found =
                java.util.regex.Pattern.compile("name=\"/version\" value=\"([^\"]+)\"")
                        .matcher(page);
        assertThat(found.find()).isTrue();
        return found.group(1).replace("&quot;", "\"");
    }
}
