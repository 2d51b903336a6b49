package strokewright.estimate;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.DoubleStream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Operation.CurveEdge;
import strokewright.estimate.Operation.Dish;
import strokewright.estimate.Operation.FollowOutline;
import strokewright.estimate.Operation.Formed;
import strokewright.estimate.Operation.Standard;
import strokewright.estimate.Operation.TurnFlange;
import strokewright.estimate.ShopBook.Unit;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Fold;
import strokewright.estimate.TakeOff.Part;
import strokewright.forming.Arch;
import strokewright.forming.Edges;
import strokewright.quantity.Fault;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Severity;
import strokewright.quantity.Working;

/**
 * An item in another size. Another Ø makes its plan larger or smaller alike: radii, lengths along
 * them, a dish with its depth; flange heights, angles, sweeps and counts stay. Another length makes
 * a strip longer and what is curved all along it, at the same radius. What a blank has beyond its
 * work (run-out, trim, a straight leg, a flat border) stays as it is, so that a size and back gives
 * the item again. Common practice, no source.
 */
final class Resizing {

    /** What of a strip is not bent is run-out up to here, and straight legs beyond. */
    private static final double MOST_RUN_OUT_MM = 100;

    /** A line longer than its blank's side by so much runs round the blank, not along it. */
    private static final double ALONG = 1.2;

    /** Amounts are typed and offered to the millimetre. */
    private static final double SAME_MM = 0.6;

    private static final int MOST_JOINTS = 4;

    private final TakeOff takeOff;
    private final @Nullable Integer only;
    private final ShopBook book;
    private final MainSize size;
    private final double to;
    private final List<Finding> notes;
    private final List<Grown> grown = new ArrayList<>();

    private Resizing(
            TakeOff takeOff,
            @Nullable Integer only,
            ShopBook book,
            MainSize size,
            double to,
            List<Finding> notes) {
        this.takeOff = takeOff;
        this.only = only;
        this.book = book;
        this.size = size;
        this.to = to;
        this.notes = notes;
    }

    /**
     * @param at where a fault of the new size is told
     * @param only index of the only part to change; all when null
     * @param notes what is to be told about it is added here
     */
    static TakeOff toDiameter(
            String at,
            double mm,
            TakeOff takeOff,
            @Nullable Integer only,
            ShopBook book,
            List<Finding> notes) {
        MainSize size =
                MainSize.diameter(takeOff, only, book)
                        .orElseThrow(
                                () ->
                                        new InvalidInput(
                                                at,
                                                "goes with curved work, a dish or an outline, and"
                                                        + " there is none: give lengthMm"));
        return new Resizing(takeOff, only, book, size, mm, notes).resized(at);
    }

    /** The same for the length. */
    static TakeOff toLength(
            String at,
            double mm,
            TakeOff takeOff,
            @Nullable Integer only,
            ShopBook book,
            List<Finding> notes) {
        MainSize size =
                MainSize.length(takeOff, only)
                        .orElseThrow(
                                () ->
                                        new InvalidInput(
                                                at,
                                                "needs a part with a blank that nothing round is"
                                                        + " worked on: give diameterMm"));
        return new Resizing(takeOff, only, book, size, mm, notes).resized(at);
    }

    private TakeOff resized(String at) {
        if (to == size.mm()) {
            return takeOff;
        }
        List<Part> parts = new ArrayList<>();
        for (int i = 0; i < takeOff.parts().size(); i++) {
            Part part = takeOff.parts().get(i);
            try {
                parts.add(changes(i) ? resized(part, i) : part);
            } catch (IllegalArgumentException e) {
                throw new InvalidInput(
                        List.of(new Fault(at, "makes an outline that " + e.getMessage())));
            }
        }
        return Varied.with(takeOff, parts, assembly());
    }

    private boolean changes(int index) {
        return only == null || only == index;
    }

    /** What a part's work needs of its blank. */
    private enum Plan {
        /** Along its longer side. */
        STRIP,
        /** Both ways. */
        ROUND,
        /** Both ways, within an outline. */
        PANEL,
        NONE
    }

    private Part resized(Part part, int index) {
        Optional<Way> way = way(part);
        if (way.isEmpty()) {
            note("size-stays", "/parts/" + index, Map.of("part", String.valueOf(part.name())));
            return part;
        }
        Way how = way.get();
        Blank blank = part.blank() == null ? null : how.blank(part.blank());
        List<Operation> work = new ArrayList<>();
        for (int i = 0; i < part.operations().size(); i++) {
            Operation operation = part.operations().get(i);
            work.add(
                    operation instanceof Formed formed
                            ? Reshaped.in(how, formed)
                            : line(
                                    "/parts/" + index + "/operations/" + i,
                                    (Standard) operation,
                                    mm -> how.line(mm, part, blank),
                                    how.areaFactor()));
        }
        Part after = Varied.with(part, blank, how.fold(part.fold()), work);
        after = Varied.with(after, mass(part, after, how));
        grown.add(new Grown(how, part));
        return after;
    }

