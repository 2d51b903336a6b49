package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.takeoff.Situations.surchargeBook;
import static strokewright.takeoff.Situations.takeOff;
import static strokewright.takeoff.Situations.withRate;
import static strokewright.takeoff.Situations.withScheme;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.LongStream;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.costing.Percentage;
import strokewright.costing.PriceScheme;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.takeoff.Guard;
import strokewright.takeoff.Situations;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** The totals of a changed workbook against the service's own reckoning with a changed book. */
class WorkbookFollowsTest {

    private static final int FIRST_ITEM = 1;
    private static final int SECOND_ITEM = 2;

    /** The shop's, everything at once: spread hours, least charges, handling, discounts, folds. */
    static final TakeOff MIXED =
            takeOff(
                    """
                    {"title":"Mixed","information":"drawing","quantities":[1,4,30],"mainQuantity":4,
                     "parts":[
                      {"name":"Rim","perAssembly":2,"grade":"AL99.5-H14","thicknessMm":2.0,
                       "blank":{"lengthMm":1950,"widthMm":120},"surface":"visible",
                       "operations":[
                        {"type":"curve-edge","sense":"shrink","lengthMm":700,"radiusMm":160,"heightMm":45},
                        {"type":"standard","standard":"Guillotine cut","amount":4}]},
                      {"name":"cost","grade":"DC04","thicknessMm":1.5,
                       "blank":{"lengthMm":340,"widthMm":340},
                       "operations":[{"type":"dish","diameterMm":300,"depthMm":60},
                        {"type":"standard","standard":"Free of time","amount":1}]}],
                     "assembly":[{"type":"standard","standard":"Dear","amount":2}],
                     "extras":[
                      {"name":"Plating","per":"piece","kind":"bought-out","cost":{"amount":"7.77","currency":"EUR"}},
                      {"name":"Jig","per":"order","kind":"special-direct","lifePieces":7,"cost":{"amount":"118.20","currency":"EUR"}},
                      {"name":"Cutting","per":"order","kind":"bought-out","handlingPercent":7.5,"cost":{"amount":"61.13","currency":"EUR"}}]}
                    """);

