package strokewright.shopbook;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Currency;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.access.Documents;
import strokewright.costing.LabourRate;
import strokewright.costing.MachineHourRate;
import strokewright.costing.PriceScheme;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.ShopBook.Standard;
import strokewright.estimate.ShopBook.Tool;
import strokewright.estimate.ShopBook.ToolKind;
import strokewright.estimate.ShopBook.ToolSurface;
import strokewright.estimate.ShopBook.WorkCentre;
import strokewright.estimate.ShopBookCheck;
import strokewright.estimate.ShopBookDoubts;

class StarterBookTests {

    private final StarterBook starter = new StarterBook(new Documents());
    private final ShopBook book = starter.in(Currency.getInstance("EUR"));

    /** No decimals, two, three; every amount changes with the book. */
    @ParameterizedTest
    @ValueSource(strings = {"EUR", "USD", "JPY", "KWD"})
    void canBeUsedInTheShopsOwnCurrency(String code) {
        ShopBook stamped = starter.in(Currency.getInstance(code));
        assertThat(stamped.currency().getCurrencyCode()).isEqualTo(code);
        assertThat(ShopBookCheck.faults(stamped)).isEmpty();
        assertThat(ShopBookDoubts.in(stamped)).isEmpty();
    }

    @Test
    void roundsToWholeYen() {
        assertThat(starter.in(Currency.getInstance("JPY")).priceScheme().roundEachTo())
                .isEqualTo("1");
        assertThat(book.priceScheme().roundEachTo()).isEqualTo("0.01");
    }

    @Test
    void startsWithTheSimpleScheme() {
        assertThat(book.priceScheme().kind()).isEqualTo(PriceScheme.Kind.SIMPLE);
        assertThat(book.edition()).isNull();
    }

    @Test
    void hasTheMetalsOfAShop() {
        assertThat(book.grades())
                .extracting(Grade::code)
                .contains(
                        "AL99.5-O",
                        "AL99.5-H14",
                        "ALMG3-O",
                        "DC04",
                        "DX51D+Z",
                        "X5CRNI18-10",
                        "CU-DHP-R220",
                        "CUZN30");
        assertThat(book.sheets())
                .extracting(ShopBook.Sheet::grade)
                .containsExactlyElementsOf(book.grades().stream().map(Grade::code).toList());
    }

    @Test
    void doesNotAnnealStainlessTitaniumAndCoatedSheet() {
        assertThat(book.grades().stream().filter(g -> !g.annealable()).map(Grade::code))
                .containsExactlyInAnyOrder("X5CRNI18-10", "TI2", "DX51D+Z", "ZN-CU-TI");
    }

    /** 0.9 n and 0.7 n: fractions of uniform strain that are common practice. */
    @Test
    void takesItsStretchLimitsFromTheHardening() {
        for (Grade grade : book.grades()) {
            if (grade.hardeningExponent() != null) {
                assertThat(grade.edgeStretchLimit())
                        .isCloseTo(0.9 * grade.hardeningExponent(), within(1e-9));
                assertThat(grade.areaStretchLimit())
                        .isCloseTo(0.7 * grade.hardeningExponent(), within(1e-9));
            }
        }
    }

    @Test
    void saysOfWeakFiguresThatTheyAreAssumed() {
        for (String code : List.of("ALMN1CU-O", "ALMG2.5-O", "ALMG3-O", "DX51D+Z", "TI2")) {
            assertThat(book.grade(code).orElseThrow().origin()).startsWith("Assumed: ");
        }
        assertThat(book.standards())
                .allSatisfy(
                        standard ->
                                assertThat(standard.origin())
                                        .startsWith("Common practice, no source"));
        assertThat(book.sheets())
                .allSatisfy(sheet -> assertThat(sheet.origin()).startsWith("Invented"));
        assertThat(book.machines())
                .allSatisfy(machine -> assertThat(machine.origin()).startsWith("Invented"));
        assertThat(book.tools())
                .allSatisfy(
                        tool -> assertThat(tool.origin()).startsWith("Common practice, no source"));
    }

    @Test
    void hasASoftFacedToolForEveryKindOfWork() {
        Set<ToolKind> soft =
                book.tools().stream()
                        .filter(tool -> tool.surface() == ToolSurface.SOFT_FACED)
                        .map(Tool::kind)
                        .collect(Collectors.toSet());
        assertThat(soft).containsExactlyInAnyOrder(ToolKind.values());
    }

