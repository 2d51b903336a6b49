package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.springframework.http.MediaType;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import tools.jackson.databind.JsonNode;

/** The round sign frame priced over HTTP with the starter shop book. */
class EstimatesApiTests extends ServiceTest {

    private static final String FRAME =
            """
            {"title":"Round sign frame","information":"drawing","quantities":[1,2,5],"mainQuantity":1,
             "parts":[{"name":"Rim","grade":"AL99.5-O","thicknessMm":2.0,
               "blank":{"lengthMm":1950,"widthMm":120},"surface":"visible","edge":"dressed",
               "operations":[
                {"type":"curve-edge","sense":"shrink","lengthMm":1885,"radiusMm":300,"heightMm":40},
                {"type":"standard","standard":"Guillotine cut","amount":4}]}],
             "extras":[{"name":"Powder coat","per":"order","kind":"bought-out",
               "cost":{"amount":"85.00","currency":"EUR"}}]}
            """;

    @Test
    void pricesTheRoundSignFrame() {
        JsonNode estimate = estimate(openShop(), FRAME);

        JsonNode edge = estimate.at("/operations/0");
        assertThat(estimate.at("/shopBookEdition").asInt()).isEqualTo(1);
        assertThat(estimate.at("/feasible").asBoolean()).isTrue();
        // |ln(1 − 40/300)|, from the drawing alone
        assertThat(edge.at("/strains").values().iterator().next().asDouble())
                .isCloseTo(-Math.log(1 - 40.0 / 300), within(1e-12));
        assertThat(edge.at("/why").size()).isGreaterThan(5);
        assertThat(estimate.at("/quantities").size()).isEqualTo(3);
        for (JsonNode quantity : estimate.at("/quantities").values()) {
            assertThat(quantity.at("/hours/plan").asDouble() * 60)
                    .isCloseTo(
                            quantity.at("/setupMinutes").asDouble()
                                    + quantity.at("/runMinutes").asDouble(),
                            within(1e-9));
            assertThat(quantity.at("/cost/specialDirect/amount").asString()).isEqualTo("85.00");
            assertThat(quantity.at("/priceEach/currency").asString()).isEqualTo("EUR");
        }
    }

    @Test
    void namesEveryFaultWhereItStands() {
        String faulty =
                FRAME.replace("\"AL99.5-O\"", "\"tin\"")
                        .replace("\"radiusMm\":300", "\"radiusMm\":-300")
                        .replace("\"EUR\"", "\"USD\"");
        JsonNode problem =
                openShop()
                        .as(Role.ESTIMATOR)
                        .post()
                        .uri("/api/v1/estimates")
                        .contentType(MediaType.APPLICATION_JSON)
                        .body(faulty)
                        .exchange()
                        .expectStatus()
                        .isBadRequest()
                        .expectHeader()
                        .contentType(MediaType.APPLICATION_PROBLEM_JSON)
                        .expectBody(JsonNode.class)
                        .returnResult()
                        .getResponseBody();

        assertThat(problem.at("/errors").values())
                .extracting(e -> e.at("/pointer").asString())
                .containsExactly(
                        "/parts/0/grade",
                        "/parts/0/operations/0/radiusMm",
                        "/extras/0/cost/currency");
    }

    @Test
    void isForThoseWhoPrice() {
        TestShop shop = openShop();
        for (Role role : Role.values()) {
            boolean mayPrice = role == Role.ESTIMATOR || role == Role.OWNER;
            shop.as(role)
                    .post()
                    .uri("/api/v1/estimates")
                    .contentType(MediaType.APPLICATION_JSON)
                    .body(FRAME)
                    .exchange()
                    .expectStatus()
                    .isEqualTo(mayPrice ? 200 : 403);
        }
    }

    private static JsonNode estimate(TestShop shop, String takeOff) {
        return shop.as(Role.ESTIMATOR)
                .post()
                .uri("/api/v1/estimates")
                .contentType(MediaType.APPLICATION_JSON)
                .body(takeOff)
                .exchange()
                .expectStatus()
                .isOk()
                .expectBody(JsonNode.class)
                .returnResult()
                .getResponseBody();
    }
}
