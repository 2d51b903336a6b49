package strokewright.estimate;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Operation.CurveEdge;
import strokewright.estimate.Operation.Flatten;
import strokewright.estimate.Operation.Formed;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.Operation.Smooth;
import strokewright.estimate.Operation.Standard;
import strokewright.estimate.Operation.TakeOutDents;
import strokewright.estimate.Operation.TurnFlange;
import strokewright.estimate.RouteStart.HeatShrunkByHand;
import strokewright.estimate.RouteStart.PressTool;
import strokewright.estimate.RouteStart.SegmentsWelded;
import strokewright.estimate.ShopBook.Unit;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Extra;
import strokewright.estimate.TakeOff.Part;
import strokewright.quantity.Fault;
import strokewright.quantity.Faults;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Severity;

/**
 * Another route as it is begun from a take-off: a proposal, to be edited.
 *
 * @param notes what was assumed and what speaks against it; pointers go into the route's take-off
 */
public record BegunRoute(Route route, List<Finding> notes) {

    private static final int MOST_SEGMENTS = 100;

    public BegunRoute {
        notes = List.copyOf(notes);
    }

    /**
     * @throws InvalidInput with every fault, of the take-off under {@code /takeOff}, of the start
     *     under {@code /start}
     */
    public static BegunRoute of(TakeOff takeOff, RouteStart start, ShopBook book) {
        List<Fault> faults = new ArrayList<>();
        TakeOffCheck.faults(takeOff, book)
                .forEach(f -> faults.add(new Fault("/takeOff" + f.pointer(), f.message())));
        if (!faults.isEmpty()) {
            throw new InvalidInput(faults);
        }
        return new Maker(takeOff, book).begun(start);
    }

    /** Whether a part can be begun that way, for a page that offers no way in vain. */
    public static boolean fits(Part part, Class<? extends RouteStart> start) {
        if (start == SegmentsWelded.class) {
            return curved(part) && part.operations().stream().allMatch(Maker::divides);
        }
        return start == HeatShrunkByHand.class
                ? part.operations().stream().anyMatch(BegunRoute::shrinkingEdge)
                : part.operations().stream().anyMatch(o -> o instanceof Formed);
    }

    private static boolean curved(Part part) {
        return part.operations().stream()
                .anyMatch(o -> o instanceof CurveEdge || o instanceof TurnFlange);
    }

    private static boolean shrinkingEdge(Operation operation) {
        return operation instanceof CurveEdge edge && edge.sense() == Sense.SHRINK
                || operation instanceof TurnFlange flange && flange.sense() == Sense.SHRINK;
    }

    private static final class Maker {

        private final TakeOff takeOff;
        private final ShopBook book;
        private final Faults faults = new Faults();
        private final List<Finding> notes = new ArrayList<>();

        Maker(TakeOff takeOff, ShopBook book) {
            this.takeOff = takeOff;
            this.book = book;
        }

        BegunRoute begun(RouteStart start) {
            TakeOff made;
            if (start instanceof SegmentsWelded segments) {
                made = segments(segments);
            } else if (start instanceof HeatShrunkByHand hand) {
                made = byHand(hand);
            } else {
                made = pressed((PressTool) start);
            }
            notes.addAll(RouteDoubts.of(made, book));
            return new BegunRoute(new Route(start.name(), made), notes);
        }

        /**
         * @throws InvalidInput with every fault so far, when there is no such part
         */
        private int part(RouteStart start, String needs) {
            Predicate<Part> fits = p -> fits(p, start.getClass());
            int count = takeOff.parts().size();
            int chosen = start.part() == null ? -1 : start.part();
            if (start.part() == null) {
                chosen =
                        IntStream.range(0, count)
                                .filter(i -> fits.test(takeOff.parts().get(i)))
                                .findFirst()
                                .orElse(-1);
                if (chosen < 0) {
                    faults.add("/start/part", "no part has " + needs);
                }
            } else if (count == 0) {
                faults.add("/start/part", "there is no part");
            } else if (faults.within("/start/part", chosen, 0, count - 1)
                    && !fits.test(takeOff.parts().get(chosen))) {
                faults.add("/start/part", "must be a part that has " + needs);
            }
            faults.throwIfAny();
            return chosen;
        }

