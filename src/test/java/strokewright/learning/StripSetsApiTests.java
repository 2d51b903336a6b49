package strokewright.learning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
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
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.PassLimit;
import strokewright.estimate.ShopBook.Tool;
import strokewright.shopbook.ShopBooks;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Test strips over HTTP on a real database. */
class StripSetsApiTests extends ServiceTest {

    private static final String PATH = "/api/v1/learning/test-strips";
    private static final JsonMapper JSON = JsonMapper.builder().build();

    @Autowired private ShopBooks books;
    @Autowired private StripSets sets;
    @Autowired private JdbcClient sql;
    @Autowired private PlatformTransactionManager transactions;

    private TestShop shop;
    private ShopBook starter;

    @BeforeEach
    void shop() {
        shop = openShop();
        starter = shop.user(Role.OWNER).call(books::current);
    }

    @Test
    void stripsAreFittedKeptAndReadBackAsTheyWereAnswered() {
        EntityExchangeResult<JsonNode> made = enter(MeasuredShop.notes(starter), null);

        JsonNode set = made.getResponseBody();
        isFitted(set.at("/biteStrain"), MeasuredShop.BITE);
        isFitted(set.at("/strokeWorkJ"), MeasuredShop.STROKE_WORK_J);
        isFitted(set.at("/feedEfficiency"), MeasuredShop.FEED);
        assertThat(set.at("/family").asString()).isEqualTo(MeasuredShop.FAMILY);
        assertThat(set.at("/readings").size()).isEqualTo(7);
        assertThat(set.at("/readings/0/heldBy").asString()).isEqualTo("bite");
        assertThat(set.at("/readings/6/heldBy").asString()).isEqualTo("both");
        assertThat(set.at("/readings/6/residualStrokes").asDouble()).isCloseTo(0, within(1e-3));
        assertThat(set.at("/enteredBy").asString()).isEqualTo("The estimator");
        assertThat(set.at("/shopBookEdition").asInt()).isEqualTo(1);
        assertThat(set.has("adoptedEdition")).isFalse();
        String location = made.getResponseHeaders().getLocation().toString();
        assertThat(location).isEqualTo(PATH + "/" + set.at("/id").asString());
        assertThat(get(location).getResponseBody()).isEqualTo(set);
    }

    @Test
    void aRepeatWithTheSameKeyEntersThemOnce() {
        TestStrips notes = MeasuredShop.notes(starter);
        JsonNode first = enter(notes, "strip-1").getResponseBody();

        EntityExchangeResult<JsonNode> second = enter(notes, "strip-1");

        assertThat(second.getResponseHeaders().getFirst("Idempotency-Replayed")).isEqualTo("true");
        assertThat(second.getResponseBody()).isEqualTo(first);
        assertThat(get(PATH).getResponseBody().at("/items").size()).isEqualTo(1);
    }

    @Test
    void faultsAreToldWithPointersAndNothingIsKept() {
        String body =
                """
                {"tool":"Dome, soft-faced","machine":"Forming machine 5 mm",
                 "strips":[{"grade":"ZN-CU-TI","thicknessMm":1,"sense":"shrink","lengthMm":500,
                   "heightMm":40,"readings":[
                    {"radiusMm":30,"strokes":100,"minutes":1},
                    {"radiusMm":50,"strokes":90,"minutes":1}]}]}
                """;
        JsonNode problem = send(HttpMethod.POST, PATH, Role.ESTIMATOR, body, null, 400);

        assertThat(problem.at("/errors").values())
                .extracting(e -> e.at("/pointer").asString())
                .containsExactly(
                        "/tool",
                        "/strips/0/grade",
                        "/strips/0/readings/0/radiusMm",
                        "/strips/0/readings/1/radiusMm",
                        "/strips/0/readings/1/strokes",
                        "/strips/0/readings/1/minutes");
        assertThat(get(PATH).getResponseBody().at("/items").size()).isZero();
    }

