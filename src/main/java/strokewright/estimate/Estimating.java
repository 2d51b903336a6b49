package strokewright.estimate;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook.Standard;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/** Take-off and shop book in, estimate out. */
public final class Estimating {

    /** Raised whenever the same take-off and shop book would give another figure. */
    public static final int METHOD_VERSION = 3;

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
    public static Reckoning reckon(TakeOff takeOff, ShopBook book) {
        List<strokewright.quantity.Fault> faults = TakeOffCheck.faults(takeOff, book);
        if (!faults.isEmpty()) {
            throw new InvalidInput(faults);
        }
        List<Planned> parts = new ArrayList<>();
        for (int i = 0; i < takeOff.parts().size(); i++) {
            parts.add(Planned.of(book, takeOff.parts().get(i), "/parts/" + i));
        }
        Planning planning = new Planning(parts);
        List<Worked> lines = new ArrayList<>();
        List<SpareBlank> spares = new ArrayList<>();
        List<Finding> findings = new ArrayList<>();
        for (int i = 0; i < parts.size(); i++) {
            List<Worked> worked = planning.worked(i);
            lines.addAll(worked);
            worked.forEach(w -> findings.addAll(w.line().findings()));
            SpareBlank.of(book, takeOff.parts().get(i), worked).ifPresent(spares::add);
        }
        Metals metals = Metals.of(takeOff, book, findings);
        for (int i = 0; i < takeOff.assembly().size(); i++) {
            lines.add(standard(book, null, i + 1, (Operation.Standard) takeOff.assembly().get(i)));
        }
        return new Reckoning(
                takeOff, book, lines, planning.rounds(), planning.plan(), metals, spares, findings);
    }

    static Worked standard(
            ShopBook book,
            TakeOff.@Nullable Part part,
            int position,
            Operation.Standard operation) {
        Standard standard = book.standard(operation.standard()).orElseThrow();
        Working working = new Working();
        Input unit =
                new Input(
                        "minutes per unit",
                        standard.minutesPerUnit(),
                        "min",
                        Bench.origin(book, standard.origin()));
        Input amount = Input.drawing("amount", operation.amount(), "");
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
                        operation.amount(),
                        null,
                        working.lines());
        return new Worked(
                line,
                part == null ? 1 : part.perAssembly(),
                part == null ? null : book.grade(part.grade()).orElseThrow().family(),
                standard.machinePaced() ? each : 0,
                null,
                List.of(),
                standard,
                null,
                null);
    }
}
