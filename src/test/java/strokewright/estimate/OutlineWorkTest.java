package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.estimate.Operation.FlangeSide;
import strokewright.estimate.Operation.FollowOutline;
import strokewright.estimate.Operation.Segment;
import strokewright.estimate.Operation.Sense;
import strokewright.quantity.Finding;

/** Minutes of outlines against edges of one radius and against a reckoning of their own. */
class OutlineWorkTest {

    private static final double H = 40;

    @ParameterizedTest(name = "radius {0}, {1}")
    @CsvSource({"300, al", "180, half", "900, steel", "450, 5xxx", "400, zinc"})
    void circleTakesWhatTheEdgeOfItsRadiusTakes(double radius, String grade) {
        Estimate.Line edge =
                line(
                        WorkedShop.curve(Sense.SHRINK, 2 * Math.PI * radius, radius, H, "soft"),
                        grade);
        Estimate.Line circle = line(path(circle(radius), FlangeSide.INSIDE), grade);

        assertThat(circle.passes()).isEqualTo(edge.passes());
        assertThat(circle.anneals()).isEqualTo(edge.anneals());
        assertThat(circle.strains().get(0)).isCloseTo(edge.strains().get(0), within(1e-6));
        assertThat(circle.edgeThicknessMm()).isCloseTo(edge.edgeThicknessMm(), within(1e-6));
        // an edge rounds its passes up, an outline the sum of its strokes
        double passes = edge.passes().stream().mapToInt(p -> p).sum();
        int cycles = edge.passes().size() * (edge.anneals() + 1);
        double pass = Math.ceil(2 * Math.PI * radius / 5);
        assertThat((double) edge.strokes() - circle.strokes())
                .isBetween(-passes - 2, cycles * pass);
        assertThat(circle.repositionMinutes()).isEqualTo(edge.repositionMinutes());
        assertThat(circle.checks()).isEqualTo(edge.checks());
    }

    @Test
    void flangeOutsideStretches() {
        Estimate.Line edge =
                line(WorkedShop.curve(Sense.STRETCH, 2 * Math.PI * 300, 300, H, "soft"), "steel");
        Estimate.Line circle = line(path(circle(300), FlangeSide.OUTSIDE), "steel");

        assertThat(circle.passes()).isEqualTo(edge.passes());
        assertThat(circle.outline().stretches().get(0).sense()).isEqualTo(Sense.STRETCH);
    }

    @ParameterizedTest(name = "{0} × {1} in {2}")
    @CsvSource({"260, 180, al", "300, 150, al", "500, 420, steel", "260, 200, 5xxx"})
    void ellipseTakesThePassesIntegratedAlongIt(double a, double b, String grade) {
        String path = format("M%1$f 0 A%1$f %2$f 0 0 1 -%1$f 0 A%1$f %2$f 0 0 1 %1$f 0 Z", a, b);
        Estimate.Line line = line(path(path, FlangeSide.INSIDE), grade);
        DoubleUnaryOperator needed = passesOf(grade);
        double strokes = 0;
        for (double y = H; y > 0; y -= 40) {
            double row = y;
            strokes +=
                    simpson(
                                    t -> {
                                        double speed = Math.hypot(a * Math.sin(t), b * Math.cos(t));
                                        double curvature = a * b / Math.pow(speed, 3);
                                        return speed
                                                * needed.applyAsDouble(
                                                        -Math.log(1 - row * curvature));
                                    },
                                    0,
                                    2 * Math.PI,
                                    4000)
                            / 5;
        }
        double perimeter =
                simpson(t -> Math.hypot(a * Math.sin(t), b * Math.cos(t)), 0, 2 * Math.PI, 4000);

        assertThat(line.outline().lengthMm()).isCloseTo(perimeter, within(0.001 * perimeter));
        assertThat(line.strains().get(0))
                .isCloseTo(-Math.log(1 - H * a / b / b), within(0.01 * H * a / b / b));
        double corrections = 2 * Math.ceil(perimeter / 5);
        assertThat((double) line.strokes())
                .isCloseTo(strokes + corrections, within(0.002 * strokes + 3));
    }

