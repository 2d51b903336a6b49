package strokewright.forming;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.forming.Outline.Corner;
import strokewright.forming.Outline.Run;

/** Lengths, curvatures and turning of outlines against closed forms and Simpson's rule. */
class OutlineTest {

    private static final double TIGHTEST_MM = 10;

    @Test
    void circleOfTwoArcsHasItsCircumferenceAndItsRadius() {
        Outline outline = Outline.ofPath("M300 0 A300 300 0 0 1 -300 0 A300 300 0 0 1 300 0 Z", 10);

        assertThat(outline.lengthMm()).isCloseTo(2 * Math.PI * 300, within(1e-3));
        assertOneStretch(outline, true, 2 * Math.PI * 300, 300, 1e-6);
        assertThat(outline.runs().get(0).turning()).isCloseTo(2 * Math.PI, within(1e-9));
        assertThat(outline.corners()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "m 300,0 a 300 300 0 0 0 -600 0 300 300 0 0 0 600 0",
                "M300 0A300 300 0 0 0-300 0A300 300 0 0 0 300 0z",
                "M 10 10 m 290 -10 a300,300 45 00-600,0 a300,300 10 1 0 600 0 z"
            })
    void circleIsTheSameHoweverItIsWritten(String path) {
        assertOneStretch(Outline.ofPath(path, TIGHTEST_MM), true, 2 * Math.PI * 300, 300, 1e-6);
    }

    @Test
    void circleOfFourBeziersIsNearlyACircle() {
        double k = 300 * 0.5522847498; // the usual handle of a quarter circle
        String path =
                format(
                        "M300 0 C300 %1$f %1$f 300 0 300 S-300 %1$f -300 0"
                                + " S%2$f -300 0 -300 S300 %2$f 300 0 Z",
                        k, -k);

        assertOneStretch(Outline.ofPath(path, TIGHTEST_MM), true, 2 * Math.PI * 300, 300, 0.01);
    }

    @ParameterizedTest(name = "R {0} cut within {1} mm, {2} decimals")
    @CsvSource({
        "300, 0.5, 6", "300, 0.25, 6", "300, 0.1, 4", "300, 0.01, 4", "300, 0.001, 4",
        "40, 0.2, 5", "40, 0.02, 5", "1500, 0.9, 4", "1500, 0.05, 4", "15, 0.05, 5"
    })
    void circleOfManyStraightsIsACircle(double radius, double within, int decimals) {
        int n = (int) Math.ceil(Math.PI / Math.acos(1 - within / radius));

        assertOneStretch(
                Outline.ofPath(polygon(n, radius, decimals), TIGHTEST_MM),
                true,
                2 * Math.PI * radius,
                radius,
                0.01);
    }

    @ParameterizedTest(name = "{0} × {1}")
    @CsvSource({"200, 100", "400, 120", "60, 50", "1000, 900"})
    void ellipseHasThePerimeterAndTheTightestRadiusOfItsFormula(double a, double b) {
        String arcs = format("M%1$f 0 A%1$f %2$f 0 0 1 %3$f 0 A%1$f %2$f 0 0 1 %1$f 0 Z", a, b, -a);
        // ∫ √(a² sin² t + b² cos² t) dt by Simpson's rule; tightest radius b²/a
        double perimeter =
                simpson(t -> Math.hypot(a * Math.sin(t), b * Math.cos(t)), 0, 2 * Math.PI, 20_000);

        assertOneStretch(Outline.ofPath(arcs, TIGHTEST_MM), true, perimeter, b * b / a, 0.001);
        StringBuilder straights = new StringBuilder("M");
        int n = 720;
        for (int i = 0; i < n; i++) {
            double t = 2 * Math.PI * i / n;
            straights.append(format(" %.5f,%.5f", a * Math.cos(t), b * Math.sin(t)));
        }
        assertOneStretch(
                Outline.ofPath(straights + "Z", TIGHTEST_MM), true, perimeter, b * b / a, 0.01);
    }

    @Test
    void turnedEllipseIsTheSameEllipse() {
        double c = Math.cos(Math.toRadians(30));
        double s = Math.sin(Math.toRadians(30));
        String path =
                format(
                        "M%1$f %2$f A200 100 30 0 1 %3$f %4$f A200 100 30 0 1 %1$f %2$f",
                        200 * c, 200 * s, -200 * c, -200 * s);
        double perimeter =
                simpson(
                        t -> Math.hypot(200 * Math.sin(t), 100 * Math.cos(t)),
                        0,
                        2 * Math.PI,
                        20_000);

        assertOneStretch(Outline.ofPath(path, TIGHTEST_MM), true, perimeter, 50, 0.001);
    }

