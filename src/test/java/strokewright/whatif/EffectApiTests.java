package strokewright.whatif;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.http.MediaType;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import strokewright.Person;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.estimate.ShopBook;
import strokewright.quote.QuotesApiTests;
import strokewright.shopbook.ShopBooks;
import strokewright.takeoff.Situations;
import tools.jackson.databind.JsonNode;

/** What another shop book would do to the open drafts, over HTTP on a real database. */
class EffectApiTests extends ServiceTest {

    private static final String EFFECT = "/api/v1/quotes/effect";

    private static final String DEARER_METAL = "{\"type\":\"metal-prices\",\"byPercent\":40}";

    /** Forming, and a line by a time standard. */
    private static final String FRAME = QuotesApiTests.TAKE_OFF;

    /** Sheet and cutting alone. */
    private static final String PLATE =
            """
            {"title":"Plate","quantities":[3,20],"mainQuantity":20,
             "parts":[{"name":"Plate","grade":"DC04","thicknessMm":2.0,
               "blank":{"lengthMm":800,"widthMm":400},
               "operations":[{"type":"standard","standard":"Guillotine cut","amount":4}]}]}
            """;

    @Autowired private ShopBooks books;
    @Autowired private JdbcClient sql;
    @Autowired private PlatformTransactionManager transactions;

    private TestShop shop;

    @BeforeEach
    void shop() {
        shop = openShop();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{\"type\":\"labour-rate\",\"workCentre\":\"Forming\",\"byPercent\":8}",
                "{\"type\":\"machine-rate\",\"workCentre\":\"Cutting\",\"to\":{\"amount\":\"19.80\",\"currency\":\"EUR\"}}",
                "{\"type\":\"sheet-price\",\"grade\":\"DC04\",\"per\":\"kg\",\"by\":{\"amount\":\"0.35\",\"currency\":\"EUR\"}}",
                DEARER_METAL,
                "{\"type\":\"learned-factor\",\"kind\":\"curve-edge\",\"planFactor\":1.35}",
                "{\"type\":\"learned-factor\",\"kind\":\"Guillotine cut\",\"planFactor\":0.8,\"meanFactor\":0.9}",
                "{\"type\":\"learned-factor\",\"kind\":\"set-up\",\"planFactor\":2}",
                "{\"type\":\"percentage\",\"of\":\"profit\",\"by\":-5}"
            })
    void whatIsForetoldIsWhatTheDraftsBecomeOnceItIsAdopted(String change) {
        String frame = quote(item(FRAME));
        String both =
                quote(item(PLATE), item(FRAME), "{\"option\":true,\"takeOff\":" + PLATE + "}");
        JsonNode effect = effect(change);
        assertThat(effect.at("/edition").asInt()).isEqualTo(1);
        assertThat(effect.at("/open").asInt()).isEqualTo(2);
        assertThat(effect.at("/left").asInt()).isZero();

        Map<String, JsonNode> before = new TreeMap<>();
        effect.at("/quotes").values().forEach(q -> before.put(q.at("/number").asString(), q));
        assertThat(before).containsOnlyKeys(frame, both);
        before.forEach((number, told) -> sameFigures(told, saved(number), "now", "as it is kept"));

        adopt(change);
        before.forEach(
                (number, told) -> sameFigures(told, savedAgain(number), "then", "saved again"));
    }

    private void sameFigures(JsonNode told, JsonNode quote, String when, String what) {
        assertThat(told.at("/" + when + "/net")).as(what).isEqualTo(quote.at("/total/net"));
        for (int i = 0; i < told.at("/items").size(); i++) {
            JsonNode item = told.at("/items/" + i);
            JsonNode main = main(quote.at("/items/" + i));
            assertThat(item.at("/" + when + "/net")).as(what).isEqualTo(main.at("/price/offer"));
            assertThat(item.at("/" + when + "/hours").asDouble())
                    .as(what)
                    .isEqualTo(main.at("/hours/plan").asDouble());
            assertThat(item.at("/quantity")).isEqualTo(main.at("/quantity"));
        }
    }

