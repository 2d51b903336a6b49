package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.web.servlet.client.EntityExchangeResult;
import org.springframework.test.web.servlet.client.RestTestClient;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import strokewright.OpenedPdf;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.estimate.Estimating;
import strokewright.office.Pdf;
import strokewright.office.Workbook;
import strokewright.shopbook.ShopBooks;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Quotes over HTTP on a real database. */
public class QuotesApiTests extends ServiceTest {

    private static final JsonMapper JSON = JsonMapper.builder().build();

    public static final String TAKE_OFF =
            """
            {"title":"Round sign frame","quantities":[1,5],
             "parts":[{"name":"Rim","grade":"AL99.5-O","thicknessMm":2.0,
               "blank":{"lengthMm":1950,"widthMm":120},
               "operations":[
                {"type":"curve-edge","sense":"shrink","lengthMm":1885,"radiusMm":300,"heightMm":40},
                {"type":"standard","standard":"Guillotine cut","amount":4}]}]}
            """;

    private static final String QUOTE =
            """
            {"customer":{"name":"Harbour Theatre","address":"Quay 1"},
             "items":[
              {"title":"Frame","takeOff":%s},
              {"title":"Frame, spare","option":true,"takeOff":%s}]}
            """
                    .formatted(TAKE_OFF, TAKE_OFF);

    @Autowired private Quotes quotes;
    @Autowired private ShopBooks books;
    @Autowired private JdbcClient sql;
    @Autowired private PlatformTransactionManager transactions;

    private TestShop shop;
    private RestTestClient estimator;

    @BeforeEach
    void shop() {
        shop = openShop();
        estimator = shop.as(Role.ESTIMATOR);
    }

    @Test
    void draftIsKeptUnderItsNumberAndReadBackAsItWasAnswered() {
        EntityExchangeResult<JsonNode> made = post(QUOTE, null, 201);
        String number = made.getResponseBody().at("/number").asString();

        assertThat(number).matches("Q-20[0-9]{2}-0001");
        assertThat(made.getResponseHeaders().getLocation()).hasPath("/api/v1/quotes/" + number);
        EntityExchangeResult<JsonNode> read = get(number);
        assertThat(read.getResponseBody()).isEqualTo(made.getResponseBody());
        assertThat(read.getResponseHeaders().getETag())
                .isEqualTo(made.getResponseHeaders().getETag());
        assertThat(read.getResponseBody().at("/state").asString()).isEqualTo("draft");
        assertThat(read.getResponseBody().at("/customer/name").asString())
                .isEqualTo("Harbour Theatre");
        assertThat(read.getResponseBody().at("/createdBy").asString()).isEqualTo("The estimator");
    }

    @Test
    void optionsStayOutOfTheTotal() {
        JsonNode quote = post(QUOTE, null, 201).getResponseBody();

        assertThat(quote.at("/total/net"))
                .isEqualTo(quote.at("/items/0/estimate/quantities/0/price/offer"));
    }

    @Test
    void everyFaultIsNamedWithItsItem() {
        String faulty =
                QUOTE.replaceFirst("\"AL99.5-O\"", "\"tin\"")
                        .replace("\"name\":\"Harbour Theatre\",", "")
                        .replace("\"title\":\"Frame, spare\"", "\"position\":0");
        JsonNode problem = post(faulty, null, 400).getResponseBody();

        assertThat(problem.at("/errors").values())
                .extracting(e -> e.at("/pointer").asString())
                .containsExactly(
                        "/customer/name", "/items/0/takeOff/parts/0/grade", "/items/1/position");
        assertThat(list("?size=200").getResponseBody().at("/items").size()).isZero();
    }

    @Test
    void customerIsFoundByNameOrIdAndAddedOnlyWhenNew() {
        JsonNode first = post(QUOTE, null, 201).getResponseBody().at("/customer");

        assertThat(customerOf("{\"name\":\" Harbour Theatre \"}")).isEqualTo(first);
        assertThat(customerOf("\"Harbour Theatre\"")).isEqualTo(first);
        assertThat(customerOf("{\"id\":" + first.at("/id") + "}")).isEqualTo(first);
        assertThat(customerOf("{\"name\":\"Harbour Theatre\",\"address\":\"Quay 2\"}").at("/id"))
                .isNotEqualTo(first.at("/id"));
    }

