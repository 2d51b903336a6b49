package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static strokewright.quote.Quoted.item;
import static strokewright.quote.Quoted.quote;
import static strokewright.takeoff.Situations.bowl;
import static strokewright.takeoff.Situations.hurriedBracket;
import static strokewright.takeoff.Situations.roundFrame;
import static strokewright.takeoff.Situations.surchargeBook;

import java.text.NumberFormat;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import strokewright.OpenedPdf;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.estimate.ShopBook;
import strokewright.quantity.Fault;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.web.Problem;

class OrderPaperTest {

    private static final ShopBook BOOK = surchargeBook();
    private static final LocalDate DAY = LocalDate.of(2026, 3, 9);
    private static final Stationery PLAIN =
            new Stationery("Quillmoor Sheet & Form", Letterhead.unsaid(), null);

    /** Five frames of those that were priced, and the option; the bowl was not ordered. */
    private static final Order ORDER = order(List.of(new Order.Line(1, 5), new Order.Line(3, 4)));

    @Test
    void confirmsWhatWasOrderedAtThePricesOfItsQuantities() {
        QuoteDocument quote = ordered(ORDER);
        String text = text(OrderPaper.confirmation(quote, PLAIN, BOOK));
        ForQuantity frames = quote.items().get(0).at(5).orElseThrow();
        ForQuantity brackets = quote.items().get(2).at(4).orElseThrow();

        assertThat(text)
                .contains(
                        "Order confirmation",
                        "Identification number\nQ-2026-0007",
                        "Your order\nP-4711, 9 Mar 2026",
                        "Approved by\nOlive Ffice",
                        "Thank you for your order P-4711 of 9 Mar 2026.",
                        "1 Round sign frame 5 "
                                + shown(frames.priceEach())
                                + " "
                                + shown(frames.price().offer()),
                        "3 Bracket 4 "
                                + shown(brackets.priceEach())
                                + " "
                                + shown(brackets.price().offer()),
                        "Total before tax " + shown(ORDER.total().net()),
                        "Total with tax " + shown(ORDER.total().withTax()))
                .doesNotContain("Bowl");
        assertThat(ORDER.total().net())
                .isEqualTo(frames.price().offer().plus(brackets.price().offer()));
        assertThat(text.toLowerCase(Locale.ROOT))
                .doesNotContain("hour", "overhead", "profit", "cost", "labour", "rate");
    }

    @Test
    void aDeliveryNoteHasQuantitiesAndMassesAndNoPrice() {
        String text = text(note(Delivering.ALL));

        assertThat(text)
                .contains(
                        "Delivery note",
                        "Identification number\nQ-2026-0007-D1",
                        "Date\n11 Mar 2026",
                        "Created by\nOlive Ffice",
                        "All that was ordered goes out with this note.",
                        "Received in full and undamaged: date, name, signature")
                .doesNotContainPattern("\\d[.,]\\d\\d\\b(?! *kg)[^\\n]*EUR")
                .doesNotContain("EUR", "price", "Tax", "Total", "€");
        for (PricedItem item : ordered(ORDER).items()) {
            for (ForQuantity q : item.estimate().quantities()) {
                assertThat(text)
                        .doesNotContain(shown(q.priceEach()))
                        .doesNotContain(shown(q.price().offer()));
            }
        }
    }

    /** Rim as stated 1.27 kg; three clips of 300 × 40 × 1.5 mm of steel, 7850 kg/m³. */
    @Test
    void massIsThatOfAllPartsOfAnItem() {
        double each = 1.27 + 3 * 0.300 * 0.040 * 0.0015 * 7850;
        double bracket = 0.200 * 0.080 * 0.0015 * 7850;

        assertThat(text(note(Delivering.ALL)))
                .contains(
                        "1 Round sign frame 5 5 %s %s"
                                .formatted(PLAIN.mass(each), PLAIN.mass(5 * each)),
                        "3 Bracket 4 4 %s %s"
                                .formatted(PLAIN.mass(bracket), PLAIN.mass(4 * bracket)),
                        "Together, without packing " + PLAIN.mass(5 * each + 4 * bracket));
        assertThat(each).isBetween(1.69, 1.70);
        assertThat(PLAIN.mass(each)).isEqualTo("1.69");
        assertThat(PLAIN.mass(0.9)).isEqualTo("0.90");
    }

