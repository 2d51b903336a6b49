package strokewright.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.util.Map;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.http.HttpMethod;
import org.springframework.http.MediaType;
import org.springframework.test.web.servlet.client.RestTestClient;
import strokewright.Person;
import strokewright.ServiceTest;
import strokewright.TestShop;

@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class AccessRulesTests extends ServiceTest {

    private TestShop shop;

    @BeforeAll
    void open() {
        shop = openShop();
    }

    /** "yes" is anything but a refusal: a body that is missing may well be faulted. */
    @ParameterizedTest(name = "{0} {1}: estimator {2}, owner {3}, office {4}, floor {5}")
    @CsvSource({
        "GET,    /api/v1/tokens,                      yes, yes, yes, yes",
        "POST,   /api/v1/estimates,                   yes, yes, no,  no",
        "POST,   /api/v1/estimates/market-price,      yes, yes, no,  no",
        "POST,   /api/v1/routes,                      yes, yes, no,  no",
        "POST,   /api/v1/routes/start,                yes, yes, no,  no",
        "POST,   /api/v1/shapes,                      yes, yes, no,  no",
        "GET,    /api/v1/shop-book,                   yes, yes, no,  no",
        "GET,    /api/v1/shop-book/editions/1,        yes, yes, no,  no",
        "PUT,    /api/v1/shop-book,                   no,  yes, no,  no",
        "GET,    /api/v1/shop-book/sheets,            yes, yes, no,  no",
        "POST,   /api/v1/shop-book/sheets/import,     no,  yes, no,  no",
        "GET,    /api/v1/learning/test-strips,        yes, yes, no,  no",
        "POST,   /api/v1/learning/test-strips,        yes, yes, no,  no",
        "POST,   /api/v1/learning/test-strips/7/adopt, no, yes, no,  no",
        "GET,    /api/v1/customers,                   yes, yes, yes, no",
        "POST,   /api/v1/customers,                   yes, yes, yes, no",
        "GET,    /api/v1/quotes,                      yes, yes, yes, no",
        "GET,    /api/v1/quotes/Q-2026-0001,          yes, yes, yes, no",
        "POST,   /api/v1/quotes,                      yes, yes, no,  no",
        "PUT,    /api/v1/quotes/Q-2026-0001,          yes, yes, no,  no",
        "POST,   /api/v1/quotes/Q-2026-0001/issue,    yes, yes, yes, no",
        "GET,    /api/v1/jobs/J-2026-0001/comparison, yes, yes, yes, no",
        "GET,    /api/v1/comparison,                  yes, yes, yes, no",
        "GET,    /api/v1/people,                      no,  yes, no,  no",
        "GET,    /api/v1/owner,                       no,  yes, no,  no",
        "POST,   /api/v1/something-new,               no,  yes, no,  no",
    })
    void programs(
            HttpMethod method,
            String path,
            String estimator,
            String owner,
            String office,
            String floor) {
        Map<Role, String> wanted =
                Map.of(
                        Role.ESTIMATOR, estimator,
                        Role.OWNER, owner,
                        Role.OFFICE, office,
                        Role.FLOOR, floor);
        wanted.forEach(
                (role, may) -> {
                    int status =
                            shop.as(role)
                                    .method(method)
                                    .uri(path)
                                    .exchange()
                                    .returnResult(byte[].class)
                                    .getStatus()
                                    .value();
                    if (may.equals("no")) {
                        assertThat(status).as("%s", role).isEqualTo(403);
                    } else {
                        assertThat(status).as("%s", role).isNotIn(401, 403).isLessThan(500);
                    }
                });
    }

    @ParameterizedTest(name = "{0}: estimator {1}, owner {2}, office {3}, floor {4}")
    @CsvSource({
        "/me,         yes, yes, yes, yes",
        "/users,      no,  yes, no,  no",
        "/shop-book,  yes, yes, no,  no",
        "/shop-book/differences, yes, yes, no, no",
        "/shop-book/draft, no, yes, no, no",
        "/import/metal-prices, no, yes, no, no",
        "/import/time-standards, no, yes, no, no",
        "/import/customers, yes, yes, yes, no",
        "/export/metal-prices.csv, yes, yes, no, no",
        "/export/time-standards.xlsx, yes, yes, no, no",
        "/export/customers.csv, yes, yes, yes, no",
        "/take-off,   yes, yes, no,  no",
        "/learning/test-strips, yes, yes, no, no",
        "/comparison, yes, yes, yes, no",
        "/comparison/table.csv, yes, yes, yes, no",
        "/people/rates, no, yes, no, no",
        "/owner,      no,  yes, no,  no",
        "/nowhere,    no,  yes, no,  no",
    })
    void people(String path, String estimator, String owner, String office, String floor) {
        Map<Role, String> wanted =
                Map.of(
                        Role.ESTIMATOR, estimator,
                        Role.OWNER, owner,
                        Role.OFFICE, office,
                        Role.FLOOR, floor);
        wanted.forEach(
                (role, may) -> {
                    HttpResponse<String> answer = signedIn(role).open(path);
                    if (may.equals("no")) {
                        assertThat(answer.statusCode()).as("%s", role).isEqualTo(403);
                    } else {
                        assertThat(answer.statusCode())
                                .as("%s", role)
                                .isEqualTo(path.equals("/nowhere") ? 404 : 200);
                    }
                });
    }

    @Test
    void whoeverDoesNotSignInGetsAProblemUnderTheApiAndTheSignInPageElsewhere() {
        RestTestClient stranger = TestShop.stranger(port());
        stranger.get()
                .uri("/api/v1/shop-book")
                .exchange()
                .expectStatus()
                .isUnauthorized()
                .expectHeader()
                .contentType(MediaType.APPLICATION_PROBLEM_JSON)
                .expectHeader()
                .valueMatches("WWW-Authenticate", "Bearer.*");
        HttpResponse<String> page = new Person(port()).open("/shop-book");
        assertThat(page.statusCode()).isEqualTo(302);
        assertThat(Person.target(page)).isEqualTo("/sign-in");
    }

    @Test
    void aRefusedProgramGetsAProblem() {
        shop.as(Role.FLOOR)
                .get()
                .uri("/api/v1/shop-book")
                .exchange()
                .expectStatus()
                .isForbidden()
                .expectHeader()
                .contentType(MediaType.APPLICATION_PROBLEM_JSON)
                .expectBody()
                .jsonPath("$.title")
                .isEqualTo("Not allowed")
                .jsonPath("$.traceId")
                .exists();
    }

    @Test
    void aScriptWhoseSessionIsLostIsToldSo() {
        HttpResponse<String> answer = new Person(port()).open("/take-off", "HX-Request", "true");
        assertThat(answer.statusCode()).isEqualTo(401);
        assertThat(answer.headers().firstValue("HX-Trigger")).contains("signed-out");
    }

    @Test
    void theSessionOfThePagesIsNoWayIntoTheApi() {
        Person estimator = signedIn(Role.ESTIMATOR);
        assertThat(estimator.open("/me").statusCode()).isEqualTo(200);
        assertThat(estimator.open("/api/v1/tokens").statusCode()).isEqualTo(401);
    }

    @Test
    void aTokenOrAPasswordInAHeaderIsNoWayIntoThePages() {
        Person program = new Person(port());
        String token = "Bearer " + shop.token(Role.OWNER);
        assertThat(program.open("/me", "Authorization", token).statusCode()).isEqualTo(302);
        String basic =
                "Basic "
                        + java.util.Base64.getEncoder()
                                .encodeToString(
                                        (shop.user(Role.OWNER).userName() + ":" + TestShop.PASSWORD)
                                                .getBytes());
        assertThat(program.open("/me", "Authorization", basic).statusCode()).isEqualTo(302);
    }

    @Test
    void aFormFromAForeignPageIsRefused() {
        Person owner = signedIn(Role.OWNER);
        assertThat(owner.post("/me/tokens", "name=stolen").statusCode()).isEqualTo(403);
    }

    @Test
    void afterSigningInOneLandsOnThePageThatOneWanted() {
        Person estimator = new Person(port());
        estimator.open("/shop-book");
        HttpResponse<String> answer =
                estimator.signIn(shop.user(Role.ESTIMATOR).userName(), TestShop.PASSWORD);
        assertThat(Person.target(answer)).startsWith("/shop-book");
    }

    @Test
    void capitalsAndSpacesAroundTheUserNameDoNotMatter() {
        String typed = " " + shop.user(Role.OFFICE).userName().toUpperCase() + " ";
        HttpResponse<String> answer = new Person(port()).signIn(typed, TestShop.PASSWORD);
        assertThat(Person.target(answer)).isEqualTo("/");
    }

    @Test
    void everyRoleHasSomewhereToStart() {
        for (Role role : Role.values()) {
            HttpResponse<String> start = signedIn(role).open("/");
            assertThat(start.statusCode()).as("%s", role).isIn(200, 302);
            if (role == Role.FLOOR) {
                assertThat(Person.target(start)).isEqualTo("/book");
            }
        }
    }

    @Test
    void signingOutEndsTheSession() {
        Person owner = signedIn(Role.OWNER);
        assertThat(Person.target(owner.submit("/me", "/sign-out", Map.of())))
                .isEqualTo("/sign-in?out");
        assertThat(owner.open("/me").statusCode()).isEqualTo(302);
    }

    @Test
    void wrongPasswordsAreSlowedDownForProgramsAndPeople() {
        String name = openShop().user(Role.OFFICE).userName();
        Person guesser = new Person(port());
        for (int i = 0; i < 10; i++) {
            assertThat(Person.target(guesser.signIn(name, "wrong guess " + i)))
                    .isEqualTo("/sign-in?fault");
        }
        assertThat(Person.target(guesser.signIn(name, TestShop.PASSWORD)))
                .isEqualTo("/sign-in?wait");
        TestShop.stranger(port())
                .get()
                .uri("/api/v1/tokens")
                .headers(h -> h.setBasicAuth(name, TestShop.PASSWORD))
                .exchange()
                .expectStatus()
                .isEqualTo(429)
                .expectHeader()
                .exists("Retry-After");
        assertThat(signedIn(Role.OWNER).open("/me").statusCode()).isEqualTo(200);
    }

    @Test
    void namesAndPasswordsThatNoDatabaseCouldTakeAreJustWrong() {
        for (String name : new String[] {"a\u0000b", "'; drop table login; --", "x".repeat(2000)}) {
            TestShop.stranger(port())
                    .get()
                    .uri("/api/v1/tokens")
                    .headers(h -> h.setBasicAuth(name, "y".repeat(1000)))
                    .exchange()
                    .expectStatus()
                    .isUnauthorized();
        }
    }

    @Test
    void pagesForbidForeignScriptsFramesAndReferrers() {
        var headers = new Person(port()).open("/sign-in").headers();
        assertThat(headers.firstValue("Content-Security-Policy").orElse(""))
                .contains("default-src 'none'", "script-src 'self'", "frame-ancestors 'none'")
                .doesNotContain("unsafe");
        assertThat(headers.firstValue("X-Content-Type-Options")).contains("nosniff");
        assertThat(headers.firstValue("X-Frame-Options")).contains("DENY");
        assertThat(headers.firstValue("Referrer-Policy")).contains("same-origin");
        assertThat(headers.firstValue("Permissions-Policy").orElse("")).contains("camera=()");
        assertThat(headers.firstValue("Cross-Origin-Opener-Policy")).contains("same-origin");
    }

    @Test
    void theSessionCookieIsOutOfReachOfScriptsAndForeignForms() {
        HttpResponse<String> answer =
                new Person(port()).signIn(shop.user(Role.OWNER).userName(), TestShop.PASSWORD);
        assertThat(answer.headers().allValues("Set-Cookie"))
                .anySatisfy(
                        cookie ->
                                assertThat(cookie)
                                        .startsWith("strokewright=")
                                        .contains("HttpOnly", "SameSite=Lax"));
    }

    @Test
    void withAShopThereIsNoFirstStart() {
        HttpResponse<String> answer = new Person(port()).open("/first-start");
        assertThat(answer.statusCode()).isEqualTo(302);
        assertThat(Person.target(answer)).isEqualTo("/");
    }

    private Person signedIn(Role role) {
        Person person = new Person(port());
        HttpResponse<String> answer = person.signIn(shop.user(role).userName(), TestShop.PASSWORD);
        assertThat(Person.target(answer)).isEqualTo("/");
        return person;
    }
}
