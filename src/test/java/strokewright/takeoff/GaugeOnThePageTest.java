package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.takeoff.SmallShop.DE;
import static strokewright.takeoff.SmallShop.EN;

import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.quantity.Why;

/** A thickness typed in gauge: what is read, shown beside it, told of it and kept of it. */
class GaugeOnThePageTest {

    private static final ShopBook BOOK = Guard.BOOK;

    @ParameterizedTest
    @CsvSource({
        "DC04,16 ga,16 ga = 1.52",
        "DX51D+Z,#16,#16 = 1.61",
        "X5CRNI18-10,gauge 16,gauge 16 = 1.59",
        "AL99.5-O,16ga,16ga = 1.29",
        "CU-DHP-R220,20 oz,20 oz = 0.686",
        "CU-DHP-R220,16 oz copper,16 oz copper = 0.549",
        "DC04,16  ga   galv,16 ga galv = 1.61",
        "DC04,1/16 in,1.588",
        "DC04,1.5,1.5"
    })
    void whatWasTypedStandsWithItsMm(String grade, String typed, String shown) {
        assertThat(thickness(page(grade, typed)))
                .isEqualTo(new TakeOffView.Figure("thickness", shown, "mm"));
    }

    @Test
    void theMmAreWrittenInTheMannerOfTheReader() {
        Reckoned reckoned = Reckoned.of(typed("DC04", "16 ga"), BOOK, DE);
        TakeOffView page = new TakeOffViews(reckoned, BOOK, DE).view("/take-off", null);
        assertThat(thickness(page).value()).isEqualTo("16 ga = 1,52");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "ZN-CU-TI | 16 ga | gauge 16 of which metal? steel 1.519 mm",
                "TI2 | #20 | gauge 20 of which metal? steel 0.912 mm",
                "DC04 | 40 ga | gauge 40 is not in the table for steel",
                "DX51D+Z | 7 ga | gauge 7 is not in the table for galvanised",
                "DC04 | 16 oz | only copper goes by its weight per square foot: 16 oz of it is 0.549 mm",
                "CU-DHP-R220 | 1 oz | 1 oz is no weight of sheet copper",
                "DC04 | 16.5 ga | must be a thickness in mm or inch, or a whole gauge and its metal",
                "DC04 | -16 ga | must be a thickness in mm or inch, or a whole gauge and its metal"
            })
    void whatIsNoGaugeOfTheGradeIsToldAtItsField(String grade, String typed, String told) {
        TakeOffView page = page(grade, typed);
        TakeOffView.FieldView field =
                page.parts().get(0).fields().stream()
                        .filter(f -> f.path().equals("/parts/p1/thicknessMm"))
                        .findFirst()
                        .orElseThrow();
        assertThat(field.value()).isEqualTo(typed);
        assertThat(field.fault()).startsWith(told);
        assertThat(page.result().faults()).anyMatch(f -> f.message().startsWith(told));
    }

    @Test
    void theWorkingNamesTheGaugeAsTheOriginOfItsThickness() {
        Reckoned reckoned = Reckoned.of(typed("DC04", "16 ga"), BOOK, EN);
        List<Why.Input> thickness =
                reckoned.estimate().operations().stream()
                        .flatMap(line -> line.why().stream())
                        .flatMap(why -> why.inputs().stream())
                        .filter(i -> i.name().equals("t") && !i.origin().equals("computed"))
                        .toList();
        assertThat(thickness)
                .isNotEmpty()
                .allSatisfy(i -> assertThat(i.origin()).isEqualTo("drawing, 16 ga"))
                .allSatisfy(i -> assertThat(i.value()).isEqualTo(1.51892));
    }

    /** Neither figures nor findings hang on how the thickness was said. */
    @Test
    void aGaugeIsTheSameWorkAsItsMm() {
        Reckoned gauge = Reckoned.of(typed("DC04", "16 ga"), BOOK, EN);
        Reckoned mm = Reckoned.of(typed("DC04", "1.51892"), BOOK, EN);
        Reckoned inch = Reckoned.of(typed("DC04", "0.0598 in"), BOOK, EN);
        assertThat(gauge.main().priceEach()).isEqualTo(mm.main().priceEach());
        assertThat(gauge.main().hours()).isEqualTo(mm.main().hours());
        assertThat(inch.main().priceEach()).isEqualTo(mm.main().priceEach());
        assertThat(gauge.estimate().findings()).isEqualTo(mm.estimate().findings());
    }

    @Test
    void aStoredGaugeIsTypedAgainAsItWas() {
        TakeOff takeOff = Reckoned.of(typed("DC04", "16 ga"), BOOK, EN).takeOff();
        assertThat(takeOff.parts().get(0).gauge()).isEqualTo("16 ga");
        TypedTakeOff again = TakeOffTyping.of(takeOff, BOOK, DE);
        assertThat(again.at("/parts/p1/thicknessMm")).isEqualTo("16 ga");
        assertThat(TakeOffReading.read(again, BOOK, DE, Set.of()).takeOff()).isEqualTo(takeOff);
    }

    /** The sheet that a quote counts with stays as thick, whatever its grade is called by now. */
    @Test
    void aGaugeThatMeansAnotherThicknessByNowIsTypedAgainInMm() {
        TakeOff takeOff = Reckoned.of(typed("DC04", "16 ga"), BOOK, EN).takeOff();
        TakeOff zinced =
                Situations.JSON.readValue(
                        Situations.JSON.writeValueAsString(takeOff).replace("DC04", "DX51D+Z"),
                        TakeOff.class);
        assertThat(TakeOffTyping.of(zinced, BOOK, EN).at("/parts/p1/thicknessMm"))
                .isEqualTo("1.51892");
    }

    private static TakeOffView page(String grade, String thickness) {
        return new TakeOffViews(Reckoned.of(typed(grade, thickness), BOOK, EN), BOOK, EN)
                .view("/take-off", null);
    }

    private static TakeOffView.Figure thickness(TakeOffView page) {
        return page.parts().get(0).slot().figures().stream()
                .filter(f -> f.name().equals("thickness"))
                .findFirst()
                .orElseThrow();
    }

    private static TypedTakeOff typed(String grade, String thickness) {
        return SmallShop.roundFrame()
                .with("/parts/p1/grade", grade)
                .with("/parts/p1/thicknessMm", thickness)
                .with("/parts/p1/operations/o2/standard", "Guillotine cut");
    }
}
