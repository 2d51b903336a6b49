package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import strokewright.Person;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.takeoff.Situations;

class SearchPageTests extends ServiceTest {

    @Autowired private Quotes quotes;

    private TestShop shop;

    @BeforeEach
    void open() {
        shop = openShop();
    }

    @Test
    void findsByWhatWasTypedAndKeepsItInTheForm() {
        String frame = begin("Round sign frame", "Harbour Theatre", 300);
        String panel = begin("Repair panel", "Fernhill <Fountains>", 500);
        Person office = signedIn(Role.OFFICE);

        String both = office.open("/quotes/search").body();
        assertThat(both).contains(frame, panel, "2 quotes in all");

        String one =
                office.open(
                                "/quotes/search?number=&customer=fernhill+%3CF&text=repair&state=draft"
                                        + "&state=issued&metal=&sizeFromMm=&from=2020-01-01&to=")
                        .body();
        assertThat(one)
                .contains(panel, "One quote found", "value=\"fernhill &lt;F\"")
                .contains("value=\"2020-01-01\"", "Fernhill &lt;Fountains&gt;")
                .containsPattern("value=\"draft\"\\s+checked")
                .containsPattern("<details class=\"more\" open")
                .doesNotContain(frame, "style=\"");
        assertThat(office.open("/quotes/search?text=winter").body())
                .contains("0 quotes found")
                .doesNotContain("<table", frame);
    }

    @Test
    void numbersAreTypedAsTheLocaleHasThem() {
        String frame = begin("Round sign frame", "Harbour Theatre", 300);
        begin("Round sign frame", "Harbour Theatre", 500);
        Person german = signedIn(Role.ESTIMATOR);

        for (String size : List.of("599,5", "23.6+in", "0,5995+m")) {
            String found =
                    german.open(
                                    "/quotes/search?sizeFromMm=" + size + "&sizeToMm=600,5",
                                    "Accept-Language",
                                    "de")
                            .body();
            assertThat(found).as(size).contains(frame, "One quote found");
        }
    }

    @Test
    void whatCannotBeReadIsToldBesideItsField() {
        begin("Round sign frame", "Harbour Theatre", 300);
        String page =
                signedIn(Role.OFFICE)
                        .open(
                                "/quotes/search?number=x&sizeFromMm=wide&netFrom=5&netTo=4&from=never")
                        .body();
        assertThat(page)
                .contains("Nothing was looked for", "value=\"wide\"")
                .containsPattern("id=\"number-fault\">must be a quote")
                .containsPattern("id=\"sizeFromMm-fault\">must be a number")
                .containsPattern("id=\"netTo-fault\">must not be less")
                .containsPattern("id=\"from-fault\">must be a day")
                .doesNotContain("<table");
    }

    @Test
    void olderPagesKeepTheFilters() {
        for (int i = 0; i < 52; i++) {
            begin(i == 20 ? "Bowl" : "Round & round " + i, "Harbour Theatre", 300);
        }
        Person office = signedIn(Role.OFFICE);
        String first = office.open("/quotes/search?text=round+%26").body();
        assertThat(first).contains("51 quotes found", "Round &amp; round 51");
        String older = first.substring(first.indexOf("/quotes/search?text"));
        older = older.substring(0, older.indexOf('"')).replace("&amp;", "&");
        assertThat(office.open(older).body())
                .contains("51 quotes found", "Round &amp; round 0<", "Newest")
                .doesNotContain("Round &amp; round 1<", "Bowl");
    }

    @Test
    void theFloorSeesNoPrices() {
        assertThat(signedIn(Role.FLOOR).open("/quotes/search").statusCode()).isEqualTo(403);
    }

    private String begin(String title, String customer, int radius) {
        String takeOff =
                QuotesApiTests.TAKE_OFF
                        .replace("Round sign frame", title)
                        .replace("\"radiusMm\":300", "\"radiusMm\":" + radius);
        return shop.user(Role.ESTIMATOR)
                .call(() -> quotes.begin(customer, null, Situations.takeOff(takeOff), List.of()));
    }

    private Person signedIn(Role role) {
        Person person = new Person(port());
        person.signIn(shop.user(role).userName(), TestShop.PASSWORD);
        return person;
    }
}
