package strokewright.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.springframework.http.HttpMethod;
import org.springframework.http.MediaType;
import org.springframework.test.web.servlet.client.EntityExchangeResult;
import org.springframework.test.web.servlet.client.RestTestClient;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import tools.jackson.databind.JsonNode;

/** Asks for jobs over HTTP, each test in a shop of its own. */
abstract class JobAsking extends ServiceTest {

    TestShop shop;

    @BeforeEach
    void newShop() {
        shop = openShop();
    }

    /** The number of a quote with one item in the given quantities of which one was ordered. */
    String accepted(String request, int quantity) {
        String quote = post(Role.ESTIMATOR, "/quotes", request).at("/number").asString();
        ok("POST", "/quotes/" + quote + "/issue", null);
        ok(
                "POST",
                "/quotes/" + quote + "/accept",
                "{\"items\":[{\"position\":1,\"quantity\":" + quantity + "}]}");
        return quote;
    }

    JsonNode released(String quote) {
        return post(Role.OFFICE, "/jobs", "{\"quote\":\"" + quote + "\"}");
    }

    /** A body with an id of its own in front. */
    static String withId(String fields) {
        return "{\"id\":\"%s\",%s}".formatted(UUID.randomUUID(), fields);
    }

    JsonNode post(Role role, String path, String body) {
        return answer(role, "POST", path, body, 201);
    }

    JsonNode ok(String method, String path, String body) {
        return answer(Role.OFFICE, method, path, body, 200);
    }

    JsonNode get(Role role, String path) {
        return answer(role, "GET", path, null, 200);
    }

    JsonNode answer(Role role, String method, String path, String body, int status) {
        RestTestClient.RequestBodySpec request =
                shop.as(role).method(HttpMethod.valueOf(method)).uri("/api/v1" + path);
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
}
