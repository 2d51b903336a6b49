package strokewright.estimate;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.forming.SvgText;

/** One line of a take-off: forming at the machine, or work by one of the shop's time standards. */
@JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "type")
@JsonSubTypes({
    @JsonSubTypes.Type(value = Operation.CurveEdge.class, name = "curve-edge"),
    @JsonSubTypes.Type(value = Operation.TurnFlange.class, name = "turn-flange"),
    @JsonSubTypes.Type(value = Operation.Dish.class, name = "dish"),
    @JsonSubTypes.Type(value = Operation.Smooth.class, name = "smooth"),
    @JsonSubTypes.Type(value = Operation.Flatten.class, name = "flatten"),
    @JsonSubTypes.Type(value = Operation.TakeOutDents.class, name = "take-out-dents"),
    @JsonSubTypes.Type(value = Operation.FollowOutline.class, name = "follow-outline"),
    @JsonSubTypes.Type(value = Operation.Standard.class, name = "standard")
})
public sealed interface Operation permits Operation.Formed, Operation.Standard {

    /** Its name in JSON, which is also its kind wherever kinds are compared. */
    @JsonIgnore
    String kind();

    /**
     * Work done stroke by stroke at the forming machine.
     *
     * <p>{@code count} repeats the operation on the piece; {@code reachMm} is how far the work
     * reaches into the throat; {@code tool} is the estimator's own choice; all may be left out.
     */
    sealed interface Formed extends Operation
            permits CurveEdge, TurnFlange, Dish, Smooth, Flatten, TakeOutDents, FollowOutline {

        Integer count();

        @Nullable Double reachMm();

        @Nullable String tool();

        @Nullable Override override();
    }

    /** Whether the worked flange is made shorter (shrink) or longer (stretch). */
    enum Sense {
        @JsonProperty("shrink")
        SHRINK,
        @JsonProperty("stretch")
        STRETCH
    }

    /** The estimator's own minutes of one piece, kept beside the computed ones. */
    record Override(@Nullable Double minutes, @Nullable String reason) {}

    /**
     * Form a flanged strip or angle to a radius in the plane of its flange.
     *
     * @param lengthMm heel length, which the strip keeps
     * @param radiusMm heel radius to reach
     * @param startRadiusMm heel radius to start from; straight when left out
     * @param heightMm height of the flange
     */
    record CurveEdge(
            @Nullable Sense sense,
            @Nullable Double lengthMm,
            @Nullable Double radiusMm,
            @Nullable Double startRadiusMm,
            @Nullable Double heightMm,
            Integer count,
            @Nullable Double reachMm,
            @Nullable String tool,
            @Nullable Override override)
            implements Formed {

        public CurveEdge {
            count = count == null ? 1 : count;
        }

        @java.lang.Override
        public String kind() {
            return "curve-edge";
        }
    }

    /**
     * Turn up a flange on a curved edge.
     *
     * @param radiusMm radius at the bend line
     * @param angleDeg how far it is turned up, at most 90
     * @param sweepDeg how far round it runs
     */
    record TurnFlange(
            @Nullable Sense sense,
            @Nullable Double radiusMm,
            @Nullable Double heightMm,
            Double angleDeg,
            Double sweepDeg,
            Integer count,
            @Nullable Double reachMm,
            @Nullable String tool,
            @Nullable Override override)
            implements Formed {

        public TurnFlange {
            angleDeg = angleDeg == null ? Double.valueOf(90) : angleDeg;
            sweepDeg = sweepDeg == null ? Double.valueOf(360) : sweepDeg;
            count = count == null ? 1 : count;
        }

        @java.lang.Override
        public String kind() {
            return "turn-flange";
        }
    }

    /**
     * Dish a disc to a spherical cap.
     *
     * @param diameterMm base diameter
     * @param depthMm depth of the cap, at most half the diameter
     * @param rimShare how much of the shape comes from gathering the rim, 0 to 1; from the
     *     equal-area blank when left out
     * @param trimMm added to the blank diameter
     * @param tool for the rim
     * @param crownTool for the crown
     */
    record Dish(
            @Nullable Double diameterMm,
            @Nullable Double depthMm,
            @Nullable Double rimShare,
            Double trimMm,
            Integer count,
            @Nullable Double reachMm,
            @Nullable String tool,
            @Nullable String crownTool,
            @Nullable Override override)
            implements Formed {

        public Dish {
            trimMm = trimMm == null ? Double.valueOf(0) : trimMm;
            count = count == null ? 1 : count;
        }

        @java.lang.Override
        public String kind() {
            return "dish";
        }
    }

