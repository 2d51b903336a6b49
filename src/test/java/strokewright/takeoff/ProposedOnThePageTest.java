package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static strokewright.takeoff.SmallShop.DE;
import static strokewright.takeoff.SmallShop.EN;
import static strokewright.takeoff.SmallShop.typed;

import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import strokewright.estimate.Operation;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.quantity.Fault;

/** Proposed lines as they are typed, kept and shown; the book of a new shop. */
class ProposedOnThePageTest {

    private static final ShopBook BOOK = Guard.BOOK;

    @Test
    void aCodeIsTakenOutAndPutBackByItsButton() {
        TypedTakeOff out = TakeOffActions.of("proposed/parts/p1 deburr").apply(arc());
        TypedTakeOff item = TakeOffActions.of("proposed pack").apply(out);

        TakeOff read = Reckoned.of(item, BOOK, EN).takeOff();
        assertThat(read.parts().get(0).leftOut()).containsExactly("deburr");
        assertThat(read.leftOut()).containsExactly("pack");
        assertThat(TakeOffActions.of("proposed/parts/p1 deburr").apply(out)).isEqualTo(arc());
    }

    @Test
    void whatWasTakenOutStaysInItsPlace() {
        List<TakeOffView.ProposedLine> before = proposed(arc());
        List<TakeOffView.ProposedLine> after =
                proposed(TakeOffActions.of("proposed/parts/p1 deburr").apply(arc()));

        assertThat(after)
                .extracting(TakeOffView.ProposedLine::code)
                .isEqualTo(before.stream().map(TakeOffView.ProposedLine::code).toList());
        assertThat(after)
                .filteredOn(TakeOffView.ProposedLine::out)
                .extracting(
                        TakeOffView.ProposedLine::standard,
                        TakeOffView.ProposedLine::amount,
                        TakeOffView.ProposedLine::unit,
                        TakeOffView.ProposedLine::minutes)
                .containsExactly(tuple("Deburr", "0.98", "m", "0.7 min each, 1.0 min once"));
    }

    @Test
    void itStaysOutWhileThePartCannotBeEstimated() {
        TypedTakeOff half =
                TakeOffActions.of("proposed/parts/p1 deburr")
                        .apply(arc())
                        .with("/parts/p1/thicknessMm", "");
        TakeOffView.ProposedView view =
                new TakeOffViews(Reckoned.of(half, BOOK, EN), BOOK, EN).told().proposed().get(0);

        assertThat(view.lines()).isEmpty();
        assertThat(view.kept())
                .extracting(TakeOffView.HiddenField::value)
                .containsExactly("deburr");
    }

    @Test
    void aCodeThatTheEditionHasNoRuleForSaysNothing() {
        TypedTakeOff typed = arc().with("/parts/p1/leftOut/c1", "an earlier rule");
        Reckoned reckoned = Reckoned.of(typed, BOOK, EN);

        assertThat(reckoned.faults()).isEmpty();
        assertThat(reckoned.takeOff().parts().get(0).leftOut()).isEmpty();
    }

    @Test
    void thatSomethingWasTakenOutMakesNoPart() {
        TypedTakeOff typed = typed("/parts/p1/name", "", "/parts/p1/leftOut/c1", "deburr");

        assertThat(Reckoned.of(typed, BOOK, EN).takeOff().parts()).isEmpty();
        assertThat(ShapeAdding.isUntouched(typed, "/parts/p1")).isTrue();
    }

    @Test
    void codesAndTemplatesAreTypedAgainAsTheyWere() {
        TakeOff takeOff =
                Reckoned.of(
                                TakeOffActions.of("proposed pack")
                                        .apply(
                                                TakeOffActions.of("proposed/parts/p1 deburr")
                                                        .apply(arc())
                                                        .with("/heldTemplatesMm", "180,5; 10 in")),
                                BOOK,
                                DE)
                        .takeOff();

        assertThat(takeOff.heldTemplatesMm()).containsExactly(180.5, 254.0);
        assertThat(
                        TakeOffReading.read(TakeOffTyping.of(takeOff, BOOK, DE), BOOK, DE, Set.of())
                                .takeOff())
                .isEqualTo(takeOff);
    }

    @ParameterizedTest
    @CsvSource({"180; round", "180; -5", "0"})
    void aTemplateThatIsNoRadiusIsToldAtItsField(String held) {
        assertThat(Reckoned.of(arc().with("/heldTemplatesMm", held), BOOK, EN).faults())
                .extracting(Fault::pointer)
                .containsExactly("/heldTemplatesMm");
    }

