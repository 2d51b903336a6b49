package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import strokewright.Person;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.shopbook.ShopBooks;
import strokewright.takeoff.Situations;

/** What the office and the estimator do with a quote on its pages, without scripts. */
class QuoteStepsPageTests extends ServiceTest {

    @Autowired private Quotes quotes;
    @Autowired private Customers customers;
    @Autowired private ShopBooks books;
    @Autowired private JdbcClient sql;
    @Autowired private PlatformTransactionManager transactions;

    private TestShop shop;
    private Person estimator;
    private Person office;

    @BeforeEach
    void open() {
        shop = openShop();
        estimator = signedIn(Role.ESTIMATOR);
        office = signedIn(Role.OFFICE);
    }

    // What becomes of it -----------------------------------------------------------------------

    @Test
    void anOrderSaysWhichItemsAndQuantitiesAndTheQuoteTellsIt() {
        String number = issued(Terms.UNSAID);
        String form = office.open(path(number) + "/accept").body();
        assertThat(form).contains("5 for ", "not ordered", "(option)");

        HttpResponse<String> nothing =
                office.submit(
                        path(number) + "/accept",
                        path(number) + "/accept",
                        Map.of("/orderNumber", "B-17", "/ordered/1", "", "/ordered/2", ""));
        assertThat(nothing.body()).contains("orders nothing yet", "value=\"B-17\"");

        HttpResponse<String> done =
                office.submit(
                        path(number) + "/accept",
                        path(number) + "/accept",
                        Map.of("/orderNumber", "B-17", "/ordered/1", "5", "/ordered/2", "1"));
        assertThat(Person.target(done)).isEqualTo(path(number) + "?ordered");

        Order order = document(number).outcome().order();
        assertThat(order.items()).containsExactly(new Order.Line(1, 5), new Order.Line(2, 1));
        assertThat(office.open(path(number)).body())
                .contains("order B-17", ">Take back<")
                .doesNotContain(">Ordered</a>", "New revision");
    }

    @Test
    void aDateToComeIsToldBesideItsField() {
        String number = issued(Terms.UNSAID);
        HttpResponse<String> refused =
                office.submit(
                        path(number) + "/accept",
                        path(number) + "/accept",
                        Map.of("/ordered/1", "1", "/date", LocalDate.now().plusDays(9).toString()));
        assertThat(refused.body()).contains("id=\"f-date-fault\">is still to come");
        assertThat(document(number).state()).isEqualTo(State.ISSUED);
    }

    @Test
    void aDraftWhoseLastDayHasPassedSaysSoAndIsNeitherIssuedNorOrdered() {
        shopLivesIn("Pacific/Pago_Pago");
        LocalDate today = LocalDate.now(ZoneId.of("Pacific/Pago_Pago"));
        String number = draft(Terms.UNSAID.withValidUntil(today));
        assertThat(office.open(path(number)).body()).contains("It is complete");
        shopLivesIn("Pacific/Kiritimati");

        String why = "its last day, " + today + ", has passed";
        assertThat(office.open(path(number)).body()).contains("It cannot be issued yet: " + why);
        HttpResponse<String> refused =
                office.submit(
                        path(number), path(number) + "/issue", Map.of("version", version(number)));
        assertThat(office.open(Person.target(refused)).body()).contains("Not issued:", why);
        assertThat(document(number).state()).isEqualTo(State.DRAFT);
        for (String form : List.of("/accept", "/decline")) {
            HttpResponse<String> none = office.open(path(number) + form);
            assertThat(none.statusCode()).isEqualTo(409);
            assertThat(none.body()).contains("is draft", "aria-label=\"Places\"");
        }
    }

