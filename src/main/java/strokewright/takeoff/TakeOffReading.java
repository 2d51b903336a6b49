package strokewright.takeoff;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Folding;
import strokewright.estimate.OfferedAmounts;
import strokewright.estimate.Operation;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.Proposal;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Extra;
import strokewright.estimate.TakeOff.Part;
import strokewright.forming.Edges;
import strokewright.quantity.Fault;
import strokewright.quantity.Money;
import strokewright.quantity.SheetGauge;
import strokewright.quantity.Working;
import strokewright.sheet.Gauge;
import strokewright.web.Numbers;
import strokewright.web.Reading;

/**
 * Reads a typed take-off: text to values with their units, a dish to its blank, rows to their
 * places. Rows in which nothing was typed yet count as not there.
 */
public final class TakeOffReading {

    private static final Set<String> PART_SAYS_NOTHING_BY =
            Set.of(
                    "grade",
                    "surface",
                    "edge",
                    "tolerance",
                    "supply",
                    "machine",
                    "perAssembly",
                    "grain",
                    "irreplaceable");

    private static final String HELD_TEMPLATES = "/heldTemplatesMm";

    /** Behind the path of a line: the parts of its outline. */
    static final String SEGMENTS = "/segments";

    /** Behind the path of a part: what is folded of it. */
    static final String FOLD = "/fold";

    static final String BENDS = FOLD + "/bends";

    /** Behind the path of a line: its own minutes as something to leave out by itself. */
    static final String OWN = "/override";

    private final TypedTakeOff typed;
    private final ShopBook book;
    private final Numbers numbers;
    private final Set<String> leftOut;

    private final List<Fault> faults = new ArrayList<>();
    private final Map<String, String> workedOut = new LinkedHashMap<>();
    private final Map<String, String> pathOf = new LinkedHashMap<>();
    private final Map<String, String> fieldOf = new LinkedHashMap<>();
    private final List<String> operationRows = new ArrayList<>();

    private TakeOffReading(
            TypedTakeOff typed, ShopBook book, Numbers numbers, Set<String> leftOut) {
        this.typed = typed;
        this.book = book;
        this.numbers = numbers;
        this.leftOut = leftOut;
    }

    /**
     * What was read.
     *
     * @param faults of reading alone, each at the path of its field
     * @param workedOut text of fields that were left empty because others say them, by path
     * @param pathOf where a row of the take-off stands on the page: pointer to path
     * @param fieldOf where something stands that the page asks in another order: pointer to path
     * @param operationRows paths of all operations in the order in which an estimate lists them
     */
    public record Read(
            TakeOff takeOff,
            List<Fault> faults,
            Map<String, String> workedOut,
            Map<String, String> pathOf,
            Map<String, String> fieldOf,
            List<String> operationRows) {

        /** The page's path for a pointer into the take-off. */
        String path(String pointer) {
            String head = pointer;
            while (!head.isEmpty()) {
                String row = fieldOf.getOrDefault(head, pathOf.get(head));
                if (row != null) {
                    return row + pointer.substring(head.length());
                }
                head = head.substring(0, head.lastIndexOf('/'));
            }
            return pointer.startsWith("/quantities/") ? "/quantities" : pointer;
        }
    }

    /**
     * @param leftOut paths of rows to read as if they were not there
     */
    static Read read(TypedTakeOff typed, ShopBook book, Numbers numbers, Set<String> leftOut) {
        return new TakeOffReading(typed, book, numbers, leftOut).read();
    }

