package strokewright.comparison;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.util.Objects;
import java.util.UUID;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpMethod;
import org.springframework.http.MediaType;
import org.springframework.test.web.servlet.client.EntityExchangeResult;
import org.springframework.test.web.servlet.client.RestTestClient;
import strokewright.TestShop;
import strokewright.access.Role;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** A shop whose jobs are compared, asked over HTTP. */
public final class ComparingShop {

    static final JsonMapper JSON = JsonMapper.builder().build();

    private final TestShop shop;

    public ComparingShop(TestShop shop) {
        this.shop = shop;
    }

    TestShop shop() {
        return shop;
    }

    /** Without allowance, practice and reserve, so that minutes are what they are typed as. */
    static ObjectNode plainBook() {
        try (InputStream in =
                Objects.requireNonNull(
                        ComparingShop.class.getResourceAsStream("/take-off/shop-book.json"))) {
            ObjectNode book = (ObjectNode) JSON.readTree(in);
            book.remove("edition");
            book.set(
                    "times",
                    JSON.readTree(
                            """
                            {"machineAllowancePercent":0,"benchAllowancePercent":0,
                             "practiceSlope":1,"reserveOnePercent":0,"reserveMorePercent":0}
                            """));
            book.set("priceScheme", JSON.readTree("{\"kind\":\"simple\",\"priceFrom\":\"plan\"}"));
            return book;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    void useBook(JsonNode book) {
        EntityExchangeResult<JsonNode> now =
                shop.as(Role.OWNER)
                        .get()
                        .uri("/api/v1/shop-book")
                        .exchange()
                        .expectBody(JsonNode.class)
                        .returnResult();
        answer(
                Role.OWNER,
                "PUT",
                "/shop-book",
                now.getResponseHeaders().getETag(),
                book.toString(),
                200);
    }

    /** A job that somebody said yes to, without a quote. */
    public JsonNode job(String fields) {
        return post(
                Role.OFFICE,
                "/jobs",
                "{\"kind\":\"verbal\",\"customer\":\"Harbour Theatre\",%s}".formatted(fields));
    }

    void costRate(Role of, String perHour, String from) {
        String path = "/people/" + shop.user(of).userId() + "/cost-rate";
        answer(
                Role.OWNER,
                "PUT",
                path,
                "*",
                """
                {"validFrom":"%s","perHour":{"amount":"%s","currency":"EUR"}}
                """
                        .formatted(from, perHour),
                200);
    }

    public void book(Role who, String job, String fields) {
        post(who, "/jobs/" + job + "/bookings", withId(fields));
    }

    public void finish(String job, String body) {
        answer(Role.OFFICE, "POST", "/jobs/" + job + "/start", null, null, 200);
        answer(Role.OFFICE, "POST", "/jobs/" + job + "/finish", null, body, 200);
    }

    static String withId(String fields) {
        return "{\"id\":\"%s\",%s}".formatted(UUID.randomUUID(), fields);
    }

    public JsonNode post(Role role, String path, String body) {
        return answer(role, "POST", path, null, body, 201);
    }

    JsonNode get(Role role, String path) {
        return answer(role, "GET", path, null, null, 200);
    }

    public JsonNode answer(
            Role role, String method, String path, String ifMatch, String body, int status) {
        RestTestClient.RequestBodySpec request =
                shop.as(role)
                        .method(HttpMethod.valueOf(method))
                        .uri("/api/v1" + path)
                        .headers(
                                h -> {
                                    if (ifMatch != null) {
                                        h.set(HttpHeaders.IF_MATCH, ifMatch);
                                    }
                                });
        EntityExchangeResult<JsonNode> answer =
                (body == null
                                ? request
                                : request.contentType(MediaType.APPLICATION_JSON).body(body))
                        .exchange()
                        .expectBody(JsonNode.class)
                        .returnResult();
        assertThat(answer.getStatus().value())
                .as(method + " " + path + " " + body + ": " + answer.getResponseBody())
                .isEqualTo(status);
        return answer.getResponseBody();
    }

    static BigDecimal money(JsonNode of, String pointer) {
        assertThat(of.at(pointer).isMissingNode()).as(pointer + " of " + of).isFalse();
        return new BigDecimal(of.at(pointer + "/amount").asString());
    }

    static BigDecimal number(JsonNode of, String pointer) {
        assertThat(of.at(pointer).isMissingNode()).as(pointer + " of " + of).isFalse();
        return of.at(pointer).decimalValue();
    }
}
