package strokewright.estimate;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Operation.Formed;
import strokewright.estimate.Operation.Standard;
import strokewright.estimate.ShopBook.Tool;
import strokewright.estimate.ShopBook.Unit;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Fold;
import strokewright.estimate.TakeOff.Part;
import strokewright.quantity.Fault;
import strokewright.quantity.Faults;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Severity;

/**
 * A take-off with something otherwise, complete again. A stated mass and lines by the kg go along
 * with thickness, density and size; all that is not said to follow stays as it was typed.
 *
 * @param notes what followed and what stayed; pointers go into this take-off
 */
public record Varied(TakeOff takeOff, List<Finding> notes) {

    private static final double CLOSED_DEG = 360.5;

    public Varied {
        notes = List.copyOf(notes);
    }

    /**
     * @param takeOff usable with the book
     * @param at where faults of the variant are told
     * @throws InvalidInput with what is wrong with the variant, or with what it leads to
     */
    static Varied of(TakeOff takeOff, Variant variant, ShopBook book, String at) {
        Faults faults = new Faults();
        variant.check(at, takeOff, book, faults);
        faults.throwIfAny();
        Varied made = new Maker(takeOff, variant, book, at).varied();
        for (Fault fault : TakeOffCheck.faults(made.takeOff, book)) {
            faults.add(at, "leads to " + fault.pointer() + ", which " + fault.message());
        }
        faults.throwIfAny();
        return made;
    }

    private record Maker(TakeOff takeOff, Variant variant, ShopBook book, String at) {

        Varied varied() {
            List<Finding> notes = new ArrayList<>();
            TakeOff sized = sized(notes);
            List<Part> parts = new ArrayList<>();
            for (int i = 0; i < sized.parts().size(); i++) {
                Part part = sized.parts().get(i);
                parts.add(changes(i) ? changed(part) : part);
            }
            for (int i = 0; i < parts.size(); i++) {
                parts.set(i, kilograms(i, parts.get(i), notes));
            }
            TakeOff made = with(sized, parts, kilograms(sized, parts, notes));
            if (variant.information() != null) {
                made = with(made, variant.information());
            }
            if (made.equals(takeOff)) {
                notes.clear();
                notes.add(new Finding("already-so", Severity.NOTE, "", Map.of()));
            }
            overFullTurn(made, notes);
            return new Varied(made, notes);
        }

        private boolean changes(int index) {
            return variant.part() == null || variant.part() == index;
        }

        private TakeOff sized(List<Finding> notes) {
            if (variant.diameterMm() != null) {
                return Resizing.toDiameter(
                        at + "/diameterMm",
                        variant.diameterMm(),
                        takeOff,
                        variant.part(),
                        book,
                        notes);
            }
            return variant.lengthMm() == null
                    ? takeOff
                    : Resizing.toLength(
                            at + "/lengthMm",
                            variant.lengthMm(),
                            takeOff,
                            variant.part(),
                            book,
                            notes);
        }

        private Part changed(Part part) {
            String grade = variant.grade() == null ? part.grade() : variant.grade();
            double thickness =
                    variant.thicknessMm() == null ? part.thicknessMm() : variant.thicknessMm();
            Double mass =
                    part.massKg() == null
                            ? null
                            : Double.valueOf(
                                    part.massKg()
                                            * (thickness / part.thicknessMm())
                                            * (density(grade) / density(part.grade())));
            List<Operation> work = part.operations();
            if (variant.tool() != null) {
                Tool tool = book.tool(variant.tool()).orElseThrow();
                work =
                        work.stream()
                                .map(o -> o instanceof Formed f ? Reshaped.with(tool, f, book) : o)
                                .toList();
            }
            return new Part(
                    part.name(),
                    part.perAssembly(),
                    grade,
                    thickness,
                    mass,
                    part.blank(),
                    variant.surface() == null ? part.surface() : variant.surface(),
                    variant.edge() == null ? part.edge() : variant.edge(),
                    part.templateGapMm(),
                    part.tolerance(),
                    part.supply(),
                    variant.machine() == null ? part.machine() : variant.machine(),
                    work,
                    part.fold(),
                    part.grain(),
                    part.irreplaceable(),
                    part.leftOut(),
                    part.dimensions(),
                    grade.equals(part.grade()) && variant.thicknessMm() == null
                            ? part.gauge()
                            : null);
        }

        private double density(@Nullable String grade) {
            return book.grade(grade).orElseThrow().densityKgM3();
        }

        private double kg(Part part) {
            if (part.massKg() != null) {
                return part.massKg();
            }
            double mm2 = Folding.withBlank(part, book).blank().areaMm2();
            return mm2 * part.thicknessMm() * density(part.grade()) / 1e9;
        }

        private Part kilograms(int index, Part part, List<Finding> notes) {
            Part before = takeOff.parts().get(index);
            return with(
                    part,
                    part.blank(),
                    part.fold(),
                    kilograms(
                            "/parts/" + index + "/operations/",
                            part.operations(),
                            kg(part) / kg(before),
                            notes));
        }

        private List<Operation> kilograms(TakeOff sized, List<Part> parts, List<Finding> notes) {
            double before =
                    takeOff.parts().stream().mapToDouble(p -> p.perAssembly() * kg(p)).sum();
            double after = parts.stream().mapToDouble(p -> p.perAssembly() * kg(p)).sum();
            return kilograms(
                    "/assembly/", sized.assembly(), before > 0 ? after / before : 1, notes);
        }

