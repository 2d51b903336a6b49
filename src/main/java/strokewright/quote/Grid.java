package strokewright.quote;

import static strokewright.office.Cell.formula;
import static strokewright.office.Cell.number;
import static strokewright.office.Cell.text;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.IntFunction;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.office.Cell;
import strokewright.office.Look;
import strokewright.office.Look.Align;
import strokewright.office.Look.Rule;
import strokewright.office.Place;
import strokewright.office.Sheet;

/**
 * The grid of a workings sheet: what, how, the chosen quantity in whole cents and exactly, and a
 * column for each estimated quantity. Rows are known by the name of what they hold.
 */
final class Grid {

    static final int LABEL = 0;
    static final int WORDS = 1;
    static final int CHOSEN = 2;

    private static final int EXACT = 3;
    private static final int FIRST = 4;
    private static final int STORED = 3;
    private static final int CHANGED = 4;

    private static final Look QUIET = Look.PLAIN.quietly();
    private static final Look FOUR_DECIMALS = Look.number(4);
    private static final Look SUM = Look.PLAIN.inBold().ruled(Rule.ABOVE);

    private final Sheet sheet;
    private final List<Integer> quantities;
    private final Look money;
    private final int minorDigits;
    private final @Nullable Grid before;
    private final Map<String, Place> inputs = new LinkedHashMap<>();
    private final Map<String, Integer> rows = new HashMap<>();
    private int row;

    /**
     * @param minorDigits decimals of the currency
     * @param before grid of the item before this one, whose inputs this one follows until its own
     *     are typed over
     */
    Grid(
            Sheet sheet,
            List<Integer> quantities,
            Look money,
            int minorDigits,
            @Nullable Grid before) {
        this.sheet = sheet;
        this.quantities = quantities;
        this.money = money;
        this.minorDigits = minorDigits;
        this.before = before;
    }

    // Where things stand --------------------------------------------------------------------------

    /** The figure of the chosen quantity. */
    Place chosen(String name) {
        return sheet.place(row(name), CHOSEN);
    }

    /** The figure of one of the estimated quantities, counted from zero. */
    Place of(int quantity, String name) {
        return sheet.place(row(name), FIRST + quantity);
    }

    /** What stands in the column of words. */
    Place words(String name) {
        return sheet.place(row(name), WORDS);
    }

    /** Where something may be typed in. */
    Place input(String name) {
        Place cell = inputs.get(name);
        if (cell == null) {
            throw new IllegalStateException("no input " + name);
        }
        return cell;
    }

    /** The same as a formula on this sheet writes it. */
    String typed(String input) {
        return input(input).fixed();
    }

    /** A figure in the given column, as a formula in that column writes it. */
    String at(String name, int column) {
        return sheet.place(row(name), column).here();
    }

    /** All cells that say whether an input was changed. */
    String changes() {
        List<Place> cells = List.copyOf(inputs.values());
        return cells.get(0)
                .right(CHANGED - CHOSEN)
                .fixedTo(cells.get(cells.size() - 1).right(CHANGED - CHOSEN));
    }

    /** Says which of the quantities is chosen, counted from one; an error where it is none. */
    Place which() {
        return chosen("chosen").right(1);
    }

    private int row(String name) {
        Integer at = rows.get(name);
        if (at == null) {
            throw new IllegalStateException("no row " + name);
        }
        return at;
    }

    private String range(String name) {
        return of(0, name).fixedTo(of(quantities.size() - 1, name));
    }

    // Rows, from top to bottom --------------------------------------------------------------------

    /** A row that is known by a name and filled by hand. */
    int line(String name) {
        rows.put(name, row);
        return row++;
    }

    void line(List<Cell> cells) {
        sheet.put(row++, LABEL, cells);
    }

    void line(Cell cell) {
        line(List.of(cell));
    }

    /** A text as wide as the grid without the columns of the quantities. */
    void across(Cell cell) {
        sheet.across(row++, LABEL, FIRST, cell);
    }

