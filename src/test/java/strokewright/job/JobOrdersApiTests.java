package strokewright.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.http.MediaType;
import org.springframework.test.web.servlet.client.RestTestClient;
import strokewright.access.Role;
import tools.jackson.databind.JsonNode;

/** Jobs without a quote, change orders, what was made, metal and bills, on a real database. */
class JobOrdersApiTests extends JobAsking {

    private static final String TAKE_OFF =
            """
            {"title":"Wing corner","quantities":[1],
             "parts":[{"name":"Corner","grade":"AL99.5-O","thicknessMm":2.0,
               "blank":{"lengthMm":600,"widthMm":300},
               "operations":[
                {"type":"curve-edge","sense":"shrink","lengthMm":500,"radiusMm":300,"heightMm":30}]}]}
            """;

    @Autowired private JobRecords records;

    @Test
    void aJobWithoutAQuoteHasAPlanAndAPriceOfItsOwn() {
        JsonNode job =
                post(
                        Role.OFFICE,
                        "/jobs",
                        """
                        {"kind":"verbal","customer":"Harbour Theatre","reason":"said yes on the phone",
                         "items":[{"quantity":3,"takeOff":%s}],"dueOn":"2031-03-01"}
                        """
                                .formatted(TAKE_OFF));
        JsonNode priced =
                answer(Role.ESTIMATOR, "POST", "/estimates", TAKE_OFF.replace("[1]", "[3]"), 200);

        assertThat(job.at("/kind").asString()).isEqualTo("verbal");
        assertThat(job.at("/title").asString()).isEqualTo("Wing corner");
        assertThat(job.at("/quote").isMissingNode()).isTrue();
        assertThat(job.at("/items/0/quantity").asInt()).isEqualTo(3);
        assertThat(job.at("/net")).isEqualTo(priced.at("/quantities/0/price/offer"));
        double minutes = 0;
        for (JsonNode step : job.at("/steps").values()) {
            minutes +=
                    step.at("/work/setupMinutes").asDouble()
                            + step.at("/work/runMinutes").asDouble();
        }
        assertThat(minutes)
                .isCloseTo(
                        priced.at("/quantities/0/setupMinutes").asDouble()
                                + priced.at("/quantities/0/runMinutes").asDouble(),
                        within(1e-6));
        assertThat(get(Role.FLOOR, "/jobs/" + number(job)).at("/net").isMissingNode()).isTrue();
    }

    @Test
    void warrantyEarnsNothingAndAnAgreedPriceStands() {
        String items =
                "\"customer\":\"Harbour Theatre\",\"items\":[{\"takeOff\":" + TAKE_OFF + "}]";
        assertThat(
                        amount(
                                post(Role.OFFICE, "/jobs", "{\"kind\":\"warranty\"," + items + "}"),
                                "/net"))
                .isZero();
        assertThat(
                        amount(
                                post(
                                        Role.OFFICE,
                                        "/jobs",
                                        "{\"kind\":\"repair\",\"net\":{\"amount\":\"80.00\",\"currency\":\"EUR\"},"
                                                + items
                                                + "}"),
                                "/net"))
                .isEqualTo(80);
    }

    @Test
    void everyFaultOfAJobWithoutAQuoteIsNamed() {
        JsonNode problem =
                answer(
                        Role.OFFICE,
                        "POST",
                        "/jobs",
                        """
                        {"kind":"verbal","net":{"amount":"-1","currency":"EUR"},
                         "items":[{"quantity":0,"takeOff":{"title":"x"}},{}]}
                        """,
                        400);
        assertThat(pointers(problem))
                .contains(
                        "/customer",
                        "/net",
                        "/items/0/quantity",
                        "/items/0/takeOff/parts",
                        "/items/1/takeOff");
        assertThat(
                        pointers(
                                answer(
                                        Role.OFFICE,
                                        "POST",
                                        "/jobs",
                                        "{\"quote\":\"Q-2026-0001\",\"title\":\"x\",\"kind\":\"repair\"}",
                                        400)))
                .containsExactlyInAnyOrder("/kind", "/title");
    }

