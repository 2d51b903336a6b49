package strokewright.estimate;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook.Tool;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Extra;
import strokewright.estimate.TakeOff.Part;
import strokewright.forming.SvgText;
import strokewright.quantity.Fault;
import strokewright.quantity.Faults;
import strokewright.quantity.SheetGauge;
import strokewright.sheet.Gauge;

/** What a usable take-off looks like, seen with one shop book. */
public final class TakeOffCheck {

    static final int MOST_PER_ASSEMBLY = 10_000;

    private static final int MOST_PARTS = 50;
    private static final int MOST_OPERATIONS = 500;
    private static final int MOST_QUANTITIES = 25;
    static final int LARGEST_QUANTITY = 100_000;
    static final double LONGEST_MM = 100_000;
    static final double LARGEST_RADIUS_MM = 1_000_000;
    private static final double LARGEST_MM2 = 1e9;
    private static final int MOST_SEGMENTS = 500;
    private static final int MOST_TEMPLATES = 500;
    private static final int MOST_LEFT_OUT = 500;
    private static final int MOST_BENDS = 50;
    private static final int MOST_DIMENSIONS = 10_000;
    private static final double MOST_MINUTES = 1_000_000;

    /** Sheet is told to the hundredth. */
    private static final double SAME_SHEET_MM = 0.01;

    private static final int LONGEST_LIFE = 100_000_000;
    private static final int LONGEST_LEAD_DAYS = 3_650;

    private final Faults faults = new Faults();
    private final ShopBook book;

    private TakeOffCheck(ShopBook book) {
        this.book = book;
    }

    /** Every fault, each with its pointer and what would be right; empty when it can be used. */
    public static List<Fault> faults(TakeOff takeOff, ShopBook book) {
        TakeOffCheck check = new TakeOffCheck(book);
        check.takeOff(takeOff);
        return check.faults.all();
    }

    private void takeOff(TakeOff takeOff) {
        faults.textIfGiven("/title", takeOff.title());
        faults.within("/alreadyMade", takeOff.alreadyMade(), 0, 1_000_000);
        quantities(takeOff);
        if (takeOff.parts().isEmpty() && takeOff.assembly().isEmpty()) {
            faults.add("/parts", "is empty: give at least one part or one line of assembly work");
        }
        faults.size("/parts", takeOff.parts(), 0, MOST_PARTS);
        int operations =
                takeOff.assembly().size()
                        + takeOff.parts().stream()
                                .mapToInt(p -> p == null ? 0 : p.operations().size())
                                .sum();
        if (operations > MOST_OPERATIONS) {
            faults.add("/parts", "have " + operations + " operations: at most " + MOST_OPERATIONS);
        }
        for (int i = 0; i < takeOff.parts().size() && i < MOST_PARTS; i++) {
            part("/parts/" + i, takeOff.parts().get(i));
        }
        for (int i = 0; i < takeOff.assembly().size() && i < MOST_OPERATIONS; i++) {
            String at = "/assembly/" + i;
            Operation operation = takeOff.assembly().get(i);
            if (operation instanceof Operation.Formed) {
                faults.add(at + "/type", "must be standard: forming belongs to a part");
            } else {
                operation(at, operation);
            }
        }
        faults.withinIfGiven("/urgencyPercent", takeOff.urgencyPercent(), 0, 500);
        leftOut("/leftOut", takeOff.leftOut(), true);
        faults.size("/heldTemplatesMm", takeOff.heldTemplatesMm(), 0, MOST_TEMPLATES);
        for (int i = 0; i < takeOff.heldTemplatesMm().size() && i < MOST_TEMPLATES; i++) {
            faults.over(
                    "/heldTemplatesMm/" + i,
                    takeOff.heldTemplatesMm().get(i),
                    0,
                    LARGEST_RADIUS_MM);
        }
        faults.size("/extras", takeOff.extras(), 0, MOST_OPERATIONS);
        for (int i = 0; i < takeOff.extras().size() && i < MOST_OPERATIONS; i++) {
            extra("/extras/" + i, takeOff.extras().get(i));
        }
    }

    /** Where the shop book has no rules at all, as older editions, a code says nothing. */
    private void leftOut(String at, List<String> codes, boolean ofItem) {
        faults.size(at, codes, 0, MOST_LEFT_OUT);
        List<String> known =
                book.proposals().stream()
                        .filter(p -> p.ofItem(book) == ofItem)
                        .map(Proposal::code)
                        .toList();
        for (int i = 0; i < codes.size() && i < MOST_LEFT_OUT; i++) {
            if (faults.text(at + "/" + i, codes.get(i)) && !book.proposals().isEmpty()) {
                faults.known(
                        at + "/" + i,
                        codes.get(i),
                        known,
                        ofItem ? "rule for the item" : "rule for a part");
            }
        }
    }

