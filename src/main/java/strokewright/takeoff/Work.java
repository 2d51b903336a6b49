package strokewright.takeoff;

import static strokewright.takeoff.Field.area;
import static strokewright.takeoff.Field.choice;
import static strokewright.takeoff.Field.length;
import static strokewright.takeoff.Field.number;
import static strokewright.takeoff.Field.outline;
import static strokewright.takeoff.Field.text;
import static strokewright.takeoff.Field.tool;
import static strokewright.takeoff.Field.whole;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ToolChoice;
import strokewright.takeoff.Field.Option;

/** The kinds of line that a take-off can have, and what the page asks for each. */
public enum Work {
    CURVE_EDGE(
            "curve-edge",
            "Curve an edge",
            List.of(
                    choice(
                            "sense",
                            "Flange",
                            new Option("shrink", "inside: shrink"),
                            new Option("stretch", "outside: stretch")),
                    length("radiusMm", "Heel radius", ""),
                    length("lengthMm", "Heel length", ""),
                    length("heightMm", "Flange height", "")),
            List.of(length("startRadiusMm", "Starts from radius", "straight")),
            tool("tool", "Tool", ToolChoice.EDGE)),
    TURN_FLANGE(
            "turn-flange",
            "Turn up a flange",
            List.of(
                    choice(
                            "sense",
                            "On",
                            new Option("shrink", "an outer edge: shrink"),
                            new Option("stretch", "a hole or hollow edge: stretch")),
                    length("radiusMm", "Radius at the bend", ""),
                    length("heightMm", "Flange height", ""),
                    number("angleDeg", "Turned up by", "°", "90"),
                    number("sweepDeg", "Runs round", "°", "360")),
            List.of(),
            tool("tool", "Tool", ToolChoice.FLANGE)),
    DISH(
            "dish",
            "Dish a disc",
            List.of(
                    length("diameterMm", "Base Ø", ""),
                    length("depthMm", "Depth", ""),
                    length("trimMm", "Trim on the blank", "0")),
            List.of(
                    number("rimShare", "Rim share", "", "equal area").saying("0 to 1"),
                    tool("crownTool", "Tool for the crown", ToolChoice.CROWN)),
            tool("tool", "Tool for the rim", ToolChoice.RIM)),
    SMOOTH(
            "smooth",
            "Smooth",
            List.of(
                    area("areaMm2", "Area"),
                    whole("timesOver", "Times over", "1")
                            .saying("1 rough, 2 fair, 3 fine, 5 paint-ready")),
            List.of(),
            tool("tool", "Tool", ToolChoice.SMOOTH)),
    FLATTEN(
            "flatten",
            "Flatten",
            List.of(area("areaMm2", "Area"), whole("timesOver", "Times over", "1")),
            List.of(),
            tool("tool", "Tool", ToolChoice.FLATTEN)),
    TAKE_OUT_DENTS(
            "take-out-dents",
            "Take out dents",
            List.of(
                    whole("spots", "Spots", ""),
                    whole("strokesPerSpot", "Strokes a spot", "60").saying("common practice")),
            List.of(),
            tool("tool", "Tool", ToolChoice.SMOOTH)),
    FOLLOW_OUTLINE(
            "follow-outline",
            "Follow an outline",
            List.of(
                    outline("path", "Outline")
                            .saying("SVG path data in mm; a <path> or an SVG file works too"),
                    length("heightMm", "Flange height", ""),
                    choice(
                                    "flange",
                                    "Flange is",
                                    new Option("inside", "inside"),
                                    new Option("outside", "outside"))
                            .saying(
                                    "of the outline: inside a bend it shrinks, outside it stretches")),
            List.of(tool("stretchTool", "Tool for what stretches", ToolChoice.STRETCHED_EDGE)),
            tool("tool", "Tool for what shrinks", ToolChoice.EDGE)),
    STANDARD(
            "standard",
            "By time standard",
            List.of(
                    choice("standard", "Time standard", Work::standards),
                    number("amount", "Amount", "", "")),
            List.of());

    private final String kind;
    private final String label;
    private final List<Field> fields;
    private final List<Field> more;
    private final boolean formed;

    Work(String kind, String label, List<Field> fields, List<Field> more, Field... tool) {
        this.kind = kind;
        this.label = label;
        this.fields = fields;
        List<Field> all = new ArrayList<>(more);
        if (tool.length > 0) {
            all.addAll(List.of(tool));
            all.add(whole("count", "How many alike", "1"));
            all.add(length("reachMm", "Reach into the throat", "from the shape"));
        }
        this.more = List.copyOf(all);
        this.formed = tool.length > 0;
    }

    /** As in the take-off's JSON. */
    public String kind() {
        return kind;
    }

    public String label() {
        return label;
    }

    /** Asked at once. */
    List<Field> fields() {
        return fields;
    }

    /** Asked on demand. */
    List<Field> more() {
        return more;
    }

    /** In place of the computed minutes of forming: both or neither. */
    List<Field> own() {
        return formed ? OWN : List.of();
    }

    public static Optional<Work> of(String kind) {
        return Arrays.stream(values()).filter(w -> w.kind.equals(kind)).findFirst();
    }

    private static final List<Field> OWN =
            List.of(
                    number("overrideMinutes", "Own minutes", "min", "").saying("for one piece"),
                    text("overrideReason", "Reason", ""));

    /** Fields that a fresh row already has a choice in, so that they say nothing by themselves. */
    static final Set<String> CHOSEN_FROM_THE_START = Set.of("type", "sense", "flange");

    /** A part of an outline that is typed instead of drawn. */
    static final List<Field> SEGMENT =
            List.of(length("lengthMm", "Length", ""), length("radiusMm", "Radius", "straight"));

    /** Whether its outline may be typed in segments. */
    boolean hasSegments() {
        return this == FOLLOW_OUTLINE;
    }

    private static List<Option> standards(ShopBook book) {
        return Field.first(
                "choose …", book.standards().stream().map(ShopBook.Standard::name).toList());
    }
}
