package strokewright.learning;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.Machine;
import strokewright.estimate.ShopBook.PassLimit;
import strokewright.estimate.ShopBook.Tool;
import strokewright.forming.FormingFormula;

/**
 * How a fit goes into a shop book: the pass-limit line of tool and family is replaced or added. A
 * figure that the strips only bound stays as it is in use, unless that lies under the bound.
 *
 * @param biteInUse b of thick sheet by the book as it stands
 * @param workInUse E in J, likewise
 * @param feedInUse η, likewise
 * @param line as it will stand in the book
 */
record Adoption(double biteInUse, double workInUse, double feedInUse, PassLimit line) {

    /**
     * @param fit not refused, of this book's own tool, machine and grades
     * @param measured on which day
     */
    static Adoption of(TestStrips notes, StripFit fit, ShopBook book, LocalDate measured) {
        Tool tool = book.tool(notes.tool()).orElseThrow();
        Machine machine = book.machine(notes.machine()).orElseThrow();
        Optional<PassLimit> now = book.passLimit(tool.name(), notes.family());
        Double bite = now.map(PassLimit::biteStrain).orElse(null);
        Double work = now.map(PassLimit::strokeWorkJ).orElse(null);
        Double feed = now.map(PassLimit::feedEfficiency).orElse(null);
        double biteInUse =
                bite != null
                        ? bite
                        : FormingFormula.FAMILY_BITE.apply(
                                tool.biteStrain(),
                                book.familyBite().getOrDefault(notes.family(), 1.0));
        double workInUse = work != null ? work : workOf(machine);
        return new Adoption(
                biteInUse,
                workInUse,
                feed != null ? feed : machine.feedEfficiency(),
                new PassLimit(
                        tool.name(),
                        notes.family(),
                        taken(fit.biteStrain(), bite, biteInUse),
                        taken(fit.strokeWorkJ(), work, workInUse),
                        fit.feedEfficiency().value(),
                        "measured, test strips of " + measured));
    }

    /** The book with the line; at the place of the one before, where there was one. */
    ShopBook in(ShopBook book) {
        List<PassLimit> lines = new ArrayList<>(book.passLimits());
        int at = 0;
        while (at < lines.size() && !sameWork(lines.get(at))) {
            at++;
        }
        if (at < lines.size()) {
            lines.set(at, line);
        } else {
            lines.add(line);
        }
        return book.withPassLimits(lines);
    }

    double biteThen() {
        return line.biteStrain() == null ? biteInUse : line.biteStrain();
    }

    double workThen() {
        return line.strokeWorkJ() == null ? workInUse : line.strokeWorkJ();
    }

    double feedThen() {
        return line.feedEfficiency();
    }

    private boolean sameWork(PassLimit other) {
        return other.tool().equals(line.tool()) && other.family().equals(line.family());
    }

    private static @Nullable Double taken(Fitted fitted, @Nullable Double stated, double inUse) {
        return fitted.bound() == null || inUse < fitted.value()
                ? Double.valueOf(fitted.value())
                : stated;
    }

    private static double workOf(Machine machine) {
        return machine.strokeWorkJ() != null
                ? machine.strokeWorkJ()
                : FormingFormula.RATED_STROKE_WORK.apply(machine.ratedThicknessMm());
    }
}
