package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.quote.Quoted.item;
import static strokewright.quote.Quoted.quote;
import static strokewright.takeoff.Situations.bowl;
import static strokewright.takeoff.Situations.foldedTray;
import static strokewright.takeoff.Situations.hurriedBracket;
import static strokewright.takeoff.Situations.roundFrame;
import static strokewright.takeoff.Situations.simpleBook;
import static strokewright.takeoff.Situations.surchargeBook;
import static strokewright.takeoff.Situations.takeOffs;
import static strokewright.takeoff.Situations.tooThick;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.text.Normalizer;
import java.text.NumberFormat;
import java.time.LocalDate;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import strokewright.OpenedPdf;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.quantity.Money;
import strokewright.takeoff.Situations;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

class QuotePaperTest {

    private static final String SHOP = "Quillmoor Sheet & Form";
    private static final Stationery PLAIN = new Stationery(SHOP, Letterhead.unsaid(), null);

    @Test
    void showsTheDataFieldsOfItsTitleBlockAndWhomItIsFor() {
        String text = text(quote(surchargeBook(), roundFrame()));

        assertThat(text)
                .contains(
                        "Quote",
                        "Identification number\nQ-2026-0007",
                        "Revision\n1",
                        "Date\n2 Mar 2026",
                        "Created by\nEvie Stimator",
                        "Approved by\nOtto Wner",
                        "Title\nRound sign frame")
                .containsSubsequence(
                        SHOP, "Harbour Theatre Workshop\n", "Quay Road 4\n", "Quillmoor\n", "Pos.");
    }

    @Test
    void everyEstimatedQuantityHasItsPricesAndTheMainOneIsMarked() {
        for (ShopBook book : List.of(simpleBook(), surchargeBook())) {
            for (TakeOff takeOff : takeOffs()) {
                QuoteDocument quote = quote(book, takeOff);
                String text = text(quote);
                List<ForQuantity> quantities = quote.items().get(0).estimate().quantities();
                for (ForQuantity q : quantities) {
                    assertThat(text)
                            .as(takeOff.title())
                            .contains(figures(q.quantity(), q.priceEach(), q.price().offer()));
                }
                if (quantities.size() > 1) {
                    ForQuantity main = quote.items().get(0).main();
                    assertThat(text)
                            .containsOnlyOnce("in the total ")
                            .contains(
                                    "in the total "
                                            + figures(
                                                    main.quantity(),
                                                    main.priceEach(),
                                                    main.price().offer()));
                }
                assertThat(text)
                        .contains("Total before tax " + shown(quote.total().net()))
                        .contains("Tax, 19 % " + shown(quote.total().tax()))
                        .contains("Total with tax " + shown(quote.total().withTax()));
            }
        }
    }

    /** Every amount on the paper is a price, and no figure of the estimate's inside is on it. */
    @Test
    void nothingOfCostsRatesHoursOrProfitIsOnIt() {
        for (ShopBook book : List.of(simpleBook(), surchargeBook())) {
            QuoteDocument quote = quote(book, takeOffs().toArray(TakeOff[]::new));
            String text = text(quote);
            assertThat(amounts(text)).isSubsetOf(prices(quote)).isNotEmpty();
            assertThat(text.toLowerCase(Locale.ROOT))
                    .doesNotContain("hour", "minute", "overhead", "profit", "cost", "labour")
                    .doesNotContain("rate", "margin", "surcharge", "discount", "edition", "strokes")
                    .doesNotContain("risk", "loss", "chance", "p80");
        }
    }

    @Test
    void optionsStandApartAndAreNotInTheTotal() {
        ShopBook book = surchargeBook();
        QuoteDocument quote =
                quote(item(1, false, bowl(), book), item(2, true, hurriedBracket(), book));
        String text = text(quote);

        assertThat(text)
                .containsSubsequence("Total with tax", "Options, not in the total", "2 Bracket");
        assertThat(text)
                .contains("Total before tax " + shown(quote.items().get(0).main().price().offer()));
        assertThat(text).contains("offered " + 4 + " ");
    }

    @Test
    void aDraftSaysSoOnEveryPageAndAnIssuedOneDoesNot() {
        QuoteDocument issued = quote(surchargeBook(), roundFrame());
        try (OpenedPdf opened = opened(many(issued, 50, State.DRAFT))) {
            assertThat(opened.pages()).isGreaterThan(2);
            for (int page = 1; page <= opened.pages(); page++) {
                assertThat(opened.text(page)).contains("DRAFT");
            }
        }
        assertThat(text(many(issued, 50, State.ISSUED))).doesNotContain("DRAFT");
    }

