package strokewright.quantity;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Currency;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * Collects every fault of a document, each with its pointer, so that all are told together. Each
 * method answers whether the value is usable, and every test is a positive condition, so that NaN
 * fails it.
 */
public final class Faults {

    private static final int LONGEST_TEXT = 200;
    private static final BigDecimal MOST_MONEY = BigDecimal.valueOf(1_000_000_000);

    private final List<Fault> faults = new ArrayList<>();

    public void add(String pointer, String message) {
        faults.add(new Fault(pointer, message));
    }

    public boolean present(String pointer, @Nullable Object value, String whatWouldBeRight) {
        if (value == null) {
            add(pointer, "is missing: " + whatWouldBeRight);
        }
        return value != null;
    }

    /** A number above {@code low} and at most {@code high}. */
    public boolean over(String pointer, @Nullable Number value, double low, double high) {
        if (value == null) {
            add(pointer, "is missing: a number over " + plain(low) + ", at most " + plain(high));
            return false;
        }
        boolean good = value.doubleValue() > low && value.doubleValue() <= high;
        if (!good) {
            add(pointer, "must be over " + plain(low) + " and at most " + plain(high));
        }
        return good;
    }

    /** A number from {@code low} to {@code high}, both included. */
    public boolean within(String pointer, @Nullable Number value, double low, double high) {
        if (value == null) {
            add(pointer, "is missing: a number from " + plain(low) + " to " + plain(high));
            return false;
        }
        boolean good = value.doubleValue() >= low && value.doubleValue() <= high;
        if (!good) {
            add(pointer, "must be from " + plain(low) + " to " + plain(high));
        }
        return good;
    }

    public boolean overIfGiven(String pointer, @Nullable Number value, double low, double high) {
        return value == null || over(pointer, value, low, high);
    }

    public boolean withinIfGiven(String pointer, @Nullable Number value, double low, double high) {
        return value == null || within(pointer, value, low, high);
    }

    /** An amount that somebody pays or is told, in the shop's own money, to the cent. */
    public boolean payableIfGiven(String pointer, @Nullable Money money, Currency shops) {
        if (money == null) {
            return true;
        }
        if (!money.currency().equals(shops)) {
            add(pointer + "/currency", "must be the shop's: " + shops);
            return false;
        }
        if (money.amount().signum() < 0 || money.amount().compareTo(MOST_MONEY) > 0) {
            add(pointer, "must be from 0 to " + MOST_MONEY.toPlainString());
            return false;
        }
        if (!money.isPayable()) {
            int digits = Money.minorDigits(money.currency());
            add(
                    pointer,
                    "cannot be paid: must have "
                            + (digits == 0 ? "no digits" : "at most " + digits + " digits")
                            + " after the point");
            return false;
        }
        return true;
    }

    /** A text that says something, of at most 200 characters. */
    public boolean text(String pointer, @Nullable String value) {
        if (value == null || value.isBlank()) {
            add(pointer, "is missing: a text of 1 to " + LONGEST_TEXT + " characters");
            return false;
        }
        return textIfGiven(pointer, value);
    }

    public boolean textIfGiven(String pointer, @Nullable String value) {
        if (value != null && value.codePointCount(0, value.length()) > LONGEST_TEXT) {
            add(pointer, "is too long: at most " + LONGEST_TEXT + " characters");
            return false;
        }
        return true;
    }

    /** A name that stands in the given list; the message lists what stands there. */
    public boolean known(
            String pointer, @Nullable String name, Collection<String> names, String what) {
        if (name == null) {
            add(pointer, "is missing: the name of a " + what + listed(names));
            return false;
        }
        if (!names.contains(name)) {
            add(pointer, "names no " + what + " of the shop book" + listed(names));
            return false;
        }
        return true;
    }

    /** A list with neither too few nor too many entries. */
    public boolean size(String pointer, @Nullable List<?> list, int low, int high) {
        if (list == null) {
            add(pointer, "is missing: a list of " + low + " to " + high + " entries");
            return false;
        }
        if (list.size() < low || list.size() > high) {
            add(pointer, "has " + list.size() + " entries: must be " + low + " to " + high);
            return false;
        }
        return true;
    }

    /** No two entries share a name; the later one is named. */
    public <T> void distinct(String pointer, List<T> list, Function<T, Object> key, String field) {
        Set<Object> seen = new HashSet<>();
        for (int i = 0; i < list.size(); i++) {
            T entry = list.get(i);
            Object name = entry == null ? null : key.apply(entry);
            if (name != null && !seen.add(name)) {
                add(pointer + "/" + i + field, "stands twice: each must be different");
            }
        }
    }

    public boolean none() {
        return faults.isEmpty();
    }

    public List<Fault> all() {
        return List.copyOf(faults);
    }

    /**
     * @throws InvalidInput if any fault was found
     */
    public void throwIfAny() {
        if (!faults.isEmpty()) {
            throw new InvalidInput(faults);
        }
    }

    private static String listed(Collection<String> names) {
        List<String> some = names.stream().limit(12).toList();
        return some.isEmpty()
                ? " (there is none yet)"
                : "; there are: " + String.join(", ", some) + (names.size() > 12 ? ", …" : "");
    }

    private static String plain(double value) {
        return value == Math.rint(value) && Math.abs(value) < 1e15
                ? Long.toString((long) value)
                : Double.toString(value);
    }
}
