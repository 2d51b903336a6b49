package strokewright.estimate;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Operation.CurveEdge;
import strokewright.estimate.Operation.Dish;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.Operation.Smooth;
import strokewright.estimate.Operation.TakeOutDents;
import strokewright.estimate.Operation.TurnFlange;
import strokewright.estimate.Proposal.Amount;
import strokewright.estimate.Proposal.When;
import strokewright.estimate.Shape.ArchEdge;
import strokewright.estimate.Shape.Bowl;
import strokewright.estimate.Shape.BowlWithRim;
import strokewright.estimate.Shape.CurvedRib;
import strokewright.estimate.Shape.Flange;
import strokewright.estimate.Shape.FlangedDisc;
import strokewright.estimate.Shape.PanelWithDents;
import strokewright.estimate.Shape.Rim;
import strokewright.estimate.Shape.Ring;
import strokewright.estimate.Shape.UFrame;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Part;
import strokewright.estimate.TakeOff.Supply;
import strokewright.forming.Arch;
import strokewright.forming.CurvedStrip;
import strokewright.forming.Edges;
import strokewright.forming.FlatDisc;
import strokewright.forming.UStrip;
import strokewright.quantity.Fault;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Severity;
import strokewright.quantity.Working;

/**
 * What a shape becomes in a take-off: parts with their forming and their blank. Other work is
 * proposed by the rules of the shop book; here stand only lines of which the shape knows more than
 * the rules can see, by the time standards that the rules take. All of it is to be edited. Repeated
 * forming stands once, with its count.
 *
 * @param assembly work on the item as a whole
 * @param notes how blanks came about, and which lines are missing because the shop book has no rule
 *     for them; pointers go into this result
 */
public record FromShape(List<Part> parts, List<Operation> assembly, List<Finding> notes) {

    public FromShape {
        parts = List.copyOf(parts);
        assembly = List.copyOf(assembly);
        notes = List.copyOf(notes);
    }

    /**
     * @throws InvalidInput with every fault of the shape
     */
    public static FromShape of(Shape shape, ShopBook book) {
        List<Fault> faults = ShapeCheck.faults(shape, book);
        if (!faults.isEmpty()) {
            throw new InvalidInput(faults);
        }
        return new Maker(shape, book).made();
    }

    /** The arch that the edge describes; nothing while it describes none. */
    static Optional<Arch> archOf(ArchEdge edge) {
        if (positive(edge.radiusMm()) && positive(edge.sweepDeg()) && edge.sweepDeg() <= 360) {
            return Optional.of(new Arch(edge.radiusMm(), edge.sweepDeg()));
        }
        return positive(edge.openingWidthMm()) && positive(edge.riseMm())
                ? Optional.of(Arch.ofOpening(edge.openingWidthMm(), edge.riseMm()))
                : Optional.empty();
    }

    private static boolean positive(@Nullable Double value) {
        return value != null && value > 0;
    }

    /** The flat band of an arch edge: its face and its flange, side by side. */
    record Band(Arch arch, double innerMm, double outerMm) {

        static Band of(ArchEdge edge, Arch arch) {
            boolean opening = edge.sense() == Sense.STRETCH;
            double r = arch.radiusMm();
            return opening
                    ? new Band(arch, r - edge.flangeHeightMm(), r + edge.faceMm())
                    : new Band(arch, r - edge.faceMm(), r + edge.flangeHeightMm());
        }

        double widthMm() {
            return arch.bandWidthMm(outerMm);
        }

        double heightMm() {
            return arch.bandHeightMm(innerMm, outerMm);
        }

        /** All round: both curves, and both ends unless it is a full ring. */
        double outlineMm() {
            double ends = arch.sweepDeg() < 360 ? 2 * (outerMm - innerMm) : 0;
            return arch.lengthAtMm(innerMm) + arch.lengthAtMm(outerMm) + ends;
        }
    }

    /** Makes one part, line upon line in the order of the work. */
    private static final class Maker {

        private final Shape shape;
        private final ShopBook book;
        private final List<Operation> work = new ArrayList<>();
        private final List<String> leftOut = new ArrayList<>();
        private final List<Finding> notes = new ArrayList<>();
        private Supply supply = Supply.SHOP;

        Maker(Shape shape, ShopBook book) {
            this.shape = shape;
            this.book = book;
        }

