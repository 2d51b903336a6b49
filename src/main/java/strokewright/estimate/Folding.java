package strokewright.estimate;

import static strokewright.quantity.Why.Input.computed;
import static strokewright.quantity.Why.Input.drawing;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate.Bent;
import strokewright.estimate.Estimate.Folded;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Fold;
import strokewright.estimate.TakeOff.FoldBend;
import strokewright.estimate.TakeOff.Part;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;
import strokewright.sheet.Mass;
import strokewright.sheet.SheetFormula;

/**
 * Flat length of folded parts, and so the one place that says which blank a part is cut from: the
 * one that was typed, else the developed one. By DIN 6935, or by the shop's own K-factors.
 */
public final class Folding {

    static final double FLAT_DEG = 180;

    private final Part part;
    private final Fold fold;
    private final Grade grade;
    private final Bending bending;
    private final String origin;
    private final String gradeOrigin;
    private final Working working = new Working();

    private Folding(Part part, Grade grade, ShopBook book) {
        this.part = part;
        this.fold = Objects.requireNonNull(part.fold());
        this.grade = grade;
        this.bending = book.bending();
        this.origin = Bench.origin(book, bending.origin());
        this.gradeOrigin = Bench.origin(book, grade.origin());
    }

    /**
     * The part with its developed blank where it has a fold and states no blank; the part itself
     * where there is nothing to develop, or something is missing for it.
     */
    public static Part withBlank(Part part, ShopBook book) {
        return part.blank() == null
                ? developed(part, book).map(part::withBlank).orElse(part)
                : part;
    }

    /**
     * Mass of one piece as handled: as stated, else of its blank; null while something is missing
     * for it.
     */
    public static @Nullable Double massKg(Part part, ShopBook book) {
        Blank blank = withBlank(part, book).blank();
        if (part.massKg() != null) {
            return part.massKg();
        }
        if (blank == null
                || blank.lengthMm() == null
                || blank.widthMm() == null
                || part.thicknessMm() == null) {
            return null;
        }
        return book.grade(part.grade())
                .map(g -> Mass.kg(blank.areaMm2(), part.thicknessMm(), g.densityKgM3()))
                .orElse(null);
    }

    static TakeOff withBlanks(TakeOff takeOff, ShopBook book) {
        return takeOff.parts().stream().noneMatch(p -> p.fold() != null)
                ? takeOff
                : Varied.with(
                        takeOff,
                        takeOff.parts().stream().map(p -> withBlank(p, book)).toList(),
                        takeOff.assembly());
    }

    /** The developed blank of a folded part: along the bend lines × across them. */
    public static Optional<Blank> developed(Part part, ShopBook book) {
        return of(part, book).map(f -> new Blank(f.lengthMm(), f.developedMm()));
    }

    /** Whether the blank of a part is the developed one, rather than typed. */
    static boolean isDeveloped(Part part, ShopBook book) {
        return developed(part, book).filter(b -> b.equals(part.blank())).isPresent();
    }

    /** Flat length across the bends, mm; NaN where there is nothing to develop. */
    static double developedMm(Part part, ShopBook book) {
        return of(part, book).map(Folded::developedMm).orElse(Double.NaN);
    }

    static List<Folded> of(TakeOff takeOff, ShopBook book) {
        return takeOff.parts().stream().flatMap(p -> of(p, book).stream()).toList();
    }

    /** Empty for a part that has no fold, or not yet all that it takes to develop it. */
    public static Optional<Folded> of(Part part, ShopBook book) {
        return book.grade(part.grade())
                .filter(grade -> isComplete(part))
                .map(grade -> new Folding(part, grade, book).folded());
    }

    private static boolean isComplete(Part part) {
        Fold fold = part.fold();
        return fold != null
                && part.thicknessMm() != null
                && part.thicknessMm() > 0
                && fold.lengthMm() != null
                && !fold.bends().isEmpty()
                && fold.legsMm().size() == fold.bends().size() + 1
                && fold.legsMm().stream().allMatch(leg -> leg != null && leg > 0)
                && fold.bends().stream().allMatch(Folding::isComplete);
    }

    private static boolean isComplete(@Nullable FoldBend bend) {
        return bend != null
                && bend.radiusMm() != null
                && bend.radiusMm() >= 0
                && bend.openingDeg() >= 0
                && bend.openingDeg() <= 180;
    }

    private Folded folded() {
        List<Bent> bends = new ArrayList<>();
        List<Input> lengths = new ArrayList<>();
        for (int i = 0; i < fold.legsMm().size(); i++) {
            lengths.add(drawing("leg " + (i + 1), fold.legsMm().get(i), "mm"));
        }
        for (int i = 0; i < fold.bends().size(); i++) {
            bends.add(bent(i, bends));
            lengths.add(computed("v " + (i + 1), bends.get(i).compensationMm(), "mm"));
        }
        double developed =
                working.figure(
                        "developedMm",
                        SheetFormula.DEVELOPED_LENGTH,
                        lengths.toArray(Input[]::new));
        return new Folded(part.name(), fold.lengthMm(), developed, bends, working.lines());
    }