    @Test
    void anEmptyAmountIsTheOneThatTheGeometryOffers() {
        TypedTakeOff typed =
                arc().with("/parts/p1/operations/o2/type", "standard")
                        .with("/parts/p1/operations/o2/standard", "Deburr")
                        .with("/parts/p1/operations/o2/amount", "")
                        .with("/assembly/o9/standard", "Make template");
        Reckoned reckoned = Reckoned.of(typed, BOOK, EN);

        assertThat(reckoned.faults()).isEmpty();
        assertThat(reckoned.takeOff().parts().get(0).operations().get(1))
                .isEqualTo(new Operation.Standard("Deburr", 0.98));
        assertThat(reckoned.takeOff().assembly())
                .containsExactly(new Operation.Standard("Make template", 1.0));
        assertThat(reckoned.read().workedOut())
                .containsEntry("/parts/p1/operations/o2/amount", "0.98")
                .containsEntry("/assembly/o9/amount", "1");
    }

    @ParameterizedTest
    @CsvSource({
        "Guillotine cut, 4",
        "Degrease, 2.94", // dm² of 420 × 70
        "Order preparation, 1",
        "Trim run-out, 2",
    })
    void theOfferFollowsTheRulesThenTheUnit(String standard, double amount) {
        TypedTakeOff typed = arc().with("/parts/p1/operations/o2/standard", standard);

        assertThat(Reckoned.of(typed, BOOK, EN).takeOff().parts().get(0).operations())
                .contains(new Operation.Standard(standard, amount));
    }

    @ParameterizedTest
    @CsvSource({"Drill hole", "Spot weld", "Fold", "TIG weld"})
    void whereTheGeometryOffersNothingTheAmountIsStillMissing(String standard) {
        TypedTakeOff typed = arc().with("/parts/p1/operations/o2/standard", standard);

        assertThat(Reckoned.of(typed, BOOK, EN).faults())
                .extracting(Fault::pointer)
                .containsExactly("/parts/p1/operations/o2/amount");
    }

    @Test
    void aTypedAmountStandsAndOneThatIsWrongIsTold() {
        TypedTakeOff typed =
                arc().with("/parts/p1/operations/o2/standard", "Deburr")
                        .with("/parts/p1/operations/o2/amount", "7");
        assertThat(Reckoned.of(typed, BOOK, EN).takeOff().parts().get(0).operations())
                .contains(new Operation.Standard("Deburr", 7.0));
        assertThat(
                        Reckoned.of(typed.with("/parts/p1/operations/o2/amount", "x"), BOOK, EN)
                                .faults())
                .extracting(Fault::pointer)
                .containsExactly("/parts/p1/operations/o2/amount");
    }

    @Test
    void aProposedWeldCallsUpItsCautionWhileItCounts() {
        TypedTakeOff ring =
                arc().with("/parts/p1/grade", "X5CRNI18-10")
                        .with("/parts/p1/operations/o1/lengthMm", "1131")
                        .with("/parts/p1/blank/lengthMm", "1200");
        TypedTakeOff without = ring;
        for (String code : List.of("weld-joint", "dress-weld", "planish-weld")) {
            without = TakeOffActions.of("proposed/parts/p1 " + code).apply(without);
        }

        assertThat(cautions(ring)).contains("Chromium(VI)");
        assertThat(cautions(without)).doesNotContain("Chromium(VI)");
        assertThat(cautions(arc())).isEmpty();
    }

    private static List<String> cautions(TypedTakeOff typed) {
        return new TakeOffViews(Reckoned.of(typed, BOOK, EN), BOOK, EN)
                .told().proposed().get(0).cautions().stream()
                        .map(TakeOffView.CautionView::title)
                        .toList();
    }

    private static List<TakeOffView.ProposedLine> proposed(TypedTakeOff typed) {
        return new TakeOffViews(Reckoned.of(typed, BOOK, EN), BOOK, EN)
                .told()
                .proposed()
                .get(0)
                .lines();
    }

    private static TypedTakeOff arc() {
        return typed(
                "/title", "Bracket",
                "/parts/p1/grade", "DC04",
                "/parts/p1/thicknessMm", "1.5",
                "/parts/p1/blank/lengthMm", "420",
                "/parts/p1/blank/widthMm", "70",
                "/parts/p1/operations/o1/type", "curve-edge",
                "/parts/p1/operations/o1/sense", "shrink",
                "/parts/p1/operations/o1/lengthMm", "300",
                "/parts/p1/operations/o1/radiusMm", "180",
                "/parts/p1/operations/o1/heightMm", "25");
    }
}
