package strokewright.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import strokewright.comparison.JobComparison.BridgeStep;
import strokewright.comparison.JobComparison.Over;
import strokewright.comparison.JobComparison.Sort;
import strokewright.comparison.JobComparison.Work;
import strokewright.estimate.Formulas;
import strokewright.quantity.Formula;
import strokewright.quantity.Money;
import strokewright.quantity.Why;
import strokewright.web.Drawing;
import strokewright.web.Numbers;

/** Comparisons as people read them. */
final class ComparisonViews {

    private final Numbers numbers;
    private final OverWords words;

    ComparisonViews(Numbers numbers) {
        this.numbers = numbers;
        this.words = new OverWords(numbers);
    }

    /**
     * A line of work with why it differs.
     *
     * @param causes drawn; null where none makes a hundredth of an hour
     */
    record WorkView(
            Work work,
            String name,
            @Nullable String causes,
            @Nullable String doubt,
            List<String> why) {}

    List<WorkView> work(JobComparison job) {
        List<WorkView> views = new ArrayList<>();
        List<List<CausePicture.Cause>> all =
                job.work().stream()
                        .map(
                                w ->
                                        w.causes() == null
                                                ? List.<CausePicture.Cause>of()
                                                : CausePicture.of(w.causes(), words))
                        .toList();
        CausePicture.Reach reach = CausePicture.Reach.of(all);
        for (int i = 0; i < job.work().size(); i++) {
            Work work = job.work().get(i);
            List<CausePicture.Cause> causes = all.get(i);
            List<Why> why = work.why();
            views.add(
                    new WorkView(
                            work,
                            name(work),
                            causes.isEmpty()
                                    ? null
                                    : CausePicture.drawn(causes, "causes-" + i, name(work), reach),
                            work.causes() == null || work.causes().doubt() == null
                                    ? null
                                    : work.causes().doubt().words(),
                            why == null ? List.of() : why.stream().map(this::told).toList()));
        }
        return views;
    }

    /** "passes 0.30: made 3, …; by made × …". */
    private String told(Why why) {
        return words(why.figure())
                + " "
                + numbers.show(why.value(), 4)
                + ": "
                + why.inputs().stream()
                        .map(
                                i ->
                                        i.name()
                                                + " "
                                                + numbers.show(i.value(), 4)
                                                + (i.unit().isEmpty() ? "" : " " + i.unit()))
                        .collect(Collectors.joining("; "))
                + ". "
                + Formulas.named(why.formula()).map(Formula::text).orElse("");
    }

    private static String words(String figure) {
        return figure.replace('.', ' ').replaceAll("([A-Z])", " $1").toLowerCase(Locale.ROOT);
    }

    static String name(Work work) {
        if (work.sort() == Sort.WHOLE_JOB) {
            return work.told() == null
                    ? "On the job alone"
                    : "On the job alone: " + work.told().words().toLowerCase(Locale.ROOT);
        }
        String kind = KindWords.of(work.kind());
        String name = work.part() == null ? kind : work.part() + ": " + kind;
        return work.sort() == Sort.RESERVE ? "Reserve, " + name : name;
    }

    /** From the quoted cost over the planned to the actual. */
    String costBridge(JobComparison job) {
        List<BridgePicture.Step> steps = new ArrayList<>();
        steps.add(sum("Quoted", job.cost().quoted()));
        Money pieces = job.cost().planned().minus(job.cost().quoted());
        if (!pieces.isZero()) {
            steps.add(
                    new BridgePicture.Step(
                            "More or fewer pieces",
                            pieces,
                            false,
                            pieces.amount().signum() > 0,
                            signless(pieces, "more", "less")));
            steps.add(sum("Planned for made", job.cost().planned()));
        }
        Over over = job.over();
        over(steps, "Labour rate", over.rate());
        over(steps, "Labour hours", over.efficiency());
        over(steps, "Machine hours", over.machine());
        over(steps, "Metal price", over.price());
        over(steps, "Metal used", over.usage());
        over(steps, "Bought out", over.boughtOut());
        over(steps, "Overheads", over.overheads());
        steps.add(sum("Actual", job.cost().actual()));
        return BridgePicture.of(steps, "cost-bridge", "Cost, from quoted to actual", numbers);
    }

    /** From the margin quoted to the margin earned; null where it is not shown. */
    @Nullable String marginBridge(JobComparison job) {
        if (job.bridge() == null) {
            return null;
        }
        List<BridgePicture.Step> steps = new ArrayList<>();
        for (BridgeStep step : job.bridge()) {
            boolean end =
                    step.code() == BridgeStep.Code.MARGIN_QUOTED
                            || step.code() == BridgeStep.Code.MARGIN_EARNED;
            if (end || !step.amount().isZero()) {
                boolean worse = step.amount().amount().signum() < 0;
                steps.add(
                        new BridgePicture.Step(
                                step.code().words(),
                                step.amount(),
                                end,
                                worse,
                                end
                                        ? left(step.amount())
                                        : signless(step.amount(), "won", "lost")));
            }
        }
        return BridgePicture.of(steps, "margin-bridge", "Margin, from quoted to earned", numbers);
    }

    /** "120.00", or "30.00 loss". */
    public String left(Money margin) {
        return margin.amount().signum() < 0
                ? signless(margin, "", "loss")
                : numbers.show(margin.amount(), margin.amount().scale());
    }

    private static BridgePicture.Step sumStep(String name, Money amount, String said) {
        return new BridgePicture.Step(name, amount, true, false, said);
    }

    private BridgePicture.Step sum(String name, Money amount) {
        return sumStep(name, amount, numbers.show(amount.amount(), amount.amount().scale()));
    }

    private void over(List<BridgePicture.Step> steps, String name, @Nullable Money over) {
        if (over != null && !over.isZero()) {
            steps.add(
                    new BridgePicture.Step(
                            name, over, false, over.amount().signum() > 0, words.money(over)));
        }
    }

    private String signless(Money amount, String positive, String negative) {
        return numbers.show(amount.amount().abs(), amount.amount().scale())
                + " "
                + (amount.amount().signum() > 0 ? positive : negative);
    }

    /**
     * Planned and actual hours of a row as two bars, in the scale of the widest.
     *
     * @param most the most hours of any row
     */
    String hoursBar(Figures hours, double most, String id, String name) {
        double width = 200;
        double scale = most == 0 ? 0 : width / most;
        Drawing drawing =
                new Drawing(
                        width,
                        22,
                        id,
                        "Hours, " + name,
                        "Planned "
                                + numbers.show(hours.planned(), 2)
                                + ", actual "
                                + numbers.show(hours.actual(), 2));
        drawing.bar("fill-tint", 0, 2, hours.planned().doubleValue() * scale, 8);
        drawing.bar("fill", 0, 12, hours.actual().doubleValue() * scale, 8);
        return drawing.svg();
    }
}