    @Test
    void aChangeOrderAddsItemsAndStepsOnce() {
        JsonNode job = released(accepted(JobsApiTests.QUOTE, 1));
        int steps = job.at("/steps").size();
        String change =
                withId(
                        "\"reason\":\"a second corner\",\"items\":[{\"quantity\":2,\"takeOff\":"
                                + TAKE_OFF
                                + "}]");
        JsonNode added = post(Role.OFFICE, "/jobs/" + number(job) + "/change-orders", change);
        assertThat(post(Role.OFFICE, "/jobs/" + number(job) + "/change-orders", change))
                .isEqualTo(added);
        assertThat(added.at("/n").asInt()).isEqualTo(1);

        JsonNode now = get(Role.OFFICE, "/jobs/" + number(job));
        assertThat(now.at("/changeOrders").size()).isEqualTo(1);
        assertThat(now.at("/items/1/position").asInt()).isEqualTo(2);
        assertThat(now.at("/items/1/changeOrder").asInt()).isEqualTo(1);
        assertThat(now.at("/steps").size()).isGreaterThan(steps);
        for (int n = 1; n <= now.at("/steps").size(); n++) {
            assertThat(now.at("/steps/" + (n - 1) + "/n").asInt()).isEqualTo(n);
        }
        post(
                Role.FLOOR,
                "/jobs/" + number(job) + "/bookings",
                withId("\"step\":" + now.at("/steps").size() + ",\"minutes\":12"));
        assertThat(
                        get(Role.FLOOR, "/jobs/" + number(job))
                                .at("/changeOrders/0/net")
                                .isMissingNode())
                .isTrue();

        ok("POST", "/jobs/" + number(job) + "/finish", null);
        answer(
                Role.OFFICE,
                "POST",
                "/jobs/" + number(job) + "/change-orders",
                withId("\"reason\":\"too late\",\"items\":[{\"takeOff\":" + TAKE_OFF + "}]"),
                409);
        answer(
                Role.OFFICE,
                "POST",
                "/jobs/" + number(job) + "/change-orders",
                withId("\"items\":[]"),
                400);
    }

    @Test
    void whoeverAgreesOrLeadsOnAtTheSameMomentWaitsAndIsServed() throws Exception {
        String at = "/jobs/" + number(post(Role.OFFICE, "/jobs", verbal(TAKE_OFF)));
        List<Callable<Integer>> changes = new ArrayList<>();
        for (int i = 0; i < 3; i++) {
            String change =
                    withId("\"reason\":\"more\",\"items\":[{\"takeOff\":" + TAKE_OFF + "}]");
            changes.add(() -> status(at + "/change-orders", change));
            changes.add(() -> status(at + "/change-orders", change));
        }
        assertThat(atOnce(changes)).containsOnly(201);
        JsonNode job = get(Role.OFFICE, at);
        assertThat(job.at("/changeOrders").size()).isEqualTo(3);
        assertThat(job.at("/items").size()).isEqualTo(4);

        for (String step : List.of("start", "finish", "close", "reopen")) {
            assertThat(atOnce(Collections.nCopies(6, () -> status(at + "/" + step, null))))
                    .as(step)
                    .containsOnly(200);
        }
    }

    private int status(String path, String body) {
        RestTestClient.RequestBodySpec request = shop.as(Role.OFFICE).post().uri("/api/v1" + path);
        return (body == null ? request : request.contentType(MediaType.APPLICATION_JSON).body(body))
                .exchange()
                .returnResult()
                .getStatus()
                .value();
    }

    private static List<Integer> atOnce(List<Callable<Integer>> work) throws Exception {
        ExecutorService threads = Executors.newFixedThreadPool(work.size());
        try {
            List<Integer> all = new ArrayList<>();
            for (Future<Integer> answer : threads.invokeAll(work)) {
                all.add(answer.get());
            }
            return all;
        } finally {
            threads.shutdown();
        }
    }

    private static String verbal(String takeOff) {
        return "{\"kind\":\"verbal\",\"customer\":\"Harbour Theatre\",\"items\":[{\"takeOff\":%s}]}"
                .formatted(takeOff);
    }

    @Test
    void whatTheTablesWouldNotTakeIsRefusedByItsField() {
        String job = verbal(TAKE_OFF);
        assertThat(
                        pointers(
                                answer(
                                        Role.OFFICE,
                                        "POST",
                                        "/jobs",
                                        with(job, "\"title\":\" \""),
                                        400)))
                .containsExactly("/title");
        String net = "\"net\":{\"amount\":\"1000000000.01\",\"currency\":\"EUR\"}";
        assertThat(pointers(answer(Role.OFFICE, "POST", "/jobs", with(job, net), 400)))
                .containsExactly("/net");
        String change = withId("\"reason\":\"more\",\"items\":[{\"takeOff\":" + TAKE_OFF + "}]");
        for (int status : List.of(201, 400)) {
            String at = "/jobs/" + number(post(Role.OFFICE, "/jobs", job)) + "/change-orders";
            JsonNode answer = answer(Role.OFFICE, "POST", at, change, status);
            assertThat(status == 201 || pointers(answer).equals(List.of("/id"))).isTrue();
        }
    }

