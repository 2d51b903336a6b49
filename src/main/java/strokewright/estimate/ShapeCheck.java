package strokewright.estimate;

import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Shape.ArchEdge;
import strokewright.estimate.Shape.Bowl;
import strokewright.estimate.Shape.BowlWithRim;
import strokewright.estimate.Shape.CurvedRib;
import strokewright.estimate.Shape.Flange;
import strokewright.estimate.Shape.FlangedDisc;
import strokewright.estimate.Shape.PanelWithDents;
import strokewright.estimate.Shape.Ring;
import strokewright.estimate.Shape.UFrame;
import strokewright.forming.Arch;
import strokewright.quantity.Fault;
import strokewright.quantity.Faults;

/** What a usable shape looks like, seen with one shop book. */
public final class ShapeCheck {

    private static final double LONGEST_MM = 100_000;
    private static final double LARGEST_RADIUS_MM = 1_000_000;

    private final Faults faults = new Faults();

    private ShapeCheck() {}

    /** Every fault, each with its pointer and what would be right; empty when it can be used. */
    public static List<Fault> faults(Shape shape, ShopBook book) {
        ShapeCheck check = new ShapeCheck();
        check.sheet(shape, book);
        check.shape(shape);
        return check.faults.all();
    }

    private void sheet(Shape shape, ShopBook book) {
        faults.textIfGiven("/name", shape.name());
        faults.known(
                "/grade",
                shape.grade(),
                book.grades().stream().map(ShopBook.Grade::code).toList(),
                "grade");
        faults.over("/thicknessMm", shape.thicknessMm(), 0, 50);
    }

    private void shape(Shape shape) {
        if (shape instanceof Ring ring) {
            strip(ring.outsideDiameterMm(), 360.0, ring.flangeHeightMm(), ring.returnMm());
            runOut(ring.runOutMm());
        } else if (shape instanceof Shape.Arc arc) {
            faults.over("/sweepDeg", arc.sweepDeg(), 0, 360);
            strip(arc.outsideDiameterMm(), arc.sweepDeg(), arc.flangeHeightMm(), arc.returnMm());
            runOut(arc.runOutMm());
        } else if (shape instanceof UFrame frame) {
            uFrame(frame);
        } else if (shape instanceof FlangedDisc disc) {
            flangedDisc(disc);
        } else if (shape instanceof Bowl bowl) {
            bowl(bowl.diameterMm(), bowl.depthMm(), bowl.trimMm(), bowl.smoothTimesOver());
        } else if (shape instanceof BowlWithRim bowl) {
            bowl(bowl.diameterMm(), bowl.depthMm(), bowl.trimMm(), bowl.smoothTimesOver());
            rim(bowl);
        } else if (shape instanceof ArchEdge arch) {
            archEdge(arch);
        } else if (shape instanceof CurvedRib rib) {
            curvedRib(rib);
        } else if (shape instanceof PanelWithDents panel) {
            panel(panel);
        }
    }

    // Strips ----------------------------------------------------------------------------------

    /** A ring or a piece of one. */
    private void strip(
            @Nullable Double outside,
            @Nullable Double sweep,
            @Nullable Double height,
            @Nullable Double returning) {
        boolean sized = faults.over("/outsideDiameterMm", outside, 0, 2 * LARGEST_RADIUS_MM);
        if (faults.over("/flangeHeightMm", height, 0, LONGEST_MM) && sized) {
            underTheRadius(height, outside / 2);
        }
        returning("/returnMm", returning, height);
        if (sized && sweep != null && sweep <= 360) {
            longest("/outsideDiameterMm", outside / 2 * Math.toRadians(sweep));
        }
    }

    private void underTheRadius(double height, double radius) {
        if (!(height < radius)) {
            faults.add("/flangeHeightMm", "must be under the radius, " + mm(radius) + " mm");
        }
    }

    /** Together with the flanges it makes the width of the strip. */
    private void returning(String pointer, @Nullable Double returning, @Nullable Double height) {
        boolean good = faults.within(pointer, returning, 0, LONGEST_MM);
        if (good && height != null && returning + 2 * height > LONGEST_MM) {
            faults.add(pointer, "makes a strip wider than " + mm(LONGEST_MM) + " mm");
        }
    }

