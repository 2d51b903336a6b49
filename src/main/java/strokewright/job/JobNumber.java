package strokewright.job;

import java.util.Optional;
import strokewright.access.Series;

/** A job's number, shown {@code J-2026-0001}: counted within a shop and a year. */
public record JobNumber(int year, int n) {

    private static final char LETTER = 'J';

    static Optional<JobNumber> read(String shown) {
        return Series.Shown.read(LETTER, shown).map(it -> new JobNumber(it.year(), it.n()));
    }

    @Override
    public String toString() {
        return new Series.Shown(LETTER, year, n).toString();
    }
}
