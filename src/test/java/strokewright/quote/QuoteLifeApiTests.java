package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
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

/** The life of a quote over HTTP on a real database: terms, revisions, outcomes, history. */
class QuoteLifeApiTests extends ServiceTest {

    private static final String QUOTE =
            """
            {"customer":{"name":"Harbour Theatre","address":"Quay 1"},%s
             "items":[
              {"title":"Frame","takeOff":%s},
              {"title":"Frame, spare","option":true,"takeOff":%s}]}
            """;

    @Autowired private JdbcClient sql;
    @Autowired private PlatformTransactionManager transactions;

    private TestShop shop;

    @BeforeEach
    void shop() {
        shop = openShop();
    }

    // Accepting ----------------------------------------------------------------------------------

    @Test
    void anOrderIsTakenAsOfferedWhenNothingElseIsSaid() {
        String number = issued("");
        JsonNode accepted = ok("POST", "/quotes/" + number + "/accept", null);

        assertThat(accepted.at("/state").asString()).isEqualTo("accepted");
        assertThat(accepted.at("/outcome/order/items").toString())
                .isEqualTo("[{\"position\":1,\"quantity\":1}]");
        assertThat(accepted.at("/outcome/order/total")).isEqualTo(accepted.at("/total"));
        assertThat(accepted.at("/decidedBy").asString()).isEqualTo("The office");
        assertThat(ok("POST", "/quotes/" + number + "/accept", null)).isEqualTo(accepted);
    }

    @Test
    void anOrderNamesItsQuantitiesAndOptionsAndIsPricedByThem() {
        String number = issued("");
        JsonNode accepted =
                ok(
                        "POST",
                        "/quotes/" + number + "/accept",
                        """
                        {"orderNumber":"PO 77","items":[{"position":2},
                          {"position":1,"quantity":5}]}
                        """);
        JsonNode five = accepted.at("/items/0/estimate/quantities/1/price/offer/amount");
        JsonNode one = accepted.at("/items/1/estimate/quantities/0/price/offer/amount");

        assertThat(accepted.at("/outcome/order/items").toString())
                .isEqualTo("[{\"position\":1,\"quantity\":5},{\"position\":2,\"quantity\":1}]");
        assertThat(amount(accepted.at("/outcome/order/total/net")))
                .isEqualByComparingTo(
                        new BigDecimal(five.asString()).add(new BigDecimal(one.asString())));
        assertThat(refused("POST", "/quotes/" + number + "/accept", "{}", 409).at("/detail"))
                .asString()
                .contains("accepted");
    }

    @Test
    void whatIsNotOnOfferIsRefusedByName() {
        String number = issued("");
        JsonNode problem =
                refused(
                        "POST",
                        "/quotes/" + number + "/accept",
                        """
                        {"date":"2001-01-01","items":[{"position":7},{"position":1,"quantity":3},
                          {"quantity":1},null]}
                        """,
                        400);

        assertThat(pointers(problem))
                .contains("/items/0/position", "/items/1/quantity", "/items/2/position", "/items/3")
                .contains("/date");
        assertThat(problem.toString()).contains("one of 1, 5").contains("there are: 1, 2");
        assertThat(state(number)).isEqualTo("issued");
    }

    @Test
    void aDraftIsNotOrdered() {
        String number = draft("");
        refused("POST", "/quotes/" + number + "/accept", null, 409);
        refused("POST", "/quotes/" + number + "/decline", "{\"reason\":\"price\"}", 409);
    }

    @Test
    void onlyWhoMayOrdersDeclinesAndTakesBack() {
        String number = issued("");
        for (String step : List.of("accept", "decline", "withdraw", "take-back")) {
            answer(Role.FLOOR, "POST", "/quotes/" + number + "/" + step, "{}", 403);
        }
    }

    // Lapsing ------------------------------------------------------------------------------------