    private JsonNode customerOf(String customer) {
        return post(QUOTE.replaceFirst("\\{\"name\":.*?}", customer), null, 201)
                .getResponseBody()
                .at("/customer");
    }

    @Test
    void ofManyWhoQuoteToANewCustomerAtOnceOneAddsIt() throws Exception {
        List<JsonNode> ids =
                atOnce(
                        IntStream.range(0, 16)
                                .<Callable<JsonNode>>mapToObj(
                                        i ->
                                                () ->
                                                        post(QUOTE, null, 201)
                                                                .getResponseBody()
                                                                .at("/customer/id"))
                                .toList());

        assertThat(ids).containsOnly(ids.get(0));
    }

    @Test
    void draftChangesOnlyForWhoHasReadItsLatestVersion() {
        EntityExchangeResult<JsonNode> made = post(QUOTE, null, 201);
        String number = made.getResponseBody().at("/number").asString();
        String tag = made.getResponseHeaders().getETag();
        String larger = QUOTE.replace("[1,5]", "[2,7]");

        assertThat(put(number, larger, null)).isEqualTo(428);
        assertThat(put(number, larger, tag)).isEqualTo(200);
        assertThat(put(number, QUOTE, tag)).isEqualTo(412);
        assertThat(get(number).getResponseBody().at("/items/0/takeOff/mainQuantity").asInt())
                .isEqualTo(2);
    }

    @Test
    void ofManyWhoChangeItAtOnceOneWins() throws Exception {
        EntityExchangeResult<JsonNode> made = post(QUOTE, null, 201);
        String number = made.getResponseBody().at("/number").asString();
        String tag = made.getResponseHeaders().getETag();
        List<Integer> answers =
                atOnce(
                        IntStream.range(0, 16)
                                .<Callable<Integer>>mapToObj(
                                        i ->
                                                () ->
                                                        put(
                                                                number,
                                                                QUOTE.replace(
                                                                        "[1,5]",
                                                                        "[" + (i + 2) + "]"),
                                                                tag))
                                .toList());

        assertThat(answers).containsOnly(200, 412);
        assertThat(answers).filteredOn(a -> a == 200).hasSize(1);
    }

    @Test
    void ofManyWhoLeadItOnAtOnceEachLearnsWhatBecameOfIt() throws Exception {
        String number = post(QUOTE, null, 201).getResponseBody().at("/number").asString();

        assertThat(atOnce(steps(number, "issue", "issue"))).containsOnly(200);
        List<Integer> revised = atOnce(steps(number, "revisions", "revisions"));
        assertThat(revised).containsOnly(201, 409).filteredOn(a -> a == 201).hasSize(1);
        assertThat(atOnce(steps(number, "issue", "issue"))).containsOnly(200);

        List<Integer> decided = atOnce(steps(number, "accept", "decline"));
        assertThat(decided).containsOnly(200, 409).filteredOn(a -> a == 200).hasSize(4);
        assertThat(get(number).getResponseBody().at("/state").asString())
                .isEqualTo(decided.get(0) == 200 ? "accepted" : "declined");
    }

    /** Four times the one and four times the other, in turn, and what is answered. */
    private List<Callable<Integer>> steps(String number, String one, String other) {
        return IntStream.range(0, 8)
                .<Callable<Integer>>mapToObj(
                        i ->
                                () ->
                                        shop.as(Role.OWNER)
                                                .post()
                                                .uri(
                                                        "/api/v1/quotes/{n}/{step}",
                                                        number,
                                                        i % 2 == 0 ? one : other)
                                                .contentType(MediaType.APPLICATION_JSON)
                                                .body(
                                                        other.equals("decline") && i % 2 == 1
                                                                ? "{\"reason\":\"price\"}"
                                                                : "{}")
                                                .exchange()
                                                .expectBody(byte[].class)
                                                .returnResult()
                                                .getStatus()
                                                .value())
                .toList();
    }

