package strokewright.whatif;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.http.MediaType;
import strokewright.Person;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.quote.QuotesApiTests;

/** The effect on open drafts as the owner tries it without scripts. */
class EffectPageTests extends ServiceTest {

    private static final String PAGE = "/quotes/effect";

    private TestShop shop;
    private Person owner;

    @BeforeEach
    void aShopWithADraft() {
        shop = openShop();
        owner = new Person(port());
        owner.signIn(shop.user(Role.OWNER).userName(), TestShop.PASSWORD);
        shop.as(Role.ESTIMATOR)
                .post()
                .uri("/api/v1/quotes")
                .contentType(MediaType.APPLICATION_JSON)
                .body(
                        "{\"customer\":\"Bay\",\"items\":[{\"takeOff\":"
                                + QuotesApiTests.TAKE_OFF
                                + "}]}")
                .exchange()
                .expectStatus()
                .isCreated();
    }

    @Test
    void theCurrentFiguresStandBesideEveryField() {
        String page = owner.open(PAGE).body();
        assertThat(page)
                .contains("Forming, labour", "now 42.10", "DC04", "now 1.50", "Profit", "now 12")
                .doesNotContain("With these changes");
        assertThat(owner.open(PAGE, "Accept-Language", "de").body())
                .contains("now 42,10", "like 45");
    }

    @Test
    void whatIsTypedIsTriedSaidAndStaysInItsFields() {
        String page = tried(Map.of("labour Forming", "+10 %", "metal", "8", "grade DC04", "-5"));
        assertThat(page)
                .contains(
                        "With these changes",
                        "Forming, labour: +10 % (now 42.10)",
                        "All metal: +8\u00a0%",
                        "DC04: \u22125\u00a0%",
                        "1 open draft: 1 dearer.",
                        "value=\"+10 %\"",
                        "row-bar");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "labour Forming|45,00|en|45,00",
                "labour Forming|1.234|de|could be two numbers",
                "labour Forming|abc|en|must be a number",
                "labour Forming|%|en|must be a number",
                "labour Forming|-50|en|must lead to an amount from 0",
                "machine Bench|5 %|en|is a share of a rate of 0",
                "metal|-100|en|must be from -99 to 1000",
                "metal|dear|en|must be a number",
                "share profit|600|en|must lead to a percentage from 0 to 500",
                "share profit|-12.5|en|must lead to a percentage from 0 to 500",
                "learned-new-factor|1.2|en|is missing",
            })
    void readsAsTypedOrTellsBesideTheField(
            String field, String text, String language, String said) {
        HttpResponse<String> answer = submitted(Map.of(field, text), language);
        assertThat(answer.statusCode()).isEqualTo(200);
        assertThat(answer.body()).contains(said, "value=\"" + text + "\"");
        assertThat(answer.body().contains("With these changes")).isEqualTo(said.equals(text));
    }

    @Test
    void aFactorOfAnotherKindOfWorkIsChosen() {
        String page =
                tried(
                        Map.of(
                                "learned-new-kind", "curve-edge",
                                "learned-new-family", "aluminium-soft",
                                "learned-new-factor", "1.25"));
        assertThat(page)
                .contains("Curve an edge, aluminium-soft: ×\u00a01.25", "1 open draft: 1 dearer.");
        assertThat(tried(Map.of("learned-new-kind", "whittle", "learned-new-factor", "1.25")))
                .contains("names no kind of work");
        assertThat(tried(Map.of("learned-new-kind", "dish", "learned-new-factor", "0")))
                .contains("must be from 0.1 to 10");
    }

    @Test
    void nothingTypedIsToldAndAFieldOfAnotherEditionIsLeftAlone() {
        assertThat(tried(Map.of())).contains("Type what is to be tried");
        assertThat(tried(Map.of("labour Nowhere", "9"))).contains("Type what is to be tried");
    }

    @Test
    void theDraftOfTheNextEditionIsOneLinkAwayFromAdoptingIt() {
        assertThat(owner.open(PAGE + "?draft").body()).contains("There is no draft");
        Map<String, String> fields =
                Map.of(
                        "do",
                        "keep",
                        "base",
                        "1",
                        "page",
                        "here",
                        "version",
                        "0",
                        "/minutesPerUnit",
                        "40");
        String part = "/shop-book/draft/standards";
        assertThat(owner.submit(part, part + "/standards/1", fields).statusCode()).isEqualTo(302);
        for (String from : List.of("/shop-book/draft", "/shop-book/draft/adopt")) {
            assertThat(owner.open(from).body()).as(from).contains("href=\"/quotes/effect?draft\"");
        }
        assertThat(owner.open(PAGE + "?draft").body()).contains("With the draft of edition 2");
    }

    @Test
    void whatCannotBeReckonedNamesWhatIsGone() {
        for (String section : List.of("sheets", "grades")) {
            String part = "/shop-book/draft/" + section;
            owner.submit(
                    part,
                    part + "/" + section + "/1",
                    Map.of("do", "remove", "base", "1", "page", "here", "version", "0"));
        }
        assertThat(owner.open(PAGE + "?draft").body())
                .contains("Cannot be reckoned", "Rim, grade AL99.5-O: names no grade")
                .doesNotContain("there are:");
    }

    @Test
    void theLinkInTheListIsTheOwners() {
        assertThat(owner.open("/quotes").body()).contains("href=\"/quotes/effect\"");
        Person estimator = new Person(port());
        estimator.signIn(shop.user(Role.ESTIMATOR).userName(), TestShop.PASSWORD);
        assertThat(estimator.open("/quotes").body()).doesNotContain("/quotes/effect");
    }

    private String tried(Map<String, String> fields) {
        return submitted(fields, "en").body();
    }

    private HttpResponse<String> submitted(Map<String, String> fields, String language) {
        StringBuilder form = new StringBuilder("_csrf=").append(token());
        fields.forEach(
                (name, text) ->
                        form.append('&').append(encoded(name)).append('=').append(encoded(text)));
        return owner.post(PAGE, form.toString(), "Accept-Language", language);
    }

    private String token() {
        return encoded(
                owner.open(PAGE)
                        .body()
                        .replaceFirst("(?s).*name=\"_csrf\" value=\"([^\"]+)\".*", "$1"));
    }

    private static String encoded(String text) {
        return java.net.URLEncoder.encode(text, java.nio.charset.StandardCharsets.UTF_8);
    }
}