        // Segments ----------------------------------------------------------------------------

        private TakeOff segments(SegmentsWelded start) {
            List<String> standards =
                    start.jointStandards() == null
                            ? book.routes().jointStandards()
                            : start.jointStandards();
            boolean counted = faults.within("/start/segments", start.segments(), 2, MOST_SEGMENTS);
            double trim = start.trimMm() == null ? book.routes().jointTrimMm() : start.trimMm();
            faults.within("/start/trimMm", trim, 0, 1000);
            joints(standards);
            int index =
                    part(
                            start,
                            "a curved edge or flange and nothing that cannot be divided, such as a"
                                    + " dish");
            Part part = takeOff.parts().get(index);
            int n = start.segments();
            if (counted && (long) part.perAssembly() * n > TakeOffCheck.MOST_PER_ASSEMBLY) {
                faults.add(
                        "/start/segments", "makes more pieces of one part than a take-off takes");
            }
            faults.throwIfAny();
            boolean closed = start.closed() == null ? closed(part) : start.closed();
            int jointsOfOne = closed ? n : n - 1;
            double jointMm = jointMm(part, index);
            String at = "/parts/" + index;
            for (int i = 0; i < part.operations().size(); i++) {
                if (part.operations().get(i) instanceof Formed f && f.override() != null) {
                    notes.add(note("own-minutes-left-out", at + "/operations/" + i, Map.of()));
                }
            }
            double trims = trim * (jointsOfOne > 1 ? 2 : 1);
            Part segment =
                    new Part(
                            part.name(),
                            part.perAssembly() * n,
                            part.grade(),
                            part.thicknessMm(),
                            part.massKg() == null ? null : part.massKg() / n,
                            blank(part.blank(), n, trims),
                            part.surface(),
                            part.edge(),
                            part.templateGapMm(),
                            part.tolerance(),
                            part.supply(),
                            part.machine(),
                            part.operations().stream().map(o -> divided(o, n)).toList(),
                            null,
                            part.grain(),
                            part.irreplaceable(),
                            part.leftOut(),
                            null,
                            part.gauge());
            notes.add(
                    note(
                            "made-in-segments",
                            at,
                            Map.of("segments", n, "joints", jointsOfOne, "trimMm", trims)));
            List<Operation> assembly = new ArrayList<>(takeOff.assembly());
            double joints = (double) jointsOfOne * part.perAssembly();
            standards.forEach(name -> assembly.add(joint(name, joints, jointMm)));
            noteJointsBefore(part, standards);
            return changed(index, segment, assembly, takeOff.extras());
        }

        private void joints(List<String> standards) {
            String at = "/start/jointStandards";
            if (standards.isEmpty()) {
                faults.add(
                        at,
                        "is missing: the names of one or more time standards by metre or joint");
            }
            for (int i = 0; i < standards.size(); i++) {
                Optional<ShopBook.Standard> standard = known(at + "/" + i, standards.get(i));
                if (standard.isPresent()
                        && standard.get().unit() != Unit.METRE
                        && standard.get().unit() != Unit.JOINT
                        && !standard.get().unit().oncePerOrder()) {
                    faults.add(at + "/" + i, "must be measured by metre, by joint or once");
                }
            }
        }

        private Standard joint(String name, double joints, double jointMm) {
            Unit unit = book.standard(name).orElseThrow().unit();
            return new Standard(
                    name,
                    unit == Unit.METRE
                            ? joints * jointMm / 1000
                            : unit == Unit.JOINT ? joints : 1.0);
        }

