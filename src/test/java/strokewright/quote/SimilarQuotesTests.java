package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
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
import strokewright.access.SignedIn;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.quote.SeededQuotes.Made;
import strokewright.quote.SeededQuotes.Piece;
import strokewright.quote.SimilarQuotes.Earlier;
import strokewright.shopbook.ShopBooks;
import strokewright.takeoff.Situations;
import tools.jackson.databind.JsonNode;

class SimilarQuotesTests extends ServiceTest {

    private static final String DISH =
            """
            {"title":"Bowl","parts":[{"name":"Bowl","grade":"X5CRNI18-10","thicknessMm":1.5,"massKg":2,
               "operations":[{"type":"dish","diameterMm":400,"depthMm":80},
                {"type":"smooth","areaMm2":150000,"timesOver":2}]}]}
            """;

    @Autowired private SimilarQuotes similar;
    @Autowired private Quotes quotes;
    @Autowired private ShopBooks books;
    @Autowired private JdbcClient sql;
    @Autowired private PlatformTransactionManager transactions;

    private TestShop shop;
    private SignedIn estimator;

    @BeforeEach
    void open() {
        shop = openShop();
        estimator = shop.user(Role.ESTIMATOR);
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {31, 32})
    void offersTheLikestAsReckonedOneByOne(long seed) {
        ShopBook book = estimator.call(books::current);
        List<Made> made =
                estimator.call(
                        () ->
                                new TransactionTemplate(transactions)
                                        .execute(
                                                status ->
                                                        new SeededQuotes(
                                                                        sql,
                                                                        shop.id(),
                                                                        List.of(estimator.userId()),
                                                                        book)
                                                                .make(new Random(seed), 80)));
        int offered = 0;
        for (String json :
                List.of(
                        QuotesApiTests.TAKE_OFF,
                        QuotesApiTests.TAKE_OFF.replace("2.0", "0.8").replace("300", "700"),
                        DISH,
                        DISH.replace("X5CRNI18-10", "ALMG3-O").replace("400", "900"))) {
            TakeOff takeOff = Situations.takeOff(json);
            List<String> expected = expected(made, takeOff, book, null);
            assertThat(found(takeOff, null)).isEqualTo(expected);
            if (expected.isEmpty()) {
                continue;
            }
            offered += expected.size();
            QuoteNumber first = QuoteNumber.read(expected.get(0).split(" ")[0]).orElseThrow();
            assertThat(found(takeOff, first)).isEqualTo(expected(made, takeOff, book, first));
        }
        assertThat(offered).as("offered to all of them").isGreaterThan(5);
    }

    private List<String> found(TakeOff takeOff, @Nullable QuoteNumber except) {
        return estimator.call(() -> similar.to(takeOff, except)).stream()
                .map(e -> e.number() + " item " + e.position() + " " + e.likenessPercent())
                .toList();
    }

    private record Like(Made quote, int position, int percent) {}

    private static List<String> expected(
            List<Made> made, TakeOff takeOff, ShopBook book, @Nullable QuoteNumber except) {
        ItemFacts facts =
                ItemFacts.of(
                        new PricedItem(
                                1,
                                "",
                                false,
                                takeOff,
                                Estimating.estimate(takeOff, book),
                                List.of()),
                        book);
        Set<String> family = Set.of(SimilarQuotes.family(facts.grades(), book));
        List<Like> all = new ArrayList<>();
        for (Made quote : made) {
            if (quote.number().equals(except)) {
                continue;
            }
            Like best = null;
            for (int i = 0; i < quote.pieces().size(); i++) {
                Piece piece = quote.pieces().get(i);
                int percent =
                        piece.grades().stream().anyMatch(family::contains)
                                ? percent(facts, piece)
                                : 0;
                if (best == null || percent > best.percent) {
                    best = new Like(quote, i + 1, percent);
                }
            }
            all.add(best);
        }
        return all.stream()
                .filter(like -> like.percent >= SimilarQuotes.LEAST_PERCENT)
                .sorted(
                        Comparator.comparingInt(Like::percent)
                                .thenComparing(like -> like.quote.at())
                                .thenComparingInt(like -> like.quote.number().year())
                                .thenComparingInt(like -> like.quote.number().n())
                                .reversed())
                .limit(SimilarQuotes.MOST)
                .map(l -> l.quote.number() + " item " + l.position + " " + l.percent)
                .toList();
    }

    private static int percent(ItemFacts facts, Piece piece) {
        Set<String> both = new LinkedHashSet<>(facts.kinds());
        both.retainAll(piece.kinds());
        Set<String> either = new LinkedHashSet<>(facts.kinds());
        either.addAll(piece.kinds());
        return (int)
                Math.rint(
                        100.0
                                * both.size()
                                / either.size()
                                * (near(facts.sizeMm(), piece.sizeMm())
                                        * near(facts.thicknessMm(), piece.thicknessMm())));
    }

