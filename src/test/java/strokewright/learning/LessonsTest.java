package strokewright.learning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import strokewright.job.Booking;
import strokewright.learning.LearnedModel.Known;
import strokewright.learning.SimulatedShop.Job;
import strokewright.learning.SimulatedShop.Line;

/** What is learned is held against what is known of simulated shops. */
class LessonsTest {

    private static final int JOBS = 40;
    private static final int TRIALS = 200;

    @Test
    void afterFortyJobsEstimatesAreNearlyAsGoodAsOfOneWhoKnowsAllFactors_seeds1to100() {
        int shops = 100;
        double[] ratios = new double[shops];
        double covered = 0;
        double asked = 0;
        for (int s = 0; s < shops; s++) {
            SimulatedShop shop = new SimulatedShop(s + 1);
            LearnedModel model = Lessons.of(finished(shop, JOBS)).model();
            Random random = new Random(s);
            double ours = 0;
            double best = 0;
            for (int j = 0; j < 80; j++) {
                Job job = shop.job();
                double estimate = 0;
                double known = 0;
                for (Line line : job.lines()) {
                    estimate += line.estimated() * Math.exp(known(model, line).mean());
                    known += line.estimated() * Math.exp(shop.truth(line));
                }
                ours += Math.abs(estimate / job.actual() - 1);
                best += Math.abs(known / job.actual() - 1);
                asked++;
                covered += job.actual() <= p80(model, job, random) ? 1 : 0;
            }
            ratios[s] = ours / best;
        }
        Arrays.sort(ratios);
        assertThat(ratios[shops / 2]).isLessThan(1.075);
        assertThat(covered / asked).isCloseTo(0.80, within(0.02));
    }

    private static Known known(LearnedModel model, Line line) {
        return model.known(
                SimulatedShop.kindName(line.kind()), SimulatedShop.familyName(line.family()));
    }

    private static double p80(LearnedModel model, Job job, Random random) {
        double[] trials = new double[TRIALS];
        for (int t = 0; t < TRIALS; t++) {
            double effect = model.jobSpread() * random.nextGaussian();
            for (Line line : job.lines()) {
                Known known = known(model, line);
                trials[t] +=
                        line.estimated()
                                * Math.exp(
                                        known.mean()
                                                + effect
                                                + known.spread() * random.nextGaussian());
            }
        }
        Arrays.sort(trials);
        return trials[TRIALS * 4 / 5];
    }

    private static List<Observation> finished(SimulatedShop shop, int jobs) {
        List<Observation> all = new ArrayList<>();
        for (int j = 0; j < jobs; j++) {
            all.addAll(SimulatedShop.observed(shop.job()));
        }
        return all;
    }

    @Test
    void aKindThatGrewSlowerIsNoticedWithinTwelveJobs_1000Runs() {
        Random random = new Random(11);
        int runs = 1000;
        for (int[] quiet : new int[][] {{5, 30}, {10, 72}, {20, 80}, {40, 85}, {100, 86}}) {
            int noticed = 0;
            for (int run = 0; run < runs; run++) {
                double[] y = scattered(random, 0.15, quiet[0] + 12);
                for (int i = quiet[0]; i < y.length; i++) {
                    y[i] += Math.log(1.2);
                }
                noticed +=
                        drift(y).alarms().stream().anyMatch(a -> a.at() >= quiet[0] && a.slower())
                                ? 1
                                : 0;
            }
            assertThat(100.0 * noticed / runs).as("after %d", quiet[0]).isGreaterThan(quiet[1]);
        }
    }

    @Test
    void aHundredQuietJobsGiveOneFalseAlarmAtMost_1000RunsEach() {
        for (double sigma : new double[] {0.10, 0.15, 0.25, 0.35}) {
            Random random = new Random(12);
            int runs = 1000;
            int first = 0;
            int later = 0;
            for (int run = 0; run < runs; run++) {
                for (Drift.Alarm alarm : drift(scattered(random, sigma, 140)).alarms()) {
                    first += alarm.at() < 100 ? 1 : 0;
                    later += alarm.at() >= 40 ? 1 : 0;
                }
            }
            assertThat((double) first / runs).as("%s", sigma).isLessThan(1);
            assertThat((double) later / runs).as("%s", sigma).isLessThan(1);
        }
    }

