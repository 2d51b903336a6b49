package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.http.MediaType;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.costing.PriceScheme;
import strokewright.estimate.ShopBook;
import strokewright.shopbook.ShopBooks;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Other routes over HTTP with the starter shop book. */
class RoutesApiTests extends ServiceTest {

    @Autowired private ShopBooks books;

    static final String RIM =
            """
            {"title":"Rim","quantities":[1,10,300],"parts":[{"name":"Rim","grade":"AL99.5-O","thicknessMm":1.5,
              "blank":{"lengthMm":1945,"widthMm":120},
              "operations":[
               {"type":"curve-edge","sense":"shrink","lengthMm":1885,"radiusMm":300,"heightMm":40}]}]}""";

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{\"type\":\"segments-welded\",\"segments\":3}",
                "{\"type\":\"heat-shrunk-by-hand\"}",
                "{\"type\":\"press-tool\",\"cost\":{\"amount\":\"2400.00\",\"currency\":\"EUR\"}}"
            })
    void whatIsBegunCanBeComparedAtOnce(String start) {
        TestShop shop = openShop();
        JsonNode begun =
                post(
                        shop,
                        "/api/v1/routes/start",
                        "{\"takeOff\":" + RIM + ",\"start\":" + start + "}",
                        200);
        assertThat(begun.at("/notes").values()).isNotEmpty();
        JsonNode compared =
                post(
                        shop,
                        "/api/v1/routes",
                        routes(
                                "{\"name\":\"As drawn\",\"takeOff\":" + RIM + "}",
                                begun.get("route").toString()),
                        200);
        assertThat(compared.at("/upToQuantity").asInt()).isEqualTo(1000);
        assertThat(compared.at("/routes").values())
                .allSatisfy(
                        r -> {
                            assertThat(r.at("/feasible").asBoolean()).isTrue();
                            assertThat(r.at("/quantities").values())
                                    .extracting(q -> q.at("/quantity").asInt())
                                    .contains(1, 10, 300, 1000);
                        });
        List<JsonNode> ranges = List.copyOf(compared.at("/cheapest").values());
        assertThat(ranges.get(0).at("/fromQuantity").asInt()).isEqualTo(1);
        assertThat(ranges.get(ranges.size() - 1).at("/toQuantity").asInt()).isEqualTo(1000);
        JsonNode priced = post(shop, "/api/v1/estimates", RIM, 200);
        shop.user(Role.OWNER).run(() -> books.carryOn(RoutesApiTests::pricedFromPlan, "plan"));
        JsonNode planned = post(shop, "/api/v1/estimates", RIM, 200);
        JsonNode ten =
                compared.at("/routes/0/quantities").values().stream()
                        .filter(q -> q.at("/quantity").asInt() == 10)
                        .findFirst()
                        .orElseThrow();
        assertThat(ten.at("/cost")).isEqualTo(planned.at("/quantities/1/cost/total"));
        assertThat(ten.at("/priceEach")).isEqualTo(priced.at("/quantities/1/priceEach"));
    }

    private static ShopBook pricedFromPlan(ShopBook book) {
        ObjectNode scheme = Situations.JSON.valueToTree(book.priceScheme());
        scheme.put("priceFrom", "plan");
        return book.withPriceScheme(Situations.JSON.treeToValue(scheme, PriceScheme.class));
    }

    @Test
    void faultsNameTheRouteAndTheFieldInIt() {
        TestShop shop = openShop();
        String bad = RIM.replace("AL99.5-O", "tin");
        assertThat(
                        pointers(
                                post(
                                        shop,
                                        "/api/v1/routes",
                                        routes(
                                                "{\"name\":\"A\",\"takeOff\":" + RIM + "}",
                                                "{\"name\":\"A\",\"takeOff\":" + bad + "}"),
                                        400)))
                .containsExactlyInAnyOrder("/routes/1/name", "/routes/1/takeOff/parts/0/grade");
        assertThat(pointers(post(shop, "/api/v1/routes", "{}", 400))).containsExactly("/routes");
        assertThat(pointers(post(shop, "/api/v1/routes", "{\"routes\":[null,null]}", 400)))
                .containsExactlyInAnyOrder("/routes/0", "/routes/1");
        assertThat(pointers(post(shop, "/api/v1/routes/start", "{}", 400)))
                .containsExactlyInAnyOrder("/takeOff", "/start");
        assertThat(
                        pointers(
                                post(
                                        shop,
                                        "/api/v1/routes/start",
                                        "{\"takeOff\":" + RIM + ",\"start\":{\"type\":\"laser\"}}",
                                        400)))
                .containsExactly("/start/type");
    }

    static String routes(String... routes) {
        return "{\"routes\":[" + String.join(",", routes) + "]}";
    }

    private static List<String> pointers(JsonNode problem) {
        return problem.at("/errors").values().stream()
                .map(e -> e.at("/pointer").asString())
                .toList();
    }

    private static JsonNode post(TestShop shop, String path, String body, int status) {
        return shop.as(Role.ESTIMATOR)
                .post()
                .uri(path)
                .contentType(MediaType.APPLICATION_JSON)
                .body(body)
                .exchange()
                .expectStatus()
                .isEqualTo(status)
                .expectBody(JsonNode.class)
                .returnResult()
                .getResponseBody();
    }
}
