package strokewright.learning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.http.HttpMethod;
import org.springframework.http.MediaType;
import org.springframework.test.web.servlet.client.EntityExchangeResult;
import org.springframework.test.web.servlet.client.RestTestClient;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import tools.jackson.databind.JsonNode;

/** What finished jobs teach, over HTTP on a real database. */
class LearningApiTests extends ServiceTest {

    private static final String ITEMS =
            """
            "items":[{"quantity":1,"takeOff":{"title":"Ring","information":"drawing","quantities":[1],
             "parts":[{"name":"Ring","grade":"DC04","thicknessMm":1.5,
               "blank":{"lengthMm":1900,"widthMm":120},
               "operations":[
                {"type":"curve-edge","sense":"shrink","lengthMm":1800,"radiusMm":300,"heightMm":30%s}]}]}}]
            """;

    private TestShop shop;

    @BeforeEach
    void shop() {
        shop = openShop();
    }

    @Test
    void aShopWithoutJobsIsToldSo() {
        JsonNode factors = ok(Role.ESTIMATOR, "GET", "/learning/factors", null);
        assertThat(factors.at("/jobs").asInt()).isZero();
        assertThat(factors.at("/lines").isEmpty()).isTrue();
        assertThat(ok(Role.OWNER, "POST", "/learning/adopt", null).at("/added").asBoolean())
                .isFalse();
        JsonNode accuracy = ok(Role.ESTIMATOR, "GET", "/learning/accuracy", null);
        assertThat(accuracy.at("/quoted/tooFew").asBoolean()).isTrue();
        assertThat(accuracy.at("/quoted/meanErrorPercent").isMissingNode()).isTrue();
        assertThat(ok(Role.ESTIMATOR, "GET", "/learning/drift", null).at("/kinds").isEmpty())
                .isTrue();
    }

    @Test
    void factorsAreProposedAdoptedOnceAndUndone() {
        for (double factor : new double[] {1.5, 1.3, 1.4, 1.45, 1.35, 1.5}) {
            finished("verbal", factor, "");
        }
        JsonNode factors = ok(Role.ESTIMATOR, "GET", "/learning/factors", null);
        JsonNode line = line(factors, "curve-edge", "low-carbon-steel");
        double proposed = line.at("/proposed/planFactor").asDouble();

        assertThat(line.at("/inUse").isNull()).isTrue();
        assertThat(proposed).isBetween(1.2, 1.45);
        assertThat(line.at("/proposed/meanFactor").asDouble()).isGreaterThan(proposed);
        assertThat(line.at("/proposed/jobs").asInt()).isEqualTo(6);
        assertThat(line.at("/few").asBoolean()).isFalse();
        assertThat(line.at("/behind")).hasSize(6);
        assertThat(line.at("/behind/0/y").asDouble()).isCloseTo(Math.log(1.5), within(1e-3));
        assertThat(factors.at("/leftOut").toString()).contains("\"short\"", "Under 10 minutes");

        assertThat(ok(Role.OWNER, "GET", "/owner", null).at("/decisions").toString())
                .contains("factors-to-adopt", "/learning");

        double before = hours();
        answer(Role.ESTIMATOR, "POST", "/learning/adopt", "{}", 403);
        JsonNode adopted =
                ok(
                        Role.OWNER,
                        "POST",
                        "/learning/adopt",
                        """
                        {"lines":[{"kind":"curve-edge","family":"low-carbon-steel"},{"kind":"job"}]}
                        """);
        assertThat(adopted.at("/shopBookEdition").asInt()).isEqualTo(2);
        assertThat(adopted.at("/adopted/lines")).hasSize(1);
        JsonNode book = ok(Role.OWNER, "GET", "/shop-book", null);
        assertThat(book.at("/learned")).hasSize(1);
        assertThat(book.at("/learned/0")).isEqualTo(line.at("/proposed"));
        assertThat(book.at("/uncertainty/jobSpreadJobs").asInt()).isEqualTo(6);
        assertThat(hours()).isGreaterThan(before * 1.1);

        decided("accept", "{}");
        decided("decline", "{\"reason\":\"price\"}");
        JsonNode again = ok(Role.ESTIMATOR, "GET", "/learning/factors", null);
        assertThat(line(again, "curve-edge", "low-carbon-steel").at("/inUse"))
                .isEqualTo(line.at("/proposed"));
        assertThat(line(again, "curve-edge", "low-carbon-steel").at("/won/decidedSince").asInt())
                .isEqualTo(2);
        assertThat(line(again, "curve-edge", "low-carbon-steel").at("/won/wonSince").asInt())
                .isEqualTo(1);
        assertThat(line(again, "other", "").at("/won").isNull()).isTrue();
        assertThat(line(again, "curve-edge", "low-carbon-steel").at("/proposed"))
                .isEqualTo(line.at("/proposed"));
        JsonNode all = ok(Role.OWNER, "POST", "/learning/adopt", null);
        assertThat(all.at("/added").asBoolean()).isTrue();
        assertThat(all.at("/shopBookEdition").asInt()).isEqualTo(3);
        JsonNode repeat = ok(Role.OWNER, "POST", "/learning/adopt", "{}");
        assertThat(repeat.at("/added").asBoolean()).isFalse();
        assertThat(repeat.at("/shopBookEdition").asInt()).isEqualTo(3);
        assertThat(ok(Role.OWNER, "GET", "/owner", null).at("/decisions").toString())
                .doesNotContain("factors-to-adopt");

        ok(Role.OWNER, "POST", "/learning/adoptions/3/undo", null);
        JsonNode undone = ok(Role.OWNER, "POST", "/learning/adoptions/3/undo", null);
        assertThat(undone.at("/undoneEdition").asInt()).isEqualTo(4);
        JsonNode back = ok(Role.OWNER, "GET", "/shop-book", null);
        assertThat(back.at("/learned")).isEqualTo(book.at("/learned"));
        assertThat(back.at("/uncertainty")).isEqualTo(book.at("/uncertainty"));
        assertThat(ok(Role.OWNER, "GET", "/learning/adoptions", null)).hasSize(2);
        answer(Role.OWNER, "POST", "/learning/adoptions/1/undo", null, 404);
        answer(
                Role.OWNER,
                "POST",
                "/learning/adopt",
                "{\"lines\":[{\"kind\":\"dish\"},{},{\"kind\":\"set-up\"}]}",
                400);
    }