    @Test
    void anOfferLapsesWhenItsLastDayHasPassedInTheShopsTimeZone() {
        shopLivesIn("Pacific/Pago_Pago"); // 25 hours behind Kiritimati, so a day lies between
        LocalDate today = LocalDate.now(ZoneId.of("Pacific/Pago_Pago"));
        String number = issued("\"terms\":{\"validUntil\":\"" + today + "\"},");

        assertThat(state(number)).isEqualTo("issued");
        shopLivesIn("Pacific/Kiritimati");
        assertThat(state(number)).isEqualTo("lapsed");
        assertThat(ok("GET", "/quotes", null).at("/items/0/state").asString()).isEqualTo("lapsed");

        JsonNode problem = refused("POST", "/quotes/" + number + "/accept", null, 409);
        assertThat(problem.at("/detail").asString()).contains(today.toString());
        refused("POST", "/quotes/" + number + "/accept", "{\"validUntil\":\"" + today + "\"}", 400);
        LocalDate renewed = LocalDate.now(ZoneId.of("Pacific/Kiritimati")).plusDays(3);
        JsonNode accepted =
                ok("POST", "/quotes/" + number + "/accept", "{\"validUntil\":\"" + renewed + "\"}");
        assertThat(accepted.at("/state").asString()).isEqualTo("accepted");
        assertThat(accepted.at("/outcome/order/validUntil").asString())
                .isEqualTo(renewed.toString());
        assertThat(accepted.at("/terms/validUntil").asString()).isEqualTo(today.toString());
    }

    @Test
    void aLapsedOfferIsStillAnsweredWithANo() {
        shopLivesIn("Pacific/Pago_Pago");
        LocalDate today = LocalDate.now(ZoneId.of("Pacific/Pago_Pago"));
        String number = issued("\"terms\":{\"validUntil\":\"" + today + "\"},");
        shopLivesIn("Pacific/Kiritimati");

        JsonNode declined =
                answer(
                                Role.OFFICE,
                                "POST",
                                "/quotes/" + number + "/decline",
                                "{\"reason\":\"no-answer\"}",
                                200)
                        .getResponseBody();
        assertThat(declined.at("/state").asString()).isEqualTo("declined");
    }

    @Test
    void validityIsFilledInWhenIssuingAndThePastIsRefused() {
        LocalDate today = LocalDate.now(ZoneId.of("Europe/Berlin"));
        String number = issued("");
        assertThat(ok("GET", "/quotes/" + number, null).at("/terms/validUntil").asString())
                .isIn(today.plusDays(30).toString(), today.plusDays(31).toString());

        String late = draft("\"terms\":{\"validUntil\":\"2001-01-01\"},");
        assertThat(pointers(refused("POST", "/quotes/" + late + "/issue", null, 400)))
                .containsExactly("/terms/validUntil");
        assertThat(state(late)).isEqualTo("draft");
    }

    // Declining, withdrawing, taking back --------------------------------------------------------

    @Test
    void aNoKeepsItsReasonAndRepeatsHarmlessly() {
        String number = issued("");
        assertThat(pointers(refused("POST", "/quotes/" + number + "/decline", "{}", 400)))
                .containsExactly("/reason");
        String no =
                "{\"reason\":\"price\",\"competition\":\"a shop nearby\",\"note\":\"10 % less\"}";
        JsonNode declined = ok("POST", "/quotes/" + number + "/decline", no);

        assertThat(declined.at("/outcome/reason").asString()).isEqualTo("price");
        assertThat(declined.at("/outcome/competition").asString()).isEqualTo("a shop nearby");
        assertThat(ok("POST", "/quotes/" + number + "/decline", no)).isEqualTo(declined);
        refused("POST", "/quotes/" + number + "/accept", null, 409);
        refused("POST", "/quotes/" + number + "/withdraw", null, 409);
    }

    @Test
    void aMistakeIsTakenBackAndStaysInTheHistory() {
        String number = issued("");
        JsonNode issued = ok("GET", "/quotes/" + number, null);
        refused("POST", "/quotes/" + number + "/take-back", null, 409);
        ok("POST", "/quotes/" + number + "/accept", null);

        assertThat(ok("POST", "/quotes/" + number + "/take-back", null)).isEqualTo(issued);
        ok("POST", "/quotes/" + number + "/withdraw", "{\"note\":\"no metal to be had\"}");
        assertThat(state(number)).isEqualTo("withdrawn");
        assertThat(kinds(number))
                .containsExactly("withdrawn", "taken-back", "accepted", "issued", "begun");
    }