    @Test
    void numbersHaveNoGapAndNoDoubleHoweverManyAskAtOnce() throws Exception {
        List<String> numbers =
                atOnce(
                        IntStream.range(0, 48)
                                .<Callable<String>>mapToObj(
                                        i ->
                                                () ->
                                                        i % 4 == 3
                                                                ? refused()
                                                                : post(QUOTE, null, 201)
                                                                        .getResponseBody()
                                                                        .at("/number")
                                                                        .asString())
                                .toList());
        List<String> made = numbers.stream().filter(n -> !n.isEmpty()).sorted().toList();
        String year = made.get(0).substring(0, 7);

        assertThat(made)
                .isEqualTo(
                        IntStream.rangeClosed(1, 36)
                                .mapToObj(n -> year + "%04d".formatted(n))
                                .toList());
    }

    private String refused() {
        post(QUOTE.replace("\"AL99.5-O\"", "\"tin\""), null, 400);
        return "";
    }

    @Test
    void sameKeyHasOneEffectAndTheSameAnswer() throws Exception {
        List<EntityExchangeResult<JsonNode>> answers =
                atOnce(
                        IntStream.range(0, 16)
                                .<Callable<EntityExchangeResult<JsonNode>>>mapToObj(
                                        i -> () -> post(QUOTE, "order-4711", 201))
                                .toList());

        assertThat(answers)
                .extracting(a -> a.getResponseBody())
                .containsOnly(answers.get(0).getResponseBody());
        assertThat(answers)
                .extracting(a -> a.getResponseHeaders().getETag())
                .containsOnly(answers.get(0).getResponseHeaders().getETag());
        assertThat(answers)
                .extracting(a -> a.getResponseHeaders().getLocation())
                .containsOnly(answers.get(0).getResponseHeaders().getLocation());
        assertThat(answers)
                .filteredOn(a -> a.getResponseHeaders().containsHeader("Idempotency-Replayed"))
                .hasSize(15);
        assertThat(list("?size=200").getResponseBody().at("/items").size()).isEqualTo(1);
    }

    @Test
    void keyOfAnotherRequestIsRefusedAndARefusedRequestKeepsNoKey() {
        post(QUOTE.replace("\"AL99.5-O\"", "\"tin\""), "k", 400);
        post(QUOTE, "k", 201);
        post(QUOTE.replace("[1,5]", "[3]"), "k", 422);
        post(QUOTE, "not printable é", 400);
    }

    @Test
    void issuedRevisionNeverChangesWhoeverTries() {
        String number = post(QUOTE, null, 201).getResponseBody().at("/number").asString();
        JsonNode issued = issue(number, 200).getResponseBody();
        String tag = get(number).getResponseHeaders().getETag();

        assertThat(issued.at("/state").asString()).isEqualTo("issued");
        assertThat(issued.at("/approvedBy").asString()).isEqualTo("The office");
        assertThat(issue(number, 200).getResponseBody()).isEqualTo(issued);
        assertThat(put(number, QUOTE, tag)).isEqualTo(409);
        for (String change :
                List.of(
                        "update quote_revision set net = 1 where state = 'issued'",
                        "delete from quote_item",
                        "update quote_revision set state = 'draft', issued_at = null, issued_by = null")) {
            assertThatThrownBy(
                            () ->
                                    shop.user(Role.OWNER)
                                            .run(
                                                    () ->
                                                            new TransactionTemplate(transactions)
                                                                    .executeWithoutResult(
                                                                            s ->
                                                                                    sql.sql(change)
                                                                                            .update())))
                    .as(change)
                    .hasMessageContaining("never changes");
        }
        assertThat(get(number).getResponseBody()).isEqualTo(issued);
    }