    private Read read() {
        List<Part> parts = new ArrayList<>();
        for (String row : partRows()) {
            pathOf.put("/parts/" + parts.size(), row);
            parts.add(part(row, parts.size()));
        }
        List<Operation> assembly = new ArrayList<>();
        for (String row : rows("/assembly", Set.of("type"))) {
            pathOf.put("/assembly/" + assembly.size(), row);
            operationRows.add(row);
            assembly.add(standard(row));
        }
        List<Extra> extras = new ArrayList<>();
        for (String row : rows("/extras", Set.of("per", "kind"))) {
            pathOf.put("/extras/" + extras.size(), row);
            extras.add(extra(row));
        }
        TakeOff takeOff =
                new TakeOff(
                        text("/title"),
                        choice("/information", TakeOff.Information.values()),
                        quantities(),
                        whole("/mainQuantity"),
                        whole("/alreadyMade"),
                        parts,
                        assembly,
                        extras,
                        yesOrNo("/proveFirst"),
                        heldTemplates(),
                        leftOut("", true),
                        number("/urgencyPercent"));
        return new Read(withOffered(takeOff), faults, workedOut, pathOf, fieldOf, operationRows);
    }

    /** That something proposed was taken out says nothing by itself. */
    private List<String> partRows() {
        return typed.rows("/parts").stream()
                .filter(row -> !leftOut.contains(row))
                .filter(
                        row ->
                                typed.says(
                                        row,
                                        path ->
                                                path.startsWith(row + LeftOut.AT)
                                                        || PART_SAYS_NOTHING_BY.contains(
                                                                path.substring(row.length() + 1))))
                .toList();
    }

    private List<String> rows(String list, Set<String> saysNothing) {
        return typed.rows(list).stream()
                .filter(row -> !leftOut.contains(row) && typed.says(row, saysNothing))
                .toList();
    }

    /** Codes that this edition has a rule for; others say nothing in it. */
    private List<String> leftOut(String row, boolean ofItem) {
        List<String> known =
                book.proposals().stream()
                        .filter(p -> p.ofItem(book) == ofItem)
                        .map(Proposal::code)
                        .toList();
        return LeftOut.in(typed, row).stream()
                .filter(code -> book.proposals().isEmpty() || known.contains(code))
                .toList();
    }

    private List<Double> heldTemplates() {
        String text = typed.at(HELD_TEMPLATES).strip();
        List<Double> held = new ArrayList<>();
        for (String each : text.isEmpty() ? new String[0] : text.split(";")) {
            Reading read = numbers.lengthMm(each);
            if (read.fault() != null) {
                faults.add(new Fault(HELD_TEMPLATES, read.fault()));
                return List.of();
            }
            if (read.value() != null) {
                fieldOf.put(HELD_TEMPLATES + "/" + held.size(), HELD_TEMPLATES);
                held.add(read.value().doubleValue());
            }
        }
        return held;
    }

    /** An amount that is left empty is the one that the geometry offers, and is shown as such. */
    private TakeOff withOffered(TakeOff takeOff) {
        OfferedAmounts filled = OfferedAmounts.in(takeOff, book);
        filled.offered()
                .forEach(
                        (pointer, amount) -> {
                            String path = pathOf.get(pointer) + "/amount";
                            if (typed.isEmpty(path)) {
                                workedOut.put(path, numbers.typed(amount));
                            }
                        });
        return filled.takeOff();
    }

    // Rows ------------------------------------------------------------------------------------

    private Part part(String row, int index) {
        String pointer = "/parts/" + index;
        List<Operation> operations = new ArrayList<>();
        for (String operation : rows(row + "/operations", Work.CHOSEN_FROM_THE_START)) {
            String at = pointer + "/operations/" + operations.size();
            pathOf.put(at, operation);
            operationRows.add(operation);
            operations.add(operation(operation, at));
        }
        String name = text(row + "/name");
        Double thicknessMm = thickness(row);
        Part part =
                new Part(
                        name == null ? "Part " + (index + 1) : name,
                        whole(row + "/perAssembly"),
                        text(row + "/grade"),
                        thicknessMm,
                        number(row + "/massKg"),
                        blank(row),
                        choice(row + "/surface", TakeOff.Surface.values()),
                        choice(row + "/edge", TakeOff.Edge.values()),
                        length(row + "/templateGapMm"),
                        choice(row + "/tolerance", TakeOff.Tolerance.values()),
                        choice(row + "/supply", TakeOff.Supply.values()),
                        text(row + "/machine"),
                        operations,
                        fold(row, pointer + FOLD),
                        choice(row + "/grain", TakeOff.Grain.values()),
                        yesOrNo(row + "/irreplaceable"),
                        leftOut(row, false),
                        whole(row + "/dimensions"),
                        thicknessMm == null ? null : gauge(row));
        if (part.blank() == null) {
            Folding.developed(part, book).ifPresent(blank -> showDeveloped(row, blank));
        }
        return part;
    }

