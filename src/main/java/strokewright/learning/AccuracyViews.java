package strokewright.learning;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import strokewright.web.Numbers;

/** How good estimates were, in a table and a picture. */
final class AccuracyViews {

    private final Numbers numbers;

    AccuracyViews(Numbers numbers) {
        this.numbers = numbers;
    }

    record View(
            List<Row> rows,
            List<Row> own,
            boolean anyOwn,
            @Nullable String picture,
            Map<String, Integer> leftOut,
            List<Worst> worst) {}

    record Row(String measure, String before, String after, String hint) {}

    record Worst(String job, String quoted, String actual, String times) {}

    View view(Replay replay) {
        boolean any = replay.points().size() >= Accuracy.FEWEST;
        return new View(
                rows(replay.quoted(), replay.learned()),
                rows(replay.ownMinutes(), replay.computed()),
                replay.ownMinutes().jobs() > 0,
                any ? new ScatterPicture(replay.points(), numbers).draw() : null,
                FactorViews.reasons(
                        replay.leftOut().stream()
                                .map(o -> new FactorViews.Out(o.job(), "", "", o.words(), ""))
                                .toList()),
                worst(replay.points()));
    }

    private List<Row> rows(Accuracy before, Accuracy after) {
        List<Row> rows = new ArrayList<>();
        rows.add(
                new Row(
                        "Jobs",
                        numbers.show(before.jobs()),
                        numbers.show(after.jobs()),
                        "finished, booked, nothing given up"));
        row(rows, before, after, "Mean error", Accuracy::meanErrorPercent, "of what it took");
        row(rows, before, after, "Median error", Accuracy::medianErrorPercent, "half are nearer");
        row(rows, before, after, "Within 25 %", Accuracy::within25Percent, "of all jobs");
        rows.add(
                new Row(
                        "All jobs together",
                        bias(before.biasPercent()),
                        bias(after.biasPercent()),
                        "over: they took more than estimated"));
        row(
                rows,
                before,
                after,
                "Within their P80",
                Accuracy::p80CoveragePercent,
                "80 % when honest; jobs with one item");
        return rows;
    }

    private void row(
            List<Row> rows,
            Accuracy before,
            Accuracy after,
            String measure,
            Function<Accuracy, @Nullable Double> of,
            String hint) {
        rows.add(new Row(measure, shown(of.apply(before)), shown(of.apply(after)), hint));
    }

    private String bias(@Nullable Double percent) {
        return percent == null
                ? "too few"
                : Math.round(percent) == 0
                        ? "as estimated"
                        : numbers.show(Math.abs(percent), 0)
                                + " % "
                                + (percent < 0 ? "under" : "over");
    }

    private String shown(@Nullable Double percent) {
        return percent == null ? "too few" : numbers.show(percent, 0) + " %";
    }

    /** What lies farthest off as quoted. */
    private List<Worst> worst(List<Replay.Point> points) {
        return points.stream()
                .sorted(
                        (a, b) ->
                                Double.compare(
                                        Math.abs(Math.log(b.actualHours() / b.quotedHours())),
                                        Math.abs(Math.log(a.actualHours() / a.quotedHours()))))
                .limit(5)
                .map(
                        p ->
                                new Worst(
                                        p.job(),
                                        numbers.show(p.quotedHours(), 1),
                                        numbers.show(p.actualHours(), 1),
                                        "× " + numbers.show(p.actualHours() / p.quotedHours(), 2)))
                .toList();
    }
}