    @Test
    void whatTeachesNothingIsLeftOutWithItsReason() {
        String good = finished("verbal", 1.2, "");
        String warranty = finished("warranty", 3, "");
        JsonNode job = started("repair");
        String number = job.at("/number").asString();
        book(
                number,
                "\"what\":\"rework\",\"step\":"
                        + edge(job)
                        + ",\"reason\":\"scratch\",\"minutes\":40");
        book(number, "\"step\":" + edge(job) + ",\"minutes\":50");
        ok(Role.OFFICE, "POST", "/jobs/" + number + "/finish", null);
        JsonNode open = started("verbal");
        book(open.at("/number").asString(), "\"step\":" + edge(open));
        ok(Role.OFFICE, "POST", "/jobs/" + open.at("/number").asString() + "/finish", null);
        JsonNode whole = started("verbal");
        book(whole.at("/number").asString(), "\"what\":\"whole-job\",\"minutes\":300");
        ok(Role.OFFICE, "POST", "/jobs/" + whole.at("/number").asString() + "/finish", null);

        JsonNode factors = ok(Role.ESTIMATOR, "GET", "/learning/factors", null);
        List<String> reasons = new ArrayList<>();
        for (JsonNode out : factors.at("/leftOut").values()) {
            reasons.add(out.at("/job").asString() + " " + out.at("/reason").asString());
        }
        assertThat(reasons)
                .contains(
                        warranty + " warranty",
                        number + " rework",
                        open.at("/number").asString() + " clock-runs",
                        whole.at("/number").asString() + " mostly-whole-job");
        assertThat(line(factors, "curve-edge", "low-carbon-steel").at("/behind"))
                .extracting(b -> b.at("/job").asString())
                .containsExactlyInAnyOrder(good, number);
        JsonNode accuracy = ok(Role.ESTIMATOR, "GET", "/learning/accuracy", null);
        assertThat(accuracy.at("/quoted/jobs").asInt()).isEqualTo(3);
        assertThat(accuracy.at("/points/1/actualHours").asDouble()).isCloseTo(1.5, within(1e-9));
        assertThat(accuracy.at("/points/1/learnedHours").isMissingNode()).isFalse();
    }