    private void quantities(TakeOff takeOff) {
        List<Integer> quantities = takeOff.quantities();
        if (!faults.size("/quantities", quantities, 1, MOST_QUANTITIES)) {
            return;
        }
        for (int i = 0; i < quantities.size(); i++) {
            faults.within("/quantities/" + i, quantities.get(i), 1, LARGEST_QUANTITY);
        }
        faults.distinct("/quantities", quantities, q -> q, "");
        if (!quantities.contains(takeOff.mainQuantity())) {
            faults.add("/mainQuantity", "must be one of the quantities " + quantities);
        }
    }

    private void part(String at, @Nullable Part part) {
        if (!faults.present(at, part, "a part")) {
            return;
        }
        faults.text(at + "/name", part.name());
        faults.within(at + "/perAssembly", part.perAssembly(), 1, MOST_PER_ASSEMBLY);
        faults.known(
                at + "/grade",
                part.grade(),
                book.grades().stream().map(ShopBook.Grade::code).toList(),
                "grade");
        faults.over(at + "/thicknessMm", part.thicknessMm(), 0, 50);
        if (part.gauge() != null && faults.textIfGiven(at + "/gauge", part.gauge())) {
            gauge(at + "/gauge", part, part.gauge());
        }
        faults.overIfGiven(at + "/massKg", part.massKg(), 0, 100_000);
        if (part.blank() != null) {
            blank(at + "/blank", part.blank());
        } else if (part.massKg() == null && part.fold() == null) {
            faults.add(
                    at + "/massKg", "is missing: give the mass of one piece in kg, or its blank");
        }
        if (part.fold() != null) {
            fold(at + "/fold", part.fold());
            developed(at + "/fold/legsMm", part);
        }
        leftOut(at + "/leftOut", part.leftOut(), false);
        faults.withinIfGiven(at + "/dimensions", part.dimensions(), 0, MOST_DIMENSIONS);
        faults.withinIfGiven(at + "/templateGapMm", part.templateGapMm(), 0, 1000);
        if (part.machine() != null) {
            faults.known(
                    at + "/machine",
                    part.machine(),
                    book.machines().stream().map(ShopBook.Machine::name).toList(),
                    "machine");
        }
        for (int i = 0; i < part.operations().size() && i < MOST_OPERATIONS; i++) {
            operation(at + "/operations/" + i, part.operations().get(i));
        }
    }

    /** It is told beside the thickness, so it must not tell another one. */
    private void gauge(String at, Part part, String said) {
        SheetGauge gauge = SheetGauge.read(said).orElse(null);
        if (gauge == null) {
            faults.add(at, "must be a gauge, or copper's weight, like 16 ga or 20 oz");
            return;
        }
        String table =
                gauge.table(book.grade(part.grade()).map(ShopBook.Grade::gaugeTable).orElse(null));
        Double thickness = part.thicknessMm();
        if (table == null || thickness == null) {
            return;
        }
        OptionalDouble mm = Gauge.inTable(table, gauge.number());
        if (mm.isEmpty()) {
            faults.add(at, "is not in the table for " + table.replace('_', ' '));
        } else if (!(Math.abs(mm.getAsDouble() - thickness) <= SAME_SHEET_MM)) {
            faults.add(
                    at,
                    String.format(
                            Locale.ROOT,
                            "is %.3f mm in the table for %s, but thicknessMm is %s: leave it out,"
                                    + " or make both say the same",
                            mm.getAsDouble(),
                            table.replace('_', ' '),
                            thickness));
        }
    }

    private void blank(String at, Blank blank) {
        faults.over(at + "/lengthMm", blank.lengthMm(), 0, LONGEST_MM);
        faults.over(at + "/widthMm", blank.widthMm(), 0, LONGEST_MM);
    }

    private void fold(String at, TakeOff.Fold fold) {
        faults.over(at + "/lengthMm", fold.lengthMm(), 0, LONGEST_MM);
        faults.size(at + "/bends", fold.bends(), 1, MOST_BENDS);
        if (fold.legsMm().size() != fold.bends().size() + 1) {
            faults.add(
                    at + "/legsMm",
                    "has "
                            + fold.legsMm().size()
                            + " entries: one more than bends, which is "
                            + (fold.bends().size() + 1));
        }
        for (int i = 0; i < fold.legsMm().size() && i <= MOST_BENDS; i++) {
            faults.over(at + "/legsMm/" + i, fold.legsMm().get(i), 0, LONGEST_MM);
        }
        for (int i = 0; i < fold.bends().size() && i < MOST_BENDS; i++) {
            TakeOff.FoldBend bend = fold.bends().get(i);
            if (faults.present(at + "/bends/" + i, bend, "openingDeg and radiusMm")) {
                faults.within(at + "/bends/" + i + "/openingDeg", bend.openingDeg(), 0, 180);
                faults.within(at + "/bends/" + i + "/radiusMm", bend.radiusMm(), 0, 10_000);
            }
        }
    }

