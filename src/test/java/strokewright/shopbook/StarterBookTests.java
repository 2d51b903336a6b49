package strokewright.shopbook;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Currency;
import java.util.List;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
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

    /** The words beside a rate are enough to work it out again. */
    @Test
    void buildsItsRatesAsItSays() {
        for (WorkCentre centre : book.workCentres()) {
            double[] l = figures(LABOUR, centre.labourBasis());
            LabourRate labour = new LabourRate(l[0], l[1], l[2], l[2] - l[3], l[4]);
            assertThat(centre.labourRate().amount().doubleValue())
                    .as(centre.name())
                    .isCloseTo(labour.perProductiveHour(), within(0.005));
            if (centre.machineBasis().equals("No machine")) {
                assertThat(centre.machineRate().isZero()).isTrue();
                continue;
            }
            double[] m = figures(MACHINE, centre.machineBasis());
            MachineHourRate machine =
                    new MachineHourRate(
                            m[0],
                            0,
                            m[1],
                            m[2],
                            m[3],
                            m[4],
                            m[5],
                            m[6],
                            m[7] / 100,
                            m[8],
                            m[9],
                            m[10]);
            assertThat(centre.machineRate().amount().doubleValue())
                    .as(centre.name())
                    .isCloseTo(machine.perHour(), within(0.005));
        }
    }

    private static final String NUMBER = "([0-9.]+)";
    private static final Pattern LABOUR =
            Pattern.compile(
                    "Invented: wage # and # % on-costs for # paid hours a year; # present, # % of them productive"
                            .replace("#", NUMBER));
    private static final Pattern MACHINE =
            Pattern.compile(
                    "Invented: replacement #, bought for #, # years, # % interest, # m² at # a year, # kW at # % load and # a kWh, upkeep #, # h a year"
                            .replace("#", NUMBER));

    private static double[] figures(Pattern words, String basis) {
        MatchResult found =
                words.matcher(basis)
                        .results()
                        .findFirst()
                        .orElseThrow(() -> new AssertionError(basis));
        double[] figures = new double[found.groupCount()];
        for (int i = 0; i < figures.length; i++) {
            figures[i] = Double.parseDouble(found.group(i + 1));
        }
        return figures;
    }
}