        FromShape made() {
            Blank blank = blankAndWork();
            String name = shape.name() == null || shape.name().isBlank() ? null : shape.name();
            Part part =
                    new Part(
                            name == null ? named(shape.kind()) : name,
                            null,
                            shape.grade(),
                            shape.thicknessMm(),
                            null,
                            blank,
                            shape.surface(),
                            shape.edge(),
                            null,
                            null,
                            supply,
                            null,
                            work,
                            null,
                            null,
                            null,
                            leftOut,
                            null);
            return new FromShape(List.of(part), List.of(), notes);
        }

        private Blank blankAndWork() {
            if (shape instanceof Ring ring) {
                return ring(ring);
            }
            if (shape instanceof Shape.Arc arc) {
                return arc(arc);
            }
            if (shape instanceof UFrame frame) {
                return uFrame(frame);
            }
            if (shape instanceof CurvedRib rib) {
                return curvedRib(rib);
            }
            if (shape instanceof FlangedDisc disc) {
                return flangedDisc(disc);
            }
            if (shape instanceof Bowl bowl) {
                return bowl(bowl);
            }
            if (shape instanceof BowlWithRim bowl) {
                return bowlWithRim(bowl);
            }
            if (shape instanceof ArchEdge arch) {
                return archEdge(arch);
            }
            return panel((PanelWithDents) shape);
        }

        // Strips --------------------------------------------------------------------------------

        private Blank ring(Ring ring) {
            return strip(
                    new CurvedStrip(
                            ring.outsideDiameterMm(),
                            360,
                            ring.flangeHeightMm(),
                            ring.flange() == Flange.INSIDE),
                    ring.returnMm(),
                    ring.runOutMm());
        }

        private Blank arc(Shape.Arc arc) {
            return strip(
                    new CurvedStrip(
                            arc.outsideDiameterMm(),
                            arc.sweepDeg(),
                            arc.flangeHeightMm(),
                            arc.flange() == Flange.INSIDE),
                    arc.returnMm(),
                    arc.runOutMm());
        }

        private Blank strip(CurvedStrip strip, double returning, double runOut) {
            double width = strip.blankWidthMm(returning);
            CurveEdge edge =
                    curveEdge(
                            strip.flangeInside(),
                            strip.heelLengthMm(),
                            strip.heelRadiusMm(),
                            strip.heightMm(),
                            1);
            Blank blank = stripOf(edge, strip.heelLengthMm(), runOut, width, returning > 0 ? 1 : 0);
            blankNote(
                    "blank-of-strip",
                    blank,
                    value("heelLengthMm", strip.heelLengthMm()),
                    value("runOutMm", runOut),
                    value("flangeHeightMm", strip.heightMm()),
                    value("returnMm", returning));
            return blank;
        }

        private Blank uFrame(UFrame frame) {
            double corner =
                    frame.cornerRadiusMm() == null
                            ? frame.outsideWidthMm() / 2
                            : frame.cornerRadiusMm();
            UStrip u =
                    new UStrip(
                            frame.outsideWidthMm(),
                            frame.outsideHeightMm(),
                            corner,
                            frame.flangeHeightMm(),
                            frame.flange() == Flange.INSIDE);
            double runOut =
                    frame.runOutMm() == null
                            ? Math.max(0, CurvedStrip.RUN_OUT_MM - u.legMm())
                            : frame.runOutMm();
            CurveEdge edge =
                    curveEdge(
                            u.flangeInside(),
                            u.bendMm(),
                            u.heelRadiusMm(),
                            u.heightMm(),
                            u.bends());
            Blank blank =
                    stripOf(
                            edge,
                            u.heelLengthMm(),
                            runOut,
                            u.heightMm() + frame.returnMm(),
                            frame.returnMm() > 0 ? 1 : 0);
            blankNote(
                    "blank-of-u-frame",
                    blank,
                    value("heelLengthMm", u.heelLengthMm()),
                    value("legMm", u.legMm()),
                    value("straightRunMm", u.straightRunMm()),
                    value("bendMm", u.bendMm()),
                    value("runOutMm", runOut),
                    value("flangeHeightMm", u.heightMm()),
                    value("returnMm", frame.returnMm()));
            return blank;
        }

        private Blank curvedRib(CurvedRib rib) {
            double radius = rib.heelRadiusMm();
            double length =
                    rib.lengthMm() == null
                            ? radius * Math.toRadians(rib.sweepDeg())
                            : rib.lengthMm();
            CurveEdge edge =
                    curveEdge(
                            rib.flange() == Flange.INSIDE, length, radius, rib.flangeHeightMm(), 2);
            Blank blank =
                    stripOf(
                            edge,
                            length,
                            rib.runOutMm(),
                            2 * rib.flangeHeightMm() + rib.webMm(),
                            rib.webMm() > 0 ? 2 : 1);
            blankNote(
                    "blank-of-rib",
                    blank,
                    value("heelLengthMm", length),
                    value("runOutMm", rib.runOutMm()),
                    value("flangeHeightMm", rib.flangeHeightMm()),
                    value("webMm", rib.webMm()));
            return blank;
        }

