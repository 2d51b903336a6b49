package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.estimate.TakeOff.Grain;
import strokewright.quantity.Fault;
import strokewright.takeoff.TakeOffView.SlotView;

/** A fold as it is typed on the take-off page, and what is told and drawn of it. */
class FoldTypingTest {

    private static final ShopBook BOOK = starter();

    private static final String PART = "/parts/p1";

    @Test
    void legsAndBendsAreReadInTheirOrder() {
        Reckoned reckoned = reckoned(bracket());
        TakeOff.Part part = reckoned.takeOff().parts().get(0);

        assertThat(reckoned.faults()).isEmpty();
        assertThat(part.fold().legsMm()).containsExactly(50.0, 60.0, 30.0);
        assertThat(part.fold().bends())
                .containsExactly(
                        new TakeOff.FoldBend(90.0, 3.0, TakeOff.Way.UP),
                        new TakeOff.FoldBend(120.0, 3.0, TakeOff.Way.DOWN));
        assertThat(part.blank()).isNull();
        assertThat(reckoned.estimate().folds().get(0).developedMm())
                .isCloseTo(134.0127, within(5e-5));
    }

    @Test
    void lengthsMayBeTypedInInches() {
        Reckoned inches =
                reckoned(
                        bracket()
                                .with(PART + "/fold/firstLegMm", "2 in")
                                .with(PART + "/fold/bends/b1/radiusMm", "1/8 in"));
        TakeOff.Fold fold = inches.takeOff().parts().get(0).fold();

        assertThat(fold.legsMm().get(0)).isCloseTo(50.8, within(1e-9));
        assertThat(fold.bends().get(0).radiusMm()).isCloseTo(3.175, within(1e-9));
    }