    @Test
    void aLapsedOfferAsksForItsNewLastDay() {
        shopLivesIn("Pacific/Pago_Pago"); // 25 hours behind Kiritimati
        LocalDate today = LocalDate.now(ZoneId.of("Pacific/Pago_Pago"));
        String number = issued(Terms.UNSAID.withValidUntil(today));
        assertThat(office.open("/quotes").body()).contains(">Due<", "last day today");
        shopLivesIn("Pacific/Kiritimati");

        assertThat(office.open("/quotes").body()).contains(">Lapsed<", "ago");
        assertThat(office.open(path(number)).body())
                .contains("Ordered after all", "without an answer");
        assertThat(office.open(path(number) + "/accept").body()).contains("valid again until");
        HttpResponse<String> refused =
                office.submit(
                        path(number) + "/accept",
                        path(number) + "/accept",
                        Map.of("/ordered/1", "1", "/validUntil", ""));
        assertThat(refused.body()).contains("f-validUntil-fault", "say how long it holds again");
        String renewed = LocalDate.now(ZoneId.of("Pacific/Kiritimati")).plusDays(3).toString();
        office.submit(
                path(number) + "/accept",
                path(number) + "/accept",
                Map.of("/ordered/1", "1", "/validUntil", renewed));
        assertThat(document(number).state()).isEqualTo(State.ACCEPTED);
    }

    @Test
    void aNoNeedsItsReasonAndCanBeTakenBack() {
        String number = issued(Terms.UNSAID);
        HttpResponse<String> refused =
                office.submit(
                        path(number) + "/decline",
                        path(number) + "/decline",
                        Map.of("/reason", "", "/competition", "somebody nearer"));
        assertThat(refused.body()).contains("f-reason-fault", "value=\"somebody nearer\"");

        office.submit(
                path(number) + "/decline",
                path(number) + "/decline",
                Map.of("/reason", "lead-time", "/competition", "somebody nearer"));
        assertThat(office.open(path(number)).body())
                .contains("because of: lead time", "went to somebody nearer");

        office.submit(path(number), path(number) + "/take-back", Map.of());
        assertThat(document(number).state()).isEqualTo(State.ISSUED);
        assertThat(office.open(path(number)).body()).contains("taken back", ">Ordered</a>");
    }

    @Test
    void aDraftIsWithdrawn() {
        String number = draft(Terms.UNSAID);
        office.submit(path(number) + "/withdraw", path(number) + "/withdraw", Map.of());
        assertThat(document(number).state()).isEqualTo(State.WITHDRAWN);
        assertThat(office.open("/quotes").body()).contains("Declined or withdrawn", number);
    }

    // Revisions --------------------------------------------------------------------------------

    @Test
    void anotherQuantityIsPricedInANewRevisionWithOneButton() {
        String number = issued(Terms.UNSAID);
        HttpResponse<String> refused =
                estimator.submit(
                        path(number),
                        path(number) + "/revisions",
                        Map.of("position", "1", "/quantities/1", "many"));
        assertThat(refused.body()).contains("value=\"many\"", "must be a number");

        HttpResponse<String> done =
                estimator.submit(
                        path(number),
                        path(number) + "/revisions",
                        Map.of("position", "1", "/quantities/1", "7"));
        assertThat(Person.target(done)).isEqualTo(path(number) + "?revised");
        QuoteDocument draft = document(number);
        assertThat(draft.revision()).isEqualTo(2);
        assertThat(draft.items().get(0).takeOff().mainQuantity()).isEqualTo(7);
        String page = estimator.open(path(number)).body();
        assertThat(page).contains("Another main quantity.", "not priced", "Drop this draft");
        assertThat(page).contains(path(number) + "/revisions/1");

        estimator.submit(
                path(number),
                path(number) + "/revisions/2/drop",
                Map.of("version", version(number)));
        assertThat(document(number).state()).isEqualTo(State.ISSUED);
    }

