package strokewright.quote;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A quote's number, or how it begins: {@code Q-2026-0012}, {@code Q-2026-00}, {@code 2026-1}, or
 * just digits of the count, {@code 12}. Told as ranges, which an index can answer.
 *
 * @param fromYear the first year that fits
 * @param counts of the year, any of which fits
 */
record NumberPart(int fromYear, int toYear, List<Range> counts) {

    private static final Range ANY = new Range(1, Integer.MAX_VALUE);
    private static final Pattern COUNT = Pattern.compile("[0-9]{1,9}");
    private static final Pattern YEAR = Pattern.compile("Q-([0-9]{0,4})-?");
    private static final Pattern NUMBER = Pattern.compile("(?:Q-?)?([0-9]{4})-([0-9]{1,9})");
    private static final int DIGITS_OF_YEAR = 4;
    private static final int FEWEST_DIGITS = 4;
    private static final int MOST_DIGITS = 9;

    /** Both ends included. */
    record Range(int from, int to) {}

    static Optional<NumberPart> read(String typed) {
        String text = typed.strip().toUpperCase(Locale.ROOT);
        if (COUNT.matcher(text).matches()) {
            return Optional.of(new NumberPart(0, Integer.MAX_VALUE, counts(text, 1)));
        }
        Matcher year = YEAR.matcher(text);
        if (year.matches() && (!text.endsWith("-") || year.group(1).isEmpty() || isWhole(year))) {
            Range years = beginning(year.group(1), DIGITS_OF_YEAR);
            return Optional.of(new NumberPart(years.from, years.to, List.of(ANY)));
        }
        Matcher number = NUMBER.matcher(text);
        if (number.matches()) {
            int which = Integer.parseInt(number.group(1));
            return Optional.of(
                    new NumberPart(which, which, counts(number.group(2), FEWEST_DIGITS)));
        }
        return Optional.empty();
    }

    private static boolean isWhole(Matcher year) {
        return year.group(1).length() == DIGITS_OF_YEAR;
    }

    /**
     * @param fewest digits that a count is looked at with; one of at least four is also looked at
     *     as it is shown, with noughts in front
     */
    private static List<Range> counts(String digits, int fewest) {
        List<Range> ranges = new ArrayList<>();
        if (digits.length() <= FEWEST_DIGITS) {
            ranges.add(beginning(digits, FEWEST_DIGITS));
        }
        for (int length = Math.max(fewest, digits.length()); length <= MOST_DIGITS; length++) {
            if (!digits.startsWith("0")) {
                ranges.add(beginning(digits, length));
            }
        }
        return List.copyOf(ranges);
    }

    private static Range beginning(String digits, int length) {
        int step = 1;
        for (int i = digits.length(); i < length; i++) {
            step *= 10;
        }
        int from = digits.isEmpty() ? 0 : Integer.parseInt(digits) * step;
        return new Range(from, from + (step - 1));
    }

    boolean fits(QuoteNumber number) {
        return number.year() >= fromYear
                && number.year() <= toYear
                && counts.stream().anyMatch(r -> number.n() >= r.from && number.n() <= r.to);
    }
}
