package strokewright.takeoff;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import strokewright.estimate.Estimate;
import strokewright.quantity.Why;
import strokewright.takeoff.TakeOffView.InputView;
import strokewright.takeoff.TakeOffView.WhyView;
import strokewright.takeoff.TakeOffView.WorkingView;
import strokewright.web.Numbers;

/**
 * One figure of an estimate with where it comes from, as a row of a table.
 *
 * @param of fold, line of work or quantity that it belongs to
 * @param inputs with their values, and where they are from unless they stand in a row above
 */
public record FigureRow(
        String of, String figure, double value, String formula, String source, String inputs) {

    /** Of all folds, lines and quantities, in the order in which they are reckoned. */
    public static List<FigureRow> of(Estimate estimate) {
        List<FigureRow> rows = new ArrayList<>();
        estimate.folds().forEach(fold -> add(rows, fold.part() + ", folded", fold.why()));
        estimate.operations().forEach(line -> add(rows, Words.operation(line), line.why()));
        estimate.quantities().forEach(q -> add(rows, "Quantity " + q.quantity(), q.why()));
        return rows;
    }

    private static void add(List<FigureRow> rows, String of, List<Why> whys) {
        WorkingView working = new WorkingViews(Numbers.of(Locale.ENGLISH)).of(whys);
        for (int i = 0; i < whys.size(); i++) {
            WhyView view = working.lines().get(i);
            rows.add(
                    new FigureRow(
                            of,
                            view.figure(),
                            whys.get(i).value(),
                            view.formula(),
                            view.source(),
                            inputs(view, working.origins())));
        }
    }

    private static String inputs(WhyView view, Map<String, String> origins) {
        Stream<String> each = view.inputs().stream().map(input -> input(input, origins));
        Stream<String> more =
                view.fold() == null
                        ? Stream.empty()
                        : Stream.of(view.fold().summary() + from(view.fold().mark(), origins));
        return Stream.concat(each, more).collect(Collectors.joining("; "));
    }

    private static String input(InputView input, Map<String, String> origins) {
        return input.name()
                + " "
                + input.value()
                + (input.unit().isEmpty() ? "" : " " + input.unit())
                + from(input.mark(), origins);
    }

    private static String from(String mark, Map<String, String> origins) {
        return mark.isEmpty() ? "" : " (" + origins.get(mark) + ")";
    }
}