    @Test
    void aCopyTellsWhatAnotherEditionOfTheShopBookChanges() {
        String number = issued(Terms.UNSAID);
        shop.user(Role.OWNER)
                .run(
                        () ->
                                books.change(
                                        Situations.withRate(
                                                books.current(), "Forming", "labourRate", "99.00"),
                                        "*",
                                        "dearer"));
        String copy =
                Person.target(
                        estimator.submit(
                                path(number), path(number) + "/copy", Map.of("revision", "1")));
        assertThat(copy).matches("/quotes/Q-\\d{4}-0002\\?copied");
        assertThat(estimator.open(copy).body())
                .contains("Against ", number + ", revision 1")
                .contains("Shop book edition 2 instead of 1.", "→");
    }

    @Test
    void itemsOfADraftBecomeOptionsTakeAnotherMainQuantityAndGo() {
        String number = draft(Terms.UNSAID);
        String at = path(number) + "/items/1";
        estimator.submit(path(number), at + "/option", Map.of("version", version(number)));
        assertThat(document(number).items().get(0).option()).isTrue();

        estimator.submit(
                path(number), at + "/main", Map.of("version", version(number), "quantity", "5"));
        assertThat(document(number).items().get(0).takeOff().mainQuantity()).isEqualTo(5);

        HttpResponse<String> stale =
                estimator.submit(path(number), at + "/remove", Map.of("version", "\"0\""));
        assertThat(stale.statusCode()).isEqualTo(412);
        estimator.submit(path(number), at + "/remove", Map.of("version", version(number)));
        assertThat(document(number).items()).extracting(PricedItem::position).containsExactly(2);
        assertThat(
                        estimator
                                .submit(
                                        path(number),
                                        path(number) + "/items/2/remove",
                                        Map.of("version", version(number)))
                                .statusCode())
                .isEqualTo(409);
    }

    @Test
    void theOfficeReadsButDoesNotChangeWhatIsOffered() {
        String number = issued(Terms.UNSAID);
        assertThat(office.open(path(number)).body())
                .doesNotContain("New revision", "Copy as a new quote", "Price it in");
        for (String step : List.of("/revisions", "/copy", "/items/1/remove", "/terms")) {
            assertThat(office.submit(path(number), path(number) + step, Map.of()).statusCode())
                    .as(step)
                    .isEqualTo(403);
        }
    }

    // Notes --------------------------------------------------------------------------------------

    @Test
    void aToldPriceIsNotedWithItsTimeAndWhom() {
        String number = draft(Terms.UNSAID);
        HttpResponse<String> refused =
                office.submit(
                        path(number),
                        path(number) + "/notes",
                        Map.of("/text", "", "/toldNet", "about 900", "/toldTo", "B. Uyer"));
        assertThat(refused.body()).contains("value=\"about 900\"", "f-toldNet-fault");
        assertThat(
                        office.submit(
                                        path(number),
                                        path(number) + "/notes",
                                        Map.of("/text", "", "/toldNet", "900.005"))
                                .body())
                .contains("value=\"900.005\"", "at most 2 digits after the point");

        office.submit(
                path(number),
                path(number) + "/notes",
                Map.of("/text", "", "/toldNet", "900", "/toldTo", "B. Uyer"));
        assertThat(office.open(path(number)).body())
                .contains("price told", "900.00\u00a0EUR", "to B. Uyer");
    }

    @Test
    void marksThatComeAlongWithPastedTextAreLeftOutAndControlCharactersRefused() {
        String number = draft(Terms.UNSAID);
        String notes = path(number) + "/notes";
        office.submit(path(number), notes, Map.of("/text", "\u202aRings back\u202c"));
        assertThat(office.open(path(number)).body()).contains(">Rings back<");
        assertThat(office.submit(path(number), notes, Map.of("/text", "a\u0085b")).statusCode())
                .isEqualTo(400);
    }

    // Head and terms ------------------------------------------------------------------------------

