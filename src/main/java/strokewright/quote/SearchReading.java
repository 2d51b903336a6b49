package strokewright.quote;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.function.Function;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Fault;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;
import strokewright.sheet.Gauge;
import strokewright.web.Numbers;
import strokewright.web.Reading;

/**
 * Reads a search from the parameters of an address; an empty one counts as left out. Programs send
 * plain decimals, people what they type in their locale, with units.
 */
final class SearchReading {

    /** Every filter by the name of its parameter. */
    static final List<String> NAMES =
            List.of(
                    "number",
                    "customer",
                    "text",
                    "metal",
                    "sizeFromMm",
                    "sizeToMm",
                    "thicknessMm",
                    "state",
                    "from",
                    "to",
                    "validFrom",
                    "validTo",
                    "netFrom",
                    "netTo",
                    "estimator");

    private static final Pattern ID =
            Pattern.compile("[0-9a-fA-F]{8}(?:-[0-9a-fA-F]{4}){3}-[0-9a-fA-F]{12}");
    private static final Pattern PLAIN = Pattern.compile("[0-9]{1,12}(?:\\.[0-9]{1,6})?");
    private static final int MOST_WORDS = 10;
    private static final double LARGEST = 1e12;
    private static final LocalDate FIRST_DAY = LocalDate.of(1900, 1, 1);
    private static final LocalDate LAST_DAY = LocalDate.of(9999, 12, 30);

    private final Map<String, String[]> parameters;
    private final @Nullable Numbers people;
    private final Faults faults = new Faults();

    private SearchReading(Map<String, String[]> parameters, @Nullable Numbers people) {
        this.parameters = parameters;
        this.people = people;
    }

    /**
     * @param others names of parameters that are meant for somebody else
     * @throws InvalidInput naming each parameter that cannot be used
     */
    static QuoteSearch ofProgram(Map<String, String[]> parameters, Set<String> others) {
        SearchReading reading = new SearchReading(parameters, null);
        reading.refuseUnknown(others);
        QuoteSearch search = reading.search();
        reading.faults.throwIfAny();
        return search;
    }

    /** What somebody asked for, as far as it could be read, and what could not. */
    record Typed(QuoteSearch search, List<Fault> faults) {

        /** What is wrong with a field; null when nothing is. */
        @Nullable String fault(String name) {
            return faults.stream()
                    .filter(f -> f.pointer().equals("?" + name))
                    .map(Fault::message)
                    .findFirst()
                    .orElse(null);
        }
    }

    static Typed ofPeople(Map<String, String[]> parameters, Numbers numbers) {
        SearchReading reading = new SearchReading(parameters, numbers);
        QuoteSearch search = reading.search();
        return new Typed(search, reading.faults.all());
    }

    private void refuseUnknown(Set<String> others) {
        for (String name : new TreeSet<>(parameters.keySet())) {
            if (!NAMES.contains(name) && !others.contains(name)) {
                faults.add("?" + name, "is no filter here; there are: " + String.join(", ", NAMES));
            }
        }
    }

    private QuoteSearch search() {
        String customer = one("customer");
        String estimator = one("estimator");
        boolean customerById = customer != null && ID.matcher(customer).matches();
        boolean estimatorById = estimator != null && ID.matcher(estimator).matches();
        Double sizeFrom = length("sizeFromMm");
        Double sizeTo = length("sizeToMm");
        ordered("sizeFromMm", sizeFrom, "sizeToMm", sizeTo);
        LocalDate from = day("from");
        LocalDate to = day("to");
        ordered("from", from, "to", to);
        LocalDate validFrom = day("validFrom");
        LocalDate validTo = day("validTo");
        ordered("validFrom", validFrom, "validTo", validTo);
        BigDecimal netFrom = amount("netFrom");
        BigDecimal netTo = amount("netTo");
        ordered("netFrom", netFrom, "netTo", netTo);
        return new QuoteSearch(
                number(),
                customerById ? null : customer,
                customerById ? UUID.fromString(customer) : null,
                words(),
                new QuoteSearch.Item(one("metal"), sizeFrom, sizeTo, thickness()),
                states(),
                from,
                to,
                validFrom,
                validTo,
                netFrom,
                netTo,
                estimatorById ? null : estimator,
                estimatorById ? UUID.fromString(estimator) : null);
    }