    @Test
    void roundedRectangleIsOneStretchWithTheStraightsInIt() {
        Outline outline = Outline.ofPath(roundedRectangle(400, 250, 60), TIGHTEST_MM);
        double length = 2 * (400 + 250) - 8 * 60 + 2 * Math.PI * 60;

        assertOneStretch(outline, true, length, 60, 1e-6);
        assertThat(stretches(outline).get(0).bentMm()).isCloseTo(2 * Math.PI * 60, within(1e-3));
        assertThat(outline.runs().get(0).turning()).isCloseTo(2 * Math.PI, within(1e-6));
    }

    @ParameterizedTest(name = "cut within {0} mm")
    @ValueSource(doubles = {0.5, 0.2, 0.05, 0.01})
    void roundedRectangleOfStraightsBendsOnlyAtItsCorners(double within) {
        double r = 60;
        int n = (int) Math.ceil(Math.PI / 4 / Math.acos(1 - within / r));
        StringBuilder path = new StringBuilder("M 60 0");
        double[][] centres = {{340, 60, -90}, {340, 190, 0}, {60, 190, 90}, {60, 60, 180}};
        for (double[] centre : centres) {
            for (int i = 0; i <= n; i++) {
                double t = Math.toRadians(centre[2] + 90.0 * i / n);
                path.append(
                        format(
                                " L%.4f %.4f",
                                centre[0] + r * Math.cos(t), centre[1] + r * Math.sin(t)));
            }
        }
        Outline outline = Outline.ofPath(path + " Z", TIGHTEST_MM);

        assertOneStretch(outline, true, 2 * (400 + 250) - 8 * 60 + 2 * Math.PI * 60, 60, 0.01);
        assertThat(stretches(outline).get(0).bentMm())
                .isCloseTo(2 * Math.PI * 60, within(0.02 * 2 * Math.PI * 60));
    }

    @Test
    void sCurveHasAStretchOfEachSense() {
        // two quarter circles, one each way
        Outline outline =
                Outline.ofPath("M0 0 A200 200 0 0 1 200 200 A150 150 0 0 0 350 350", TIGHTEST_MM);
        List<Stretch> stretches = stretches(outline);

        assertThat(stretches).extracting(Stretch::shrink).containsExactly(true, false);
        assertThat(stretches.get(0).lengthMm()).isCloseTo(Math.PI * 100, within(1e-3));
        assertThat(stretches.get(1).lengthMm()).isCloseTo(Math.PI * 75, within(1e-3));
        assertThat(1 / stretches.get(1).tightest()).isCloseTo(150, within(1e-3));
        assertThat(outline.runs().get(0).turning()).isCloseTo(0, within(1e-6));
    }

    @Test
    void heartHasTwoLobesPartedByItsCorners() {
        // point at the bottom, cleft at the top
        String path =
                "M0 0 L-100 -100 A 70.710678 70.710678 0 0 1 0 -200"
                        + " A 70.710678 70.710678 0 0 1 100 -100 Z";
        Outline outline = Outline.ofPath(path, TIGHTEST_MM);

        assertThat(outline.lengthMm())
                .isCloseTo(2 * Math.hypot(100, 100) + 2 * Math.PI * 70.710678, within(0.01));
        assertThat(outline.corners())
                .extracting(c -> (double) Math.round(Math.toDegrees(c.angle())))
                .containsExactlyInAnyOrder(90.0, -90.0);
        assertThat(stretches(outline)).extracting(Stretch::shrink).containsExactly(true, true);
        assertThat(outline.runs().get(0).turning()).isCloseTo(2 * Math.PI, within(1e-5));
    }

    @Test
    void halfArcsAreHalfWhereverTheyLie() {
        Outline circle =
                Outline.ofPath(
                        "M1166.7 -2200.3A33.35 33.35 0 1 1 1233.4 -2200.3"
                                + "A33.35 33.35 0 1 1 1166.7 -2200.3",
                        TIGHTEST_MM);
        assertThat(circle.lengthMm()).isCloseTo(2 * Math.PI * 33.35, within(1e-4));
        assertThat(circle.corners()).isEmpty();
    }