    @ParameterizedTest
    @ValueSource(strings = {"ellipse", "rounded", "wave", "egg"})
    void cuttingWithinHalfTheToleranceChangesMinutesByLessThanOnePercent(String shape) {
        double last = minutes(cut(shape, 1.0));
        for (double tolerance : new double[] {0.5, 0.25, 0.125, 0.06, 0.03, 0.015}) {
            double finer = minutes(cut(shape, tolerance));
            assertThat(finer)
                    .as("%s within %s", shape, tolerance)
                    .isCloseTo(last, within(0.01 * last));
            last = finer;
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"ellipse", "rounded", "wave", "egg"})
    void twiceAsManyPointsChangeMinutesByLessThanOnePercent(String shape) {
        double last = minutes(points(shape, 96));
        for (int n = 192; n <= 1536; n *= 2) {
            double finer = minutes(points(shape, n));
            assertThat(finer).as("%s of %d points", shape, n).isCloseTo(last, within(0.01 * last));
            last = finer;
        }
    }

    @Test
    void bezierCutInTwoIsTheSameBezier() {
        double[] heart = {0, 0, 260, -330, 520, 110, 0, 420};
        double whole = minutes(bezier(heart, 0));
        for (int times = 1; times <= 6; times++) {
            assertThat(minutes(bezier(heart, times))).isCloseTo(whole, within(0.002 * whole));
        }
    }

    private static String bezier(double[] p, int times) {
        return format("M%.6f %.6f", p[0], p[1]) + pieces(p, times);
    }

    /** De Casteljau's halving. */
    private static String pieces(double[] p, int times) {
        if (times == 0) {
            return format(" C%.6f %.6f %.6f %.6f %.6f %.6f", p[2], p[3], p[4], p[5], p[6], p[7]);
        }
        double[] left = new double[8];
        double[] right = new double[8];
        for (int i = 0; i < 2; i++) {
            double ab = (p[i] + p[2 + i]) / 2;
            double bc = (p[2 + i] + p[4 + i]) / 2;
            double cd = (p[4 + i] + p[6 + i]) / 2;
            double middle = (ab + 2 * bc + cd) / 4;
            double[] l = {p[i], ab, (ab + bc) / 2, middle};
            double[] r = {middle, (bc + cd) / 2, cd, p[6 + i]};
            for (int j = 0; j < 4; j++) {
                left[2 * j + i] = l[j];
                right[2 * j + i] = r[j];
            }
        }
        return pieces(left, times - 1) + pieces(right, times - 1);
    }

    private static String points(String shape, int n) {
        StringBuilder path = new StringBuilder("M");
        for (int i = 0; i <= n; i++) {
            double[] p = at(shape, i / (double) n);
            path.append(format(" %.4f,%.4f", p[0], p[1]));
        }
        return path.toString();
    }

    @Test
    void bothSensesAreWorkedEachInItsOwnStretch() {
        FollowOutline s =
                path("M0 0 A200 200 0 0 1 200 200 A150 150 0 0 0 350 350", FlangeSide.INSIDE);
        Estimate.Line line = line(s, "al");

        assertThat(line.outline().stretches())
                .extracting(Estimate.Stretched::sense)
                .containsExactly(Sense.SHRINK, Sense.STRETCH);
        Estimate.Line first =
                line(WorkedShop.curve(Sense.SHRINK, Math.PI * 100, 200, H, "soft"), "al");
        Estimate.Line second =
                line(WorkedShop.curve(Sense.STRETCH, Math.PI * 75, 150, H, "soft"), "al");
        assertThat(line.outline().stretches().get(0).passes()).isEqualTo(first.passes());
        assertThat(line.outline().stretches().get(1).passes()).isEqualTo(second.passes());
        assertThat(line.repositionMinutes())
                .isCloseTo(first.repositionMinutes() + second.repositionMinutes(), within(1e-9));
    }

