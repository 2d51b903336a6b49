package strokewright.exchange;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What an import would do or has done, as it is sent and shown.
 *
 * @param sheet of the workbook that was read; null for csv
 * @param otherSheets that were not
 * @param decimal mark that text is read by: point or comma
 * @param asks numbers that could mean two things: decimal has to be said
 * @param passedOver columns of the file that are not read
 * @param rows of the file
 * @param absent how many there are that the file does not have; they stay, or are removed
 * @param changes the first of those that are not the same
 * @param faults the first of them
 * @param words of the file that had to be understood
 * @param tag to be sent back as If-Match, so that what was shown is what is done
 */
@JsonInclude(JsonInclude.Include.NON_EMPTY)
public record Preview(
        @Nullable String sheet,
        List<String> otherSheets,
        String decimal,
        List<String> asks,
        List<String> passedOver,
        @JsonInclude(JsonInclude.Include.ALWAYS) int rows,
        @JsonProperty("new") @JsonInclude(JsonInclude.Include.ALWAYS) int added,
        @JsonInclude(JsonInclude.Include.ALWAYS) int changed,
        @JsonInclude(JsonInclude.Include.ALWAYS) int same,
        @JsonInclude(JsonInclude.Include.ALWAYS) int removed,
        @JsonInclude(JsonInclude.Include.ALWAYS) int absent,
        List<Plan.Row> changes,
        List<CellFault> faults,
        int furtherFaults,
        List<String> notes,
        List<FileWord> words,
        @JsonIgnore String tag) {

    private static final int MOST_CHANGES = 500;
    static final int MOST_FAULTS = 200;

    static Preview of(
            FileReading file, Plan plan, List<CellFault> faults, TableNames names, String tag) {
        List<Plan.Row> changes =
                plan.rows().stream().filter(r -> r.what() != Plan.What.SAME).toList();
        return new Preview(
                names.sheet,
                names.otherSheets,
                file.numbers().decimalMark() == ',' ? "comma" : "point",
                file.open(),
                file.unknown(),
                file.lines().size(),
                plan.count(Plan.What.NEW),
                plan.count(Plan.What.CHANGED),
                plan.count(Plan.What.SAME),
                plan.count(Plan.What.REMOVED),
                plan.absent(),
                changes.subList(0, Math.min(MOST_CHANGES, changes.size())),
                faults.subList(0, Math.min(MOST_FAULTS, faults.size())),
                Math.max(0, faults.size() - MOST_FAULTS),
                plan.notes(),
                plan.words(),
                tag);
    }

    record TableNames(@Nullable String sheet, List<String> otherSheets) {}

    @JsonIgnore
    public boolean isClean() {
        return faults.isEmpty();
    }

    @JsonIgnore
    public boolean changesNothing() {
        return added + changed + removed == 0;
    }

    @JsonIgnore
    public int furtherChanges() {
        return added + changed + removed - changes.size();
    }
}