    @Test
    void aDraftIsGivenUpByWithdrawingIt() {
        String number = draft("");
        ok("POST", "/quotes/" + number + "/withdraw", null);

        assertThat(state(number)).isEqualTo("withdrawn");
        refused("POST", "/quotes/" + number + "/issue", null, 409);
        ok("POST", "/quotes/" + number + "/take-back", null);
        assertThat(state(number)).isEqualTo("draft");
        ok("POST", "/quotes/" + number + "/issue", null);
    }

    @Test
    void outcomesAreKeptAsTheyWereWritten() {
        String number = issued("");
        ok("POST", "/quotes/" + number + "/accept", null);
        for (String change :
                List.of(
                        "update quote_outcome set net = 1",
                        "delete from quote_outcome",
                        "update quote_note set text = 'x'",
                        "delete from quote_note")) {
            assertThatThrownBy(() -> inShop(change))
                    .as(change)
                    .hasRootCauseMessage(
                            "ERROR: permission denied for table "
                                    + change.split(" ")[change.startsWith("delete") ? 2 : 1]);
        }
    }

    // Revisions ----------------------------------------------------------------------------------

    @Test
    void aNewRevisionIsACopyAndTheIssuedOneStays() {
        String number = issued("\"terms\":{\"assumptions\":[\"Drawing 12 b\"]},");
        JsonNode first = ok("GET", "/quotes/" + number + "/revisions/1", null);
        JsonNode second =
                answer(Role.ESTIMATOR, "POST", "/quotes/" + number + "/revisions", null, 201)
                        .getResponseBody();

        assertThat(second.at("/revision").asInt()).isEqualTo(2);
        assertThat(second.at("/state").asString()).isEqualTo("draft");
        assertThat(second.at("/items")).isEqualTo(first.at("/items"));
        assertThat(second.at("/terms/assumptions")).isEqualTo(first.at("/terms/assumptions"));
        assertThat(second.at("/terms/validUntil").isMissingNode()).isTrue();
        JsonNode replaced = ok("GET", "/quotes/" + number + "/revisions/1", null);
        assertThat(replaced.at("/replacedBy").asInt()).isEqualTo(2);
        assertThat(replaced.at("/items")).isEqualTo(first.at("/items"));
        assertThat(replaced.at("/terms")).isEqualTo(first.at("/terms"));
        answer(Role.ESTIMATOR, "POST", "/quotes/" + number + "/revisions", null, 409);
        refused("POST", "/quotes/" + number + "/accept", null, 409);
    }

    @Test
    void anotherQuantityIsPricedFromAnIssuedOneWithOneRequest() {
        String number = issued("");
        JsonNode second =
                answer(
                                Role.ESTIMATOR,
                                "POST",
                                "/quotes/" + number + "/revisions",
                                "{\"quantities\":[{\"position\":1,\"quantity\":3}]}",
                                201)
                        .getResponseBody();

        assertThat(second.at("/items/0/takeOff/quantities").toString()).isEqualTo("[1,3,5]");
        assertThat(second.at("/items/0/takeOff/mainQuantity").asInt()).isEqualTo(3);
        assertThat(second.at("/total/net"))
                .isEqualTo(second.at("/items/0/estimate/quantities/1/price/offer"));
        assertThat(
                        pointers(
                                answer(
                                                Role.ESTIMATOR,
                                                "POST",
                                                "/quotes/" + issued("") + "/revisions",
                                                """
                                                {"quantities":[{"position":1,"quantity":0},
                                                  {"position":1,"quantity":2},null,
                                                  {"position":1,"quantity":7}]}
                                                """,
                                                400)
                                        .getResponseBody()))
                .containsExactly(
                        "/quantities/0/quantity", "/quantities/2", "/quantities/3/position");
    }

