package strokewright.learning;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Learned;
import strokewright.takeoff.Work;
import strokewright.web.Numbers;

/** Proposed factors in words and figures. */
final class FactorViews {

    private final Numbers numbers;

    FactorViews(Numbers numbers) {
        this.numbers = numbers;
    }

    /**
     * @param lines to take over or leave
     * @param behind the jobs behind each kind
     * @param worth how many lines are worth a decision
     */
    record View(
            List<Row> lines, List<Behind> behind, List<Out> leftOut, boolean anyNew, long worth) {}

    /**
     * @param value of its tick
     * @param changes whether taking it over would change the shop book
     * @param worth whether it is worth a decision
     * @param drawn beside the estimate; empty where there is no factor
     * @param anchor of the jobs behind it; null where they stand with another line
     */
    record Row(
            String value,
            String work,
            String family,
            boolean within,
            String inUse,
            String proposed,
            String expected,
            String spread,
            int jobs,
            boolean changes,
            boolean worth,
            String drawn,
            @Nullable String anchor,
            String note) {}

    record Behind(String work, String anchor, List<Job> jobs) {}

    record Job(
            String number,
            LocalDate finishedOn,
            String family,
            String estimated,
            String actual,
            String times,
            String weight) {}

    record Out(String job, String work, String family, String words, String minutes) {}

    View view(Factors factors) {
        List<Row> rows = new ArrayList<>();
        List<Behind> behind = new ArrayList<>();
        FactorPicture picture = new FactorPicture(factors.lines(), numbers);
        for (Factors.Line line : factors.lines()) {
            String anchor = null;
            if (line.family() == null && !line.behind().isEmpty()) {
                anchor = "behind-" + behind.size();
                behind.add(
                        new Behind(
                                words(line.kind()),
                                anchor,
                                line.behind().stream().map(this::job).toList()));
            }
            rows.add(row(line, picture, anchor));
        }
        if (factors.jobs() > 0) {
            rows.add(job(factors.jobEffect()));
        }
        return new View(
                rows,
                behind,
                factors.leftOut().stream().map(this::out).toList(),
                rows.stream().anyMatch(Row::changes),
                rows.stream().filter(Row::worth).count());
    }

    static String words(String kind) {
        return switch (kind) {
            case Learned.SETUP -> "Set-up of a job";
            case Learned.OTHER -> "All other work";
            case Learned.RESERVE -> "Risk reserve";
            default -> Work.of(kind).map(Work::label).orElse(kind);
        };
    }

    private Row row(Factors.Line line, FactorPicture picture, @Nullable String anchor) {
        Learned proposed = line.proposed();
        return new Row(
                (line.family() == null ? "" : line.family()) + "|" + line.kind(),
                words(line.kind()),
                line.family() == null ? "" : line.family(),
                line.family() != null,
                line.inUse() == null ? "–" : factor(line.inUse().planFactor()),
                factor(proposed.planFactor()),
                factor(proposed.meanFactor()),
                percent(proposed.spread()),
                proposed.jobs(),
                line.isNew(),
                WhatToLearn.isWorth(line),
                picture.of(
                        line,
                        words(line.kind()) + (line.family() == null ? "" : ", " + line.family())),
                anchor,
                note(line));
    }

    private String note(Factors.Line line) {
        List<String> notes = new ArrayList<>();
        if (line.changed() != null && line.family() == null) {
            notes.add(
                    "Changed since job %s: about %s %% %s; jobs before count a quarter."
                            .formatted(
                                    line.changed().since(),
                                    numbers.show(Math.abs(100 * (line.changed().factor() - 1)), 0),
                                    line.changed().factor() > 1 ? "longer" : "less"));
        }
        if (line.won() != null && line.won().decidedSince() > 0 && line.family() == null) {
            notes.add(
                    "Won of decided quotes: %d of %d before %s, %d of %d since."
                            .formatted(
                                    line.won().wonBefore(),
                                    line.won().decidedBefore(),
                                    line.won().since(),
                                    line.won().wonSince(),
                                    line.won().decidedSince()));
        }
        if (line.kind().equals(Learned.OTHER)) {
            notes.add("The level of all work, for kinds without a line of their own.");
        } else if (line.kind().equals(Learned.RESERVE)) {
            notes.add(
                    "Rework booked over reserve planned; the book’s own counts as %d jobs (assumed)."
                            .formatted(Rework.BELIEVED));
        } else if (line.few()) {
            notes.add("Few jobs: mostly drawn from what is alike.");
        }
        return String.join(" ", notes);
    }

    private Row job(Factors.JobEffect effect) {
        return new Row(
                "|" + Adopting.JOB,
                "What all work of a job has in common",
                "",
                false,
                effect.inUse() == null
                        ? percent(effect.assumed()) + " assumed"
                        : percent(effect.inUse()),
                "–",
                "–",
                percent(effect.proposed()),
                effect.jobs(),
                effect.isNew(),
                false,
                "",
                null,
                "Of a job quoted from a drawing; others in proportion.");
    }

    private Job job(Factors.Behind of) {
        return new Job(
                of.job(),
                of.finishedOn(),
                of.family() == null ? "" : of.family(),
                numbers.show(of.estimatedMinutes(), 0),
                numbers.show(of.actualMinutes(), 0),
                factor(of.actualMinutes() / of.estimatedMinutes()),
                numbers.show(of.weight(), 2));
    }

    private Out out(LeftOut of) {
        return new Out(
                of.job(),
                of.kind() == null ? "the job" : words(of.kind()),
                of.family() == null ? "" : of.family(),
                of.words(),
                of.minutes() == 0 ? "–" : numbers.show(of.minutes(), 0));
    }

    /** How often each reason came, the most frequent first. */
    static Map<String, Integer> reasons(List<Out> out) {
        Map<String, Integer> reasons = new LinkedHashMap<>();
        out.forEach(o -> reasons.merge(o.words, 1, Integer::sum));
        return reasons;
    }

    private String factor(@Nullable Double factor) {
        return factor == null ? "–" : "× " + numbers.show(factor, 2);
    }

    /** A spread of the logarithm, as practitioners say it. */
    private String percent(@Nullable Double spread) {
        return spread == null ? "–" : "± " + numbers.show(100 * spread, 0) + " %";
    }
}
