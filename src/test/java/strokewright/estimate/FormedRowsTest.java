package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.estimate.FormedRows.Place;
import strokewright.estimate.FormedRows.Row;
import strokewright.estimate.Operation.Sense;
import strokewright.forming.PassCourse;
import strokewright.forming.PassCourse.Held;

class FormedRowsTest {

    /** Metals, thicknesses, tools, anneals, senses and shapes of every kind. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1101, 1102, 1103, 1104})
    void rowsAndCourseAgreeWithTheLine(long seed) {
        RandomTakeOffs takeOffs = RandomTakeOffs.withFolds(seed);
        int courses = 0;
        int withAnneal = 0;
        for (int i = 0; i < 60; i++) {
            Estimate estimate = Estimating.estimate(takeOffs.next(), WorkedShop.book());
            for (Estimate.Line line : estimate.operations()) {
                List<FormedRows> all = FormedRows.of(line);
                agree(line, all);
                for (FormedRows rows : all) {
                    if (rows.course() != null) {
                        courses++;
                        withAnneal += rows.course().anneals() > 0 ? 1 : 0;
                    }
                }
            }
        }
        assertThat(courses).isGreaterThan(100);
        assertThat(withAnneal).isGreaterThan(5);
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1201, 1202})
    void stretchesOfOutlinesToo(long seed) {
        java.util.SplittableRandom random = new java.util.SplittableRandom(seed);
        for (int i = 0; i < 40; i++) {
            List<Operation.Segment> segments = new ArrayList<>();
            for (int s = random.nextInt(1, 6); s > 0; s--) {
                double sign = random.nextBoolean() ? 1 : -1;
                segments.add(
                        new Operation.Segment(
                                random.nextDouble(50, 600), sign * random.nextDouble(60, 900)));
            }
            Estimate.Line line =
                    WorkedShop.lines(
                                    WorkedShop.of(
                                            new Operation.FollowOutline(
                                                    null,
                                                    segments,
                                                    random.nextDouble(10, 50),
                                                    null,
                                                    null,
                                                    null,
                                                    null,
                                                    null,
                                                    null),
                                            random.nextBoolean() ? "al" : "steel",
                                            random.nextDouble(0.8, 3)))
                            .get(0);
            agree(line, FormedRows.of(line));
        }
    }

    private static void agree(Estimate.Line line, List<FormedRows> all) {
        if (line.outline() != null) {
            assertThat(all).hasSameSizeAs(line.outline().stretches());
            for (int i = 0; i < all.size(); i++) {
                Estimate.Stretched stretch = line.outline().stretches().get(i);
                assertThat(all.get(i).place()).isEqualTo(Place.STRETCH);
                agree(all.get(i), stretch.strains(), stretch.passes(), stretch.anneals());
            }
            return;
        }
        List<FormedRows> expected = new ArrayList<>(all);
        if (line.crown() != null) {
            FormedRows crown = expected.remove(expected.size() - 1);
            assertThat(crown.place()).isEqualTo(Place.CROWN);
            assertThat(crown.correctionPasses()).isZero();
            agree(
                    crown,
                    List.of(line.crown().strain()),
                    List.of(line.crown().passes()),
                    line.crown().anneals());
        }
        if (line.strains() == null || line.strains().isEmpty()) {
            assertThat(expected).isEmpty();
            return;
        }
        assertThat(expected).hasSize(1);
        assertThat(expected.get(0).place())
                .isEqualTo(line.rimShare() != null ? Place.RIM : Place.EDGE);
        assertThat(expected.get(0).correctionPasses()).isEqualTo(line.correctionPasses());
        agree(expected.get(0), line.strains(), line.passes(), line.anneals());
    }

    private static void agree(
            FormedRows rows, List<Double> strains, List<Integer> passes, int anneals) {
        assertThat(rows.rows()).extracting(Row::strain).isEqualTo(strains);
        assertThat(rows.rows()).extracting(Row::passes).isEqualTo(passes);
        int outermost = passes.get(passes.size() - 1);
        PassCourse course = rows.course();
        if (course == null) {
            assertThat(outermost).satisfiesAnyOf(p -> assertThat(p).isZero(), FormedRowsTest::many);
            return;
        }
        assertThat(course.passes()).isEqualTo(outermost);
        assertThat(course.anneals()).isEqualTo(anneals);
        double before = 0;
        for (PassCourse.Cycle cycle : course.cycles()) {
            for (PassCourse.Pass pass : cycle.passes()) {
                assertThat(pass.from()).isCloseTo(before, within(1e-12));
                assertThat(pass.to()).isGreaterThan(pass.from());
                before = pass.to();
            }
        }
        assertThat(before).isCloseTo(strains.get(strains.size() - 1), within(1e-12));
    }

    private static void many(int passes) {
        assertThat(passes).isGreaterThan(strokewright.forming.PassPlan.MOST_PASSES);
    }

    /** The shrunk ones are worked first, whatever their place along the outline. */
    @Test
    void aStretchBearsItsNumberAlongTheOutline() {
        List<Operation.Segment> segments =
                List.of(
                        new Operation.Segment(300.0, -150.0),
                        new Operation.Segment(200.0, 90.0),
                        new Operation.Segment(300.0, -400.0));
        Estimate.Line line =
                WorkedShop.lines(
                                WorkedShop.of(
                                        new Operation.FollowOutline(
                                                null, segments, 20.0, null, null, null, null, null,
                                                null),
                                        "al",
                                        1.5))
                        .get(0);

        assertThat(FormedRows.of(line))
                .extracting(r -> r.stretch().number())
                .containsExactly(2, 1, 3);
    }

    @Test
    void rowsAreToldByHowFarTheyLieFromTheEdge() {
        FormedRows edge =
                FormedRows.of(
                                WorkedShop.lines(
                                                WorkedShop.of(
                                                        WorkedShop.curve(
                                                                Sense.STRETCH,
                                                                900,
                                                                250,
                                                                40,
                                                                "steel"),
                                                        "steel",
                                                        1.5))
                                        .get(0))
                        .get(0);

        assertThat(edge.rows()).extracting(Row::fromEdgeMm).containsExactly(25.0, 0.0);
    }

    @Test
    void ringsOfADishAreToldByTheArcFromTheRim() {
        Operation.Dish dish =
                new Operation.Dish(300.0, 60.0, null, 0.0, null, null, "steel", "crown", null);
        List<FormedRows> all =
                FormedRows.of(WorkedShop.lines(WorkedShop.of(dish, "al", 1.5)).get(0));

        assertThat(all).extracting(FormedRows::place).containsExactly(Place.RIM, Place.CROWN);
        assertThat(all.get(0).rows()).hasSize(5);
        assertThat(all.get(0).rows().get(3).fromEdgeMm()).isCloseTo(25, within(1e-9));
        assertThat(all.get(1).rows().get(0).fromEdgeMm()).isNull();
    }

    @Test
    void zincGoesByItsStrainPerPass() {
        FormedRows edge =
                FormedRows.of(
                                WorkedShop.lines(
                                                WorkedShop.of(
                                                        WorkedShop.curve(
                                                                Sense.STRETCH,
                                                                900,
                                                                250,
                                                                20,
                                                                "soft"),
                                                        "zinc",
                                                        1))
                                        .get(0))
                        .get(0);

        assertThat(edge.course().cycles().get(0).passes())
                .extracting(PassCourse.Pass::held)
                .containsOnly(Held.STATED)
                .hasSize(8);
    }
}
