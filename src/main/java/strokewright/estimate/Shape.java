package strokewright.estimate;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.TakeOff.Edge;
import strokewright.estimate.TakeOff.Surface;
import strokewright.forming.CurvedStrip;

/**
 * A shape by the few numbers that its drawing has. {@link FromShape} turns it into parts of a
 * take-off. Left-out fields take the defaults stated here; {@link ShapeCheck} says what a usable
 * shape looks like. Sheet thickness is left out of all sizes.
 */
@JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "type")
@JsonSubTypes({
    @JsonSubTypes.Type(value = Shape.Ring.class, name = "ring"),
    @JsonSubTypes.Type(value = Shape.Arc.class, name = "arc"),
    @JsonSubTypes.Type(value = Shape.UFrame.class, name = "u-frame"),
    @JsonSubTypes.Type(value = Shape.FlangedDisc.class, name = "flanged-disc"),
    @JsonSubTypes.Type(value = Shape.Bowl.class, name = "bowl"),
    @JsonSubTypes.Type(value = Shape.BowlWithRim.class, name = "bowl-with-rim"),
    @JsonSubTypes.Type(value = Shape.ArchEdge.class, name = "arch-edge"),
    @JsonSubTypes.Type(value = Shape.CurvedRib.class, name = "curved-rib"),
    @JsonSubTypes.Type(value = Shape.PanelWithDents.class, name = "panel-with-dents")
})
public sealed interface Shape {

    /** Cut off the edge of a round part when it is done; common practice, no source. */
    double TRIM_MM = 5;

    /** Its name in JSON. */
    @JsonIgnore
    String kind();

    /** Of the part; the shape's own name when left out. */
    @Nullable String name();

    /** Code of the grade in the shop book. */
    @Nullable String grade();

    @Nullable Double thicknessMm();

    @Nullable Surface surface();

    @Nullable Edge edge();

    /** Where the flange points from the heel: to the centre of the curve, or away from it. */
    enum Flange {
        @JsonProperty("inside")
        INSIDE,
        @JsonProperty("outside")
        OUTSIDE;

        Sense sense() {
            return this == INSIDE ? Sense.SHRINK : Sense.STRETCH;
        }
    }

    /**
     * A full ring of angle, closed by one joint.
     *
     * @param outsideDiameterMm over everything
     * @param returnMm the leg that stands across the plane of the ring; 0 for a flat strip
     * @param runOutMm at each end, to get hold of the strip; cut off before the joint
     */
    record Ring(
            @Nullable String name,
            @Nullable String grade,
            @Nullable Double thicknessMm,
            @Nullable Surface surface,
            @Nullable Edge edge,
            @Nullable Double outsideDiameterMm,
            Flange flange,
            @Nullable Double flangeHeightMm,
            @Nullable Double returnMm,
            Double runOutMm)
            implements Shape {

        public Ring {
            flange = flange == null ? Flange.INSIDE : flange;
            runOutMm = runOutMm == null ? Double.valueOf(CurvedStrip.RUN_OUT_MM) : runOutMm;
        }

        @Override
        public String kind() {
            return "ring";
        }
    }

    /**
     * A piece of such a ring, open; with a sweep of 360 it is a ring and gets its joint.
     *
     * @param outsideDiameterMm twice the outside radius, over everything
     * @param sweepDeg how far round it runs
     */
    record Arc(
            @Nullable String name,
            @Nullable String grade,
            @Nullable Double thicknessMm,
            @Nullable Surface surface,
            @Nullable Edge edge,
            @Nullable Double outsideDiameterMm,
            @Nullable Double sweepDeg,
            Flange flange,
            @Nullable Double flangeHeightMm,
            @Nullable Double returnMm,
            Double runOutMm)
            implements Shape {

        public Arc {
            flange = flange == null ? Flange.INSIDE : flange;
            runOutMm = runOutMm == null ? Double.valueOf(CurvedStrip.RUN_OUT_MM) : runOutMm;
        }

        @Override
        public String kind() {
            return "arc";
        }
    }

    /**
     * Two straight legs and two equal corners with a straight run between them, or a half circle.
     *
     * @param outsideWidthMm over everything
     * @param outsideHeightMm from the ends of the legs to the outside of the run
     * @param cornerRadiusMm outside; half the width, a half circle, when left out
     * @param runOutMm at each end; when left out, what a leg lacks to get hold of
     */
    record UFrame(
            @Nullable String name,
            @Nullable String grade,
            @Nullable Double thicknessMm,
            @Nullable Surface surface,
            @Nullable Edge edge,
            @Nullable Double outsideWidthMm,
            @Nullable Double outsideHeightMm,
            @Nullable Double cornerRadiusMm,
            Flange flange,
            @Nullable Double flangeHeightMm,
            @Nullable Double returnMm,
            @Nullable Double runOutMm)
            implements Shape {

        public UFrame {
            flange = flange == null ? Flange.INSIDE : flange;
        }

        @Override
        public String kind() {
            return "u-frame";
        }
    }

    /**
     * A disc with a flange turned up all round.
     *
     * @param diameterMm at the bend line, which is the outside Ø when turned up by 90°
     * @param flangeHeightMm along the flange
     * @param trimMm added to the blank diameter, and cut off
     */
    record FlangedDisc(
            @Nullable String name,
            @Nullable String grade,
            @Nullable Double thicknessMm,
            @Nullable Surface surface,
            @Nullable Edge edge,
            @Nullable Double diameterMm,
            @Nullable Double flangeHeightMm,
            Double angleDeg,
            Double trimMm)
            implements Shape {

        public FlangedDisc {
            angleDeg = angleDeg == null ? Double.valueOf(90) : angleDeg;
            trimMm = trimMm == null ? Double.valueOf(TRIM_MM) : trimMm;
        }

        @Override
        public String kind() {
            return "flanged-disc";
        }
    }