    @Test
    void segmentsAreSignedByTheirSense() {
        FollowOutline segments =
                segments(
                        new Segment(500.0, null),
                        new Segment(600.0, 260.0),
                        new Segment(300.0, -400.0),
                        new Segment(200.0, 0.0));
        Estimate.Outlined outline = line(segments, "al").outline();

        assertThat(outline.lengthMm()).isCloseTo(1600, within(1e-9));
        assertThat(outline.stretches())
                .extracting(Estimate.Stretched::sense)
                .containsExactly(Sense.SHRINK, Sense.STRETCH);
        assertThat(line(segments(new Segment(900.0, -250.0)), "steel").outline().stretches())
                .extracting(Estimate.Stretched::sense)
                .containsExactly(Sense.STRETCH);
    }

    @Test
    void stationsStandEvery120MmOfAFreeOutline() {
        // 600 mm: 5 stations; ⌈P/3⌉ + 2 checks
        Estimate.Line line = line(segments(new Segment(600.0, 260.0)), "al");

        assertThat(line.checkMinutes()).isCloseTo(line.checks() * 5 * 15 / 60.0, within(1e-9));
    }

    @Test
    void correctionsRunOverWhatIsBentAndChecksOverTheStraightsBetween() {
        // two arcs of 300 mm with a straight of 400 mm between: 2 × ⌈600 / 5⌉ strokes more than the
        // row takes, and ⌈1000 / 120⌉ stations
        Segment arc = new Segment(300.0, 260.0);
        Estimate.Line line = line(segments(arc, new Segment(400.0, null), arc), "al");
        double passLength =
                line.why().stream()
                        .filter(w -> w.figure().equals("passLengthMm"))
                        .mapToDouble(w -> w.value())
                        .sum();

        assertThat(line.outline().stretches()).hasSize(1);
        assertThat((double) line.strokes()).isEqualTo(Math.ceil(passLength / 5) + 2 * 120);
        assertThat(line.checkMinutes()).isCloseTo(line.checks() * 9 * 15 / 60.0, within(1e-9));
    }

    @Test
    void heightOverTheTightestRadiusIsRefusedWithTheHeightThatWouldDo() {
        List<Finding> findings = line(segments(new Segment(100.0, 30.0)), "al").findings();

        assertThat(findings).extracting(Finding::code).containsExactly("height-not-under-radius");
        double height = (double) findings.get(0).change().get("heightMm");
        assertThat(height).isCloseTo(30, within(1e-6)).isLessThan(30);
    }

    @Test
    void longPiecesAreReportedWithTheirJoints() {
        ShopBook book =
                EditedBook.of(WorkedShop.book())
                        .with("/times/stockLengthMm", 2000)
                        .with("/times/folderLengthMm", 1000)
                        .book();
        TakeOff ring = WorkedShop.of(path(circle(400), FlangeSide.INSIDE), "al", 2);
        List<Finding> findings = Estimating.estimate(ring, book).findings();

        // 2513 mm round: two pieces with two joints, three with three
        assertThat(findings)
                .filteredOn(f -> f.code().equals("longer-than-stock"))
                .singleElement()
                .satisfies(f -> assertThat(f.values()).containsEntry("joints", 2));
        assertThat(findings)
                .filteredOn(f -> f.code().equals("longer-than-folder"))
                .singleElement()
                .satisfies(f -> assertThat(f.values()).containsEntry("joints", 3));
    }

    @Test
    void straightOutlineIsDoubtedAndTakesNothing() {
        Estimate.Line line = line(path("M0 0 H500", FlangeSide.INSIDE), "al");

        assertThat(line.machineMinutes()).isZero();
        assertThat(line.findings()).extracting(Finding::code).containsExactly("outline-straight");
    }

    private static double minutes(String path) {
        return line(path(path, FlangeSide.INSIDE), "al").machineMinutes();
    }

    private static Estimate.Line line(Operation.Formed operation, String grade) {
        return WorkedShop.lines(WorkedShop.of(operation, grade, 1.5)).get(0);
    }

    private static FollowOutline path(String path, FlangeSide side) {
        return new FollowOutline(path, null, H, side, null, null, "soft", "soft", null);
    }

