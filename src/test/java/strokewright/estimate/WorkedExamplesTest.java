package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.TakeOff.Blank;

/** The worked examples of the method, through the whole calculation. */
class WorkedExamplesTest {

    private static final double TO_THE_DIGITS_SHOWN = 5.1e-7;

    @ParameterizedTest(name = "example {0}")
    @CsvFileSource(resources = "/estimate/worked-examples.csv", commentCharacter = '#')
    void agreesWithTheWorkedExample(
            String name,
            String kind,
            String sense,
            double size1,
            double radius,
            double height,
            Double angle,
            String grade,
            double thickness,
            double kg,
            double areaM2,
            double lengthMm,
            String tool,
            double gap,
            String strains,
            String passes,
            int anneals,
            long strokes,
            double strokeMinutes,
            double repositionMinutes,
            long checks,
            double checkMinutes,
            double machineMinutes) {
        Sense how = Sense.valueOf(sense.toUpperCase());
        Operation operation =
                kind.equals("curve-edge")
                        ? WorkedShop.curve(how, size1, radius, height, tool)
                        : new Operation.TurnFlange(
                                how, radius, height, angle, size1, null, null, tool, null);
        Estimate.Line line =
                WorkedShop.lines(
                                WorkedShop.takeOff(
                                        WorkedShop.part(
                                                grade,
                                                thickness,
                                                kg,
                                                blank(areaM2, lengthMm),
                                                gap,
                                                operation)))
                        .get(0);

        assertThat(line.strains()).hasSameSizeAs(numbers(strains));
        for (int i = 0; i < line.strains().size(); i++) {
            assertThat(line.strains().get(i))
                    .isCloseTo(numbers(strains).get(i), within(TO_THE_DIGITS_SHOWN));
        }
        assertThat(line.passes())
                .isEqualTo(numbers(passes).stream().map(Double::intValue).toList());
        assertThat(line.anneals()).isEqualTo(anneals);
        assertThat(line.strokes()).isEqualTo(strokes);
        assertThat(line.strokeMinutes()).isCloseTo(strokeMinutes, within(TO_THE_DIGITS_SHOWN));
        assertThat(line.repositionMinutes())
                .isCloseTo(repositionMinutes, within(TO_THE_DIGITS_SHOWN));
        assertThat(line.checks()).isEqualTo(checks);
        assertThat(line.checkMinutes()).isCloseTo(checkMinutes, within(TO_THE_DIGITS_SHOWN));
        assertThat(line.machineMinutes()).isCloseTo(machineMinutes, within(TO_THE_DIGITS_SHOWN));
        assertThat(line.personMinutes()).isEqualTo(line.machineMinutes());
    }

    @Test
    void finishedThicknessOfExamplesAAndB() {
        assertThat(
                        line(WorkedShop.curve(Sense.SHRINK, 1885, 300, 40, "soft"), "al", 2.0)
                                .edgeThicknessMm())
                .isCloseTo(2.148345, within(TO_THE_DIGITS_SHOWN));
        assertThat(
                        line(WorkedShop.curve(Sense.STRETCH, 900, 250, 40, "steel"), "steel", 1.5)
                                .edgeThicknessMm())
                .isCloseTo(1.392715, within(TO_THE_DIGITS_SHOWN));
    }

