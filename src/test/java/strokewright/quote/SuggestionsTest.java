package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.quote.Suggestion.Kind;
import strokewright.takeoff.Situations;
import tools.jackson.databind.node.ObjectNode;

class SuggestionsTest {

    private static final ShopBook BOOK = Situations.surchargeBook();

    @ParameterizedTest
    @CsvSource({
        "phone, told on the phone",
        "sketch, rests on a sketch",
        "photo, estimated from it",
        "drawing, Made to the drawing that we were given",
        "drawing-and-template, the template counts",
        "old-part, Made after the old part",
        "repeat, Made as delivered before"
    })
    void whatStandsBehindTheQuoteIsWhatThePriceRestsOn(String information, String said) {
        assertThat(texts(quote(frame(Map.of("information", information))), Kind.ASSUMPTION))
                .anyMatch(text -> text.contains(said));
    }

    @Test
    void itemsFromDifferentInformationAreToldApart() {
        QuoteDocument quote =
                Quoted.quote(
                        BOOK,
                        frame(Map.of("title", "Frame", "information", "phone")),
                        frame(Map.of("title", "Hood", "information", "drawing")));
        assertThat(texts(quote, Kind.ASSUMPTION))
                .anyMatch(text -> text.startsWith("Frame: The price rests on"))
                .anyMatch(text -> text.startsWith("Hood: Made to the drawing"));
    }

    @Test
    void aCustomersMetalIsAssumedToComeAndIsNotIncluded() {
        QuoteDocument own = quote(Situations.takeOff(part("supply", "customer")));

        assertThat(texts(own, Kind.ASSUMPTION))
                .anyMatch(t -> t.startsWith("The customer supplies the sheet for Rim"));
        assertThat(texts(own, Kind.EXCLUSION)).contains("Metal for Rim.");
        assertThat(texts(quote(Situations.bowl()), Kind.EXCLUSION))
                .noneMatch(t -> t.startsWith("Metal"));
    }

    @Test
    void metalThatCannotBeBoughtAgainIsTheCustomersRisk() {
        assertThat(texts(quote(Situations.takeOff(part("irreplaceable", true))), Kind.ASSUMPTION))
                .anyMatch(t -> t.startsWith("Rim cannot be bought again"));
    }

    @Test
    void aDatedSheetPriceIsTheMetalPriceBasisAndAnUndatedOneIsNone() {
        assertThat(texts(quote(Situations.bowl()), Kind.METAL_PRICE_BASIS)).isEmpty();
        List<ShopBook.Sheet> dated =
                BOOK.sheets().stream()
                        .map(
                                s ->
                                        new ShopBook.Sheet(
                                                s.grade(),
                                                s.thicknessMm(),
                                                s.lengthMm(),
                                                s.widthMm(),
                                                s.pricePerKg(),
                                                s.pricePerSheet(),
                                                s.breaks(),
                                                s.grade().equals("AL99.5-O")
                                                        ? "list of 2026-02-14"
                                                        : "list of 2026-05-01"))
                        .toList();
        assertThat(
                        Suggestions.of(
                                        quote(Situations.bowl()),
                                        BOOK.withSheets(dated),
                                        Letterhead.unsaid())
                                .stream()
                                .filter(s -> s.kind() == Kind.METAL_PRICE_BASIS)
                                .map(Suggestion::text))
                .singleElement()
                .asString()
                .contains("2026-02-14");
    }

    @Test
    void boughtOutWorkIsNamedAndCoatingThatIsBoughtIsNotExcluded() {
        QuoteDocument quote = quote(Situations.roundFrame());

        assertThat(texts(quote, Kind.ASSUMPTION))
                .anyMatch(t -> t.startsWith("Powder coat and =Hinge pair: bought out"));
        assertThat(texts(quote, Kind.EXCLUSION)).noneMatch(t -> t.startsWith("Paint"));
        assertThat(texts(quote(Situations.bowl()), Kind.EXCLUSION))
                .anyMatch(t -> t.startsWith("Paint"));
    }

