package strokewright.takeoff;

import static strokewright.takeoff.Field.area;
import static strokewright.takeoff.Field.choice;
import static strokewright.takeoff.Field.length;
import static strokewright.takeoff.Field.number;
import static strokewright.takeoff.Field.whole;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import strokewright.takeoff.Field.Kind;
import strokewright.takeoff.Field.Option;

/**
 * The shapes that a take-off can be started from, and what the page asks for each. Fields bear the
 * names of the shape's JSON; the letters in their labels stand in the sketch.
 */
enum ShapeKind {
    RING(
            "ring",
            "Ring",
            length("outsideDiameterMm", "Outside Ø D", "").saying("over everything"),
            ShapeKind.flange(),
            length("flangeHeightMm", "Flange height F", ""),
            ShapeKind.returning(),
            ShapeKind.runOut("30")),
    ARC(
            "arc",
            "Arc",
            length("outsideDiameterMm", "Outside Ø D", "").saying("of the whole circle"),
            number("sweepDeg", "Sweep α", "°", ""),
            ShapeKind.flange(),
            length("flangeHeightMm", "Flange height F", ""),
            ShapeKind.returning(),
            ShapeKind.runOut("30")),
    U_FRAME(
            "u-frame",
            "U-frame",
            length("outsideWidthMm", "Outside width W", ""),
            length("outsideHeightMm", "Outside height H", ""),
            length("cornerRadiusMm", "Corner radius R", "half circle").saying("outside"),
            ShapeKind.flange(),
            length("flangeHeightMm", "Flange height F", ""),
            ShapeKind.returning(),
            ShapeKind.runOut("as needed")),
    FLANGED_DISC(
            "flanged-disc",
            "Flanged disc",
            length("diameterMm", "Ø at the bend D", ""),
            length("flangeHeightMm", "Flange height F", ""),
            number("angleDeg", "Turned up by α", "°", "90"),
            ShapeKind.trim()),
    BOWL(
            "bowl",
            "Bowl",
            length("diameterMm", "Mouth Ø D", ""),
            length("depthMm", "Depth H", ""),
            ShapeKind.trim(),
            ShapeKind.smoothed("0")),
    BOWL_WITH_RIM(
            "bowl-with-rim",
            "Bowl with rim",
            length("diameterMm", "Mouth Ø D", ""),
            length("depthMm", "Depth H", ""),
            choice(
                    "rim",
                    "Rim",
                    new Option("flat", "a flat collar"),
                    new Option("turned", "turned")),
            length("rimWidthMm", "Rim width C", ""),
            number("rimAngleDeg", "Turned by", "°", "90").saying("a turned rim"),
            ShapeKind.trim(),
            ShapeKind.smoothed("0")),
    ARCH_EDGE(
            "arch-edge",
            "Arch edge",
            length("openingWidthMm", "Opening width W", ""),
            length("riseMm", "Rise H", ""),
            length("radiusMm", "or radius R", ""),
            number("sweepDeg", "and sweep α", "°", ""),
            choice(
                    "sense",
                    "Edge",
                    new Option("stretch", "hollow: stretch"),
                    new Option("shrink", "outer: shrink")),
            length("flangeHeightMm", "Flange height F", ""),
            number("angleDeg", "Turned up by", "°", "90"),
            length("faceMm", "Width of face B", "")),
    CURVED_RIB(
            "curved-rib",
            "Curved rib",
            length("heelRadiusMm", "Heel radius R", ""),
            length("lengthMm", "Heel length L", ""),
            number("sweepDeg", "or sweep α", "°", ""),
            ShapeKind.flange(),
            length("flangeHeightMm", "Flange height F", "").saying("of both"),
            length("webMm", "Web B", ""),
            ShapeKind.runOut("30")),
    PANEL_WITH_DENTS(
            "panel-with-dents",
            "Panel with dents",
            length("lengthMm", "Length L", ""),
            length("widthMm", "Width W", ""),
            whole("spots", "Spots", ""),
            whole("strokesPerSpot", "Strokes a spot", "60"),
            ShapeKind.smoothed("1"),
            area("smoothAreaMm2", "Area to smooth").saying("else round each spot"));

    /** Asked for every shape: the metal. */
    static final List<Field> METAL =
            List.of(PartFields.field("grade"), PartFields.field("thicknessMm"));

    private final String kind;
    private final String label;
    private final List<Field> fields;

    ShapeKind(String kind, String label, Field... fields) {
        this.kind = kind;
        this.label = label;
        this.fields = List.of(fields);
    }

    /** As in JSON. */
    String kind() {
        return kind;
    }

    String label() {
        return label;
    }

    /** The metal and the shape's own. */
    List<Field> fields() {
        List<Field> all = new ArrayList<>(METAL);
        all.addAll(fields);
        return all;
    }

    /** The ring where nothing else is said. */
    static ShapeKind of(String kind) {
        return Arrays.stream(values()).filter(k -> k.kind.equals(kind)).findFirst().orElse(RING);
    }

    private static Field flange() {
        return choice(
                "flange",
                "Flange",
                new Option("inside", "inside: shrink"),
                new Option("outside", "outside: stretch"));
    }

    private static Field returning() {
        return length("returnMm", "Return B", "").saying("0 for a flat strip");
    }

    private static Field runOut(String otherwise) {
        return length("runOutMm", "Run-out", otherwise).saying("at each end");
    }

    private static Field trim() {
        return length("trimMm", "Trim", "5").saying("on the blank Ø");
    }

    private static Field smoothed(String otherwise) {
        return new Field(
                "smoothTimesOver", "Smoothed", Kind.WHOLE, "×", otherwise, "times over", null);
    }
}
