package strokewright.takeoff;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.estimate.Estimate.Sample;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.Unit;
import strokewright.web.Numbers;

/** What the final check of an order has to look at, and when it is passed, in words. */
public final class CheckWords {

    private CheckWords() {}

    /**
     * A sentence for each lot that something is checked of; lots that are checked alike share one.
     * Empty where nothing is measured.
     *
     * @param book that it was reckoned with
     */
    public static List<String> of(
            Estimate estimate, ForQuantity quantity, ShopBook book, Numbers numbers) {
        Map<String, List<Sample>> alike =
                quantity.samples().stream()
                        .filter(s -> isChecked(estimate, s, book))
                        .collect(
                                Collectors.groupingBy(
                                        s -> toDo(s, numbers),
                                        LinkedHashMap::new,
                                        Collectors.toList()));
        boolean onePart = quantity.samples().size() == 1;
        return alike.entrySet().stream()
                .map(
                        e ->
                                onePart
                                        ? capital(e.getKey()) + "."
                                        : names(e.getValue()) + ": " + e.getKey() + ".")
                .toList();
    }

    private static boolean isChecked(Estimate estimate, Sample sample, ShopBook book) {
        return estimate.operations().stream()
                .filter(line -> Objects.equals(line.part(), sample.part()))
                .flatMap(line -> book.standard(line.standard()).stream())
                .anyMatch(s -> s.unit() == Unit.DIMENSION || s.unit() == Unit.CONTOUR);
    }

    private static String names(List<Sample> samples) {
        return samples.stream()
                .map(s -> s.part() == null ? "The assembled item" : s.part())
                .collect(Collectors.joining(", "));
    }

    private static String toDo(Sample sample, Numbers numbers) {
        if (sample.accept() == null) {
            return sample.lot() == 1
                    ? "check the one piece"
                    : "check all "
                            + numbers.show(sample.lot())
                            + "; put right or replace each faulty one";
        }
        return "check "
                + numbers.show(sample.inspected())
                + " of "
                + numbers.show(sample.lot())
                + "; accept with "
                + (sample.accept() == 0 ? "none" : numbers.show(sample.accept()))
                + " faulty, reject with "
                + numbers.show(sample.reject());
    }

    private static String capital(String text) {
        return Character.toUpperCase(text.charAt(0)) + text.substring(1);
    }
}
