package strokewright.takeoff;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;
import strokewright.estimate.Operation;
import strokewright.quantity.Money;
import strokewright.takeoff.TakeOffView.Figure;
import strokewright.takeoff.TakeOffView.PlanView;
import strokewright.takeoff.TakeOffView.WorkingView;
import strokewright.web.Numbers;

/**
 * The working of one item: every line of work and every quantity with its reasons.
 *
 * @param folds development of each folded part
 * @param plan tools and order; null without forming
 */
public record ItemWorking(
        String currency,
        List<LineWorking> folds,
        List<LineWorking> lines,
        @Nullable PlanView plan,
        List<QuantityWorking> quantities) {

    /**
     * @param id that the page gives it: line-1 is the first of the estimate
     * @param own says that its minutes are somebody's own, and why; empty otherwise
     */
    record LineWorking(
            String id,
            String name,
            String own,
            List<Figure> figures,
            List<String> pictures,
            WorkingView working) {}

    /**
     * @param passage how so many go over the machines; empty without forming
     */
    record QuantityWorking(
            int quantity,
            String hours,
            String priceEach,
            String offer,
            String passage,
            WorkingView working) {}

    public static ItemWorking of(Estimate estimate, Numbers numbers) {
        return new Maker(numbers).item(estimate);
    }

    private static final class Maker {
        private final Numbers numbers;
        private final WorkingViews workings;
        private final PassPictures pictures;

        Maker(Numbers numbers) {
            this.numbers = numbers;
            this.workings = new WorkingViews(numbers);
            this.pictures = new PassPictures(numbers);
        }

        ItemWorking item(Estimate estimate) {
            List<LineWorking> lines = new ArrayList<>();
            List<LineWorking> folds = new ArrayList<>();
            for (Estimate.Folded fold : estimate.folds()) {
                folds.add(fold(fold, "fold-" + (folds.size() + 1)));
            }
            for (Estimate.Line line : estimate.operations()) {
                lines.add(line(line, "line-" + (lines.size() + 1)));
            }
            return new ItemWorking(
                    estimate.quantities().get(0).priceEach().currency().getCurrencyCode(),
                    folds,
                    lines,
                    PlanView.of(estimate, "plan", numbers),
                    estimate.quantities().stream().map(this::quantity).toList());
        }

        private LineWorking fold(Estimate.Folded fold, String id) {
            return new LineWorking(
                    id,
                    fold.part() + ", folded",
                    "",
                    List.of(),
                    List.of(new FoldPicture(numbers).blank(fold, id)),
                    workings.of(fold.why()));
        }

        private LineWorking line(Estimate.Line line, String id) {
            return new LineWorking(
                    id,
                    Words.operation(line),
                    Words.own(line, numbers),
                    figures(line),
                    pictures.of(line, id),
                    workings.of(line.why()));
        }

        private List<Figure> figures(Estimate.Line line) {
            List<Figure> figures = new ArrayList<>();
            String passes = Words.allPasses(line);
            if (passes != null) {
                figures.add(new Figure("passes", passes, ""));
            }
            if (line.strokes() != null) {
                figures.add(new Figure("strokes", numbers.show(line.strokes()), ""));
            }
            Operation.Override own = line.override();
            if (own != null) {
                minutes(figures, "own minutes, which count", own.minutes());
            }
            minutes(figures, own == null ? "elapsed" : "computed", line.machineMinutes());
            minutes(figures, "person", line.personMinutes());
            minutes(figures, "annealing", line.annealMinutes());
            minutes(figures, "dressing out marks", line.dressMinutes());
            minutes(figures, "set-up", line.setupMinutes());
            figures.add(new Figure("with", Words.tools(line), ""));
            return figures;
        }

        private void minutes(List<Figure> figures, String name, @Nullable Double minutes) {
            if (Objects.requireNonNullElse(minutes, 0.0) > 0) {
                figures.add(new Figure(name, numbers.show(minutes, 2), "min"));
            }
        }

        private QuantityWorking quantity(Estimate.ForQuantity quantity) {
            return new QuantityWorking(
                    quantity.quantity(),
                    numbers.show(quantity.hours().plan(), 2),
                    amount(quantity.priceEach()),
                    amount(quantity.price().offer()),
                    Words.passage(quantity),
                    workings.of(quantity.why()));
        }

        private String amount(Money money) {
            return numbers.show(money.amount(), money.amount().scale());
        }
    }
}