    private static FollowOutline segments(Segment... segments) {
        return new FollowOutline(null, List.of(segments), H, null, null, null, "soft", null, null);
    }

    private static String circle(double r) {
        return format("M%1$f 0 A%1$f %1$f 0 0 1 -%1$f 0 A%1$f %1$f 0 0 1 %1$f 0 Z", r);
    }

    /** A curve cut into straights that stay within a tolerance, by halving. */
    private static String cut(String shape, double tolerance) {
        List<double[]> points = new ArrayList<>();
        int pieces = shape.equals("rounded") ? 8 : 6;
        for (int i = 0; i < pieces; i++) {
            halve(shape, i / (double) pieces, (i + 1) / (double) pieces, tolerance, points);
        }
        double[] end = at(shape, 1);
        points.add(end);
        StringBuilder path = new StringBuilder("M");
        points.forEach(p -> path.append(format(" %.4f,%.4f", p[0], p[1])));
        return path.toString();
    }

    private static void halve(
            String shape, double from, double to, double tolerance, List<double[]> points) {
        double[] a = at(shape, from);
        double[] b = at(shape, to);
        double worst = 0;
        for (int i = 1; i < 8; i++) {
            double[] p = at(shape, from + (to - from) * i / 8);
            double chord = Math.hypot(b[0] - a[0], b[1] - a[1]);
            worst =
                    Math.max(
                            worst,
                            chord == 0
                                    ? Math.hypot(p[0] - a[0], p[1] - a[1])
                                    : Math.abs(
                                                    (b[0] - a[0]) * (p[1] - a[1])
                                                            - (b[1] - a[1]) * (p[0] - a[0]))
                                            / chord);
        }
        if (worst <= tolerance) {
            points.add(a);
            return;
        }
        halve(shape, from, (from + to) / 2, tolerance, points);
        halve(shape, (from + to) / 2, to, tolerance, points);
    }

    private static double[] at(String shape, double t) {
        switch (shape) {
            case "ellipse":
                double e = 2 * Math.PI * t;
                return new double[] {320 * Math.cos(e), 200 * Math.sin(e)};
            case "wave":
                return new double[] {900 * t, 60 * Math.sin(2 * Math.PI * t)};
            case "egg":
                double g = 2 * Math.PI * t;
                // bends inwards nowhere: a dent that is hardly one may be seen or not
                double r = 240 + 20 * Math.cos(2 * g) + 8 * Math.sin(3 * g);
                return new double[] {r * Math.cos(g), r * Math.sin(g)};
            default:
                return rounded(t);
        }
    }

    /** Four straights of 200 and four quarters of radius 80, an eighth of the way each. */
    private static double[] rounded(double t) {
        int part = Math.min(7, (int) (t * 8));
        double rest = t * 8 - part;
        int side = part / 2;
        double x;
        double y;
        if (part % 2 == 0) {
            x = -100 + 200 * rest;
            y = -180;
        } else {
            double angle = -Math.PI / 2 + Math.PI / 2 * rest;
            x = 100 + 80 * Math.cos(angle);
            y = -100 + 80 * Math.sin(angle);
        }
        double turn = Math.PI / 2 * side;
        return new double[] {
            x * Math.cos(turn) - y * Math.sin(turn), x * Math.sin(turn) + y * Math.cos(turn)
        };
    }

    /** N by Simpson's rule over max(1/b, t·σ/W), for 1.5 mm with the soft tool. */
    private static DoubleUnaryOperator passesOf(String grade) {
        ShopBook.Grade g = WorkedShop.book().grade(grade).orElseThrow();
        double k = g.strengthCoefficientMpa();
        double n = g.hardeningExponent();
        double offset = Math.pow(g.proofMpa() / k, 1 / n);
        double w = 1000 * 1.25 / (5 * 40);
        return strain ->
                simpson(
                        x -> Math.max(1 / 0.012, 1.5 * k * Math.pow(offset + x, n) / w),
                        0,
                        strain,
                        200);
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
