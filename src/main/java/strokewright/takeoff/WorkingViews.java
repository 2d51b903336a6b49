package strokewright.takeoff;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import strokewright.estimate.Formulas;
import strokewright.quantity.Formula;
import strokewright.quantity.Why;
import strokewright.takeoff.TakeOffView.InputView;
import strokewright.takeoff.TakeOffView.RestView;
import strokewright.takeoff.TakeOffView.WhyView;
import strokewright.takeoff.TakeOffView.WorkingView;
import strokewright.web.Numbers;

/** Figures with their formulas and inputs, as people read them. */
final class WorkingViews {

    /** More inputs than these are folded away. */
    private static final int MOST_INPUTS = 14;

    private static final Pattern CAMEL = Pattern.compile("(?<=[a-z])[A-Z](?!$)");

    private final Numbers numbers;

    WorkingViews(Numbers numbers) {
        this.numbers = numbers;
    }

    WorkingView of(List<Why> whys) {
        Map<String, String> marks = new LinkedHashMap<>();
        List<WhyView> lines = new ArrayList<>();
        for (Why why : whys) {
            Optional<Formula> formula = Formulas.named(why.formula());
            int shown = shown(why.inputs());
            List<Why.Input> rest = why.inputs().subList(shown, why.inputs().size());
            lines.add(
                    new WhyView(
                            named(why.figure()),
                            precise(why.value()),
                            formula.map(Formula::text).orElse(why.formula()),
                            formula.map(Formula::source).orElse(""),
                            why.inputs().subList(0, shown).stream()
                                    .map(i -> input(i, marks))
                                    .toList(),
                            rest.isEmpty() ? null : fold(rest, marks)));
        }
        Map<String, String> origins = new LinkedHashMap<>();
        marks.forEach((origin, mark) -> origins.put(mark, origin));
        return new WorkingView(lines, origins);
    }

    private InputView input(Why.Input input, Map<String, String> marks) {
        return new InputView(
                input.name(), precise(input.value()), input.unit(), mark(input, marks));
    }

    private static String mark(Why.Input input, Map<String, String> marks) {
        return input.origin().equals("computed")
                ? ""
                : marks.computeIfAbsent(input.origin(), o -> mark(marks.size()));
    }

    /** a, b, … z, aa, ab, … */
    private static String mark(int number) {
        String last = String.valueOf((char) ('a' + number % 26));
        return number < 26 ? last : mark(number / 26 - 1) + last;
    }

    // Long lists ----------------------------------------------------------------------------------

    /** What stands in the line itself: all before the list. */
    private static int shown(List<Why.Input> inputs) {
        if (inputs.size() <= MOST_INPUTS) {
            return inputs.size();
        }
        int last = inputs.size() - 1;
        int pairs = inputs.size();
        while (pairs >= 2 && samePair(inputs, pairs - 2, last - 1)) {
            pairs -= 2;
        }
        int single = inputs.size();
        while (single >= 1 && sameKind(inputs.get(single - 1), inputs.get(last))) {
            single--;
        }
        return Math.min(MOST_INPUTS, Math.min(pairs, single));
    }

    private static boolean samePair(List<Why.Input> inputs, int at, int last) {
        return sameKind(inputs.get(at), inputs.get(last))
                && sameKind(inputs.get(at + 1), inputs.get(last + 1));
    }

    private static boolean sameKind(Why.Input one, Why.Input other) {
        return one.name().equals(other.name()) && one.origin().equals(other.origin());
    }

    private RestView fold(List<Why.Input> rest, Map<String, String> marks) {
        boolean pairs =
                rest.size() % 2 == 0
                        && !rest.get(0).name().equals(rest.get(1).name())
                        && samePair(rest, 0, rest.size() - 2);
        List<String> texts = new ArrayList<>();
        for (int i = 0; i < rest.size(); i += pairs ? 2 : 1) {
            texts.add(pairs ? text(rest.get(i)) + ", " + text(rest.get(i + 1)) : text(rest.get(i)));
        }
        String summary =
                pairs
                        ? texts.size() + " × " + rest.get(0).name() + " and " + rest.get(1).name()
                        : sameKind(rest.get(0), rest.get(rest.size() - 1))
                                ? texts.size() + " × " + rest.get(0).name()
                                : texts.size() + " more";
        boolean alike = rest.stream().allMatch(i -> i.origin().equals(rest.get(0).origin()));
        return new RestView(summary, alike ? mark(rest.get(0), marks) : "", texts);
    }

    private String text(Why.Input input) {
        return input.name()
                + " "
                + precise(input.value())
                + (input.unit().isEmpty() ? "" : " " + input.unit());
    }

    // Names and numbers ---------------------------------------------------------------------------

    /**
     * {@code edgeThicknessMm} → "edge thickness, mm", {@code TopRim/1.runMinutes} → "TopRim 1: run
     * minutes": names that somebody gave stay as they are.
     */
    static String named(String figure) {
        int own = figure.lastIndexOf('/');
        int begins = own < 0 ? 0 : figure.indexOf('.', own) + 1;
        if (begins > 0) {
            return figure.substring(0, own)
                    + " "
                    + figure.substring(own + 1, begins - 1)
                    + ": "
                    + spaced(figure.substring(begins));
        }
        return spaced(figure);
    }

    private static String spaced(String figure) {
        String words =
                CAMEL.matcher(figure.replaceAll("(?<=\\w)\\.(?=\\w)", ": "))
                        .replaceAll(
                                m ->
                                        Matcher.quoteReplacement(
                                                " " + m.group().toLowerCase(Locale.ROOT)));
        return words.replaceAll(" mm2$", ", mm²")
                .replaceAll(" mm$", ", mm")
                .replaceAll(" nmm$", ", N/mm")
                .replaceAll("(?<=work)J$", ", J");
    }

    /** Six significant digits: enough to recompute by hand. */
    private String precise(double value) {
        if (value == 0 || !Double.isFinite(value)) {
            return numbers.show(value, 0);
        }
        int whole = (int) Math.floor(Math.log10(Math.abs(value))) + 1;
        return numbers.typed(new BigDecimal(value).round(new MathContext(Math.max(6, whole))));
    }
}