        /** A strip is welded across its whole width. */
        private double jointMm(Part part, int index) {
            double mm =
                    part.blank() != null
                            ? part.blank().shorterMm()
                            : part.operations().stream()
                                    .mapToDouble(Maker::flangeMm)
                                    .max()
                                    .orElseThrow();
            notes.add(note("joint-length", "/parts/" + index, Map.of("lengthMm", mm)));
            return mm;
        }

        private static double flangeMm(Operation operation) {
            return operation instanceof CurveEdge edge
                    ? edge.heightMm()
                    : operation instanceof TurnFlange flange ? flange.heightMm() : 0;
        }

        private void noteJointsBefore(Part part, List<String> standards) {
            Set<String> named = new HashSet<>(standards);
            boolean before =
                    IntStream.range(0, 2)
                            .mapToObj(i -> i == 0 ? part.operations() : takeOff.assembly())
                            .flatMap(List::stream)
                            .anyMatch(o -> o instanceof Standard s && named.contains(s.standard()));
            if (before) {
                notes.add(note("joints-stood-before", "/assembly", Map.of()));
            }
        }

        private static boolean closed(Part part) {
            return part.operations().stream().anyMatch(Maker::closes);
        }

        private static boolean closes(Operation operation) {
            return operation instanceof CurveEdge edge && FormedEdge.closes(edge)
                    || operation instanceof TurnFlange flange
                            && flange.sweepDeg() >= FormedEdge.CLOSED_DEG;
        }

        private static @Nullable Blank blank(@Nullable Blank whole, int n, double trims) {
            if (whole == null) {
                return null;
            }
            boolean along = whole.lengthMm() >= whole.widthMm();
            return along
                    ? new Blank(whole.lengthMm() / n + trims, whole.widthMm())
                    : new Blank(whole.lengthMm(), whole.widthMm() / n + trims);
        }

        static boolean divides(Operation operation) {
            return operation instanceof CurveEdge
                    || operation instanceof TurnFlange
                    || operation instanceof Smooth
                    || operation instanceof Flatten
                    || operation instanceof TakeOutDents
                    || operation instanceof Standard;
        }

        /** What is measured along the work is shared out; what each piece takes stays. */
        private Operation divided(Operation whole, int n) {
            if (whole instanceof CurveEdge e) {
                return new CurveEdge(
                        e.sense(),
                        e.lengthMm() / n,
                        e.radiusMm(),
                        e.startRadiusMm(),
                        e.heightMm(),
                        e.count(),
                        e.reachMm(),
                        e.tool(),
                        null);
            }
            if (whole instanceof TurnFlange f) {
                return new TurnFlange(
                        f.sense(),
                        f.radiusMm(),
                        f.heightMm(),
                        f.angleDeg(),
                        f.sweepDeg() / n,
                        f.count(),
                        f.reachMm(),
                        f.tool(),
                        null);
            }
            if (whole instanceof Smooth s) {
                return new Smooth(
                        s.areaMm2() / n, s.timesOver(), s.count(), s.reachMm(), s.tool(), null);
            }
            if (whole instanceof Flatten s) {
                return new Flatten(
                        s.areaMm2() / n, s.timesOver(), s.count(), s.reachMm(), s.tool(), null);
            }
            if (whole instanceof TakeOutDents d) {
                return new TakeOutDents(
                        (d.spots() + n - 1) / n,
                        d.strokesPerSpot(),
                        d.count(),
                        d.reachMm(),
                        d.tool(),
                        null);
            }
            Standard standard = (Standard) whole;
            Unit unit = book.standard(standard.standard()).orElseThrow().unit();
            return switch (unit) {
                case METRE, DM2, KG, HOLE, SPOT ->
                        new Standard(standard.standard(), standard.amount() / n);
                default -> standard;
            };
        }

        // By hand -----------------------------------------------------------------------------

