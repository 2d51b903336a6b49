package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.takeoff.SmallShop.BOOK;
import static strokewright.takeoff.SmallShop.EN;
import static strokewright.takeoff.SmallShop.roundFrame;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import strokewright.estimate.Caution;
import strokewright.estimate.Estimate;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.TakeOff;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Part;

class CautionTest {

    private static final Estimate.Line FORMED =
            Reckoned.of(roundFrame(), BOOK, EN).lines().get("/parts/p1/operations/o1");

    @Test
    void formingCallsForItsOwn() {
        assertThat(Caution.of(FORMED, grade("low-carbon-steel", "Steel")))
                .containsExactlyInAnyOrder(Caution.FORMING, Caution.VIBRATION);
    }

    @ParameterizedTest(name = "{0} on {1}, {2}: {3}")
    @CsvSource({
        "TIG weld, stainless, Stainless 304, CHROMIUM",
        "Dress weld, stainless, Stainless 304, CHROMIUM",
        "TIG weld, low-carbon-steel, Steel galvanised, ZINC_FUME",
        "Anneal, aluminium-soft, Aluminium, ANNEALING",
        "Sand for paint, aluminium-soft, Aluminium, ALUMINIUM_DUST",
        "Pickle weld, stainless, Stainless 304, PICKLING",
    })
    void workCallsForItsCaution(String standard, String family, String name, Caution caution) {
        assertThat(Caution.of(standard(standard), grade(family, name))).contains(caution);
    }

    @Test
    void harmlessWorkCallsForNone() {
        assertThat(Caution.of(standard("Packing"), grade("stainless", "Stainless"))).isEmpty();
        assertThat(Caution.of(standard("TIG weld"), grade("low-carbon-steel", "Steel"))).isEmpty();
    }

    @ParameterizedTest(name = "{0} kg, {1} mm long: {2}")
    @CsvSource({
        "14.9, 1499, ''",
        "15, 1499, LIFTING_HELP",
        "1, 1500, LIFTING_HELP",
        "25, 1000, LIFTING_HELP",
        "25.1, 1000, LIFTING_TWO",
    })
    void liftingFollowsMassAndLength(double kg, double lengthMm, String caution) {
        Set<Caution> cautions = Caution.of(part(lengthMm), kg);
        assertThat(cautions).contains(Caution.SHARP_EDGES);
        cautions.remove(Caution.SHARP_EDGES);
        assertThat(cautions.toString()).isEqualTo("[" + caution + "]");
    }

    @Test
    void anOldPartMayHoldLead() {
        assertThat(Caution.of(takeOff("Bracket", TakeOff.Information.OLD_PART)))
                .containsExactly(Caution.OLD_PART);
    }

    @ParameterizedTest
    @CsvSource({"Round sign frame", "Fuel tank", "Boat hull panel", "Lifting hook guard"})
    void whatOthersTrustTheirLivesToIsReleasedByALicensedPerson(String title) {
        assertThat(Caution.of(takeOff(title, TakeOff.Information.DRAWING)))
                .containsExactly(Caution.LICENSED_DESIGN);
    }

    @Test
    void aWordInsideAnotherCallsForNothing() {
        assertThat(Caution.of(takeOff("Design bracket, carton", TakeOff.Information.DRAWING)))
                .isEmpty();
    }

    private static TakeOff takeOff(String title, TakeOff.Information information) {
        return new TakeOff(
                title,
                information,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                List.of(),
                List.of(),
                null);
    }

    private static Part part(double lengthMm) {
        return new Part(
                "Part",
                1,
                "soft",
                2.0,
                null,
                new Blank(lengthMm, 100.0),
                null,
                null,
                null,
                null,
                null,
                null,
                List.of(),
                null,
                null,
                null,
                List.of(),
                null);
    }

    /** The estimate's line of this time standard. */
    private static Estimate.Line standard(String name) {
        Estimate.Line cut =
                Reckoned.of(roundFrame(), BOOK, EN).lines().get("/parts/p1/operations/o2");
        return new Estimate.Line(
                cut.part(),
                cut.position(),
                cut.type(),
                name,
                cut.workCentre(),
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
                cut.setupMinutes(),
                cut.machineMinutes(),
                cut.personMinutes(),
                cut.people(),
                null,
                List.of(),
                List.of(),
                null,
                null);
    }

    private static Optional<Grade> grade(String family, String name) {
        return Optional.of(
                new Grade(
                        "X", name, family, null, null, null, null, null, null, null, null, null,
                        null, true, null, null, null, null, null));
    }
}