        private static CurveEdge curveEdge(
                boolean inside, double length, double radius, double height, int count) {
            return new CurveEdge(
                    inside ? Sense.SHRINK : Sense.STRETCH,
                    length,
                    radius,
                    null,
                    height,
                    count,
                    null,
                    null,
                    null);
        }

        /** Folded, then curved; what is not run out is not cut to length. */
        private Blank stripOf(
                CurveEdge edge, double heelLength, double runOut, double width, int folds) {
            Blank blank = blank(heelLength + 2 * runOut, width);
            if (folds > 0) {
                line(When.BENDS, Amount.BENDS, folds);
            }
            work.add(edge);
            if (runOut == 0) {
                without(When.CURVED_EDGE, Amount.ENDS);
            } else if (FormedEdge.closes(edge)) {
                line(When.CURVED_EDGE, Amount.ENDS, 2); // to be joined; no rule sees the run-out
            }
            return blank;
        }

        // Round parts ---------------------------------------------------------------------------

        private Blank flangedDisc(FlangedDisc disc) {
            double d = disc.diameterMm();
            double h = disc.flangeHeightMm();
            Blank blank = disc(FlatDisc.ofFlangedDiscMm(d, h) + disc.trimMm());
            line(When.DISH, Amount.CIRCUMFERENCE, metres(Math.PI * blank.lengthMm()));
            work.add(turnedDown(d, h, disc.angleDeg()));
            if (disc.trimMm() > 0) {
                double edge = d + 2 * h * Math.cos(Math.toRadians(disc.angleDeg()));
                line(When.DISH, Amount.EDGE_LENGTH, metres(Math.PI * edge));
            }
            blankNote(
                    "blank-of-flanged-disc",
                    blank,
                    value("diameterMm", d),
                    value("flangeHeightMm", h),
                    value("trimMm", disc.trimMm()),
                    value("equalAreaMm", FlatDisc.equalAreaOfFlangedDiscMm(d, h)));
            return blank;
        }

        private static TurnFlange turnedDown(double diameter, double height, double angle) {
            return new TurnFlange(
                    Sense.SHRINK, diameter / 2, height, angle, 360.0, 1, null, null, null);
        }

        private Blank bowl(Bowl bowl) {
            Working aside = new Working();
            Edges.Cap cap =
                    Edges.Cap.of(bowl.diameterMm(), bowl.depthMm(), null, bowl.trimMm(), aside);
            Blank blank = disc(cap.blankDiameterMm());
            work.add(dish(bowl.diameterMm(), bowl.depthMm(), null, bowl.trimMm()));
            smooth(bowl.smoothTimesOver(), cap.areaMm2(aside));
            if (bowl.trimMm() == 0) {
                without(When.DISH, Amount.EDGE_LENGTH);
            }
            line(When.CURVED_EDGE, Amount.ONE, 1);
            blankNote("blank-of-bowl", blank, value("trimMm", bowl.trimMm()));
            return blank;
        }

        private Blank bowlWithRim(BowlWithRim bowl) {
            double d = bowl.diameterMm();
            double w = bowl.rimWidthMm();
            double flat = FlatDisc.ofCollaredBowlMm(d, w);
            Working aside = new Working();
            Edges.Cap cap = Edges.Cap.of(d, bowl.depthMm(), 0.0, 0, aside);
            Blank blank = disc(flat + bowl.trimMm());
            // with rim share 0 the dish's blank is d + trim: the collar counts as trim that stays
            work.add(dish(d, bowl.depthMm(), 0.0, 2 * w + bowl.trimMm()));
            smooth(bowl.smoothTimesOver(), cap.areaMm2(aside));
            if (bowl.trimMm() > 0) {
                line(When.DISH, Amount.EDGE_LENGTH, metres(Math.PI * flat));
            } else {
                without(When.DISH, Amount.EDGE_LENGTH);
            }
            if (bowl.rim() == Rim.TURNED) {
                work.add(turnedDown(d, w, bowl.rimAngleDeg()));
            } else {
                line(When.CURVED_EDGE, Amount.ONE, 1);
            }
            blankNote(
                    "blank-of-collared-bowl",
                    blank,
                    value("rimWidthMm", w),
                    value("trimMm", bowl.trimMm()),
                    value("equalAreaMm", FlatDisc.equalAreaOfCollaredBowlMm(d, bowl.depthMm(), w)));
            return blank;
        }

