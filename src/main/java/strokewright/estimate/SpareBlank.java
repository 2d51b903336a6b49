package strokewright.estimate;

import static strokewright.quantity.Why.Input.computed;
import static strokewright.quantity.Why.Input.drawing;

import java.util.List;
import java.util.Optional;
import strokewright.costing.CostingFormula;
import strokewright.estimate.ShopBook.Times;
import strokewright.estimate.TakeOff.Part;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/**
 * One blank more than pieces of a part, once for the order: where an edge is strained far, where
 * formed sheet is thin, or where the metal cannot be bought again. Common practice, no source.
 *
 * @param strain true strain of the most worked row of the part; 0 without one
 */
record SpareBlank(Part part, double strain, Input strainLimit, Input thinLimit) {

    /** Empty where the part takes none. */
    static Optional<SpareBlank> of(ShopBook book, Part part, List<Worked> lines) {
        Times times = book.times();
        String origin = Bench.origin(book, times.origin());
        double strain =
                lines.stream()
                        .filter(w -> w.line().strains() != null)
                        .flatMap(w -> w.line().strains().stream())
                        .mapToDouble(Double::doubleValue)
                        .max()
                        .orElse(0);
        SpareBlank spare =
                new SpareBlank(
                        part,
                        strain,
                        new Input("strain limit", times.spareBlankStrain(), "", origin),
                        new Input(
                                "thinnest sheet without",
                                formed(lines) ? times.spareBlankUnderMm() : 0,
                                "mm",
                                origin));
        return spare.blanks(new Working()) > 0 ? Optional.of(spare) : Optional.empty();
    }

    private static boolean formed(List<Worked> lines) {
        return lines.stream().anyMatch(w -> w.standard() == null);
    }

    int blanks(Working working) {
        return (int)
                working.figure(
                        part.name() + ".spareBlanks",
                        CostingFormula.SPARE_BLANKS,
                        computed("most strain", strain, ""),
                        strainLimit,
                        part.thickness("t"),
                        thinLimit,
                        drawing("irreplaceable", part.irreplaceable() ? 1 : 0, ""));
    }

    Estimate.Spare shown() {
        String why =
                strain > strainLimit.value()
                        ? "strain"
                        : part.irreplaceable() ? "irreplaceable" : "thin";
        return new Estimate.Spare(part.name(), blanks(new Working()), why);
    }
}