    private static @Nullable Double mass(Part before, Part after, Way how) {
        if (before.massKg() == null) {
            return null;
        }
        return before.massKg()
                * (before.blank() == null || after.blank() == null
                        ? how.areaFactor()
                        : after.blank().areaMm2() / before.blank().areaMm2());
    }

    private Optional<Way> way(Part part) {
        if (size.kind() != MainSize.Kind.LENGTH) {
            Plan plan = plan(part);
            return plan == Plan.NONE ? Optional.empty() : Optional.of(new Alike(part, plan));
        }
        double mm = MainSize.lengthMm(part);
        return mm > 0 && Math.abs(mm - size.mm()) < SAME_MM
                ? Optional.of(new Longer(mm, part.blank() == null ? 0 : part.blank().shorterMm()))
                : Optional.empty();
    }

    private Plan plan(Part part) {
        boolean round = false;
        boolean curved = false;
        double outline = 0;
        for (Operation operation : part.operations()) {
            round |= operation instanceof Dish || operation instanceof TurnFlange;
            curved |= operation instanceof CurveEdge;
            if (operation instanceof FollowOutline follow) {
                outline = Math.max(outline, lengthOf(follow));
            }
        }
        if (round) {
            return Plan.ROUND;
        }
        if (outline > 0) {
            return part.blank() != null && outline <= ALONG * part.blank().longerMm()
                    ? Plan.STRIP
                    : Plan.PANEL;
        }
        return curved ? Plan.STRIP : Plan.NONE;
    }

    private double lengthOf(FollowOutline follow) {
        return LaidOutline.outline(follow, book.times().smallestWorkableRadiusMm()).lengthMm();
    }

    // Lines -----------------------------------------------------------------------------------

    /** Amounts by length and by area follow; what is counted stays. */
    private Operation line(
            String at, Standard line, DoubleUnaryOperator length, double areaFactor) {
        Unit unit = book.standard(line.standard()).orElseThrow().unit();
        double amount = line.amount();
        double follows =
                switch (unit) {
                    case METRE -> length.applyAsDouble(amount * 1000) / 1000;
                    case DM2 -> amount * areaFactor;
                    default -> amount;
                };
        return Varied.line(at, line, follows, notes);
    }

    /** Joints right across a strip keep their length; all else on the item goes along with it. */
    private List<Operation> assembly() {
        boolean alone = only == null || takeOff.parts().size() == 1;
        if (!alone || grown.isEmpty() || size.kind() == MainSize.Kind.LENGTH) {
            return takeOff.assembly();
        }
        double factor = to / size.mm();
        boolean strips = grown.stream().allMatch(g -> g.way.plan == Plan.STRIP);
        List<Operation> lines = new ArrayList<>();
        for (int i = 0; i < takeOff.assembly().size(); i++) {
            lines.add(
                    line(
                            "/assembly/" + i,
                            (Standard) takeOff.assembly().get(i),
                            mm -> joint(mm, factor),
                            strips ? factor : factor * factor));
        }
        return lines;
    }

    private double joint(double mm, double factor) {
        if (grown.stream().anyMatch(g -> g.isAcross(mm))) {
            return mm;
        }
        return grown.stream()
                .flatMapToDouble(g -> g.way.course().follows(mm).stream())
                .findFirst()
                .orElse(mm * factor);
    }

    /** A part that became another size. */
    private record Grown(Way way, Part before) {

        /** Of each piece of it that goes into the item, too. */
        boolean isAcross(double mm) {
            return way.plan == Plan.STRIP
                    && (Resizing.isAcross(mm, before)
                            || Resizing.isAcross(mm / before.perAssembly(), before));
        }
    }

    /** As long as one or a few joints across a strip. */
    private static boolean isAcross(double mm, Part strip) {
        DoubleStream heights =
                strip.operations().stream()
                        .mapToDouble(
                                o ->
                                        o instanceof CurveEdge edge
                                                ? edge.heightMm()
                                                : o instanceof FollowOutline follow
                                                        ? follow.heightMm()
                                                        : 0)
                        .filter(h -> h > 0);
        DoubleStream width =
                strip.blank() == null
                        ? DoubleStream.empty()
                        : DoubleStream.of(strip.blank().shorterMm());
        return DoubleStream.concat(width, heights).anyMatch(h -> isTimes(mm, h, SAME_MM));
    }