    @Test
    void aDriftOverFiveJobsIsNoticedTooAndTwoJobsOfFourTimesTheHoursHideNone_400Runs() {
        Random random = new Random(13);
        int gradual = 0;
        int odd = 0;
        int runs = 400;
        for (int run = 0; run < runs; run++) {
            double[] slow = scattered(random, 0.15, 36);
            double[] step = scattered(random, 0.15, 36);
            step[9] += Math.log(4);
            step[17] += Math.log(4);
            for (int i = 24; i < 36; i++) {
                slow[i] += Math.log(1.2) * Math.min(1, (i - 23) / 5.0);
                step[i] += Math.log(1.2);
            }
            gradual += drift(slow).alarms().stream().anyMatch(a -> a.at() >= 24) ? 1 : 0;
            odd += drift(step).alarms().stream().anyMatch(a -> a.at() >= 24) ? 1 : 0;
        }
        assertThat(100.0 * gradual / runs).isGreaterThan(72);
        assertThat(100.0 * odd / runs).isGreaterThan(60);
    }

    @Test
    void anAlarmPassesWhenLaterJobsGoBack() {
        double[] y = IntStream.range(0, 40).mapToDouble(i -> i % 2 == 0 ? 0.1 : -0.1).toArray();
        for (int i = 20; i < 24; i++) {
            y[i] += 0.35;
        }

        Drift passed = drift(y);
        Drift fresh = drift(Arrays.copyOf(y, passed.alarms().get(0).at() + Drift.SETTLING));

        assertThat(fresh.alarms()).singleElement().satisfies(a -> assertThat(a.passed()).isFalse());
        assertThat(fresh.change()).isPresent();
        assertThat(passed.alarms()).singleElement().satisfies(a -> assertThat(a.passed()).isTrue());
        assertThat(passed.change()).isEmpty();
        assertThat(DriftWords.of(passed, passed.alarms().get(0))).contains("It has passed");
        assertThat(DriftWords.of(fresh, fresh.alarms().get(0))).doesNotContain("passed");
    }

    @Test
    void anAlarmTellsWhenAndByHowMuch() {
        double[] y = scattered(new Random(5), 0.05, 40);
        for (int i = 25; i < 40; i++) {
            y[i] += Math.log(1.2);
        }

        Drift drift = drift(y);

        assertThat(drift.alarms()).hasSize(1);
        assertThat(drift.alarms().get(0).since()).isCloseTo(25, within(1));
        assertThat(drift.alarms().get(0).slower()).isTrue();
        assertThat(drift.alarms().get(0).factor()).isCloseTo(1.2, within(0.08));
        assertThat(drift.alarms().get(0).ewmaAgrees()).isTrue();
        assertThat(drift.jobsSince(drift.alarms().get(0))).isCloseTo(15, within(1));
    }

    @Test
    void oneOddJobStandsOutButIsNoDrift() {
        double[] y = IntStream.range(0, 40).mapToDouble(i -> i % 2 == 0 ? 0.1 : -0.1).toArray();
        y[30] += 1.2;

        Drift drift = drift(y);

        assertThat(drift.points().get(30).standsOut()).isTrue();
        assertThat(drift.alarms()).isEmpty();
    }

    @Test
    void fewerThanSixJobsBeforeSayNothingOfDrift() {
        Drift drift = drift(new double[] {0, 0, 0, 2, 2, 2});

        assertThat(drift.points()).hasSize(6).allMatch(p -> p.offBy() == null);
        assertThat(drift.alarms()).isEmpty();
    }

    @Test
    void jobsAfterAChangeCountForMoreThanThoseBefore() {
        double[] y = scattered(new Random(7), 0.10, 40);
        for (int i = 30; i < 40; i++) {
            y[i] += 0.30;
        }
        List<Observation> jobs =
                IntStream.range(0, y.length).mapToObj(i -> job(i, "dish", y[i])).toList();

        Known followed = Lessons.of(jobs).model().known("dish", "steel");
        Known steady = LearnedModel.of(jobs, Map.of()).known("dish", "steel");

        assertThat(followed.mean()).isGreaterThan(steady.mean() + 0.05).isBetween(0.15, 0.30);
    }

    @Test
    void onlyTheMetalThatChangedIsBlamed_seeds1to40() {
        int noticed = 0;
        int blamed = 0;
        for (int seed = 1; seed <= 40; seed++) {
            Random random = new Random(seed);
            List<Observation> jobs = new ArrayList<>();
            for (int i = 0; i < 120; i++) {
                boolean stainless = i % 3 == 0;
                double more = stainless && i > 70 ? Math.log(1.35) : 0;
                String family = stainless ? "stainless" : "steel";
                for (String kind : List.of("dish", "smooth")) {
                    jobs.add(observed(i, kind, family, more + 0.12 * random.nextGaussian(), 60));
                }
            }
            for (Drift of : Lessons.of(jobs).families()) {
                boolean slower =
                        of.alarms().stream()
                                .anyMatch(a -> a.slower() && isAfter(of.points().get(a.at())));
                noticed += slower && of.subject().equals("stainless") ? 1 : 0;
                blamed += slower && of.subject().equals("steel") ? 1 : 0;
            }
        }
        assertThat(noticed).isEqualTo(40);
        assertThat(blamed).isLessThan(10);
    }