    private void runOut(@Nullable Double runOut) {
        faults.withinIfGiven("/runOutMm", runOut, 0, 1000);
    }

    /** Room is left for run-outs. */
    private void longest(String pointer, double lengthMm) {
        if (!(lengthMm <= LONGEST_MM - 2000)) {
            faults.add(
                    pointer,
                    "makes a strip of %s mm: at most %s".formatted(mm(lengthMm), mm(LONGEST_MM)));
        }
    }

    private void uFrame(UFrame frame) {
        Double width = frame.outsideWidthMm();
        Double height = frame.outsideHeightMm();
        boolean wide = faults.over("/outsideWidthMm", width, 0, LONGEST_MM / 4);
        boolean high = faults.over("/outsideHeightMm", height, 0, LONGEST_MM / 4);
        Double corner = frame.cornerRadiusMm();
        boolean cornered = faults.overIfGiven("/cornerRadiusMm", corner, 0, LONGEST_MM);
        if (corner == null && wide) {
            corner = width / 2;
            if (high && !(corner <= height)) {
                faults.add(
                        "/outsideHeightMm",
                        "must be at least half the width, "
                                + mm(corner)
                                + " mm: without a corner radius the top is a half circle");
            }
        } else if (corner != null && cornered) {
            if (wide && !(corner <= width / 2)) {
                faults.add("/cornerRadiusMm", "must be at most half the width, " + mm(width / 2));
            } else if (high && !(corner <= height)) {
                faults.add("/cornerRadiusMm", "must be at most the height, " + mm(height));
            }
        }
        boolean flanged = faults.over("/flangeHeightMm", frame.flangeHeightMm(), 0, LONGEST_MM);
        if (flanged && cornered && corner != null) {
            underTheRadius(frame.flangeHeightMm(), corner);
        }
        returning("/returnMm", frame.returnMm(), frame.flangeHeightMm());
        runOut(frame.runOutMm());
    }

    private void curvedRib(CurvedRib rib) {
        boolean round = faults.over("/heelRadiusMm", rib.heelRadiusMm(), 0, LARGEST_RADIUS_MM);
        Double length = rib.lengthMm();
        Double sweep = rib.sweepDeg();
        if ((length == null) == (sweep == null)) {
            String which = "give the length or the sweep" + (length == null ? "" : ", not both");
            faults.add("/lengthMm", length == null ? "is missing: " + which : which);
        } else if (length != null) {
            if (faults.over("/lengthMm", length, 0, LONGEST_MM - 2000)
                    && round
                    && !(length <= 2 * Math.PI * rib.heelRadiusMm() + 0.01)) {
                faults.add(
                        "/lengthMm",
                        "goes more than once round: at most "
                                + mm(2 * Math.PI * rib.heelRadiusMm()));
            }
        } else if (faults.over("/sweepDeg", sweep, 0, 360) && round) {
            longest("/heelRadiusMm", rib.heelRadiusMm() * Math.toRadians(sweep));
        }
        if (faults.over("/flangeHeightMm", rib.flangeHeightMm(), 0, LONGEST_MM / 4)
                && round
                && rib.flange() == Flange.INSIDE) {
            underTheRadius(rib.flangeHeightMm(), rib.heelRadiusMm());
        }
        returning("/webMm", rib.webMm(), rib.flangeHeightMm());
        runOut(rib.runOutMm());
    }

    // Round parts -----------------------------------------------------------------------------

    private void flangedDisc(FlangedDisc disc) {
        boolean round = faults.over("/diameterMm", disc.diameterMm(), 0, LONGEST_MM / 4);
        if (faults.over("/flangeHeightMm", disc.flangeHeightMm(), 0, LONGEST_MM / 4) && round) {
            underTheRadius(disc.flangeHeightMm(), disc.diameterMm() / 2);
        }
        faults.over("/angleDeg", disc.angleDeg(), 0, 90);
        faults.within("/trimMm", disc.trimMm(), 0, 1000);
    }

    private void bowl(
            @Nullable Double diameter, @Nullable Double depth, Double trim, Integer timesOver) {
        boolean round = faults.over("/diameterMm", diameter, 0, LONGEST_MM / 4);
        if (faults.over("/depthMm", depth, 0, LONGEST_MM) && round && !(depth <= diameter / 2)) {
            faults.add("/depthMm", "must be at most half the Ø, " + mm(diameter / 2) + " mm");
        }
        faults.within("/trimMm", trim, 0, 500);
        faults.within("/smoothTimesOver", timesOver, 0, 100);
    }

