package strokewright.quote;

import java.util.Optional;
import strokewright.access.Series;

/** A quote's number, shown {@code Q-2026-0001}: counted within a shop and a year. */
public record QuoteNumber(int year, int n) {

    private static final char LETTER = 'Q';

    public static Optional<QuoteNumber> read(String shown) {
        return Series.Shown.read(LETTER, shown).map(it -> new QuoteNumber(it.year(), it.n()));
    }

    @Override
    public String toString() {
        return new Series.Shown(LETTER, year, n).toString();
    }
}