    private static boolean isAfter(Drift.Point point) {
        return point.finishedOn().isAfter(LocalDate.EPOCH.plusDays(70));
    }

    @Test
    void aFamilyInWhichOneKindIsDoneHasNoChartBesideThatOfTheKind() {
        List<Observation> jobs = new ArrayList<>();
        for (int i = 0; i < 12; i++) {
            jobs.add(observed(i, "dish", "copper", 0, 60));
            jobs.add(observed(i, i % 2 == 0 ? "dish" : "smooth", "steel", 0, 60));
        }

        assertThat(Lessons.of(jobs).families()).extracting(Drift::subject).containsExactly("steel");
    }

    @Test
    void noJobsTeachNothing() {
        Lessons lessons = Lessons.of(List.of());

        assertThat(lessons.kinds()).isEmpty();
        assertThat(lessons.model().known("dish", "steel").mean()).isZero();
    }

    @Test
    void oneJobIsHardlyBelieved() {
        LearnedModel model = Lessons.of(List.of(job(0, "dish", Math.log(2)))).model();

        assertThat(model.known("dish", "steel").mean()).isBetween(0.05, 0.45);
        assertThat(model.known("dish", "steel").spread()).isGreaterThan(0.25);
    }

    @Test
    void aFamilyThatWasNotSeenTakesTheLevelOfItsKind() {
        List<Observation> jobs = IntStream.range(0, 20).mapToObj(i -> job(i, "dish", 0.3)).toList();
        LearnedModel model = Lessons.of(jobs).model();

        Known seen = model.known("dish", "steel");
        Known other = model.known("dish", "copper");

        assertThat(other.mean()).isGreaterThan(0.1).isLessThanOrEqualTo(seen.mean());
        assertThat(other.spread()).isGreaterThan(seen.spread());
        assertThat(other.jobs()).isEqualTo(20);
    }

    @Test
    void whatAllWorkOfAJobHasInCommonIsTakenApartFromScatter() {
        Random random = new Random(9);
        List<Observation> jobs = new ArrayList<>();
        for (int i = 0; i < 200; i++) {
            double effect = 0.2 * random.nextGaussian();
            for (String kind : List.of("dish", "smooth", "curve-edge", "Deburr")) {
                jobs.add(observed(i, kind, "steel", effect + 0.1 * random.nextGaussian(), 60));
            }
        }
        LearnedModel model = Lessons.of(jobs).model();

        assertThat(model.jobSpread()).isCloseTo(0.2, within(0.03));
        assertThat(Math.sqrt(model.known("dish", "steel").scatter())).isCloseTo(0.1, within(0.03));
    }

    @Test
    void theOrderOfWorkWithinAJobChangesNothing() {
        List<Observation> jobs = finished(new SimulatedShop(77), 20);
        List<Observation> turned = new ArrayList<>();
        for (int i = 0; i < jobs.size(); ) {
            String number = jobs.get(i).job();
            List<Observation> job =
                    new ArrayList<>(jobs.stream().filter(o -> o.job().equals(number)).toList());
            i += job.size();
            java.util.Collections.reverse(job);
            turned.addAll(job);
        }

        for (Observation.Cell cell : Lessons.of(jobs).model().cells()) {
            Known one = Lessons.of(jobs).model().known(cell.kind(), cell.family());
            Known other = Lessons.of(turned).model().known(cell.kind(), cell.family());
            assertThat(other.mean()).isCloseTo(one.mean(), within(1e-9));
            assertThat(other.spread()).isCloseTo(one.spread(), within(1e-9));
        }
    }

    private static Observation job(int n, String kind, double y) {
        return observed(n, kind, "steel", y, 60);
    }

    private static Observation observed(
            int n, String kind, String family, double y, double minutes) {
        return new Observation(
                "J-" + n,
                LocalDate.EPOCH.plusDays(n),
                kind,
                family,
                minutes,
                minutes * Math.exp(y),
                Booking.Source.CLOCK,
                1);
    }

    private static Drift drift(double[] y) {
        List<Observation> jobs =
                IntStream.range(0, y.length).mapToObj(i -> job(i, "dish", y[i])).toList();
        return Lessons.drifts(jobs, Observation::kind, o -> 0).get(0);
    }

    private static double[] scattered(Random random, double sigma, int jobs) {
        return DoubleStream.generate(() -> sigma * random.nextGaussian()).limit(jobs).toArray();
    }
}