    /** Shown where the blank is left empty, rounded; reckoned with is the blank as it develops. */
    private void showDeveloped(String row, Blank blank) {
        workedOut(row + "/blank/lengthMm", blank.lengthMm());
        workedOut(row + "/blank/widthMm", blank.widthMm());
    }

    /** The page asks for a leg, then for each bend with the leg behind it. */
    private TakeOff.@Nullable Fold fold(String row, String pointer) {
        if (leftOut.contains(row + FOLD) || !typed.says(row + FOLD, Set.of())) {
            return null;
        }
        String first = row + FOLD + "/firstLegMm";
        fieldOf.put(pointer + "/legsMm", first);
        fieldOf.put(pointer + "/legsMm/0", first);
        fieldOf.put(pointer + "/bends", first);
        List<Double> legs = new ArrayList<>();
        legs.add(length(first));
        List<TakeOff.FoldBend> bends = new ArrayList<>();
        for (String bend : rows(row + BENDS, Set.of())) {
            fieldOf.put(pointer + "/bends/" + bends.size(), bend);
            fieldOf.put(pointer + "/legsMm/" + legs.size(), bend + "/legMm");
            legs.add(length(bend + "/legMm"));
            bends.add(
                    new TakeOff.FoldBend(
                            number(bend + "/openingDeg"),
                            length(bend + "/radiusMm"),
                            choice(bend + "/way", TakeOff.Way.values())));
        }
        if (bends.isEmpty()) {
            faults.add(new Fault(first, "needs a bend and a leg behind it: add one"));
        }
        return new TakeOff.Fold(length(row + FOLD + "/lengthMm"), legs, bends);
    }

    private Operation operation(String row, String pointer) {
        return switch (Work.of(typed.at(row + "/type")).orElse(Work.STANDARD)) {
            case CURVE_EDGE ->
                    new Operation.CurveEdge(
                            sense(row),
                            length(row + "/lengthMm"),
                            length(row + "/radiusMm"),
                            length(row + "/startRadiusMm"),
                            length(row + "/heightMm"),
                            whole(row + "/count"),
                            length(row + "/reachMm"),
                            text(row + "/tool"),
                            override(row));
            case TURN_FLANGE ->
                    new Operation.TurnFlange(
                            sense(row),
                            length(row + "/radiusMm"),
                            length(row + "/heightMm"),
                            number(row + "/angleDeg"),
                            number(row + "/sweepDeg"),
                            whole(row + "/count"),
                            length(row + "/reachMm"),
                            text(row + "/tool"),
                            override(row));
            case DISH ->
                    new Operation.Dish(
                            length(row + "/diameterMm"),
                            length(row + "/depthMm"),
                            number(row + "/rimShare"),
                            length(row + "/trimMm"),
                            whole(row + "/count"),
                            length(row + "/reachMm"),
                            text(row + "/tool"),
                            text(row + "/crownTool"),
                            override(row));
            case SMOOTH ->
                    new Operation.Smooth(
                            area(row + "/areaMm2"),
                            whole(row + "/timesOver"),
                            whole(row + "/count"),
                            length(row + "/reachMm"),
                            text(row + "/tool"),
                            override(row));
            case FLATTEN ->
                    new Operation.Flatten(
                            area(row + "/areaMm2"),
                            whole(row + "/timesOver"),
                            whole(row + "/count"),
                            length(row + "/reachMm"),
                            text(row + "/tool"),
                            override(row));
            case TAKE_OUT_DENTS ->
                    new Operation.TakeOutDents(
                            whole(row + "/spots"),
                            whole(row + "/strokesPerSpot"),
                            whole(row + "/count"),
                            length(row + "/reachMm"),
                            text(row + "/tool"),
                            override(row));
            case FOLLOW_OUTLINE ->
                    new Operation.FollowOutline(
                            text(row + "/path"),
                            segments(row, pointer),
                            length(row + "/heightMm"),
                            choice(row + "/flange", Operation.FlangeSide.values()),
                            whole(row + "/count"),
                            length(row + "/reachMm"),
                            text(row + "/tool"),
                            text(row + "/stretchTool"),
                            override(row));
            case STANDARD -> standard(row);
        };
    }