    @Test
    void whatCannotBeFittedIsKeptWithItsReasonAndCannotBeAdopted() {
        JsonNode set = enter(MeasuredShop.tooFew(starter), null).getResponseBody();

        assertThat(set.has("biteStrain")).isFalse();
        assertThat(set.at("/findings/0/code").asString()).isEqualTo("too-few-readings");
        assertThat(set.at("/findings/0/severity").asString()).isEqualTo("refusal");
        JsonNode problem = adopt(set, Role.OWNER, 409);
        assertThat(problem.at("/type").asString()).isEqualTo("/problems/wrong-state");
        assertThat(problem.at("/errors/0/message").asString()).startsWith("Only 2 readings");
        assertThat(current().edition()).isEqualTo(1);
    }

    @Test
    void adoptingMakesANewEditionWhoseLineIsMeasured() {
        JsonNode set = enter(MeasuredShop.notes(starter), null).getResponseBody();

        JsonNode adopted = adopt(set, Role.OWNER, 200);

        assertThat(adopted.at("/adoptedEdition").asInt()).isEqualTo(2);
        ShopBook book = current();
        assertThat(book.edition()).isEqualTo(2);
        PassLimit line = book.passLimit(MeasuredShop.TOOL, MeasuredShop.FAMILY).orElseThrow();
        assertThat(line.biteStrain()).isCloseTo(MeasuredShop.BITE, within(1e-7));
        assertThat(line.strokeWorkJ()).isCloseTo(MeasuredShop.STROKE_WORK_J, within(1e-6));
        assertThat(line.feedEfficiency()).isCloseTo(MeasuredShop.FEED, within(1e-7));
        assertThat(line.origin())
                .isEqualTo("measured, test strips of " + LocalDate.now(ZoneId.of("Europe/Berlin")));
        assertThat(book.withPassLimits(List.of()).withEdition(1)).isEqualTo(starter);
        JsonNode editions =
                send(HttpMethod.GET, "/api/v1/shop-book/editions", Role.OWNER, null, null, 200);
        assertThat(editions.at("/items/0/note").asString())
                .startsWith("Test strips of 20")
                .endsWith("Shrink, steel-faced, low-carbon-steel");
    }

    @Test
    void adoptingAgainDoesNothing() {
        JsonNode set = enter(MeasuredShop.notes(starter), null).getResponseBody();

        JsonNode first = adopt(set, Role.OWNER, 200);
        JsonNode second = adopt(set, Role.OWNER, 200);

        assertThat(second).isEqualTo(first);
        assertThat(current().edition()).isEqualTo(2);
    }

    @Test
    void aLaterSetReplacesTheLine() {
        adopt(enter(MeasuredShop.notes(starter), null).getResponseBody(), Role.OWNER, 200);
        FormedStrips slower =
                new FormedStrips(
                        starter.tool(MeasuredShop.TOOL).orElseThrow(),
                        starter.machine(MeasuredShop.MACHINE).orElseThrow(),
                        0.016,
                        0.7,
                        0.5,
                        x -> x);
        TestStrips later =
                slower.of(
                        slower.strip(
                                starter.grade(MeasuredShop.GRADE).orElseThrow(),
                                1.5,
                                Sense.SHRINK,
                                500,
                                24,
                                null,
                                700,
                                400,
                                250,
                                170));

        adopt(enter(later, null).getResponseBody(), Role.OWNER, 200);

        assertThat(current().passLimits()).hasSize(1);
        assertThat(current().passLimits().get(0).biteStrain()).isCloseTo(0.016, within(1e-7));
        assertThat(current().edition()).isEqualTo(3);
    }

    @Test
    void sixteenWhoAdoptAtOnceMakeOneEdition() throws Exception {
        JsonNode set = enter(MeasuredShop.notes(starter), null).getResponseBody();
        shop.token(Role.OWNER);
        ExecutorService people = Executors.newFixedThreadPool(16);
        try {
            List<Callable<JsonNode>> calls =
                    IntStream.range(0, 16)
                            .<Callable<JsonNode>>mapToObj(i -> () -> adopt(set, Role.OWNER, 200))
                            .toList();
            for (var answer : people.invokeAll(calls)) {
                assertThat(answer.get().at("/adoptedEdition").asInt()).isEqualTo(2);
            }
        } finally {
            people.shutdownNow();
        }
        assertThat(current().edition()).isEqualTo(2);
    }