    /** The bends may take more than the legs have. */
    private void developed(String at, Part part) {
        double mm = Folding.developedMm(part, book);
        if (Double.isNaN(mm)) {
            return; // something else is wrong, and told
        }
        if (!(mm > 0)) {
            faults.add(at, "leave nothing to bend: the radii take more than the legs have");
        } else if (mm > LONGEST_MM) {
            faults.add(at, "are longer together than 100000 mm");
        }
    }

    private void operation(String at, @Nullable Operation operation) {
        if (!faults.present(at, operation, "an operation")) {
            return;
        }
        if (operation instanceof Operation.Standard standard) {
            faults.known(
                    at + "/standard",
                    standard.standard(),
                    book.standards().stream().map(ShopBook.Standard::name).toList(),
                    "time standard");
            faults.over(at + "/amount", standard.amount(), 0, 1_000_000);
            return;
        }
        Operation.Formed formed = (Operation.Formed) operation;
        if (book.machines().isEmpty()) {
            faults.add(at, "needs a forming machine: the shop book has none");
        }
        faults.within(at + "/count", formed.count(), 1, 1000);
        faults.overIfGiven(at + "/reachMm", formed.reachMm(), 0, LONGEST_MM);
        tool(at + "/tool", formed.tool(), ToolChoice.kindsFor(formed), formed.kind());
        if (formed.override() != null) {
            faults.within(at + "/override/minutes", formed.override().minutes(), 0, MOST_MINUTES);
            faults.text(at + "/override/reason", formed.override().reason());
        }
        if (formed instanceof Operation.CurveEdge edge) {
            faults.present(at + "/sense", edge.sense(), "shrink or stretch");
            faults.over(at + "/lengthMm", edge.lengthMm(), 0, LONGEST_MM);
            faults.over(at + "/radiusMm", edge.radiusMm(), 0, LARGEST_RADIUS_MM);
            faults.overIfGiven(at + "/startRadiusMm", edge.startRadiusMm(), 0, LARGEST_RADIUS_MM);
            faults.over(at + "/heightMm", edge.heightMm(), 0, LONGEST_MM);
        } else if (formed instanceof Operation.TurnFlange flange) {
            faults.present(at + "/sense", flange.sense(), "shrink or stretch");
            faults.over(at + "/radiusMm", flange.radiusMm(), 0, LARGEST_RADIUS_MM);
            faults.over(at + "/heightMm", flange.heightMm(), 0, LONGEST_MM);
            faults.over(at + "/angleDeg", flange.angleDeg(), 0, 90);
            faults.over(at + "/sweepDeg", flange.sweepDeg(), 0, 360);
        } else if (formed instanceof Operation.Dish dish) {
            faults.over(at + "/diameterMm", dish.diameterMm(), 0, LONGEST_MM);
            faults.over(at + "/depthMm", dish.depthMm(), 0, LONGEST_MM);
            faults.withinIfGiven(at + "/rimShare", dish.rimShare(), 0, 1);
            faults.within(at + "/trimMm", dish.trimMm(), 0, 1000);
            tool(at + "/crownTool", dish.crownTool(), ToolChoice.CROWN, "the crown of a dish");
        } else if (formed instanceof Operation.Smooth smooth) {
            area(at, smooth.areaMm2(), smooth.timesOver());
        } else if (formed instanceof Operation.Flatten flatten) {
            area(at, flatten.areaMm2(), flatten.timesOver());
        } else if (formed instanceof Operation.FollowOutline follow) {
            outline(at, follow);
        } else if (formed instanceof Operation.TakeOutDents dents) {
            faults.within(at + "/spots", dents.spots(), 1, 10_000);
            faults.within(at + "/strokesPerSpot", dents.strokesPerSpot(), 1, 10_000);
        }
    }

    private void outline(String at, Operation.FollowOutline follow) {
        int before = faults.all().size();
        faults.over(at + "/heightMm", follow.heightMm(), 0, LONGEST_MM);
        tool(
                at + "/stretchTool",
                follow.stretchTool(),
                ToolChoice.inSense(ToolChoice.EDGE, Operation.Sense.STRETCH),
                "stretching an edge");
        if (follow.path() == null && follow.segments() == null) {
            faults.add(at + "/path", "is missing: give path data, or segments");
            return;
        }
        if (follow.path() != null && follow.segments() != null) {
            faults.add(at + "/path", "must be left out where there are segments: one or the other");
            return;
        }
        if (follow.segments() != null) {
            segments(at, follow);
        } else {
            path(at + "/path", follow);
        }
        if (faults.all().size() == before) {
            senses(at, follow);
        }
    }

