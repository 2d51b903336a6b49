package strokewright.shopbook;

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
import strokewright.estimate.ShopBook;

/** The next edition as it is typed without scripts. */
class DraftPageTests extends ServiceTest {

    private static final String DRAFT = "/shop-book/draft";
    private static final String TOOL = DRAFT + "/tools?open=tools-1";

    @Autowired private ShopBooks books;
    @Autowired private NextEdition next;

    private TestShop shop;
    private Person owner;

    @BeforeEach
    void anOwner() {
        shop = openShop();
        owner = person(Role.OWNER);
    }

    @Test
    void theOwnerAloneChangesAndTheEstimatorSeesWhatChanged() {
        Person estimator = person(Role.ESTIMATOR);
        for (String path : List.of(DRAFT, DRAFT + "/tools", DRAFT + "/adopt")) {
            assertThat(estimator.open(path).statusCode()).as(path).isEqualTo(403);
        }
        assertThat(estimator.open("/shop-book/differences").statusCode()).isEqualTo(200);
        assertThat(estimator.open("/shop-book").body()).doesNotContain("Change the shop book");
        assertThat(person(Role.OFFICE).open("/shop-book/differences").statusCode()).isEqualTo(403);
    }

    @Test
    void isKeptReadBackAdoptedAndStandsInTheListWithItsNote() {
        keep("/pitchMm", "4,5");
        assertThat(owner.open(TOOL).body()).contains("value=\"4.5\"");
        String page = owner.open(DRAFT + "/adopt").body();
        assertThat(page).contains("5\u00a0mm", "4.5\u00a0mm");
        HttpResponse<String> without = adopt(version(page), " ");
        assertThat(without.body()).contains("is missing: why, in a few words");
        assertThat(Person.target(adopt(version(page), "Tried on 1 mm sheet")))
                .isEqualTo("/shop-book?adopted=2");
        assertThat(owner.open("/shop-book").body()).contains("Tried on 1 mm sheet");
        assertThat(book().tools().get(0).pitchMm()).isEqualTo(4.5);
        assertThat(Person.target(owner.open(DRAFT + "/adopt"))).isEqualTo(DRAFT);
    }

    @Test
    void whatWasLookedThroughIsWhatIsAdopted() {
        keep("/pitchMm", "4");
        String page = owner.open(DRAFT + "/adopt").body();
        keep("/jawMm", "39");
        assertThat(adopt(version(page), "Too late").body())
                .contains("Not adopted", "value=\"Too late\"");
        assertThat(book().edition()).isEqualTo(1);
    }

    @Test
    void faultsAreKeptButNotAdopted() {
        keep("/biteStrain", "45");
        String page = owner.open(DRAFT + "/adopt").body();
        assertThat(page).contains("1 fault to clear", "must be from 0.05 to 20");
        assertThat(page).doesNotContain("name=\"version\"");
        assertThat(owner.open(DRAFT).body()).contains("1 fault");
        assertThat(adopt("1", "Anyway").body()).contains("Not adopted");
        assertThat(book().edition()).isEqualTo(1);
        assertThat(shop.user(Role.OWNER).call(next::ifUsable)).isEmpty();
        keep("/biteStrain", "1.5");
        assertThat(shop.user(Role.OWNER).call(next::ifUsable).orElseThrow().edition()).isEqualTo(2);
    }

    @Test
    void doubtsAreShownBeforeItIsAdopted() {
        int soft = 1 + book().grades().indexOf(book().grade("ALMG3-O").orElseThrow());
        row("grades", soft, Map.of("/hardeningExponent", "0.1"), "keep", "here");
        assertThat(owner.open(DRAFT + "/adopt").body()).contains("K and n imply");
    }

    @Test
    void anEditionAddedMeanwhileIsTakenOverOnRequest() {
        keep("/pitchMm", "4");
        ShopBook current = book();
        ShopBook.PassLimit limit =
                new ShopBook.PassLimit(
                        current.tools().get(1).name(), "copper", 0.01, null, null, "measured");
        shop.user(Role.OWNER)
                .run(() -> books.change(current.withPassLimits(List.of(limit)), "\"1\"", "strip"));
        assertThat(owner.open(DRAFT + "/adopt").body()).contains("meanwhile edition");
        HttpResponse<String> caught =
                owner.submit(DRAFT + "/adopt", DRAFT + "/adopt", Map.of("do", "catch-up"));
        assertThat(caught.body()).contains("nothing was changed on both sides");
        adopt(version(owner.open(DRAFT + "/adopt").body()), "Both");
        assertThat(book().edition()).isEqualTo(3);
        assertThat(book().passLimits()).containsExactly(limit);
        assertThat(book().tools().get(0).pitchMm()).isEqualTo(4);
    }