    private void rim(BowlWithRim bowl) {
        faults.over("/rimWidthMm", bowl.rimWidthMm(), 0, 200);
        faults.over("/rimAngleDeg", bowl.rimAngleDeg(), 0, 90);
    }

    // Panels ----------------------------------------------------------------------------------

    private void archEdge(ArchEdge arch) {
        boolean byOpening = arch.openingWidthMm() != null || arch.riseMm() != null;
        boolean byRadius = arch.radiusMm() != null || arch.sweepDeg() != null;
        if (byOpening && byRadius) {
            faults.add(
                    arch.radiusMm() != null ? "/radiusMm" : "/sweepDeg",
                    "give width and rise of the opening, or radius and sweep, not both");
        } else if (byRadius) {
            faults.over("/radiusMm", arch.radiusMm(), 0, LARGEST_RADIUS_MM);
            faults.over("/sweepDeg", arch.sweepDeg(), 0, 360);
        } else {
            faults.over("/openingWidthMm", arch.openingWidthMm(), 0, LONGEST_MM);
            faults.over("/riseMm", arch.riseMm(), 0, LONGEST_MM);
        }
        boolean flanged = faults.over("/flangeHeightMm", arch.flangeHeightMm(), 0, LONGEST_MM);
        faults.over("/angleDeg", arch.angleDeg(), 0, 90);
        boolean faced = faults.over("/faceMm", arch.faceMm(), 0, LONGEST_MM);
        if (!(byOpening && byRadius)) {
            FromShape.archOf(arch).ifPresent(a -> archEdge(arch, a, flanged, faced));
        }
    }

    private void archEdge(ArchEdge edge, Arch arch, boolean flanged, boolean faced) {
        String radius = edge.radiusMm() == null ? "/riseMm" : "/radiusMm";
        if (!(arch.radiusMm() <= LARGEST_RADIUS_MM)) {
            if (edge.radiusMm() == null) {
                faults.add(radius, "is too flat: makes a radius over " + mm(LARGEST_RADIUS_MM));
            }
            return;
        }
        boolean stretched = edge.sense() == Operation.Sense.STRETCH;
        if (flanged) {
            underTheRadius(edge.flangeHeightMm(), arch.radiusMm());
        }
        if (faced && !stretched && !(edge.faceMm() < arch.radiusMm())) {
            faults.add("/faceMm", "must be under the radius, " + mm(arch.radiusMm()) + " mm");
        } else if (flanged && faced && edge.flangeHeightMm() < arch.radiusMm()) {
            FromShape.Band band = FromShape.Band.of(edge, arch);
            if (!(band.widthMm() <= LONGEST_MM && band.heightMm() <= LONGEST_MM)) {
                faults.add(
                        radius, "makes a blank of more than " + mm(LONGEST_MM) + " mm on a side");
            }
        }
    }

    private void panel(PanelWithDents panel) {
        boolean sized =
                faults.over("/lengthMm", panel.lengthMm(), 0, LONGEST_MM)
                        & faults.over("/widthMm", panel.widthMm(), 0, LONGEST_MM);
        faults.within("/spots", panel.spots(), 1, 10_000);
        faults.within("/strokesPerSpot", panel.strokesPerSpot(), 1, 10_000);
        faults.within("/smoothTimesOver", panel.smoothTimesOver(), 0, 100);
        if (sized && panel.lengthMm() * panel.widthMm() > 1e9) {
            faults.add("/widthMm", "makes a panel of more than 1000 m²");
        } else if (faults.overIfGiven("/smoothAreaMm2", panel.smoothAreaMm2(), 0, 1e9)
                && panel.smoothAreaMm2() != null
                && sized
                && panel.smoothAreaMm2() > panel.lengthMm() * panel.widthMm()) {
            faults.add("/smoothAreaMm2", "must be at most the panel");
        }
    }

    private static String mm(double value) {
        double shown = Math.floor(value * 100 + 1e-6) / 100;
        return shown == Math.rint(shown) ? Long.toString((long) shown) : Double.toString(shown);
    }
}
