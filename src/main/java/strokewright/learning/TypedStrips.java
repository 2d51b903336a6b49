package strokewright.learning;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.Tool;
import strokewright.estimate.ToolChoice;
import strokewright.web.Numbers;

/**
 * The form as it was typed. Its fields are named by JSON pointers of what they mean, {@code
 * /strips/0/readings/2/strokes}; empty rows of readings count as not there.
 */
record TypedStrips(String tool, String machine, List<Strip> strips) {

    private static final int ROWS_AT_FIRST = 6;
    private static final int MORE_ROWS = 4;
    private static final int MOST_ROWS = 100;
    private static final int MOST_STRIPS = 20;
    private static final int LONGEST_TEXT = 200;

    TypedStrips {
        strips = List.copyOf(strips);
    }

    record Strip(
            String grade,
            String thicknessMm,
            String sense,
            String lengthMm,
            String heightMm,
            String startRadiusMm,
            List<Row> readings) {

        Strip {
            readings = List.copyOf(readings);
        }

        private Strip withRows(int more) {
            return new Strip(
                    grade,
                    thicknessMm,
                    sense,
                    lengthMm,
                    heightMm,
                    startRadiusMm,
                    IntStream.range(0, Math.min(MOST_ROWS, readings.size() + more))
                            .mapToObj(i -> i < readings.size() ? readings.get(i) : Row.EMPTY)
                            .toList());
        }

        private static Strip empty(String grade) {
            return new Strip(grade, "", "", "", "", "", List.of()).withRows(ROWS_AT_FIRST);
        }
    }

    record Row(String radiusMm, String strokes, String minutes) {

        static final Row EMPTY = new Row("", "", "");

        boolean isEmpty() {
            return radiusMm.isBlank() && strokes.isBlank() && minutes.isBlank();
        }
    }

    static TypedStrips begun(ShopBook book) {
        String tool =
                book.tools().stream()
                        .filter(t -> ToolChoice.EDGE.contains(t.kind()))
                        .map(Tool::name)
                        .findFirst()
                        .orElse("");
        return new TypedStrips(
                tool,
                book.machines().get(0).name(),
                List.of(Strip.empty(book.grades().get(0).code())));
    }

    /** What was entered once, to be mended and entered again. */
    static TypedStrips of(TestStrips notes, Numbers numbers) {
        return new TypedStrips(
                notes.tool(),
                notes.machine(),
                notes.strips().stream()
                        .map(
                                s ->
                                        new Strip(
                                                        s.grade(),
                                                        numbers.typed(s.thicknessMm()),
                                                        word(s.sense()),
                                                        numbers.typed(s.lengthMm()),
                                                        numbers.typed(s.heightMm()),
                                                        numbers.typed(s.startRadiusMm()),
                                                        s.readings().stream()
                                                                .map(r -> row(r, numbers))
                                                                .toList())
                                                .withRows(1))
                        .toList());
    }

    private static Row row(TestStrips.Reading reading, Numbers numbers) {
        return new Row(
                numbers.typed(reading.radiusMm()),
                numbers.typed(reading.strokes()),
                numbers.typed(reading.minutes()));
    }

    static String word(Sense sense) {
        return sense == Sense.SHRINK ? "shrink" : "stretch";
    }

    static TypedStrips of(Map<String, String[]> form) {
        List<Strip> strips = new ArrayList<>();
        while (strips.size() < MOST_STRIPS && form.containsKey(strip(strips.size()) + "/grade")) {
            strips.add(strip(form, strip(strips.size())));
        }
        return new TypedStrips(text(form, "/tool"), text(form, "/machine"), strips);
    }

    private static Strip strip(Map<String, String[]> form, String at) {
        List<Row> rows = new ArrayList<>();
        while (rows.size() < MOST_ROWS
                && form.containsKey(at + "/readings/" + rows.size() + "/radiusMm")) {
            String row = at + "/readings/" + rows.size();
            rows.add(
                    new Row(
                            text(form, row + "/radiusMm"),
                            text(form, row + "/strokes"),
                            text(form, row + "/minutes")));
        }
        return new Strip(
                text(form, at + "/grade"),
                text(form, at + "/thicknessMm"),
                text(form, at + "/sense"),
                text(form, at + "/lengthMm"),
                text(form, at + "/heightMm"),
                text(form, at + "/startRadiusMm"),
                rows);
    }

    private static String strip(int i) {
        return "/strips/" + i;
    }

    private static String text(Map<String, String[]> form, String name) {
        String[] values = form.get(name);
        String text = values == null || values.length == 0 ? "" : values[0].replace("\0", "");
        return text.length() <= LONGEST_TEXT ? text : text.substring(0, LONGEST_TEXT);
    }

    /** Another strip of the last one's grade. */
    TypedStrips withStrip() {
        List<Strip> more = new ArrayList<>(strips);
        if (more.size() < MOST_STRIPS && !more.isEmpty()) {
            Strip last = more.get(more.size() - 1);
            more.add(Strip.empty(last.grade));
        }
        return new TypedStrips(tool, machine, more);
    }

    TypedStrips withoutStrip(int i) {
        List<Strip> fewer = new ArrayList<>(strips);
        if (i >= 0 && i < fewer.size() && fewer.size() > 1) {
            fewer.remove(i);
        }
        return new TypedStrips(tool, machine, fewer);
    }

    TypedStrips withMoreRows(int i) {
        List<Strip> longer = new ArrayList<>(strips);
        if (i >= 0 && i < longer.size()) {
            longer.set(i, longer.get(i).withRows(MORE_ROWS));
        }
        return new TypedStrips(tool, machine, longer);
    }
}