    @Test
    void otherRoutesAreKeptWithTheItemAndFrozenWithIt() {
        String bought = TAKE_OFF.replace("\"title\":\"Round sign frame\"", "\"title\":\"Bought\"");
        String alternatives =
                ",\"alternatives\":[{\"name\":\"Bought\",\"takeOff\":%s}]}"
                        .formatted(bought.strip());
        String quote =
                QUOTE.replace(
                        "},\n  {\"title\":\"Frame, spare\"",
                        alternatives + ",\n  {\"title\":\"Frame, spare\"");
        JsonNode plain = post(QUOTE, null, 201).getResponseBody();
        JsonNode made = post(quote, null, 201).getResponseBody();
        String number = made.at("/number").asString();

        assertThat(made.at("/items/0/alternatives").size()).isEqualTo(1);
        assertThat(made.at("/items/0/alternatives/0/name").asString()).isEqualTo("Bought");
        assertThat(made.at("/items/0/alternatives/0/takeOff/title").asString()).isEqualTo("Bought");
        assertThat(made.at("/items/1").has("alternatives")).isFalse();
        assertThat(made.at("/total")).isEqualTo(plain.at("/total"));
        assertThat(get(number).getResponseBody()).isEqualTo(made);
        issue(number, 200);
        assertThat(get(number).getResponseBody().at("/items")).isEqualTo(made.at("/items"));
    }

    @Test
    void faultsOfOtherRoutesAreToldWithTheRest() {
        String faulty =
                QUOTE.replaceFirst(
                        "\\{\"title\":\"Frame\",",
                        "{\"title\":\"Frame\",\"alternatives\":[{\"name\":\"\",\"takeOff\":{\"title\":\"Nothing\"}},null],");
        assertThat(post(faulty, null, 400).getResponseBody().at("/errors").values())
                .extracting(e -> e.at("/pointer").asString())
                .containsExactly(
                        "/items/0/alternatives/0/name",
                        "/items/0/alternatives/0/takeOff/parts",
                        "/items/0/alternatives/1");
    }

    @Test
    void whatCannotBeMadeIsKeptButNotIssued() {
        String impossible = QUOTE.replace("\"heightMm\":40", "\"heightMm\":400");
        JsonNode draft = post(impossible, null, 201).getResponseBody();

        assertThat(draft.at("/feasible").asBoolean()).isFalse();
        JsonNode problem = issue(draft.at("/number").asString(), 409).getResponseBody();
        assertThat(problem.at("/errors").values())
                .extracting(e -> e.at("/pointer").asString())
                .containsExactly(
                        "/items/0/takeOff/parts/0/operations/0/heightMm",
                        "/items/1/takeOff/parts/0/operations/0/heightMm");
        assertThat(problem.at("/errors/0/message").asString()).contains("does not fit");
    }

    @Test
    void storedRevisionIsRecomputedToTheCentFromItsOwnTakeOffsAndEdition() {
        String number = post(QUOTE, null, 201).getResponseBody().at("/number").asString();
        issue(number, 200);
        changeTheShopBook();
        shop.user(Role.ESTIMATOR)
                .run(
                        () -> {
                            QuoteDocument stored = quotes.revision(number, 1);
                            assertThat(books.current().edition()).isEqualTo(2);
                            for (PricedItem item : stored.items()) {
                                assertThat(
                                                Estimating.estimate(
                                                        item.takeOff(),
                                                        books.edition(stored.shopBookEdition())))
                                        .isEqualTo(item.estimate());
                                assertThat(
                                                Estimating.estimate(item.takeOff(), books.current())
                                                        .quantities())
                                        .isNotEqualTo(item.estimate().quantities());
                            }
                        });
    }

