package strokewright.comparison;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Faults;

/**
 * Which period was asked for, and by what.
 *
 * @param from null for all before
 * @param to last day; null for all after
 */
record PeriodAsked(@Nullable LocalDate from, @Nullable LocalDate to, By by, Faults faults) {

    private static final LocalDate FIRST = LocalDate.of(1900, 1, 1);
    private static final LocalDate LAST = LocalDate.of(9998, 12, 31);

    /**
     * @param others names of parameters that are meant for somebody else
     * @return with a fault for each parameter that cannot be used
     */
    static PeriodAsked of(Map<String, String[]> parameters, Set<String> others) {
        Faults faults = new Faults();
        for (String name : new TreeSet<>(parameters.keySet())) {
            if (!Set.of("from", "to", "by").contains(name) && !others.contains(name)) {
                faults.add("?" + name, "is not asked for here; there are: from, to, by");
            }
        }
        LocalDate from = day(parameters, "from", faults);
        LocalDate to = day(parameters, "to", faults);
        if (from != null && to != null && to.isBefore(from)) {
            faults.add("?to", "must not be before from");
        }
        String word = one(parameters, "by", faults);
        Optional<By> by = word == null ? Optional.of(By.WORK_CENTRE) : By.of(word);
        if (by.isEmpty()) {
            faults.add("?by", "must be one of " + By.all());
        }
        return new PeriodAsked(from, to, by.orElse(By.WORK_CENTRE), faults);
    }

    private static @Nullable String one(
            Map<String, String[]> parameters, String name, Faults faults) {
        String[] values = parameters.get(name);
        if (values == null || values.length == 0 || values[0].isBlank()) {
            return null;
        }
        if (values.length > 1) {
            faults.add("?" + name, "stands more than once");
        }
        return values[0].strip();
    }

    private static @Nullable LocalDate day(
            Map<String, String[]> parameters, String name, Faults faults) {
        String text = one(parameters, name, faults);
        if (text == null) {
            return null;
        }
        try {
            LocalDate day = LocalDate.parse(text);
            if (!day.isBefore(FIRST) && !day.isAfter(LAST)) {
                return day;
            }
        } catch (DateTimeParseException e) {
            // told below
        }
        faults.add("?" + name, "must be a day such as 2026-03-31");
        return null;
    }
}
