package strokewright.learning;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.job.Booking;

/**
 * What one finished job says about one kind of work in one metal family, or about set-up.
 *
 * @param job number
 * @param kind of an operation, name of a time standard, or {@link
 *     strokewright.estimate.Learned#SETUP}
 * @param family null without metal, and for set-up
 * @param estimatedMinutes person-minutes as reckoned today, without learned factors
 * @param actualMinutes person-minutes booked
 * @param source the coarsest way in which they were booked
 * @param doubt how far off the information behind the quote lets a whole job be, compared with a
 *     drawing
 */
record Observation(
        String job,
        LocalDate finishedOn,
        String kind,
        @Nullable String family,
        double estimatedMinutes,
        double actualMinutes,
        Booking.Source source,
        double doubt) {

    Observation {
        if (!(estimatedMinutes > 0 && actualMinutes > 0 && doubt > 0)) {
            throw new IllegalArgumentException(
                    "not positive: %s, %s, %s".formatted(estimatedMinutes, actualMinutes, doubt));
        }
    }

    /** Natural logarithm of actual over estimated. */
    double y() {
        return Math.log(actualMinutes / estimatedMinutes);
    }

    Cell cell() {
        return new Cell(kind, family);
    }

    /** A kind of work in a metal family. */
    record Cell(String kind, @Nullable String family) {}

    /** Jobs that stand behind some of them. */
    static int jobs(List<Observation> of) {
        return (int) of.stream().map(Observation::job).distinct().count();
    }
}
