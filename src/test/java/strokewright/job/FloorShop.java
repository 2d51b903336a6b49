package strokewright.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.UUID;
import org.springframework.http.HttpMethod;
import org.springframework.http.MediaType;
import org.springframework.test.web.servlet.client.EntityExchangeResult;
import org.springframework.test.web.servlet.client.RestTestClient;
import strokewright.TestShop;
import strokewright.access.Role;
import tools.jackson.databind.JsonNode;

/** A shop with released jobs, seen over HTTP. */
record FloorShop(TestShop shop) {

    /** Number of a new job of one round sign frame. */
    String job() {
        String quote =
                send(Role.ESTIMATOR, "POST", "/quotes", JobsApiTests.QUOTE, 201)
                        .at("/number")
                        .asString();
        send(Role.OFFICE, "POST", "/quotes/" + quote + "/issue", null, 200);
        send(
                Role.OFFICE,
                "POST",
                "/quotes/" + quote + "/accept",
                "{\"items\":[{\"position\":1,\"quantity\":1}]}",
                200);
        return send(Role.OFFICE, "POST", "/jobs", "{\"quote\":\"" + quote + "\"}", 201)
                .at("/number")
                .asString();
    }

    JsonNode book(String job, String fields, int status) {
        return send(Role.FLOOR, "POST", "/jobs/" + job + "/bookings", fields(fields), status);
    }

    /** With an id of its own making where the fields bring none. */
    static String fields(String fields) {
        String id = fields.contains("\"id\"") ? "" : "\"id\":\"" + UUID.randomUUID() + "\",";
        return "{" + id + fields + "}";
    }

    JsonNode floor(String path, String body, int status) {
        return send(Role.FLOOR, "POST", path, body, status);
    }

    List<JsonNode> bookings(String job) {
        return List.copyOf(
                send(Role.OFFICE, "GET", "/jobs/" + job + "/bookings", null, 200)
                        .at("/items")
                        .values());
    }

    List<JsonNode> leftOff() {
        return List.copyOf(
                send(Role.FLOOR, "GET", "/bookings/left-off", null, 200).at("/items").values());
    }

    JsonNode send(Role role, String method, String path, String body, int status) {
        EntityExchangeResult<JsonNode> answer = exchange(role, method, path, body);
        assertThat(answer.getStatus().value())
                .as(method + " " + path + " " + body + ": " + answer.getResponseBody())
                .isEqualTo(status);
        return answer.getResponseBody();
    }

    EntityExchangeResult<JsonNode> exchange(Role role, String method, String path, String body) {
        RestTestClient.RequestBodySpec request =
                shop.as(role).method(HttpMethod.valueOf(method)).uri("/api/v1" + path);
        return (body == null ? request : request.contentType(MediaType.APPLICATION_JSON).body(body))
                .exchange()
                .expectBody(JsonNode.class)
                .returnResult();
    }
}