    /** What follows begins a new page. */
    void newPage() {
        sheet.newPage(row + 1);
    }

    /** Heads of a table; from the given column on they stand over figures. */
    void heads(int figuresFrom, String... heads) {
        row++;
        line(
                IntStream.range(0, heads.length)
                        .mapToObj(
                                i ->
                                        text(
                                                heads[i],
                                                i < figuresFrom
                                                        ? Look.HEAD
                                                        : Look.HEAD.aligned(Align.RIGHT)))
                        .toList());
    }

    /** Heads of a table with a column for each quantity; the first such says which they are. */
    void quantityHeads(String label, String words, String exactly) {
        heads(CHOSEN, label, words, "", exactly);
        int head = row - 1;
        boolean first = rows.putIfAbsent("quantity", head) == null;
        Look look = Look.HEAD.aligned(Align.RIGHT).formatted("\"for \"#,##0");
        sheet.put(head, CHOSEN, formula(chosen("chosen").fixed(), look));
        if (first) {
            sheet.put(
                    which().row(),
                    which().column(),
                    formula(
                            "MATCH(%s,%s,0)".formatted(chosen("chosen").fixed(), range("quantity")),
                            QUIET.formatted("\"no. \"0")));
        }
        for (int i = 0; i < quantities.size(); i++) {
            sheet.put(
                    head,
                    FIRST + i,
                    first
                            ? number(quantities.get(i), look)
                            : formula(of(i, "quantity").fixed(), look));
        }
    }

    /**
     * A figure that may be typed over, with what was stored and a word where they differ.
     *
     * @return where it may be typed
     */
    Place input(String name, String label, String words, Number stored, Look look) {
        return input(name, label, words, stored, look, true);
    }

    /**
     * @param follows whether it is what the sheet before has in its cell
     */
    Place input(
            String name, String label, String words, Number stored, Look look, boolean follows) {
        Place cell = sheet.place(row, CHOSEN);
        Place followed = before == null || !follows ? null : before.inputs.get(name);
        line(
                List.of(
                        text(label),
                        text(words),
                        followed == null
                                ? number(stored, look.asInput())
                                : formula(followed.toString(), look.asInput()),
                        number(stored, look.quietly()),
                        formula(
                                "IF(%s=%s,\"\",\"changed\")"
                                        .formatted(cell.here(), cell.right(STORED - CHOSEN).here()),
                                QUIET)));
        inputs.put(name, cell);
        return cell;
    }

    /** Figures as they were stored. */
    void values(String name, String label, String words, Look look, IntFunction<Number> value) {
        begin(name, label, text(words), Look.PLAIN);
        for (int i = 0; i < quantities.size(); i++) {
            sheet.put(row, FIRST + i, number(value.apply(i), look));
        }
        sheet.put(row, CHOSEN, formula(ofChosen(name), look));
        row++;
    }

    /** Amounts at full precision that no formula stands behind. */
    void amounts(String name, String label, String words, IntFunction<Number> value) {
        begin(name, label, text(words), Look.PLAIN);
        for (int i = 0; i < quantities.size(); i++) {
            sheet.put(row, FIRST + i, number(value.apply(i), FOUR_DECIMALS));
        }
        exactOfChosen(name, FOUR_DECIMALS);
        sheet.put(row, CHOSEN, formula(inCents(name), money));
        row++;
    }

    /** An amount at full precision, by the same formula in each column. */
    void step(String name, String label, Cell words, IntFunction<String> inColumn) {
        begin(name, label, words, Look.PLAIN);
        fill(FOUR_DECIMALS, inColumn);
        exactOfChosen(name, FOUR_DECIMALS);
        sheet.put(row, CHOSEN, formula(inCents(name), money));
        row++;
    }

