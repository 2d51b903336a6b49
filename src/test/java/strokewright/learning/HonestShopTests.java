package strokewright.learning;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.UUID;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.http.HttpMethod;
import org.springframework.http.MediaType;
import org.springframework.test.web.servlet.client.EntityExchangeResult;
import org.springframework.test.web.servlet.client.RestTestClient;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Documents;
import strokewright.access.Role;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.estimate.WorkStep;
import strokewright.shopbook.ShopBooks;
import tools.jackson.databind.JsonNode;

/**
 * Whole shops over HTTP: forty jobs are quoted, released, booked and finished, what they teach is
 * taken over, and new work is estimated beside somebody who knows the truth. Everything is made
 * from a seed. It prints what it found.
 */
@Tag("load")
class HonestShopTests extends ServiceTest {

    private static final int SHOPS = 5;
    private static final int JOBS = 40;
    private static final int NEW = 120;
    private static final double JOB = 0.10;
    private static final double NOISE = 0.15;

    @Autowired private ShopBooks books;
    @Autowired private Documents documents;

    private TestShop shop;
    private Random random;
    private final Map<String, Double> truth = new HashMap<>();

    @Test
    void afterFortyJobsNewWorkIsEstimatedNearlyAsIfTheTruthWereKnown() {
        List<Double> ratios = new ArrayList<>();
        int inside = 0;
        for (int seed = 1; seed <= SHOPS; seed++) {
            shop = openShop();
            random = new Random(seed);
            truth.clear();
            for (int j = 0; j < JOBS; j++) {
                job();
            }
            answer(Role.OWNER, "POST", "/learning/adopt", "{}", 200);
            ShopBook taught = shop.user(Role.OWNER).call(books::current);
            ShopBook bare = shop.user(Role.OWNER).call(books::current).withLearned(List.of());
            double learned = 0;
            double knowing = 0;
            int covered = 0;
            double withoutReserve = 0;
            int coveredWithout = 0;
            for (int i = 0; i < NEW; i++) {
                String json = takeOff();
                JsonNode hours =
                        answer(Role.ESTIMATOR, "POST", "/estimates", json, 200)
                                .at("/quantities/0/hours");
                TakeOff takeOff = documents.read(json, TakeOff.class);
                List<WorkStep> steps =
                        Estimating.reckon(takeOff, bare).steps(takeOff.mainQuantity());
                double jobEffect = JOB * random.nextGaussian();
                double actual = 0;
                double known = 0;
                for (WorkStep s : steps) {
                    double run = s.runMinutes() * truth(s);
                    double setup = s.setupMinutes() * truth.get("set-up");
                    known += run + setup;
                    actual +=
                            run * Math.exp(jobEffect + NOISE * random.nextGaussian())
                                    + setup * Math.exp(NOISE * random.nextGaussian());
                }
                double steadily =
                        Estimating.reckon(takeOff, taught).steps(takeOff.mainQuantity()).stream()
                                .mapToDouble(s -> s.runMinutes() + s.setupMinutes())
                                .sum();
                withoutReserve += Math.abs(Math.log(actual / steadily));
                coveredWithout +=
                        actual
                                        <= steadily
                                                * hours.at("/p80").asDouble()
                                                / hours.at("/plan").asDouble()
                                ? 1
                                : 0;
                learned += Math.abs(Math.log(actual / 60 / hours.at("/plan").asDouble()));
                knowing += Math.abs(Math.log(actual / known));
                covered += actual / 60 <= hours.at("/p80").asDouble() ? 1 : 0;
            }
            ratios.add(learned / knowing);
            inside += covered;
            System.out.printf(
                    Locale.ROOT,
                    "shop %d: error %.3f, all-knowing %.3f, ratio %.3f, within P80 %.0f %%; without the reserve ratio %.3f, within %.0f %%%n",
                    seed,
                    learned / NEW,
                    knowing / NEW,
                    learned / knowing,
                    100.0 * covered / NEW,
                    withoutReserve / knowing,
                    100.0 * coveredWithout / NEW);
        }
        ratios.sort(null);
        assertThat(ratios.get(SHOPS / 2)).isLessThan(1.12);
        assertThat((double) inside / (SHOPS * NEW)).isBetween(0.70, 0.90);
    }

    private double truth(WorkStep step) {
        truth.computeIfAbsent("set-up", k -> Math.exp(0.2 * random.nextGaussian()));
        if (step.kind().equals(WorkStep.TOOL_CHANGES)) {
            return 1;
        }
        double kind =
                truth.computeIfAbsent(
                        step.kind(), k -> Math.exp(0.05 + 0.25 * random.nextGaussian()));
        double family =
                step.family() == null
                        ? 1
                        : truth.computeIfAbsent(
                                step.kind() + "/" + step.family(),
                                k -> Math.exp(0.08 * random.nextGaussian()));
        return kind * family;
    }

