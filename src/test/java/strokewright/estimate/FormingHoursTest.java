package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.ShopBook.PassLimit;
import strokewright.quantity.Why;

class FormingHoursTest {

    private static final Operation.CurveEdge RIM =
            WorkedShop.curve(Sense.SHRINK, 1885, 300, 40, "soft");
    private static final TakeOff FRAME = WorkedShop.of(RIM, "al", 2);

    @Test
    void areAssumedInAShopThatHasMeasuredNothing() {
        assertThat(doubt(FRAME)).isEqualTo(FormingHours.ASSUMED);
    }

    @Test
    void areMeasuredOnceAStripOfTheMetalWasMeasuredWithTheTool() {
        assertThat(doubt(FRAME, measured("soft", "aluminium"))).isNull();
        assertThat(doubt(FRAME, measured("steel", "aluminium"))).isNotNull();
        assertThat(doubt(FRAME, measured("soft", "steel"))).isNotNull();
    }

    @Test
    void areAssumedWhileOneOfThePartsRestsOnAssumption() {
        TakeOff two =
                WorkedShop.takeOff(
                        WorkedShop.part("al", 2, 1.0, null, null, RIM),
                        WorkedShop.part("steel", 1, 1.0, null, null, RIM));
        assertThat(doubt(two, measured("soft", "aluminium"))).isNotNull();
        assertThat(doubt(two, measured("soft", "aluminium"), measured("soft", "steel"))).isNull();
    }

    @ParameterizedTest
    @ValueSource(strings = {"assumed", "set by the owner", "not measured", "unmeasured yet"})
    void areAssumedWhileTheLineIsNotOfAMeasurement(String origin) {
        assertThat(doubt(FRAME, new PassLimit("soft", "aluminium", 0.01, 1.0, null, origin)))
                .isNotNull();
    }

    @ParameterizedTest
    @ValueSource(strings = {"measured", "Measured by us", "measured, test strips of 2026-11-25"})
    void areMeasuredWhereTheLineSaysSo(String origin) {
        assertThat(doubt(FRAME, new PassLimit("soft", "aluminium", 0.01, null, null, origin)))
                .isNull();
    }

    @Test
    void areNotMeasuredByTheFeedAlone() {
        assertThat(doubt(FRAME, new PassLimit("soft", "aluminium", null, null, 0.5, "measured")))
                .isNotNull();
    }

    @Test
    void areOutOfTheQuestionWhereNoStrainIsPutIn() {
        assertThat(
                        doubt(
                                WorkedShop.of(
                                        new Operation.Smooth(150_000.0, 2, null, null, null, null),
                                        "al",
                                        2)))
                .isNull();
    }

    @Test
    void restOnTheFeedEfficiencyOfTheToolInTheMetalWhereItIsKnown() {
        Estimate.Line machines = line(WorkedShop.book());
        Estimate.Line own =
                line(
                        WorkedShop.book()
                                .withPassLimits(
                                        List.of(
                                                new PassLimit(
                                                        "soft",
                                                        "aluminium",
                                                        null,
                                                        null,
                                                        0.4,
                                                        "measured"))));

        assertThat(own.strokes()).isEqualTo(machines.strokes());
        assertThat(own.strokeMinutes())
                .isCloseTo(machines.strokeMinutes() * 0.6 / 0.4, within(1e-9));
        assertThat(own.why())
                .flatExtracting(Why::inputs)
                .contains(new Why.Input("η", 0.4, "", "shop book 7, measured"));
    }

    private static Estimate.Line line(ShopBook book) {
        return Estimating.estimate(FRAME, book).operations().get(0);
    }

    private static PassLimit measured(String tool, String family) {
        return new PassLimit(tool, family, 0.01, null, null, "measured");
    }

    private static String doubt(TakeOff takeOff, PassLimit... limits) {
        ShopBook book = WorkedShop.book().withPassLimits(List.of(limits));
        return FormingHours.doubt(takeOff, Estimating.estimate(takeOff, book), book);
    }
}
