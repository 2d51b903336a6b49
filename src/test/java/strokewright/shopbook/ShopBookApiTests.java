package strokewright.shopbook;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.test.web.servlet.client.EntityExchangeResult;
import org.springframework.test.web.servlet.client.RestTestClient;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

class ShopBookApiTests extends ServiceTest {

    private static final String BOOK = "/api/v1/shop-book";

    private TestShop shop;
    private RestTestClient owner;

    @BeforeEach
    void openAShop() {
        shop = openShop();
        owner = shop.as(Role.OWNER);
    }

    @Test
    void aNewShopHasTheStarterBookAsItsFirstEdition() {
        var answer = get(owner, BOOK);
        assertThat(answer.getResponseHeaders().getETag()).isEqualTo("\"1\"");
        JsonNode book = answer.getResponseBody();
        assertThat(book.get("edition").intValue()).isEqualTo(1);
        assertThat(book.get("currency").asString()).isEqualTo("EUR");
        assertThat(book.at("/grades/0/code").asString()).isEqualTo("AL99.5-O");
        JsonNode entry = get(owner, BOOK + "/editions").getResponseBody().at("/items/0");
        assertThat(entry.get("note").asString()).isEqualTo("Starter book");
        assertThat(entry.get("addedBy").asString()).isEqualTo("The owner");
    }

    @Test
    void isNotSentAgainToWhoHasIt() {
        owner.get()
                .uri(BOOK)
                .header(HttpHeaders.IF_NONE_MATCH, "\"1\"")
                .exchange()
                .expectStatus()
                .isNotModified();
    }

    @Test
    void aChangeBecomesTheNextEditionAndTheOldOneStays() {
        ObjectNode book = book();
        double before = book.at("/times/practiceSlope").asDouble();
        book.withObject("/times").put("practiceSlope", 0.9);
        var answer = put(owner, book, "\"1\"", "slower start");
        assertThat(answer.getStatus().value()).isEqualTo(200);
        assertThat(answer.getResponseHeaders().getETag()).isEqualTo("\"2\"");
        assertThat(answer.getResponseHeaders().getFirst(HttpHeaders.CONTENT_LOCATION))
                .isEqualTo(BOOK + "/editions/2");
        assertThat(answer.getResponseHeaders().getFirst("Edition-Unchanged")).isNull();
        assertThat(answer.getResponseBody().get("edition").intValue()).isEqualTo(2);
        assertThat(slope(BOOK)).isEqualTo(0.9);
        assertThat(slope(BOOK + "/editions/2")).isEqualTo(0.9);
        assertThat(slope(BOOK + "/editions/1")).isEqualTo(before);
        JsonNode items = get(owner, BOOK + "/editions").getResponseBody().get("items");
        assertThat(items.findValuesAsString("edition")).containsExactly("2", "1");
        assertThat(items.findValuesAsString("note"))
                .containsExactly("slower start", "Starter book");
    }

    @Test
    void theSameBookAddsNoEdition() {
        ObjectNode book = book();
        ObjectNode unnumbered = book.deepCopy();
        unnumbered.remove("edition");
        for (ObjectNode same : List.of(book, unnumbered)) {
            var answer = put(owner, same, "\"1\"", null);
            assertThat(answer.getStatus().value()).isEqualTo(200);
            assertThat(answer.getResponseHeaders().getETag()).isEqualTo("\"1\"");
            assertThat(answer.getResponseHeaders().getFirst("Edition-Unchanged")).isEqualTo("true");
        }
        assertThat(get(owner, BOOK + "/editions").getResponseBody().get("items")).hasSize(1);
    }

    @Test
    void aChangeNeedsTheEditionThatItWasMadeFrom() {
        ObjectNode book = book();
        assertThat(put(owner, book, null, null).getStatus().value()).isEqualTo(428);
        assertThat(put(owner, book, "\"2\"", null).getStatus().value()).isEqualTo(412);
        assertThat(put(owner, book, "W/\"1\"", null).getStatus().value()).isEqualTo(412);
        var other = put(owner, book.put("edition", 2), "\"1\"", null);
        assertThat(pointers(other.getResponseBody())).containsExactly("/edition");
    }