    /** Smooth (planish) an area a number of times over. */
    record Smooth(
            @Nullable Double areaMm2,
            Integer timesOver,
            Integer count,
            @Nullable Double reachMm,
            @Nullable String tool,
            @Nullable Override override)
            implements Formed {

        public Smooth {
            timesOver = timesOver == null ? 1 : timesOver;
            count = count == null ? 1 : count;
        }

        @java.lang.Override
        public String kind() {
            return "smooth";
        }
    }

    /** Flatten an area a number of times over. */
    record Flatten(
            @Nullable Double areaMm2,
            Integer timesOver,
            Integer count,
            @Nullable Double reachMm,
            @Nullable String tool,
            @Nullable Override override)
            implements Formed {

        public Flatten {
            timesOver = timesOver == null ? 1 : timesOver;
            count = count == null ? 1 : count;
        }

        @java.lang.Override
        public String kind() {
            return "flatten";
        }
    }

    /** Take out dents, spot by spot: find, feel, work, check. */
    record TakeOutDents(
            @Nullable Integer spots,
            Integer strokesPerSpot,
            Integer count,
            @Nullable Double reachMm,
            @Nullable String tool,
            @Nullable Override override)
            implements Formed {

        public TakeOutDents {
            strokesPerSpot = strokesPerSpot == null ? 60 : strokesPerSpot;
            count = count == null ? 1 : count;
        }

        @java.lang.Override
        public String kind() {
            return "take-out-dents";
        }
    }

    /** On which side of an outline the flange is. */
    enum FlangeSide {
        /** To which the outline turns on the whole. */
        @JsonProperty("inside")
        INSIDE,
        @JsonProperty("outside")
        OUTSIDE
    }

    /**
     * Follow an outline with a flanged strip, or turn a flange along it in the plane: where the
     * flange is inside a bend it shrinks, outside it stretches.
     *
     * @param path SVG path data (W3C), lengths in mm; or else segments. Elements or a small SVG
     *     file may be given instead, and become path data
     * @param segments arcs and straights one after the other
     * @param heightMm height of the flange
     * @param flange side of the flange, inside when left out; for a path only
     * @param tool for what shrinks, and for all of it where nothing shrinks
     * @param stretchTool for what stretches
     */
    record FollowOutline(
            @Nullable String path,
            @Nullable List<Segment> segments,
            @Nullable Double heightMm,
            FlangeSide flange,
            Integer count,
            @Nullable Double reachMm,
            @Nullable String tool,
            @Nullable String stretchTool,
            @Nullable Override override)
            implements Formed {

        public FollowOutline {
            path = pathData(path);
            segments = segments == null ? null : TakeOff.copy(segments);
            flange = flange == null ? FlangeSide.INSIDE : flange;
            count = count == null ? 1 : count;
        }

        /** What cannot be read stays as it is: the check of the take-off says why. */
        private static @Nullable String pathData(@Nullable String text) {
            if (text == null || !SvgText.isMarkup(text)) {
                return text;
            }
            try {
                return SvgText.read(text).path();
            } catch (IllegalArgumentException unreadable) {
                return text;
            }
        }

        @java.lang.Override
        public String kind() {
            return "follow-outline";
        }
    }

    /**
     * A part of an outline.
     *
     * @param radiusMm positive where the flange shrinks, negative where it stretches; straight when
     *     left out or 0
     */
    record Segment(@Nullable Double lengthMm, @Nullable Double radiusMm) {}

    /**
     * Work by a time standard of the shop book.
     *
     * @param standard its name
     * @param amount how many of its unit one piece takes (or the order, for work done once)
     */
    record Standard(@Nullable String standard, @Nullable Double amount) implements Operation {

        static final String KIND = "standard";

        @java.lang.Override
        public String kind() {
            return KIND;
        }
    }
}