        private List<Operation> kilograms(
                String at, List<Operation> work, double factor, List<Finding> notes) {
            List<Operation> all = new ArrayList<>();
            for (int i = 0; i < work.size(); i++) {
                Operation operation = work.get(i);
                boolean byMass =
                        operation instanceof Standard s
                                && book.standard(s.standard()).orElseThrow().unit() == Unit.KG;
                all.add(
                        byMass
                                ? line(
                                        at + i,
                                        (Standard) operation,
                                        ((Standard) operation).amount() * factor,
                                        notes)
                                : operation);
            }
            return all;
        }

        /** A strip made longer at the same radius may run into itself. */
        private void overFullTurn(TakeOff made, List<Finding> notes) {
            if (variant.lengthMm() == null) {
                return;
            }
            for (int i = 0; i < made.parts().size(); i++) {
                List<Operation> work = made.parts().get(i).operations();
                for (int j = 0; j < work.size(); j++) {
                    if (work.get(j) instanceof Operation.CurveEdge edge
                            && !edge.equals(takeOff.parts().get(i).operations().get(j))
                            && Math.toDegrees(edge.lengthMm() / edge.radiusMm()) > CLOSED_DEG) {
                        notes.add(
                                new Finding(
                                        "over-full-turn",
                                        Severity.DOUBT,
                                        "/parts/" + i + "/operations/" + j,
                                        Map.of(
                                                "sweepDeg",
                                                Math.toDegrees(
                                                        edge.lengthMm() / edge.radiusMm()))));
                    }
                }
            }
        }
    }

    /** A line with the amount that follows from a change, and its note. */
    static Standard line(String at, Standard line, double follows, List<Finding> notes) {
        if (follows == line.amount()) {
            return line;
        }
        double amount = Math.max(Math.round(follows * 1000) / 1000.0, 0.001);
        notes.add(
                new Finding(
                        "amount-follows",
                        Severity.NOTE,
                        at,
                        Map.of("standard", line.standard(), "from", line.amount(), "to", amount)));
        return new Standard(line.standard(), amount);
    }

    /**
     * The estimator's own minutes in proportion to the computed ones, with their notes.
     *
     * @param before estimate of the take-off that was varied
     * @param after estimate of this one
     * @return nothing where there are none, or where nothing computed is beside them
     */
    Optional<Varied> withOwnMinutes(Estimate before, Estimate after) {
        List<Estimate.Line> were = before.typed();
        List<Estimate.Line> are = after.typed();
        List<Finding> told = new ArrayList<>(notes);
        List<Part> changed = new ArrayList<>();
        int line = 0;
        for (int i = 0; i < takeOff.parts().size(); i++) {
            Part part = takeOff.parts().get(i);
            List<Operation> work = new ArrayList<>();
            for (int j = 0; j < part.operations().size(); j++) {
                double was = were.get(line).machineMinutes();
                double is = are.get(line).machineMinutes();
                line++;
                Operation operation = part.operations().get(j);
                boolean follows =
                        operation instanceof Formed f
                                && f.override() != null
                                && was > 0
                                && is > 0
                                && was != is;
                work.add(
                        follows
                                ? own(
                                        "/parts/" + i + "/operations/" + j,
                                        (Formed) operation,
                                        is / was,
                                        told)
                                : operation);
            }
            changed.add(with(part, part.blank(), part.fold(), work));
        }
        return told.size() == notes.size()
                ? Optional.empty()
                : Optional.of(new Varied(with(takeOff, changed, takeOff.assembly()), told));
    }

    private static Formed own(String at, Formed work, double factor, List<Finding> told) {
        double from = work.override().minutes();
        double minutes = Math.round(from * factor * 100) / 100.0;
        told.add(
                new Finding(
                        "own-minutes-follow",
                        Severity.NOTE,
                        at,
                        Map.of("from", from, "to", minutes)));
        return Reshaped.with(work, new Operation.Override(minutes, work.override().reason()));
    }

    static TakeOff with(TakeOff takeOff, List<Part> parts, List<Operation> assembly) {
        return copy(takeOff, takeOff.information(), parts, assembly);
    }

    private static TakeOff with(TakeOff takeOff, TakeOff.Information information) {
        return copy(takeOff, information, takeOff.parts(), takeOff.assembly());
    }

    private static TakeOff copy(
            TakeOff takeOff,
            TakeOff.Information information,
            List<Part> parts,
            List<Operation> assembly) {
        return new TakeOff(
                takeOff.title(),
                information,
                takeOff.quantities(),
                takeOff.mainQuantity(),
                takeOff.alreadyMade(),
                parts,
                assembly,
                takeOff.extras(),
                takeOff.proveFirst(),
                takeOff.heldTemplatesMm(),
                takeOff.leftOut(),
                takeOff.urgencyPercent());
    }

    static Part with(
            Part part, @Nullable Blank blank, @Nullable Fold fold, List<Operation> operations) {
        return copy(part, part.massKg(), blank, fold, operations);
    }

    static Part with(Part part, @Nullable Double massKg) {
        return copy(part, massKg, part.blank(), part.fold(), part.operations());
    }

    private static Part copy(
            Part part,
            @Nullable Double massKg,
            @Nullable Blank blank,
            @Nullable Fold fold,
            List<Operation> operations) {
        return new Part(
                part.name(),
                part.perAssembly(),
                part.grade(),
                part.thicknessMm(),
                massKg,
                blank,
                part.surface(),
                part.edge(),
                part.templateGapMm(),
                part.tolerance(),
                part.supply(),
                part.machine(),
                operations,
                fold,
                part.grain(),
                part.irreplaceable(),
                part.leftOut(),
                part.dimensions(),
                part.gauge());
    }
}