    static LongStream seeds() {
        return LongStream.range(20260401L, 20260411L);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void everyInputMovesTheTotalsAsTheServiceWould(long seed) {
        Random random = scattered(seed);
        ShopBook book = book(random);
        Terms terms = terms(random);
        TakeOff takeOff = MIXED;
        ShopBook priced = terms.applied(book);
        QuoteDocument quote = quote(terms, Quoted.item(1, false, takeOff, priced));
        OpenedWorkbook opened = open(quote, book);
        for (ForQuantity stored : quote.items().get(0).estimate().quantities()) {
            opened.type(FIRST_ITEM, "Quantity to price", stored.quantity()).calculate();
            assertShows(opened, stored, 2);
            assertThat(opened.words("item_1_check")).startsWith("Matches the stored revision");
        }

        Map<String, Double> typed = new LinkedHashMap<>();
        ShopBook changed = changed(priced, quote.items().get(0).main(), random, typed);
        typed.forEach((label, value) -> opened.type(FIRST_ITEM, label, value));
        for (ForQuantity expected : Estimating.estimate(takeOff, changed).quantities()) {
            opened.type(FIRST_ITEM, "Quantity to price", expected.quantity()).calculate();
            assertShows(opened, expected, 2);
            assertThat(opened.words("item_1_check")).startsWith("No longer the stored revision");
        }
        assertNoErrors(opened);
    }

    /** Of seeds one after the other, {@link Random} begins with nearly the same numbers. */
    static Random scattered(long seed) {
        return new Random(seed * 0x9E3779B97F4A7C15L);
    }

    /** Rates and scheme typed anew, in the book and by the labels of their cells. */
    static ShopBook changed(
            ShopBook book, ForQuantity main, Random random, Map<String, Double> typed) {
        ShopBook changed = book;
        for (Estimate.AtCentre at : main.workCentres()) {
            for (String what : List.of("labour", "machine")) {
                String rate = BigDecimal.valueOf(random.nextInt(9_000), 2).toPlainString();
                changed = withRate(changed, at.workCentre(), what + "Rate", rate);
                typed.put(at.workCentre() + ", " + what, Double.parseDouble(rate));
            }
        }
        boolean surcharge = book.priceScheme().kind() == PriceScheme.Kind.SURCHARGE;
        for (Percentage percentage : Percentage.values()) {
            if (surcharge || percentage.isAlsoSimple()) {
                double percent = random.nextInt(300) / 10.0;
                changed = withScheme(changed, percentage.figure() + "Percent", percent);
                typed.put(percentage.label(surcharge) + ", %", percent);
            }
        }
        if (book.priceScheme().boughtOutHandlingPercent() > 0) {
            changed = withScheme(changed, "boughtOutHandlingPercent", 9.5);
            typed.put("Handling of bought-out work, %", 9.5);
        }
        String step = List.of("0.01", "0.50", "1", "5").get(random.nextInt(4));
        changed = withScheme(changed, "roundEachTo", step);
        typed.put("Price each is a multiple of, EUR", Double.parseDouble(step));
        int minimum = random.nextInt(3) * 700;
        changed =
                withScheme(
                        changed,
                        "minimumOrder",
                        Map.of("amount", minimum + ".10", "currency", "EUR"));
        typed.put("Minimum order, EUR", minimum + 0.10);
        return changed;
    }

    /** A shop's first book, dearer in places, with least charges and learned factors. */
    static ShopBook book(Random random) {
        ObjectNode tree = Situations.JSON.valueToTree(Guard.BOOK);
        ((ArrayNode) tree.get("standards"))
                .add(
                        Situations.JSON.readTree(
                                """
                                {"name":"Free of time","workCentre":"Rinse","minutesPerUnit":0,"unit":"order",
                                 "minimumCharge":{"amount":"35.00","currency":"EUR"},"origin":"for this test"}
                                """))
                .add(
                        Situations.JSON.readTree(
                                """
                                {"name":"Dear","workCentre":"Plating bath","minutesPerUnit":3,"unit":"piece","people":2,
                                 "minimumCharge":{"amount":"80.00","currency":"EUR"},"origin":"for this test"}
                                """));
        ((ArrayNode) tree.get("workCentres"))
                .add(
                        Situations.JSON.readTree(
                                """
                                {"name":"Plating bath","labourRate":{"amount":"30.125","currency":"EUR"}}
                                """))
                .add(
                        Situations.JSON.readTree(
                                "{\"name\":\"Rinse\",\"labourRate\":{\"amount\":\"20.00\",\"currency\":\"EUR\"}}"));
        tree.set(
                "learned",
                Situations.JSON.readTree(
                        """
                        [{"kind":"curve-edge","planFactor":1.21,"meanFactor":1.3,"spread":0.2,"jobs":6,"origin":"jobs"},
                         {"kind":"set-up","planFactor":0.9,"meanFactor":0.95,"spread":0.1,"jobs":6,"origin":"jobs"}]
                        """));
        ShopBook book = Situations.JSON.treeToValue(tree, ShopBook.class);
        book =
                withScheme(
                        book,
                        "priceFrom",
                        List.of("plan", "mean", "p65", "p80").get(random.nextInt(4)));
        book = withScheme(book, "kind", random.nextBoolean() ? "surcharge" : "simple");
        book = withScheme(book, "productionOverheadPercent", 45.5);
        book = withScheme(book, "tradeDiscountPercent", 4);
        return withScheme(book, "boughtOutHandlingPercent", random.nextInt(2) * 6.0);
    }

    static Terms terms(Random random) {
        return new Terms(
                null,
                "=SUM(1,2)",
                new TaxRule(TaxRule.Kind.OWN_RATE, 7.7, null),
                new Payment(30, random.nextInt(4) / 2.0, 10, random.nextInt(8) / 4.0, List.of()),
                15,
                null,
                null,
                List.of("-1 day is no lead time"),
                List.of("+paint"),
                "@Monday",
                "=HYPERLINK(\"x\")");
    }

    @ParameterizedTest(name = "{0}")
    @ValueSource(strings = {"JPY 0 1", "JPY 0 5", "KWD 3 0.01", "CHF 2 0.50", "KWD 3 5"})
    void amountsAreInWholeCoinsOfTheCurrency(String given) {
        String[] of = given.split(" ");
        int decimals = Integer.parseInt(of[1]);
        ShopBook book =
                in(of[0], withScheme(surchargeBook(), "roundEachTo", of[2]), ShopBook.class);
        TakeOff takeOff = in(of[0], Situations.roundFrame(), TakeOff.class);
        QuoteDocument quote = Quoted.quote(book, takeOff);
        OpenedWorkbook opened = open(quote, book);

        for (ForQuantity stored : quote.items().get(0).estimate().quantities()) {
            opened.type(FIRST_ITEM, "Quantity to price", stored.quantity()).calculate();
            assertShows(opened, stored, decimals);
            assertThat(opened.words("item_1_check")).startsWith("Matches the stored revision");
        }
        String format = decimals == 0 ? "#,##0" : "#,##0." + "0".repeat(decimals);
        assertThat(opened.named("quote_net").getCellStyle().getDataFormatString())
                .isEqualTo(format);
        assertThat(opened.named("item_1_offer").getCellStyle().getDataFormatString())
                .isEqualTo(format);
    }

    private static <T> T in(String currency, Object eur, Class<T> type) {
        String json = Situations.JSON.writeValueAsString(eur);
        return Situations.JSON.readValue(json.replace("\"EUR\"", "\"" + currency + "\""), type);
    }

    @Test
    void itemsAndOptionsFollowTogetherWithOwnTaxAndDiscounts() {
        Random random = new Random(20260501L);
        ShopBook book = withScheme(book(random), "priceFrom", "p80");
        Terms terms = terms(random);
        ShopBook priced = terms.applied(book);
        QuoteDocument quote =
                quote(
                        terms,
                        Quoted.item(1, false, MIXED, priced),
                        Quoted.item(2, false, MIXED, priced),
                        Quoted.item(3, true, MIXED, priced));
        OpenedWorkbook opened = open(quote, book);
        ShopBook dearer =
                withScheme(withRate(priced, "Forming", "labourRate", "61.35"), "profitPercent", 21);

        opened.type(FIRST_ITEM, "Forming, labour", 61.35)
                .type(FIRST_ITEM, "Profit, %", 21)
                .type(SECOND_ITEM, "Quantity to price", 30)
                .calculate();

        List<ForQuantity> expected = Estimating.estimate(MIXED, dearer).quantities();
        QuoteDocument.Total first = QuoteDocument.Total.of(expected.get(1));
        QuoteDocument.Total second = QuoteDocument.Total.of(expected.get(2));
        assertThat(opened.amount("quote_net")).isEqualTo(first.plus(second).net().amount());
        assertThat(opened.amount("quote_tax")).isEqualTo(first.plus(second).tax().amount());
        assertThat(opened.amount("quote_with_tax"))
                .isEqualTo(first.plus(second).withTax().amount());
        assertThat(opened.amount("item_3_offer")).isEqualTo(first.net().amount());
        assertThat(opened.words("quote_check")).startsWith("Changed");
        assertThat(opened.texts(0)).contains("Tax, 7.7 %");
    }

    private static void assertShows(OpenedWorkbook opened, ForQuantity expected, int decimals) {
        Estimate.Price price = expected.price();
        assertThat(
                        List.of(
                                opened.amount("item_1_price_each", decimals),
                                opened.amount("item_1_offer", decimals),
                                opened.amount("quote_net", decimals),
                                opened.amount("quote_tax", decimals),
                                opened.amount("quote_with_tax", decimals)))
                .as("%d of %s", expected.quantity(), expected.priceEach())
                .usingElementComparator(BigDecimal::compareTo)
                .containsExactly(
                        expected.priceEach().amount(),
                        price.offer().amount(),
                        price.offer().amount(),
                        price.tax().amount(),
                        price.withTax().amount());
    }

    static void assertNoErrors(OpenedWorkbook opened) {
        List<String> errors = new ArrayList<>();
        for (Sheet sheet : opened.book()) {
            for (Row row : sheet) {
                for (Cell cell : row) {
                    if (cell.getCellType() == CellType.ERROR
                            || cell.getCellType() == CellType.FORMULA
                                    && cell.getCachedFormulaResultType() == CellType.ERROR) {
                        errors.add(cell.getAddress().formatAsString());
                    }
                }
            }
        }
        assertThat(errors).isEmpty();
    }

    static QuoteDocument quote(Terms terms, PricedItem... items) {
        QuoteDocument plain = Quoted.quote(items);
        return new QuoteDocument(
                plain.number(),
                plain.revision(),
                plain.state(),
                plain.date(),
                plain.title(),
                plain.customer(),
                plain.createdBy(),
                plain.approvedBy(),
                plain.shopBookEdition(),
                plain.methodVersion(),
                plain.feasible(),
                plain.items(),
                plain.total(),
                "Dora Wren",
                terms,
                null,
                null,
                null,
                null);
    }

    static OpenedWorkbook open(QuoteDocument quote, ShopBook edition) {
        return new OpenedWorkbook(
                QuoteWorkbook.of(
                        quote,
                        new Stationery("Quillmoor Sheet & Form", Letterhead.unsaid(), null),
                        edition,
                        Instant.parse("2026-03-02T10:00:00Z")));
    }
}