        private TakeOff byHand(HeatShrunkByHand start) {
            String name =
                    standard(start.standard(), book.routes().heatShrinkStandard(), Unit.METRE);
            int index = part(start, "a shrinking edge or flange");
            Part part = takeOff.parts().get(index);
            List<Operation> work = new ArrayList<>();
            for (int i = 0; i < part.operations().size(); i++) {
                Operation operation = part.operations().get(i);
                String at = "/parts/" + index + "/operations/" + i;
                if (shrinkingEdge(operation)) {
                    double metres = edgeMm((Formed) operation) / 1000;
                    work.add(new Standard(name, metres));
                    notes.add(note("shrunk-by-hand", at, Map.of("metres", metres)));
                } else {
                    work.add(operation);
                    if (operation instanceof Formed) {
                        notes.add(note("left-at-the-machine", at, Map.of()));
                    }
                }
            }
            return withLost(
                    index,
                    changed(index, with(part, work), takeOff.assembly(), takeOff.extras()),
                    rule -> true);
        }

        /** Along the heel or the bend, of all of them. */
        private static double edgeMm(Formed operation) {
            double one =
                    operation instanceof CurveEdge edge
                            ? edge.lengthMm()
                            : Math.toRadians(((TurnFlange) operation).sweepDeg())
                                    * ((TurnFlange) operation).radiusMm();
            return one * operation.count();
        }

        // At a press --------------------------------------------------------------------------

        private TakeOff pressed(PressTool start) {
            String name = standard(start.standard(), book.routes().pressStandard(), Unit.PIECE);
            int index = part(start, "forming");
            Part part = takeOff.parts().get(index);
            List<Operation> work = new ArrayList<>();
            boolean stroke = false;
            for (Operation operation : part.operations()) {
                if (!(operation instanceof Formed)) {
                    work.add(operation);
                } else if (!stroke) {
                    work.add(new Standard(name, 1.0));
                    stroke = true;
                }
            }
            List<Extra> extras = new ArrayList<>(takeOff.extras());
            extras.add(
                    new Extra(
                            toolName(part),
                            TakeOff.Per.ORDER,
                            TakeOff.ExtraKind.TOOLING,
                            start.cost(),
                            start.lifePieces(),
                            start.leadTimeDays(),
                            null));
            String tool = "/extras/" + (extras.size() - 1);
            if (start.cost() == null) {
                notes.add(note("tool-without-cost", tool + "/cost", Map.of()));
            }
            notes.add(note("pressed-instead", "/parts/" + index, Map.of()));
            TakeOff made =
                    withLost(
                            index,
                            changed(index, with(part, work), takeOff.assembly(), extras),
                            Maker::joinsOrTrims);
            TakeOffCheck.faults(made, book).stream()
                    .filter(f -> f.pointer().startsWith(tool + "/"))
                    .filter(f -> start.cost() != null || !f.pointer().equals(tool + "/cost"))
                    .forEach(
                            f ->
                                    faults.add(
                                            "/start" + f.pointer().substring(tool.length()),
                                            f.message()));
            faults.throwIfAny();
            return made;
        }

        private static String toolName(Part part) {
            String name = "Press tool, " + part.name();
            return name.codePointCount(0, name.length()) > 200 ? "Press tool" : name;
        }

        // Both --------------------------------------------------------------------------------

        private String standard(@Nullable String asked, @Nullable String usual, Unit unit) {
            String name = asked == null ? usual : asked;
            String word = unit.name().toLowerCase(Locale.ROOT);
            if (name == null) {
                faults.add(
                        "/start/standard",
                        "is missing: the name of a time standard by "
                                + word
                                + "; the shop book names none for this");
                return "";
            }
            if (known("/start/standard", name).filter(s -> s.unit() != unit).isPresent()) {
                faults.add("/start/standard", "must be measured by " + word);
            }
            return name;
        }