    /** A factor counts alike both ways, so its logarithm may have either sign. */
    private static double near(@Nullable Double a, @Nullable Double b) {
        if (a == null || b == null) {
            return a == null && b == null ? 1 : 0.5;
        }
        return Math.min(a, b) / Math.max(a, b);
    }

    @Test
    void theSameWorkIsWhollyAlikeWithItsPriceAndHours() {
        String json = QuotesApiTests.TAKE_OFF.replace("[1,5]", "[1,5],\"mainQuantity\":5");
        String number = begin(json);
        begin(DISH);
        Earlier earlier = estimator.call(() -> similar.to(Situations.takeOff(json), null)).get(0);
        QuoteDocument quote = estimator.call(() -> quotes.get(number)).document();
        PricedItem item = quote.items().get(0);

        assertThat(earlier.number()).isEqualTo(number);
        assertThat(earlier.likenessPercent()).isEqualTo(100);
        assertThat(earlier.quantity()).isEqualTo(5);
        assertThat(earlier.priceEach()).isEqualTo(item.main().priceEach());
        assertThat(earlier.plannedHours()).isEqualTo(item.main().hours().plan());
        assertThat(earlier.state()).isEqualTo(State.DRAFT);
        assertThat(earlier.date()).isEqualTo(quote.date());
    }

    @Test
    void overHttpTheQuoteItselfIsLeftOutAndFaultsAreToldWithTheirPointers() {
        String first = begin(QuotesApiTests.TAKE_OFF);
        String second = begin(QuotesApiTests.TAKE_OFF);

        assertThat(numbers(ask("", QuotesApiTests.TAKE_OFF, 200))).containsExactly(second, first);
        assertThat(numbers(ask("?except=" + second, QuotesApiTests.TAKE_OFF, 200)))
                .containsExactly(first);
        assertThat(
                        ask("", QuotesApiTests.TAKE_OFF.replace("AL99.5-O", "lead"), 400)
                                .at("/errors/0/pointer")
                                .asString())
                .isEqualTo("/parts/0/grade");
        assertThat(ask("?except=x", DISH, 400).at("/errors/0/pointer").asString())
                .isEqualTo("?except");

        TestShop other = openShop();
        shop = other;
        assertThat(numbers(ask("", QuotesApiTests.TAKE_OFF, 200))).as("of another shop").isEmpty();
    }

    @Test
    void thePageShowsThemAsSoonAsThereIsSomethingToCompare() {
        String number = begin(QuotesApiTests.TAKE_OFF);
        Person person = new Person(port());
        person.signIn(estimator.userName(), TestShop.PASSWORD);
        Map<String, String> typed =
                Map.ofEntries(
                        Map.entry("/parts/p1/grade", "AL99.5-O"),
                        Map.entry("/parts/p1/thicknessMm", "2"),
                        Map.entry("/parts/p1/massKg", "1.2"),
                        Map.entry("/quantities", "1"),
                        Map.entry("/parts/p1/operations/o1/type", "curve-edge"),
                        Map.entry("/parts/p1/operations/o1/sense", "shrink"),
                        Map.entry("/parts/p1/operations/o1/radiusMm", "300"),
                        Map.entry("/parts/p1/operations/o1/lengthMm", "1885"),
                        Map.entry("/parts/p1/operations/o1/heightMm", "40"));

        HttpResponse<String> shown = person.submit("/take-off", "/take-off/similar", typed);
        assertThat(shown.statusCode()).isEqualTo(200);
        assertThat(shown.body())
                .contains("% alike", number, "target=\"_blank\"", "Round sign frame");
        assertThat(
                        person.submit(
                                        "/take-off",
                                        "/take-off/similar",
                                        Map.of("/parts/p1/grade", "AL99.5-O"))
                                .body())
                .contains("as soon as there is a result")
                .doesNotContain("<table");
        assertThat(
                        person.submit("/take-off", "/quotes/" + number + "/items/1/similar", typed)
                                .body())
                .as("the quote itself")
                .doesNotContain(number);
    }

    private String begin(String takeOff) {
        return estimator.call(
                () ->
                        quotes.begin(
                                "Harbour Theatre", null, Situations.takeOff(takeOff), List.of()));
    }

    private static List<String> numbers(JsonNode answer) {
        return Stream.of(answer.get("items"))
                .flatMap(JsonNode::valueStream)
                .map(e -> e.get("number").asString())
                .toList();
    }

    private JsonNode ask(String query, String takeOff, int status) {
        return shop.as(Role.ESTIMATOR)
                .post()
                .uri("/api/v1/quotes/similar" + query)
                .contentType(MediaType.APPLICATION_JSON)
                .body(takeOff)
                .exchange()
                .expectStatus()
                .isEqualTo(status)
                .expectBody(JsonNode.class)
                .returnResult()
                .getResponseBody();
    }
}
