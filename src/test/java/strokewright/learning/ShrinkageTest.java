package strokewright.learning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import strokewright.learning.Shrinkage.Group;
import strokewright.learning.Shrinkage.Level;

class ShrinkageTest {

    @Test
    void battingAveragesAreBelievedByTwentyOnePercent() {
        double[] hits = Published.sample("batting");
        double mean = Arrays.stream(hits).average().orElseThrow();
        double variance = mean * (1 - mean) / 45;
        List<Group> groups = Arrays.stream(hits).mapToObj(y -> new Group(y, variance)).toList();

        double believed =
                Shrinkage.believed(variance, Shrinkage.between(List.of(groups)), groups.size());

        assertThat(mean).isCloseTo(0.265, within(5e-4));
        assertThat(believed).isCloseTo(0.2124, within(5e-4));
        assertThat(Shrinkage.level(groups.get(0), mean, believed).mean())
                .isCloseTo(0.294, within(5e-4));
        assertThat(Shrinkage.level(groups.get(17), mean, believed).mean())
                .isCloseTo(0.242, within(5e-4));
    }

    @Test
    void eightSchoolsLieNoFurtherApartThanTheyScatter() {
        List<Group> schools = schools();

        Level common = Shrinkage.common(schools, 0);

        assertThat(common.mean()).isCloseTo(7.69, within(5e-3));
        assertThat(Math.sqrt(common.variance())).isCloseTo(4.07, within(5e-3));
        assertThat(Shrinkage.heterogeneity(schools)).isCloseTo(4.707, within(5e-4));
        assertThat(Shrinkage.between(List.of(schools))).isZero();
    }

    @Test
    void eightSchoolsAreDrawnTogetherWhenWhatLiesBetweenThemIsKnown() {
        List<Group> schools = schools();
        double[] levels = Published.sample("schools-level");

        Level common = Shrinkage.common(schools, 25);

        assertThat(common.mean()).isCloseTo(7.8510, within(5e-5));
        assertThat(Math.sqrt(common.variance())).isCloseTo(4.4921, within(5e-5));
        for (int i = 0; i < levels.length; i++) {
            Group school = schools.get(i);
            assertThat(
                            Shrinkage.level(
                                            school,
                                            common.mean(),
                                            Shrinkage.believed(school.variance(), 25))
                                    .mean())
                    .isCloseTo(levels[i], within(5e-5));
        }
    }

    @Test
    void fiveJobsOfAFamilyAreHalfBelieved() {
        double variance = 0.35 * 0.35 / 5;

        double believed = Shrinkage.believed(variance, 0.15 * 0.15);
        Level level = Shrinkage.level(new Group(0.20, variance), 0, believed);

        assertThat(believed).isCloseTo(0.478723, within(5e-7));
        assertThat(level.mean()).isCloseTo(0.095745, within(5e-7));
        assertThat(Math.sqrt(level.variance())).isCloseTo(0.108299, within(5e-7));
        assertThat(Math.exp(level.mean())).isCloseTo(1.100478, within(5e-7));
    }

    @Test
    void theMeanOfARatioLiesAboveItsMiddle() {
        assertThat(Shrinkage.meanRatio(-0.0574, 0.35498 * 0.35498))
                .isCloseTo(1.00562, within(5e-6));
    }

    @Test
    void setsOfGroupsAreTakenTogether() {
        List<Group> one = List.of(new Group(0, 1), new Group(6, 1));
        List<Group> other = List.of(new Group(100, 1), new Group(106, 1));

        assertThat(Shrinkage.between(List.of(one, other)))
                .isEqualTo(Shrinkage.between(List.of(one)))
                .isCloseTo(17, within(1e-12));
        assertThat(Shrinkage.between(List.of(List.of(new Group(3, 1))))).isZero();
    }

    private static List<Group> schools() {
        double[] y = Published.sample("schools");
        double[] sigma = Published.sample("schools-sigma");
        List<Group> schools = new ArrayList<>();
        for (int i = 0; i < y.length; i++) {
            schools.add(new Group(y[i], sigma[i] * sigma[i]));
        }
        return schools;
    }
}