    @Test
    void aRevisionIsReadAsJsonOrAsWorkbook() {
        JsonNode quote = post(QUOTE, null, 201).getResponseBody();
        String path = "/api/v1/quotes/" + quote.at("/number").asString() + "/revisions/1";

        assertThat(getPath(path).getResponseBody()).isEqualTo(quote);
        EntityExchangeResult<byte[]> file =
                estimator
                        .get()
                        .uri(path)
                        .header(HttpHeaders.ACCEPT, Workbook.XLSX)
                        .exchange()
                        .expectStatus()
                        .isOk()
                        .expectBody(byte[].class)
                        .returnResult();
        assertThat(file.getResponseHeaders().getContentType()).hasToString(Workbook.XLSX);
        assertThat(file.getResponseHeaders().getContentDisposition().getFilename())
                .isEqualTo(quote.at("/number").asString() + ".xlsx");
        OpenedWorkbook opened = new OpenedWorkbook(file.getResponseBody()).calculate();
        assertThat(opened.amount("quote_with_tax"))
                .isEqualTo(quote.at("/total/withTax/amount").asString());
        assertThat(opened.words("item_1_check")).isEqualTo("Matches the stored revision.");
        shop.as(Role.FLOOR).get().uri(path).exchange().expectStatus().isForbidden();
    }

    @Test
    void aRevisionIsReadAsPdfForTheCustomer() {
        JsonNode quote = post(QUOTE, null, 201).getResponseBody();
        String number = quote.at("/number").asString();
        EntityExchangeResult<byte[]> file =
                estimator
                        .get()
                        .uri("/api/v1/quotes/" + number + "/revisions/1")
                        .header(HttpHeaders.ACCEPT, Pdf.TYPE)
                        .exchange()
                        .expectStatus()
                        .isOk()
                        .expectBody(byte[].class)
                        .returnResult();
        assertThat(file.getResponseHeaders().getContentType()).hasToString(Pdf.TYPE);
        assertThat(file.getResponseHeaders().getContentDisposition().getFilename())
                .isEqualTo(number + ".pdf");
        try (OpenedPdf opened = new OpenedPdf(file.getResponseBody())) {
            assertThat(opened.title()).startsWith("Quote " + number + ": ");
            assertThat(opened.text()).contains("DRAFT", quote.at("/customer/name").asString());
        }
    }

    @Test
    void listGoesPageByPageNewestFirst() {
        for (int i = 0; i < 5; i++) {
            post(QUOTE, null, 201);
        }
        EntityExchangeResult<JsonNode> first = list("?size=2");
        assertThat(numbers(first)).map(n -> n.substring(7)).containsExactly("0005", "0004");
        EntityExchangeResult<JsonNode> second = list(next(first));
        assertThat(numbers(second)).map(n -> n.substring(7)).containsExactly("0003", "0002");
        EntityExchangeResult<JsonNode> third = list(next(second));
        assertThat(numbers(third)).map(n -> n.substring(7)).containsExactly("0001");
        assertThat(third.getResponseHeaders().getOrEmpty(HttpHeaders.LINK))
                .noneMatch(l -> l.contains("next"));
    }

    @Test
    void anotherShopSeesNothingOfIt() {
        JsonNode quote = post(QUOTE, null, 201).getResponseBody();
        String number = quote.at("/number").asString();
        RestTestClient stranger = openShop().as(Role.OWNER);

        for (String path :
                List.of(
                        "/api/v1/quotes/" + number,
                        "/api/v1/quotes/" + number + "/revisions/1",
                        "/api/v1/customers/" + quote.at("/customer/id").asString())) {
            stranger.get().uri(path).exchange().expectStatus().isNotFound();
        }
        stranger.post()
                .uri("/api/v1/quotes/" + number + "/issue")
                .exchange()
                .expectStatus()
                .isNotFound();
        for (String list : List.of("/api/v1/quotes", "/api/v1/customers")) {
            stranger.get()
                    .uri(list)
                    .exchange()
                    .expectBody(JsonNode.class)
                    .value(body -> assertThat(body.at("/items").size()).isZero());
        }
    }

    @Test
    void customersAreListedByNamePageByPage() {
        for (String name : List.of("Ober", "Ärmel", "Bug", "öl")) {
            estimator
                    .post()
                    .uri("/api/v1/customers")
                    .contentType(MediaType.APPLICATION_JSON)
                    .body("{\"name\":\"" + name + "\"}")
                    .exchange()
                    .expectStatus()
                    .isCreated();
        }
        List<String> names = new ArrayList<>();
        String path = "/api/v1/customers?size=3";
        while (path != null) {
            EntityExchangeResult<JsonNode> page = getPath(path);
            page.getResponseBody()
                    .at("/items")
                    .values()
                    .forEach(c -> names.add(c.at("/name").asString()));
            String next = next(page);
            path = next == null ? null : next.startsWith("/") ? next : "/api/v1/customers" + next;
        }
        assertThat(names).containsExactly("Ärmel", "Bug", "Ober", "öl");
    }