    private void job() {
        String quote =
                answer(
                                Role.ESTIMATOR,
                                "POST",
                                "/quotes",
                                "{\"customer\":\"Brindle Bakery\",\"items\":[{\"takeOff\":"
                                        + takeOff()
                                        + "}]}",
                                201)
                        .at("/number")
                        .asString();
        answer(Role.OFFICE, "POST", "/quotes/" + quote + "/issue", null, 200);
        answer(Role.OFFICE, "POST", "/quotes/" + quote + "/accept", "{}", 200);
        JsonNode job = answer(Role.OFFICE, "POST", "/jobs", "{\"quote\":\"" + quote + "\"}", 201);
        String at = "/jobs/" + job.at("/number").asString();
        double effect = JOB * random.nextGaussian();
        for (JsonNode step : job.at("/steps").values()) {
            WorkStep work = documents.read(step.at("/work").toString(), WorkStep.class);
            double right = truth(work);
            if (work.runMinutes() > 0) {
                book(
                        at,
                        step,
                        "run",
                        work.runMinutes()
                                * right
                                * Math.exp(effect + NOISE * random.nextGaussian()));
            }
            if (work.setupMinutes() > 0) {
                book(
                        at,
                        step,
                        "set-up",
                        work.setupMinutes()
                                * truth.get("set-up")
                                * Math.exp(NOISE * random.nextGaussian()));
            }
        }
        answer(Role.OFFICE, "POST", at + "/finish", null, 200);
    }

    private void book(String at, JsonNode step, String what, double minutes) {
        double left = minutes;
        while (left > 0) {
            double now = Math.min(left, 1400);
            answer(
                    Role.FLOOR,
                    "POST",
                    at + "/bookings",
                    String.format(
                            Locale.ROOT,
                            "{\"id\":\"%s\",\"step\":%d,\"what\":\"%s\",\"minutes\":%.2f}",
                            UUID.randomUUID(),
                            step.at("/n").asInt(),
                            what,
                            Math.max(0.01, now)),
                    201);
            left -= now;
        }
    }

    private String takeOff() {
        ShopBook book = shop.user(Role.OWNER).call(books::current);
        String drawn = drawn();
        while (!Estimating.estimate(documents.read(drawn, TakeOff.class), book).feasible()) {
            drawn = drawn();
        }
        return drawn;
    }

    private String drawn() {
        String grade =
                List.of("AL99.5-O", "DC04", "X5CRNI18-10", "CU-DHP-R220").get(random.nextInt(4));
        int radius = 200 + 10 * random.nextInt(20);
        int diameter = 220 + 10 * random.nextInt(15);
        String operations =
                switch (random.nextInt(4)) {
                    case 0 ->
                            "{\"type\":\"curve-edge\",\"sense\":\"shrink\",\"lengthMm\":%d,\"radiusMm\":%d,\"heightMm\":30},{\"type\":\"standard\",\"standard\":\"Fold\",\"amount\":2}"
                                    .formatted(radius * 3, radius);
                    case 1 ->
                            "{\"type\":\"dish\",\"diameterMm\":%d,\"depthMm\":%d},{\"type\":\"smooth\",\"areaMm2\":%d,\"timesOver\":2}"
                                    .formatted(diameter, diameter / 6, diameter * diameter);
                    case 2 ->
                            "{\"type\":\"turn-flange\",\"sense\":\"shrink\",\"radiusMm\":%d,\"heightMm\":12,\"angleDeg\":90,\"sweepDeg\":360},{\"type\":\"flatten\",\"areaMm2\":%d,\"timesOver\":1}"
                                    .formatted(radius, radius * 300);
                    default ->
                            "{\"type\":\"curve-edge\",\"sense\":\"stretch\",\"lengthMm\":%d,\"radiusMm\":%d,\"heightMm\":30},{\"type\":\"take-out-dents\",\"spots\":8,\"strokesPerSpot\":60}"
                                    .formatted(radius * 3, radius * 3);
                };
        int quantity = 1 + random.nextInt(6);
        return """
               {"title":"Piece","information":"drawing","quantities":[%d],"mainQuantity":%d,
                "parts":[{"name":"Part","grade":"%s","thicknessMm":1.2,
                 "blank":{"lengthMm":%d,"widthMm":%d},"templateGapMm":3.0,"operations":[%s]}],
                "assembly":[{"type":"standard","standard":"TIG weld","amount":0.5}]}
               """
                .formatted(quantity, quantity, grade, radius * 3 + 60, 2 * radius + 80, operations);
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
