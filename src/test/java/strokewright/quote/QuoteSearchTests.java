package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.text.Normalizer;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.web.servlet.client.EntityExchangeResult;
import org.springframework.test.web.servlet.client.RestTestClient;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.access.SignedIn;
import strokewright.estimate.ShopBook;
import strokewright.quote.SeededQuotes.Made;
import strokewright.quote.SeededQuotes.Piece;
import strokewright.shopbook.ShopBooks;
import strokewright.takeoff.Situations;
import tools.jackson.databind.JsonNode;

class QuoteSearchTests extends ServiceTest {

    private static final ZoneId ZONE = ZoneId.of("Europe/Berlin");
    private static final Pattern NEXT = Pattern.compile("<([^>]+)>; rel=\"next\"");

    @Autowired private FoundQuotes found;
    @Autowired private Quotes quotes;
    @Autowired private Outcomes outcomes;
    @Autowired private Customers customers;
    @Autowired private ShopBooks books;
    @Autowired private JdbcClient sql;
    @Autowired private PlatformTransactionManager transactions;
    @Autowired private Clock clock;

    private TestShop shop;
    private SignedIn estimator;

    @BeforeEach
    void open() {
        shop = openShop();
        estimator = shop.user(Role.ESTIMATOR);
    }

    // Against a plain filter --------------------------------------------------------------------

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3})
    void findsAndCountsWhatAPlainFilterFinds(long seed) {
        Random random = new Random(seed);
        List<Made> made = seeded(shop, random, 60);
        int some = 0;
        for (int i = 0; i < 250; i++) {
            QuoteSearch search = search(random, made);
            List<String> expected =
                    made.stream()
                            .filter(quote -> fits(quote, search))
                            .map(Made::number)
                            .sorted(
                                    Comparator.comparingInt(QuoteNumber::year)
                                            .thenComparingInt(QuoteNumber::n)
                                            .reversed())
                            .map(QuoteNumber::toString)
                            .toList();
            assertThat(numbers(shop, search)).as(search.toString()).isEqualTo(expected);
            assertThat(estimator.call(() -> found.count(search))).isEqualTo(expected.size());
            some += expected.isEmpty() || expected.size() == made.size() ? 0 : 1;
        }
        assertThat(some).as("searches that find some but not all").isGreaterThan(100);
    }

    private List<Made> seeded(TestShop shop, Random random, int count) {
        SignedIn who = shop.user(Role.ESTIMATOR);
        ShopBook book = who.call(books::current);
        return who.call(
                () ->
                        new TransactionTemplate(transactions)
                                .execute(
                                        status ->
                                                new SeededQuotes(
                                                                sql,
                                                                shop.id(),
                                                                List.of(
                                                                        who.userId(),
                                                                        shop.user(Role.OWNER)
                                                                                .userId()),
                                                                book)
                                                        .make(random, count)));
    }

    private List<String> numbers(TestShop shop, QuoteSearch search) {
        return shop.user(Role.ESTIMATOR).call(() -> found.list(search, null, 1000)).stream()
                .map(FoundQuotes.Entry::number)
                .toList();
    }

    private QuoteSearch search(Random random, List<Made> made) {
        Made like = made.get(random.nextInt(made.size()));
        int which = random.nextInt(4) == 0 ? -1 : random.nextInt(12);
        boolean mixed = which < 0;
        LocalDate day = LocalDate.ofInstant(like.at(), ZONE);
        LocalDate valid = like.validUntil() == null ? day : like.validUntil();
        Piece piece = like.pieces().get(0);
        String number = like.number().toString();
        String part =
                switch (random.nextInt(4)) {
                    case 0 -> number;
                    case 1 -> number.substring(0, 7 + random.nextInt(number.length() - 6));
                    case 2 -> String.valueOf(like.number().n());
                    default -> number.substring(0, 5 + random.nextInt(3)).replaceAll("-$", "");
                };
        boolean byId = random.nextBoolean();
        BigDecimal net = like.net();
        return new QuoteSearch(
                which == 0 ? NumberPart.read(part).orElseThrow() : null,
                (which == 1 && !byId) || (mixed && random.nextInt(3) == 0)
                        ? middle(random, like.customerName())
                        : null,
                which == 1 && byId ? like.customerId() : null,
                which == 2 || which == 3 || (mixed && random.nextInt(3) == 0)
                        ? words(random, like)
                        : List.of(),
                which == 4 || which == 5 || which == 6 || (mixed && random.nextBoolean())
                        ? new QuoteSearch.Item(
                                random.nextInt(3) > 0 ? null : metal(random, piece),
                                random.nextBoolean() ? null : around(random, piece.sizeMm(), -200),
                                random.nextBoolean() ? null : around(random, piece.sizeMm(), 200),
                                random.nextInt(3) > 0 ? null : piece.thicknessMm())
                        : QuoteSearch.Item.ANY,
                which == 7 || (mixed && random.nextBoolean())
                        ? Stream.of(State.values()).filter(s -> random.nextInt(3) == 0).toList()
                        : List.of(),
                which == 8 ? day.minusDays(random.nextInt(9)) : null,
                which == 8 || (mixed && random.nextBoolean())
                        ? day.plusDays(random.nextInt(9))
                        : null,
                which == 9 ? valid.minusDays(random.nextInt(9)) : null,
                which == 9 && random.nextBoolean() ? valid.plusDays(random.nextInt(9)) : null,
                which == 10 ? net : null,
                which == 10 && random.nextBoolean() ? net.add(new BigDecimal("500")) : null,
                which == 11 && !byId ? "THE estim" : null,
                which == 11 && byId ? like.estimator() : null);
    }

    private static @Nullable Double around(Random random, @Nullable Double size, int by) {
        return size == null ? null : Double.valueOf(size + random.nextInt(2) * by);
    }

    private static String metal(Random random, Piece piece) {
        return switch (random.nextInt(3)) {
            case 0 -> piece.grades().get(0);
            case 1 -> "Aluminium-Soft";
            default -> "stainless";
        };
    }

    private static String middle(Random random, String text) {
        int from = random.nextInt(text.length() - 2);
        String part = text.substring(from, from + 1 + random.nextInt(text.length() - from));
        return random.nextBoolean() ? part.toUpperCase(Locale.ROOT).strip() : part.strip();
    }

    private static List<String> words(Random random, Made like) {
        List<String> words = new ArrayList<>();
        for (int i = 0; i < 1 + random.nextInt(2); i++) {
            String text =
                    switch (random.nextInt(7)) {
                        case 0 -> like.title();
                        case 1 -> String.valueOf(like.contact());
                        case 2 -> String.valueOf(like.reference());
                        case 3 -> String.valueOf(like.orderNumber());
                        case 4 -> String.valueOf(like.note());
                        case 5 -> like.pieces().get(0).title();
                        default -> like.customerName();
                    };
            String[] each = text.split(" ");
            String word = each[random.nextInt(each.length)];
            words.add(random.nextInt(3) == 0 ? word.substring(0, 1) : word);
        }
        return words;
    }

    private boolean fits(Made made, QuoteSearch s) {
        LocalDate today = LocalDate.ofInstant(clock.instant(), ZONE);
        LocalDate day = LocalDate.ofInstant(made.at(), ZONE);
        State state = Quote.on(today, made.state(), made.validUntil());
        String all =
                Stream.concat(
                                Stream.of(
                                        made.number().toString(),
                                        made.customerName(),
                                        made.title(),
                                        made.contact(),
                                        made.reference(),
                                        made.orderNumber(),
                                        made.note()),
                                made.pieces().stream().map(Piece::title))
                        .map(String::valueOf)
                        .filter(text -> !text.equals("null"))
                        .map(QuoteSearchTests::folded)
                        .collect(Collectors.joining("\n"));
        LocalDate valid = made.validUntil();
        return (s.number() == null || begins(made.number(), s.number()))
                && (s.customer() == null
                        || folded(made.customerName()).contains(folded(s.customer())))
                && (s.customerId() == null || s.customerId().equals(made.customerId()))
                && s.words().stream().allMatch(word -> all.contains(folded(word)))
                && (s.item().isAny() || made.pieces().stream().anyMatch(p -> fits(p, s.item())))
                && (s.states().isEmpty() || s.states().contains(state))
                && (s.from() == null || !day.isBefore(s.from()))
                && (s.to() == null || !day.isAfter(s.to()))
                && (s.validFrom() == null || valid != null && !valid.isBefore(s.validFrom()))
                && (s.validTo() == null || valid != null && !valid.isAfter(s.validTo()))
                && (s.netFrom() == null || made.net().compareTo(s.netFrom()) >= 0)
                && (s.netTo() == null || made.net().compareTo(s.netTo()) <= 0)
                && (s.estimator() == null || made.estimator().equals(estimator.userId()))
                && (s.estimatorId() == null || made.estimator().equals(s.estimatorId()));
    }

    /** Ranges are compared with text in {@link NumberPartTest}. */
    private static boolean begins(QuoteNumber number, NumberPart part) {
        return part.fits(number);
    }

    private boolean fits(Piece piece, QuoteSearch.Item item) {
        Double size = piece.sizeMm();
        Double thickness = piece.thicknessMm();
        return (item.metal() == null || piece.grades().stream().anyMatch(g -> is(g, item.metal())))
                && (item.sizeFromMm() == null || size != null && size >= item.sizeFromMm())
                && (item.sizeToMm() == null || size != null && size <= item.sizeToMm())
                && (item.thicknessMm() == null || item.thicknessMm().equals(thickness));
    }

    private boolean is(String grade, String metal) {
        return grade.equals(metal)
                || estimator.call(books::current).grades().stream()
                        .anyMatch(
                                g -> grade.equals(g.code()) && metal.equalsIgnoreCase(g.family()));
    }

    private static String folded(String text) {
        return Normalizer.normalize(text, Normalizer.Form.NFKC).toLowerCase(Locale.ROOT);
    }

    // Kept up -----------------------------------------------------------------------------------

    @Test
    void textFollowsWhateverIsDoneWithAQuote() {
        String number =
                estimator.call(
                        () ->
                                quotes.begin(
                                        "Harbour Theatre",
                                        "Quay 1",
                                        Situations.takeOff(QuotesApiTests.TAKE_OFF),
                                        List.of()));
        assertThat(saying("sign", "HARBOUR", number.toLowerCase(Locale.ROOT)))
                .containsExactly(number);
        assertThat(saying("winter")).isEmpty();

        post("/api/v1/quotes/" + number + "/notes", "{\"text\":\"wants it before winter\"}");
        assertThat(saying("winter")).containsExactly(number);

        UUID customer = estimator.call(() -> quotes.get(number)).document().customer().id();
        rename(customer, "Lighthouse Players");
        assertThat(saying("lighthouse")).containsExactly(number);
        assertThat(saying("harbour")).isEmpty();

        post("/api/v1/quotes/" + number + "/issue", "");
        post("/api/v1/quotes/" + number + "/accept", "{\"orderNumber\":\"4711-B\"}");
        assertThat(saying("4711-b", "lighthouse")).containsExactly(number);
        rename(customer, "Players on the Quay");
        assertThat(saying("lighthouse")).as("as it was sent").containsExactly(number);
        assertThat(saying("players", "quay")).as("as they are now").containsExactly(number);

        post("/api/v1/quotes/" + number + "/take-back", "");
        assertThat(saying("4711-b")).isEmpty();
        post("/api/v1/quotes/" + number + "/decline", "{\"reason\":\"price\"}");
        assertThat(numbers(shop, read(Map.of("state", "declined")))).containsExactly(number);
        assertThat(numbers(shop, read(Map.of("state", "issued")))).isEmpty();
    }

    private void rename(UUID customer, String name) {
        Customers.Tagged before = estimator.call(() -> customers.get(customer));
        shop.as(Role.ESTIMATOR)
                .put()
                .uri("/api/v1/customers/" + customer)
                .header(HttpHeaders.IF_MATCH, before.version().toString())
                .contentType(MediaType.APPLICATION_JSON)
                .body("{\"name\":\"" + name + "\"}")
                .exchange()
                .expectStatus()
                .isOk();
    }

    private void post(String path, String body) {
        RestTestClient.RequestBodySpec request = shop.as(Role.ESTIMATOR).post().uri(path);
        if (!body.isEmpty()) {
            request.contentType(MediaType.APPLICATION_JSON).body(body);
        }
        request.exchange().expectStatus().is2xxSuccessful();
    }

    private List<String> saying(String... words) {
        return numbers(shop, read(Map.of("text", String.join(" ", words))));
    }

    private static QuoteSearch read(Map<String, String> parameters) {
        return SearchReading.ofProgram(
                parameters.entrySet().stream()
                        .collect(
                                Collectors.toMap(
                                        Map.Entry::getKey, e -> new String[] {e.getValue()})),
                java.util.Set.of());
    }

    // Apart -------------------------------------------------------------------------------------

    @Test
    void anotherShopsQuotesAreNeverFound() {
        TestShop other = openShop();
        seeded(shop, new Random(1), 20);
        List<Made> theirs = seeded(other, new Random(1), 20);
        String first = theirs.get(0).number().toString();

        assertThat(numbers(shop, QuoteSearch.ALL)).hasSize(20);
        assertThat(numbers(other, QuoteSearch.ALL)).hasSize(20);
        assertThat(numbers(shop, read(Map.of("number", first)))).containsExactly(first);
        assertThat(numbers(shop, read(Map.of("customer", theirs.get(0).customerId().toString()))))
                .isEmpty();
        assertThat(numbers(shop, read(Map.of("estimator", theirs.get(0).estimator().toString()))))
                .isEmpty();
        assertThat(inShop(UUID.class, "select distinct shop_id from own_quote_lookup"))
                .as("without any filter")
                .containsExactly(shop.id());
        assertThatThrownBy(() -> inShop(Long.class, "select count(*) from quote_lookup"))
                .hasStackTraceContaining("permission denied");
        assertThatThrownBy(
                        () ->
                                sql.sql("select count(*) from own_quote_lookup")
                                        .query(Long.class)
                                        .single())
                .as("outside of a transaction");
    }

    private <T> List<T> inShop(Class<T> type, String statement) {
        return estimator.call(
                () ->
                        new TransactionTemplate(transactions)
                                .execute(status -> sql.sql(statement).query(type).list()));
    }

    // Over HTTP ---------------------------------------------------------------------------------

    @Test
    void pagesGoOnWithTheirFilters() {
        List<Made> made = seeded(shop, new Random(7), 40);
        List<String> expected =
                numbers(shop, read(Map.of("customer", "müller", "from", "2026-01-01")));
        assertThat(expected.size()).isBetween(4, made.size() - 1);

        List<String> walked = new ArrayList<>();
        String page = "/api/v1/quotes?customer=M%C3%9CLLER&from=2026-01-01&size=3&text=";
        while (page != null) {
            EntityExchangeResult<JsonNode> answer = get(page, 200);
            answer.getResponseBody()
                    .get("items")
                    .valueStream()
                    .forEach(q -> walked.add(q.get("number").asString()));
            Matcher next =
                    NEXT.matcher(
                            String.join(
                                    ",", answer.getResponseHeaders().getOrEmpty(HttpHeaders.LINK)));
            page = next.find() ? next.group(1) : null;
        }
        assertThat(walked).isEqualTo(expected);
    }

    @Test
    void faultsNameTheirParametersAllTogether() {
        JsonNode problem =
                get(
                                "/api/v1/quotes?number=12x&state=open&sizeFromMm=1,5&from=2026-02-30"
                                        + "&netFrom=10&netTo=9&custmer=a&validTo=soon&thicknessMm=-1",
                                400)
                        .getResponseBody();
        assertThat(
                        problem.get("errors")
                                .valueStream()
                                .map(e -> e.get("pointer").asString())
                                .toList())
                .containsExactlyInAnyOrder(
                        "?number",
                        "?state",
                        "?sizeFromMm",
                        "?from",
                        "?netTo",
                        "?custmer",
                        "?validTo",
                        "?thicknessMm");
    }

    @Test
    void everyFilterOfTheListAndTheRegisterIsDescribed() {
        JsonNode described =
                get("/api/v1/openapi", 200)
                        .getResponseBody()
                        .at("/paths/~1api~1v1~1quotes/get/parameters");
        Map<String, JsonNode> byName =
                described
                        .valueStream()
                        .collect(Collectors.toMap(p -> p.get("name").asString(), p -> p));

        List<String> expected = new ArrayList<>(SearchReading.NAMES);
        expected.addAll(List.of("size", "after", "rows"));
        assertThat(byName.keySet()).containsExactlyInAnyOrderElementsOf(expected);
        SearchReading.NAMES.forEach(
                name -> {
                    assertThat(byName.get(name).path("description").asString(""))
                            .as(name)
                            .isNotEmpty();
                    assertThat(byName.get(name).at("/in").asString()).isEqualTo("query");
                    assertThat(byName.get(name).path("required").asBoolean(false)).isFalse();
                });
        assertThat(byName.get("state").at("/schema/items/enum").toString())
                .isEqualTo(
                        Stream.of(State.values())
                                .map(state -> '"' + state.word() + '"')
                                .collect(Collectors.joining(",", "[", "]")));
        assertThat(byName.get("rows").at("/schema/enum").toString())
                .isEqualTo("[\"quotes\",\"quantities\"]");
    }

    private EntityExchangeResult<JsonNode> get(String path, int status) {
        return shop.as(Role.OFFICE)
                .get()
                .uri(java.net.URI.create("http://localhost:" + port() + path))
                .exchange()
                .expectStatus()
                .isEqualTo(status)
                .expectBody(JsonNode.class)
                .returnResult();
    }
}