    @Test
    void aDraftRevisionIsDroppedAndTheQuoteStandsAsBefore() {
        String number = issued("");
        JsonNode issued = ok("GET", "/quotes/" + number, null);
        EntityExchangeResult<JsonNode> second =
                answer(Role.ESTIMATOR, "POST", "/quotes/" + number + "/revisions", null, 201);
        String tag = second.getResponseHeaders().getETag();

        answer(Role.ESTIMATOR, "DELETE", "/quotes/" + number + "/revisions/2", null, 428);
        answer(Role.ESTIMATOR, "DELETE", "/quotes/" + number + "/revisions/1", tag, null, 409);
        assertThat(
                        answer(
                                        Role.ESTIMATOR,
                                        "DELETE",
                                        "/quotes/" + number + "/revisions/2",
                                        tag,
                                        null,
                                        200)
                                .getResponseBody())
                .isEqualTo(issued);
        answer(Role.ESTIMATOR, "GET", "/quotes/" + number + "/revisions/2", null, 404);
        assertThat(kinds(number)).containsExactly("issued", "begun");
    }

    @Test
    void afterANoTheNextRevisionIsBegunAndDroppingItBringsTheNoBack() {
        String number = issued("");
        ok("POST", "/quotes/" + number + "/decline", "{\"reason\":\"lead-time\"}");
        EntityExchangeResult<JsonNode> second =
                answer(Role.ESTIMATOR, "POST", "/quotes/" + number + "/revisions", null, 201);
        assertThat(state(number)).isEqualTo("draft");
        answer(
                Role.ESTIMATOR,
                "DELETE",
                "/quotes/" + number + "/revisions/2",
                second.getResponseHeaders().getETag(),
                null,
                200);
        assertThat(state(number)).isEqualTo("declined");
    }

    @Test
    void anEarlierQuoteIsCopiedUnderANewNumber() {
        String number =
                issued(
                        """
                        "contact":"M. Boothroyd","terms":{"customerReference":"RFQ 9","remarks":"As last time"},
                        """);
        EntityExchangeResult<JsonNode> copy =
                answer(Role.ESTIMATOR, "POST", "/quotes/" + number + "/copy", null, 201);
        JsonNode made = copy.getResponseBody();

        assertThat(made.at("/number").asString()).endsWith("-0002");
        assertThat(copy.getResponseHeaders().getLocation())
                .hasPath("/api/v1/quotes/" + made.at("/number").asString());
        assertThat(made.at("/items")).isEqualTo(ok("GET", "/quotes/" + number, null).at("/items"));
        assertThat(made.at("/terms/remarks").asString()).isEqualTo("As last time");
        assertThat(made.at("/terms/customerReference").isMissingNode()).isTrue();
        answer(Role.ESTIMATOR, "POST", "/quotes/" + number + "/copy", "{\"revision\":4}", 404);
    }

    // Terms --------------------------------------------------------------------------------------

    @Test
    void termsComeFromTheCustomersCardThenFromTheLetterhead() {
        String customer = customer();
        answer(
                Role.OWNER,
                "PUT",
                "/letterhead",
                "\"0\"",
                "{\"validityDays\":14,\"payment\":{\"days\":10,\"settlementDays\":7}}",
                200);
        JsonNode made =
                draftOf(
                        """
                        {"customer":{"id":"%s"},"items":[{"takeOff":%s}]}
                        """
                                .formatted(customer, QuotesApiTests.TAKE_OFF));

        assertThat(made.at("/terms/tax/kind").asString()).isEqualTo("reverse-charge");
        assertThat(made.at("/terms/payment/days").asInt()).isEqualTo(45);
        assertThat(made.at("/terms/payment/settlementDays").asInt()).isEqualTo(7);
        assertThat(made.at("/terms/payment/stages").size()).isEqualTo(2);
        assertThat(amount(made.at("/total/tax"))).isEqualByComparingTo("0");
        assertThat(made.at("/total/net")).isEqualTo(made.at("/total/withTax"));
    }

