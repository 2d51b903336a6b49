package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.util.LinkedHashMap;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import strokewright.Person;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.estimate.Operation;
import strokewright.estimate.Route;
import strokewright.estimate.TakeOff;
import strokewright.takeoff.OnThePage;
import strokewright.takeoff.Situations;

/** Other routes from the take-off on the desk into a quote and back, without a script. */
class RoutesPageTests extends ServiceTest {

    private static final String ROUTES = "/take-off/routes";
    private static final TakeOff FRAME = Situations.takeOff(QuotesApiTests.TAKE_OFF);

    @Autowired private Quotes quotes;

    private TestShop shop;
    private Person estimator;

    @BeforeEach
    void aFrameOnTheDesk() {
        shop = openShop();
        estimator = signedIn(Role.ESTIMATOR);
        assertThat(Person.target(post("/take-off", typed(FRAME, "routes")))).isEqualTo(ROUTES);
    }

    @Test
    void eachWayBeginsATakeOffOfItsOwn() {
        assertThat(
                        begin(
                                Map.of(
                                        "do",
                                        "begin segments",
                                        "segments",
                                        "3",
                                        "segments-joint",
                                        "TIG weld")))
                .isEqualTo(ROUTES + "/r1?typed");
        assertThat(begin(Map.of("do", "begin heat", "heat-standard", "Heat-shrink by hand")))
                .isEqualTo(ROUTES + "/r2?typed");
        assertThat(begin(Map.of("do", "begin press", "press-cost", "1900", "press-life", "400")))
                .isEqualTo(ROUTES + "/r3?typed");
        assertThat(begin(Map.of("do", "begin same"))).isEqualTo(ROUTES + "/r4?typed");

        assertThat(estimator.open(ROUTES + "/r1").body())
                .contains("Route: In segments and welded", "value=\"628.333333", "TIG weld");
        assertThat(estimator.open(ROUTES + "/r3").body())
                .contains("Press tool, Rim", "value=\"400\"", "At the press");
        assertThat(estimator.open(ROUTES).body())
                .contains("Heat-shrunk by hand", "Another way", "Cost against quantity", "cheapest")
                .contains("Press tool bought out is cheaper than As taken off from ");
        assertThat(estimator.open(ROUTES + "/r9").statusCode()).isEqualTo(404);
    }

    @Test
    void whatIsTypedWrongIsSaidAndKept() {
        assertThat(
                        begin(
                                Map.of(
                                        "do",
                                        "begin segments",
                                        "segments",
                                        "1",
                                        "segments-joint",
                                        "TIG weld")))
                .isEqualTo(ROUTES);
        assertThat(estimator.open(ROUTES).body())
                .contains(
                        "Segments: must be from 2 to 100",
                        "name=\"segments\" inputmode=\"numeric\" value=\"1\"");
        assertThat(begin(Map.of("do", "begin press", "press-cost", "much"))).isEqualTo(ROUTES);
        assertThat(estimator.open(ROUTES).body()).contains("Cost: ", "value=\"much\"");
    }

    @Test
    void routesAreNamedRemovedAndGoWithTheTakeOff() {
        begin(Map.of("do", "begin same"));
        begin(Map.of("do", "begin same"));
        assertThat(estimator.open(ROUTES).body()).contains("Another way 2");
        post(ROUTES, Map.of("do", "kept", "/routes/r1/name", "By the apprentice"));
        post(ROUTES, Map.of("do", "remove r2"));
        assertThat(estimator.open(ROUTES).body())
                .contains("By the apprentice")
                .doesNotContain("Another way");

        post("/take-off", typed(FRAME, "fresh"));
        assertThat(estimator.open(ROUTES).body()).doesNotContain("By the apprentice");
        post("/take-off", Map.of("do", "before"));
        assertThat(estimator.open(ROUTES).body()).contains("By the apprentice");
    }

    @Test
    void savedRoutesStandWithTheItemAndAreWorkedOnFromThere() {
        begin(Map.of("do", "begin heat", "heat-standard", "Heat-shrink by hand"));
        String quote = Person.target(post("/take-off", typed(FRAME, "save")));
        assertThat(quote).startsWith("/quotes/Q-");
        Route kept = stored(quote).items().get(0).alternatives().get(0);
        assertThat(kept.name()).isEqualTo("Heat-shrunk by hand");
        assertThat(kept.takeOff().parts().get(0).operations().get(0))
                .isEqualTo(new Operation.Standard("Heat-shrink by hand", 1.885));
        assertThat(stored(quote).items().get(0).takeOff().parts()).isEqualTo(FRAME.parts());
        assertThat(estimator.open(ROUTES).body()).doesNotContain("Heat-shrunk by hand");

        String routes = quote + "/items/1/routes";
        assertThat(estimator.open(routes).body()).contains("Heat-shrunk by hand", "Cost against");
        post(routes, Map.of("do", "kept", "/routes/r1/name", "By hand"));
        String item = estimator.open(quote + "/items/1").body();
        Map<String, String> form = typed(FRAME, "save");
        form.put("/version", SavingPagesTests.version(item));
        assertThat(Person.target(post(quote + "/items/1", form))).isEqualTo(quote);
        assertThat(stored(quote).items().get(0).alternatives())
                .containsExactly(new Route("By hand", kept.takeOff()));

        shop.user(Role.OFFICE).run(() -> quotes.issue(quote.substring("/quotes/".length()), null));
        assertThat(signedIn(Role.OFFICE).open(routes).body())
                .contains("By hand", "Back to the quote")
                .doesNotContain("Begin another route");
        assertThat(post(routes, Map.of("do", "remove r1")).statusCode()).isEqualTo(409);
    }

    @Test
    void anUnfinishedRouteKeepsTheItemFromBeingSavedAndNothingIsLost() {
        begin(Map.of("do", "begin press"));
        assertThat(Person.target(post("/take-off", typed(FRAME, "save"))))
                .isEqualTo(ROUTES + "?unfinished");
        assertThat(estimator.open(ROUTES + "?unfinished").body())
                .contains("Not saved yet", "not complete: extra 1, cost");
        assertThat(shop.user(Role.OWNER).call(() -> quotes.count())).isZero();
    }

    @Test
    void atMostSixStandSideBySide() {
        for (int i = 0; i < 7; i++) {
            begin(Map.of("do", "begin same"));
        }
        assertThat(estimator.open(ROUTES).body())
                .contains("Another way 5")
                .doesNotContain("Another way 6", "Begin another route");
    }

    private String begin(Map<String, String> form) {
        return Person.target(post(ROUTES, form));
    }

    private HttpResponse<String> post(String path, Map<String, String> form) {
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

    private static Map<String, String> typed(TakeOff takeOff, String action) {
        Map<String, String> form = new LinkedHashMap<>();
        form.put("do", action);
        form.put("page", "p");
        form.putAll(OnThePage.fields(takeOff));
        form.put("/customer", "Harbour Theatre");
        return form;
    }
}
