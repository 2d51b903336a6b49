package strokewright.exchange;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What an import would do.
 *
 * @param rows of the file in its order, then what would be taken out
 * @param absent how many there are that the file does not have
 * @param notes what whoever imports should know besides
 * @param words of the file that had to be understood
 */
public record Plan(
        List<Row> rows,
        List<CellFault> faults,
        int absent,
        List<String> notes,
        List<FileWord> words) {

    public Plan(List<Row> rows, List<CellFault> faults, int absent, List<String> notes) {
        this(rows, faults, absent, notes, List.of());
    }

    public enum What {
        @JsonProperty("new")
        NEW,
        @JsonProperty("changed")
        CHANGED,
        @JsonProperty("same")
        SAME,
        @JsonProperty("removed")
        REMOVED
    }

    /**
     * @param row in the file; null where it is taken out
     * @param name tells it apart from the others
     * @param fields that change
     */
    @JsonInclude(JsonInclude.Include.NON_EMPTY)
    public record Row(@Nullable Integer row, What what, String name, List<FieldChange> fields) {}

    /**
     * @param old null where there was nothing
     * @param now null where nothing is left
     */
    public record FieldChange(String column, @Nullable String old, @Nullable String now) {}

    int count(What what) {
        return (int) rows.stream().filter(r -> r.what == what).count();
    }
}
