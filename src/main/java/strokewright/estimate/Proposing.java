package strokewright.estimate;

import static strokewright.quantity.Why.Input.computed;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Proposal.Amount;
import strokewright.estimate.Proposal.When;
import strokewright.estimate.ShopBook.Standard;
import strokewright.estimate.ShopBook.Unit;
import strokewright.estimate.TakeOff.Part;
import strokewright.quantity.Arithmetic;
import strokewright.quantity.Finding;
import strokewright.quantity.Severity;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/**
 * Lines of other work that the rules of the shop book propose for an item, so that nothing is
 * forgotten. A rule proposes nothing where a line by its time standard is typed already, or where
 * forming itself takes that standard.
 */
final class Proposing {

    /** Radii closer than this are of one template: drawings state tenths. */
    private static final double ONE_TEMPLATE_MM = 0.05;

    private final TakeOff takeOff;
    private final ShopBook book;
    private final List<PartGeometry> parts;
    private final List<Finding> leftOut = new ArrayList<>();

    private Proposing(TakeOff takeOff, ShopBook book) {
        this.takeOff = takeOff;
        this.book = book;
        this.parts = takeOff.parts().stream().map(p -> new PartGeometry(p, book)).toList();
    }

    /**
     * A line that is proposed.
     *
     * @param geometry what adds up to the amount before the rule's factor
     * @param out whether it was taken out
     */
    record Line(Proposal rule, Standard standard, List<Input> geometry, boolean out) {

        double amount() {
            return rule.factor() * geometry.stream().mapToDouble(Input::value).sum();
        }

        ProposedLines.Line shown() {
            double minutes = standard.minutesPerUnit() * amount();
            boolean once = standard.unit().oncePerOrder();
            return new ProposedLines.Line(
                    rule.code(),
                    standard.name(),
                    standard.unit(),
                    amount(),
                    once ? 0 : minutes,
                    standard.setupMinutes() + (once ? minutes : 0),
                    rule.place(),
                    out);
        }

        /** The same with its figures. */
        double amount(ShopBook book, Working working) {
            double sum = working.figure("geometry", Arithmetic.SUM, geometry.toArray(Input[]::new));
            return working.figure(
                    "amount",
                    StandardFormula.PROPOSED,
                    computed("geometry", sum, geometry.get(0).unit()),
                    new Input("factor", rule.factor(), "", Bench.origin(book, rule.origin())));
        }
    }

    /**
     * What is proposed for one item, in the order of the rules.
     *
     * @param ofParts for each part its lines, those that were taken out among them
     * @param ofItem the same on the item as a whole
     * @param leftOut a note for each line that was taken out
     */
    record Proposed(List<List<Line>> ofParts, List<Line> ofItem, List<Finding> leftOut) {

        /** Lines of a part that count. */
        List<Line> part(int index) {
            return ofParts.get(index).stream().filter(l -> !l.out()).toList();
        }

        /** Lines on the item as a whole that count. */
        List<Line> item() {
            return ofItem.stream().filter(l -> !l.out()).toList();
        }
    }

    /**
     * @param takeOff that {@link TakeOffCheck} has passed
     */
    static Proposed of(TakeOff takeOff, ShopBook book) {
        return new Proposing(takeOff, book).proposed();
    }

    private Proposed proposed() {
        List<List<Line>> ofParts = new ArrayList<>();
        for (int i = 0; i < parts.size(); i++) {
            ofParts.add(part(i));
        }
        return new Proposed(ofParts, item(), leftOut);
    }

    // Rules -----------------------------------------------------------------------------------

    private List<Line> part(int index) {
        Part part = takeOff.parts().get(index);
        PartGeometry geometry = parts.get(index);
        Set<String> typed = new HashSet<>(standards(part.operations()));
        if (takeOff.parts().size() == 1) {
            typed.addAll(standards(takeOff.assembly()));
        }
        if (geometry.isFormed()) {
            typed.add(book.times().annealStandard());
            typed.add(book.times().dressMarksStandard());
        }
        List<Line> lines = new ArrayList<>();
        for (Proposal rule : book.proposals()) {
            if (!rule.ofItem(book)
                    && !typed.contains(rule.standard())
                    && (rule.when().ofItem()
                            ? meets(rule.when())
                            : geometry.meets(rule.when(), rule.from()))) {
                take(
                        rule,
                        rule.amount() == Amount.TEMPLATES
                                ? templates(geometry.radiiMm())
                                : geometry.amount(rule.amount(), rule.when(), rule.from()),
                        part.leftOut(),
                        "/parts/" + index,
                        lines);
            }
        }
        return lines;
    }

    private List<Line> item() {
        Set<String> typed = new HashSet<>(standards(takeOff.assembly()));
        takeOff.parts().forEach(p -> typed.addAll(standards(p.operations())));
        List<Line> lines = new ArrayList<>();
        for (Proposal rule : book.proposals()) {
            if (rule.ofItem(book) && !typed.contains(rule.standard()) && meets(rule.when())) {
                take(rule, amount(rule), takeOff.leftOut(), "", lines);
            }
        }
        return lines;
    }

    private static List<String> standards(List<Operation> operations) {
        return operations.stream()
                .filter(Operation.Standard.class::isInstance)
                .map(o -> ((Operation.Standard) o).standard())
                .toList();
    }

    private boolean meets(When when) {
        return switch (when) {
            case RADIUS -> !templates(radiiMm()).isEmpty();
            case OLD_PART -> takeOff.information() == TakeOff.Information.OLD_PART;
            case SEVERAL_PARTS -> meetings() > 0;
            default -> true;
        };
    }

