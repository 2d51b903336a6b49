package strokewright.estimate;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Money;

/**
 * What another route of an item is to be begun as. What is left out comes from the shop book's
 * {@link ShopBook.RouteDefaults}; {@code part} counts from zero and is the first that fits when
 * left out.
 */
@JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "type")
@JsonSubTypes({
    @JsonSubTypes.Type(value = RouteStart.SegmentsWelded.class, name = "segments-welded"),
    @JsonSubTypes.Type(value = RouteStart.HeatShrunkByHand.class, name = "heat-shrunk-by-hand"),
    @JsonSubTypes.Type(value = RouteStart.PressTool.class, name = "press-tool")
})
public sealed interface RouteStart {

    @Nullable Integer part();

    /** What the route is called, until somebody calls it something else. */
    @JsonIgnore
    String name();

    /**
     * A part made in segments that are welded together.
     *
     * @param segments 2 to 100
     * @param closed whether the last segment meets the first; as the part's sweep says when left
     *     out
     * @param trimMm added to a segment at each end that is welded
     * @param jointStandards time standards that each joint takes
     */
    record SegmentsWelded(
            @Nullable Integer part,
            @Nullable Integer segments,
            @Nullable Boolean closed,
            @Nullable Double trimMm,
            @Nullable List<String> jointStandards)
            implements RouteStart {

        public SegmentsWelded {
            jointStandards = jointStandards == null ? null : TakeOff.copy(jointStandards);
        }

        @Override
        public String name() {
            return "In segments and welded";
        }
    }

    /**
     * Shrinking edges of a part gathered by hand with heat.
     *
     * @param standard a time standard by metre of edge
     */
    record HeatShrunkByHand(@Nullable Integer part, @Nullable String standard)
            implements RouteStart {

        @Override
        public String name() {
            return "Heat-shrunk by hand";
        }
    }

    /**
     * The forming of a part done by a tool in a press, the tool bought.
     *
     * @param standard a time standard by piece
     * @param cost of one tool; to be filled in when left out
     * @param lifePieces pieces of the item that one tool makes
     */
    record PressTool(
            @Nullable Integer part,
            @Nullable String standard,
            @Nullable Money cost,
            @Nullable Integer lifePieces,
            @Nullable Integer leadTimeDays)
            implements RouteStart {

        @Override
        public String name() {
            return "Press tool bought out";
        }
    }
}
