package strokewright.shopbook;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.CookieManager;
import java.net.HttpCookie;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Documents;
import strokewright.access.Role;
import strokewright.access.SignedIn;
import strokewright.estimate.ShopBook;

class ShopBookPageTests extends ServiceTest {

    @Autowired private ShopBooks books;
    @Autowired private Documents documents;

    @Test
    void showsEveryPartWithItsOriginAndMarksWhatIsNotMeasured() throws Exception {
        Visit visit = new Visit(openShop(), Role.ESTIMATOR);
        String page = visit.page("/shop-book");
        ShopBook book = visit.who.call(books::current);
        book.grades().forEach(g -> assertThat(page).contains(g.code(), escaped(g.origin())));
        book.machines().forEach(m -> assertThat(page).contains(m.name()));
        book.tools().forEach(t -> assertThat(page).contains(t.name(), escaped(t.origin())));
        book.standards().forEach(s -> assertThat(page).contains(s.name(), escaped(s.origin())));
        book.workCentres().forEach(c -> assertThat(page).contains(escaped(c.origin())));
        assertThat(page)
                .contains("edition <span>1</span>")
                .contains("<span class=\"state draft\">assumed</span>")
                .contains("<span class=\"state draft\">common practice</span>")
                .contains("<span class=\"state draft\">invented</span>")
                .contains("5.50\u00a0EUR", "42.10\u00a0EUR")
                .contains("<td class=\"n\">1.2</td>") // a bite of 0.012 in per cent
                .contains("Starter book")
                .contains("Mark-up on material")
                .doesNotContain("Trade discount")
                .contains("aria-current=\"page\">Shop book</a>")
                .doesNotContain("style=\"");
    }

    @Test
    void warnsWhereTheWorkCanHurt() throws Exception {
        String page = new Visit(openShop(), Role.OWNER).page("/shop-book");
        assertThat(page)
                .contains("Aluminium does not glow")
                .contains("Zinc fume")
                .contains("chromium(VI)")
                .contains("Pinch points")
                .contains("Over 25 kg: two people")
                .contains("Acid");
    }

    @Test
    void tellsDoubtsInWordsAndAnOldEditionApart() throws Exception {
        Visit visit = new Visit(openShop(), Role.OWNER);
        String weak =
                documents
                        .write(visit.who.call(books::current))
                        .replace("\"hardeningExponent\":0.31", "\"hardeningExponent\":0.1");
        ShopBook doubtful = documents.read(weak, ShopBook.class);
        visit.who.run(() -> books.change(doubtful, "\"1\"", "weaker n"));
        assertThat(visit.page("/shop-book"))
                .contains("edition <span>2</span>")
                .contains(
                        "ALMG3-O: K and n imply a tensile strength of 309 MPa, 44 % over the stated"
                                + " 215 MPa.")
                .contains("weaker n")
                .doesNotContain("An old edition");
        assertThat(visit.page("/shop-book/editions/1"))
                .contains("An old edition")
                .contains("edition <span>1</span>")
                .doesNotContain("ALMG3-O: K and n imply");
    }

    /** A rate and an allowance that are left out are shown as they are built, with the steps. */
    @Test
    void showsWhatIsBuiltWhereNothingIsStated() throws Exception {
        Visit visit = new Visit(openShop(), Role.OWNER);
        String left =
                documents
                        .write(visit.who.call(books::current))
                        .replace("\"labourRate\":{\"amount\":\"42.10\",\"currency\":\"EUR\"},", "")
                        .replace("\"machineAllowancePercent\":18.0,", "")
                        .replace(
                                "\"machineAllowanceBasis\":null",
                                "\"machineAllowanceBasis\":{\"standing\":true}");
        ShopBook built = documents.read(left, ShopBook.class);
        visit.who.run(() -> books.change(built, "\"1\"", "built"));

        assertThat(visit.page("/shop-book"))
                .contains("42.10\u00a0EUR", "Forming, labour: how it is built")
                .contains("Cutting, labour: stated, and how it is built")
                .contains("Allowance at the forming machine: how it is built")
                .contains("<span>11</span> <span class=\"unit\">%</span>")
                .contains("Where each idle minute is paid");
    }

    @Test
    void isNotForEveryone() throws Exception {
        assertThat(new Visit(openShop(), Role.OFFICE).get("/shop-book").statusCode())
                .isEqualTo(403);
        assertThat(new Visit(openShop(), Role.ESTIMATOR).get("/shop-book/editions/7").statusCode())
                .isEqualTo(404);
    }

    private static String escaped(String text) {
        return text.replace("&", "&amp;").replace("'", "&#39;");
    }

    /** Somebody in a browser: signs in by the form, keeps the session. */
    private class Visit {

        private final SignedIn who;
        private final CookieManager cookies = new CookieManager();
        private final HttpClient client = HttpClient.newBuilder().cookieHandler(cookies).build();

        Visit(TestShop shop, Role role) throws Exception {
            who = shop.user(role);
            get("/sign-in");
            String form =
                    "username="
                            + encoded(who.userName())
                            + "&password="
                            + encoded(TestShop.PASSWORD);
            HttpResponse<String> answer =
                    send(
                            HttpRequest.newBuilder(at("/sign-in"))
                                    .header("Content-Type", "application/x-www-form-urlencoded")
                                    .header("X-XSRF-TOKEN", cookie("XSRF-TOKEN"))
                                    .POST(HttpRequest.BodyPublishers.ofString(form)));
            assertThat(answer.headers().firstValue("Location").orElse("")).endsWith("/");
        }

        String page(String path) throws Exception {
            HttpResponse<String> answer = get(path);
            assertThat(answer.statusCode()).isEqualTo(200);
            return answer.body();
        }

        HttpResponse<String> get(String path) throws Exception {
            return send(HttpRequest.newBuilder(at(path)).header("Accept", "text/html"));
        }

        private HttpResponse<String> send(HttpRequest.Builder request) throws Exception {
            return client.send(request.build(), HttpResponse.BodyHandlers.ofString());
        }

        private URI at(String path) {
            return URI.create("http://localhost:" + port() + path);
        }

        private String cookie(String name) {
            return cookies.getCookieStore().getCookies().stream()
                    .filter(c -> c.getName().equals(name))
                    .map(HttpCookie::getValue)
                    .findFirst()
                    .orElseThrow();
        }
    }

    private static String encoded(String text) {
        return URLEncoder.encode(text, StandardCharsets.UTF_8);
    }
}