    private void take(
            Proposal rule, List<Input> geometry, List<String> codes, String at, List<Line> lines) {
        int out = codes.indexOf(rule.code());
        Line line =
                new Line(rule, book.standard(rule.standard()).orElseThrow(), geometry, out >= 0);
        if (!(line.amount() > 0)) {
            return;
        }
        lines.add(line);
        if (line.out()) {
            leftOut.add(leftOut(line, at + "/leftOut/" + out));
        }
    }

    private static Finding leftOut(Line line, String pointer) {
        ProposedLines.Line shown = line.shown();
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("code", shown.code());
        values.put("standard", shown.standard());
        values.put("amount", shown.amount());
        values.put("unit", shown.unit());
        values.put("minutesEach", shown.minutesEach());
        values.put("setupMinutes", shown.setupMinutes());
        return new Finding("line-left-out", Severity.NOTE, pointer, values);
    }

    // Amounts of the whole item ---------------------------------------------------------------

    private List<Input> amount(Proposal rule) {
        return switch (rule.amount()) {
            case ONE -> List.of(computed("one", 1, ""));
            case TEMPLATES -> templates(radiiMm());
            case MEETINGS -> List.of(computed("places where parts meet", meetings(), ""));
            default -> ofAllParts(rule);
        };
    }

    private List<Input> ofAllParts(Proposal rule) {
        List<Input> sum = new ArrayList<>();
        for (int i = 0; i < parts.size(); i++) {
            int pieces = parts.get(i).perAssembly();
            String name = takeOff.parts().get(i).name();
            for (Input input : parts.get(i).amount(rule.amount(), rule.when(), rule.from())) {
                sum.add(
                        computed(
                                (pieces == 1 ? "" : pieces + " × ") + name + ", " + input.name(),
                                input.value() * pieces,
                                input.unit()));
            }
        }
        return sum;
    }

    private List<Double> radiiMm() {
        return parts.stream().flatMap(p -> p.radiiMm().stream()).toList();
    }

    /** One for each distinct radius that no template is held for. */
    private List<Input> templates(List<Double> radiiMm) {
        List<Input> templates = new ArrayList<>();
        double last = Double.NEGATIVE_INFINITY;
        for (double radius : radiiMm.stream().sorted().toList()) {
            if (radius - last <= ONE_TEMPLATE_MM) {
                continue;
            }
            last = radius;
            if (takeOff.heldTemplatesMm().stream()
                    .noneMatch(held -> Math.abs(held - radius) <= ONE_TEMPLATE_MM)) {
                templates.add(computed("radius " + PartGeometry.shown(radius) + " mm", 1, ""));
            }
        }
        return templates;
    }

    /**
     * One fewer than pieces; what typed joints of another route hold together does not meet anew.
     */
    private double meetings() {
        int pieces = takeOff.parts().stream().mapToInt(Part::perAssembly).sum();
        double joined =
                takeOff.assembly().stream()
                        .map(o -> (Operation.Standard) o)
                        .filter(o -> book.routes().jointStandards().contains(o.standard()))
                        .filter(o -> unit(o.standard()) == Unit.JOINT)
                        .mapToDouble(Operation.Standard::amount)
                        .sum();
        return Math.max(0, pieces - 1 - joined);
    }

    private @Nullable Unit unit(@Nullable String standard) {
        return book.standard(standard).map(Standard::unit).orElse(null);
    }

    // Offers ----------------------------------------------------------------------------------

    /**
     * The amount that the geometry gives for a line by this standard: as the first rule that takes
     * it and finds something says; by its unit where no rule takes it.
     *
     * @param part null for the item as a whole
     */
    static @Nullable Double offered(
            TakeOff takeOff, @Nullable Integer part, String standard, ShopBook book) {
        Standard by = book.standard(standard).orElse(null);
        if (by == null) {
            return null;
        }
        List<Proposal> rules =
                book.proposals().stream().filter(r -> standard.equals(r.standard())).toList();
        Proposing proposing = new Proposing(takeOff, book);
        return (rules.isEmpty() ? Stream.ofNullable(byUnit(by)) : rules.stream())
                .map(rule -> proposing.amount(rule, part))
                .filter(amount -> amount > 0)
                .findFirst()
                .orElse(null);
    }

    private double amount(Proposal rule, @Nullable Integer part) {
        List<Input> geometry =
                part == null
                        ? amount(rule)
                        : rule.amount() == Amount.TEMPLATES
                                ? templates(parts.get(part).radiiMm())
                                : parts.get(part).amount(rule.amount(), rule.when(), rule.from());
        return rule.factor() * geometry.stream().mapToDouble(Input::value).sum();
    }

    private static @Nullable Proposal byUnit(Standard standard) {
        Amount amount =
                switch (Objects.requireNonNull(standard.unit())) {
                    case ORDER, JOB, PIECE -> Amount.ONE;
                    case METRE -> Amount.PERIMETER;
                    case BEND -> Amount.BENDS;
                    case CUT -> Amount.CUTS;
                    case JOINT -> Amount.JOINTS;
                    case KG -> Amount.MASS;
                    case DM2 -> Amount.AREA;
                    case TEMPLATE -> Amount.TEMPLATES;
                    case DIMENSION -> Amount.DIMENSIONS;
                    case CONTOUR -> Amount.CONTOUR_STATIONS;
                    case HOLE, SPOT, STATION -> null;
                };
        return amount == null
                ? null
                : new Proposal(null, When.ALWAYS, null, standard.name(), amount, null, null, null);
    }
}
