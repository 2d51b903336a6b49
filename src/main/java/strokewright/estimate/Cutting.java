package strokewright.estimate;

import com.fasterxml.jackson.annotation.JsonProperty;
import org.jspecify.annotations.Nullable;

/**
 * How blanks are cut from stock sheets, edge to edge.
 *
 * @param kerfMm lost at each cut; 0 for shears
 * @param edgeMarginMm unusable along every edge of a sheet; common practice, no source
 * @param offcuts whether the order pays for them
 * @param keptFromMm an offcut is worth keeping when both its sides reach this
 * @param origin where the figures come from
 */
public record Cutting(
        Double kerfMm,
        Double edgeMarginMm,
        Offcuts offcuts,
        Double keptFromMm,
        @Nullable String origin) {

    public static final Cutting DEFAULTS = new Cutting(null, null, null, null, null);

    public Cutting {
        kerfMm = kerfMm == null ? Double.valueOf(0) : kerfMm;
        edgeMarginMm = edgeMarginMm == null ? Double.valueOf(5) : edgeMarginMm;
        offcuts = offcuts == null ? Offcuts.CHARGED : offcuts;
        keptFromMm = keptFromMm == null ? Double.valueOf(300) : keptFromMm;
    }

    public enum Offcuts {
        /** Whole sheets are paid for. */
        @JsonProperty("charged")
        CHARGED,
        /** What is worth keeping goes back to stock and is not paid for. */
        @JsonProperty("kept")
        KEPT
    }
}
