package strokewright.estimate;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Proposal.Place;
import strokewright.estimate.ShopBook.Standard;
import strokewright.estimate.TakeOff.Part;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/** Take-off and shop book in, estimate out. */
public final class Estimating {

    /** Raised whenever the same take-off and shop book would give another figure. */
    public static final int METHOD_VERSION = 4;

    private Estimating() {}

    /**
     * @param book an edition that {@link ShopBookCheck} has passed
     * @throws InvalidInput naming every fault of the take-off, if it cannot be worked with
     */
    public static Estimate estimate(TakeOff takeOff, ShopBook book) {
        return reckon(takeOff, book).estimate();
    }

    /**
     * The same, to be asked for other quantities than those of the take-off.
     *
     * @throws InvalidInput naming every fault of the take-off, if it cannot be worked with
     */
    public static Reckoning reckon(TakeOff stated, ShopBook book) {
        List<strokewright.quantity.Fault> faults = TakeOffCheck.faults(stated, book);
        if (!faults.isEmpty()) {
            throw new InvalidInput(faults);
        }
        TakeOff takeOff = Folding.withBlanks(stated, book);
        List<Planned> parts = new ArrayList<>();
        for (int i = 0; i < takeOff.parts().size(); i++) {
            parts.add(Planned.of(book, takeOff.parts().get(i), "/parts/" + i));
        }
        Planning planning = new Planning(parts);
        Proposing.Proposed proposed = Proposing.of(takeOff, book);
        List<Worked> lines = new ArrayList<>();
        List<SpareBlank> spares = new ArrayList<>();
        List<Finding> findings = new ArrayList<>();
        for (int i = 0; i < parts.size(); i++) {
            List<Worked> worked = planning.worked(i);
            Part part = takeOff.parts().get(i);
            int typed = part.operations().size();
            lines.addAll(
                    proposed(book, part, part.tolerance(), typed, proposed.part(i), Place.BEFORE));
            lines.addAll(worked);
            lines.addAll(
                    proposed(book, part, part.tolerance(), typed, proposed.part(i), Place.AFTER));
            worked.forEach(w -> findings.addAll(w.line().findings()));
            SpareBlank.of(book, takeOff.parts().get(i), worked).ifPresent(spares::add);
            findings.addAll(FoldLimits.of(stated.parts().get(i), "/parts/" + i, book));
            findings.addAll(ToleranceNotes.of(book, part, "/parts/" + i));
        }
        Metals metals = Metals.of(takeOff, book, findings);
        TakeOff.Tolerance finest = FinalCheck.finest(takeOff.parts());
        int typed = takeOff.assembly().size();
        lines.addAll(0, proposed(book, null, finest, typed, proposed.item(), Place.BEFORE));
        for (int i = 0; i < typed; i++) {
            lines.add(
                    standard(
                            book,
                            null,
                            finest,
                            i + 1,
                            (Operation.Standard) takeOff.assembly().get(i)));
        }
        lines.addAll(proposed(book, null, finest, typed, proposed.item(), Place.AFTER));
        findings.addAll(proposed.leftOut());
        return new Reckoning(
                takeOff, book, lines, planning.rounds(), planning.plan(), metals, spares, findings);
    }

    /**
     * What the rules propose at one place of the work. Their positions go on from those of the
     * typed lines, which so keep their own.
     */
    private static List<Worked> proposed(
            ShopBook book,
            @Nullable Part part,
            TakeOff.Tolerance tolerance,
            int typed,
            List<Proposing.Line> proposed,
            Place place) {
        List<Worked> lines = new ArrayList<>();
        for (int i = 0; i < proposed.size(); i++) {
            Proposing.Line line = proposed.get(i);
            if (line.rule().place() == place) {
                Working working = new Working();
                Input amount = Input.computed("amount", line.amount(book, working), "");
                lines.add(
                        standard(
                                book,
                                part,
                                tolerance,
                                typed + i + 1,
                                line.standard(),
                                amount,
                                line.rule().code(),
                                working));
            }
        }
        return lines;
    }

    static Worked standard(
            ShopBook book,
            @Nullable Part part,
            TakeOff.Tolerance tolerance,
            int position,
            Operation.Standard operation) {
        return standard(
                book,
                part,
                tolerance,
                position,
                book.standard(operation.standard()).orElseThrow(),
                Input.drawing("amount", operation.amount(), ""),
                null,
                new Working());
    }

    /**
     * @param tolerance class that sizes are checked by
     */
    private static Worked standard(
            ShopBook book,
            @Nullable Part part,
            TakeOff.Tolerance tolerance,
            int position,
            Standard standard,
            Input amount,
            @Nullable String proposal,
            Working working) {
        Input unit =
                new Input(
                        "minutes per unit",
                        standard.minutesPerUnit(),
                        "min",
                        Bench.origin(book, standard.origin()));
        boolean once = standard.unit().oncePerOrder();
        double setup = standard.setupMinutes();
        double each = 0;
        if (once) {
            setup =
                    working.figure(
                            "setupMinutes",
                            StandardFormula.ONCE,
                            new Input(
                                    "set-up", setup, "min", Bench.origin(book, standard.origin())),
                            unit,
                            amount);
        } else if (standard.unit() == ShopBook.Unit.DIMENSION) {
            each =
                    working.figure(
                            "machineMinutes",
                            StandardFormula.EACH_OF_CLASS,
                            unit,
                            amount,
                            FinalCheck.effort(book, tolerance));
        } else {
            each = working.figure("machineMinutes", StandardFormula.EACH, unit, amount);
        }
        Estimate.Line line =
                Estimate.Line.byStandard(
                        part == null ? null : part.name(),
                        position,
                        standard,
                        setup,
                        each,
                        amount.value(),
                        proposal,
                        working.lines());
        return new Worked(
                line,
                part == null ? 1 : part.perAssembly(),
                part == null ? null : book.grade(part.grade()).orElseThrow(),
                standard.machinePaced() ? each : 0,
                null,
                List.of(),
                standard,
                null,
                0,
                null,
                1,
                List.of());
    }
}