    @Test
    void everyFaultIsNamedAndNothingIsStored() {
        ObjectNode book = book();
        book.withObject("/times").put("practiceSlope", 2).put("annealStandard", "nothing");
        book.withArray("/tools").get(3).asObject().put("pitchMm", 0);
        book.withObject("/familyBite").remove("stainless");
        book.withArray("/workCentres").get(1).withObject("/labourRate").put("currency", "CHF");
        book.withObject("/priceScheme").put("tradeDiscountPercent", 99);
        var answer = put(owner, book, "\"1\"", "n".repeat(201));
        assertThat(answer.getStatus().value()).isEqualTo(400);
        assertThat(answer.getResponseHeaders().getContentType())
                .isEqualTo(MediaType.APPLICATION_PROBLEM_JSON);
        assertThat(pointers(answer.getResponseBody()))
                .containsExactlyInAnyOrder(
                        "/grades/7/family",
                        "/tools/3/pitchMm",
                        "/times/practiceSlope",
                        "/times/annealStandard",
                        "/workCentres/1/labourRate/currency",
                        "/priceScheme/tradeDiscountPercent",
                        "?note");
        assertThat(get(owner, BOOK).getResponseHeaders().getETag()).isEqualTo("\"1\"");
    }

    @Test
    void unknownFieldsAndWrongKindsAreNamed() {
        ObjectNode book = book();
        book.put("colour", "red");
        book.withArray("/grades").get(0).asObject().put("densityKgM3", "heavy");
        book.withArray("/tools").get(0).asObject().put("kind", "hammer");
        assertThat(pointers(put(owner, book, "\"1\"", null).getResponseBody()))
                .containsExactlyInAnyOrder("/colour", "/grades/0/densityKgM3", "/tools/0/kind");
    }

    @Test
    void theShopKeepsItsCurrency() {
        ObjectNode book = book();
        String francs = book.toString().replace("\"EUR\"", "\"CHF\"");
        var answer = put(owner, francs, "\"1\"", null);
        assertThat(answer.getStatus().value()).isEqualTo(400);
        assertThat(pointers(answer.getResponseBody())).containsExactly("/currency");
    }

    @Test
    void onlyTheOwnerChangesIt() {
        ObjectNode book = book();
        for (Role role : List.of(Role.ESTIMATOR, Role.OFFICE, Role.FLOOR)) {
            assertThat(put(shop.as(role), book, "\"1\"", null).getStatus().value()).isEqualTo(403);
        }
        get(shop.as(Role.ESTIMATOR), BOOK);
        shop.as(Role.FLOOR).get().uri(BOOK).exchange().expectStatus().isForbidden();
    }

    @Test
    void anotherShopsEditionsDoNotExist() {
        put(owner, changed(1), "\"1\"", null);
        RestTestClient stranger = openShop().as(Role.OWNER);
        assertThat(get(stranger, BOOK).getResponseHeaders().getETag()).isEqualTo("\"1\"");
        for (String n : List.of("2", "0", "-1")) {
            stranger.get()
                    .uri(BOOK + "/editions/" + n)
                    .exchange()
                    .expectStatus()
                    .isNotFound()
                    .expectHeader()
                    .contentType(MediaType.APPLICATION_PROBLEM_JSON);
        }
    }

    @Test
    void editionsComeInPages() {
        for (int i = 1; i <= 4; i++) {
            put(owner, changed(i), "\"" + i + "\"", null);
        }
        var first = get(owner, BOOK + "/editions?size=3");
        assertThat(first.getResponseBody().get("items").findValuesAsString("edition"))
                .containsExactly("5", "4", "3");
        String link = first.getResponseHeaders().getFirst(HttpHeaders.LINK);
        String next = link.substring(1, link.indexOf('>'));
        assertThat(get(owner, next).getResponseBody().get("items").findValuesAsString("edition"))
                .containsExactly("2", "1");
    }

