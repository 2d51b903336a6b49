package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.takeoff.Situations.roundFrame;
import static strokewright.takeoff.Situations.surchargeBook;
import static strokewright.takeoff.Situations.tooThick;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.PrintSetup;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import strokewright.estimate.ShopBook;

/** What goes out to the customer, and that every sheet is fit to be printed. */
class CustomerSheetTest {

    private static final int CUSTOMER = 0;

    private static final Terms TERMS =
            new Terms(
                    LocalDate.of(2026, 4, 1),
                    "RFQ 4471/26",
                    new TaxRule(TaxRule.Kind.REVERSE_CHARGE, null, "Section 13b."),
                    new Payment(14, 2.0, 7, null, List.of()),
                    15,
                    new Delivery(Delivery.Kind.DELIVERED, "Dock 3\nQuillmoor"),
                    "A lift of yours.",
                    List.of("Drawing 7 holds.", "-1 day is no lead time"),
                    List.of("Paint", "+scaffold"),
                    "Price of 1 March.",
                    "=HYPERLINK(\"x\")\n@second");

    @Test
    void saysWhatThePaperSays() {
        ShopBook book = TERMS.applied(surchargeBook());
        QuoteDocument quote =
                WorkbookFollowsTest.quote(TERMS, Quoted.item(1, false, roundFrame(), book));
        QuotePaper paper = new QuotePaper(quote, stationery("a4", "en-IE"), book);
        OpenedWorkbook opened = open(quote, stationery("a4", "en-IE"));
        List<String> texts = opened.texts(CUSTOMER);

        QuotePaper.View view = paper.view();
        assertThat(view.terms()).hasSizeGreaterThan(6);
        view.terms().forEach(term -> assertThat(texts).contains(term.name() + ": " + term.value()));
        assertThat(texts)
                .containsAll(view.assumptions())
                .containsAll(view.exclusions())
                .containsAll(view.remarks())
                .containsAll(view.conditions())
                .containsAll(view.included().get(0).lines())
                .contains(view.limits(), "RFQ 4471/26", "Dora Wren", "Tax", "2 Mar 2026");
        assertThat(String.join("\n", texts))
                .contains("Tel. 01 22", "Bank of Quillmoor", "Tax no. QM 1");
        assertThat(opened.amount("quote_tax")).isEqualByComparingTo("0");
    }

    @Test
    void noTextIsAFormulaWhateverItBeginsWith() {
        ShopBook book = TERMS.applied(surchargeBook());
        QuoteDocument quote =
                WorkbookFollowsTest.quote(TERMS, Quoted.item(1, false, roundFrame(), book));
        int marked = 0;
        for (Row row : open(quote, stationery("a4", "en-IE")).book().getSheetAt(CUSTOMER)) {
            for (Cell cell : row) {
                String text = cell.toString();
                if (text.startsWith("=H") || text.startsWith("@s") || text.startsWith("+sc")) {
                    assertThat(cell.getCellStyle().getQuotePrefixed()).isTrue();
                    marked++;
                }
            }
        }
        assertThat(marked).isEqualTo(3);
    }

    @ParameterizedTest
    @CsvSource({"a4, en-IE", "letter, en-US", "a4, de-DE", "a4, ja-JP"})
    void everySheetIsSetForThePaperOfTheLetterhead(String paper, String locale) {
        QuoteDocument quote = Quoted.quote(surchargeBook(), roundFrame());
        OpenedWorkbook opened = open(quote, stationery(paper, locale));

        assertThat(opened.book().getNumberOfSheets()).isEqualTo(4);
        for (Sheet sheet : opened.book()) {
            assertThat(sheet.getPrintSetup().getPaperSize())
                    .isEqualTo(
                            paper.equals("a4")
                                    ? PrintSetup.A4_PAPERSIZE
                                    : PrintSetup.LETTER_PAPERSIZE);
            assertThat(sheet.getPaneInformation().isFreezePane()).isTrue();
            assertThat(sheet.getRepeatingRows()).isNotNull();
            assertThat(sheet.getFitToPage()).isTrue();
            int index = opened.book().getSheetIndex(sheet);
            assertThat(opened.book().getPrintArea(index)).isNotNull();
        }
        assertThat(opened.texts(CUSTOMER))
                .contains(
                        switch (locale) {
                            case "en-US" -> "Mar 2, 2026";
                            case "de-DE" -> "02.03.2026";
                            case "ja-JP" -> "2026/03/02";
                            default -> "2 Mar 2026";
                        });
    }

    @Test
    void whatCannotBeMadeHasNoPriceAndTheQuoteNoTotal() {
        ShopBook book = surchargeBook();
        QuoteDocument quote =
                Quoted.quote(
                        Quoted.item(1, false, roundFrame(), book),
                        Quoted.item(2, false, tooThick(), book));
        OpenedWorkbook opened = open(quote, stationery("a4", "en-IE"));

        assertThat(opened.texts(CUSTOMER))
                .contains(QuotePaper.NO_PRICE)
                .doesNotContain("Total before tax", "Total with tax");
        assertThat(opened.book().getName("quote_net")).isNull();
    }

    @Test
    void passPlanAndReasonsStandOnSheetsOfTheirOwn() {
        QuoteDocument quote = Quoted.quote(surchargeBook(), roundFrame());
        OpenedWorkbook opened = open(quote, stationery("a4", "en-IE"));

        List<String> passes = opened.texts(2);
        assertThat(opened.book().getSheetName(2)).isEqualTo("Pass plan");
        assertThat(passes)
                .contains(
                        "Rim 2: Curve an edge", "put in", "at the edge", "12", "5,278", "Cautions");
        assertThat(passes).noneMatch(text -> text.contains("EUR"));
        int figures =
                quote.items().get(0).estimate().quantities().stream()
                                .mapToInt(q -> q.why().size())
                                .sum()
                        + quote.items().get(0).estimate().operations().stream()
                                .mapToInt(line -> line.why().size())
                                .sum();
        assertThat(opened.book().getSheetName(3)).isEqualTo("Why");
        assertThat(opened.book().getSheetAt(3).getLastRowNum()).isEqualTo(2 + figures);
    }

    private static Stationery stationery(String paper, String locale) {
        return new Stationery(
                "Quillmoor Sheet & Form",
                new Letterhead(
                        null,
                        "Mill Lane 7\nQuillmoor",
                        "01 22",
                        null,
                        null,
                        "QM 1",
                        List.of("Bank of Quillmoor"),
                        paper.equals("a4") ? Letterhead.Paper.A4 : Letterhead.Paper.LETTER,
                        locale,
                        30,
                        null,
                        List.of(),
                        List.of(),
                        "Our conditions of sale.",
                        null),
                null);
    }

    private static OpenedWorkbook open(QuoteDocument quote, Stationery stationery) {
        return new OpenedWorkbook(
                QuoteWorkbook.of(
                        quote, stationery, surchargeBook(), Instant.parse("2026-03-02T10:00:00Z")));
    }
}
