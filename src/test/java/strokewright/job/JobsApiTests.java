package strokewright.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.http.HttpMethod;
import org.springframework.http.MediaType;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.web.servlet.client.EntityExchangeResult;
import org.springframework.test.web.servlet.client.RestTestClient;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import tools.jackson.databind.JsonNode;

/** Jobs and bookings over HTTP on a real database. */
class JobsApiTests extends ServiceTest {

    static final String QUOTE =
            """
            {"customer":"Harbour Theatre","items":[{"takeOff":
              {"title":"Round sign frame","quantities":[1,5],
               "parts":[{"name":"Rim","grade":"AL99.5-O","thicknessMm":2.0,
                 "blank":{"lengthMm":1950,"widthMm":120},
                 "operations":[
                  {"type":"curve-edge","sense":"shrink","lengthMm":1885,"radiusMm":300,"heightMm":40},
                  {"type":"standard","standard":"Guillotine cut","amount":4}]}]}}]}
            """;

    @Autowired private JdbcClient sql;
    @Autowired private PlatformTransactionManager transactions;

    private TestShop shop;

    @BeforeEach
    void shop() {
        shop = openShop();
    }

    // Jobs ---------------------------------------------------------------------------------------

    @Test
    void anAcceptedQuoteBecomesAJobWithThePlanOfItsFrozenEstimate() {
        String quote = accepted(5);
        JsonNode estimate = ok("GET", "/quotes/" + quote, null).at("/items/0/estimate");
        JsonNode job = release(quote);

        assertThat(job.at("/number").asString()).matches("J-20[0-9]{2}-0001");
        assertThat(job.at("/state").asString()).isEqualTo("released");
        assertThat(job.at("/quote").asString()).isEqualTo(quote);
        assertThat(job.at("/items").toString()).contains("\"quantity\":5");
        double minutes = 0;
        for (JsonNode step : job.at("/steps").values()) {
            minutes +=
                    step.at("/work/setupMinutes").asDouble()
                            + step.at("/work/runMinutes").asDouble();
        }
        JsonNode five = estimate.at("/quantities/1");
        assertThat(minutes + five.at("/reserveMinutes").asDouble())
                .isCloseTo(five.at("/hours/plan").asDouble() * 60, within(1e-6));
        assertThat(ok("GET", "/quotes/" + quote, null).at("/job")).isEqualTo(job.at("/number"));
        assertThat(ok("GET", "/jobs", null).at("/items/0/number")).isEqualTo(job.at("/number"));
    }

    @Test
    void theRouteCardIsAPdfThatTheFloorMayRead() {
        byte[] card =
                shop.as(Role.FLOOR)
                        .get()
                        .uri("/api/v1/jobs/" + number() + "/route-card")
                        .accept(MediaType.APPLICATION_PDF)
                        .exchange()
                        .expectStatus()
                        .isOk()
                        .expectBody()
                        .returnResult()
                        .getResponseBody();
        assertThat(new String(card, 0, 5, java.nio.charset.StandardCharsets.US_ASCII))
                .isEqualTo("%PDF-");
    }

    @Test
    void anOrderIsReleasedOnceAndStandsFromThenOn() {
        String quote = accepted(1);
        release(quote);

        answer(Role.OFFICE, "POST", "/jobs", "{\"quote\":\"" + quote + "\"}", 409);
        answer(Role.OFFICE, "POST", "/quotes/" + quote + "/take-back", null, 409);
        answer(Role.OFFICE, "POST", "/jobs", "{\"quote\":\"Q-2026-9999\"}", 404);
        answer(Role.OFFICE, "POST", "/jobs", "{}", 400);
    }

    @Test
    void whatIsNotAcceptedIsNotReleasedAndLeavesNoGapInTheNumbers() {
        String draft = draft();
        answer(Role.OFFICE, "POST", "/jobs", "{\"quote\":\"" + draft + "\"}", 409);

        assertThat(release(accepted(1)).at("/number").asString()).endsWith("-0001");
        assertThat(release(accepted(1)).at("/number").asString()).endsWith("-0002");
    }

