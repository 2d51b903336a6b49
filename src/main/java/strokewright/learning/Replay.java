package strokewright.learning;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.job.JobKind;
import strokewright.job.JobRecord;
import strokewright.job.JobRecord.Line;
import strokewright.job.JobRecord.Ordered;
import strokewright.learning.Accuracy.Pair;
import strokewright.quantity.InvalidInput;

/**
 * Finished jobs gone through once more in the order in which they were finished: what was quoted,
 * what the current shop book makes of it with what only the jobs before had taught, and what it
 * took.
 *
 * @param quoted as it was quoted, own minutes and all
 * @param computed the same without minutes of the estimator's own, where there were any
 * @param ownMinutes the quotes with minutes of the estimator's own, as quoted
 * @param learned with what jobs before had taught
 * @param leftOut jobs without figures to compare, with the reason
 */
record Replay(
        Accuracy quoted,
        Accuracy learned,
        Accuracy ownMinutes,
        Accuracy computed,
        List<Point> points,
        List<LeftOut> leftOut) {

    /** Enough for a P80, and quick. */
    private static final int TRIALS = 1000;

    /** As many jobs as are gone through, the newest; the others teach. */
    static final int MOST = 400;

    private static final double Z80 = 0.8416212335729143;

    Replay {
        points = List.copyOf(points);
        leftOut = List.copyOf(leftOut);
    }

    /**
     * One job, in person-hours.
     *
     * @param computedHours where the quote had minutes of the estimator's own
     * @param learnedHours null where nothing had been learned, or the book cannot reckon it
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    record Point(
            String job,
            LocalDate finishedOn,
            double actualHours,
            double quotedHours,
            @Nullable Double quotedP80,
            @Nullable Double computedHours,
            @Nullable Double learnedHours,
            @Nullable Double learnedP80) {

        private Pair pair(double estimated, @Nullable Double p80) {
            return new Pair(job, finishedOn, null, estimated, actualHours, p80);
        }
    }

    /** Plan of a job; a P80 only of a single item, for that of a sum is not the sum. */
    private record Hours(double plan, @Nullable Double p80) {}

    /**
     * @param jobs in the order in which they were finished
     */
    static Replay of(List<JobRecord> jobs, ShopBook book) {
        List<Evidence> evidence = Taught.by(jobs, book).evidence();
        List<Evidence> before = new ArrayList<>();
        List<Point> points = new ArrayList<>();
        List<LeftOut> leftOut = new ArrayList<>();
        ShopBook then = null;
        int taught = 0;
        int observed = 0;
        for (int i = 0; i < jobs.size(); i++) {
            JobRecord job = jobs.get(i);
            double hours = job.bookings().stream().mapToDouble(Evidence::personMinutes).sum() / 60;
            LeftOut.Reason reason = reason(job, hours);
            if (reason != null) {
                leftOut.add(LeftOut.job(job.number(), reason, hours * 60));
            } else if (i >= jobs.size() - MOST) {
                if (observed > 0 && (then == null || isTime(taught, observed))) {
                    then = learned(before, book);
                    taught = observed;
                }
                points.add(point(job, hours, then));
            }
            before.add(evidence.get(i));
            observed += evidence.get(i).observations().size();
        }
        return of(points, leftOut);
    }

    /** Learned anew with each job at first, and then each time a twentieth more came in. */
    private static boolean isTime(int taught, int seen) {
        return seen > taught + taught / 20;
    }

    private static ShopBook learned(List<Evidence> before, ShopBook book) {
        ShopBook with = Taught.by(before).factors(book).in(Taught.bare(book));
        return with.withUncertainty(with.uncertainty().withTrials(TRIALS));
    }

    private static Replay of(List<Point> points, List<LeftOut> leftOut) {
        List<Point> own = points.stream().filter(p -> p.computedHours != null).toList();
        List<Point> learned = points.stream().filter(p -> p.learnedHours != null).toList();
        return new Replay(
                Accuracy.of(points.stream().map(p -> p.pair(p.quotedHours, p.quotedP80)).toList()),
                Accuracy.of(
                        learned.stream().map(p -> p.pair(p.learnedHours, p.learnedP80)).toList()),
                Accuracy.of(own.stream().map(p -> p.pair(p.quotedHours, null)).toList()),
                Accuracy.of(own.stream().map(p -> p.pair(p.computedHours, null)).toList()),
                points,
                leftOut);
    }

    private static LeftOut.@Nullable Reason reason(JobRecord job, double hours) {
        if (job.kind() == JobKind.WARRANTY) {
            return LeftOut.Reason.WARRANTY;
        }
        if (!job.isBookedToTheEnd()) {
            return LeftOut.Reason.CLOCK_RUNS;
        }
        if (hours == 0) {
            return LeftOut.Reason.NOT_BOOKED;
        }
        return job.orders().stream().flatMap(o -> o.items().stream()).anyMatch(l -> l.made() == 0)
                ? LeftOut.Reason.GIVEN_UP
                : null;
    }

    private static Point point(JobRecord job, double actual, @Nullable ShopBook learned) {
        Hours quoted = hours(job, Replay::asQuoted);
        boolean own =
                job.orders().stream()
                        .flatMap(o -> o.items().stream())
                        .map(l -> l.item().takeOff())
                        .anyMatch(t -> t.withoutOwnMinutes() != t);
        Hours computed =
                own
                        ? hours(
                                job,
                                (order, line) ->
                                        Estimating.reckon(
                                                        line.item().takeOff().withoutOwnMinutes(),
                                                        order.book())
                                                .forQuantity(line.made()))
                        : null;
        Hours after = null;
        if (learned != null) {
            try {
                after =
                        hours(
                                job,
                                (order, line) ->
                                        Estimating.reckon(line.item().takeOff(), learned)
                                                .forQuantity(line.made()));
            } catch (InvalidInput e) { // a grade or tool that is gone: nothing to compare
                after = null;
            }
        }
        return new Point(
                job.number(),
                job.finishedOn(),
                actual,
                quoted.plan,
                quoted.p80,
                computed == null ? null : computed.plan,
                after == null ? null : after.plan,
                after == null ? null : after.p80);
    }

    private interface Reckoned {
        Estimate.ForQuantity of(Ordered order, Line line);
    }

    /** The figures that were quoted, or those of the same edition for another number of pieces. */
    private static Estimate.ForQuantity asQuoted(Ordered order, Line line) {
        return line.item()
                .at(line.made())
                .orElseGet(
                        () ->
                                Estimating.reckon(line.item().takeOff(), order.book())
                                        .forQuantity(line.made()));
    }

    private static Hours hours(JobRecord job, Reckoned reckoned) {
        double plan = 0;
        Double p80 = null;
        int items = 0;
        for (Ordered order : job.orders()) {
            for (Line line : order.items()) {
                Estimate.Hours hours = reckoned.of(order, line).hours();
                plan += hours.plan();
                p80 = hours.p80();
                items++;
            }
        }
        return new Hours(plan, items == 1 ? p80 : null);
    }

    /**
     * The same for a list of what was estimated and what it took, without any take-off: each pair
     * with the factor that those before had taught.
     *
     * @param pairs in the order of their dates
     * @return those that had any before them, in the same order
     */
    static List<Pair> ofPairs(List<Pair> pairs) {
        List<Observation> before = new ArrayList<>();
        List<Pair> replayed = new ArrayList<>();
        LearnedModel model = null;
        int taught = 0;
        for (Pair pair : pairs) {
            if (!before.isEmpty()) {
                if (model == null || isTime(taught, before.size())) {
                    model = LearnedModel.of(before, Map.of());
                    taught = before.size();
                }
                LearnedModel.Known known = model.known(kind(pair), null);
                double spread = Math.hypot(known.spread(), model.jobSpread());
                replayed.add(
                        new Pair(
                                pair.name(),
                                pair.on(),
                                pair.group(),
                                pair.estimated() * Math.exp(known.mean()),
                                pair.actual(),
                                pair.estimated() * Math.exp(known.mean() + Z80 * spread)));
            }
            before.add(
                    new Observation(
                            pair.name(),
                            pair.on(),
                            kind(pair),
                            null,
                            pair.estimated(),
                            pair.actual(),
                            strokewright.job.Booking.Source.CLOCK,
                            1));
        }
        return replayed;
    }

    private static String kind(Pair pair) {
        return pair.group() == null ? "all" : pair.group();
    }
}
