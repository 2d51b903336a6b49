package strokewright.estimate;

import static strokewright.quantity.Why.Input.computed;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Operation.Dish;
import strokewright.estimate.Operation.FollowOutline;
import strokewright.estimate.Operation.Formed;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.Operation.TakeOutDents;
import strokewright.estimate.Operation.TurnFlange;
import strokewright.estimate.Proposal.Amount;
import strokewright.estimate.Proposal.When;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Part;
import strokewright.estimate.TakeOff.Supply;
import strokewright.estimate.TakeOff.Surface;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/**
 * One part as the rules for proposed lines see it: which conditions it meets, and the amounts that
 * its geometry gives for one piece.
 */
final class PartGeometry {

    private static final double SQUARE = 1e-6;
    private static final double FLAT_DEG = 180;

    private final Part part;
    private final ShopBook book;
    private final List<FormedEdge> edges;

    PartGeometry(Part part, ShopBook book) {
        this.part = part;
        this.book = book;
        this.edges =
                part.operations().stream()
                        .filter(Formed.class::isInstance)
                        .map(o -> FormedEdge.of((Formed) o, book.times()))
                        .filter(Objects::nonNull)
                        .toList();
    }

    boolean isFormed() {
        return part.operations().stream().anyMatch(Formed.class::isInstance);
    }

    int perAssembly() {
        return part.perAssembly();
    }

    List<Double> radiiMm() {
        return edges.stream().flatMap(e -> e.radiiMm().stream()).toList();
    }

    /**
     * @param from strain that a stretched edge must reach; null for any
     */
    boolean meets(When when, @Nullable Double from) {
        return switch (when) {
            case BLANK -> part.blank() != null && !isMended();
            case DISH -> edges.stream().anyMatch(e -> e.work() instanceof Dish);
            case CURVED_EDGE -> edges.stream().anyMatch(e -> !(e.work() instanceof Dish));
            case STRETCH -> stretchedMm(from) > 0;
            case CLOSED -> joints() > 0;
            case VISIBLE -> part.surface() == Surface.VISIBLE;
            case BENDS -> bends() > 0;
            case RADIUS -> !radiiMm().isEmpty();
            case OLD_PART, SEVERAL_PARTS, ALWAYS -> true;
        };
    }

    /** A customer's part whose dents are taken out was cut by somebody else. */
    private boolean isMended() {
        return part.supply() == Supply.CUSTOMER
                && part.operations().stream().anyMatch(TakeOutDents.class::isInstance);
    }

    /**
     * What adds up to the amount, for one piece; nothing where the geometry gives none. Lengths of
     * formed edges are of those edges that the condition speaks of.
     */
    List<Input> amount(Amount amount, When when, @Nullable Double from) {
        Blank blank = part.blank();
        return switch (amount) {
            case ONE -> List.of(computed("one", 1, ""));
            case CUTS -> blank == null ? List.of() : List.of(computed("straight cuts", 4, ""));
            case PERIMETER -> perimeter();
            case CIRCUMFERENCE -> circumference();
            case EDGE_LENGTH -> edgeLength(when, from);
            case ENDS -> count("ends that are run out", openEnds());
            case JOINTS -> count("joints", joints());
            case WELD_LENGTH -> weldLength();
            case BENDS -> count("bends", bends());
            case AREA -> area();
            case MASS -> List.of(computed("mass", massKg(), "kg"));
            case TEMPLATES -> List.of();
            case MEETINGS -> List.of();
            case DIMENSIONS -> dimensions();
            case CONTOUR_STATIONS -> contourStations(when);
        };
    }

    /** What stays flat is no bend. */
    private long bends() {
        return part.fold() == null
                ? 0
                : part.fold().bends().stream().filter(b -> b.openingDeg() < FLAT_DEG).count();
    }

    private static List<Input> count(String name, double count) {
        return count > 0 ? List.of(computed(name, count, "")) : List.of();
    }

    // Blank -----------------------------------------------------------------------------------

    /** A square that a disc is cut from, to be dished or to be flanged all round. */
    private boolean isRound() {
        Blank blank = part.blank();
        return blank != null
                && Math.abs(blank.lengthMm() - blank.widthMm()) <= SQUARE
                && edges.stream().anyMatch(e -> isDisc(e.work(), blank.lengthMm()));
    }

    private static boolean isDisc(Formed work, double sideMm) {
        if (work instanceof Dish dish) {
            double disc = FormedEdge.cap(dish, new Working()).blankDiameterMm();
            return dish.count() == 1 && disc <= sideMm + 1 && 2 * disc > sideMm;
        }
        return work instanceof TurnFlange flange
                && flange.sense() == Sense.SHRINK
                && flange.sweepDeg() >= FormedEdge.CLOSED_DEG
                && 2 * flange.radiusMm() <= sideMm + 1
                && 4 * flange.radiusMm() > sideMm;
    }

    private List<Input> perimeter() {
        Blank blank = part.blank();
        if (blank == null) {
            return List.of();
        }
        if (isRound()) {
            return List.of(
                    metres(
                            "around a disc of Ø " + shown(blank.lengthMm()),
                            Math.PI * blank.lengthMm()));
        }
        return List.of(
                metres("both lengths of " + shown(blank.lengthMm()), 2 * blank.lengthMm()),
                metres("both widths of " + shown(blank.widthMm()), 2 * blank.widthMm()));
    }

    private List<Input> circumference() {
        List<Input> discs = new ArrayList<>();
        for (FormedEdge edge : edges) {
            if (edge.work() instanceof Dish dish) {
                double disc = FormedEdge.cap(dish, new Working()).blankDiameterMm();
                discs.add(
                        metres("around a disc of Ø " + shown(disc), Math.PI * disc * dish.count()));
            }
        }
        return discs;
    }