    @Test
    void sineIsIntegratedAsItIs() {
        // y = 50 sin(x/100) as straights, against Simpson's rule
        StringBuilder path = new StringBuilder("M0 0");
        for (int i = 1; i <= 1000; i++) {
            double x = 2 * Math.PI * 100 * i / 1000;
            path.append(format(" L%.5f %.5f", x, 50 * Math.sin(x / 100)));
        }
        Outline outline = Outline.ofPath(path.toString(), TIGHTEST_MM);

        assertThat(outline.lengthMm())
                .isCloseTo(
                        simpson(
                                x -> Math.hypot(1, 0.5 * Math.cos(x / 100)),
                                0,
                                2 * Math.PI * 100,
                                10_000),
                        within(0.1));
        assertThat(stretches(outline)).hasSize(2);
        assertThat(1 / stretches(outline).get(0).tightest())
                .isCloseTo(100.0 * 100 / 50, within(2.0));
    }

    @ParameterizedTest(name = "{0} points with {1} decimals")
    @CsvSource({"100, 3", "300, 2", "300, 4", "1000, 2", "1000, 3", "2000, 2"})
    void tightestBendOfRandomCurvesIsFoundInTheirPoints(int points, int decimals) {
        SplittableRandom random = new SplittableRandom(5);
        double sum = 0;
        for (int i = 0; i < 40; i++) {
            double r = random.nextDouble(120, 500);
            double[] share = new double[6];
            double[] phase = new double[6];
            for (int k = 2; k < 6; k++) {
                share[k] = random.nextDouble(-0.12, 0.12) * r / Math.pow(k, 1.5);
                phase[k] = random.nextDouble(0, 2 * Math.PI);
            }
            double tightest = 0;
            for (int j = 0; j < 20_000; j++) {
                double t = 2 * Math.PI * j / 20_000;
                double rho = r;
                double first = 0;
                double second = 0;
                for (int k = 2; k < 6; k++) {
                    rho += share[k] * Math.cos(k * t + phase[k]);
                    first -= k * share[k] * Math.sin(k * t + phase[k]);
                    second -= k * k * share[k] * Math.cos(k * t + phase[k]);
                }
                // curvature in polar coordinates
                tightest =
                        Math.max(
                                tightest,
                                (rho * rho + 2 * first * first - rho * second)
                                        / Math.pow(rho * rho + first * first, 1.5));
            }
            StringBuilder path = new StringBuilder("M");
            for (int j = 0; j < points; j++) {
                double t = 2 * Math.PI * j / points;
                double rho = r;
                for (int k = 2; k < 6; k++) {
                    rho += share[k] * Math.cos(k * t + phase[k]);
                }
                path.append(
                        format(
                                " %." + decimals + "f,%." + decimals + "f",
                                rho * Math.cos(t),
                                rho * Math.sin(t)));
            }
            double found =
                    stretches(Outline.ofPath(path + "Z", TIGHTEST_MM)).stream()
                            .filter(Stretch::shrink)
                            .mapToDouble(Stretch::tightest)
                            .max()
                            .orElseThrow();
            assertThat(found).isCloseTo(tightest, within(0.02 * tightest));
            sum += Math.abs(found / tightest - 1);
        }
        assertThat(sum / 40).isLessThan(0.004);
    }

    @Test
    void cornersAndBendsTooTightAreReported() {
        assertThat(Outline.ofPath("M0 0 H100 V80 H0 Z", TIGHTEST_MM).corners()).hasSize(4);
        Outline tight = Outline.ofPath(roundedRectangle(200, 100, 5), TIGHTEST_MM);
        assertThat(tight.corners()).hasSize(4);
        assertThat(tight.corners())
                .extracting(Corner::angle)
                .allSatisfy(a -> assertThat(a).isCloseTo(Math.PI / 2, within(1e-4)));
        assertThat(stretches(tight)).isEmpty();
        assertThat(tight.runs().get(0).turning()).isCloseTo(2 * Math.PI, within(1e-6));
        assertThat(Outline.ofPath(roundedRectangle(200, 100, 10), TIGHTEST_MM).corners()).isEmpty();
    }

    @Test
    void severalRunsAreFollowedOneByOne() {
        Outline outline =
                Outline.ofPath(
                        "M0 0 A50 50 0 0 1 100 0 M300 0 Q 350 100 400 0 T 500 0", TIGHTEST_MM);

        assertThat(outline.runs()).extracting(Run::closed).containsExactly(false, false);
        // y = x (100 − x) / 100 twice: arc length by Simpson's rule
        assertThat(outline.runs().get(1).lengthMm())
                .isCloseTo(2 * simpson(x -> Math.hypot(1, 2 - x / 25), 0, 100, 1000), within(1e-3));
    }