    @Test
    void termsAreTypedKeptOnAFaultAndSaved() {
        String number = draft(Terms.UNSAID);
        String terms = path(number) + "/terms";
        Map<String, String> typed = fields(number);
        typed.put("/title", "Signs for the square");
        typed.put("/contact", "A. Person");
        typed.put("/terms/payment/settlementDiscountPercent", "80");
        typed.put("/terms/leadTimeDays", "ten");
        typed.put("/terms/assumptions", "One.\r\nTwo.");
        typed.put("/terms/delivery/kind", "delivered");
        String refused = estimator.submit(terms, terms, typed).body();
        assertThat(refused)
                .contains("id=\"f-terms-leadTimeDays-fault\">must be a number")
                .contains("value=\"Signs for the square\"", "One.\r\nTwo.");

        typed.put("/terms/leadTimeDays", "10");
        assertThat(estimator.submit(terms, terms, typed).body())
                .contains("f-terms-payment-settlementDiscountPercent-fault\">must be from 0 to 50");
        typed.put("/terms/payment/settlementDiscountPercent", "3");
        assertThat(Person.target(estimator.submit(terms, terms, typed)))
                .isEqualTo(path(number) + "?saved");

        QuoteDocument saved = document(number);
        assertThat(saved.title()).isEqualTo("Signs for the square");
        assertThat(saved.contact()).isEqualTo("A. Person");
        assertThat(saved.terms().assumptions()).containsExactly("One.", "Two.");
        assertThat(saved.terms().payment().settlementDiscountPercent()).isEqualTo(3);
        assertThat(estimator.open(path(number)).body())
                .contains("10 working days", "Delivered", "3 % settlement discount");
    }

    @Test
    void aSuggestedSentenceIsAddedToWhatIsTypedAndNotSavedYet() {
        String number = draft(Terms.UNSAID);
        String terms = path(number) + "/terms";
        Map<String, String> typed = fields(number);
        typed.put("/terms/assumptions", "Mine.");
        typed.put("do", "add all");
        String page = estimator.submit(terms, terms, typed).body();

        assertThat(page)
                .contains("Mine.\nMade to the drawing that we were given.")
                .contains("Paint, powder coating")
                .doesNotContain("Suggested by the items");
        assertThat(document(number).terms().assumptions()).isEmpty();
    }

    @Test
    void termsOverSomebodyElsesChangeAreAskedFor() {
        String number = draft(Terms.UNSAID);
        String terms = path(number) + "/terms";
        Map<String, String> typed = fields(number);
        typed.put("/terms/remarks", "kept");
        estimator.submit(
                path(number), path(number) + "/items/1/option", Map.of("version", version(number)));

        assertThat(estimator.submit(terms, terms, typed).body())
                .contains("somebody changed the quote meanwhile", ">kept</textarea>");
        assertThat(document(number).terms().remarks()).isNull();
    }

    @Test
    void anotherCustomerBringsTheTermsOfItsOwnCard() {
        CustomerCard card =
                new CustomerCard(
                        null,
                        "Export House",
                        "Far 1",
                        null,
                        null,
                        null,
                        null,
                        List.of(),
                        new TaxRule(TaxRule.Kind.EXPORT, null, null),
                        new Payment(0, null, null, 7.5, List.of()),
                        null);
        shop.user(Role.OFFICE).call(() -> customers.add(card));
        String number = draft(Terms.UNSAID);
        Map<String, String> typed = fields(number);
        typed.put("/customer/name", "Export House");
        typed.put("/terms/leadTimeDays", "5");
        estimator.submit(path(number) + "/terms", path(number) + "/terms", typed);

        QuoteDocument saved = document(number);
        assertThat(saved.customer().name()).isEqualTo("Export House");
        assertThat(saved.terms().tax().kind()).isEqualTo(TaxRule.Kind.EXPORT);
        assertThat(saved.terms().payment().tradeDiscountPercent()).isEqualTo(7.5);
        assertThat(saved.terms().leadTimeDays()).isEqualTo(5);
        assertThat(saved.total().tax().isZero()).isTrue();
    }