    private static boolean isTimes(double mm, double one, double within) {
        for (int n = 1; n <= MOST_JOINTS; n++) {
            if (Math.abs(mm - n * one) <= within) {
                return true;
            }
        }
        return false;
    }

    /**
     * Along what other work runs: a line is so many times along it, and something besides (round
     * the ends, at a wider circle) that stays.
     *
     * @param mm its length
     * @param more what it becomes longer by
     * @param besides most that a line has besides, each time
     */
    private record Course(double mm, double more, double besides) {

        OptionalDouble follows(double line) {
            long times = mm > 0 ? Math.round(line / mm) : 0;
            double left = Math.abs(line - times * mm);
            return times > 0 && left <= times * besides + SAME_MM && line + times * more > 0
                    ? OptionalDouble.of(line + times * more)
                    : OptionalDouble.empty();
        }
    }

    private void note(String code, String at, Map<String, Object> values) {
        notes.add(new Finding(code, Severity.NOTE, at, values));
    }

    // Ways to grow ----------------------------------------------------------------------------

    /** How one part becomes larger or smaller. */
    private abstract static class Way implements Reshaped.Sizes {

        final Plan plan;

        Way(Plan plan) {
            this.plan = plan;
        }

        abstract double areaFactor();

        abstract double lengthFactor();

        abstract Blank blank(Blank before);

        abstract @Nullable Fold fold(@Nullable Fold before);

        @Override
        public double area(double mm2) {
            return mm2 * areaFactor();
        }

        /** How a length of other work on the part follows. */
        double line(double mm, Part before, @Nullable Blank after) {
            if (plan == Plan.STRIP && isAcross(mm, before)) {
                return mm;
            }
            Blank blank = before.blank();
            if (plan == Plan.ROUND
                    && blank != null
                    && isTimes(mm, Math.PI * blank.longerMm(), SAME_MM)) {
                return mm * after.longerMm() / blank.longerMm();
            }
            return course().follows(mm).orElse(mm * lengthFactor());
        }

        /** Along what lines of other work run. */
        abstract Course course();

        /** Nobody marks out a fraction of a millimetre of blank. */
        static double cut(double mm) {
            return Math.ceil(mm - 1e-6);
        }

        /** Longer side first, put back as they were. */
        static Blank of(Blank before, double longer, double shorter) {
            return before.lengthMm() >= before.widthMm()
                    ? new Blank(longer, shorter)
                    : new Blank(shorter, longer);
        }
    }

    /** The whole plan in proportion. */
    private final class Alike extends Way {

        private final Part part;

        Alike(Part part, Plan plan) {
            super(plan);
            this.part = part;
        }

        @Override
        public double radius(double mm) {
            return mm * to / size.mm();
        }

        @Override
        public double along(double mm) {
            return radius(mm);
        }

        @Override
        public double reach(double mm) {
            return plan == Plan.STRIP ? mm : radius(mm);
        }

        @Override
        public double outline() {
            return to / size.mm();
        }

        @Override
        double lengthFactor() {
            return to / size.mm();
        }

        @Override
        double areaFactor() {
            return plan == Plan.STRIP ? lengthFactor() : lengthFactor() * lengthFactor();
        }

        @Override
        Blank blank(Blank before) {
            if (plan == Plan.PANEL) {
                return new Blank(cut(radius(before.lengthMm())), cut(radius(before.widthMm())));
            }
            double longer = before.longerMm();
            double shorter = before.shorterMm();
            if (plan == Plan.STRIP) {
                double bent = bent(longer);
                return of(before, side(longer, bent, radius(bent)), shorter);
            }
            Need was = need(part.operations());
            Need is = need(part.operations().stream().map(this::alike).toList());
            return of(
                    before,
                    side(longer, was.longer, is.longer),
                    side(shorter, was.shorter, is.shorter));
        }

        private Operation alike(Operation operation) {
            return operation instanceof Formed formed ? Reshaped.in(this, formed) : operation;
        }

        /** A side too small for its work from the beginning grows in proportion to it. */
        private static double side(double before, double needed, double needs) {
            return cut(before >= needed ? before + needs - needed : before * needs / needed);
        }

