package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
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

        JsonNode edge = formed(estimate);
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
                                    + quantity.at("/runMinutes").asDouble()
                                    + quantity.at("/reserveMinutes").asDouble(),
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

    /** The price that the shop would ask leaves its own profit and its own hours. */
    @Test
    void tellsWhatAMarketsPriceLeaves() {
        TestShop shop = openShop();
        JsonNode planned = estimate(shop, FRAME).at("/quantities/2");
        JsonNode own = market(shop, 5, "priceEach", planned.at("/priceEach/amount").asString());
        JsonNode total = market(shop, 5, "priceTotal", "1000.00");

        assertThat(own.at("/offer")).isEqualTo(planned.at("/price/offer"));
        assertThat(own.at("/total")).isEqualTo(planned.at("/cost/total"));
        assertThat(own.at("/profitPercent").asDouble()).isCloseTo(12, within(0.01));
        assertThat(own.at("/atSchemeProfit/share").asDouble()).isCloseTo(1, within(1e-3));
        assertThat(own.at("/labourHours").asDouble())
                .isCloseTo(planned.at("/priceHours").asDouble(), within(1e-9));
        assertThat(own.at("/words").size()).isEqualTo(4);
        assertThat(total.at("/offer/amount").asString()).isEqualTo("1000.00");
        assertThat(total.at("/priceEach/amount").asString()).isEqualTo("200.00");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "{} | /takeOff /priceEach",
                "{'takeOff':{},'priceEach':{'amount':'9','currency':'EUR'}} | /takeOff/parts",
                "{'takeOff':FRAME,'quantity':0,'priceEach':{'amount':'0','currency':'USD'}} |"
                        + " /quantity /priceEach/amount /priceEach/currency",
                "{'takeOff':FRAME,'priceEach':{'amount':'9','currency':'EUR'},"
                        + "'priceTotal':{'amount':'0','currency':'EUR'}} |"
                        + " /priceTotal /priceTotal/amount",
            })
    void namesEveryFaultOfAnAskedPrice(String asked, String pointers) {
        JsonNode problem =
                openShop()
                        .as(Role.ESTIMATOR)
                        .post()
                        .uri("/api/v1/estimates/market-price")
                        .contentType(MediaType.APPLICATION_JSON)
                        .body(asked.replace('\'', '"').replace("FRAME", FRAME))
                        .exchange()
                        .expectStatus()
                        .isBadRequest()
                        .expectBody(JsonNode.class)
                        .returnResult()
                        .getResponseBody();

        assertThat(problem.at("/errors").valueStream().map(e -> e.at("/pointer").asString()))
                .containsExactlyInAnyOrder(pointers.split(" "));
    }

    private static JsonNode market(TestShop shop, int quantity, String field, String amount) {
        return shop.as(Role.ESTIMATOR)
                .post()
                .uri("/api/v1/estimates/market-price")
                .contentType(MediaType.APPLICATION_JSON)
                .body(
                        "{\"takeOff\":%s,\"quantity\":%d,\"%s\":{\"amount\":\"%s\",\"currency\":\"EUR\"}}"
                                .formatted(FRAME, quantity, field, amount))
                .exchange()
                .expectStatus()
                .isOk()
                .expectBody(JsonNode.class)
                .returnResult()
                .getResponseBody();
    }

    /** The first line that is formed; what the rules propose before it stands before it. */
    private static JsonNode formed(JsonNode estimate) {
        return estimate.at("/operations").values().stream()
                .filter(line -> !line.at("/type").asString().equals("standard"))
                .findFirst()
                .orElseThrow();
    }

    private static final String PATH = "M0 0H200\\n\\tA300 300 0 0 1 500 300\\r\\nV500";

    @Test
    void followsAnOutlineWrittenOnSeveralLinesOrHandedOverAsAnElementOrFile() {
        TestShop shop = openShop();
        JsonNode plain = estimate(shop, following(PATH));
        assertThat(formed(plain).at("/outline/lengthMm").asDouble())
                .isCloseTo(400 + Math.PI * 150, within(1e-3));
        JsonNode element = estimate(shop, following("<path d='" + PATH + "'/>"));
        JsonNode file =
                estimate(
                        shop,
                        following(
                                "<svg width='10in' viewBox='0 0 254 99'>\\n<path d='"
                                        + PATH
                                        + "'/></svg>"));
        for (JsonNode other : List.of(element, file)) {
            assertThat(formed(other).at("/outline/lengthMm").asDouble())
                    .isCloseTo(400 + Math.PI * 150, within(1e-3));
            assertThat(formed(other).at("/strokes").asLong())
                    .isEqualTo(formed(plain).at("/strokes").asLong());
        }
    }

    @Test
    void keepsPathDataOfAnOutlineThatCameAsAFile() {
        JsonNode quote =
                openShop()
                        .as(Role.ESTIMATOR)
                        .post()
                        .uri("/api/v1/quotes")
                        .contentType(MediaType.APPLICATION_JSON)
                        .body(
                                "{\"customer\":{\"name\":\"Harbour Theatre\"},\"items\":[{\"title\":\"Bow\","
                                        + "\"takeOff\":"
                                        + following("<svg><path d='m 9 9 h 90'/></svg>")
                                        + "}]}")
                        .exchange()
                        .expectStatus()
                        .isCreated()
                        .expectBody(JsonNode.class)
                        .returnResult()
                        .getResponseBody();
        assertThat(quote.at("/items/0/takeOff/parts/0/operations/0/path").asString())
                .isEqualTo("M9 9L99 9");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "round 300                              | is not SVG path data",
                "<svg><path d='M0 0h9'>                 | cannot be read as SVG: line 1 is not XML",
                "<svg><text>300</text></svg>            | draws no outline",
                "<!DOCTYPE svg [<!ENTITY a SYSTEM 'file:///etc/hostname'>]><svg>&a;</svg> |"
                        + " declares entities of its own",
                "M0 0                                   | draws nothing",
            })
    void saysWhatIsWrongWithAnOutline(String path, String why) {
        assertThat(refused(following(path)))
                .singleElement()
                .satisfies(
                        e -> {
                            assertThat(e.at("/pointer").asString())
                                    .isEqualTo("/parts/0/operations/0/path");
                            assertThat(e.at("/message").asString()).startsWith(why);
                        });
    }

    @Test
    void refusesAnOutlineOfMoreThanFiftyThousandCharacters() {
        String longest = "M0 0" + "h1".repeat(24_998);
        assertThat(formed(estimate(openShop(), following(longest))).at("/type").asString())
                .isEqualTo("follow-outline");
        assertThat(refused(following(longest + " ")))
                .extracting(e -> e.at("/message").asString())
                .containsExactly("must have at most 50,000 characters and has 50,001");
    }

    @Test
    void linesAreBrokenInAnOutlineAloneAndNothingElseIsLetThrough() {
        assertThat(refused(following("M0 0h9\\u0000"))).hasSize(1);
        assertThat(refused(following(PATH).replace("\"Bow\"", "\"Bow\\nline\"")))
                .extracting(e -> e.at("/pointer").asString())
                .containsExactly("/parts/0/name");
    }

    private static String following(String path) {
        return """
        {"parts":[{"name":"Bow","grade":"AL99.5-O","thicknessMm":2.0,
          "blank":{"lengthMm":1250,"widthMm":80},"surface":"hidden",
          "operations":[{"type":"follow-outline","path":"%s","heightMm":30}]}]}
        """
                .formatted(path);
    }

    private List<JsonNode> refused(String takeOff) {
        JsonNode problem =
                openShop()
                        .as(Role.ESTIMATOR)
                        .post()
                        .uri("/api/v1/estimates")
                        .contentType(MediaType.APPLICATION_JSON)
                        .body(takeOff)
                        .exchange()
                        .expectStatus()
                        .isBadRequest()
                        .expectBody(JsonNode.class)
                        .returnResult()
                        .getResponseBody();
        return List.copyOf(problem.at("/errors").values());
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