    private static JsonNode main(JsonNode item) {
        return item.at("/estimate/quantities").values().stream()
                .filter(q -> q.at("/quantity").equals(item.at("/takeOff/mainQuantity")))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void sumsLeaveOptionsOutAndDifferencesAddUp() {
        quote(item(PLATE), "{\"option\":true,\"takeOff\":" + FRAME + "}");
        quote(item(FRAME));
        JsonNode effect = effect(DEARER_METAL);
        BigDecimal sum = BigDecimal.ZERO;
        for (JsonNode quote : effect.at("/quotes").values()) {
            BigDecimal more = amount(quote.at("/netMore/by"));
            assertThat(amount(quote.at("/then/net")).subtract(amount(quote.at("/now/net"))))
                    .isEqualByComparingTo(more);
            assertThat(quote.at("/then/hours")).isEqualTo(quote.at("/now/hours"));
            assertThat(quote.at("/netMore/percent").asDouble())
                    .isCloseTo(
                            more.doubleValue() / amount(quote.at("/now/net")).doubleValue() * 100,
                            within(1e-9));
            sum = sum.add(more);
        }
        assertThat(amount(effect.at("/total/netMore/by"))).isEqualByComparingTo(sum);
        assertThat(effect.at("/total/quotes").asInt()).isEqualTo(2);
        JsonNode withOption = effect.at("/quotes/0");
        assertThat(withOption.at("/items").size()).isEqualTo(2); // the dearer one first
        assertThat(withOption.at("/items/0/netMore")).isEqualTo(withOption.at("/netMore"));
        assertThat(withOption.at("/items/1/option").asBoolean()).isTrue();
    }

    private static BigDecimal amount(JsonNode money) {
        return new BigDecimal(money.at("/amount").asString());
    }

    @Test
    void nothingIsStored() {
        String number = quote(item(FRAME));
        JsonNode quote = saved(number);
        long before = rows();
        effect(DEARER_METAL);
        post(EFFECT, "{\"draftEdition\":true}", 409);
        assertThat(rows()).isEqualTo(before);
        assertThat(saved(number)).isEqualTo(quote);
        assertThat(shop.user(Role.OWNER).call(books::current).edition()).isEqualTo(1);
    }

    private long rows() {
        return shop.user(Role.OWNER)
                .call(
                        () ->
                                new TransactionTemplate(transactions)
                                        .execute(
                                                t ->
                                                        sql.sql(
                                                                        """
                                                                        select (select count(*) from quote)
                                                                          + (select count(*) from quote_revision)
                                                                          + (select count(*) from quote_item)
                                                                          + (select count(*) from shop_book_edition)
                                                                          + (select count(*) from shop_book_draft)
                                                                        """)
                                                                .query(Long.class)
                                                                .single()));
    }

    @Test
    void onlyDraftsOfTheOwnShopAreLookedAt() {
        quote(item(FRAME));
        String issued = quote(item(PLATE));
        post("/api/v1/quotes/" + issued + "/issue", null, 200);
        TestShop other = openShop();
        assertThat(post(other, EFFECT, changes(DEARER_METAL), 200).at("/quotes").size()).isZero();
        JsonNode effect = effect(DEARER_METAL);
        assertThat(effect.at("/quotes").size()).isEqualTo(1);
        assertThat(effect.at("/open").asInt()).isEqualTo(1);
        assertThat(effect.at("/quotes/0/title").asString()).isEqualTo("Round sign frame");
    }

    @ParameterizedTest
    @EnumSource(
            value = Role.class,
            names = {"ESTIMATOR", "OFFICE", "FLOOR"})
    void onlyTheOwnerMayAsk(Role role) {
        shop.as(role)
                .post()
                .uri(EFFECT)
                .contentType(MediaType.APPLICATION_JSON)
                .body(changes(DEARER_METAL))
                .exchange()
                .expectStatus()
                .isForbidden();
        Person person = new Person(port());
        person.signIn(shop.user(role).userName(), TestShop.PASSWORD);
        assertThat(person.open("/quotes/effect").statusCode()).isEqualTo(403);
    }

    /** An item that cannot be reckoned is told beside the others, with the reason. */
    @Test
    void aMetalThatTheDraftTakesOutIsToldAtTheQuotesThatNeedIt() {
        String frame = quote(item(FRAME));
        String plate = quote(item(PLATE), item(FRAME));
        takeOut("sheets", "DC04");
        takeOut("grades", "DC04");

        JsonNode effect = post(EFFECT, "{\"draftEdition\":true}", 200);
        assertThat(effect.at("/draftEdition").asInt()).isEqualTo(2);
        JsonNode first = effect.at("/quotes/0");
        assertThat(first.at("/number").asString()).isEqualTo(plate);
        assertThat(first.has("netMore")).isFalse();
        assertThat(first.at("/kept")).isEqualTo(saved(plate).at("/total/net"));
        assertThat(first.at("/items/0/faultsThen/0/pointer").asString())
                .isEqualTo("/parts/0/grade");
        assertThat(first.at("/items/0/faultsNow").size()).isZero();
        assertThat(first.at("/items/1/faultsThen").size()).isZero();
        assertThat(effect.at("/quotes/1/number").asString()).isEqualTo(frame);
        assertThat(effect.at("/quotes/1/netMore/by/amount").asString()).isEqualTo("0.00");
        assertThat(effect.at("/total/unreckoned").asInt()).isEqualTo(1);
        assertThat(effect.at("/total/quotes").asInt()).isEqualTo(1);
    }

    private void takeOut(String section, String grade) {
        ShopBook book = shop.user(Role.OWNER).call(books::current);
        int row =
                1
                        + (section.equals("grades")
                                        ? book.grades().stream().map(ShopBook.Grade::code).toList()
                                        : book.sheets().stream()
                                                .map(ShopBook.Sheet::grade)
                                                .toList())
                                .indexOf(grade);
        row(section, row, Map.of("do", "remove"));
    }

    private void row(String section, int row, Map<String, String> typed) {
        Map<String, String> fields = new TreeMap<>(typed);
        fields.put("base", "1");
        fields.put("page", "here");
        fields.put("version", "0");
        String part = "/shop-book/draft/" + section;
        Person owner = new Person(port());
        owner.signIn(shop.user(Role.OWNER).userName(), TestShop.PASSWORD);
        assertThat(owner.submit(part, part + "/" + section + "/" + row, fields).statusCode())
                .isEqualTo(302);
    }

    @Test
    void findingsThatAppearAndVanishAreTold() {
        quote(item(FRAME));
        row("machines", 1, Map.of("do", "keep", "/ratedThicknessMm", "0.8"));
        row("machines", 2, Map.of("do", "keep", "/ratedThicknessMm", "0.6"));
        JsonNode item = post(EFFECT, "{\"draftEdition\":true}", 200).at("/quotes/0/items/0");
        assertThat(item.at("/appeared").values())
                .extracting(f -> f.at("/code").asString())
                .contains("over-capacity");
        assertThat(item.at("/feasible").asBoolean()).isFalse();
    }

    @Test
    void aDraftThatIsBehindTheCurrentEditionIsBroughtUpFirst() {
        row("machines", 1, Map.of("do", "keep", "/throatMm", "590"));
        post(EFFECT, "{\"draftEdition\":true}", 200);
        adopt(DEARER_METAL);
        assertThat(post(EFFECT, "{\"draftEdition\":true}", 409).at("/detail").asString())
                .contains("meanwhile edition 2 was added");
    }

    /** Whatever it was saved with: now is the current edition for every draft. */
    @Test
    void aDraftOfAnOlderEditionIsComparedAsIfItWereSavedAgain() {
        String number = quote(item(FRAME));
        JsonNode old = saved(number);
        adopt(DEARER_METAL);
        JsonNode told = effect("{\"type\":\"percentage\",\"of\":\"profit\",\"by\":0}");
        JsonNode quote = told.at("/quotes/0");
        assertThat(quote.at("/edition").asInt()).isEqualTo(1);
        assertThat(quote.at("/kept")).isEqualTo(old.at("/total/net"));
        assertThat(quote.at("/netMore/by/amount").asString()).isEqualTo("0.00");
        assertThat(quote.at("/now/net")).isEqualTo(savedAgain(number).at("/total/net"));
        assertThat(quote.at("/now/net")).isNotEqualTo(old.at("/total/net"));
    }

    @Test
    void manyAreLookedAtPageByPage() {
        List<String> numbers = List.of(quote(item(FRAME)), quote(item(PLATE)), quote(item(FRAME)));
        JsonNode first = post(EFFECT, "{\"most\":2,\"changes\":[" + DEARER_METAL + "]}", 200);
        assertThat(numbers(first)).containsExactlyInAnyOrder(numbers.get(2), numbers.get(1));
        assertThat(first.at("/open").asInt()).isEqualTo(3);
        assertThat(first.at("/left").asInt()).isEqualTo(1);
        String next = first.at("/next").asString();
        JsonNode second =
                post(
                        EFFECT,
                        "{\"most\":2,\"before\":\"%s\",\"changes\":[%s]}"
                                .formatted(next, DEARER_METAL),
                        200);
        assertThat(numbers(second)).containsExactly(numbers.get(0));
        assertThat(second.has("next")).isFalse();
        JsonNode exact = post(EFFECT, "{\"most\":3,\"changes\":[" + DEARER_METAL + "]}", 200);
        assertThat(exact.has("next")).isFalse();
        assertThat(exact.at("/left").asInt()).isZero();
    }

    private static List<String> numbers(JsonNode effect) {
        return effect.at("/quotes").values().stream().map(q -> q.at("/number").asString()).toList();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{}|/changes",
                "{\"draftEdition\":false}|/changes",
                "{\"draftEdition\":true,\"changes\":[]}|/changes",
                "{\"changes\":[]}|/changes",
                "{\"changes\":[null]}|/changes/0",
                "{\"changes\":[{\"type\":\"luck\"}]}|/changes/0/type",
                "{\"changes\":[{}]}|/changes/0/type",
                "{\"changes\":[{\"type\":\"metal-prices\",\"byPercent\":\"8\"}]}|/changes/0/byPercent",
                "{\"changes\":[{\"type\":\"metal-prices\",\"percent\":8}]}|/changes/0/percent",
                "{\"most\":0,\"draftEdition\":true}|/most",
                "{\"before\":\"7\",\"draftEdition\":true}|/before"
            })
    void tellsWhatIsWrong(String asked) {
        String[] parts = asked.split("\\|");
        assertThat(post(EFFECT, parts[0], 400).at("/errors").values())
                .extracting(e -> e.at("/pointer").asString())
                .contains(parts[1]);
    }

