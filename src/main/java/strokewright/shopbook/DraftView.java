package strokewright.shopbook;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A part of the draft as its page shows it.
 *
 * @param page of which opening; a row that this page changed is never changed by somebody else to
 *     it
 * @param conflict what somebody else did meanwhile to a row that was sent; null as a rule
 */
record DraftView(
        BookPart part,
        int base,
        String page,
        List<Section> sections,
        Summary summary,
        @Nullable Conflict conflict) {

    /** A section with its rows. */
    record Section(
            BookSection of,
            List<Head> heads,
            List<Row> rows,
            List<Removed> removed,
            List<String> faults) {}

    /** Head of a column. */
    record Head(String label, String unit, boolean figure) {}

    /**
     * @param key in ids and addresses: section, a hyphen, number
     * @param cells of the table, where the row is not open
     * @param faultCount how many stand in it
     * @param gauges what typed gauges are in mm
     */
    record Row(
            String key,
            int id,
            String title,
            long version,
            boolean open,
            boolean first,
            boolean last,
            List<Cell> cells,
            List<Field> fields,
            List<String> faults,
            int faultCount,
            List<RowAside.Said> said,
            List<String> gauges,
            List<String> usedIn) {}

    record Cell(String text, boolean figure) {}

    /**
     * @param input "text", "box" or "choice"
     * @param otherwise what counts when it is left empty
     * @param group heading before it, where a short list or a build-up begins; else null
     */
    record Field(
            String id,
            String path,
            String label,
            String unit,
            String input,
            String mode,
            String value,
            List<Kind.Option> options,
            String otherwise,
            String help,
            @Nullable String fault,
            boolean wide,
            @Nullable String group) {}

    record Removed(int id, String title, List<String> usedIn) {}

    /**
     * @param kept when the draft was last kept; null while nothing was changed
     * @param here faults of this part
     * @param elsewhere other parts with their number of faults
     */
    record Summary(@Nullable String kept, List<Fault> here, List<Elsewhere> elsewhere) {

        public int count() {
            return here.size() + elsewhere.stream().mapToInt(Elsewhere::count).sum();
        }
    }

    /**
     * @param field id of the field; null where the row or the section as a whole is meant
     * @param row its key; null where the section as a whole is meant
     * @param href to the field, its row opened
     */
    record Fault(
            @Nullable String field,
            @Nullable String row,
            String href,
            String where,
            String message) {}

    record Elsewhere(BookPart part, int count) {}

    /**
     * @param key of the row
     * @param removed whether it was taken out
     * @param differences where what was sent differs from what is there
     */
    record Conflict(String key, String who, boolean removed, List<String> differences) {}
}