    private static String with(String body, String field) {
        return body.replaceFirst("\\{", "{" + field + ",");
    }

    @Test
    void whatCannotBeMadeAsDescribedIsNoJob() {
        String deep = TAKE_OFF.replace("\"heightMm\":30", "\"heightMm\":400");
        assertThat(pointers(answer(Role.OFFICE, "POST", "/jobs", verbal(deep), 400)))
                .contains("/items/0/takeOff/parts/0/operations/0/heightMm");
        String at = "/jobs/" + number(post(Role.OFFICE, "/jobs", verbal(TAKE_OFF)));
        answer(
                Role.OFFICE,
                "POST",
                at + "/change-orders",
                withId("\"reason\":\"more\",\"items\":[{\"takeOff\":" + deep + "}]"),
                400);
    }

    @Test
    void whatWasMadeIsSaidWhenAJobIsFinished() {
        JsonNode job = released(accepted(JobsApiTests.QUOTE, 5));
        String at = "/jobs/" + number(job);
        ok("POST", at + "/start", null);
        JsonNode problem =
                answer(
                        Role.OFFICE,
                        "POST",
                        at + "/finish",
                        "{\"made\":[{\"position\":7,\"quantity\":1},{\"position\":1,\"quantity\":-1},"
                                + "{\"position\":1,\"quantity\":2},{}]}",
                        400);
        assertThat(pointers(problem))
                .containsExactly(
                        "/made/0/position",
                        "/made/1/quantity",
                        "/made/2/position",
                        "/made/3/position",
                        "/made/3/quantity");
        assertThat(
                        ok("POST", at + "/finish", "{\"made\":[{\"position\":1,\"quantity\":4}]}")
                                .at("/items/0/made")
                                .asInt())
                .isEqualTo(4);
        assertThat(ok("POST", at + "/finish", null).at("/items/0/made").asInt()).isEqualTo(4);
    }

    @Test
    void metalIsWrittenDownOnceAndACorrectionKeepsTheOldValue() {
        JsonNode job = released(accepted(JobsApiTests.QUOTE, 1));
        String at = "/jobs/" + number(job) + "/materials";
        String sheet =
                withId(
                        "\"grade\":\"AL99.5-O\",\"thicknessMm\":2,\"lengthMm\":2000,\"widthMm\":1000,"
                                + "\"count\":1,\"paid\":{\"amount\":\"54.00\",\"currency\":\"EUR\"},"
                                + "\"offcutLengthMm\":1000,\"offcutWidthMm\":1000");
        JsonNode taken = post(Role.OFFICE, at, sheet);
        assertThat(post(Role.OFFICE, at, sheet)).isEqualTo(taken);
        JsonNode right =
                post(
                        Role.OFFICE,
                        at + "/" + taken.at("/id").asString() + "/correct",
                        withId(
                                "\"grade\":\"AL99.5-O\",\"kg\":10,"
                                        + "\"paid\":{\"amount\":\"50.00\",\"currency\":\"EUR\"}"));
        answer(
                Role.OFFICE,
                "POST",
                at + "/" + taken.at("/id").asString() + "/correct",
                withId(
                        "\"grade\":\"AL99.5-O\",\"kg\":9,"
                                + "\"paid\":{\"amount\":\"50.00\",\"currency\":\"EUR\"}"),
                409);
        assertThat(get(Role.OFFICE, at).at("/items").values())
                .hasSize(2)
                .filteredOn(m -> m.at("/id").equals(taken.at("/id")))
                .allSatisfy(m -> assertThat(m.at("/replacedBy")).isEqualTo(right.at("/id")));
        answer(Role.FLOOR, "GET", at, null, 403);
        assertThat(
                        pointers(
                                answer(
                                        Role.OFFICE,
                                        "POST",
                                        at,
                                        "{\"grade\":\"nothing\",\"item\":9,\"count\":-1,"
                                                + "\"paid\":{\"amount\":\"1\",\"currency\":\"USD\"}}",
                                        400)))
                .contains("/id", "/grade", "/item", "/count", "/kg", "/paid/currency");
    }

    @Test
    void theOffcutGoesBackAtItsShareOfWhatWasPaid() {
        JobRecord record =
                withMetal(
                        "\"thicknessMm\":2,\"lengthMm\":2000,\"widthMm\":1000,\"count\":2,"
                                + "\"paid\":{\"amount\":\"108.00\",\"currency\":\"EUR\"},"
                                + "\"offcutLengthMm\":1000,\"offcutWidthMm\":1000");
        MetalUsed metal = record.metal().get(0);
        double density =
                record.orders().get(0).book().grade("AL99.5-O").orElseThrow().densityKgM3();
        assertThat(metal.takenKg()).isCloseTo(4e-3 * 2 * density, within(1e-9));
        assertThat(metal.netKg()).isCloseTo(3e-3 * 2 * density, within(1e-9));
        assertThat(metal.cost()).isEqualTo(strokewright.quantity.Money.of("81.00", "EUR"));
    }

