package strokewright.learning;

import java.time.LocalDate;
import java.util.List;
import strokewright.job.Booking;

/**
 * Rework of one finished job beside the reserve that the shop book plans on the minutes that its
 * work took.
 *
 * @param reserveMinutes without any learned factor, person-minutes
 * @param runMinutes booked, person-minutes
 * @param reworkMinutes booked, person-minutes
 * @param source the coarsest way in which the work was booked
 */
record Rework(
        String job,
        LocalDate finishedOn,
        double reserveMinutes,
        double runMinutes,
        double reworkMinutes,
        Booking.Source source) {

    /** The reserve of the book counts as so many jobs that took just that: assumed. */
    static final int BELIEVED = 5;

    Rework {
        if (!(reserveMinutes > 0 && runMinutes > 0 && reworkMinutes >= 0)) {
            throw new IllegalArgumentException(
                    "%s: %s, %s, %s".formatted(job, reserveMinutes, runMinutes, reworkMinutes));
        }
    }

    /** What is counted: making it anew at most, more is a mistake of whoever booked. */
    double counted() {
        return Math.min(reworkMinutes, runMinutes);
    }

    /** Half for a job that so many were finished after: as of any kind of work. */
    static double weight(int after) {
        return Math.pow(0.5, after / LearnedModel.HALF_LIFE);
    }

    /**
     * Rework over reserve, drawn towards the reserve as the book has it.
     *
     * @param jobs in the order in which they were finished
     */
    static double factor(List<Rework> jobs) {
        double weights = 0;
        double reserve = 0;
        double rework = 0;
        for (int i = 0; i < jobs.size(); i++) {
            double weight = weight(jobs.size() - 1 - i);
            weights += weight;
            reserve += weight * jobs.get(i).reserveMinutes;
            rework += weight * jobs.get(i).counted();
        }
        double believed = jobs.isEmpty() ? 1 : BELIEVED * reserve / weights;
        return (believed + rework) / (believed + reserve);
    }
}