    @Test
    void theEstimatorsOwnMinutesAreNotLearnedFrom() {
        finished("verbal", 1.3, "");
        finished("verbal", 1.3, ",\"override\":{\"minutes\":500,\"reason\":\"as last year\"}");

        JsonNode behind =
                line(
                                ok(Role.ESTIMATOR, "GET", "/learning/factors", null),
                                "curve-edge",
                                "low-carbon-steel")
                        .at("/behind");
        assertThat(behind.at("/0/estimatedMinutes").asDouble())
                .isCloseTo(behind.at("/1/estimatedMinutes").asDouble(), within(1e-6));
        JsonNode accuracy = ok(Role.ESTIMATOR, "GET", "/learning/accuracy", null);
        assertThat(accuracy.at("/ownMinutes/jobs").asInt()).isEqualTo(1);
        assertThat(accuracy.at("/points/1/computedHours").asDouble())
                .isLessThan(accuracy.at("/points/1/quotedHours").asDouble());
    }

    private void decided(String how, String body) {
        String quote =
                answer(
                                Role.ESTIMATOR,
                                "POST",
                                "/quotes",
                                "{\"customer\":\"Harbour Theatre\",\"items\":[{\"takeOff\":%s}]}"
                                        .formatted(takeOff("")),
                                201)
                        .at("/number")
                        .asString();
        ok(Role.OFFICE, "POST", "/quotes/" + quote + "/issue", null);
        ok(Role.OFFICE, "POST", "/quotes/" + quote + "/" + how, body);
    }

    private double hours() {
        return ok(Role.ESTIMATOR, "POST", "/estimates", takeOff(""))
                .at("/quantities/0/hours/plan")
                .asDouble();
    }

    private static String takeOff(String own) {
        String items = ITEMS.formatted(own);
        return items.substring(items.indexOf("{\"title\""), items.lastIndexOf("}]"));
    }

    /** The number of a job whose edge took so many times what was planned. */
    private String finished(String kind, double factor, String own) {
        JsonNode job = started(kind, own);
        String number = job.at("/number").asString();
        for (JsonNode step : job.at("/steps").values()) {
            double minutes = step.at("/work/runMinutes").asDouble();
            boolean edge = step.at("/work/kind").asString().equals("curve-edge");
            if (edge) {
                minutes = own.isEmpty() ? minutes : computed();
            }
            if (minutes > 0) {
                book(
                        number,
                        "\"step\":" + step.at("/n").asInt() + ",\"minutes\":" + factor * minutes);
            }
        }
        ok(Role.OFFICE, "POST", "/jobs/" + number + "/finish", null);
        return number;
    }

    private double computed() {
        for (JsonNode step : started("verbal").at("/steps").values()) {
            if (step.at("/work/kind").asString().equals("curve-edge")) {
                return step.at("/work/runMinutes").asDouble();
            }
        }
        throw new AssertionError("no edge");
    }

    private JsonNode started(String kind) {
        return started(kind, "");
    }

    private JsonNode started(String kind, String own) {
        return answer(
                Role.OFFICE,
                "POST",
                "/jobs",
                "{\"kind\":\"%s\",\"customer\":\"Harbour Theatre\",%s}"
                        .formatted(kind, ITEMS.formatted(own)),
                201);
    }

    private static int edge(JsonNode job) {
        for (JsonNode step : job.at("/steps").values()) {
            if (step.at("/work/kind").asString().equals("curve-edge")) {
                return step.at("/n").asInt();
            }
        }
        throw new AssertionError("no edge in " + job);
    }

    private void book(String number, String fields) {
        answer(
                Role.FLOOR,
                "POST",
                "/jobs/" + number + "/bookings",
                "{\"id\":\"%s\",%s}".formatted(UUID.randomUUID(), fields),
                201);
    }

    private static JsonNode line(JsonNode factors, String kind, String family) {
        for (JsonNode line : factors.at("/lines").values()) {
            if (line.at("/kind").asString().equals(kind)
                    && line.at("/family").asString("").equals(family)) {
                return line;
            }
        }
        throw new AssertionError("no " + kind + " " + family + " in " + factors);
    }

    private JsonNode ok(Role role, String method, String path, String body) {
        return answer(role, method, path, body, 200);
    }

    private JsonNode answer(Role role, String method, String path, String body, int status) {
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