    /**
     * The sum of those parts that are there, in whole cents the true sum, rounded. Where its parts
     * would miss that by a cent, one of them takes the difference, as in the estimate.
     *
     * @param from a sum that this one goes on from, in whole cents already; null for none
     * @param parts the first of them that is not nothing takes the difference
     */
    void sum(String name, String label, @Nullable String from, String... parts) {
        List<String> there = there(Stream.of(parts));
        add(name, label, there(Stream.concat(Stream.ofNullable(from), Stream.of(parts))));
        sheet.put(row - 1, CHOSEN, formula(inCents(name), SUM.formatted(money.format())));
        String left = at(name, CHOSEN) + (from == null ? "" : "-" + at(from, CHOSEN));
        for (String part : there) {
            sheet.put(row(part), CHOSEN, formula(addingUp(part, there, left), money));
        }
    }

    /** The sum of those parts that are there, in whole cents the sum of theirs. */
    void plainSum(String name, String label, String... parts) {
        List<String> there = there(Stream.of(parts));
        add(name, label, there);
        sheet.put(row - 1, CHOSEN, formula(plus(there, CHOSEN), SUM.formatted(money.format())));
    }

    private void add(String name, String label, List<String> parts) {
        Look exact = SUM.formatted(FOUR_DECIMALS.format());
        begin(name, label, text("", SUM), SUM);
        fill(exact, column -> plus(parts, column));
        exactOfChosen(name, exact);
        row++;
    }

    private List<String> there(Stream<String> parts) {
        return parts.filter(rows::containsKey).toList();
    }

    private String plus(List<String> parts, int column) {
        return parts.stream().map(part -> at(part, column)).collect(Collectors.joining("+"));
    }

    /** What is left of one row after others, in whole cents as exactly. */
    void difference(String name, String label, String words, String from, String... less) {
        IntFunction<String> left =
                column ->
                        at(from, column)
                                + Stream.of(less)
                                        .map(part -> "-" + at(part, column))
                                        .collect(Collectors.joining());
        step(name, label, text(words), left);
        sheet.put(row - 1, CHOSEN, formula(left.apply(CHOSEN), money));
    }

    /** An amount in whole cents in every column. */
    void settled(String name, String label, Cell words, IntFunction<String> inColumn) {
        Look strong = money.inBold();
        begin(name, label, words, Look.PLAIN.inBold());
        fill(strong, inColumn);
        sheet.put(row, CHOSEN, formula(ofChosen(name), strong));
        row++;
    }

    /** The rounded part, and with it what is left over if it is the first that is not nothing. */
    private String addingUp(String part, List<String> parts, String left) {
        if (parts.size() == 1) {
            return left;
        }
        String rest =
                parts.stream().map(this::inCents).collect(Collectors.joining("-", left + "-", ""));
        String takesIt =
                Stream.concat(
                                parts.stream()
                                        .takeWhile(earlier -> !earlier.equals(part))
                                        .map(earlier -> at(earlier, EXACT) + "=0"),
                                Stream.of(at(part, EXACT) + "<>0"))
                        .collect(Collectors.joining(",", "AND(", ")"));
        return "ROUND(%s+IF(%s,%s,0),%d)".formatted(inCents(part), takesIt, rest, minorDigits);
    }

    private String inCents(String name) {
        return "ROUND(%s,%d)".formatted(at(name, EXACT), minorDigits);
    }

    private String ofChosen(String name) {
        return "INDEX(%s,1,%s)".formatted(range(name), which().fixed());
    }

    private void exactOfChosen(String name, Look look) {
        sheet.put(row, EXACT, formula(ofChosen(name), look.quietly()));
    }

    private void begin(String name, String label, Cell words, Look look) {
        rows.put(name, row);
        sheet.put(row, LABEL, text(label, look));
        sheet.put(row, WORDS, words);
    }

    private void fill(Look look, IntFunction<String> inColumn) {
        for (int column = FIRST; column < FIRST + quantities.size(); column++) {
            sheet.put(row, column, formula(inColumn.apply(column), look));
        }
    }
}
