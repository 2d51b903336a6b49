package strokewright.learning;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimating;
import strokewright.estimate.Learned;
import strokewright.estimate.PlannedStep;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.estimate.WorkStep;
import strokewright.job.Booking;
import strokewright.job.Booking.What;
import strokewright.job.JobKind;
import strokewright.job.JobRecord;
import strokewright.job.Step;
import strokewright.learning.LeftOut.Reason;
import strokewright.learning.Observation.Cell;
import strokewright.quantity.InvalidInput;

/**
 * What one finished job says about its kinds of work, against its take-offs as an edition of the
 * shop book reckons them for the pieces made, without learned factors and without the estimator's
 * own minutes.
 *
 * @param rework null where nothing of the job was booked on its steps, or no reserve was planned
 */
record Evidence(List<Observation> observations, @Nullable Rework rework, List<LeftOut> leftOut) {

    private static final double LEAST_MINUTES = 10;
    private static final double MOST_OFF = Math.log(10);

    /** Beyond this share booked on the whole job, nothing below it can be believed. */
    private static final double MOST_WHOLE_JOB = 0.25;

    private static final double HALF = 0.5;

    private static final Cell SETUP = new Cell(Learned.SETUP, null);

    Evidence {
        observations = List.copyOf(observations);
        leftOut = List.copyOf(leftOut);
    }

    /**
     * @param bare edition without learned factors
     */
    static Evidence of(JobRecord job, ShopBook bare) {
        Map<What, Double> booked = minutes(job.bookings());
        List<LeftOut> leftOut = new ArrayList<>();
        Reason whole = whole(job, booked);
        if (whole == null) {
            try {
                return new Reading(job, bare, booked).evidence();
            } catch (InvalidInput e) {
                whole = Reason.NOT_RECKONABLE;
            }
        }
        double all = booked.values().stream().mapToDouble(Double::doubleValue).sum();
        leftOut.add(LeftOut.job(job.number(), whole, all));
        return new Evidence(List.of(), null, leftOut);
    }

    /** Why nothing at all is learned from a job; null when something may be. */
    private static @Nullable Reason whole(JobRecord job, Map<What, Double> booked) {
        if (job.kind() == JobKind.WARRANTY) {
            return Reason.WARRANTY;
        }
        if (job.orders().size() > 1) {
            return Reason.SCOPE_CHANGED;
        }
        if (!job.isBookedToTheEnd()) {
            return Reason.CLOCK_RUNS;
        }
        if (job.orders().get(0).items().stream().anyMatch(line -> line.made() == 0)) {
            return Reason.GIVEN_UP;
        }
        double all = booked.values().stream().mapToDouble(Double::doubleValue).sum();
        return booked.getOrDefault(What.WHOLE_JOB, 0.0) > MOST_WHOLE_JOB * all
                ? Reason.MOSTLY_WHOLE_JOB
                : null;
    }

    private static Map<What, Double> minutes(List<Booking> bookings) {
        Map<What, Double> minutes = new EnumMap<>(What.class);
        for (Booking b : bookings) {
            minutes.merge(b.what(), personMinutes(b), Double::sum);
        }
        return minutes;
    }

    static double personMinutes(Booking booking) {
        return booking.minutes() == null ? 0 : booking.minutes() * (booking.withHelper() ? 2 : 1);
    }

    /** Where a step stands, whichever edition made it. */
    private record Place(int item, @Nullable String part, int position, String kind) {
        static Place of(int item, WorkStep work) {
            return new Place(item, work.part(), work.position(), work.kind());
        }
    }

    /** One cell as estimated and as booked. */
    private static final class Sum {
        double estimated;
        double reserve;
        double booked;
        double estimatedOfBooked;
        Booking.Source source = Booking.Source.CLOCK;

        void add(Booking booking) {
            booked += personMinutes(booking);
            if (booking.source().compareTo(source) > 0) {
                source = booking.source();
            }
        }
    }

    private static final class Reading {
        private final JobRecord job;
        private final ShopBook bare;
        private final Map<What, Double> booked;
        private final Map<Cell, Sum> sums = new LinkedHashMap<>();
        private final Map<Place, WorkStep> estimated = new HashMap<>();
        private final Set<Place> setupBooked = new HashSet<>();
        private final Set<Place> runBooked = new HashSet<>();
        private double doubt;

        Reading(JobRecord job, ShopBook bare, Map<What, Double> booked) {
            this.job = job;
            this.bare = bare;
            this.booked = booked;
        }

