package strokewright.learning;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.job.JobRecord;
import strokewright.learning.FinishedJobs.Worked;

/** From bookings on the steps of simulated jobs to the next estimates, end to end. */
class FinishedJobsTest {

    /** Without rework, and with three times as much as the book reserves for. */
    @ParameterizedTest(name = "rework in {0} of jobs, {1} of their work, seeds 1 to 12")
    @CsvSource({"0, 0", "0.4, 0.4"})
    void fortyJobsLaterEstimatesAreNearTheBestAndTheirP80Holds(double chance, double size) {
        int shops = 12;
        double[] ratios = new double[shops];
        double covered = 0;
        double asked = 0;
        for (int s = 0; s < shops; s++) {
            FinishedJobs shop = new FinishedJobs(s + 1, chance, size);
            ShopBook learned =
                    Taught.by(jobs(shop, 40), FinishedJobs.BOOK)
                            .factors(FinishedJobs.BOOK)
                            .in(FinishedJobs.BOOK);
            double ours = 0;
            double best = 0;
            for (int j = 0; j < 25; j++) {
                Worked job = shop.next();
                JobRecord.Line line = job.record().orders().get(0).items().get(0);
                Estimate.Hours hours =
                        Estimating.reckon(line.item().takeOff(), learned)
                                .forQuantity(line.quantity())
                                .hours();
                ours += Math.abs(hours.plan() / job.actualHours() - 1);
                best += Math.abs(job.knownHours() / job.actualHours() - 1);
                covered += job.actualHours() <= hours.p80() ? 1 : 0;
                asked++;
            }
            ratios[s] = ours / best;
        }
        Arrays.sort(ratios);
        assertThat(ratios[shops / 2]).isLessThan(1.08);
        // 300 jobs: chance alone moves the share by 2.3 points
        assertThat(covered / asked).isBetween(0.75, 0.87);
    }

    @Test
    void factorsInUseChangeNothingOfWhatIsProposed_seed3() {
        List<JobRecord> jobs = jobs(new FinishedJobs(3), 15);
        Factors first = Taught.by(jobs, FinishedJobs.BOOK).factors(FinishedJobs.BOOK);
        ShopBook adopted = first.in(FinishedJobs.BOOK);
        Factors second = Taught.by(jobs, adopted).factors(adopted);

        assertThat(second.in(adopted)).isEqualTo(adopted);
        assertThat(second.lines())
                .allSatisfy(
                        line -> {
                            assertThat(line.isNew()).isFalse();
                            assertThat(line.proposed())
                                    .isEqualTo(
                                            first.line(line.kind(), line.family())
                                                    .orElseThrow()
                                                    .proposed());
                        });
    }

    @Test
    void theReplayOfAJobKnowsOnlyThoseBefore_seed5() {
        List<JobRecord> jobs = jobs(new FinishedJobs(5), 14);
        Replay all = Replay.of(jobs, FinishedJobs.BOOK);
        Replay beginning = Replay.of(jobs.subList(0, 8), FinishedJobs.BOOK);

        assertThat(all.points().subList(0, 8)).isEqualTo(beginning.points());
        assertThat(all.points().get(0).learnedHours()).isNull();
        assertThat(all.points().get(1).learnedHours()).isNotNull();
        assertThat(all.quoted().jobs()).isEqualTo(14);
        assertThat(all.learned().jobs()).isEqualTo(13);
    }

    private static List<JobRecord> jobs(FinishedJobs shop, int count) {
        List<JobRecord> jobs = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            jobs.add(shop.next().record());
        }
        return jobs;
    }
}