    @Test
    void fiftyItemsGoOverPagesWithTheirHeadAndEachInOnePiece() {
        QuoteDocument quote = many(quote(surchargeBook(), roundFrame()), 50, State.ISSUED);
        try (OpenedPdf opened = opened(quote)) {
            int pages = opened.pages();
            for (int page = 1; page <= pages; page++) {
                assertThat(opened.text(page)).contains("Page " + page + " of " + pages);
            }
            for (PricedItem item : quote.items()) {
                Pattern whole =
                        Pattern.compile(
                                item.position()
                                        + " "
                                        + Pattern.quote(item.title())
                                        + "\\s+1 [^\n]*\nin the total 2 [^\n]*\n\\s*5 [^\n]*\n\\s*12 ");
                assertThat(
                                IntStream.rangeClosed(1, pages)
                                        .mapToObj(opened::text)
                                        .filter(text -> whole.matcher(text).find()))
                        .as(item.title())
                        .hasSize(1);
            }
        }
    }

    @Test
    void whatCannotBeMadeHasNoPriceAndNoTotal() {
        ShopBook book = surchargeBook();
        QuoteDocument quote =
                asOf(
                        quote(item(1, false, tooThick(), book), item(2, false, bowl(), book)),
                        State.DRAFT);
        String text = text(quote);

        assertThat(text)
                .contains("No offer: something here cannot be made as described.")
                .contains("1 Plate ring 1 no price no price")
                .contains("DRAFT")
                .doesNotContain("Total");
        assertThat(amounts(text)).containsOnly(shown(quote.items().get(1).main().priceEach()));
    }

    @Test
    void longTitlesAndNamesOfAnyAlphabetStayOnThePage() {
        String title = "Abdeckung für den Lüftungsschacht über der Bühne, ".repeat(4).strip();
        QuoteDocument plain = quote(surchargeBook(), foldedTray());
        QuoteDocument quote =
                with(
                        plain,
                        title,
                        plain.state(),
                        new QuoteDocument.Addressee(
                                plain.customer().id(),
                                "Театральная мастерская «Гавань» и партнёры, общество с ограниченной"
                                        + " ответственностью",
                                "Οδός Λιμένος 4\n10431 Αθήνα\nΕλλάδα",
                                null,
                                null));
        try (OpenedPdf opened = opened(quote)) {
            // a small mu and the sign for micro are one glyph, which reads back as the sign
            String text = Normalizer.normalize(opened.text(), Normalizer.Form.NFKC);
            assertThat(text.replaceAll("\\s+", " "))
                    .contains(title)
                    .contains("Театральная мастерская «Гавань» и партнёры, общество с ограниченной")
                    .contains("Οδός Λιμένος 4 10431 Αθήνα Ελλάδα");
            assertThat(opened.fonts()).allMatch(OpenedPdf.Font::embedded);
            assertThat(opened.title()).isEqualTo("Quote Q-2026-0007: " + title);
        }
    }

    @Test
    void saysItsTermsWhatItRestsOnAndWhatIsInItAndWhatIsNot() {
        Terms terms =
                new Terms(
                        LocalDate.of(2026, 4, 1),
                        "Inquiry 4711/26",
                        null,
                        new Payment(
                                30,
                                2.5,
                                10,
                                5.0,
                                List.of(
                                        new Payment.Stage("with the order", 40.0),
                                        new Payment.Stage("on delivery", 60.0))),
                        15,
                        new Delivery(Delivery.Kind.DELIVERED, "Stage door\nQuay Road 6"),
                        "Fixing; you provide a scaffold.",
                        List.of("The drawing is to scale."),
                        List.of("Paint.", "Electrical parts."),
                        "Aluminium as of 2 March",
                        "The template stays with you.");
        QuoteDocument quote =
                with(quote(surchargeBook(), roundFrame()), terms, "Ms Imogen Holloway", null);

        assertThat(text(quote))
                .contains(
                        "Harbour Theatre Workshop\nMs Imogen Holloway\nQuay Road 4",
                        "Your reference\nInquiry 4711/26",
                        "Valid until 1 Apr 2026",
                        "Lead time 15 working days from your order",
                        "Delivery Delivered: Stage door, Quay Road 6",
                        "Work on site Fixing; you provide a scaffold.",
                        "Payment within 30 days of the invoice; 2.5 % off when paid within 10"
                                + " days; trade discount 5 %;",
                        "60 % on delivery",
                        "Metal price Aluminium as of 2 March",
                        "The prices rest on\n– The drawing is to scale.",
                        "Included\n1. Round sign frame",
                        "Rim: Aluminium, soft, 2 mm, supplied by us; visible surface",
                        "Clip (3 each): Low-carbon steel, 1.5 mm",
                        "Work: Guillotine cut; Curve an edge; Smooth; Bend; TIG weld",
                        "Bought in: Powder coat, =Hinge pair.",
                        "Priced from a drawing.",
                        "Not included\n– Paint.",
                        "\n– Electrical parts.",
                        "Remarks\nThe template stays with you.",
                        "It says nothing about strength");
    }