    @Test
    void anOwnRateOfTaxIsReckonedWithToTheCent() {
        JsonNode made = draftOf(body("\"terms\":{\"tax\":{\"kind\":\"own-rate\",\"percent\":7}},"));
        BigDecimal net = amount(made.at("/total/net"));

        assertThat(amount(made.at("/total/tax")))
                .isEqualByComparingTo(
                        net.multiply(new BigDecimal("0.07"))
                                .setScale(2, java.math.RoundingMode.HALF_UP));
    }

    @Test
    void everyFaultOfTheTermsIsNamed() {
        JsonNode problem =
                answer(
                                Role.ESTIMATOR,
                                "POST",
                                "/quotes",
                                body(
                                        """
                                        "terms":{"tax":{"kind":"exempt","percent":3},
                                          "payment":{"days":-1,"settlementDiscountPercent":60,
                                            "stages":[{"when":"with the order","percent":30},
                                              {"when":"on delivery","percent":60}]},
                                          "leadTimeDays":-2,"delivery":{},"assumptions":[null]},
                                        """),
                                400)
                        .getResponseBody();

        assertThat(pointers(problem))
                .containsExactlyInAnyOrder(
                        "/terms/tax/percent",
                        "/terms/payment/days",
                        "/terms/payment/settlementDiscountPercent",
                        "/terms/payment/stages",
                        "/terms/leadTimeDays",
                        "/terms/delivery/kind",
                        "/terms/assumptions/0");
        assertThat(problem.toString()).contains("make 90 %");
    }

    @Test
    void whomItWasSentToStaysWhenTheCardChanges() {
        String customer = customer();
        String number =
                draftOf(
                                """
                                {"customer":{"id":"%s"},"contact":"M. Boothroyd","items":[{"takeOff":%s}]}
                                """
                                        .formatted(customer, QuotesApiTests.TAKE_OFF))
                        .at("/number")
                        .asString();
        ok("POST", "/quotes/" + number + "/issue", null);
        EntityExchangeResult<JsonNode> card =
                answer(Role.OFFICE, "GET", "/customers/" + customer, null, 200);
        answer(
                Role.OFFICE,
                "PUT",
                "/customers/" + customer,
                card.getResponseHeaders().getETag(),
                "{\"name\":\"Harbour Theatre Trust\"}",
                200);

        JsonNode issued = ok("GET", "/quotes/" + number, null);
        assertThat(issued.at("/customer/name").asString()).isEqualTo("Harbour Theatre");
        assertThat(issued.at("/customer/taxNumber").asString()).isEqualTo("IE 1234567 T");
        assertThat(issued.at("/contact").asString()).isEqualTo("M. Boothroyd");
        assertThat(issued.at("/terms/payment/days").asInt()).isEqualTo(45);
    }

    // Customers ----------------------------------------------------------------------------------