    private Bent bent(int index, List<Bent> before) {
        FoldBend bend = fold.bends().get(index);
        String name = "bend " + (index + 1) + ".";
        Input opening = drawing("β", bend.openingDeg(), "°");
        Input radius = drawing("r", bend.radiusMm(), "mm");
        Input thickness = part.thickness("t");
        double setback =
                working.figure(
                        name + "setbackMm",
                        SheetFormula.OUTSIDE_SETBACK,
                        opening,
                        radius,
                        thickness);
        Length length =
                length(name, opening, radius, thickness, computed("setback", setback, "mm"));
        double line =
                working.figure(
                        name + "lineMm",
                        SheetFormula.BEND_LINE,
                        computed(
                                "line before",
                                index == 0 ? 0 : before.get(index - 1).lineMm(),
                                "mm"),
                        computed(
                                "its v",
                                index == 0 ? 0 : before.get(index - 1).compensationMm(),
                                "mm"),
                        drawing("leg", fold.legsMm().get(index), "mm"),
                        computed("v", length.compensation, "mm"));
        double die =
                working.figure(
                        name + "dieOpeningMm",
                        SheetFormula.DIE_OPENING,
                        new Input("thicknesses", bending.dieOpeningOfThickness(), "", origin),
                        thickness);
        Input opened = computed("W", die, "mm");
        Sprung sprung = sprung(name, opening, radius, thickness);
        return new Bent(
                bend.openingDeg(),
                bend.radiusMm(),
                length.k,
                length.k / 2,
                setback,
                length.allowance,
                length.compensation,
                0 - length.compensation, // no minus zero
                line,
                die,
                force(name, thickness, opened),
                working.figure(
                        name + "shortestLegMm",
                        SheetFormula.SHORTEST_LEG,
                        opened,
                        opening,
                        radius,
                        thickness),
                smallestRadius(name, thickness),
                sprung == null ? null : sprung.radiusMm,
                sprung == null ? null : sprung.openingDeg);
    }

    /**
     * @param k of DIN 6935
     */
    private record Length(double k, double allowance, double compensation) {}

    private Length length(
            String name, Input opening, Input radius, Input thickness, Input setback) {
        Optional<Bending.KFactor> own =
                bending.method() == Bending.Method.K_FACTOR
                        ? bending.kFactor(grade.family(), radius.value() / thickness.value())
                        : Optional.empty();
        if (own.isPresent()) {
            double factor = own.get().k();
            double allowance =
                    working.figure(
                            name + "allowanceMm",
                            SheetFormula.BEND_ALLOWANCE,
                            opening,
                            radius,
                            new Input("K", factor, "", origin),
                            thickness);
            double compensation =
                    working.figure(
                            name + "compensationMm",
                            SheetFormula.BEND_COMPENSATION,
                            computed("allowance", allowance, "mm"),
                            setback);
            return new Length(2 * factor, allowance, compensation);
        }
        double k = working.figure(name + "k", SheetFormula.DIN_K, radius, thickness);
        working.figure(name + "kFactor", SheetFormula.K_OF_DIN, computed("k", k, ""));
        double compensation =
                working.figure(
                        name + "compensationMm",
                        SheetFormula.DIN_COMPENSATION,
                        opening,
                        radius,
                        computed("k", k, ""),
                        thickness,
                        setback);
        double allowance =
                working.figure(
                        name + "allowanceMm",
                        SheetFormula.ALLOWANCE_IN_BEND,
                        computed("v", compensation, "mm"),
                        setback);
        return new Length(k, allowance, compensation);
    }

    private double force(String name, Input thickness, Input die) {
        return working.figure(
                name + "forceKn",
                SheetFormula.BEND_FORCE,
                new Input("k", bending.dieFactor(), "", origin),
                new Input("Rm", grade.tensileMpa(), "MPa", gradeOrigin),
                drawing("L", fold.lengthMm(), "mm"),
                thickness,
                die);
    }

    private @Nullable Double smallestRadius(String name, Input thickness) {
        Double thicknesses = grade.minimumBendRadius();
        Double reduction = grade.reductionOfAreaPercent();
        if (thicknesses == null && reduction == null) {
            return null;
        }
        return thicknesses != null
                ? working.figure(
                        name + "minimumRadiusMm",
                        SheetFormula.SMALLEST_BEND_RADIUS,
                        new Input("thicknesses", thicknesses, "", gradeOrigin),
                        thickness)
                : working.figure(
                        name + "minimumRadiusMm",
                        SheetFormula.RADIUS_OF_REDUCTION,
                        thickness,
                        new Input("q", reduction, "%", gradeOrigin));
    }

    /** A bend as it is at the end of its stroke. */
    private record Sprung(double radiusMm, double openingDeg) {}

    /**
     * Null where there is no bend, and where the sheet is folded back on itself or bent sharper
     * than its own thickness (assumed), which the formula knows too little of.
     */
    private @Nullable Sprung sprung(String name, Input opening, Input radius, Input thickness) {
        if (grade.elasticModulusGpa() == null
                || grade.proofMpa() == null
                || radius.value() < thickness.value()
                || opening.value() == 0
                || opening.value() >= FLAT_DEG) {
            return null;
        }
        double before =
                working.figure(
                        name + "bendToRadiusMm",
                        SheetFormula.SPRINGBACK_RADIUS,
                        radius,
                        new Input("Rp", grade.proofMpa(), "MPa", gradeOrigin),
                        new Input("E", grade.elasticModulusGpa(), "GPa", gradeOrigin),
                        thickness);
        double bendTo =
                working.figure(
                        name + "bendToDeg",
                        SheetFormula.SPRINGBACK_OPENING,
                        opening,
                        radius,
                        thickness,
                        computed("R", before, "mm"));
        return new Sprung(before, bendTo);
    }
}