    private @Nullable List<Operation.Segment> segments(String row, String pointer) {
        List<Operation.Segment> segments = new ArrayList<>();
        for (String segment : rows(row + SEGMENTS, Set.of())) {
            pathOf.put(pointer + SEGMENTS + "/" + segments.size(), segment);
            segments.add(
                    new Operation.Segment(
                            length(segment + "/lengthMm"), length(segment + "/radiusMm")));
        }
        return segments.isEmpty() ? null : segments;
    }

    private Operation.Standard standard(String row) {
        return new Operation.Standard(text(row + "/standard"), number(row + "/amount"));
    }

    static boolean isOwn(String path) {
        return path.endsWith("/overrideMinutes") || path.endsWith("/overrideReason");
    }

    private Operation.@Nullable Override override(String row) {
        if (leftOut.contains(row + OWN)) {
            return null;
        }
        Double minutes = number(row + "/overrideMinutes");
        String reason = text(row + "/overrideReason");
        return minutes == null && reason == null ? null : new Operation.Override(minutes, reason);
    }

    private Extra extra(String row) {
        BigDecimal cost = read(row + "/cost", numbers::number);
        return new Extra(
                text(row + "/name"),
                choice(row + "/per", TakeOff.Per.values()),
                choice(row + "/kind", TakeOff.ExtraKind.values()),
                cost == null ? null : new Money(cost, book.currency()),
                whole(row + "/lifePieces"),
                whole(row + "/leadTimeDays"),
                number(row + "/handlingPercent"));
    }

    // Geometry --------------------------------------------------------------------------------

    /** As typed; what is left empty comes from the first dish of the part. */
    private @Nullable Blank blank(String row) {
        Double length = length(row + "/blank/lengthMm");
        Double width = length(row + "/blank/widthMm");
        for (String operation : rows(row + "/operations", Work.CHOSEN_FROM_THE_START)) {
            Blank natural = natural(operation);
            if (natural != null) {
                if (typed.isEmpty(row + "/blank/lengthMm")) {
                    length = workedOut(row + "/blank/lengthMm", natural.lengthMm());
                }
                if (typed.isEmpty(row + "/blank/widthMm")) {
                    width = workedOut(row + "/blank/widthMm", natural.widthMm());
                }
                break;
            }
        }
        return length == null && width == null ? null : new Blank(length, width);
    }

    private @Nullable Blank natural(String operation) {
        if (typed.at(operation + "/type").equals(Work.DISH.kind())) {
            Double diameter = quietly(operation + "/diameterMm", numbers::lengthMm);
            Double depth = quietly(operation + "/depthMm", numbers::lengthMm);
            Double share = quietly(operation + "/rimShare", numbers::number);
            Double trim = quietly(operation + "/trimMm", numbers::lengthMm);
            if (diameter == null || depth == null || !(depth > 0 && depth <= diameter / 2)) {
                return null;
            }
            double disc =
                    upToWhole(
                            Edges.Cap.of(
                                            diameter,
                                            depth,
                                            share,
                                            trim == null ? 0 : trim,
                                            new Working())
                                    .blankDiameterMm());
            return new Blank(disc, disc);
        }
        return null;
    }