    @Test
    void aJobGoesFromReleasedToClosedAndIsReopened() {
        String job = number();
        answer(Role.OFFICE, "POST", "/jobs/" + job + "/finish", null, 409);
        answer(Role.OFFICE, "POST", "/jobs/" + job + "/reopen", null, 409);
        assertThat(step(job, "start")).isEqualTo("in-work");
        assertThat(step(job, "start")).isEqualTo("in-work");
        answer(Role.OFFICE, "POST", "/jobs/" + job + "/close", null, 409);
        assertThat(step(job, "finish")).isEqualTo("finished");
        assertThat(step(job, "close")).isEqualTo("closed");
        answer(Role.OFFICE, "POST", "/jobs/" + job + "/start", null, 409);
        answer(Role.FLOOR, "POST", "/jobs/" + job + "/bookings", minutes(1, 10), 409);
        assertThat(step(job, "reopen")).isEqualTo("in-work");
        answer(Role.FLOOR, "POST", "/jobs/" + job + "/close", null, 403);
    }

    // Bookings -----------------------------------------------------------------------------------

    @Test
    void minutesAreBookedOnceHoweverOftenTheyAreSent() {
        String job = number();
        String entry =
                """
                {"id":"%s","step":1,"minutes":42.5,"pieces":1,"scrapped":0,"passes":12,"checks":6,
                 "withHelper":true,"note":"first one"}
                """
                        .formatted(UUID.randomUUID());
        JsonNode first = floor("/jobs/" + job + "/bookings", entry, 201);

        assertThat(floor("/jobs/" + job + "/bookings", entry, 201)).isEqualTo(first);
        assertThat(bookings(job)).hasSize(1);
        assertThat(first.at("/minutes").asDouble()).isEqualTo(42.5);
        assertThat(first.at("/what").asString()).isEqualTo("run");
        assertThat(first.at("/who").asString()).isEqualTo("The floor");
        assertThat(ok("GET", "/jobs/" + job, null).at("/state").asString()).isEqualTo("in-work");
    }

    @Test
    void aClockRunsUntilItIsStoppedAndOneAtATime() {
        String job = number();
        JsonNode clock = floor("/jobs/" + job + "/bookings", minutes(1, null), 201);
        assertThat(clock.at("/startedAt").asString()).isNotEmpty();
        assertThat(clock.at("/minutes").isMissingNode()).isTrue();
        assertThat(answer(Role.FLOOR, "GET", "/bookings/running", null, 200).getResponseBody())
                .isEqualTo(clock);

        floor("/jobs/" + job + "/bookings", minutes(2, null), 409);
        String id = clock.at("/id").asString();
        answer(Role.ESTIMATOR, "POST", "/bookings/" + id + "/stop", null, 409);
        JsonNode stopped = floor("/bookings/" + id + "/stop", "{\"pieces\":2}", 200);
        assertThat(stopped.at("/minutes").asDouble()).isBetween(0.0, 5.0);
        assertThat(stopped.at("/pieces").asInt()).isEqualTo(2);
        assertThat(floor("/bookings/" + id + "/stop", "{\"pieces\":9}", 200)).isEqualTo(stopped);
        answer(Role.FLOOR, "GET", "/bookings/running", null, 404);
    }

    @Test
    void aForgottenClockIsAskedAboutAndNeverGuessed() {
        String job = number();
        String id = floor("/jobs/" + job + "/bookings", minutes(1, null), 201).at("/id").asString();
        inShop("update booking set started_at = started_at - interval '13 hours'");

        JsonNode problem = floor("/bookings/" + id + "/stop", null, 400);
        assertThat(problem.at("/errors/0/pointer").asString()).isEqualTo("/minutes");
        assertThat(
                        floor("/bookings/" + id + "/stop", "{\"minutes\":55}", 200)
                                .at("/minutes")
                                .asDouble())
                .isEqualTo(55);
    }

    @Test
    void aCorrectionKeepsTheOldValue() {
        String job = number();
        String id = floor("/jobs/" + job + "/bookings", minutes(1, 400), 201).at("/id").asString();
        JsonNode right = floor("/bookings/" + id + "/correct", minutes(1, 40), 201);

        assertThat(right.at("/replaces").asString()).isEqualTo(id);
        List<JsonNode> all = bookings(job);
        assertThat(all).hasSize(2);
        assertThat(all)
                .filteredOn(b -> b.at("/id").asString().equals(id))
                .allSatisfy(
                        b -> {
                            assertThat(b.at("/minutes").asDouble()).isEqualTo(400);
                            assertThat(b.at("/replacedBy")).isEqualTo(right.at("/id"));
                        });
        floor("/bookings/" + id + "/correct", minutes(1, 41), 409);
        String last = right.at("/id").asString();
        answer(Role.ESTIMATOR, "POST", "/bookings/" + last + "/correct", minutes(1, 1), 403);
        assertThat(
                        answer(
                                        Role.OFFICE,
                                        "POST",
                                        "/bookings/" + last + "/correct",
                                        minutes(1, 44),
                                        201)
                                .getResponseBody()
                                .at("/who")
                                .asString())
                .isEqualTo("The floor");
        assertThatThrownBy(() -> inShop("update booking set minutes = 1"))
                .hasMessageContaining("corrected by another one");
    }