    private void path(String at, Operation.FollowOutline follow) {
        String path = follow.path();
        try {
            if (SvgText.isMarkup(path)) {
                SvgText.read(path); // it would be path data by now if it could be read
            }
            if (path.length() > SvgText.LONGEST_PATH) {
                faults.add(
                        at,
                        String.format(
                                Locale.ROOT,
                                "must have at most %,d characters and has %,d",
                                SvgText.LONGEST_PATH,
                                path.length()));
                return;
            }
            LaidOutline.outline(follow, book.times().smallestWorkableRadiusMm());
        } catch (IllegalArgumentException e) {
            faults.add(at, e.getMessage());
        }
    }

    private void segments(String at, Operation.FollowOutline follow) {
        if (follow.flange() == Operation.FlangeSide.OUTSIDE) {
            faults.add(at + "/flange", "goes with a path: the sign of a radius tells the side");
        }
        if (!faults.size(at + "/segments", follow.segments(), 1, MOST_SEGMENTS)) {
            return;
        }
        for (int i = 0; i < follow.segments().size(); i++) {
            Operation.Segment segment = follow.segments().get(i);
            String here = at + "/segments/" + i;
            if (faults.present(here, segment, "a segment")) {
                faults.over(here + "/lengthMm", segment.lengthMm(), 0, LONGEST_MM);
                faults.withinIfGiven(
                        here + "/radiusMm",
                        segment.radiusMm(),
                        -LARGEST_RADIUS_MM,
                        LARGEST_RADIUS_MM);
            }
        }
    }

    /** The tool of an outline works what shrinks; where nothing does, it works what stretches. */
    private void senses(String at, Operation.FollowOutline follow) {
        LaidOutline laid = LaidOutline.of(follow, book.times());
        boolean stretchesOnly =
                laid.has(Operation.Sense.STRETCH) && !laid.has(Operation.Sense.SHRINK);
        tool(
                at + "/tool",
                follow.tool(),
                ToolChoice.inSense(
                        ToolChoice.EDGE,
                        stretchesOnly ? Operation.Sense.STRETCH : Operation.Sense.SHRINK),
                stretchesOnly ? "stretching an edge" : "shrinking an edge");
    }

    private void area(String at, @Nullable Double areaMm2, Integer timesOver) {
        faults.over(at + "/areaMm2", areaMm2, 0, LARGEST_MM2);
        faults.within(at + "/timesOver", timesOver, 1, 100);
    }

    private void tool(String at, @Nullable String name, Set<ShopBook.ToolKind> kinds, String work) {
        if (name == null) {
            return;
        }
        List<String> fitting =
                book.tools().stream()
                        .filter(t -> kinds.contains(t.kind()))
                        .map(Tool::name)
                        .toList();
        if (book.tool(name).isPresent() && !fitting.contains(name)) {
            faults.add(
                    at, "is not a tool for " + work + "; there are: " + String.join(", ", fitting));
            return;
        }
        faults.known(at, name, fitting, "tool for " + work);
    }

    private void extra(String at, @Nullable Extra extra) {
        if (!faults.present(at, extra, "an extra")) {
            return;
        }
        faults.text(at + "/name", extra.name());
        if (faults.present(at + "/cost", extra.cost(), "an amount with its currency")) {
            faults.within(at + "/cost/amount", extra.cost().amount(), 0, 1e9);
            if (!extra.cost().currency().equals(book.currency())) {
                faults.add(at + "/cost/currency", "must be " + book.currency() + ", the shop's");
            }
        }
        if (faults.overIfGiven(at + "/lifePieces", extra.lifePieces(), 0, LONGEST_LIFE)
                && extra.lifePieces() != null
                && extra.per() == TakeOff.Per.PIECE) {
            faults.add(at + "/lifePieces", "goes only with a cost per order: a tool that wears");
        }
        faults.withinIfGiven(at + "/leadTimeDays", extra.leadTimeDays(), 0, LONGEST_LEAD_DAYS);
        if (faults.withinIfGiven(at + "/handlingPercent", extra.handlingPercent(), 0, 500)
                && extra.handlingPercent() != null
                && extra.kind() != TakeOff.ExtraKind.BOUGHT_OUT) {
            faults.add(at + "/handlingPercent", "goes only with bought-out work");
        }
    }
}