    // Pieces --------------------------------------------------------------------------------------

    private static String item(String takeOff) {
        return "{\"takeOff\":" + takeOff + "}";
    }

    private String quote(String... items) {
        String body = "{\"customer\":\"Bay\",\"items\":[" + String.join(",", items) + "]}";
        return post("/api/v1/quotes", body, 201).at("/number").asString();
    }

    private JsonNode saved(String number) {
        return shop.as(Role.OWNER)
                .get()
                .uri("/api/v1/quotes/" + number)
                .exchange()
                .expectBody(JsonNode.class)
                .returnResult()
                .getResponseBody();
    }

    /** Unchanged, with the current edition. */
    private JsonNode savedAgain(String number) {
        StringBuilder items = new StringBuilder();
        for (JsonNode item : saved(number).at("/items").values()) {
            items.append(items.isEmpty() ? "" : ",")
                    .append("{\"option\":")
                    .append(item.at("/option"))
                    .append(",\"takeOff\":")
                    .append(item.at("/takeOff"))
                    .append('}');
        }
        return shop.as(Role.OWNER)
                .put()
                .uri("/api/v1/quotes/" + number)
                .header("If-Match", "*")
                .contentType(MediaType.APPLICATION_JSON)
                .body("{\"customer\":\"Bay\",\"items\":[" + items + "]}")
                .exchange()
                .expectStatus()
                .isOk()
                .expectBody(JsonNode.class)
                .returnResult()
                .getResponseBody();
    }

    private void adopt(String change) {
        EffectAsked asked = Situations.JSON.readValue(changes(change), EffectAsked.class);
        shop.user(Role.OWNER).run(() -> books.carryOn(asked::changed, "tried before"));
    }

    private JsonNode effect(String change) {
        return post(EFFECT, changes(change), 200);
    }

    private static String changes(String change) {
        return "{\"changes\":[" + change + "]}";
    }

    private JsonNode post(String uri, String body, int status) {
        return post(shop, uri, body, status);
    }

    private static JsonNode post(TestShop shop, String uri, String body, int status) {
        var request = shop.as(Role.OWNER).post().uri(uri);
        if (body != null) {
            request.contentType(MediaType.APPLICATION_JSON).body(body);
        }
        return request.exchange()
                .expectStatus()
                .isEqualTo(status)
                .expectBody(JsonNode.class)
                .returnResult()
                .getResponseBody();
    }
}