    @Test
    void whatIsTypedIntoADraftThatIsOverIsShownOnceMore() {
        keep("/pitchMm", "4");
        String page = owner.open(DRAFT + "/adopt").body();
        adopt(version(page), "Quicker");
        HttpResponse<String> late =
                row("tools", 2, Map.of("/pitchMm", "6,25", "/name", "Late"), "keep", "another");
        assertThat(late.body()).contains("Not kept", "Pitch", "6,25", "Late");
    }

    @Test
    void aSheetsGaugeStaysAsTypedWithItsMmBesideIt() {
        int zinc = sheetOf("ZN-CU-TI");
        int steel = sheetOf("DC04");
        String opened = DRAFT + "/sheets?open=sheets-";
        row("sheets", steel, Map.of("/thicknessMm", "16 ga"), "keep", "here");
        assertThat(owner.open(opened + steel).body())
                .contains("value=\"16 ga\"", "Thickness: 16 ga = 1.519\u00a0mm");
        assertThat(owner.open(DRAFT + "/sheets").body()).contains(">16 ga = 1.519</td>");

        row("sheets", zinc, Map.of("/thicknessMm", "16 ga"), "keep", "here");
        assertThat(owner.open(opened + zinc).body())
                .contains("value=\"16 ga\"", "gauge 16 of which metal? steel 1.519 mm");
        row("sheets", zinc, Map.of("/thicknessMm", "0.7"), "keep", "here");

        String page = owner.open(DRAFT + "/adopt").body();
        adopt(version(page), "Sheets by gauge");
        assertThat(book().edition()).isEqualTo(2);
        assertThat(book().sheets().get(steel - 1).thicknessMm()).isEqualTo(1.51892);
        assertThat(book().sheets().get(zinc - 1).thicknessMm()).isEqualTo(0.7);
    }

    private int sheetOf(String grade) {
        return book().sheets().stream().map(ShopBook.Sheet::grade).toList().indexOf(grade) + 1;
    }

    @Test
    void aDraftIsPutAsideAndTakenUp() {
        keep("/pitchMm", "4");
        owner.submit(DRAFT, DRAFT, Map.of("do", "give-up"));
        assertThat(owner.open(DRAFT).body()).contains("Nothing is changed yet", "put aside");
        owner.submit(DRAFT, DRAFT, Map.of("do", "take-up"));
        assertThat(owner.open(TOOL).body()).contains("value=\"4\"");
    }

    @Test
    void anyTwoEditionsAreCompared() {
        for (int n = 1; n <= 3; n++) {
            String changed = "\"profitPercent\":" + (12 + n);
            ShopBook wanted = book();
            ShopBook raised =
                    documents.read(
                            documents
                                    .write(wanted)
                                    .replaceFirst("\"profitPercent\":[0-9.]+", changed),
                            ShopBook.class);
            int base = n;
            shop.user(Role.OWNER).run(() -> books.change(raised, "\"" + base + "\"", "more"));
        }
        assertThat(owner.open("/shop-book/differences?from=1&to=4").body())
                .contains("12\u00a0%", "15\u00a0%");
        assertThat(owner.open("/shop-book/differences?from=4&to=2").body())
                .contains("15\u00a0%", "13\u00a0%");
        assertThat(owner.open("/shop-book/differences?from=2&to=2").body())
                .contains("Nothing differs");
        assertThat(owner.open("/shop-book/differences?from=1&to=9").statusCode()).isEqualTo(404);
    }

    @Test
    void unknownPartsRowsAndActionsAreTold() {
        assertThat(owner.open(DRAFT + "/nothing").statusCode()).isEqualTo(404);
        assertThat(row("tools", 999, Map.of(), "keep", "p").statusCode()).isEqualTo(404);
        assertThat(row("times", 1, Map.of(), "remove", "p").statusCode()).isEqualTo(409);
        assertThat(owner.open(DRAFT + "/tools?open=tools-999").statusCode()).isEqualTo(200);
    }

    @Autowired private strokewright.access.Documents documents;

    private ShopBook book() {
        return shop.user(Role.OWNER).call(books::current);
    }

    private void keep(String field, String text) {
        assertThat(row("tools", 1, Map.of(field, text), "keep", "here").statusCode())
                .isEqualTo(302);
    }

    private HttpResponse<String> row(
            String section, int id, Map<String, String> typed, String action, String page) {
        Map<String, String> fields = new HashMap<>(typed);
        fields.put("do", action);
        fields.put("base", "1");
        fields.put("page", page);
        fields.put("version", "0");
        return owner.submit(
                DRAFT + "/" + section, DRAFT + "/" + section + "/" + section + "/" + id, fields);
    }

    private HttpResponse<String> adopt(String version, String note) {
        return owner.submit(DRAFT, DRAFT + "/adopt", Map.of("version", version, "note", note));
    }

    private static String version(String page) {
        return page.replaceFirst("(?s).*name=\"version\" value=\"(\\d+)\".*", "$1");
    }

    private Person person(Role role) {
        Person person = new Person(port());
        person.signIn(shop.user(role).userName(), TestShop.PASSWORD);
        return person;
    }
}