        private static Dish dish(
                double diameter, double depth, @Nullable Double rimShare, double trim) {
            return new Dish(diameter, depth, rimShare, trim, 1, null, null, null, null);
        }

        private static Blank disc(double diameterMm) {
            return blank(diameterMm, diameterMm);
        }

        private void smooth(int timesOver, double areaMm2) {
            if (timesOver > 0) {
                work.add(new Smooth(areaMm2, timesOver, 1, null, null, null));
            }
        }

        // Panels --------------------------------------------------------------------------------

        private Blank archEdge(ArchEdge edge) {
            Arch arch = archOf(edge).orElseThrow();
            Band band = Band.of(edge, arch);
            Blank blank = blank(band.widthMm(), band.heightMm());
            double outline = metres(band.outlineMm());
            line(When.DISH, Amount.CIRCUMFERENCE, outline);
            line(When.BLANK, Amount.PERIMETER, outline);
            work.add(
                    new TurnFlange(
                            edge.sense(),
                            arch.radiusMm(),
                            edge.flangeHeightMm(),
                            edge.angleDeg(),
                            arch.sweepDeg(),
                            1,
                            null,
                            null,
                            null));
            blankNote(
                    "blank-of-arch-edge",
                    blank,
                    value("innerRadiusMm", band.innerMm()),
                    value("outerRadiusMm", band.outerMm()),
                    value("sweepDeg", arch.sweepDeg()),
                    value("radiusMm", arch.radiusMm()));
            return blank;
        }

        private Blank panel(PanelWithDents panel) {
            supply = Supply.CUSTOMER;
            work.add(new TakeOutDents(panel.spots(), panel.strokesPerSpot(), 1, null, null, null));
            double whole = panel.lengthMm() * panel.widthMm();
            double station = book.times().areaStationMm();
            double area =
                    panel.smoothAreaMm2() == null
                            ? Math.min(whole, panel.spots() * station * station)
                            : panel.smoothAreaMm2();
            smooth(panel.smoothTimesOver(), area);
            note("/parts/0/supply", "panel-is-there", Map.of());
            if (panel.smoothAreaMm2() == null && panel.smoothTimesOver() > 0) {
                note("/parts/0/operations/1", "smoothed-at-each-spot", Map.of("areaMm2", area));
            }
            return new Blank(panel.lengthMm(), panel.widthMm());
        }

        // Lines ---------------------------------------------------------------------------------

        /** By the time standard of the rule that would propose it, were the rule to see it. */
        private void line(When when, Amount amount, double value) {
            Optional<Proposal> rule = rules(when, amount).findFirst();
            if (rule.isPresent()) {
                double shown = Math.round(value * rule.get().factor() * 1000) / 1000.0;
                work.add(new Operation.Standard(rule.get().standard(), Math.max(shown, 0.001)));
            } else {
                note(
                        "/parts/0/operations",
                        "rule-not-found",
                        Map.of("when", when, "amount", amount, "value", value));
            }
        }

        /** The shape knows that there is nothing to do. */
        private void without(When when, Amount amount) {
            rules(when, amount).map(Proposal::code).forEach(leftOut::add);
        }

        private Stream<Proposal> rules(When when, Amount amount) {
            return book.proposals().stream().filter(r -> r.when() == when && r.amount() == amount);
        }

        /** Nobody marks out a fraction of a millimetre of blank. */
        private static Blank blank(double lengthMm, double widthMm) {
            return new Blank(Math.ceil(lengthMm - 1e-9), Math.ceil(widthMm - 1e-9));
        }

        private static double metres(double mm) {
            return mm / 1000;
        }

        private void note(String at, String code, Map<String, Object> values) {
            notes.add(new Finding(code, Severity.NOTE, at, values));
        }

        @SafeVarargs
        private final void blankNote(
                String code, Blank blank, Map.Entry<String, Double>... values) {
            Map<String, Object> all = new LinkedHashMap<>();
            all.put("blankLengthMm", blank.lengthMm());
            all.put("blankWidthMm", blank.widthMm());
            for (Map.Entry<String, Double> each : values) {
                all.put(each.getKey(), each.getValue());
            }
            note("/parts/0/blank", code, all);
        }

        private static Map.Entry<String, Double> value(String name, double value) {
            return Map.entry(name, value);
        }

        /** {@code u-frame} → "U-frame", {@code bowl-with-rim} → "Bowl with rim". */
        private static String named(String kind) {
            String words = kind.equals("u-frame") ? kind : kind.replace('-', ' ');
            return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
        }
    }
}
