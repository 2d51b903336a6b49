package strokewright.estimate;

import com.fasterxml.jackson.annotation.JsonProperty;
import org.jspecify.annotations.Nullable;

/**
 * A rule of the shop book that proposes a line of other work wherever its condition holds, so that
 * nothing is forgotten. The estimator takes it out by its code.
 *
 * @param code short name, unique in the shop book
 * @param when what has to be there
 * @param from for {@link When#STRETCH} the true strain from which on it is proposed
 * @param standard name of the time standard that it takes
 * @param amount where the amount comes from
 * @param factor the amount is multiplied by this; 1 when left out
 * @param place before or after the forming; after when left out
 * @param origin where the rule comes from
 */
public record Proposal(
        @Nullable String code,
        @Nullable When when,
        @Nullable Double from,
        @Nullable String standard,
        @Nullable Amount amount,
        Double factor,
        Place place,
        @Nullable String origin) {

    public Proposal {
        factor = factor == null ? Double.valueOf(1) : factor;
        place = place == null ? Place.AFTER : place;
    }

    /**
     * Whether it proposes its line for the item as a whole rather than for each of its parts. What
     * is measured on inspected pieces is each part's own: a part has its class, and its pieces are
     * a lot.
     */
    public boolean ofItem(ShopBook book) {
        return when.ofItem()
                && book.standard(standard).filter(s -> s.unit().onInspectedPieces()).isEmpty();
    }

    /** What has to be there, in a part or in the whole item. */
    public enum When {
        @JsonProperty("blank")
        BLANK,
        @JsonProperty("dish")
        DISH,
        @JsonProperty("curved-edge")
        CURVED_EDGE,
        @JsonProperty("stretch")
        STRETCH,
        /** A closed outline or a full circle. */
        @JsonProperty("closed")
        CLOSED,
        @JsonProperty("visible")
        VISIBLE,
        @JsonProperty("bends")
        BENDS,
        /** A formed edge with a radius that no template is held for. */
        @JsonProperty("radius")
        RADIUS,
        @JsonProperty("old-part")
        OLD_PART,
        @JsonProperty("several-parts")
        SEVERAL_PARTS,
        @JsonProperty("always")
        ALWAYS;

        /** Whether it looks at the item as a whole rather than at each of its parts. */
        boolean ofItem() {
            return this == RADIUS || this == OLD_PART || this == SEVERAL_PARTS || this == ALWAYS;
        }
    }

    /** What the amount is taken from, in the unit of the time standard. */
    public enum Amount {
        @JsonProperty("one")
        ONE,
        /** Straight cuts of the blank: four. */
        @JsonProperty("cuts")
        CUTS,
        /** Metres around the blank; around the disc where a square becomes one. */
        @JsonProperty("perimeter")
        PERIMETER,
        /** Metres around the discs to be dished. */
        @JsonProperty("circumference")
        CIRCUMFERENCE,
        /** Metres of formed edge, of those that the condition speaks of. */
        @JsonProperty("edge-length")
        EDGE_LENGTH,
        /** Two for a curved strip, and for each run of an outline, that does not close. */
        @JsonProperty("ends")
        ENDS,
        @JsonProperty("joints")
        JOINTS,
        /** Metres of weld. */
        @JsonProperty("weld-length")
        WELD_LENGTH,
        @JsonProperty("bends")
        BENDS,
        /** dm² of one side of the blank. */
        @JsonProperty("area")
        AREA,
        /** kg of the piece. */
        @JsonProperty("mass")
        MASS,
        /** One for each distinct radius that no template is held for. */
        @JsonProperty("templates")
        TEMPLATES,
        /** Places where parts meet: one fewer than pieces in an item. */
        @JsonProperty("meetings")
        MEETINGS,
        /** Sizes that the final check measures. */
        @JsonProperty("dimensions")
        DIMENSIONS,
        /** Stations of formed contours that the final check looks at. */
        @JsonProperty("contour-stations")
        CONTOUR_STATIONS
    }

    public enum Place {
        @JsonProperty("before")
        BEFORE,
        @JsonProperty("after")
        AFTER
    }
}