    /** From the mass where no blank is stated. */
    private List<Input> area() {
        Blank blank = part.blank();
        if (blank == null) {
            double density = grade().densityKgM3();
            double dm2 = massKg() / (density * part.thicknessMm() / 1000) * 100;
            return List.of(computed("area by the mass", dm2, "dm²"));
        }
        String name = shown(blank.lengthMm()) + " × " + shown(blank.widthMm());
        return isRound()
                ? List.of(
                        computed(
                                "disc of Ø " + shown(blank.lengthMm()),
                                Math.PI / 4 * blank.areaMm2() / 10_000,
                                "dm²"))
                : List.of(computed("blank " + name, blank.areaMm2() / 10_000, "dm²"));
    }

    private double massKg() {
        return part.massKg() != null ? part.massKg() : Bench.blankMassKg(book, part);
    }

    private Grade grade() {
        return book.grade(part.grade()).orElseThrow();
    }

    // Formed edges ----------------------------------------------------------------------------

    private List<Input> edgeLength(When when, @Nullable Double from) {
        if (when == When.STRETCH) {
            double stretched = stretchedMm(from);
            return stretched > 0
                    ? List.of(metres("edges that are stretched so far", stretched))
                    : List.of();
        }
        return spoken(when).stream()
                .map(e -> metres(e.work() instanceof Dish ? "rim" : "formed edge", e.lengthMm()))
                .toList();
    }

    private double stretchedMm(@Nullable Double from) {
        double least = from == null ? 0 : from;
        return edges.stream()
                .flatMap(e -> e.stretchedMm().stream())
                .filter(s -> s.strain() >= least)
                .mapToDouble(FormedEdge.Stretched::lengthMm)
                .sum();
    }

    /** Edges that a condition speaks of. */
    private List<FormedEdge> spoken(When when) {
        return edges.stream()
                .filter(
                        e ->
                                switch (when) {
                                    case DISH -> e.work() instanceof Dish;
                                    case CURVED_EDGE -> !(e.work() instanceof Dish);
                                    case CLOSED -> e.joints() > 0;
                                    default -> true;
                                })
                .toList();
    }

    /** All curved edges of a part are flanges of one strip; each run of an outline is its own. */
    private int joints() {
        return ofStrip(FormedEdge::joints) + ofOutlines(FormedEdge::joints);
    }

    private int openEnds() {
        return (ofStrip(FormedEdge::joints) > 0 ? 0 : ofStrip(FormedEdge::openEnds))
                + ofOutlines(FormedEdge::openEnds);
    }

    private int ofStrip(ToDoubleFunction<FormedEdge> of) {
        return (int)
                edges.stream()
                        .filter(e -> !(e.work() instanceof FollowOutline))
                        .mapToDouble(of)
                        .max()
                        .orElse(0);
    }

    private int ofOutlines(ToDoubleFunction<FormedEdge> of) {
        return (int)
                edges.stream().filter(e -> e.work() instanceof FollowOutline).mapToDouble(of).sum();
    }

    /** A strip is welded across its whole width, a flange on something larger at its height. */
    private List<Input> weldLength() {
        List<Input> welds = new ArrayList<>();
        boolean strip = false;
        for (FormedEdge edge : edges) {
            if (edge.joints() == 0 || strip && !(edge.work() instanceof FollowOutline)) {
                continue;
            }
            strip |= !(edge.work() instanceof FollowOutline);
            double width = weldMm(edge);
            welds.add(
                    metres(
                            edge.joints()
                                    + (edge.joints() == 1 ? " joint of " : " joints of ")
                                    + shown(width),
                            edge.joints() * width));
        }
        return welds;
    }

    private double weldMm(FormedEdge edge) {
        Blank blank = part.blank();
        int repeats = edge.work().count();
        boolean strip = blank != null && blank.longerMm() >= 0.9 * edge.lengthMm() / repeats;
        return strip ? blank.shorterMm() : edge.heightMm();
    }

    // Final check -----------------------------------------------------------------------------

    /**
     * As stated; else of a folded part its length, legs and angles, else length and width of the
     * blank; of what is formed, diameter and depth of a dish and the height of a flange.
     */
    private List<Input> dimensions() {
        if (part.dimensions() != null) {
            return List.of(Input.drawing("sizes stated", part.dimensions(), ""));
        }
        List<Input> sizes = new ArrayList<>();
        if (part.fold() != null) {
            int legs = part.fold().legsMm().size();
            sizes.add(computed("length, legs and angles", 1 + legs + bends(), ""));
        } else if (part.blank() != null && !isRound()) {
            sizes.add(computed("length and width", 2, ""));
        }
        for (FormedEdge edge : edges) {
            int each = edge.work() instanceof Dish ? 2 : 1;
            sizes.add(
                    computed(
                            each == 2 ? "diameter and depth" : "flange height",
                            each * edge.work().count(),
                            ""));
        }
        return sizes;
    }

    private List<Input> contourStations(When when) {
        return spoken(when).stream().map(e -> computed("stations", e.stations(), "")).toList();
    }

    private static Input metres(String name, double mm) {
        return computed(name, mm / 1000, "m");
    }

    /** For the name of an input: as on a drawing. */
    static String shown(double mm) {
        double rounded = Math.round(mm * 10) / 10.0;
        return rounded == Math.rint(rounded)
                ? String.valueOf((long) rounded)
                : String.format(Locale.ROOT, "%.1f", rounded);
    }
}
