package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import strokewright.Person;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.estimate.TakeOff;
import strokewright.takeoff.Situations;
import strokewright.web.VersionTag;

class QuotesPageTests extends ServiceTest {

    @Autowired private Quotes quotes;

    private TestShop shop;

    @BeforeEach
    void open() {
        shop = openShop();
    }

    @Test
    void listsNewestFirstWithAnOlderPage() {
        for (int i = 0; i < 52; i++) {
            draft("Frame " + i);
        }
        Person person = signedIn(Role.OFFICE);
        String first = person.open("/quotes/search").body();

        assertThat(first)
                .contains("Frame 51", "Frame 2<", "Harbour Theatre", "draft", "drawing")
                .doesNotContain("Frame 1<", "Newest");
        assertThat(first.indexOf("Frame 51")).isLessThan(first.indexOf("Frame 50"));
        String older = first.substring(first.indexOf("/quotes/search?before="));
        String second = person.open(older.substring(0, older.indexOf('"'))).body();
        assertThat(second).contains("Frame 1<", "Frame 0<", "Newest").doesNotContain("Frame 2<");
    }

    @Test
    void anEmptyListSaysWhereToBegin() {
        assertThat(signedIn(Role.ESTIMATOR).open("/quotes").body())
                .contains("None yet", "href=\"/take-off\"");
    }

    @Test
    void aQuoteShowsItsTitleBlockPricesStepsAndCautions() {
        Quotes.Tagged draft = draft("Round sign frame");
        String page = signedIn(Role.ESTIMATOR).open(path(draft)).body();
        QuoteDocument quote = draft.document();

        assertThat(page)
                .contains("<dt>Identification number</dt>", quote.number())
                .contains("<dt>Legal owner</dt>", "<dt>Created by</dt>", "The estimator")
                .contains("Quay 1")
                .contains(quote.items().get(0).main().priceEach().amount().toPlainString())
                .contains("Total with tax", "Profit", "Rim 1: Curve an edge")
                .contains("At the forming machine", "Design and release", "stroke minutes")
                .contains("factor of two")
                .doesNotContain("style=\"");
    }

    @Test
    void issuingFromThePageFreezesWhatWasSeen() {
        Quotes.Tagged draft = draft("Frame");
        Person office = signedIn(Role.OFFICE);
        VersionTag older = new VersionTag(draft.version().version() - 1);

        HttpResponse<String> stale =
                office.submit(
                        path(draft), path(draft) + "/issue", Map.of("version", older.toString()));
        assertThat(stale.statusCode()).isEqualTo(412);

        HttpResponse<String> done =
                office.submit(
                        path(draft),
                        path(draft) + "/issue",
                        Map.of("version", draft.version().toString()));
        assertThat(Person.target(done)).isEqualTo(path(draft) + "?issued");
        assertThat(office.open(path(draft) + "?issued").body())
                .contains("It is frozen now", "The office")
                .doesNotContain(">Issue</button>");
    }

    @Test
    void whatCannotBeMadeSaysWhyAndOffersNoIssuing() {
        Quotes.Tagged draft =
                create(
                        Situations.takeOff(
                                QuotesApiTests.TAKE_OFF.replace(
                                        "\"heightMm\":40", "\"heightMm\":400")));

        assertThat(signedIn(Role.ESTIMATOR).open(path(draft)).body())
                .contains("Not possible", "Rim, line 1: A flange of 400")
                .doesNotContain(">Issue</button>");
        assertThat(signedIn(Role.ESTIMATOR).open("/quotes/search").body())
                .contains("not possible as described");
    }

    @Test
    void theWorkbookComesFromThePage() {
        Quotes.Tagged draft = draft("Frame");
        HttpResponse<String> file =
                signedIn(Role.OFFICE).open(path(draft) + "/revisions/1/workbook");

        assertThat(file.statusCode()).isEqualTo(200);
        assertThat(file.headers().firstValue("Content-Disposition").orElse(""))
                .contains(draft.document().number() + ".xlsx");
    }

    @Test
    void theCustomersCopyComesFromThePage() {
        Quotes.Tagged draft = draft("Frame");
        Person office = signedIn(Role.OFFICE);
        assertThat(office.open(path(draft)).body())
                .contains("href=\"" + path(draft) + "/revisions/1/pdf\"");
        HttpResponse<String> file = office.open(path(draft) + "/revisions/1/pdf");

        assertThat(file.statusCode()).isEqualTo(200);
        assertThat(file.body()).startsWith("%PDF-");
        assertThat(file.headers().firstValue("Content-Disposition").orElse(""))
                .contains(draft.document().number() + ".pdf");
    }

    @Test
    void pricesAreNotForTheFloorNorForAnotherShop() {
        Quotes.Tagged draft = draft("Frame");
        Person floor = signedIn(Role.FLOOR);

        for (String path :
                List.of(
                        "/quotes",
                        path(draft),
                        path(draft) + "/revisions/1/workbook",
                        path(draft) + "/revisions/1/pdf")) {
            assertThat(floor.open(path).statusCode()).isEqualTo(403);
        }
        shop = openShop();
        assertThat(signedIn(Role.OWNER).open(path(draft)).statusCode()).isEqualTo(404);
    }

    private Person signedIn(Role role) {
        Person person = new Person(port());
        person.signIn(shop.user(role).userName(), TestShop.PASSWORD);
        return person;
    }

    private static String path(Quotes.Tagged quote) {
        return "/quotes/" + quote.document().number();
    }

    private Quotes.Tagged draft(String title) {
        return create(
                Situations.takeOff(QuotesApiTests.TAKE_OFF.replace("Round sign frame", title)));
    }

    private Quotes.Tagged create(TakeOff takeOff) {
        QuoteRequest request =
                new QuoteRequest(
                        new CustomerChoice(null, "Harbour Theatre", "Quay 1"),
                        null,
                        null,
                        Terms.UNSAID,
                        List.of(new QuoteRequest.Item(null, null, null, takeOff, null)));
        return shop.user(Role.ESTIMATOR).call(() -> quotes.create(request));
    }
}
