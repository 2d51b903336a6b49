package strokewright.web;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Currency;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Fault;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.quantity.PlainText;

/**
 * The fields of a form exactly as they were typed, each named by the JSON pointer of what it means:
 * {@code /terms/payment/days}. What cannot be read becomes a fault at its field, and so does what
 * the service refuses, because its faults carry the same pointers.
 */
public final class TypedForm {

    private static final Pattern ROW = Pattern.compile("(\\d{1,3})/.*");
    private static final Pattern LINE_ENDS = Pattern.compile("\\R");

    private final Map<String, String> fields;
    private final Map<String, String> faults;
    private final Set<String> places;
    private final List<String> elsewhere;
    private final Faults unread;
    private final Numbers numbers;
    private final String idsBeginWith;

    /** One without any field. */
    public TypedForm(Numbers numbers) {
        fields = new LinkedHashMap<>();
        faults = new HashMap<>();
        places = new HashSet<>();
        elsewhere = new ArrayList<>();
        unread = new Faults();
        this.numbers = numbers;
        idsBeginWith = "f";
    }

    private TypedForm(TypedForm same, String idsBeginWith) {
        fields = same.fields;
        faults = same.faults;
        places = same.places;
        elsewhere = same.elsewhere;
        unread = same.unread;
        numbers = same.numbers;
        this.idsBeginWith = idsBeginWith;
    }

    /** The same for another form of the page that has some of the fields too. */
    public TypedForm as(String idsBeginWith) {
        return new TypedForm(this, idsBeginWith);
    }

    /**
     * @param parameters of the request; those whose name does not begin with / are none of it
     */
    public static TypedForm of(Map<String, String[]> parameters, Numbers numbers) {
        TypedForm form = new TypedForm(numbers);
        parameters.forEach(
                (name, values) -> {
                    if (name.startsWith("/") && values.length > 0) {
                        form.fields.put(name, values[0]);
                    }
                });
        return form;
    }

    /** Something to choose. */
    public record Option(String value, String label) {}

    // Showing ---------------------------------------------------------------------------------

    /** What stands in a field; empty when there is no such field. */
    public String at(String path) {
        return fields.getOrDefault(path, "");
    }

    /** What is wrong at a field; null when nothing is. */
    public @Nullable String fault(String path) {
        return faults.get(path);
    }

    /** Faults that no field of the form is to blame for. */
    public List<String> elsewhere() {
        return elsewhere;
    }

    public boolean isFaulty() {
        return !faults.isEmpty() || !elsewhere.isEmpty();
    }

    /** Of the field's element. */
    public String id(String path) {
        return idsBeginWith + path.replace('/', '-');
    }

    /** Puts a value in, written as one would type it. */
    public TypedForm show(String path, @Nullable Object value) {
        fields.put(path, typed(value));
        return this;
    }

    private String typed(@Nullable Object value) {
        if (value instanceof Number number) {
            return numbers.typed(number);
        }
        if (value instanceof Money money) {
            return numbers.typed(money.amount());
        }
        if (value instanceof Enum<?> constant) {
            return kebab(constant);
        }
        if (value instanceof List<?> lines) {
            return String.join("\n", lines.stream().map(String::valueOf).toList());
        }
        return value == null ? "" : value.toString();
    }

    /** A place without a field of its own at which faults are shown, such as that of a list. */
    public TypedForm holds(String path) {
        places.add(path);
        return this;
    }

    /**
     * How many rows of a list there are, blank ones not counted once {@link #tidyRows} was called.
     */
    public int rows(String list) {
        return byRow(list).size();
    }

    /** Takes out blank rows and counts the others from 0 on, as their pointers do. */
    public void tidyRows(String list) {
        Map<Integer, Map<String, String>> rows = byRow(list);
        fields.keySet().removeIf(path -> path.startsWith(list + "/"));
        int next = 0;
        for (Map<String, String> row : rows.values()) {
            if (row.values().stream().anyMatch(text -> !text.isBlank())) {
                String at = list + "/" + next++ + "/";
                row.forEach((field, text) -> fields.put(at + field, text));
            }
        }
    }

    private Map<Integer, Map<String, String>> byRow(String list) {
        Map<Integer, Map<String, String>> rows = new TreeMap<>();
        String under = list + "/";
        fields.forEach(
                (path, text) -> {
                    if (path.startsWith(under)) {
                        String rest = path.substring(under.length());
                        Matcher m = ROW.matcher(rest);
                        if (m.matches()) {
                            rows.computeIfAbsent(
                                            Integer.valueOf(m.group(1)), n -> new LinkedHashMap<>())
                                    .put(rest.substring(m.group(1).length() + 1), text);
                        }
                    }
                });
        return rows;
    }

    // Reading ---------------------------------------------------------------------------------

    /** Null when nothing is typed. */
    public @Nullable String text(String path) {
        String text = LINE_ENDS.matcher(PlainText.withoutTurns(at(path)).strip()).replaceAll("\n");
        return text.isEmpty() ? null : text;
    }

    public @Nullable Integer whole(String path) {
        return read(path, numbers.whole(at(path))).asInteger();
    }

    public @Nullable Double number(String path) {
        return read(path, numbers.number(at(path))).asDouble();
    }

    public @Nullable Money money(String path, Currency currency) {
        BigDecimal amount = read(path, numbers.number(at(path))).value();
        return amount == null ? null : new Money(amount, currency);
    }

    private Reading read(String path, Reading reading) {
        if (reading.fault() != null) {
            unread.add(path, reading.fault());
        }
        return reading;
    }

    public @Nullable LocalDate date(String path) {
        String text = text(path);
        try {
            return text == null ? null : JsonValues.day(text);
        } catch (DateTimeParseException | IllegalArgumentException e) {
            unread.add(path, "is no date: one such as 2026-03-31");
            return null;
        }
    }

    /** One of the constants by its name in kebab case. */
    public <E extends Enum<E>> @Nullable E choice(String path, Class<E> of) {
        String text = text(path);
        E chosen =
                Arrays.stream(of.getEnumConstants())
                        .filter(c -> kebab(c).equals(text))
                        .findFirst()
                        .orElse(null);
        if (chosen == null && text != null) {
            unread.add(path, "is none of what can be chosen");
        }
        return chosen;
    }

    /** Each line that says something. */
    public List<String> lines(String path) {
        return LINE_ENDS
                .splitAsStream(at(path))
                .map(String::strip)
                .filter(l -> !l.isEmpty())
                .toList();
    }

    public static String kebab(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    // Faults ----------------------------------------------------------------------------------

    /**
     * @throws InvalidInput when something could not be read
     */
    public void throwIfUnread() {
        unread.throwIfAny();
    }

    /** Keeps what was refused, to be shown at the fields; what could not be read comes first. */
    public TypedForm refused(InvalidInput e) {
        unread.all().forEach(this::place);
        e.faults().forEach(this::place);
        return this;
    }

    /** Each at its field, else at the nearest one that holds it, such as a line of a text. */
    private void place(Fault fault) {
        String at = fault.pointer();
        String within = "";
        while (!fields.containsKey(at) && !places.contains(at)) {
            int last = at.lastIndexOf('/');
            if (last <= 0) {
                elsewhere.add(
                        fault.pointer().isEmpty()
                                ? fault.message()
                                : fault.pointer().substring(1) + ": " + fault.message());
                return;
            }
            within = at.substring(last + 1);
            at = at.substring(0, last);
        }
        faults.putIfAbsent(
                at,
                within.matches("\\d{1,3}")
                        ? "line " + (Integer.parseInt(within) + 1) + " " + fault.message()
                        : fault.message());
    }
}
