package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.ShopBook.Machine;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Part;
import strokewright.quantity.Why;

/** What is usual in the trade (common practice, no source) holds with the starter book. */
class CommonPracticeTest {

    private static final ShopBook STARTER =
            EditedBook.read("/shop-book/starter.json").book().withEdition(1);

    @ParameterizedTest
    @MethodSource
    void formingRunsAt300StrokesAMinute(Operation.Formed work) {
        assertThat(ratesOf(work)).isNotEmpty().allMatch(rate -> rate == 300);
    }

    static List<Operation.Formed> formingRunsAt300StrokesAMinute() {
        return List.of(
                WorkedShop.curve(Sense.SHRINK, 900, 300, 30, null),
                WorkedShop.curve(Sense.STRETCH, 900, 300, 30, null),
                flange(90),
                new Operation.Dish(300.0, 40.0, null, null, null, null, null, null, null),
                new Operation.Flatten(90_000.0, 1, null, null, null, null));
    }

    @Test
    void smoothingRunsAt600StrokesAMinute() {
        assertThat(ratesOf(new Operation.Smooth(90_000.0, 2, null, null, null, null)))
                .isNotEmpty()
                .allMatch(rate -> rate == 600);
        assertThat(ratesOf(new Operation.TakeOutDents(4, null, null, null, null, null)))
                .isNotEmpty()
                .allMatch(rate -> rate == 600);
    }

    @Test
    void noToolRunsFasterThanThat() {
        assertThat(STARTER.tools())
                .allMatch(
                        tool ->
                                tool.strokesPerMinute()
                                        <= (tool.kind() == ShopBook.ToolKind.SMOOTH ? 600 : 300));
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 45, 90})
    void flangesAreTurnedByUpTo90Degrees(double angle) {
        assertThat(faultsOfFlange(angle)).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, -15, 90.01, 135, Double.NaN})
    void andNoFurther(double angle) {
        assertThat(faultsOfFlange(angle)).containsExactly("/parts/0/operations/0/angleDeg");
    }

    @ParameterizedTest
    @ValueSource(strings = {"shrink", "stretch"})
    void aMachineOfThe6MmClassTakes6MmMildSteel(String sense) {
        assertThat(refusalsAt6Mm("DC04", sense)).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"shrink", "stretch"})
    void butNot6MmStainless(String sense) {
        assertThat(refusalsAt6Mm("X5CRNI18-10", sense)).contains("over-capacity");
    }

    /** A wide curve, so that nothing but the thickness can rule it out. */
    private static List<String> refusalsAt6Mm(String grade, String sense) {
        ShopBook book =
                EditedBook.of(STARTER)
                        .with(
                                "/machines",
                                List.of(
                                        new Machine(
                                                "Forming machine 6 mm",
                                                6.0,
                                                400.0,
                                                700.0,
                                                600.0,
                                                null,
                                                null,
                                                "invented")))
                        .book();
        Operation curve = WorkedShop.curve(Sense.valueOf(sense.toUpperCase()), 900, 1500, 30, null);
        return Estimating.estimate(takeOff(grade, 6, curve), book).findings().stream()
                .filter(f -> f.severity() == strokewright.quantity.Severity.REFUSAL)
                .map(strokewright.quantity.Finding::code)
                .toList();
    }

    private static List<String> faultsOfFlange(double angle) {
        return TakeOffCheck.faults(takeOff("AL99.5-O", 1.5, flange(angle)), STARTER).stream()
                .map(strokewright.quantity.Fault::pointer)
                .toList();
    }

    private static List<Double> ratesOf(Operation.Formed work) {
        return Estimating.estimate(takeOff("AL99.5-O", 1.5, work), STARTER)
                .typed()
                .get(0)
                .why()
                .stream()
                .filter(why -> why.figure().equals("strokesPerMinute"))
                .map(Why::value)
                .toList();
    }

    private static Operation.Formed flange(double angle) {
        return new Operation.TurnFlange(
                Sense.SHRINK, 200.0, 20.0, angle, 360.0, null, null, null, null);
    }

    private static TakeOff takeOff(String grade, double thicknessMm, Operation work) {
        return WorkedShop.takeOff(
                new Part(
                        "Part",
                        1,
                        grade,
                        thicknessMm,
                        null,
                        new Blank(900.0, 100.0),
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        List.of(work),
                        null,
                        null,
                        null,
                        List.of(),
                        null));
    }
}
