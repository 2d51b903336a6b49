package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.quote.Quoted.item;
import static strokewright.quote.Quoted.quote;
import static strokewright.takeoff.Situations.bowl;
import static strokewright.takeoff.Situations.foldedTray;
import static strokewright.takeoff.Situations.galvanisedCover;
import static strokewright.takeoff.Situations.roundFrame;
import static strokewright.takeoff.Situations.simpleBook;
import static strokewright.takeoff.Situations.surchargeBook;
import static strokewright.takeoff.Situations.takeOff;
import static strokewright.takeoff.Situations.takeOffs;
import static strokewright.takeoff.Situations.withRate;
import static strokewright.takeoff.Situations.withScheme;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.DataValidation;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.ss.util.AreaReference;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import strokewright.costing.Percentage;
import strokewright.costing.PriceScheme;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.quantity.Money;
import strokewright.takeoff.Guard;
import strokewright.takeoff.Situations;
import strokewright.takeoff.SpreadByHand;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

class QuoteWorkbookTests {

    private static final int CUSTOMER = 0;
    private static final int FIRST_ITEM = 1;
    private static final int SECOND_ITEM = 2;

    static Stream<Arguments> books() {
        return Stream.of(
                Arguments.of("simple", simpleBook()),
                Arguments.of("surcharge", surchargeBook()),
                Arguments.of("to 5", withScheme(surchargeBook(), "roundEachTo", "5")),
                Arguments.of("to 0.50", withScheme(simpleBook(), "roundEachTo", "0.50")),
                Arguments.of("urgent", withScheme(surchargeBook(), "urgencyPercent", 25)),
                Arguments.of(
                        "handling", withScheme(surchargeBook(), "boughtOutHandlingPercent", 12.5)),
                Arguments.of(
                        "minimum order",
                        withScheme(
                                surchargeBook(),
                                "minimumOrder",
                                Map.of("amount", "1000.00", "currency", "EUR"))));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("books")
    void showsTheStoredPriceOfEveryQuantityToTheCent(String name, ShopBook book) {
        for (TakeOff takeOff : takeOffs()) {
            QuoteDocument quote = quote(book, takeOff);
            OpenedWorkbook opened = open(quote, book);
            for (ForQuantity stored : quote.items().get(0).estimate().quantities()) {
                opened.type(FIRST_ITEM, "Quantity to price", stored.quantity()).calculate();

                assertShows(opened, stored);
                assertThat(opened.words("item_1_check")).startsWith("Matches the stored revision");
            }
        }
    }

    @Test
    void anOutlineIsCalledByItsLengthItsStretchesAndItsCorners() {
        QuoteDocument quote = quote(surchargeBook(), Situations.bow());
        Estimate.Line line = quote.items().get(0).estimate().operations().get(0);
        OpenedWorkbook opened = open(quote, surchargeBook());

        Row row =
                opened.labelled(
                        FIRST_ITEM, "Bow 1: Follow an outline, 780\u00a0mm, 2 stretches, 1 corner");
        assertThat(row.getCell(1).getStringCellValue())
                .contains("Steel shrinker, Steel stretcher, ");
        assertThat(row.getCell(7).getNumericCellValue()).isEqualTo(line.machineMinutes());
        assertThat(String.join("\n", opened.texts(FIRST_ITEM)))
                .contains("The outline has 1 corner under a radius of 10\u00a0mm");
    }

    @Test
    void ownMinutesStandBelowTheComputedOnesWithTheirReason() {
        TakeOff own =
                takeOff(
                        """
                        {"title":"Arc","parts":[{"name":"Arc","grade":"AL99.5-O","thicknessMm":2,
                          "blank":{"lengthMm":700,"widthMm":80},
                          "operations":[{"type":"curve-edge","sense":"shrink","lengthMm":600,
                            "radiusMm":400,"heightMm":30,
                            "override":{"minutes":45.5,"reason":"Like the last one"}}]}]}
                        """);
        QuoteDocument quote = quote(simpleBook(), own);
        Estimate.Line line = quote.items().get(0).estimate().operations().get(0);
        OpenedWorkbook opened = open(quote, simpleBook());

        Row computed = opened.labelled(FIRST_ITEM, "Arc 1: Curve an edge");
        Row counting = opened.labelled(FIRST_ITEM, "Own minutes, which count instead");
        assertThat(counting.getRowNum()).isEqualTo(computed.getRowNum() + 1);
        assertThat(computed.getCell(7).getNumericCellValue()).isEqualTo(line.machineMinutes());
        assertThat(counting.getCell(7).getNumericCellValue()).isEqualTo(45.5);
        assertThat(counting.getCell(1).getStringCellValue()).isEqualTo("Like the last one");
        assertThat(opened.calculate().words("item_1_check")).startsWith("Matches");
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("books")
    void stepsInWholeCentsAreThoseOfTheEstimate(String name, ShopBook book) {
        boolean surcharge = !simple(book);
        for (TakeOff takeOff : takeOffs()) {
            QuoteDocument quote = quote(book, takeOff);
            OpenedWorkbook opened = open(quote, book);
            Estimate.Cost cost = quote.items().get(0).main().cost();
            Estimate.Price price = quote.items().get(0).main().price();

            shows(opened, "Material", cost.material());
            shows(
                    opened,
                    surcharge ? "Material overhead" : "Mark-up on material",
                    cost.materialOverhead());
            shows(opened, "Labour", cost.labour());
            shows(opened, "Machine", cost.machine());
            shows(opened, "Special direct cost", cost.specialDirect());
            shows(opened, "Total cost", cost.total());
            shows(opened, "Profit", price.profit());
            shows(opened, "Urgency", price.urgency());
            shows(opened, "Before discounts", price.beforeDiscounts());
            shows(opened, "Up to the minimum order", price.minimumOrder());
            shows(opened, "Rounding within the offer", price.rounding());
            if (surcharge) {
                shows(opened, "Production overhead", cost.productionOverhead());
                shows(opened, "Manufacturing cost", cost.manufacturing());
                shows(opened, "Administration", cost.administration());
                shows(opened, "Sales", cost.sales());
                shows(opened, "Settlement discount", price.settlementDiscount());
                shows(opened, "Commission", price.commission());
                shows(opened, "Trade discount", price.tradeDiscount());
            }
        }
    }

    /** Each change is typed into the sheet and made in the shop book; both must say the same. */
    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void followsRatesAndPercentagesAsTheEstimateItselfWould(long seed) {
        Random random = new Random(seed);
        ShopBook book = random.nextBoolean() ? surchargeBook() : simpleBook();
        boolean surcharge = !simple(book);
        List<TakeOff> byTheScheme =
                takeOffs().stream().filter(t -> t.urgencyPercent() == null).toList();
        TakeOff takeOff = byTheScheme.get(random.nextInt(byTheScheme.size()));
        QuoteDocument quote = quote(book, takeOff);
        OpenedWorkbook opened = open(quote, book);
        ShopBook changed = book;
        for (Estimate.AtCentre at : quote.items().get(0).main().workCentres()) {
            for (String what : List.of("labour", "machine")) {
                String rate = BigDecimal.valueOf(random.nextInt(9_000), 2).toPlainString();
                changed = withRate(changed, at.workCentre(), what + "Rate", rate);
                opened.type(FIRST_ITEM, at.workCentre() + ", " + what, Double.parseDouble(rate));
            }
        }
        for (Percentage percentage : Percentage.values()) {
            if (surcharge || percentage.isAlsoSimple()) {
                double percent = random.nextInt(300) / 10.0;
                changed = withScheme(changed, percentage.figure() + "Percent", percent);
                opened.type(FIRST_ITEM, percentage.label(surcharge) + ", %", percent);
            }
        }
        for (ForQuantity expected : Estimating.estimate(takeOff, changed).quantities()) {
            opened.type(FIRST_ITEM, "Quantity to price", expected.quantity()).calculate();

            assertShows(opened, expected);
            assertThat(opened.words("item_1_check")).startsWith("No longer the stored revision");
        }
    }

    static LongStream seeds() {
        return LongStream.range(20260302L, 20260326L);
    }

    @Test
    void spreadAndChanceOfLossStandAsValuesBesideLivePrices() {
        Estimate estimate = SpreadByHand.spread(0.07);
        PricedItem item = new PricedItem(1, "Frame", false, roundFrame(), estimate, List.of());
        OpenedWorkbook opened = open(quote(item), SpreadByHand.BOOK).calculate();

        assertThat(opened.words("item_1_check")).startsWith("Matches the stored revision");
        Row hours = opened.labelled(FIRST_ITEM, "Hours, P80");
        assertThat(hours.getCell(4).getCellType()).isEqualTo(CellType.NUMERIC);
        assertThat(hours.getCell(4).getNumericCellValue()).isEqualTo(7.5);
        assertThat(opened.labelled(FIRST_ITEM, "Cost, mean").getCell(5).getNumericCellValue())
                .isEqualTo(420.0);
        assertThat(opened.chosen(FIRST_ITEM, "Chance of loss, %")).isEqualByComparingTo("7");
        Estimate.Price price = item.main().price();
        assertThat(opened.chosen(FIRST_ITEM, "Net price"))
                .isEqualByComparingTo(
                        price.offer()
                                .minus(price.settlementDiscount())
                                .minus(price.commission())
                                .minus(price.tradeDiscount())
                                .amount());
    }

    @Test
    void theFinalCheckOfEveryQuantityIsSaidInWords() {
        TakeOff sampled =
                takeOff(
                        """
                        {"title":"Gusset","quantities":[8,60],"parts":[{"name":"Gusset",
                          "grade":"DC04","thicknessMm":2,"blank":{"lengthMm":120,"widthMm":80},
                          "operations":[{"type":"standard","standard":"Final check, size",
                            "amount":4}]}]}
                        """);

        assertThat(open(quote(Guard.BOOK, sampled), Guard.BOOK).texts(FIRST_ITEM))
                .contains(
                        "Final check",
                        "Check all 8; put right or replace each faulty one.",
                        "Check 20 of 60; accept with 1 faulty, reject with 2.");
    }

    @Test
    void estimatesWithoutSpreadHaveNoRowsOfIt() {
        PricedItem item =
                new PricedItem(
                        1,
                        "Frame",
                        false,
                        roundFrame(),
                        SpreadByHand.plain(roundFrame()),
                        List.of());
        assertThat(open(quote(item), SpreadByHand.BOOK).texts(FIRST_ITEM))
                .doesNotContain("How it may turn out", "Chance of loss, %");
    }

    /** Of stock sheets by the sheet with breaks, by the kg less kept offcuts, and by mass. */
    @Test
    void metalIsReckonedAgainFromItsAmountAndPrice() {
        for (ShopBook book : Situations.booksOfMetal()) {
            QuoteDocument quote = quote(book, roundFrame());
            OpenedWorkbook opened = open(quote, book);
            for (ForQuantity stored : quote.items().get(0).estimate().quantities()) {
                opened.type(FIRST_ITEM, "Quantity to price", stored.quantity()).calculate();
                assertShows(opened, stored);
                assertThat(opened.chosen(FIRST_ITEM, "Material"))
                        .isEqualTo(stored.cost().material().amount());
            }
            assertThat(opened.labelled(FIRST_ITEM, "Material").getCell(4).getCellType())
                    .isEqualTo(CellType.FORMULA);
        }
    }

    @Test
    void whatIsKeptOfASheetIsSaidAndNotPaidFor() {
        ShopBook keeps = Situations.booksOfMetal().get(3);
        assertThat(open(quote(keeps, roundFrame()), keeps).texts(FIRST_ITEM))
                .anyMatch(text -> text.endsWith(", share kept"))
                .contains("metal × price × (1 − share kept)");
    }

    @Test
    void followsAnotherPriceOfTheMetal() {
        ShopBook book = surchargeBook();
        ShopBook dearer = Situations.withMetalPrice(book, "STEEL-DC", "2.61");
        OpenedWorkbook opened = open(quote(book, roundFrame()), book);

        opened.type(FIRST_ITEM, "Metal of Clip, price", 2.61);
        for (ForQuantity expected : Estimating.estimate(roundFrame(), dearer).quantities()) {
            opened.type(FIRST_ITEM, "Quantity to price", expected.quantity()).calculate();
            assertShows(opened, expected);
        }
        assertThat(opened.words("item_1_check")).startsWith("No longer the stored revision");
    }

    @Test
    void halfACentInDecimalsIsRoundedUpThoughItIsLessInBinary() {
        ShopBook book = withScheme(surchargeBook(), "roundEachTo", "0.01");
        for (String figure :
                List.of(
                        "materialOverheadPercent",
                        "profitPercent",
                        "settlementDiscountPercent",
                        "commissionPercent",
                        "tradeDiscountPercent",
                        "administrationPercent",
                        "salesPercent",
                        "productionOverheadPercent")) {
            book = withScheme(book, figure, 0);
        }
        TakeOff bought =
                Situations.takeOff(
                        """
                        {"title":"Bought","quantities":[1,2,8],"mainQuantity":8,
                         "assembly":[{"type":"standard","standard":"Free","amount":1}],
                         "extras":[{"name":"Bracket","per":"order","cost":{"amount":"8.04","currency":"EUR"}}]}
                        """);
        ShopBook free = withFreeWork(book);
        QuoteDocument quote = quote(free, bought);

        // 8.04 / 8 = 1.005, which a binary number cannot hold
        assertThat(quote.items().get(0).main().priceEach()).isEqualTo(Money.of("1.01", "EUR"));
        assertThat(open(quote, free).amount("item_1_price_each")).isEqualByComparingTo("1.01");
    }

    @Test
    void theCheckTellsMatchingOtherQuantityAndChangedApart() {
        ShopBook book = surchargeBook();
        OpenedWorkbook opened = open(quote(book, roundFrame()), book);

        assertThat(opened.words("item_1_check")).isEqualTo("Matches the stored revision.");
        assertThat(opened.words("quote_check")).isEmpty();

        opened.type(FIRST_ITEM, "Quantity to price", 5).calculate();
        assertThat(opened.words("item_1_check")).contains("at another quantity than its main one");
        assertThat(opened.words("quote_check")).contains("other quantities");

        opened.type(FIRST_ITEM, "Quantity to price", 2)
                .type(FIRST_ITEM, "Commission, %", 1.51)
                .calculate();
        assertThat(opened.words("item_1_check")).startsWith("No longer the stored revision");
        assertThat(opened.words("quote_check")).startsWith("Changed");

        opened.type(FIRST_ITEM, "Commission, %", 1.5).calculate();
        assertThat(opened.words("item_1_check")).isEqualTo("Matches the stored revision.");
    }

    @Test
    void aChangedInputThatMovesNoPriceIsStillNoticed() {
        ShopBook book = simpleBook();
        QuoteDocument quote = quote(book, foldedTray());
        OpenedWorkbook opened = open(quote, book);

        opened.type(FIRST_ITEM, "Mark-up on material, %", 50).calculate();

        assertThat(opened.amount("quote_net")).isEqualTo(quote.total().net().amount());
        assertThat(opened.words("item_1_check")).startsWith("No longer the stored revision");
    }

    @Test
    void sharesThatLeaveNothingOfThePriceGiveNoPrice() {
        ShopBook book = surchargeBook();
        OpenedWorkbook opened = open(quote(book, bowl()), book);

        opened.type(FIRST_ITEM, "Settlement discount, %", 60)
                .type(FIRST_ITEM, "Commission, %", 45)
                .calculate();

        assertThat(opened.isError("quote_net")).isTrue();
    }

    @Test
    void onlyEstimatedQuantitiesMayBeChosen() {
        ShopBook book = surchargeBook();
        OpenedWorkbook opened = open(quote(book, roundFrame()), book);
        int row = opened.labelled(FIRST_ITEM, "Quantity to price").getRowNum();
        DataValidation rule =
                opened.book().getSheetAt(FIRST_ITEM).getDataValidations().stream()
                        .filter(
                                v ->
                                        v.getRegions()
                                                .getCellRangeAddress(0)
                                                .isInRange(row, Grid.CHOSEN))
                        .findFirst()
                        .orElseThrow();

        assertThat(rule.getErrorStyle()).isEqualTo(DataValidation.ErrorStyle.STOP);
        assertThat(numbersIn(opened, rule.getValidationConstraint().getFormula1()))
                .containsExactly(1.0, 2.0, 5.0, 12.0);

        opened.type(FIRST_ITEM, "Quantity to price", 3).calculate();
        assertThat(opened.words("item_1_check")).startsWith("No price");
        assertThat(opened.isError("quote_net")).isTrue();
        assertThat(opened.words("quote_check")).contains("no price");
    }

    @Test
    void theTotalAddsTheItemsAndLeavesOptionsApart() {
        ShopBook book = surchargeBook();
        PricedItem frame = item(1, false, roundFrame(), book);
        PricedItem bowl = item(2, true, bowl(), book);
        PricedItem tray = item(3, false, foldedTray(), book);
        QuoteDocument quote = quote(frame, bowl, tray);
        OpenedWorkbook opened = open(quote, book);

        Money net = frame.main().price().offer().plus(tray.main().price().offer());
        assertThat(quote.total().net()).isEqualTo(net);
        assertThat(opened.amount("quote_net")).isEqualTo(net.amount());
        assertThat(opened.amount("quote_tax")).isEqualTo(quote.total().tax().amount());
        assertThat(opened.amount("quote_with_tax")).isEqualTo(quote.total().withTax().amount());
        assertThat(opened.texts(CUSTOMER))
                .contains("Options, not in the total, before tax", "Bowl");
    }

    @Test
    void laterItemsFollowTheRatesOfTheFirstUntilTypedOver() {
        ShopBook book = surchargeBook();
        TakeOff cover = galvanisedCover();
        OpenedWorkbook opened = open(quote(book, roundFrame(), cover), book);
        ShopBook dearer = withRate(book, "Cutting", "labourRate", "50.00");

        opened.type(FIRST_ITEM, "Cutting, labour", 50).calculate();
        assertThat(opened.amount("item_2_offer"))
                .isEqualTo(item(2, false, cover, dearer).main().price().offer().amount());

        opened.type(SECOND_ITEM, "Cutting, labour", 38.5).calculate();
        assertThat(opened.amount("item_2_offer"))
                .isEqualTo(item(2, false, cover, book).main().price().offer().amount());
        assertThat(opened.words("item_2_check")).isEqualTo("Matches the stored revision.");
        assertThat(opened.words("quote_check")).startsWith("Changed");
    }

    /** An item's own urgency follows no item before it, and the next one not it. */
    @Test
    void urgencyOfOneItemIsItsOwn() {
        ShopBook book = withScheme(surchargeBook(), "urgencyPercent", 5);
        QuoteDocument quote = quote(book, foldedTray(), Situations.hurriedBracket(), foldedTray());
        OpenedWorkbook opened = open(quote, book).calculate();

        for (int i = 0; i < 3; i++) {
            assertThat(opened.amount("item_" + (i + 1) + "_offer"))
                    .isEqualTo(quote.items().get(i).main().price().offer().amount());
        }
    }

    @Test
    void theCustomerSheetShowsTheTitleBlockAndNoCost() {
        ShopBook book = surchargeBook();
        QuoteDocument quote = quote(book, roundFrame(), galvanisedCover());
        List<String> texts = open(quote, book).texts(CUSTOMER);

        assertThat(texts)
                .contains(
                        "Quillmoor Sheet & Form",
                        "Identification number",
                        "Q-2026-0007",
                        "Revision",
                        "Date of issue",
                        "2 Mar 2026",
                        "Title",
                        "Round sign frame",
                        "Created by",
                        "Evie Stimator",
                        "Approved by",
                        "Otto Wner",
                        "Harbour Theatre Workshop",
                        "Quay Road 4",
                        "Tax, 19 %");
        assertThat(String.join("\n", texts).toLowerCase(Locale.ROOT))
                .doesNotContain(
                        "cost", "labour", " rate", "profit", "overhead", "commission", "hour");
        Estimate.Cost cost = quote.items().get(0).main().cost();
        for (Money money :
                List.of(cost.labour(), cost.machine(), cost.manufacturing(), cost.total())) {
            assertThat(texts).doesNotContain(money.amount().toPlainString());
        }
    }

    @Test
    void operationsAreListedWithPassesAndStrokes() {
        ShopBook book = surchargeBook();
        QuoteDocument quote = quote(book, roundFrame());
        Row row = open(quote, book).labelled(FIRST_ITEM, "Rim 2: Curve an edge");
        Estimate.Line line = quote.items().get(0).estimate().operations().get(1);

        assertThat(row.getCell(1).getStringCellValue()).isEqualTo("Soft shrinker, Big one");
        assertThat(row.getCell(2).getStringCellValue()).isEqualTo("12");
        assertThat(row.getCell(5).getNumericCellValue()).isEqualTo(5278.0);
        assertThat(row.getCell(7).getNumericCellValue()).isEqualTo(line.machineMinutes());
    }

    @Test
    void whatCannotBeMadeIsSaidOnBothSheets() {
        ShopBook book = surchargeBook();
        OpenedWorkbook opened = open(quote(book, Situations.tooThick()), book);

        assertThat(opened.texts(CUSTOMER)).anyMatch(text -> text.startsWith("No offer"));
        assertThat(opened.texts(FIRST_ITEM)).anyMatch(text -> text.startsWith("Not possible: "));
    }

    @Test
    void nothingTypedBecomesAFormulaAndNoFormulaFails() {
        ShopBook book = surchargeBook();
        TakeOff frame = roundFrame();
        PricedItem nasty =
                new PricedItem(
                        1,
                        "=HYPERLINK(\"x\")",
                        false,
                        frame,
                        Estimating.estimate(frame, book),
                        List.of());
        OpenedWorkbook opened = open(quote(nasty), book);
        int quoted = 0;
        for (Sheet sheet : opened.book()) {
            for (Row row : sheet) {
                for (Cell cell : row) {
                    if (cell.getCellType() == CellType.FORMULA) {
                        assertThat(cell.getCellFormula()).doesNotContain("HYPERLINK(\"", "Hinge");
                        assertThat(cell.getCachedFormulaResultType()).isNotEqualTo(CellType.ERROR);
                    } else if (cell.getCellType() == CellType.STRING
                            && cell.getStringCellValue().startsWith("=")) {
                        assertThat(cell.getCellStyle().getQuotePrefixed()).isTrue();
                        quoted++;
                    }
                }
            }
        }
        assertThat(quoted).isGreaterThanOrEqualTo(3);
        assertThat(opened.book().isMacroEnabled()).isFalse();
    }

    private static ShopBook withFreeWork(ShopBook book) {
        ObjectNode tree = Situations.JSON.valueToTree(book);
        ((ArrayNode) tree.get("standards"))
                .add(
                        Situations.JSON.readTree(
                                """
                                {"name":"Free","workCentre":"Bench","minutesPerUnit":0,"unit":"order","origin":"for this test"}
                                """));
        return Situations.JSON.treeToValue(tree, ShopBook.class);
    }

    private static boolean simple(ShopBook book) {
        return book.priceScheme().kind() == PriceScheme.Kind.SIMPLE;
    }

    private static OpenedWorkbook open(QuoteDocument quote, ShopBook book) {
        return new OpenedWorkbook(
                QuoteWorkbook.of(
                        quote,
                        new Stationery("Quillmoor Sheet & Form", Letterhead.unsaid(), null),
                        book,
                        Instant.parse("2026-03-02T10:00:00Z")));
    }

    private static void shows(OpenedWorkbook opened, String label, Money expected) {
        assertThat(opened.chosen(FIRST_ITEM, label))
                .as(label)
                .isEqualByComparingTo(expected.amount());
    }

    private static void assertShows(OpenedWorkbook opened, ForQuantity expected) {
        assertThat(opened.amount("item_1_price_each"))
                .isEqualByComparingTo(expected.priceEach().amount());
        assertThat(opened.amount("item_1_offer")).isEqualTo(expected.price().offer().amount());
        assertThat(opened.amount("quote_net")).isEqualTo(expected.price().offer().amount());
        assertThat(opened.amount("quote_tax")).isEqualTo(expected.price().tax().amount());
        assertThat(opened.amount("quote_with_tax")).isEqualTo(expected.price().withTax().amount());
    }

    private static List<Double> numbersIn(OpenedWorkbook opened, String range) {
        AreaReference area = new AreaReference(range, opened.book().getSpreadsheetVersion());
        return Stream.of(area.getAllReferencedCells())
                .map(
                        ref ->
                                opened.book()
                                        .getSheet(ref.getSheetName())
                                        .getRow(ref.getRow())
                                        .getCell(ref.getCol())
                                        .getNumericCellValue())
                .toList();
    }
}