    @Test
    void deliveryAndFittingAreExcludedUnlessTheTermsPromiseThem() {
        QuoteDocument silent = quote(Situations.bowl());
        assertThat(texts(silent, Kind.EXCLUSION))
                .anyMatch(t -> t.startsWith("Delivery"))
                .anyMatch(t -> t.startsWith("Fitting"));

        assertThat(texts(with(silent, Delivery.Kind.DELIVERED), Kind.EXCLUSION))
                .noneMatch(t -> t.startsWith("Delivery"))
                .anyMatch(t -> t.startsWith("Fitting"));
        assertThat(texts(with(silent, Delivery.Kind.DELIVERED_AND_FITTED), Kind.EXCLUSION))
                .noneMatch(t -> t.startsWith("Delivery") || t.startsWith("Fitting"));
    }

    @Test
    void theShopsStandingSentencesComeAndWhatIsSaidAlreadyIsMarked() {
        Letterhead letterhead =
                new Letterhead(
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        List.of("Standing."),
                        List.of("Not ours.", "Not ours."),
                        null,
                        null);
        QuoteDocument quote =
                with(
                        quote(Situations.bowl()),
                        new Terms(
                                null,
                                null,
                                null,
                                null,
                                null,
                                null,
                                null,
                                List.of("Standing."),
                                List.of(),
                                null,
                                null));
        List<Suggestion> all = Suggestions.of(quote, BOOK, letterhead);

        assertThat(all)
                .filteredOn(s -> s.text().equals("Standing."))
                .singleElement()
                .matches(Suggestion::taken);
        assertThat(all)
                .filteredOn(s -> s.text().equals("Not ours."))
                .singleElement()
                .matches(s -> !s.taken() && s.kind() == Kind.EXCLUSION);
    }

    static Stream<TakeOff> takeOffs() {
        return Situations.takeOffs().stream();
    }

    @ParameterizedTest
    @MethodSource("takeOffs")
    void everySituationIsToldInWholeSentencesEachOnceAssumptionsFirst(TakeOff takeOff) {
        List<Suggestion> all = Suggestions.of(quote(takeOff), BOOK, Letterhead.unsaid());

        assertThat(all).extracting(s -> s.kind() + s.text()).doesNotHaveDuplicates();
        assertThat(all)
                .allSatisfy(
                        s -> {
                            assertThat(s.text()).endsWith(".").doesNotContain("null");
                            assertThat(s.text().length()).isLessThan(Terms.LONGEST_PROSE);
                            assertThat(s.because()).isNotBlank();
                        });
        assertThat(all).isSortedAccordingTo(java.util.Comparator.comparing(Suggestion::kind));
    }

    private static List<String> texts(QuoteDocument quote, Kind kind) {
        return Suggestions.of(quote, BOOK, Letterhead.unsaid()).stream()
                .filter(s -> s.kind() == kind)
                .map(Suggestion::text)
                .toList();
    }

    private static QuoteDocument quote(TakeOff takeOff) {
        return Quoted.quote(BOOK, takeOff);
    }

    private static TakeOff frame(Map<String, String> changes) {
        ObjectNode tree = (ObjectNode) Situations.JSON.readTree(QuotesApiTests.TAKE_OFF);
        changes.forEach(tree::put);
        return Situations.takeOff(tree.toString());
    }

    private static String part(String field, Object value) {
        ObjectNode tree = (ObjectNode) Situations.JSON.readTree(QuotesApiTests.TAKE_OFF);
        ((ObjectNode) tree.at("/parts/0")).putPOJO(field, value);
        return tree.toString();
    }

    private static QuoteDocument with(QuoteDocument quote, Delivery.Kind delivery) {
        return with(
                quote,
                new Terms(
                        null,
                        null,
                        null,
                        null,
                        null,
                        new Delivery(delivery, null),
                        null,
                        List.of(),
                        List.of(),
                        null,
                        null));
    }

    private static QuoteDocument with(QuoteDocument q, Terms terms) {
        return new QuoteDocument(
                q.number(),
                q.revision(),
                q.state(),
                q.date(),
                q.title(),
                q.customer(),
                q.createdBy(),
                q.approvedBy(),
                q.shopBookEdition(),
                q.methodVersion(),
                q.feasible(),
                q.items(),
                q.total(),
                q.contact(),
                terms,
                q.outcome(),
                q.decidedBy(),
                q.replacedBy(),
                q.job());
    }
}