    @Test
    void aPartOfTheOrderGoesOutUnderItsOwnNumber() {
        Delivering part =
                new Delivering(2, LocalDate.of(2026, 4, 1), List.of(new Delivering.Item(1, 3)));

        assertThat(text(note(part)))
                .contains(
                        "Identification number\nQ-2026-0007-D2",
                        "Date\n1 Apr 2026",
                        "Part of the order goes out with this note.",
                        "1 Round sign frame 5 3 ")
                .doesNotContain("Bracket");
    }

    @ParameterizedTest
    @CsvSource({
        "1, 6, /items/0/quantity",
        "1, 0, /items/0/quantity",
        "1, -1, /items/0/quantity",
        "2, 1, /items/0/position",
        "9, 1, /items/0/position"
    })
    void moreThanWasOrderedDoesNotGoOut(int position, int quantity, String pointer) {
        Delivering wrong =
                new Delivering(null, null, List.of(new Delivering.Item(position, quantity)));

        assertThatThrownBy(() -> note(wrong))
                .isInstanceOfSatisfying(
                        InvalidInput.class,
                        e ->
                                assertThat(e.faults())
                                        .extracting(Fault::pointer)
                                        .containsExactly(pointer));
    }

    @Test
    void whatWasNotOrderedIsNeitherConfirmedNorDelivered() {
        QuoteDocument issued = quote(item(1, false, roundFrame(), BOOK));

        assertThatThrownBy(() -> OrderPaper.confirmation(issued, PLAIN, BOOK))
                .isInstanceOf(Problem.class);
        assertThatThrownBy(
                        () ->
                                OrderPaper.deliveryNote(
                                        issued, Delivering.ALL, DAY, "Olive", PLAIN, BOOK))
                .isInstanceOf(Problem.class);
    }

    @Test
    void heavyAndLongPiecesCallUpTheirCaution() {
        assertThat(text(note(Delivering.ALL)))
                .contains("wear cut-resistant gloves")
                .contains("From 15 kg or 1.5 m ask for help."); // the rim's blank is 1.95 m long
        assertThat(text(note(new Delivering(null, null, List.of(new Delivering.Item(3, 1))))))
                .contains("wear cut-resistant gloves")
                .doesNotContain("ask for help");
    }

    @Test
    void goodsGoToTheDeliveryAddressAndThePapersToTheCustomer() {
        QuoteDocument quote = ordered(ORDER);

        assertThat(text(OrderPaper.confirmation(quote, PLAIN, BOOK)))
                .contains("Harbour Theatre Workshop\nQuay Road 4\nQuillmoor");
        assertThat(text(note(Delivering.ALL)))
                .contains("Harbour Theatre Workshop\nStage door\nQuay Road 6");
    }

    private static byte[] note(Delivering delivering) {
        return OrderPaper.deliveryNote(
                ordered(ORDER), delivering, LocalDate.of(2026, 3, 11), "Olive Ffice", PLAIN, BOOK);
    }

    private static Order order(List<Order.Line> lines) {
        return new Order("P-4711", lines, null, Order.total(items(), lines));
    }

    private static List<PricedItem> items() {
        return List.of(
                item(1, false, roundFrame(), BOOK),
                item(2, false, bowl(), BOOK),
                item(3, true, hurriedBracket(), BOOK));
    }

    private static QuoteDocument ordered(Order order) {
        QuoteDocument quote = quote(items().toArray(PricedItem[]::new));
        return new QuoteDocument(
                quote.number(),
                quote.revision(),
                State.ACCEPTED,
                quote.date(),
                quote.title(),
                new QuoteDocument.Addressee(
                        quote.customer().id(),
                        quote.customer().name(),
                        quote.customer().address(),
                        "Stage door\nQuay Road 6",
                        null),
                quote.createdBy(),
                quote.approvedBy(),
                quote.shopBookEdition(),
                quote.methodVersion(),
                quote.feasible(),
                quote.items(),
                quote.total(),
                null,
                quote.terms(),
                new Outcome(Outcome.Kind.ACCEPTED, DAY, null, null, null, order),
                "Olive Ffice",
                null,
                null);
    }

    private static String shown(Money money) {
        NumberFormat format = NumberFormat.getNumberInstance(Locale.UK);
        format.setMinimumFractionDigits(2);
        return format.format(money.amount());
    }

    private static String text(byte[] pdf) {
        try (OpenedPdf opened = new OpenedPdf(pdf)) {
            assertThat(opened.fonts()).isNotEmpty().allMatch(OpenedPdf.Font::embedded);
            assertThat(opened.isTagged()).isTrue();
            return opened.text();
        }
    }
}
