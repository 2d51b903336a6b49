package strokewright.takeoff;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Price, quantity and doubt of one item, as the take-off page and the quote show them.
 *
 * @param steps from material to the offer with tax, for the main quantity
 * @param list every quantity with its price
 * @param full every quantity in all its figures, a few to a table
 * @param checks what the final check of the main quantity has to look at, in words
 * @param spread null in estimates that were made before spread was reckoned
 * @param drivers null where nothing is known of them
 */
public record PriceView(
        String id,
        String currency,
        String quantity,
        List<StepRow> steps,
        List<ListRow> list,
        List<FullTable> full,
        List<String> checks,
        @Nullable SpreadView spread,
        @Nullable DriversView drivers) {

    /** Whether any quantity has a chance of loss to show. */
    public boolean isWithLoss() { // public for the templates
        return list.stream().anyMatch(row -> !row.loss().isEmpty());
    }

    /**
     * One step, or a part of the step above it.
     *
     * @param look of the row: sum, down, within, or empty
     * @param base what it is taken of, in words; empty for none
     */
    record StepRow(String look, String name, String base, String amount, String bar) {}

    /**
     * A quantity with its price.
     *
     * @param key the quantity as a field takes it
     * @param loss chance of it; empty where unknown
     * @param passage how so many go over the machines; empty without forming
     */
    record ListRow(
            int key,
            String quantity,
            boolean main,
            String hours,
            String priceEach,
            String offer,
            String withTax,
            String loss,
            String passage) {}

    /** Some of the quantities side by side. */
    record FullTable(List<Head> heads, List<FigureRow> rows) {}

    record Head(String quantity, boolean main) {}

    /**
     * @param values one for each quantity; empty where it has none
     */
    record FigureRow(String name, String unit, List<String> values) {}

    /**
     * @param picture hours, cost and price of the main quantity
     * @param words the same as somebody would say it
     */
    record SpreadView(
            String picture,
            List<String> words,
            List<BandRow> bands,
            List<PercentileRow> percentiles) {}

    /** Each of one quantity. */
    record BandRow(
            String quantity,
            boolean main,
            BandCell hours,
            BandCell cost,
            BandCell price,
            String loss) {}

    /**
     * @param words from P10 to P90
     */
    record BandCell(String bar, String words) {}

    /** All percentiles of one figure of one quantity. */
    record PercentileRow(
            String quantity,
            String what,
            String reckoned,
            String p10,
            String p50,
            String mean,
            String p65,
            String p80,
            String p90) {}

    /**
     * @param advice what to find out to narrow the doubt; empty for none
     * @param byStrip whether test strips would tell
     */
    record DriversView(
            List<DriverRow> first, List<DriverRow> rest, String advice, boolean byStrip) {}

    record DriverRow(String name, BandCell hours, BandCell cost) {}
}
