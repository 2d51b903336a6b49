package strokewright.quote;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A quote's number, shown {@code Q-2026-0001}: counted within a shop and a year. */
record QuoteNumber(int year, int n) {

    private static final Pattern SHOWN = Pattern.compile("Q-([0-9]{4})-([0-9]{4,9})");

    static Optional<QuoteNumber> read(String shown) {
        Matcher m = SHOWN.matcher(shown);
        if (!m.matches()) {
            return Optional.empty();
        }
        QuoteNumber number =
                new QuoteNumber(Integer.parseInt(m.group(1)), Integer.parseInt(m.group(2)));
        return Optional.of(number).filter(it -> it.toString().equals(shown));
    }

    @Override
    public String toString() {
        return "Q-%04d-%04d".formatted(year, n);
    }
}
