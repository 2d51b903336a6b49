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
import strokewright.estimate.TakeOff;
import strokewright.estimate.Variant;
import strokewright.estimate.Variants;
import strokewright.takeoff.Guard;
import strokewright.takeoff.OnThePage;
import strokewright.takeoff.Situations;

/** What else an item could be, beside it, in its place and as a route, without a script. */
class InsteadPagesTests extends ServiceTest {

    private static final TakeOff FRAME = Situations.takeOff(QuotesApiTests.TAKE_OFF);

    @Autowired private Quotes quotes;

    private TestShop shop;
    private Person estimator;

    @BeforeEach
    void somebodyEstimates() {
        shop = openShop();
        estimator = signedIn(Role.ESTIMATOR);
    }

    @Test
    void standsBesideAndGoesAgainAndNothingTypedIsLost() {
        Map<String, String> form = typed(FRAME, "instead add");
        form.put("/instead/text", "stainless 1.5 mm");
        assertThat(Person.target(post("/take-off", form))).isEqualTo("/take-off?typed");
        assertThat(page("/take-off"))
                .contains("Stainless steel 1.4301 (304)")
                .contains("name=\"/instead/w1/said\" value=\"stainless 1.5 mm\"")
                .contains("value=\"instead take w1\"");

        form.put("/instead/w1/said", "stainless 1.5 mm");
        form.put("/instead/text", "unobtainium");
        post("/take-off", form);
        assertThat(page("/take-off"))
                .contains("“unobtainium” is not understood", "value=\"unobtainium\"")
                .contains("stainless 1.5 mm");

        form.put("do", "instead remove w1");
        post("/take-off", form);
        assertThat(page("/take-off")).doesNotContain("/instead/w1/said").contains("Round sign");
    }

    @Test
    void takenOverItIsTheTakeOffAndTheOneBeforeComesBack() {
        Map<String, String> form = typed(FRAME, "instead take w2");
        form.put("/instead/w1/said", "3 mm");
        form.put("/instead/w2/said", "DC04");
        assertThat(Person.target(post("/take-off", form))).isEqualTo("/take-off?typed");
        assertThat(page("/take-off"))
                .containsPattern("value=\"DC04\" selected")
                .contains("Taken over: <b>DC04</b>", "name=\"/instead/w1/said\"")
                .contains("value=\"Harbour Theatre\"")
                .doesNotContain("/instead/w2/said");
        post("/take-off", Map.of("do", "before"));
        assertThat(page("/take-off"))
                .containsPattern("value=\"AL99.5-O\" selected")
                .contains("/instead/w2/said");
    }

    @Test
    void keptAsARouteItStandsBesideInTheQuoteToo() {
        String quote = Person.target(post("/take-off", typed(FRAME, "save")));
        String item = quote + "/items/1";
        Map<String, String> form = typed(FRAME, "instead route w1");
        form.put("/instead/w1/said", "Ø 800");
        form.put("/version", SavingPagesTests.version(page(item)));
        assertThat(Person.target(post(item, form))).isEqualTo(item + "/routes");
        assertThat(page(item + "/routes")).contains("value=\"Ø 800\"", "Cost against quantity");
        form.put("do", "save");
        assertThat(Person.target(post(item, form))).isEqualTo(quote);
        TakeOff kept =
                shop.user(Role.OWNER)
                        .call(() -> quotes.get(quote.substring("/quotes/".length())))
                        .document()
                        .items()
                        .get(0)
                        .alternatives()
                        .get(0)
                        .takeOff();
        assertThat(kept)
                .isEqualTo(
                        Variants.beside(
                                        FRAME,
                                        strokewright.estimate.Estimating.estimate(
                                                FRAME, Guard.BOOK),
                                        Guard.BOOK)
                                .of(Variant.ofDiameter(800), "")
                                .takeOff());
    }

    @Test
    void whatIsNotCompleteCannotBeTaken() {
        Map<String, String> form = typed(FRAME, "instead take w1");
        form.put("/instead/w1/said", "DC04");
        form.put("/parts/p1/thicknessMm", "thin");
        assertThat(Person.target(post("/take-off", form))).isEqualTo("/take-off?typed");
        assertThat(page("/take-off")).contains("cannot be taken while something is missing");
        form.put("do", "instead take w77");
        assertThat(post("/take-off", form).statusCode()).isEqualTo(302);
    }

    @Test
    void theElevenVariantIsOneTooMany() {
        Map<String, String> form = typed(FRAME, "instead add 1 mm");
        for (int i = 1; i <= Variants.MOST; i++) {
            form.put("/instead/w" + i + "/said", i + " mm");
        }
        post("/take-off", form);
        assertThat(page("/take-off")).contains("is one too many: take one out first");
    }

    @Test
    void thePanelAnswersAloneAndOnlyToWhoEstimates() {
        Map<String, String> form = typed(FRAME, "instead add steel");
        HttpResponse<String> answer = estimator.submit("/take-off", "/take-off/instead", form);
        assertThat(answer.statusCode()).isEqualTo(200);
        assertThat(answer.body())
                .contains("Low-carbon steel", "id=\"f-instead-fault\"")
                .doesNotContain("<html");
        Person floor = signedIn(Role.FLOOR);
        assertThat(floor.submit("/me", "/take-off/instead", form).statusCode()).isEqualTo(403);
        String item = Person.target(post("/take-off", typed(FRAME, "save"))) + "/items/1";
        TestShop other = openShop();
        Person stranger = new Person(port());
        stranger.signIn(other.user(Role.ESTIMATOR).userName(), TestShop.PASSWORD);
        assertThat(
                        stranger.submit("/take-off", item, typed(FRAME, "instead route w1"))
                                .statusCode())
                .isEqualTo(404);
    }

    private String page(String path) {
        HttpResponse<String> answer = estimator.open(path);
        assertThat(answer.statusCode()).isEqualTo(200);
        return answer.body();
    }

    private HttpResponse<String> post(String path, Map<String, String> form) {
        return estimator.submit(path, path, form);
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