    @Test
    void segmentsGoOnInTheDirectionOfTheLast() {
        Outline outline =
                Outline.ofSegments(
                        List.of(
                                new Bend(100, 0),
                                new Bend(Math.PI * 50, 1.0 / 100),
                                new Bend(40, -1.0 / 200)),
                        TIGHTEST_MM);
        Run run = outline.runs().get(0);

        assertThat(outline.lengthMm()).isCloseTo(140 + Math.PI * 50, within(1e-9));
        assertThat(run.turning()).isCloseTo(Math.PI / 2 - 0.2, within(1e-9));
        assertThat(outline.stretches(true, 1e-6))
                .extracting(Stretch::shrink)
                .containsExactly(true, false);
    }

    @Test
    void slipOfDrawingPartsNoStretch() {
        // two arcs with 0.14° the other way between them; at 1.4° it is meant
        Bend arc = new Bend(100, 1.0 / 200);

        List<Stretch> slip =
                Outline.ofSegments(List.of(arc, new Bend(5, -1.0 / 2000), arc), TIGHTEST_MM)
                        .stretches(true, 1e-6);
        assertThat(slip).hasSize(1);
        assertThat(slip.get(0).lengthMm()).isCloseTo(205, within(1e-9));
        assertThat(slip.get(0).bentMm()).isCloseTo(200, within(1e-9));
        assertThat(
                        Outline.ofSegments(
                                        List.of(arc, new Bend(50, -1.0 / 2000), arc), TIGHTEST_MM)
                                .stretches(true, 1e-6))
                .extracting(Stretch::shrink)
                .containsExactly(true, false, true);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "M", "M0 0", "M0 0 L", "Q", "hello", "M0 0 X 5"})
    void whatDrawsNothingOrCannotBeReadIsRefused(String path) {
        assertThatThrownBy(() -> Outline.ofPath(path, TIGHTEST_MM))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageMatching("(is not SVG path data|draws nothing).*");
    }

    @ParameterizedTest
    @ValueSource(strings = {"M0 0 L1e999 0", "M0 0 L 2e8 5", "M0 0 A 1e30 1e30 0 0 1 1e30 5"})
    void whatReachesTooFarIsRefused(String path) {
        assertThatThrownBy(() -> Outline.ofPath(path, TIGHTEST_MM))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("100 m");
    }

    private static void assertOneStretch(
            Outline outline, boolean shrink, double length, double radius, double share) {
        assertThat(outline.lengthMm()).isCloseTo(length, within(0.001 * length));
        List<Stretch> stretches = stretches(outline);
        assertThat(stretches).hasSize(1);
        assertThat(stretches.get(0).shrink()).isEqualTo(shrink);
        assertThat(stretches.get(0).lengthMm()).isCloseTo(length, within(0.001 * length));
        assertThat(1 / stretches.get(0).tightest()).isCloseTo(radius, within(share * radius));
    }

    private static List<Stretch> stretches(Outline outline) {
        return outline.stretches(true, 0.0005 / 40);
    }

    private static String polygon(int n, double radius, int decimals) {
        StringBuilder path = new StringBuilder("M");
        for (int i = 0; i < n; i++) {
            double t = 2 * Math.PI * i / n;
            path.append(
                    format(
                            " %." + decimals + "f,%." + decimals + "f",
                            radius * Math.cos(t),
                            radius * Math.sin(t)));
        }
        return path + "z";
    }

    private static String roundedRectangle(double w, double h, double r) {
        return format(
                "M%3$f 0 h%4$f a%3$f %3$f 0 0 1 %3$f %3$f v%5$f a%3$f %3$f 0 0 1 -%3$f %3$f"
                        + " h-%4$f a%3$f %3$f 0 0 1 -%3$f -%3$f v-%5$f a%3$f %3$f 0 0 1 %3$f -%3$f z",
                w, h, r, w - 2 * r, h - 2 * r);
    }

    private static double simpson(DoubleUnaryOperator f, double from, double to, int steps) {
        double h = (to - from) / steps;
        double sum = f.applyAsDouble(from) + f.applyAsDouble(to);
        for (int i = 1; i < steps; i++) {
            sum += f.applyAsDouble(from + i * h) * (i % 2 == 1 ? 4 : 2);
        }
        return sum * h / 3;
    }

    private static String format(String pattern, Object... values) {
        return String.format(Locale.ROOT, pattern, values);
    }
}