        private Optional<ShopBook.Standard> known(String at, @Nullable String name) {
            faults.known(
                    at,
                    name,
                    book.standards().stream().map(ShopBook.Standard::name).toList(),
                    "time standard");
            return book.standard(name);
        }

        /** A tool brings its shape with it: nothing is trued up or made ready for stretching. */
        private static boolean joinsOrTrims(Proposal rule) {
            return rule.when() == Proposal.When.CLOSED
                    || rule.when() == Proposal.When.DISH
                    || rule.amount() == Proposal.Amount.ENDS;
        }

        /**
         * What rules propose because of forming that is gone now is still to be done: it is typed.
         *
         * @param stays which of it
         */
        private TakeOff withLost(int index, TakeOff made, Predicate<Proposal> stays) {
            Proposing.Proposed before = Proposing.of(Folding.withBlanks(takeOff, book), book);
            Proposing.Proposed after = Proposing.of(Folding.withBlanks(made, book), book);
            List<Proposing.Line> lost = lost(before.part(index), after.part(index), stays);
            List<Proposing.Line> lostOfItem = lost(before.item(), after.item(), stays);
            if (lost.isEmpty() && lostOfItem.isEmpty()) {
                return made;
            }
            notes.add(
                    note(
                            "proposed-lines-typed",
                            "/parts/" + index,
                            Map.of(
                                    "standards",
                                    Stream.concat(lost.stream(), lostOfItem.stream())
                                            .map(l -> l.standard().name())
                                            .toList())));
            Part part = made.parts().get(index);
            List<Part> parts = new ArrayList<>(made.parts());
            parts.set(index, with(part, among(part.operations(), lost)));
            return Varied.with(made, parts, among(made.assembly(), lostOfItem));
        }

        private static List<Proposing.Line> lost(
                List<Proposing.Line> before,
                List<Proposing.Line> after,
                Predicate<Proposal> stays) {
            Set<String> left = new HashSet<>();
            after.forEach(l -> left.add(l.rule().code()));
            return before.stream()
                    .filter(l -> !left.contains(l.rule().code()) && stays.test(l.rule()))
                    .toList();
        }

        private static List<Operation> among(List<Operation> work, List<Proposing.Line> lines) {
            List<Operation> all = new ArrayList<>(work);
            int first = 0;
            for (Proposing.Line line : lines) {
                double amount = Math.max(0.001, Math.round(line.amount() * 1000) / 1000.0);
                all.add(
                        line.rule().place() == Proposal.Place.BEFORE ? first++ : all.size(),
                        new Standard(line.standard().name(), amount));
            }
            return all;
        }

        private static Part with(Part part, List<Operation> work) {
            return new Part(
                    part.name(),
                    part.perAssembly(),
                    part.grade(),
                    part.thicknessMm(),
                    part.massKg(),
                    part.blank(),
                    part.surface(),
                    part.edge(),
                    part.templateGapMm(),
                    part.tolerance(),
                    part.supply(),
                    part.machine(),
                    work,
                    part.fold(),
                    part.grain(),
                    part.irreplaceable(),
                    part.leftOut(),
                    part.dimensions(),
                    part.gauge());
        }

        private TakeOff changed(
                int index, Part part, List<Operation> assembly, List<Extra> extras) {
            List<Part> parts = new ArrayList<>(takeOff.parts());
            parts.set(index, part);
            return new TakeOff(
                    takeOff.title(),
                    takeOff.information(),
                    takeOff.quantities(),
                    takeOff.mainQuantity(),
                    takeOff.alreadyMade(),
                    parts,
                    assembly,
                    extras,
                    takeOff.proveFirst(),
                    takeOff.heldTemplatesMm(),
                    takeOff.leftOut(),
                    takeOff.urgencyPercent());
        }

        private static Finding note(String code, String pointer, Map<String, Object> values) {
            return new Finding(code, Severity.NOTE, pointer, values);
        }
    }
}