    @Test
    void forgetsNothingThatAOneOffFrameNeeds() {
        assertThat(book.standards())
                .hasSizeGreaterThanOrEqualTo(30)
                .extracting(Standard::name)
                .contains(
                        "Order preparation",
                        "Make template",
                        "Marking out",
                        "Guillotine cut",
                        "Deburr",
                        "Film on",
                        "Film off",
                        "Trim run-out",
                        "True up",
                        "Fit joint",
                        "TIG weld",
                        "Dress weld",
                        "Anneal",
                        "Final check",
                        "Packing");
        assertThat(book.workCentres())
                .extracting(WorkCentre::name)
                .contains("Forming", "Cutting", "Welding", "Bench");
    }

    /** Ranges that are common practice, no source; minutes for one unit. */
    @ParameterizedTest
    @CsvSource({
        "Guillotine cut, 0.13, 0.34",
        "Circle cut, 0.66, 2",
        "Hand shear or nibble, 0.66, 2",
        "Band saw, 1, 3.4",
        "Deburr, 0.5, 1",
        "Fold, 0.3, 0.8",
        "TIG weld, 14, 63",
        "MIG weld, 4, 16",
        "Dress weld, 10, 30",
        "Planish weld, 10, 20",
        "Dress out marks, 0.5, 2",
        "Anneal, 1, 4",
        "Make template, 10, 25",
        "Buck station, 20, 45",
        "First-piece report, 20, 60",
    })
    void keepsItsTimesToWhatIsUsual(String standard, double low, double high) {
        assertThat(book.standard(standard).orElseThrow().minutesPerUnit()).isBetween(low, high);
    }

    /** Ranges that are common practice, no source. */
    @Test
    void keepsItsToolsToWhatIsUsual() {
        for (Tool tool : book.tools()) {
            switch (tool.kind()) {
                case SHRINK -> usual(tool, 0.008, 0.02, 3, 8);
                case STRETCH -> usual(tool, 0.01, 0.03, 3, 8);
                case EDGE, FLANGE -> usual(tool, 0.008, 0.02, 3, 8);
                case DOME -> usual(tool, 0.01, 0.03, 5, 12);
                case SMOOTH -> assertThat(tool.pitchMm()).isBetween(2.0, 5.0);
                case FLATTEN -> assertThat(tool.pitchMm()).isBetween(5.0, 15.0);
            }
            assertThat(tool.changeMinutes() + tool.setMinutes()).isBetween(0.8, 10.0);
            assertThat(tool.strokesPerMinute()).isBetween(100.0, 600.0);
        }
    }

    private static void usual(
            Tool tool, double lowBite, double highBite, double lowPitch, double highPitch) {
        assertThat(tool.biteStrain()).as(tool.name()).isBetween(lowBite, highBite);
        assertThat(tool.pitchMm()).as(tool.name()).isBetween(lowPitch, highPitch);
    }

    /** Kalpakjian & Schmid, table 2.3, but copper: Callister, 2nd edition, page 199. */
    @ParameterizedTest
    @CsvSource({
        "AL99.5-O, 180, 0.20",
        "DC04, 530, 0.26",
        "X5CRNI18-10, 1275, 0.45",
        "CU-DHP-R220, 530, 0.44",
        "CUZN30, 900, 0.49",
    })
    void takesHardeningFromTheTextbooks(String code, double k, double n) {
        Grade grade = book.grade(code).orElseThrow();
        assertThat(grade.strengthCoefficientMpa()).isEqualTo(k);
        assertThat(grade.hardeningExponent()).isEqualTo(n);
        assertThat(grade.origin()).containsAnyOf("Kalpakjian & Schmid", "Callister");
    }

    /** The build-up beside a rate gives the rate. */
    @Test
    void buildsItsRatesAsItSays() {
        for (WorkCentre centre : book.workCentres()) {
            LabourRate labour = centre.labourBasis();
            assertThat(centre.labourRate().amount().doubleValue())
                    .as(centre.name())
                    .isCloseTo(labour.perProductiveHour(), within(0.005));
            if (centre.machineBasis() == null) {
                assertThat(centre.machineRate().isZero()).isTrue();
                continue;
            }
            MachineHourRate machine = centre.machineBasis();
            assertThat(centre.machineRate().amount().doubleValue())
                    .as(centre.name())
                    .isCloseTo(machine.perHour(), within(0.005));
        }
    }
}
