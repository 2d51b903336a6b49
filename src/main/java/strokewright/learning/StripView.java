package strokewright.learning;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the page of a fitted set shows, in words and in numbers as the reader writes them.
 *
 * @param figures empty when refused
 * @param scatter how far readings are off; null when nothing could be fitted
 * @param otherMachines whether the line would hold for machines that the strips were not formed on
 */
record StripView(
        List<Told> findings,
        List<Figure> figures,
        @Nullable String scatter,
        List<StripPart> strips,
        List<Change> changes,
        boolean otherMachines) {

    record Told(String style, String where, String text, @Nullable String change) {}

    /**
     * @param interval "1.02 to 1.12", or "at least"
     */
    record Figure(String name, String value, String unit, String interval) {}

    /**
     * @param sketch in one line: grade, thickness, size
     */
    record StripPart(String sketch, @Nullable String picture, List<ReadingRow> readings) {}

    record ReadingRow(
            String radius,
            String strain,
            String strokes,
            String minutes,
            String fitted,
            String residual,
            String percentOff,
            String heldBy) {}

    /**
     * @param kept the figure stays as it is
     */
    record Change(String name, String now, String then, String unit, boolean kept) {}
}