    @Test
    void hoursOnNoJobAndReworkSayWhy() {
        String job = number();
        floor("/bookings", "{\"id\":\"%s\",\"minutes\":30}".formatted(UUID.randomUUID()), 400);
        JsonNode swept =
                floor(
                        "/bookings",
                        "{\"id\":\"%s\",\"minutes\":30,\"reason\":\"swept the floor\"}"
                                .formatted(UUID.randomUUID()),
                        201);
        assertThat(swept.at("/what").asString()).isEqualTo("indirect");
        floor(
                "/jobs/" + job + "/bookings",
                "{\"id\":\"%s\",\"step\":1,\"what\":\"rework\",\"minutes\":5}"
                        .formatted(UUID.randomUUID()),
                400);
        assertThat(
                        floor(
                                        "/jobs/" + job + "/bookings",
                                        "{\"id\":\"%s\",\"minutes\":15}"
                                                .formatted(UUID.randomUUID()),
                                        201)
                                .at("/what")
                                .asString())
                .isEqualTo("whole-job");
    }

    @Test
    void everyFaultOfABookingIsNamed() {
        JsonNode problem =
                floor(
                        "/jobs/" + number() + "/bookings",
                        """
                        {"what":"indirect","step":1,"minutes":-3,"pieces":-1,"scrapped":2000000}
                        """,
                        400);
        assertThat(problem.at("/errors").values())
                .extracting(e -> e.at("/pointer").asString())
                .containsExactlyInAnyOrder(
                        "/id", "/minutes", "/pieces", "/scrapped", "/what", "/step", "/reason");
        assertThat(floor("/jobs/" + number() + "/bookings", minutes(99, 5), 400).toString())
                .contains("is no step of the job");
    }

    // Asking -------------------------------------------------------------------------------------

    private String draft() {
        return answer(Role.ESTIMATOR, "POST", "/quotes", QUOTE, 201)
                .getResponseBody()
                .at("/number")
                .asString();
    }

    private String accepted(int quantity) {
        String quote = draft();
        ok("POST", "/quotes/" + quote + "/issue", null);
        ok(
                "POST",
                "/quotes/" + quote + "/accept",
                "{\"items\":[{\"position\":1,\"quantity\":" + quantity + "}]}");
        return quote;
    }

    private JsonNode release(String quote) {
        return answer(Role.OFFICE, "POST", "/jobs", "{\"quote\":\"" + quote + "\"}", 201)
                .getResponseBody();
    }

    private String number() {
        return release(accepted(1)).at("/number").asString();
    }

    private static String minutes(int step, Integer minutes) {
        return "{\"id\":\"%s\",\"step\":%d,\"minutes\":%s}"
                .formatted(UUID.randomUUID(), step, minutes);
    }

    private String step(String job, String step) {
        return ok("POST", "/jobs/" + job + "/" + step, null).at("/state").asString();
    }

    private List<JsonNode> bookings(String job) {
        return List.copyOf(ok("GET", "/jobs/" + job + "/bookings", null).at("/items").values());
    }

    private JsonNode floor(String path, String body, int status) {
        return answer(Role.FLOOR, "POST", path, body, status).getResponseBody();
    }

    private JsonNode ok(String method, String path, String body) {
        return answer(Role.OFFICE, method, path, body, 200).getResponseBody();
    }

    private int inShop(String change) {
        return shop.user(Role.OWNER)
                .call(
                        () ->
                                new TransactionTemplate(transactions)
                                        .execute(s -> sql.sql(change).update()));
    }

    private EntityExchangeResult<JsonNode> answer(
            Role role, String method, String path, String body, int status) {
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
        return answer;
    }
}
