package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import strokewright.Person;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.estimate.Estimate;
import strokewright.estimate.Formulas;
import strokewright.estimate.TakeOff;
import strokewright.quantity.Why;
import strokewright.takeoff.OnThePage;
import strokewright.takeoff.Situations;

/** Every figure of an item opens to its formula and inputs: of a quote, and of what is typed. */
class WorkingPageTests extends ServiceTest {

    private static final TakeOff FRAME = Situations.takeOff(QuotesApiTests.TAKE_OFF);

    @Autowired private Quotes quotes;

    private TestShop shop;

    @BeforeEach
    void open() {
        shop = openShop();
    }

    @Test
    void eachLineAndQuantityOfAQuoteLeadsToItsReasons() {
        QuoteDocument quote = draft();
        Person office = signedIn(Role.OFFICE);
        String page = office.open("/quotes/" + quote.number()).body();
        String working = office.open(working(quote, 1)).body();

        Estimate estimate = quote.items().get(0).estimate();
        for (int i = 1; i <= estimate.operations().size(); i++) {
            assertThat(page).contains(working(quote, 1) + "#line-" + i + "\"");
            assertThat(working).contains("id=\"line-" + i + "\"");
        }
        for (Estimate.ForQuantity quantity : estimate.quantities()) {
            String place = "quantity-" + quantity.quantity() + "\"";
            assertThat(page).contains(working(quote, 1) + "#" + place);
            assertThat(working).contains("id=\"" + place);
        }
        for (Estimate.Line line : estimate.operations()) {
            line.why().forEach(why -> told(working, why));
        }
        estimate.quantities().forEach(q -> q.why().forEach(why -> told(working, why)));
        assertThat(working).contains("Identification number", quote.number(), "factor of two");
    }

    private static void told(String page, Why why) {
        String formula = Formulas.named(why.formula()).orElseThrow().text();
        assertThat(page)
                .contains(">" + OnThePage.nameOf(why) + "</th>")
                .contains(formula.replace("'", "&#39;").replace("<", "&lt;"));
    }

    @Test
    void whatIsTypedHasItsWorkingWithoutBeingSaved() {
        Map<String, String> form = new LinkedHashMap<>();
        form.putAll(OnThePage.fields(FRAME));
        form.put("/parts/p90/name", "Half typed");
        form.put("/parts/p90/operations/o1/type", "dish");
        form.put("/parts/p90/operations/o1/diameterMm", "300");

        String working =
                signedIn(Role.ESTIMATOR).submit("/take-off", "/take-off/working", form).body();

        assertThat(working)
                .contains("Working of Round sign frame", "Rim 1: Curve an edge", "Pass plan, edge")
                .contains("Without:", "Half typed")
                .contains("id=\"quantity-1\"");
    }

    @Test
    void whereNothingCanBeReckonedYetItSaysSo() {
        assertThat(
                        signedIn(Role.ESTIMATOR)
                                .submit("/take-off", "/take-off/working", Map.of("/title", "x"))
                                .body())
                .contains("Nothing can be reckoned yet");
    }

    @Test
    void itIsNotForTheFloorNorForAnotherShopAndOnlyOfItemsThatAreThere() {
        QuoteDocument quote = draft();

        assertThat(signedIn(Role.FLOOR).open(working(quote, 1)).statusCode()).isEqualTo(403);
        assertThat(signedIn(Role.OFFICE).open(working(quote, 2)).statusCode()).isEqualTo(404);
        shop = openShop();
        assertThat(signedIn(Role.OWNER).open(working(quote, 1)).statusCode()).isEqualTo(404);
    }

    private static String working(QuoteDocument quote, int position) {
        return "/quotes/" + quote.number() + "/revisions/1/items/" + position + "/working";
    }

    private Person signedIn(Role role) {
        Person person = new Person(port());
        person.signIn(shop.user(role).userName(), TestShop.PASSWORD);
        return person;
    }

    private QuoteDocument draft() {
        QuoteRequest request =
                new QuoteRequest(
                        new CustomerChoice(null, "Harbour Theatre", "Quay 1"),
                        null,
                        null,
                        Terms.UNSAID,
                        List.of(new QuoteRequest.Item(null, null, null, FRAME, null)));
        return shop.user(Role.ESTIMATOR).call(() -> quotes.create(request)).document();
    }
}