    @Test
    void whatRulesProposedIsReadToBeIncludedButNotTheShopsPapers() {
        ShopBook book = surchargeBook();
        ObjectNode tree = Situations.JSON.valueToTree(book);
        ArrayNode rules = tree.putArray("proposals");
        for (String[] rule :
                new String[][] {
                    {"papers", "Bend", "before"},
                    {"weld", "TIG weld", "after"},
                    {"cut", "Guillotine cut", "after"}
                }) {
            rules.addObject()
                    .put("code", rule[0])
                    .put("when", "always")
                    .put("standard", rule[1])
                    .put("amount", "one")
                    .put("place", rule[2])
                    .put("origin", "assumed");
        }
        book = Situations.JSON.treeToValue(tree, ShopBook.class);
        TakeOff takeOff =
                Situations.takeOff(
                        """
                        {"title":"Plate","quantities":[1],"parts":[{"name":"Plate",
                         "grade":"%s","thicknessMm":2,"massKg":1,"operations":[
                          {"type":"standard","standard":"Guillotine cut","amount":4}]}]}
                        """
                                .formatted(book.grades().get(0).code()));

        byte[] paper = QuotePaper.of(quote(book, takeOff), PLAIN, book);
        String text;
        try (OpenedPdf opened = new OpenedPdf(paper)) {
            text = opened.text();
        }
        assertThat(text)
                .contains("Work: Guillotine cut.", "Also included: TIG weld.")
                .doesNotContain("Bend");
    }

    @Test
    void carriesTheLetterheadAndWritesFiguresAsItDoes() throws IOException {
        Letterhead letterhead =
                new Letterhead(
                        "Quillmoor Sheet & Form, Ltd.",
                        "Mill Lane 2\n4711 Quillmoor",
                        "+49 30 0000",
                        "office@quillmoor.example",
                        null,
                        "QM 123",
                        List.of("Moor Bank", "Account 12345"),
                        Letterhead.Paper.LETTER,
                        "de-DE",
                        14,
                        null,
                        List.of(),
                        List.of(),
                        "Goods stay ours until they are paid.",
                        null);
        QuoteDocument quote = asOf(quote(surchargeBook(), roundFrame()), State.DRAFT);
        try (OpenedPdf opened =
                new OpenedPdf(
                        QuotePaper.of(
                                quote,
                                new Stationery(SHOP, letterhead, Letterheads.Logo.of(logo())),
                                surchargeBook()))) {
            assertThat(opened.sizes()).containsOnly("216 x 279");
            assertThat(opened.pictures()).isEqualTo(1);
            assertThat(opened.author()).isEqualTo("Quillmoor Sheet & Form, Ltd.");
            assertThat(opened.text())
                    .contains(
                            "Quillmoor Sheet & Form, Ltd. · Mill Lane 2 · 4711 Quillmoor",
                            "Tel. +49 30 0000",
                            "office@quillmoor.example",
                            "Tax no. QM 123 · Moor Bank · Account 12345",
                            "Date\n02.03.2026",
                            "12 309,54 3.714,48",
                            "Tax, 19 %",
                            "Valid until 14 days from issue",
                            "Conditions\nGoods stay ours until they are paid.");
        }
    }