    @Test
    void theTakeOffOfAnItemReckonsWithTheTermsOfItsQuote() {
        Terms terms =
                new Terms(
                        null,
                        null,
                        new TaxRule(TaxRule.Kind.OWN_RATE, 7.0, null),
                        new Payment(null, null, null, 12.5, List.of()),
                        null,
                        null,
                        null,
                        List.of(),
                        List.of(),
                        null,
                        null);
        String plain = draft(Terms.UNSAID);
        String taxed = draft(terms);
        String priced = withTax(document(taxed));
        assertThat(priced).isNotEqualTo(withTax(document(plain)));

        assertThat(estimator.open(path(taxed) + "/items/1").body()).contains(priced);
        assertThat(estimator.open(path(plain) + "/items/1").body()).doesNotContain(priced);
    }

    private static String withTax(QuoteDocument quote) {
        return quote.items().get(0).main().price().withTax().amount().toPlainString();
    }

    @Test
    void suggestionsAreToldToPrograms() {
        String number = draft(Terms.UNSAID);
        String body =
                shop.as(Role.ESTIMATOR)
                        .get()
                        .uri("/api/v1/quotes/" + number + "/suggestions")
                        .exchange()
                        .expectStatus()
                        .isOk()
                        .expectBody(String.class)
                        .returnResult()
                        .getResponseBody();
        assertThat(body)
                .contains("\"kind\":\"assumption\"", "Made to the drawing", "\"taken\":false");
    }

    // The board
    // ------------------------------------------------------------------------------------

    @Test
    void theBoardCountsAndSumsWhatIsOpen() {
        issued(Terms.UNSAID);
        issued(Terms.UNSAID.withValidUntil(LocalDate.now().plusDays(2)));
        draft(Terms.UNSAID);
        String net = document(issued(Terms.UNSAID)).total().net().times(3).amount().toPlainString();
        String board = office.open("/quotes").body().replace("\u202f", "");

        assertThat(board)
                .contains("Due", "Waiting for an answer", "Drafts", "for us: can be issued");
        assertThat(board).contains("<b>3</b> <span>" + net);
    }

    // ----------------------------------------------------------------------------------------------

    /** The fields of the terms page as it comes. */
    private Map<String, String> fields(String number) {
        Map<String, String> typed = new HashMap<>();
        typed.put("version", version(number));
        typed.put("do", "");
        typed.put("/title", "Frame");
        typed.put("/customer/name", "Harbour Theatre");
        typed.put("/terms/payment/days", "30");
        return typed;
    }

    private String draft(Terms terms) {
        var takeOff = Situations.takeOff(QuotesApiTests.TAKE_OFF);
        QuoteRequest request =
                new QuoteRequest(
                        CustomerChoice.named("Harbour Theatre"),
                        null,
                        "Frame",
                        terms,
                        List.of(
                                new QuoteRequest.Item(1, null, null, takeOff, null),
                                new QuoteRequest.Item(2, "Spare", true, takeOff, null)));
        return shop.user(Role.ESTIMATOR).call(() -> quotes.create(request)).document().number();
    }

    private String issued(Terms terms) {
        String number = draft(terms);
        shop.user(Role.ESTIMATOR).run(() -> quotes.issue(number, null));
        return number;
    }

    private QuoteDocument document(String number) {
        return shop.user(Role.OWNER).call(() -> quotes.get(number)).document();
    }

    private String version(String number) {
        return shop.user(Role.OWNER).call(() -> quotes.get(number)).version().toString();
    }

    private static String path(String number) {
        return "/quotes/" + number;
    }

    private Person signedIn(Role role) {
        Person person = new Person(port());
        person.signIn(shop.user(role).userName(), TestShop.PASSWORD);
        return person;
    }

    private void shopLivesIn(String zone) {
        shop.user(Role.OWNER)
                .run(
                        () ->
                                new TransactionTemplate(transactions)
                                        .executeWithoutResult(
                                                status ->
                                                        sql.sql(
                                                                        "update shop set time_zone"
                                                                                + " = ? where id ="
                                                                                + " ?")
                                                                .params(zone, shop.id())
                                                                .update()));
    }
}