    @Test
    void aCardIsReadBackAsItWasWrittenAndGuardedByItsTag() {
        String id = customer();
        EntityExchangeResult<JsonNode> read =
                answer(Role.OFFICE, "GET", "/customers/" + id, null, 200);
        String tag = read.getResponseHeaders().getETag();
        String card = read.getResponseBody().toString().replace("Quay 1", "Quay 2");

        assertThat(read.getResponseBody().at("/contacts/1/email").asString())
                .isEqualTo("stage@harbour.example");
        answer(Role.OFFICE, "PUT", "/customers/" + id, null, card, 428);
        assertThat(
                        answer(Role.OFFICE, "PUT", "/customers/" + id, tag, card, 200)
                                .getResponseBody()
                                .at("/address")
                                .asString())
                .isEqualTo("Quay 2");
        answer(Role.OFFICE, "PUT", "/customers/" + id, tag, card, 412);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "no-at-sign",
                "two@at@signs",
                "a b@example.com",
                "x@y\\r\\nBcc: z@example.com",
                "\\\"quoted\\\"@example.com"
            })
    void whatIsNoMailAddressIsRefused(String email) {
        JsonNode problem =
                answer(
                                Role.OFFICE,
                                "POST",
                                "/customers",
                                "{\"name\":\"A\",\"email\":\"" + email + "\"}",
                                400)
                        .getResponseBody();
        assertThat(pointers(problem)).containsExactly("/email");
    }

    // History ------------------------------------------------------------------------------------

    @Test
    void aPriceToldOnThePhoneIsNotedWithItsTime() {
        String number = draft("");
        JsonNode told =
                answer(
                                Role.OFFICE,
                                "POST",
                                "/quotes/" + number + "/notes",
                                """
                                {"toldNet":{"amount":"950.00","currency":"EUR"},
                                  "toldTo":"M. Boothroyd","text":"without powder coat"}
                                """,
                                201)
                        .getResponseBody();
        assertThat(told.at("/at").asString()).startsWith("20");
        answer(
                Role.ESTIMATOR,
                "POST",
                "/quotes/" + number + "/notes",
                "{\"text\":\"Rings back on Monday\"}",
                201);

        JsonNode history = ok("GET", "/quotes/" + number + "/history", null).at("/items");
        assertThat(kinds(number)).containsExactly("note", "price-told", "begun");
        assertThat(history.at("/1/net/amount").asString()).isEqualTo("950.00");
        assertThat(history.at("/1/text").asString())
                .isEqualTo("to M. Boothroyd: without powder coat");
        assertThat(history.at("/1/at")).isEqualTo(told.at("/at"));
        assertThat(history.at("/0/by").asString()).isEqualTo("The estimator");
        assertThat(
                        pointers(
                                refused(
                                        "POST",
                                        "/quotes/" + number + "/notes",
                                        "{\"at\":\"2026-01-01T00:00:00Z\",\"toldTo\":\"x\"}",
                                        400)))
                .containsExactly("/at", "/text", "/toldNet");
    }

    @ParameterizedTest
    @ValueSource(strings = {"950.001", "-0.01", "1000000000.01"})
    void aToldPriceThatNobodyCanPayIsRefused(String amount) {
        String number = draft("");
        String told = "{\"toldNet\":{\"amount\":\"" + amount + "\",\"currency\":\"EUR\"}}";
        assertThat(pointers(refused("POST", "/quotes/" + number + "/notes", told, 400)))
                .containsExactly("/toldNet");
    }

    // Any order of steps -------------------------------------------------------------------------

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(ints = {1, 2, 3, 4, 5, 6})
    void whateverStepsAreTriedTheStateIsOneThatTheyLeadTo(int seed) {
        Random random = new Random(seed);
        String number = draft("");
        String expected = "draft";
        int revisions = 1;
        for (int i = 0; i < 25; i++) {
            String step =
                    List.of("issue", "accept", "decline", "withdraw", "take-back", "revisions")
                            .get(random.nextInt(6));
            String before = state(number);
            assertThat(before).isEqualTo(expected);
            int status =
                    attempt(
                            "/quotes/" + number + "/" + step,
                            step.equals("decline") ? "{\"reason\":\"other\"}" : null);
            String next = after(step, before, revisions, issuedNow(number, before));
            assertThat(status / 100).as(step + " of " + before).isEqualTo(next == null ? 4 : 2);
            expected = next == null ? before : next;
            if (step.equals("revisions") && next != null) {
                revisions++;
            }
            assertThat(ok("GET", "/quotes/" + number, null).at("/revision").asInt())
                    .isEqualTo(revisions);
        }
    }

    /** Whether the latest revision was issued once, whatever became of it. */
    private boolean issuedNow(String number, String before) {
        return !ok("GET", "/quotes/" + number, null).at("/approvedBy").isMissingNode();
    }

    /** The same rules a second time, as a table; null where a step is refused. */
    private static String after(String step, String state, int revision, boolean issued) {
        return switch (step) {
            case "issue" ->
                    switch (state) {
                        case "draft", "issued" -> "issued";
                        // a repeat of issuing what was issued before changes nothing
                        default -> issued ? state : null;
                    };
            case "accept" -> state.equals("issued") || state.equals("accepted") ? "accepted" : null;
            case "decline" ->
                    state.equals("issued") || state.equals("declined") ? "declined" : null;
            case "withdraw" ->
                    List.of("draft", "issued", "withdrawn").contains(state) ? "withdrawn" : null;
            case "take-back" ->
                    List.of("accepted", "declined", "withdrawn").contains(state)
                            ? (issued ? "issued" : "draft")
                            : null;
            default -> List.of("draft", "accepted").contains(state) ? null : "draft";
        };
    }

    // Asking -------------------------------------------------------------------------------------

    private String customer() {
        return answer(
                        Role.OFFICE,
                        "POST",
                        "/customers",
                        """
                        {"name":"Harbour Theatre","address":"Quay 1","taxNumber":"IE 1234567 T",
                         "contacts":[{"name":"M. Boothroyd","role":"Workshop"},
                           {"name":"Stage door","email":"stage@harbour.example"}],
                         "tax":{"kind":"reverse-charge"},
                         "payment":{"days":45,"stages":[{"when":"with the order","percent":40},
                           {"when":"on delivery","percent":60}]}}
                        """,
                        201)
                .getResponseBody()
                .at("/id")
                .asString();
    }

    private static String body(String more) {
        return QUOTE.formatted(more, QuotesApiTests.TAKE_OFF, QuotesApiTests.TAKE_OFF);
    }

    private JsonNode draftOf(String body) {
        return answer(Role.ESTIMATOR, "POST", "/quotes", body, 201).getResponseBody();
    }

    private String draft(String more) {
        return draftOf(body(more)).at("/number").asString();
    }

    private String issued(String more) {
        String number = draft(more);
        ok("POST", "/quotes/" + number + "/issue", null);
        return number;
    }

    private String state(String number) {
        return ok("GET", "/quotes/" + number, null).at("/state").asString();
    }

    private List<String> kinds(String number) {
        List<String> kinds = new ArrayList<>();
        ok("GET", "/quotes/" + number + "/history", null)
                .at("/items")
                .values()
                .forEach(e -> kinds.add(e.at("/kind").asString()));
        return kinds;
    }

    private static List<String> pointers(JsonNode problem) {
        return problem.at("/errors").values().stream()
                .map(e -> e.at("/pointer").asString())
                .toList();
    }

    private static BigDecimal amount(JsonNode money) {
        return new BigDecimal(money.at("/amount").asString());
    }

    private void shopLivesIn(String zone) {
        assertThat(
                        inShop(
                                "update shop set time_zone = '"
                                        + zone
                                        + "' where id = '"
                                        + shop.id()
                                        + "'"))
                .isEqualTo(1);
    }

    private int inShop(String change) {
        return shop.user(Role.OWNER)
                .call(
                        () ->
                                new TransactionTemplate(transactions)
                                        .execute(s -> sql.sql(change).update()));
    }

    private JsonNode ok(String method, String path, String body) {
        return answer(Role.OFFICE, method, path, body, 200).getResponseBody();
    }

    private JsonNode refused(String method, String path, String body, int status) {
        return answer(Role.OFFICE, method, path, body, status).getResponseBody();
    }

    private EntityExchangeResult<JsonNode> answer(
            Role role, String method, String path, String body, int status) {
        return answer(role, method, path, null, body, status);
    }

    private EntityExchangeResult<JsonNode> answer(
            Role role, String method, String path, String tag, String body, int status) {
        EntityExchangeResult<JsonNode> answer = sent(role, method, path, tag, body);
        assertThat(answer.getStatus().value())
                .as(method + " " + path + " " + body + ": " + answer.getResponseBody())
                .isEqualTo(status);
        return answer;
    }

    private int attempt(String path, String body) {
        return sent(Role.OWNER, "POST", path, null, body).getStatus().value();
    }

    private EntityExchangeResult<JsonNode> sent(
            Role role, String method, String path, String tag, String body) {
        RestTestClient.RequestBodySpec request =
                shop.as(role)
                        .method(HttpMethod.valueOf(method))
                        .uri("/api/v1" + path)
                        .headers(
                                h -> {
                                    if (tag != null) {
                                        h.setIfMatch(tag);
                                    }
                                });
        if (body != null) {
            return request.contentType(MediaType.APPLICATION_JSON)
                    .body(body)
                    .exchange()
                    .expectBody(JsonNode.class)
                    .returnResult();
        }
        return request.exchange().expectBody(JsonNode.class).returnResult();
    }
}
