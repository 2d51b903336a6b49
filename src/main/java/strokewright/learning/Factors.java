package strokewright.learning;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Learned;
import strokewright.estimate.ShopBook;
import strokewright.job.Booking;
import strokewright.learning.LearnedModel.Known;
import strokewright.quote.DecidedQuotes;

/**
 * What finished jobs propose for the shop book, line by line.
 *
 * @param shopBookEdition what they were reckoned with
 * @param jobs that something was learned from
 * @param lines of kinds of work, each kind before its families, then all other work, the risk
 *     reserve last
 * @param jobEffect what all work of a job has in common
 */
record Factors(
        int shopBookEdition,
        int jobs,
        @Nullable LocalDate until,
        List<Line> lines,
        JobEffect jobEffect,
        List<LeftOut> leftOut) {

    /** Below so many jobs a line says that it rests on few. */
    static final int FEW = 5;

    /** Lines that are about every quote. */
    private static final Set<String> EVERYWHERE =
            Set.of(Learned.SETUP, Learned.OTHER, Learned.RESERVE);

    private static final double LEAST_FACTOR = 0.1;
    private static final double MOST_FACTOR = 10;
    private static final double MOST_SPREAD = 1.5;

    Factors {
        lines = List.copyOf(lines);
        leftOut = List.copyOf(leftOut);
    }

    /**
     * @param inUse null where the shop book has no such line
     * @param few whether it rests on few jobs
     * @param changed what the drift chart of the kind signalled last and has not passed; null when
     *     nothing
     * @param won quotes with such work before and since a factor on it was taken over; null when
     *     none ever was
     * @param behind the newest first
     */
    record Line(
            String kind,
            @Nullable String family,
            @Nullable Learned inUse,
            Learned proposed,
            boolean few,
            @Nullable Changed changed,
            @Nullable Won won,
            List<Behind> behind) {

        Line {
            behind = List.copyOf(behind);
        }

        Line with(@Nullable Won shares) {
            return new Line(kind, family, inUse, proposed, few, changed, shares, behind);
        }

        boolean isNew() {
            return !proposed.equals(inUse);
        }

        boolean isOf(String otherKind, @Nullable String otherFamily) {
            return kind.equals(otherKind) && Objects.equals(family, otherFamily);
        }
    }

    /**
     * Orders among the quotes that were decided. Only won jobs are learned from, and jobs that are
     * won run over more often than those that are lost.
     *
     * @param since day on which a factor was taken over last
     */
    record Won(LocalDate since, int wonBefore, int decidedBefore, int wonSince, int decidedSince) {

        static Won of(String kind, LocalDate since, List<DecidedQuotes.Decided> decided) {
            int[] counts = new int[4];
            for (DecidedQuotes.Decided quote : decided) {
                boolean all = EVERYWHERE.contains(kind);
                if (all || quote.kinds().contains(kind)) {
                    int at = quote.on().isBefore(since) ? 0 : 2;
                    counts[at] += quote.won() ? 1 : 0;
                    counts[at + 1]++;
                }
            }
            return new Won(since, counts[0], counts[1], counts[2], counts[3]);
        }
    }

    /**
     * One job behind a line; of the reserve, what was planned and the rework that was booked.
     *
     * @param y null of the reserve
     */
    record Behind(
            String job,
            LocalDate finishedOn,
            @Nullable String family,
            double estimatedMinutes,
            double actualMinutes,
            @Nullable Double y,
            double weight,
            Booking.Source source) {}

    /**
     * @param since job with which the hours seem to have changed
     * @param factor hours since over hours before
     */
    record Changed(String since, LocalDate finishedOn, double factor, int jobsSince) {}

    /**
     * @param inUse spread in the shop book; null while the assumed ones by information hold
     */
    record JobEffect(
            @Nullable Double inUse,
            @Nullable Integer inUseJobs,
            double assumed,
            double proposed,
            int jobs) {

        boolean isNew() {
            return inUse == null || inUse != proposed || !Objects.equals(inUseJobs, jobs);
        }
    }

    /**
     * @param rework of the jobs that the lessons are from
     */
    static Factors of(Lessons lessons, List<Rework> rework, List<LeftOut> leftOut, ShopBook book) {
        List<Observation> observations = lessons.observations();
        LearnedModel model = lessons.model();
        LocalDate until =
                observations.stream()
                        .map(Observation::finishedOn)
                        .max(Comparator.naturalOrder())
                        .orElse(null);
        Set<String> families =
                book.grades().stream().map(ShopBook.Grade::family).collect(Collectors.toSet());
        List<Line> lines = new ArrayList<>();
        for (String kind : model.kinds()) {
            lines.add(line(lessons, kind, null, until, book));
            model.cells().stream()
                    .filter(c -> c.kind().equals(kind) && families.contains(c.family()))
                    .map(c -> line(lessons, kind, c.family(), until, book))
                    .forEach(lines::add);
        }
        if (model.jobs() > 0) {
            lines.add(line(lessons, Learned.OTHER, null, until, book));
        }
        if (!rework.isEmpty()) {
            lines.add(reserve(rework, until, book));
        }
        return new Factors(
                book.edition(),
                model.jobs(),
                until,
                lines,
                new JobEffect(
                        book.uncertainty().jobSpread(),
                        book.uncertainty().jobSpreadJobs(),
                        book.uncertainty().information().drawing(),
                        rounded(Math.min(MOST_SPREAD, model.jobSpread())),
                        model.jobs()),
                leftOut);
    }

    private static Line line(
            Lessons lessons,
            String kind,
            @Nullable String family,
            @Nullable LocalDate until,
            ShopBook book) {
        List<Behind> behind = new ArrayList<>();
        List<Observation> all = lessons.observations();
        for (int i = all.size() - 1; i >= 0; i--) {
            Observation o = all.get(i);
            if (o.kind().equals(kind) && (family == null || family.equals(o.family()))) {
                behind.add(
                        new Behind(
                                o.job(),
                                o.finishedOn(),
                                o.family(),
                                o.estimatedMinutes(),
                                o.actualMinutes(),
                                o.y(),
                                lessons.model().weight(i),
                                o.source()));
            }
        }
        int jobs =
                kind.equals(Learned.OTHER)
                        ? lessons.model().jobs()
                        : (int) behind.stream().map(Behind::job).distinct().count();
        Known known = lessons.model().known(kind, family);
        double variance = known.variance() + known.scatter();
        double effect = Math.pow(lessons.model().jobSpread(), 2);
        Learned proposed =
                new Learned(
                        kind,
                        family,
                        rounded(factor(Math.exp(known.mean()))),
                        rounded(factor(Shrinkage.meanRatio(known.mean(), variance + effect))),
                        rounded(Math.min(MOST_SPREAD, Math.sqrt(variance))),
                        jobs,
                        "finished jobs to " + until);
        Learned inUse = book.learnedLine(kind, family).orElse(null);
        return new Line(
                kind, family, inUse, proposed, jobs < FEW, changed(lessons, kind), null, behind);
    }

    private static Line reserve(List<Rework> rework, @Nullable LocalDate until, ShopBook book) {
        List<Behind> behind = new ArrayList<>();
        for (int i = rework.size() - 1; i >= 0; i--) {
            Rework job = rework.get(i);
            behind.add(
                    new Behind(
                            job.job(),
                            job.finishedOn(),
                            null,
                            job.reserveMinutes(),
                            job.reworkMinutes(),
                            null,
                            Rework.weight(rework.size() - 1 - i),
                            job.source()));
        }
        double factor = rounded(factor(Rework.factor(rework)));
        return new Line(
                Learned.RESERVE,
                null,
                book.learnedLine(Learned.RESERVE, null).orElse(null),
                new Learned(
                        Learned.RESERVE,
                        null,
                        factor,
                        factor,
                        null,
                        rework.size(),
                        "finished jobs to " + until),
                rework.size() < FEW,
                null,
                null,
                behind);
    }

    private static @Nullable Changed changed(Lessons lessons, String kind) {
        return lessons.kinds().stream()
                .filter(d -> d.subject().equals(kind))
                .findFirst()
                .flatMap(d -> d.change().map(alarm -> changed(d, alarm)))
                .orElse(null);
    }

    private static Changed changed(Drift drift, Drift.Alarm alarm) {
        Drift.Point since = drift.points().get(alarm.since());
        return new Changed(since.job(), since.finishedOn(), alarm.factor(), drift.jobsSince(alarm));
    }

    private static double factor(double factor) {
        return Math.max(LEAST_FACTOR, Math.min(MOST_FACTOR, factor));
    }

    /** What a shop book can show. */
    static double rounded(double value) {
        return Math.round(value * 1000) / 1000.0;
    }

    /** With what became of quotes, by kind of work. */
    Factors with(Map<String, Won> won) {
        return new Factors(
                shopBookEdition,
                jobs,
                until,
                lines.stream().map(l -> l.with(won.get(l.kind))).toList(),
                jobEffect,
                leftOut);
    }

    Optional<Line> line(String kind, @Nullable String family) {
        return lines.stream().filter(l -> l.isOf(kind, family)).findFirst();
    }

    /** The book with these of the proposed lines in the place of its own. */
    static ShopBook in(ShopBook book, List<Learned> adopted) {
        Map<List<@Nullable String>, Learned> lines = new LinkedHashMap<>();
        book.learned().forEach(l -> lines.put(key(l), l));
        adopted.forEach(l -> lines.put(key(l), l));
        return book.withLearned(List.copyOf(lines.values()));
    }

    private static List<@Nullable String> key(Learned of) {
        List<@Nullable String> key = new ArrayList<>();
        key.add(of.kind());
        key.add(of.family());
        return key;
    }

    /** The book with everything that is proposed. */
    ShopBook in(ShopBook book) {
        ShopBook with = in(book, lines.stream().map(Line::proposed).toList());
        return jobs == 0
                ? with
                : with.withUncertainty(
                        book.uncertainty().withJobSpread(jobEffect.proposed, jobEffect.jobs));
    }
}
