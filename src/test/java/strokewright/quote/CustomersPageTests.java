package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import strokewright.Person;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.takeoff.Situations;

class CustomersPageTests extends ServiceTest {

    @Autowired private Customers customers;
    @Autowired private Quotes quotes;

    private TestShop shop;

    @BeforeEach
    void open() {
        shop = openShop();
    }

    @Test
    void aNewCardIsKeptWithItsContactsTaxAndPayment() {
        Person office = signedIn(Role.OFFICE);
        Map<String, String> typed = new HashMap<>();
        typed.put("/name", "Fernhill Council");
        typed.put("/address", "Market Square 1\r\nFernhill");
        typed.put("/contacts/0/name", "");
        typed.put("/contacts/1/name", "A. Person");
        typed.put("/contacts/1/email", "a@fernhill.example");
        typed.put("/tax/kind", "own-rate");
        typed.put("/tax/percent", "7");
        typed.put("/payment/days", "14");
        typed.put("/payment/stages/0/when", "with the order");
        typed.put("/payment/stages/0/percent", "40");
        typed.put("/payment/stages/1/when", "on delivery");
        assertThat(office.submit("/customers/new", "/customers/new", typed).body())
                .contains("Not saved yet", "is missing: a number over 0", "Market Square 1");

        typed.put("/payment/stages/1/percent", "60");
        String target = Person.target(office.submit("/customers/new", "/customers/new", typed));

        assertThat(target).matches("/customers/[0-9a-f-]{36}\\?saved");
        String id = target.substring(11, 47);
        CustomerCard card =
                shop.user(Role.OFFICE)
                        .call(() -> customers.get(java.util.UUID.fromString(id)))
                        .card();
        assertThat(card.address()).isEqualTo("Market Square 1\nFernhill");
        assertThat(card.contacts())
                .containsExactly(
                        new CustomerCard.Contact("A. Person", null, "a@fernhill.example", null));
        assertThat(card.tax()).isEqualTo(new TaxRule(TaxRule.Kind.OWN_RATE, 7.0, null));
        assertThat(card.payment().stages()).hasSize(2);
        assertThat(office.open(target).body()).contains("Saved.", "A. Person", "own rate");
    }

    @Test
    void aChangeOverSomebodyElsesIsAskedForWithEverythingStillTyped() {
        Customers.Tagged added = add("Brindle Bakery");
        String path = "/customers/" + added.card().id();
        Person office = signedIn(Role.OFFICE);
        Map<String, String> typed =
                Map.of(
                        "version", added.version().toString(),
                        "/name", "Brindle Bakery and Sons",
                        "/notes", "rings at noon");
        shop.user(Role.OWNER)
                .run(
                        () ->
                                customers.change(
                                        added.card().id(),
                                        CustomerCard.named("Brindle", null),
                                        added.version().toString()));

        HttpResponse<String> refused = office.submit(path, path, typed);
        assertThat(refused.body())
                .contains("somebody changed this card meanwhile", "rings at noon", "and Sons");
        assertThat(name(added)).isEqualTo("Brindle");

        Map<String, String> again = new HashMap<>(typed);
        again.put("version", "\"" + (added.version().version() + 1) + "\"");
        assertThat(office.submit(path, path, again).statusCode()).isEqualTo(302);
        assertThat(name(added)).isEqualTo("Brindle Bakery and Sons");
    }

    @Test
    void anAddressOfMailThatIsNoneIsToldBesideItsField() {
        HttpResponse<String> refused =
                signedIn(Role.ESTIMATOR)
                        .submit(
                                "/customers/new",
                                "/customers/new",
                                Map.of(
                                        "/name", "",
                                        "/contacts/0/name", "B",
                                        "/contacts/0/email", "b at example"));
        assertThat(refused.body())
                .contains("f-contacts-0-email-fault", "is no e-mail address", "b at example")
                .contains("id=\"f-name-fault\">is missing");
    }

    @Test
    void moreRowsOpenWithoutLosingWhatIsTyped() {
        String page =
                signedIn(Role.OFFICE)
                        .submit(
                                "/customers/new",
                                "/customers/new",
                                Map.of(
                                        "do", "rows",
                                        "/name", "Half typed",
                                        "/contacts/0/name", "A",
                                        "/contacts/1/name", "B"))
                        .body();
        assertThat(page).contains("Half typed", "/contacts/3/email").doesNotContain("Not saved");
    }

    @Test
    void theListIsSearchedByPartsOfNamesOfCustomersAndContacts() {
        add("Fernhill Council");
        add("Brindle Bakery");
        shop.user(Role.OFFICE)
                .call(
                        () ->
                                customers.add(
                                        new CustomerCard(
                                                null,
                                                "Ärmel & Co",
                                                null,
                                                null,
                                                null,
                                                null,
                                                null,
                                                List.of(
                                                        new CustomerCard.Contact(
                                                                "Bo Fernandez", null, null, null)),
                                                null,
                                                null,
                                                null)));
        Person office = signedIn(Role.OFFICE);

        assertThat(office.open("/customers?name=FERN").body())
                .contains("Fernhill Council", "Ärmel &amp; Co")
                .doesNotContain("Brindle");
        assertThat(office.open("/customers?name=%C3%A4rm").body()).contains("Ärmel &amp; Co");
        assertThat(office.open("/customers?name=%25").body()).contains("Nobody of that name");
    }

    @Test
    void theListGoesOnWhereItsPageEnded() {
        for (int i = 10; i < 62; i++) {
            add("Customer " + i);
        }
        Person office = signedIn(Role.OFFICE);
        String first = office.open("/customers").body();
        assertThat(first).contains("Customer 10<", "Customer 59<").doesNotContain("Customer 60<");
        String further = first.substring(first.indexOf("/customers?after="));
        String second = office.open(further.substring(0, further.indexOf('&'))).body();
        assertThat(second).contains("Customer 60<", "Customer 61<").doesNotContain("Customer 59<");
    }

    @Test
    void aCardShowsItsQuotes() {
        QuoteRequest request =
                new QuoteRequest(
                        CustomerChoice.named("Harbour Theatre"),
                        null,
                        null,
                        Terms.UNSAID,
                        List.of(
                                new QuoteRequest.Item(
                                        null,
                                        null,
                                        null,
                                        Situations.takeOff(QuotesApiTests.TAKE_OFF),
                                        null)));
        QuoteDocument quote =
                shop.user(Role.ESTIMATOR).call(() -> quotes.create(request)).document();

        assertThat(signedIn(Role.OFFICE).open("/customers/" + quote.customer().id()).body())
                .contains(quote.number(), "draft");
    }

    @Test
    void cardsAreNotForTheFloorNorForAnotherShop() {
        Customers.Tagged added = add("Brindle Bakery");
        String path = "/customers/" + added.card().id();

        assertThat(signedIn(Role.FLOOR).open(path).statusCode()).isEqualTo(403);
        shop = openShop();
        assertThat(signedIn(Role.OWNER).open(path).statusCode()).isEqualTo(404);
    }

    private Customers.Tagged add(String name) {
        return shop.user(Role.OFFICE).call(() -> customers.add(CustomerCard.named(name, null)));
    }

    private String name(Customers.Tagged added) {
        return shop.user(Role.OWNER).call(() -> customers.get(added.card().id())).card().name();
    }

    private Person signedIn(Role role) {
        Person person = new Person(port());
        person.signIn(shop.user(role).userName(), TestShop.PASSWORD);
        return person;
    }
}