    @Test
    void metalThatCannotBeIsRefusedByItsField() {
        String at = "/jobs/" + number(post(Role.OFFICE, "/jobs", verbal(TAKE_OFF))) + "/materials";
        String paid = "\"grade\":\"AL99.5-O\",\"paid\":{\"amount\":\"5.00\",\"currency\":\"EUR\"},";
        assertThat(pointers(answer(Role.OFFICE, "POST", at, withId(paid + "\"kg\":0"), 400)))
                .containsExactly("/kg");
        assertThat(
                        pointers(
                                answer(
                                        Role.OFFICE,
                                        "POST",
                                        at,
                                        withId(
                                                paid
                                                        + "\"kg\":1,\"offcutValue\":{\"amount\":\"5.01\",\"currency\":\"EUR\"}"),
                                        400)))
                .containsExactly("/offcutValue");
    }

    private JobRecord withMetal(String fields) {
        JsonNode job = released(accepted(JobsApiTests.QUOTE, 1));
        post(
                Role.OFFICE,
                "/jobs/" + number(job) + "/materials",
                withId("\"grade\":\"AL99.5-O\"," + fields));
        return record(number(job));
    }

    @Test
    void billsAreKeptTheSameWay() {
        JsonNode job = released(accepted(JobsApiTests.QUOTE, 1));
        String at = "/jobs/" + number(job) + "/costs";
        JsonNode bill =
                post(
                        Role.OFFICE,
                        at,
                        withId(
                                "\"name\":\"Powder coat\",\"extra\":\"Powder coat\",\"number\":\"4711\","
                                        + "\"amount\":{\"amount\":\"92.50\",\"currency\":\"EUR\"}"));
        post(
                Role.OFFICE,
                at + "/" + bill.at("/id").asString() + "/correct",
                withId(
                        "\"name\":\"Powder coat\",\"amount\":{\"amount\":\"90.00\",\"currency\":\"EUR\"}"));
        assertThat(record(number(job)).bills())
                .singleElement()
                .satisfies(
                        b ->
                                assertThat(b.amount())
                                        .isEqualTo(strokewright.quantity.Money.of("90.00", "EUR")));
        assertThat(pointers(answer(Role.OFFICE, "POST", at, "{}", 400)))
                .containsExactlyInAnyOrder("/id", "/name", "/amount");
        String withPartOfACent =
                withId("\"name\":\"Oven\",\"amount\":{\"amount\":\"9.005\",\"currency\":\"EUR\"}");
        assertThat(pointers(answer(Role.OFFICE, "POST", at, withPartOfACent, 400)))
                .containsExactly("/amount");
    }

    @Test
    void aRecordHoldsAllThatIsKnown() {
        JsonNode job = released(accepted(JobsApiTests.QUOTE, 5));
        String at = "/jobs/" + number(job);
        post(Role.FLOOR, at + "/bookings", withId("\"step\":1,\"minutes\":60"));
        post(
                Role.OFFICE,
                at + "/change-orders",
                withId("\"reason\":\"more\",\"items\":[{\"takeOff\":" + TAKE_OFF + "}]"));
        ok("POST", at + "/finish", "{\"made\":[{\"position\":1,\"quantity\":4}]}");

        List<JobRecord> all = shop.user(Role.OWNER).call(() -> records.finished(null, null));
        assertThat(all).singleElement().isEqualTo(record(number(job)));
        JobRecord record = all.get(0);
        assertThat(record.orders()).hasSize(2);
        assertThat(record.orders().get(0).items().get(0).made()).isEqualTo(4);
        assertThat(record.orders().get(0).items().get(0).quantity()).isEqualTo(5);
        assertThat(record.bookings()).hasSize(1);
        assertThat(record.isBookedToTheEnd()).isTrue();
        assertThat(record.finishedOn()).isNotNull();
    }

    private JobRecord record(String number) {
        return shop.user(Role.OWNER).call(() -> records.of(number));
    }

    private static String number(JsonNode job) {
        return job.at("/number").asString();
    }

    private static double amount(JsonNode node, String at) {
        return Double.parseDouble(node.at(at + "/amount").asString());
    }

    private static List<String> pointers(JsonNode problem) {
        return problem.at("/errors").values().stream()
                .map(e -> e.at("/pointer").asString())
                .toList();
    }
}
