package strokewright.job;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A job's number, shown {@code J-2026-0001}: counted within a shop and a year. */
record JobNumber(int year, int n) {

    private static final Pattern SHOWN = Pattern.compile("J-([0-9]{4})-([0-9]{4,9})");

    static Optional<JobNumber> read(String shown) {
        Matcher m = SHOWN.matcher(shown);
        if (!m.matches()) {
            return Optional.empty();
        }
        JobNumber number =
                new JobNumber(Integer.parseInt(m.group(1)), Integer.parseInt(m.group(2)));
        return Optional.of(number).filter(it -> it.toString().equals(shown));
    }

    @Override
    public String toString() {
        return "J-%04d-%04d".formatted(year, n);
    }
}