    private void changeTheShopBook() {
        RestTestClient owner = shop.as(Role.OWNER);
        EntityExchangeResult<String> book =
                owner.get()
                        .uri("/api/v1/shop-book")
                        .exchange()
                        .expectBody(String.class)
                        .returnResult();
        tools.jackson.databind.node.ObjectNode changed =
                (tools.jackson.databind.node.ObjectNode) JSON.readTree(book.getResponseBody());
        ((tools.jackson.databind.node.ObjectNode) changed.at("/times"))
                .put("machineAllowancePercent", 25.0);
        owner.put()
                .uri("/api/v1/shop-book")
                .header(HttpHeaders.IF_MATCH, book.getResponseHeaders().getETag())
                .contentType(MediaType.APPLICATION_JSON)
                .body(changed.toString())
                .exchange()
                .expectStatus()
                .isOk();
    }

    private EntityExchangeResult<JsonNode> post(String body, String key, int status) {
        return estimator
                .post()
                .uri("/api/v1/quotes")
                .headers(
                        h -> {
                            if (key != null) {
                                h.set("Idempotency-Key", key);
                            }
                        })
                .contentType(MediaType.APPLICATION_JSON)
                .body(body)
                .exchange()
                .expectStatus()
                .isEqualTo(status)
                .expectBody(JsonNode.class)
                .returnResult();
    }

    private int put(String number, String body, String ifMatch) {
        return estimator
                .put()
                .uri("/api/v1/quotes/" + number)
                .headers(
                        h -> {
                            if (ifMatch != null) {
                                h.set(HttpHeaders.IF_MATCH, ifMatch);
                            }
                        })
                .contentType(MediaType.APPLICATION_JSON)
                .body(body)
                .exchange()
                .returnResult(String.class)
                .getStatus()
                .value();
    }

    private EntityExchangeResult<JsonNode> issue(String number, int status) {
        return shop.as(Role.OFFICE)
                .post()
                .uri("/api/v1/quotes/" + number + "/issue")
                .exchange()
                .expectStatus()
                .isEqualTo(status)
                .expectBody(JsonNode.class)
                .returnResult();
    }

    private EntityExchangeResult<JsonNode> get(String number) {
        return getPath("/api/v1/quotes/" + number);
    }

    private EntityExchangeResult<JsonNode> list(String query) {
        return getPath(query.startsWith("/") ? query : "/api/v1/quotes" + query);
    }

    private EntityExchangeResult<JsonNode> getPath(String path) {
        return estimator
                .get()
                .uri(path)
                .exchange()
                .expectStatus()
                .isOk()
                .expectBody(JsonNode.class)
                .returnResult();
    }

    private static List<String> numbers(EntityExchangeResult<JsonNode> list) {
        return list.getResponseBody().at("/items").values().stream()
                .map(q -> q.at("/number").asString())
                .toList();
    }

    private static String next(EntityExchangeResult<JsonNode> list) {
        return list.getResponseHeaders().getOrEmpty(HttpHeaders.LINK).stream()
                .filter(l -> l.endsWith("rel=\"next\""))
                .map(l -> l.substring(1, l.indexOf('>')))
                .findFirst()
                .orElse(null);
    }

    private static <T> List<T> atOnce(List<Callable<T>> tasks) throws Exception {
        ExecutorService threads = Executors.newFixedThreadPool(16);
        try {
            List<T> answers = new ArrayList<>();
            for (Future<T> answer : threads.invokeAll(tasks)) {
                answers.add(answer.get());
            }
            return answers;
        } finally {
            threads.shutdown();
        }
    }
}