    /**
     * A spherical cap with a bare edge.
     *
     * @param diameterMm of the mouth
     * @param depthMm at most half the diameter
     * @param trimMm added to the blank diameter, and cut off
     * @param smoothTimesOver afterwards; 0 for none
     */
    record Bowl(
            @Nullable String name,
            @Nullable String grade,
            @Nullable Double thicknessMm,
            @Nullable Surface surface,
            @Nullable Edge edge,
            @Nullable Double diameterMm,
            @Nullable Double depthMm,
            Double trimMm,
            Integer smoothTimesOver)
            implements Shape {

        public Bowl {
            trimMm = trimMm == null ? Double.valueOf(TRIM_MM) : trimMm;
            smoothTimesOver = smoothTimesOver == null ? 0 : smoothTimesOver;
        }

        @Override
        public String kind() {
            return "bowl";
        }
    }

    /** What becomes of the flat collar around a bowl. */
    enum Rim {
        @JsonProperty("flat")
        FLAT,
        @JsonProperty("turned")
        TURNED
    }

    /**
     * A bowl in the middle of a flat collar. The collar keeps its size, so nothing is gathered: the
     * bowl is stretched out of the middle (rim share 0) and the blank is the collar's outside Ø. A
     * turned rim is that collar turned down (or up: the work is the same) at the mouth by a turned
     * flange that shrinks. A bowl too deep for that needs a collar that is drawn in: give the dish
     * a rim share and the blank more, up to {@code FlatDisc.equalAreaOfCollaredBowlMm}.
     *
     * @param diameterMm of the mouth
     * @param rimWidthMm of the collar, flat
     * @param rimAngleDeg how far a turned rim is turned
     */
    record BowlWithRim(
            @Nullable String name,
            @Nullable String grade,
            @Nullable Double thicknessMm,
            @Nullable Surface surface,
            @Nullable Edge edge,
            @Nullable Double diameterMm,
            @Nullable Double depthMm,
            Rim rim,
            @Nullable Double rimWidthMm,
            Double rimAngleDeg,
            Double trimMm,
            Integer smoothTimesOver)
            implements Shape {

        public BowlWithRim {
            rim = rim == null ? Rim.FLAT : rim;
            rimAngleDeg = rimAngleDeg == null ? Double.valueOf(90) : rimAngleDeg;
            trimMm = trimMm == null ? Double.valueOf(TRIM_MM) : trimMm;
            smoothTimesOver = smoothTimesOver == null ? 0 : smoothTimesOver;
        }

        @Override
        public String kind() {
            return "bowl-with-rim";
        }
    }

    /**
     * A flat arched band with a flange turned up along its arch: on the hollow edge of an opening,
     * where it is stretched, or on an arched outer edge, where it is shrunk. The arch is given by
     * the width and rise of the opening or by radius and sweep, at the bend line.
     *
     * @param faceMm width of the flat band beside the bend line
     */
    record ArchEdge(
            @Nullable String name,
            @Nullable String grade,
            @Nullable Double thicknessMm,
            @Nullable Surface surface,
            @Nullable Edge edge,
            @Nullable Double openingWidthMm,
            @Nullable Double riseMm,
            @Nullable Double radiusMm,
            @Nullable Double sweepDeg,
            Sense sense,
            @Nullable Double flangeHeightMm,
            Double angleDeg,
            @Nullable Double faceMm)
            implements Shape {

        public ArchEdge {
            sense = sense == null ? Sense.STRETCH : sense;
            angleDeg = angleDeg == null ? Double.valueOf(90) : angleDeg;
        }

        @Override
        public String kind() {
            return "arch-edge";
        }
    }

    /**
     * A channel curved in the plane of its two flanges, which are each other's mirror.
     *
     * @param lengthMm along the heel; or {@code sweepDeg}, not both
     * @param webMm between the flanges
     */
    record CurvedRib(
            @Nullable String name,
            @Nullable String grade,
            @Nullable Double thicknessMm,
            @Nullable Surface surface,
            @Nullable Edge edge,
            @Nullable Double heelRadiusMm,
            @Nullable Double lengthMm,
            @Nullable Double sweepDeg,
            Flange flange,
            @Nullable Double flangeHeightMm,
            @Nullable Double webMm,
            Double runOutMm)
            implements Shape {

        public CurvedRib {
            flange = flange == null ? Flange.INSIDE : flange;
            runOutMm = runOutMm == null ? Double.valueOf(CurvedStrip.RUN_OUT_MM) : runOutMm;
        }

        @Override
        public String kind() {
            return "curved-rib";
        }
    }

    /**
     * A panel that is there already, so it is not cut and its metal not charged.
     *
     * @param smoothTimesOver afterwards; 0 for none
     * @param smoothAreaMm2 when left out, a square of 150 mm (one station) round each spot, at most
     *     the panel (assumed)
     */
    record PanelWithDents(
            @Nullable String name,
            @Nullable String grade,
            @Nullable Double thicknessMm,
            @Nullable Surface surface,
            @Nullable Edge edge,
            @Nullable Double lengthMm,
            @Nullable Double widthMm,
            @Nullable Integer spots,
            Integer strokesPerSpot,
            Integer smoothTimesOver,
            @Nullable Double smoothAreaMm2)
            implements Shape {

        public PanelWithDents {
            strokesPerSpot = strokesPerSpot == null ? 60 : strokesPerSpot;
            smoothTimesOver = smoothTimesOver == null ? 1 : smoothTimesOver;
        }

        @Override
        public String kind() {
            return "panel-with-dents";
        }
    }
}
