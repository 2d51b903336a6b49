package strokewright.estimate;

import static strokewright.quantity.Why.Input.computed;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.Currency;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import strokewright.costing.CostingFormula;
import strokewright.costing.Practice;
import strokewright.costing.SamplingPlan;
import strokewright.estimate.Estimate.Sample;
import strokewright.estimate.ShopBook.Standard;
import strokewright.estimate.ShopBook.Times;
import strokewright.estimate.ShopBook.WorkCentre;
import strokewright.estimate.TakeOff.Part;
import strokewright.estimate.TakeOff.Tolerance;
import strokewright.quantity.Finding;
import strokewright.quantity.Severity;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/**
 * Which pieces of an order the final check looks at. All pieces of a part that one order makes are
 * one lot; items are a lot of their own, for what is checked on the assembly.
 */
final class FinalCheck {

    private final TakeOff takeOff;
    private final ShopBook book;
    private final List<Worked> lines;

    FinalCheck(TakeOff takeOff, ShopBook book, List<Worked> lines) {
        this.takeOff = takeOff;
        this.book = book;
        this.lines = lines;
    }

    static boolean isDoneBy(@Nullable Standard standard) {
        return standard != null && standard.unit().onInspectedPieces();
    }

    /** Sizes of the assembly are checked as those of its finest part. */
    static Tolerance finest(List<Part> parts) {
        return parts.stream()
                .map(Part::tolerance)
                .min(Comparator.naturalOrder())
                .orElse(Tolerance.C);
    }

    /** Factor on the time of one size. */
    static Input effort(ShopBook book, Tolerance tolerance) {
        return new Input(
                "class " + tolerance.name().toLowerCase(Locale.ROOT),
                book.inspection().effort().of(tolerance),
                "",
                Bench.origin(book, book.inspection().origin()));
    }

    /** Pieces of a lot that are checked, with the working of it. */
    int inspected(String figure, int lot, Working working) {
        Inspection inspection = book.inspection();
        return (int)
                working.figure(
                        figure,
                        CostingFormula.INSPECTED_PIECES,
                        computed("pieces", lot, ""),
                        ofBook("piece by piece up to", inspection.everyPieceUpTo(), ""),
                        ofBook(
                                "level " + inspection.level().label(),
                                inspection.level().number(),
                                ""),
                        ofBook("acceptance quality limit", inspection.aqlPercent(), "%"));
    }

    private Input ofBook(String name, double value, String unit) {
        return new Input(name, value, unit, Bench.origin(book, book.inspection().origin()));
    }

    private SamplingPlan plan(int lot) {
        Inspection inspection = book.inspection();
        return SamplingPlan.of(
                lot, inspection.everyPieceUpTo(), inspection.level(), inspection.aqlPercent());
    }

    /** Of every part, and of the assembled item where something is checked on it. */
    List<Sample> samples(int quantity) {
        List<Sample> samples = new ArrayList<>();
        for (Part part : takeOff.parts()) {
            samples.add(sample(part.name(), quantity * part.perAssembly()));
        }
        if (checks(null)) {
            samples.add(sample(null, quantity));
        }
        return samples;
    }

    private Sample sample(@Nullable String part, int lot) {
        SamplingPlan plan = plan(lot);
        return new Sample(
                part,
                lot,
                plan.letter(),
                plan.planLetter(),
                plan.inspected(),
                plan.accept(),
                plan.reject());
    }

    private boolean checks(@Nullable String part) {
        return lines.stream()
                .anyMatch(l -> isDoneBy(l.standard()) && Objects.equals(l.line().part(), part));
    }

    /**
     * Lots that are to be sampled and whose sample is all of them.
     *
     * @param pointer to the quantity in the take-off
     */
    List<Finding> notes(int quantity, String pointer) {
        return samples(quantity).stream()
                .filter(s -> s.lot() > 1 && s.lot() > book.inspection().everyPieceUpTo())
                .filter(s -> s.letter() == null && checks(s.part()))
                .map(
                        s ->
                                new Finding(
                                        "sample-is-whole-lot",
                                        Severity.NOTE,
                                        pointer,
                                        s.part() == null
                                                ? Map.of("pieces", s.lot())
                                                : Map.of("part", s.part(), "pieces", s.lot())))
                .toList();
    }

    /**
     * What the check of a larger quantity may cost less than that of a smaller one, overheads on
     * the manufacturing cost left out: beyond the lot that is checked piece by piece only a sample
     * is.
     */
    double mostFall() {
        return lines.stream()
                .filter(l -> isDoneBy(l.standard()))
                .mapToDouble(l -> fewer(l.perAssembly()) * costOfFirst(l))
                .sum();
    }

    /** Pieces that are checked fewer once the lot is sampled; samples alone never get smaller. */
    private int fewer(int perAssembly) {
        int whole = book.inspection().everyPieceUpTo() / perAssembly * perAssembly;
        return whole == 0 ? 0 : Math.max(0, whole - plan(whole + perAssembly).inspected());
    }

    /** Of the first piece, which practice leaves the dearest. */
    private double costOfFirst(Worked line) {
        Times times = book.times();
        Standard standard = line.standard();
        double practised =
                new Practice(
                                times.practiceSlope(),
                                times.practiceReferenceUnit(),
                                times.practiceFloorUnit())
                        .factor((long) takeOff.alreadyMade() * line.perAssembly() + 1);
        double minutes =
                (line.elapsedPacedMinutes()
                                + (line.elapsedMinutes() - line.elapsedPacedMinutes()) * practised)
                        * (1 + times.benchAllowance() / 100)
                        * book.learned(standard.name(), line.family())
                                .map(Learned::planFactor)
                                .orElse(1.0);
        double reserve =
                standard.reserve()
                        ? Math.max(times.reserveOnePercent(), times.reserveMorePercent())
                                * book.learnedLine(Learned.RESERVE, null)
                                        .map(Learned::planFactor)
                                        .orElse(1.0)
                        : 0;
        WorkCentre centre = book.workCentre(standard.workCentre()).orElseThrow();
        Currency currency = book.currency();
        double labour =
                centre.labourIn(currency).amount().doubleValue()
                        * line.line().people()
                        * (1 + book.priceScheme().productionOverheadPercent() / 100);
        double machine = centre.machineIn(currency).amount().doubleValue();
        return minutes / 60 * (1 + reserve / 100) * (labour + machine);
    }
}
