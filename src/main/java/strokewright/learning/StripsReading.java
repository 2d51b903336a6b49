package strokewright.learning;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.ToolKind;
import strokewright.quantity.Fault;
import strokewright.sheet.Gauge;
import strokewright.web.Numbers;
import strokewright.web.Reading;

/** Reads the typed form: text to values with their units, and faults back to their fields. */
final class StripsReading {

    private static final Pattern STOPWATCH = Pattern.compile("(\\d{1,5}):([0-5]\\d)");

    private final TypedStrips typed;
    private final ShopBook book;
    private final Numbers numbers;
    private final Map<String, String> faults = new LinkedHashMap<>();

    /** In the order of the page. */
    private final List<String> fields = new ArrayList<>(List.of("/tool", "/machine"));

    /** Row of the form by the pointer of its reading: they differ where rows were left empty. */
    private final Map<String, String> rowOf = new HashMap<>();

    private StripsReading(TypedStrips typed, ShopBook book, Numbers numbers) {
        this.typed = typed;
        this.book = book;
        this.numbers = numbers;
    }

    /**
     * @param notes with null wherever something cannot be read
     * @param faults by the name of their field, the first of each
     * @param fields of the page, in order
     */
    record Read(TestStrips notes, Map<String, String> faults, List<String> fields) {

        /** The first of the faulty fields on the page; empty when there is none. */
        String firstFault() {
            return fields.stream().filter(faults::containsKey).findFirst().orElse("");
        }
    }

    static Read read(TypedStrips typed, ShopBook book, Numbers numbers) {
        return new StripsReading(typed, book, numbers).read();
    }

    private Read read() {
        List<TestStrips.Strip> strips = new ArrayList<>();
        for (int i = 0; i < typed.strips().size(); i++) {
            strips.add(strip("/strips/" + i, typed.strips().get(i)));
        }
        TestStrips notes =
                new TestStrips(
                        blankToNull(typed.tool()), blankToNull(typed.machine()), null, strips);
        for (Fault fault : TestStripsCheck.faults(notes, book).all()) {
            faults.putIfAbsent(field(fault.pointer()), fault.message());
        }
        return new Read(notes, faults, fields);
    }

    private TestStrips.Strip strip(String at, TypedStrips.Strip strip) {
        return new TestStrips.Strip(
                blankToNull(strip.grade()),
                value(
                        at + "/thicknessMm",
                        strip.thicknessMm(),
                        text ->
                                numbers.thicknessMm(
                                        text, Gauge::inTable, gaugeTable(strip.grade()))),
                sense(strip.sense()),
                value(at + "/lengthMm", strip.lengthMm(), numbers::lengthMm),
                value(at + "/heightMm", strip.heightMm(), numbers::lengthMm),
                value(at + "/startRadiusMm", strip.startRadiusMm(), numbers::lengthMm),
                readings(at + "/readings/", strip.readings()));
    }

    private List<TestStrips.Reading> readings(String at, List<TypedStrips.Row> rows) {
        List<TestStrips.Reading> readings = new ArrayList<>();
        for (int i = 0; i < rows.size(); i++) {
            TypedStrips.Row row = rows.get(i);
            if (row.isEmpty()) {
                continue;
            }
            rowOf.put(at + readings.size(), at + i);
            readings.add(
                    new TestStrips.Reading(
                            value(at + i + "/radiusMm", row.radiusMm(), numbers::lengthMm),
                            value(at + i + "/strokes", row.strokes(), numbers::number),
                            value(at + i + "/minutes", row.minutes(), this::minutes)));
        }
        return readings;
    }

    /** As a number, or as a stopwatch shows it, 12:30. */
    private Reading minutes(String text) {
        Matcher watch = STOPWATCH.matcher(text.strip());
        return watch.matches()
                ? numbers.number(
                        numbers.typed(
                                Integer.parseInt(watch.group(1))
                                        + Integer.parseInt(watch.group(2)) / 60.0))
                : numbers.number(text);
    }

    private @Nullable Sense sense(String word) {
        ToolKind kind = book.tool(typed.tool()).map(ShopBook.Tool::kind).orElse(null);
        return switch (word) {
            case "shrink" -> Sense.SHRINK;
            case "stretch" -> Sense.STRETCH;
            default ->
                    kind == ToolKind.SHRINK
                            ? Sense.SHRINK
                            : kind == ToolKind.STRETCH ? Sense.STRETCH : null;
        };
    }

    private @Nullable Double value(String field, String text, Function<String, Reading> reader) {
        fields.add(field);
        Reading read = reader.apply(text);
        if (read.fault() != null) {
            faults.putIfAbsent(field, read.fault());
        }
        return read.asDouble();
    }

    private String field(String pointer) {
        String[] parts = pointer.split("/");
        if (parts.length < 5) {
            return pointer.endsWith("/readings") ? pointer + "/0/radiusMm" : pointer;
        }
        String row = String.join("/", List.of(parts).subList(0, 5));
        return rowOf.getOrDefault(row, row) + pointer.substring(row.length());
    }

    private @Nullable String gaugeTable(String grade) {
        return book.grade(blankToNull(grade)).map(ShopBook.Grade::gaugeTable).orElse(null);
    }

    private static @Nullable String blankToNull(String text) {
        return text.isBlank() ? null : text;
    }
}