    @Test
    void doubtsAreToldBesideTheBook() {
        assertThat(get(owner, BOOK + "/findings").getResponseBody().get("findings")).isEmpty();
        ObjectNode book = book();
        book.withArray("/grades").get(3).asObject().put("strengthCoefficientMpa", 202);
        book.withArray("/grades").get(3).asObject().put("hardeningExponent", 0.13);
        put(owner, book, "\"1\"", null);
        JsonNode finding = get(owner, BOOK + "/findings").getResponseBody().at("/findings/0");
        assertThat(finding.get("severity").asString()).isEqualTo("doubt");
        assertThat(finding.get("pointer").asString()).isEqualTo("/grades/3/hardeningExponent");
    }

    /** Of many who change the same edition one succeeds. */
    @Test
    void oneOfManyAtOnceAddsTheNextEdition() throws Exception {
        List<Integer> statuses =
                atOnce(12, i -> put(owner, changed(i + 1), "\"1\"", null).getStatus().value());
        assertThat(statuses).containsOnlyOnce(200);
        assertThat(statuses.stream().filter(s -> s == 412)).hasSize(11);
        assertThat(get(owner, BOOK).getResponseHeaders().getETag()).isEqualTo("\"2\"");
    }

    @Test
    void manyAtOnceLeaveNoGapAndNoDouble() throws Exception {
        List<String> tags =
                atOnce(
                        12,
                        i -> put(owner, changed(i + 1), "*", null).getResponseHeaders().getETag());
        assertThat(tags)
                .containsExactlyInAnyOrderElementsOf(
                        IntStream.rangeClosed(2, 13).mapToObj(n -> "\"" + n + "\"").toList());
    }

    private interface Numbered<T> {
        T call(int i);
    }

    private static <T> List<T> atOnce(int many, Numbered<T> work) throws Exception {
        ExecutorService threads = Executors.newFixedThreadPool(many);
        try {
            List<Callable<T>> calls = new ArrayList<>();
            for (int i = 0; i < many; i++) {
                int number = i;
                calls.add(() -> work.call(number));
            }
            List<T> results = new ArrayList<>();
            for (Future<T> result : threads.invokeAll(calls)) {
                results.add(result.get());
            }
            return results;
        } finally {
            threads.shutdownNow();
        }
    }

    private ObjectNode book() {
        return get(owner, BOOK).getResponseBody().asObject();
    }

    /** The starter book with one price that differs, without an edition. */
    private ObjectNode changed(int by) {
        ObjectNode book = get(owner, BOOK + "/editions/1").getResponseBody().asObject();
        book.remove("edition");
        book.withArray("/sheets").get(0).withObject("/pricePerKg").put("amount", by + ".11");
        return book;
    }

    private double slope(String uri) {
        return get(owner, uri).getResponseBody().at("/times/practiceSlope").asDouble();
    }

    private static List<String> pointers(JsonNode problem) {
        return problem.get("errors").findValuesAsString("pointer");
    }

    private static EntityExchangeResult<JsonNode> get(RestTestClient client, String uri) {
        return client.get()
                .uri(uri)
                .exchange()
                .expectStatus()
                .isOk()
                .expectBody(JsonNode.class)
                .returnResult();
    }

    private static EntityExchangeResult<JsonNode> put(
            RestTestClient client, Object book, @Nullable String ifMatch, @Nullable String note) {
        return client.put()
                .uri(
                        uri ->
                                note == null
                                        ? uri.path(BOOK).build()
                                        : uri.path(BOOK).queryParam("note", note).build())
                .contentType(MediaType.APPLICATION_JSON)
                .headers(
                        headers -> {
                            if (ifMatch != null) {
                                headers.set(HttpHeaders.IF_MATCH, ifMatch);
                            }
                        })
                .body(book.toString())
                .exchange()
                .expectBody(JsonNode.class)
                .returnResult();
    }
}