    @Test
    void aFitIsNotAdoptedIntoABookThatItDoesNotRestOnAnyMore() {
        JsonNode set = enter(MeasuredShop.notes(starter), null).getResponseBody();
        shop.user(Role.OWNER)
                .run(() -> books.carryOn(book -> withPitch(book, MeasuredShop.TOOL, 6), "Wider"));

        JsonNode problem = adopt(set, Role.OWNER, 409);

        assertThat(problem.at("/detail").asString()).contains("has changed since");
        assertThat(current().passLimits()).isEmpty();
    }

    @Test
    void aBoundIsTakenOnlyWhereTheBookBelievesLess() {
        FormedStrips formed =
                new FormedStrips(
                        starter.tool(MeasuredShop.TOOL).orElseThrow(),
                        starter.machine(MeasuredShop.MACHINE).orElseThrow(),
                        0.015,
                        50,
                        0.5,
                        x -> x);
        JsonNode set =
                enter(
                                formed.of(
                                        formed.strip(
                                                starter.grade(MeasuredShop.GRADE).orElseThrow(),
                                                1.5,
                                                Sense.SHRINK,
                                                500,
                                                24,
                                                null,
                                                700,
                                                400,
                                                250,
                                                170)),
                                null)
                        .getResponseBody();
        assertThat(set.at("/strokeWorkJ/bound").asString()).isEqualTo("lower");
        assertThat(set.at("/strokeWorkJ/value").asDouble()).isLessThan(1.25);
        assertThat(set.at("/strokeWorkJ").has("high")).isFalse();

        adopt(set, Role.OWNER, 200);

        PassLimit line = current().passLimits().get(0);
        assertThat(line.biteStrain()).isCloseTo(0.015, within(1e-7));
        assertThat(line.strokeWorkJ()).isNull(); // the machine's 1.25 J are over the bound
    }

    @Test
    void theListIsPagedNewestFirst() {
        List<String> entered =
                IntStream.range(0, 5)
                        .mapToObj(i -> enter(MeasuredShop.notes(starter), null))
                        .map(answer -> answer.getResponseBody().at("/id").asString())
                        .collect(Collectors.toList());
        Collections.reverse(entered);

        List<String> seen = new ArrayList<>();
        String next = PATH + "?size=2";
        while (next != null) {
            EntityExchangeResult<JsonNode> page = get(next);
            page.getResponseBody()
                    .at("/items")
                    .values()
                    .forEach(i -> seen.add(i.at("/id").asString()));
            String link =
                    page.getResponseHeaders().getOrEmpty("Link").stream()
                            .filter(l -> l.contains("rel=\"next\""))
                            .findFirst()
                            .orElse(null);
            next = link == null ? null : link.substring(1, link.indexOf('>'));
        }

        assertThat(seen).isEqualTo(entered);
        assertThat(get(PATH).getResponseBody().at("/items/0/biteStrain/value").asDouble())
                .isCloseTo(MeasuredShop.BITE, within(1e-7));
        send(HttpMethod.GET, PATH + "?after=bm9uc2Vuc2U", Role.OWNER, null, null, 400);
    }

    @Test
    void estimatorAndOwnerEnterOnlyTheOwnerAdoptsAndNobodyElseLooks() {
        JsonNode set = enter(MeasuredShop.notes(starter), null).getResponseBody();
        String own = PATH + "/" + set.at("/id").asString();
        Map<Role, Integer> looks =
                Map.of(Role.ESTIMATOR, 200, Role.OWNER, 200, Role.OFFICE, 403, Role.FLOOR, 403);

        looks.forEach((role, status) -> send(HttpMethod.GET, own, role, null, null, status));
        for (Role role : List.of(Role.ESTIMATOR, Role.OFFICE, Role.FLOOR)) {
            adopt(set, role, 403);
        }
        for (Role role : List.of(Role.OFFICE, Role.FLOOR)) {
            send(HttpMethod.POST, PATH, role, "{}", null, 403);
        }
        assertThat(current().edition()).isEqualTo(1);
    }

    @Test
    void anotherShopDoesNotSeeThem() {
        JsonNode set = enter(MeasuredShop.notes(starter), null).getResponseBody();
        TestShop other = openShop();

        other.as(Role.OWNER)
                .get()
                .uri(PATH + "/" + set.at("/id").asString())
                .exchange()
                .expectStatus()
                .isNotFound();
        other.as(Role.OWNER)
                .post()
                .uri(PATH + "/" + set.at("/id").asString() + "/adopt")
                .exchange()
                .expectStatus()
                .isNotFound();
        send(HttpMethod.GET, PATH + "/" + UUID.randomUUID(), Role.OWNER, null, null, 404);
    }

