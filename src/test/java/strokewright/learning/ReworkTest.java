package strokewright.learning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import strokewright.estimate.Learned;
import strokewright.estimate.ShopBook;
import strokewright.job.Booking;
import strokewright.job.JobRecord;

/** The risk reserve against the rework that was booked. */
class ReworkTest {

    @Test
    void noJobsLeaveTheReserveAsItStands() {
        assertThat(Rework.factor(List.of())).isEqualTo(1);
    }

    @Test
    void theReserveOfTheBookCountsAsFiveJobs() {
        assertThat(Rework.factor(List.of(job(4, 100, 0)))).isCloseTo(5.0 / 6, within(1e-12));
        assertThat(Rework.factor(List.of(job(4, 100, 8)))).isCloseTo(7.0 / 6, within(1e-12));
        assertThat(Rework.factor(List.of(job(4, 100, 4)))).isCloseTo(1, within(1e-12));
    }

    @Test
    void ofOneJobNoMoreIsCountedThanItsWorkTook() {
        assertThat(Rework.factor(List.of(job(4, 100, 5000))))
                .isEqualTo(Rework.factor(List.of(job(4, 100, 100))));
    }

    @Test
    void anOlderJobCountsLess() {
        assertThat(Rework.weight(0)).isEqualTo(1);
        assertThat(Rework.weight(30)).isEqualTo(0.5);
        assertThat(Rework.factor(List.of(job(4, 100, 20), job(4, 100, 0))))
                .isLessThan(Rework.factor(List.of(job(4, 100, 0), job(4, 100, 20))));
    }

    @Test
    void fortyJobsWithoutReworkLeaveASixthAndALotOfReworkIsFound_seed6() {
        Random random = new Random(6);
        List<Rework> never = new ArrayList<>();
        List<Rework> much = new ArrayList<>();
        for (int i = 0; i < 40; i++) {
            double run = 30 + 200 * random.nextDouble();
            never.add(job(0.07 * run, run, 0));
            much.add(job(0.07 * run, run, random.nextDouble() < 0.4 ? 0.5 * run : 0));
        }

        assertThat(Rework.factor(never)).isCloseTo(5 / 31.4, within(0.005));
        assertThat(Rework.factor(much)).isBetween(1.6, 2.9);
    }

    @Test
    void whatJobsTookIsProposedAndTakenOverLikeAnyFactor_seed8() {
        FinishedJobs shop = new FinishedJobs(8, 1, 0.4);
        List<JobRecord> jobs = new ArrayList<>();
        for (int i = 0; i < 12; i++) {
            jobs.add(shop.next().record());
        }
        Factors factors = Taught.by(jobs, FinishedJobs.BOOK).factors(FinishedJobs.BOOK);
        Factors.Line line = factors.line(Learned.RESERVE, null).orElseThrow();

        assertThat(factors.lines().indexOf(line)).isEqualTo(factors.lines().size() - 1);
        assertThat(line.inUse()).isNull();
        assertThat(line.proposed().planFactor()).isGreaterThan(1.5);
        assertThat(line.proposed().spread()).isNull();
        // two of the twelve only had work that carries no reserve
        assertThat(line.behind()).hasSize(10).allMatch(b -> b.y() == null);
        assertThat(line.behind().get(0).actualMinutes())
                .isEqualTo(
                        jobs.get(11).bookings().stream()
                                .filter(b -> b.what() == Booking.What.REWORK)
                                .mapToDouble(Booking::minutes)
                                .sum());
        ShopBook adopted = factors.in(FinishedJobs.BOOK);
        assertThat(adopted.learnedLine(Learned.RESERVE, null)).contains(line.proposed());
        assertThat(
                        Taught.by(jobs, adopted)
                                .factors(adopted)
                                .line(Learned.RESERVE, null)
                                .orElseThrow()
                                .isNew())
                .isFalse();
    }

    private static Rework job(double reserve, double run, double rework) {
        return new Rework("J-1", LocalDate.EPOCH, reserve, run, rework, Booking.Source.CLOCK);
    }
}