    private List<String> all(String name) {
        return Arrays.stream(parameters.getOrDefault(name, new String[0]))
                .map(String::strip)
                .filter(text -> !text.isEmpty())
                .toList();
    }

    private @Nullable String one(String name) {
        List<String> given = all(name);
        if (given.size() > 1) {
            faults.add("?" + name, "stands twice: give it once");
        }
        return given.isEmpty() || !faults.textIfGiven("?" + name, given.get(0))
                ? null
                : given.get(0);
    }

    private @Nullable NumberPart number() {
        String text = one("number");
        NumberPart part = text == null ? null : NumberPart.read(text).orElse(null);
        if (text != null && part == null) {
            faults.add(
                    "?number",
                    "must be a quote's number or how it begins, like Q-2026-0012, Q-2026-00 or 12");
        }
        return part;
    }

    private List<String> words() {
        String text = one("text");
        if (text == null) {
            return List.of();
        }
        List<String> words = Stream.of(text.split("\\s+")).distinct().toList();
        if (words.size() > MOST_WORDS) {
            faults.add("?text", "has too many words: at most " + MOST_WORDS);
        }
        return words;
    }

    private List<State> states() {
        List<State> states = new ArrayList<>();
        for (String word : all("state")) {
            Arrays.stream(State.values())
                    .filter(state -> state.word().equals(word))
                    .findFirst()
                    .ifPresentOrElse(states::add, () -> faults.add("?state", oneOfTheStates()));
        }
        return states.stream().distinct().toList();
    }

    private static String oneOfTheStates() {
        return "must be one of "
                + String.join(", ", Stream.of(State.values()).map(State::word).toList());
    }

    private @Nullable LocalDate day(String name) {
        String text = one(name);
        if (text == null) {
            return null;
        }
        try {
            LocalDate day = LocalDate.parse(text);
            if (!day.isBefore(FIRST_DAY) && !day.isAfter(LAST_DAY)) {
                return day;
            }
        } catch (DateTimeParseException e) {
            // said below
        }
        faults.add("?" + name, "must be a day, like 2026-03-31");
        return null;
    }

    private @Nullable Double length(String name) {
        BigDecimal read = number(name, numbers -> numbers::lengthMm, "600");
        return read == null ? null : Double.valueOf(read.doubleValue());
    }

    private @Nullable Double thickness() {
        BigDecimal read =
                number(
                        "thicknessMm",
                        numbers -> text -> numbers.thicknessMm(text, Gauge::inTable, null),
                        "1.5");
        return read == null ? null : Double.valueOf(read.doubleValue());
    }

    private @Nullable BigDecimal amount(String name) {
        return number(name, numbers -> numbers::number, "1250.00");
    }

    private @Nullable BigDecimal number(
            String name, Function<Numbers, Function<String, Reading>> typed, String example) {
        String text = one(name);
        if (text == null) {
            return null;
        }
        if (people == null) {
            if (PLAIN.matcher(text).matches()) {
                return new BigDecimal(text);
            }
            faults.add("?" + name, "must be a number, like " + example);
            return null;
        }
        Reading read = typed.apply(people).apply(text);
        if (read.fault() != null) {
            faults.add("?" + name, read.fault());
            return null;
        }
        return faults.withinIfGiven("?" + name, read.value(), 0, LARGEST) ? read.value() : null;
    }

    private <T extends Comparable<? super T>> void ordered(
            String lowName, @Nullable T low, String highName, @Nullable T high) {
        if (low != null && high != null && low.compareTo(high) > 0) {
            faults.add("?" + highName, "must not be less than " + lowName);
        }
    }
}
