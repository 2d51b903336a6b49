package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.quote.Quoted.item;
import static strokewright.quote.Quoted.quote;
import static strokewright.takeoff.Situations.galvanisedCover;
import static strokewright.takeoff.Situations.roundFrame;
import static strokewright.takeoff.Situations.simpleBook;
import static strokewright.takeoff.Situations.surchargeBook;
import static strokewright.takeoff.Situations.withRate;
import static strokewright.takeoff.Situations.withScheme;

import java.math.BigDecimal;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.takeoff.Situations;

/** The workbook in a real spreadsheet program. */
@Tag("documents")
class RecalculatedWorkbookTests {

    private static final int FIRST_ITEM = 1;

    @TempDir private Path folder;

    private Spreadsheet program;

    @BeforeEach
    void start() {
        program = new Spreadsheet(folder);
    }

    @Test
    void showsTheStoredPricesOfBothSchemesAndAllQuantities() {
        List<ShopBook> books = new ArrayList<>(Situations.booksOfMetal());
        books.add(simpleBook());
        books.add(withScheme(surchargeBook(), "boughtOutHandlingPercent", 7.5));
        for (ShopBook book : books) {
            QuoteDocument quote = quote(book, roundFrame(), galvanisedCover());
            for (ForQuantity stored : quote.items().get(0).estimate().quantities()) {
                OpenedWorkbook calculated =
                        calculated(
                                open(quote, book)
                                        .type(FIRST_ITEM, "Quantity to price", stored.quantity()));

                assertThat(calculated.amount("item_1_price_each"))
                        .isEqualByComparingTo(stored.priceEach().amount());
                assertThat(calculated.amount("item_1_offer"))
                        .isEqualTo(stored.price().offer().amount());
                BigDecimal cover = quote.items().get(1).main().price().offer().amount();
                assertThat(calculated.amount("quote_net"))
                        .isEqualTo(stored.price().offer().amount().add(cover));
                assertThat(calculated.words("item_1_check"))
                        .startsWith("Matches the stored revision");
            }
        }
    }

    @Test
    void followsAChangedRatePercentageAndQuantity() {
        ShopBook book = surchargeBook();
        TakeOff takeOff = roundFrame();
        ShopBook changed =
                withScheme(withRate(book, "Forming", "labourRate", "47.35"), "profitPercent", 17.5);
        ForQuantity expected = Estimating.estimate(takeOff, changed).quantities().get(2);

        OpenedWorkbook calculated =
                calculated(
                        open(quote(book, takeOff), book)
                                .type(FIRST_ITEM, "Forming, labour", 47.35)
                                .type(FIRST_ITEM, "Profit, %", 17.5)
                                .type(FIRST_ITEM, "Quantity to price", 5));

        assertThat(expected.quantity()).isEqualTo(5);
        assertThat(calculated.amount("quote_with_tax"))
                .isEqualTo(expected.price().withTax().amount());
        assertThat(calculated.words("item_1_check"))
                .startsWith("No longer the stored revision, which offers");
        assertThat(calculated.words("quote_check")).startsWith("Changed");
    }

    /** Every rate and percentage, rounding and minimum order, at the largest quantity. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {20260404L, 20260411L, 20260412L, 20260413L, 20260414L})
    void followsEveryInputWithTheCustomersOwnTaxAndDiscounts(long seed) {
        Random random = WorkbookFollowsTest.scattered(seed);
        ShopBook book = WorkbookFollowsTest.book(random);
        Terms terms = WorkbookFollowsTest.terms(random);
        ShopBook priced = terms.applied(book);
        QuoteDocument quote =
                WorkbookFollowsTest.quote(terms, item(1, false, WorkbookFollowsTest.MIXED, priced));
        Map<String, Double> typed = new LinkedHashMap<>();
        ShopBook changed =
                WorkbookFollowsTest.changed(priced, quote.items().get(0).main(), random, typed);
        ForQuantity expected =
                Estimating.estimate(WorkbookFollowsTest.MIXED, changed).quantities().get(2);

        OpenedWorkbook asStored = calculated(open(quote, book));
        OpenedWorkbook opened = open(quote, book).type(FIRST_ITEM, "Quantity to price", 30);
        typed.forEach((label, value) -> opened.type(FIRST_ITEM, label, value));
        OpenedWorkbook calculated = calculated(opened);

        assertThat(asStored.amount("quote_with_tax")).isEqualTo(quote.total().withTax().amount());
        assertThat(asStored.words("quote_check")).isEmpty();
        assertThat(calculated.amount("item_1_price_each"))
                .isEqualByComparingTo(expected.priceEach().amount());
        assertThat(calculated.amount("quote_net")).isEqualTo(expected.price().offer().amount());
        assertThat(calculated.amount("quote_tax")).isEqualTo(expected.price().tax().amount());
        WorkbookFollowsTest.assertNoErrors(asStored);
        WorkbookFollowsTest.assertNoErrors(calculated);
        assertThat(calculated.texts(0)).contains("=HYPERLINK(\"x\")", "+paint", "=SUM(1,2)");
    }

    @Test
    void printsAsPages() {
        ShopBook book = surchargeBook();
        QuoteDocument quote =
                quote(item(1, false, roundFrame(), book), item(2, true, galvanisedCover(), book));

        byte[] pdf = program.calculated(open(quote, book).bytes(), "pdf");

        assertThat(new String(pdf, 0, 5, java.nio.charset.StandardCharsets.US_ASCII))
                .isEqualTo("%PDF-");
    }

    private OpenedWorkbook calculated(OpenedWorkbook opened) {
        return new OpenedWorkbook(program.calculated(opened.bytes(), "xlsx"));
    }

    private static OpenedWorkbook open(QuoteDocument quote, ShopBook book) {
        return new OpenedWorkbook(
                QuoteWorkbook.of(
                        quote,
                        new Stationery("Quillmoor Sheet & Form", Letterhead.unsaid(), null),
                        book,
                        Instant.parse("2026-03-02T10:00:00Z")));
    }
}