    @Test
    void theDevelopedBlankStandsInTheEmptyFieldsAndIsNotTyped() {
        Reckoned reckoned = reckoned(bracket());

        assertThat(reckoned.read().workedOut())
                .containsEntry(PART + "/blank/lengthMm", "500")
                .containsEntry(PART + "/blank/widthMm", "134.01");
        assertThat(reckoned(bracket().with(PART + "/blank/lengthMm", "510")).faults())
                .extracting(Fault::pointer)
                .containsExactly(PART + "/blank/widthMm");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/fold/lengthMm",
                "/fold/firstLegMm",
                "/fold/bends/b1/radiusMm",
                "/fold/bends/b1/legMm",
                "/fold/bends/b2/legMm",
            })
    void whatIsMissingIsNamedAtItsField(String field) {
        assertThat(reckoned(bracket().with(PART + field, "")).faults())
                .extracting(Fault::pointer)
                .containsExactly(PART + field);
        assertThat(reckoned(bracket().with(PART + field, "-4")).faults())
                .extracting(Fault::pointer)
                .containsExactly(PART + field);
    }

    @Test
    void aFoldWithoutABendAsksForOne() {
        TypedTakeOff typed =
                bracket().withoutRow(PART + "/fold/bends/b1").withoutRow(PART + "/fold/bends/b2");

        assertThat(reckoned(typed).faults())
                .containsExactly(
                        new Fault(
                                PART + "/fold/firstLegMm",
                                "needs a bend and a leg behind it: add one"));
    }

    @Test
    void whileAFoldIsHalfTypedAPartWithABlankIsReckonedWithoutIt() {
        TypedTakeOff half =
                bracket()
                        .with(PART + "/blank/lengthMm", "500")
                        .with(PART + "/blank/widthMm", "134")
                        .with(PART + "/fold/bends/b2/legMm", "");
        Reckoned reckoned = reckoned(half);

        assertThat(reckoned.leftOut()).containsExactly(PART + "/fold");
        assertThat(reckoned.estimate().folds()).isEmpty();
        assertThat(reckoned.complete()).isFalse();
        assertThat(reckoned(half.with(PART + "/fold/bends/b2/legMm", "30")).complete()).isTrue();
    }

    @Test
    void grainAndMetalThatCannotBeHadAgainAreKept() {
        TakeOff.Part part =
                reckoned(
                                bracket()
                                        .with(PART + "/grain", "along-length")
                                        .with(PART + "/irreplaceable", "true"))
                        .takeOff()
                        .parts()
                        .get(0);

        assertThat(part.grain()).isEqualTo(Grain.ALONG_LENGTH);
        assertThat(part.irreplaceable()).isTrue();
        assertThat(part.bendCount()).isEqualTo(2);
    }

    @Test
    void thePartTellsItsLinesAndFindingsAndDrawsProfileAndBlank() {
        SlotView slot = slot(bracket().with(PART + "/fold/bends/b2/radiusMm", "0.4"));

        assertThat(slot.figures())
                .extracting(f -> f.name() + " " + f.value())
                .contains(
                        "developed 133.83",
                        "bend force 48.8",
                        "die 16",
                        "bend to, for springback 89.7 · –");
        assertThat(slot.findings()).hasSize(1);
        assertThat(slot.findings().get(0).text())
                .isEqualTo(
                        "DC04, 2\u00a0mm, may crack at an inside radius under 1\u00a0mm; this bend has"
                                + " 0.4\u00a0mm. Lay the bend across the grain of the sheet.");
        assertThat(slot.findings().get(0).change())
                .isEqualTo(
                        "Cleared by a radius of at least 1\u00a0mm, or by a thickness of at most"
                                + " 0.8\u00a0mm.");
        assertThat(slot.pictures()).hasSize(2);
        assertThat(slot.pictures().get(0))
                .contains(
                        "Seen from the end: a leg of 50 mm, then up, opening 90°, inside radius 3"
                                + " mm, to a leg of 60 mm, then down, opening 120°");
        assertThat(slot.pictures().get(1)).contains("Flat blank of 500 mm along the bends by");
        assertThat(slot.working().lines()).isNotEmpty();
        assertThat(slot.cautions()).extracting(c -> c.title()).contains("Folding", "Sharp edges");
    }

    /** Fifty bends, folded back, flat, sharp: all can be drawn. */
    @ParameterizedTest(name = "opening {0}°")
    @ValueSource(ints = {0, 1, 90, 179, 180})
    void whateverCanBeFoldedCanBeDrawn(int opening) {
        TypedTakeOff typed = bracket();
        for (int i = 3; i <= 50; i++) {
            typed =
                    typed.with(PART + "/fold/bends/b" + i + "/openingDeg", "" + opening)
                            .with(PART + "/fold/bends/b" + i + "/radiusMm", i % 2 == 0 ? "0" : "3")
                            .with(PART + "/fold/bends/b" + i + "/legMm", "25");
        }
        assertThat(reckoned(typed).faults()).isEmpty();
        assertThat(slot(typed).pictures()).hasSize(2).noneMatch(p -> p.contains("NaN"));
    }

    @Test
    void aButtonAddsABendWithoutAnyScript() {
        TypedTakeOff added = TakeOffActions.of("add " + PART + "/fold/bends").apply(bracket());
        List<String> rows = added.rows(PART + "/fold/bends");

        assertThat(rows).hasSize(3).startsWith(PART + "/fold/bends/b1", PART + "/fold/bends/b2");
        assertThat(reckoned(added).faults()).isEmpty(); // nothing typed into it yet
        assertThat(
                        TakeOffActions.of("remove " + rows.get(0))
                                .apply(added)
                                .rows(PART + "/fold/bends"))
                .hasSize(2);
    }

    private static TypedTakeOff bracket() {
        return TypedTakeOff.of(List.of())
                .with("/title", "Bracket")
                .with(PART + "/name", "Bracket")
                .with(PART + "/grade", "DC04")
                .with(PART + "/thicknessMm", "2")
                .with(PART + "/fold/lengthMm", "500")
                .with(PART + "/fold/firstLegMm", "50")
                .with(PART + "/fold/bends/b1/openingDeg", "")
                .with(PART + "/fold/bends/b1/radiusMm", "3")
                .with(PART + "/fold/bends/b1/way", "")
                .with(PART + "/fold/bends/b1/legMm", "60")
                .with(PART + "/fold/bends/b2/openingDeg", "120")
                .with(PART + "/fold/bends/b2/radiusMm", "3")
                .with(PART + "/fold/bends/b2/way", "down")
                .with(PART + "/fold/bends/b2/legMm", "30");
    }

    private static Reckoned reckoned(TypedTakeOff typed) {
        return Reckoned.of(typed, BOOK, SmallShop.EN);
    }

    private static SlotView slot(TypedTakeOff typed) {
        return new TakeOffViews(reckoned(typed), BOOK, SmallShop.EN).told().slots().get(0);
    }

    private static ShopBook starter() {
        try (InputStream in = FoldTypingTest.class.getResourceAsStream("/shop-book/starter.json")) {
            return Situations.JSON.readValue(in, ShopBook.class).withEdition(1);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