    @Test
    void theServiceMayNotChangeWhatWasNoted() {
        UUID id =
                shop.user(Role.ESTIMATOR).call(() -> sets.enter(MeasuredShop.notes(starter))).id();
        for (String change :
                List.of(
                        "update test_strip_set set notes = '{}' where id = ?",
                        "update test_strip_set set fit = '{}' where id = ?",
                        "delete from test_strip_set where id = ?")) {
            assertThatThrownBy(
                            () ->
                                    shop.user(Role.OWNER)
                                            .run(
                                                    () ->
                                                            new TransactionTemplate(transactions)
                                                                    .executeWithoutResult(
                                                                            s ->
                                                                                    sql.sql(change)
                                                                                            .param(
                                                                                                    id)
                                                                                            .update())))
                    .rootCause()
                    .hasMessageContaining("permission denied");
        }
    }

    private static void isFitted(JsonNode figure, double truth) {
        assertThat(figure.at("/value").asDouble()).isCloseTo(truth, within(1e-6 * truth));
        assertThat(figure.at("/low").asDouble())
                .isLessThanOrEqualTo(figure.at("/value").asDouble());
        assertThat(figure.at("/high").asDouble())
                .isGreaterThanOrEqualTo(figure.at("/value").asDouble());
        assertThat(figure.has("bound")).isFalse();
    }

    private static ShopBook withPitch(ShopBook book, String name, double pitch) {
        List<Tool> tools =
                book.tools().stream()
                        .map(
                                t ->
                                        !t.name().equals(name)
                                                ? t
                                                : new Tool(
                                                        t.name(),
                                                        t.kind(),
                                                        t.surface(),
                                                        t.biteStrain(),
                                                        t.jawMm(),
                                                        t.rowMm(),
                                                        pitch,
                                                        t.strokesPerMinute(),
                                                        t.changeMinutes(),
                                                        t.setMinutes(),
                                                        t.maxThicknessMm(),
                                                        t.origin()))
                        .toList();
        return new ShopBook(
                book.edition(),
                book.currency(),
                book.grades(),
                book.sheets(),
                book.machines(),
                tools,
                book.familyBite(),
                book.passLimits(),
                book.times(),
                book.standards(),
                book.workCentres(),
                book.priceScheme(),
                book.routes(),
                book.proposals(),
                book.cutting(),
                book.bending(),
                book.inspection(),
                book.uncertainty(),
                book.learned());
    }

    private ShopBook current() {
        return shop.user(Role.OWNER).call(books::current);
    }

    private JsonNode adopt(JsonNode set, Role role, int status) {
        String path = PATH + "/" + set.at("/id").asString() + "/adopt";
        return send(HttpMethod.POST, path, role, null, null, status);
    }

    private EntityExchangeResult<JsonNode> get(String path) {
        return shop.as(Role.ESTIMATOR)
                .get()
                .uri(path)
                .exchange()
                .expectStatus()
                .isOk()
                .expectBody(JsonNode.class)
                .returnResult();
    }

    private EntityExchangeResult<JsonNode> enter(TestStrips notes, @Nullable String key) {
        return exchange(
                HttpMethod.POST, PATH, Role.ESTIMATOR, JSON.writeValueAsString(notes), key, 201);
    }

    private JsonNode send(
            HttpMethod method,
            String path,
            Role role,
            @Nullable String body,
            @Nullable String key,
            int status) {
        return exchange(method, path, role, body, key, status).getResponseBody();
    }

    private EntityExchangeResult<JsonNode> exchange(
            HttpMethod method,
            String path,
            Role role,
            @Nullable String body,
            @Nullable String key,
            int status) {
        RestTestClient.RequestBodySpec request = shop.as(role).method(method).uri(path);
        if (key != null) {
            request.header("Idempotency-Key", key);
        }
        if (body != null) {
            request.contentType(MediaType.APPLICATION_JSON).body(body);
        }
        return request.exchange()
                .expectStatus()
                .isEqualTo(status)
                .expectBody(JsonNode.class)
                .returnResult();
    }
}