    @Test
    void whatIsNoLongerOfferedIsStampedOnEveryPage() {
        QuoteDocument issued = quote(surchargeBook(), roundFrame());
        assertThat(text(asOf(issued, State.WITHDRAWN))).contains("WITHDRAWN");
        assertThat(text(asOf(issued, State.LAPSED))).contains("LAPSED");
        try (OpenedPdf opened = opened(with(issued, Terms.UNSAID, null, 3))) {
            for (int page = 1; page <= opened.pages(); page++) {
                assertThat(opened.text(page)).contains("REPLACED BY REVISION 3");
            }
        }
    }

    @Test
    void whereNoTaxIsChargedItSaysWhy() {
        TaxRule rule = new TaxRule(TaxRule.Kind.REVERSE_CHARGE, null, "Paragraph 13b.");
        Terms terms =
                new Terms(
                        null,
                        null,
                        rule,
                        Payment.UNSAID,
                        null,
                        null,
                        null,
                        List.of(),
                        List.of(),
                        null,
                        null);
        assertThat(text(with(quote(surchargeBook(), bowl()), terms, null, null)))
                .contains("Tax Reverse charge: the customer owes the tax. Paragraph 13b.")
                .doesNotContain("19");
    }

    private static byte[] logo() throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ImageIO.write(new BufferedImage(300, 100, BufferedImage.TYPE_INT_ARGB), "png", out);
        return out.toByteArray();
    }

    private static QuoteDocument with(
            QuoteDocument quote, Terms terms, String contact, Integer replacedBy) {
        return new QuoteDocument(
                quote.number(),
                quote.revision(),
                quote.state(),
                quote.date(),
                quote.title(),
                quote.customer(),
                quote.createdBy(),
                quote.approvedBy(),
                quote.shopBookEdition(),
                quote.methodVersion(),
                quote.feasible(),
                quote.items(),
                quote.total(),
                contact,
                terms,
                quote.outcome(),
                quote.decidedBy(),
                replacedBy,
                quote.job());
    }

    private static QuoteDocument many(QuoteDocument quote, int items, State state) {
        PricedItem item = quote.items().get(0);
        QuoteDocument all =
                quote(
                        IntStream.rangeClosed(1, items)
                                .mapToObj(
                                        i ->
                                                new PricedItem(
                                                        i,
                                                        "Frame no. " + i,
                                                        false,
                                                        item.takeOff(),
                                                        item.estimate(),
                                                        List.of()))
                                .toArray(PricedItem[]::new));
        return asOf(all, state);
    }

    private static QuoteDocument asOf(QuoteDocument quote, State state) {
        return with(quote, quote.title(), state, quote.customer());
    }

    private static QuoteDocument with(
            QuoteDocument quote, String title, State state, QuoteDocument.Addressee customer) {
        return new QuoteDocument(
                quote.number(),
                quote.revision(),
                state,
                quote.date(),
                title,
                customer,
                quote.createdBy(),
                state == State.DRAFT ? null : quote.approvedBy(),
                quote.shopBookEdition(),
                quote.methodVersion(),
                quote.feasible(),
                quote.items(),
                quote.total(),
                quote.contact(),
                quote.terms(),
                quote.outcome(),
                quote.decidedBy(),
                quote.replacedBy(),
                quote.job());
    }

    private static Set<String> amounts(String text) {
        Set<String> found = new HashSet<>();
        Pattern.compile("\\d[\\d,]*\\.\\d\\d\\b")
                .matcher(text)
                .results()
                .map(MatchResult::group)
                .forEach(found::add);
        return found;
    }

    private static Set<String> prices(QuoteDocument quote) {
        Set<String> prices =
                new HashSet<>(
                        Set.of(
                                shown(quote.total().net()),
                                shown(quote.total().tax()),
                                shown(quote.total().withTax())));
        for (PricedItem item : quote.items()) {
            for (ForQuantity q : item.estimate().quantities()) {
                prices.add(shown(q.priceEach()));
                prices.add(shown(q.price().offer()));
            }
        }
        return prices;
    }

    private static String figures(int quantity, Money each, Money all) {
        return quantity + " " + shown(each) + " " + shown(all);
    }

    private static String shown(Money money) {
        NumberFormat format = NumberFormat.getNumberInstance(Locale.UK);
        format.setMinimumFractionDigits(2);
        return format.format(money.amount());
    }

    private static String text(QuoteDocument quote) {
        try (OpenedPdf opened = opened(quote)) {
            return opened.text();
        }
    }

    private static OpenedPdf opened(QuoteDocument quote) {
        return new OpenedPdf(QuotePaper.of(quote, PLAIN, surchargeBook()));
    }
}