    /** Nobody marks out a fraction of a millimetre of blank. */
    private static double upToWhole(double mm) {
        return Math.ceil(mm - 1e-9);
    }

    private double workedOut(String path, double value) {
        double shown = Math.round(value * 100) / 100.0;
        workedOut.put(path, numbers.typed(shown));
        return shown;
    }

    // Fields ----------------------------------------------------------------------------------

    private @Nullable String text(String path) {
        String text = typed.at(path).strip();
        return text.isEmpty() ? null : text;
    }

    private @Nullable Double length(String path) {
        return asDouble(read(path, numbers::lengthMm));
    }

    private @Nullable Double area(String path) {
        return asDouble(read(path, numbers::areaMm2));
    }

    private @Nullable Double number(String path) {
        return asDouble(read(path, numbers::number));
    }

    private @Nullable Integer whole(String path) {
        BigDecimal value = read(path, numbers::whole);
        if (value == null) {
            return null;
        }
        if (value.abs().compareTo(BigDecimal.valueOf(Integer.MAX_VALUE)) > 0) {
            faults.add(new Fault(path, "is too large"));
            return null;
        }
        return value.intValue();
    }

    private @Nullable Double thickness(String row) {
        return asDouble(
                read(
                        row + "/thicknessMm",
                        text -> thickness(text, text(row + "/grade"), book, numbers)));
    }

    private @Nullable String gauge(String row) {
        String said = text(row + "/thicknessMm");
        return SheetGauge.read(said).isPresent() ? said.replaceAll("\\s+", " ") : null;
    }

    /** A gauge number without a table is one of the grade's. */
    static Reading thickness(String typed, @Nullable String grade, ShopBook book, Numbers numbers) {
        String table = book.grade(grade).map(ShopBook.Grade::gaugeTable).orElse(null);
        return numbers.thicknessMm(typed, Gauge::inTable, table);
    }

    private @Nullable Sense sense(String row) {
        return choice(row + "/sense", Sense.values());
    }

    private @Nullable List<Integer> quantities() {
        String text = typed.at("/quantities").strip();
        if (text.isEmpty()) {
            return null;
        }
        List<Integer> quantities = new ArrayList<>();
        for (String each : text.split("[\\s,;/]+")) {
            if (!each.isEmpty() && each.matches("\\d{1,9}")) {
                quantities.add(Integer.valueOf(each));
            } else if (!each.isEmpty()) {
                faults.add(
                        new Fault(
                                "/quantities",
                                "“" + each + "” is no quantity: type whole numbers, like 1, 2, 5"));
                return null;
            }
        }
        return quantities;
    }

    private @Nullable BigDecimal read(String path, Function<String, Reading> reader) {
        Reading read = reader.apply(typed.at(path));
        String fault = read.fault();
        if (fault != null) {
            faults.add(new Fault(path, fault));
        }
        return read.value();
    }

    /** For a field that is read, and told about, elsewhere too. */
    private @Nullable Double quietly(String path, Function<String, Reading> reader) {
        return reader.apply(typed.at(path)).asDouble();
    }

    private static @Nullable Double asDouble(@Nullable BigDecimal value) {
        return value == null ? null : Double.valueOf(value.doubleValue());
    }

    /** One of the values by its name in kebab case; null for anything else. */
    private <E extends Enum<E>> @Nullable E choice(String path, E[] values) {
        String name = typed.at(path);
        return Arrays.stream(values).filter(v -> kebab(v).equals(name)).findFirst().orElse(null);
    }

    /** Null where neither was chosen. */
    private @Nullable Boolean yesOrNo(String path) {
        return switch (typed.at(path)) {
            case "true" -> Boolean.TRUE;
            case "false" -> Boolean.FALSE;
            default -> null;
        };
    }

    /** As in JSON. */
    public static String kebab(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