    @Test
    void dishOfExampleF() {
        Operation dish =
                new Operation.Dish(300.0, 60.0, null, 0.0, null, null, "steel", "crown", null);
        Estimate.Line line =
                WorkedShop.lines(
                                WorkedShop.takeOff(
                                        WorkedShop.part(
                                                "al", 1.5, 0.9, blank(0.104, 323), null, dish)))
                        .get(0);

        assertThat(line.rimShare()).isCloseTo(0.744506, within(TO_THE_DIGITS_SHOWN));
        assertThat(line.blankDiameterMm()).isCloseTo(323.109888, within(TO_THE_DIGITS_SHOWN));
        List<Double> rings = List.of(0.011295, 0.021618, 0.035339, 0.052534, 0.073303);
        for (int i = 0; i < rings.size(); i++) {
            assertThat(line.strains().get(i)).isCloseTo(rings.get(i), within(TO_THE_DIGITS_SHOWN));
        }
        assertThat(line.passes()).containsExactly(1, 2, 2, 3, 4);
        assertThat(line.crown().strain()).isCloseTo(0.037920, within(TO_THE_DIGITS_SHOWN));
        assertThat(line.crown().passes()).isEqualTo(2);
        assertThat(line.crown().strokes()).isEqualTo(1368);
        assertThat(line.crown().thicknessMm()).isCloseTo(1.444184, within(TO_THE_DIGITS_SHOWN));
        assertThat(line.strokes()).isEqualTo(3750);
        assertThat(line.strokeMinutes()).isCloseTo(20.833333, within(TO_THE_DIGITS_SHOWN));
        assertThat(line.repositionMinutes()).isCloseTo(1.6, within(TO_THE_DIGITS_SHOWN));
        assertThat(line.checks()).isEqualTo(5);
        assertThat(line.checkMinutes()).isCloseTo(5.0, within(TO_THE_DIGITS_SHOWN));
        assertThat(line.machineMinutes()).isCloseTo(27.433333, within(TO_THE_DIGITS_SHOWN));
    }

    @Test
    void hemisphereTakesTheBlankOfEqualArea() {
        Operation dish =
                new Operation.Dish(400.0, 200.0, null, 0.0, null, null, "steel", "crown", null);
        Estimate.Line line = line(dish, "al", 2.0);

        assertThat(line.rimShare()).isCloseTo(0.725677, within(TO_THE_DIGITS_SHOWN));
        assertThat(line.blankDiameterMm()).isCloseTo(565.685425, within(TO_THE_DIGITS_SHOWN));
    }

    @Test
    void smoothingOfExampleK() {
        Operation smooth = new Operation.Smooth(500_000.0, 3, null, null, "smoother", null);
        Estimate.Line line =
                WorkedShop.lines(
                                WorkedShop.takeOff(
                                        WorkedShop.part(
                                                "al", 1.0, 1.35, blank(0.5, 1000), null, smooth)))
                        .get(0);

        assertThat(line.strokes()).isEqualTo(62_502);
        assertThat(line.strokeMinutes()).isCloseTo(173.616667, within(TO_THE_DIGITS_SHOWN));
        assertThat(line.repositionMinutes()).isCloseTo(0.5, within(TO_THE_DIGITS_SHOWN));
        assertThat(line.checkMinutes()).isCloseTo(5.75, within(TO_THE_DIGITS_SHOWN));
        assertThat(line.machineMinutes()).isCloseTo(179.866667, within(TO_THE_DIGITS_SHOWN));
    }

    @Test
    void dentsOfExampleL() {
        Operation dents = new Operation.TakeOutDents(6, null, null, null, "smoother", null);
        Estimate.Line line =
                WorkedShop.lines(
                                WorkedShop.takeOff(
                                        WorkedShop.part(
                                                "al", 1.0, 1.35, blank(0.5, 1000), null, dents)))
                        .get(0);

        assertThat(line.strokes()).isEqualTo(360);
        assertThat(line.findMinutes()).isCloseTo(9.0, within(TO_THE_DIGITS_SHOWN));
        assertThat(line.machineMinutes()).isCloseTo(12.5, within(TO_THE_DIGITS_SHOWN));
    }

    private static Estimate.Line line(Operation operation, String grade, double thickness) {
        return WorkedShop.lines(WorkedShop.of((Operation.Formed) operation, grade, thickness))
                .get(0);
    }

    private static Blank blank(double areaM2, double lengthMm) {
        return new Blank(lengthMm, areaM2 * 1e6 / lengthMm);
    }

    private static List<Double> numbers(String text) {
        return Arrays.stream(text.split(" ")).map(Double::valueOf).toList();
    }
}