        @Override
        @Nullable Fold fold(@Nullable Fold before) {
            if (before == null || plan != Plan.STRIP) {
                return before;
            }
            double length = before.lengthMm();
            double bent = bent(length);
            return new Fold(side(length, bent, radius(bent)), before.legsMm(), before.bends());
        }

        /** Edges one after the other all count, edges side by side only the longest. */
        private double bent(double side) {
            double all = 0;
            double longest = 0;
            for (Operation operation : part.operations()) {
                double one =
                        operation instanceof CurveEdge edge
                                ? edge.lengthMm()
                                : operation instanceof FollowOutline follow ? lengthOf(follow) : 0;
                all += one > 0 ? one * ((Formed) operation).count() : 0;
                longest = Math.max(longest, one);
            }
            return all <= ALONG * side ? all : longest;
        }

        @Override
        Course course() {
            double longer = part.blank() == null ? 0 : part.blank().longerMm();
            double shorter = part.blank() == null ? 0 : part.blank().shorterMm();
            if (plan == Plan.STRIP) {
                double mm = bent(longer);
                return new Course(mm, radius(mm) - mm, Math.max(0, longer - mm) + shorter);
            }
            double mm = 0;
            double besides = 0;
            for (Operation operation : part.operations()) {
                boolean dish = operation instanceof Dish;
                if (dish || operation instanceof TurnFlange) {
                    TurnFlange flange = dish ? null : (TurnFlange) operation;
                    double sweep = dish ? 2 * Math.PI : Math.toRadians(flange.sweepDeg());
                    double radius = dish ? ((Dish) operation).diameterMm() / 2 : flange.radiusMm();
                    double wide =
                            Math.max(dish ? 0 : flange.heightMm(), ring(longer, sweep, radius));
                    if (sweep * radius > mm) {
                        mm = sweep * radius;
                        besides = (sweep + 2) * wide;
                    }
                }
            }
            return new Course(mm, radius(mm) - mm, besides);
        }

        /** How far a blank reaches beyond the bend line. */
        private static double ring(double longer, double sweep, double radius) {
            return longer / (2 * Math.sin(Math.min(sweep / 2, Math.PI / 2))) - radius;
        }
    }

    /** Sides of the flat rectangle that work needs. */
    private record Need(double longer, double shorter) {}

    /** Of the largest round work. */
    private static Need need(List<Operation> work) {
        Need largest = new Need(0, 0);
        for (Operation operation : work) {
            Need need = new Need(0, 0);
            if (operation instanceof Dish dish) {
                need = new Need(blankOf(dish), blankOf(dish));
            } else if (operation instanceof TurnFlange flange) {
                Arch arch = new Arch(flange.radiusMm(), flange.sweepDeg());
                need =
                        new Need(
                                arch.bandWidthMm(flange.radiusMm()),
                                arch.bandHeightMm(flange.radiusMm(), flange.radiusMm()));
            }
            largest = need.longer > largest.longer ? need : largest;
        }
        return largest;
    }

    private static double blankOf(Dish dish) {
        boolean possible = dish.depthMm() <= dish.diameterMm() / 2;
        return possible
                ? Edges.Cap.of(
                                dish.diameterMm(),
                                dish.depthMm(),
                                dish.rimShare(),
                                dish.trimMm(),
                                new Working())
                        .blankDiameterMm()
                : dish.diameterMm();
    }

    /** A strip, and what is bent all along it at the same radius. */
    private final class Longer extends Way {

        private final double before;
        private final double width;

        Longer(double before, double width) {
            super(Plan.STRIP);
            this.before = before;
            this.width = width;
        }

        @Override
        public double radius(double mm) {
            return mm;
        }

        /** A bend between straight legs stays: the legs become longer. */
        @Override
        public double along(double mm) {
            boolean allAlong = before - mm <= MOST_RUN_OUT_MM && mm > before / 2;
            double longer = mm + to - before;
            return allAlong && longer > 0 ? longer : mm;
        }

        @Override
        public double reach(double mm) {
            return mm;
        }

        @Override
        public double outline() {
            return 1;
        }

        @Override
        double lengthFactor() {
            return to / before;
        }

        @Override
        double areaFactor() {
            return to / before;
        }

        @Override
        Blank blank(Blank blank) {
            return of(blank, to, blank.shorterMm());
        }

        @Override
        Course course() {
            return new Course(before, to - before, MOST_RUN_OUT_MM + width);
        }

        @Override
        @Nullable Fold fold(@Nullable Fold fold) {
            return fold == null || Math.abs(fold.lengthMm() - before) >= SAME_MM
                    ? fold
                    : new Fold(to, fold.legsMm(), fold.bends());
        }
    }
}