        Evidence evidence() {
            estimate();
            book();
            cover();
            List<Observation> observations = new ArrayList<>();
            List<LeftOut> leftOut = new ArrayList<>();
            for (What what : List.of(What.REWORK, What.WHOLE_JOB)) {
                if (booked.getOrDefault(what, 0.0) > 0) {
                    leftOut.add(
                            LeftOut.job(
                                    job.number(),
                                    what == What.REWORK ? Reason.REWORK : Reason.WHOLE_JOB,
                                    booked.get(what)));
                }
            }
            sums.forEach(
                    (cell, sum) -> {
                        Reason reason = reason(sum);
                        if (reason == null) {
                            observations.add(observation(cell, sum));
                        } else {
                            leftOut.add(LeftOut.work(job.number(), cell, reason, sum.booked));
                        }
                    });
            return new Evidence(observations, rework(observations), leftOut);
        }

        private void estimate() {
            List<JobRecord.Line> lines = job.orders().get(0).items();
            for (JobRecord.Line line : lines) {
                TakeOff takeOff = line.item().takeOff();
                doubt +=
                        bare.uncertainty().information().comparedWithDrawing(takeOff.information())
                                / lines.size();
                for (PlannedStep planned :
                        Estimating.reckon(takeOff.withoutOwnMinutes(), bare).planned(line.made())) {
                    WorkStep work = planned.work();
                    estimated.put(Place.of(line.item().position(), work), work);
                    if (work.runMinutes() > 0) {
                        Sum run = sum(new Cell(work.kind(), work.family()));
                        run.estimated += work.runMinutes();
                        run.reserve += planned.reserveMinutes();
                    }
                    if (work.setupMinutes() > 0) {
                        sum(SETUP).estimated += work.setupMinutes();
                    }
                }
            }
            sums.remove(new Cell(WorkStep.TOOL_CHANGES, null));
        }

        private void book() {
            Map<Integer, Step> steps = new HashMap<>();
            job.steps().forEach(s -> steps.put(s.n(), s));
            for (Booking booking : job.bookings()) {
                Step step = steps.get(booking.step());
                if (step != null && booking.minutes() != null && booking.minutes() > 0) {
                    book(booking, step);
                }
            }
        }

        private void book(Booking booking, Step step) {
            Place place = Place.of(step.item(), step.work());
            boolean nothingToRun = step.work().runMinutes() == 0;
            boolean changes = step.work().kind().equals(WorkStep.TOOL_CHANGES);
            if (booking.what() == What.SET_UP || booking.what() == What.RUN && nothingToRun) {
                sum(SETUP).add(booking);
                setupBooked.add(place);
            } else if (booking.what() == What.RUN && !changes) {
                sum(new Cell(step.work().kind(), step.work().family())).add(booking);
                runBooked.add(place);
            }
        }

        /** How much of what was estimated stands on steps that somebody booked on. */
        private void cover() {
            estimated.forEach(
                    (place, work) -> {
                        if (setupBooked.contains(place) && work.setupMinutes() > 0) {
                            sum(SETUP).estimatedOfBooked += work.setupMinutes();
                        }
                        if (runBooked.contains(place) && work.runMinutes() > 0) {
                            sum(new Cell(work.kind(), work.family())).estimatedOfBooked +=
                                    work.runMinutes();
                        }
                    });
        }

        private Sum sum(Cell cell) {
            return sums.computeIfAbsent(cell, c -> new Sum());
        }

        private static @Nullable Reason reason(Sum sum) {
            if (sum.estimated == 0) {
                return Reason.NOT_ESTIMATED;
            }
            if (sum.booked == 0) {
                return Reason.NOT_BOOKED;
            }
            if (sum.estimated < LEAST_MINUTES) {
                return Reason.SHORT;
            }
            boolean few = sum.estimatedOfBooked < HALF * sum.estimated;
            if (few && sum.booked < HALF * sum.estimated) {
                return Reason.PARTLY_BOOKED;
            }
            return Math.abs(Math.log(sum.booked / sum.estimated)) > MOST_OFF
                    ? Reason.IMPLAUSIBLE
                    : null;
        }

        /** The reserve is a share of what work takes, so it grows with what was booked. */
        private @Nullable Rework rework(List<Observation> observations) {
            double reserve = 0;
            double run = 0;
            Booking.Source source = Booking.Source.CLOCK;
            for (Observation o : observations) {
                Sum sum = sums.get(o.cell());
                if (sum.reserve > 0) {
                    reserve += sum.reserve * sum.booked / sum.estimated;
                    run += sum.booked;
                    source = sum.source.compareTo(source) > 0 ? sum.source : source;
                }
            }
            return reserve == 0
                    ? null
                    : new Rework(
                            job.number(),
                            Objects.requireNonNull(job.finishedOn()),
                            reserve,
                            run,
                            booked.getOrDefault(What.REWORK, 0.0),
                            source);
        }

        private Observation observation(Cell cell, Sum sum) {
            return new Observation(
                    job.number(),
                    job.finishedOn(),
                    cell.kind(),
                    cell.family(),
                    sum.estimated,
                    sum.booked,
                    sum.source,
                    doubt);
        }
    }
}
