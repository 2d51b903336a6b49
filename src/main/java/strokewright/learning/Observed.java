package strokewright.learning;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.Grade;
import strokewright.forming.Edges;
import strokewright.forming.FormingFormula;
import strokewright.forming.Metal;
import strokewright.forming.Passes;
import strokewright.forming.Row;
import strokewright.learning.TestStrips.Reading;
import strokewright.learning.TestStrips.Strip;
import strokewright.quantity.Working;

/**
 * One reading of a strip as the method sees it: the strain of each row by the same geometry as
 * "curve an edge", and what the strokes for it depend on.
 *
 * @param rowStrains outermost last
 * @param strokesPerPass of one row
 * @param thinShare what thin sheet leaves of the bite when shrinking; 1 otherwise
 */
record Observed(
        int strip,
        int reading,
        List<Double> rowStrains,
        double strokesPerPass,
        double thicknessMm,
        double offset,
        double k,
        double n,
        double thinShare,
        double strokes,
        double minutes) {

    static List<Observed> all(TestStrips notes, ShopBook book) {
        List<Observed> all = new ArrayList<>();
        for (int i = 0; i < notes.strips().size(); i++) {
            Strip strip = notes.strips().get(i);
            for (int j = 0; j < strip.readings().size(); j++) {
                Reading reading = strip.readings().get(j);
                all.add(
                        at(notes, i, j, reading.radiusMm(), book)
                                .noted(reading.strokes(), reading.minutes()));
            }
        }
        return all;
    }

    /** The strip as it would be at some radius, nothing noted. */
    static Observed at(TestStrips notes, int strip, int reading, double radiusMm, ShopBook book) {
        ShopBook.Tool tool = book.tool(notes.tool()).orElseThrow();
        Strip of = notes.strips().get(strip);
        Grade grade = book.grade(of.grade()).orElseThrow();
        Metal metal = grade.metal("");
        List<Double> strains =
                new Edges.CurvedEdge(
                                of.shrinks(),
                                of.lengthMm(),
                                radiusMm,
                                of.startRadiusMm() == null ? 0 : 1 / of.startRadiusMm(),
                                of.heightMm())
                        .rows(tool.jawMm(), book.times().minimumRowStrain(), new Working()).stream()
                                .map(Row::strain)
                                .toList();
        return new Observed(
                strip,
                reading,
                strains,
                FormingFormula.ROW_STROKES.apply(1, of.lengthMm(), tool.pitchMm()),
                of.thicknessMm(),
                metal.offset(),
                metal.strengthCoefficientMpa(),
                metal.hardeningExponent(),
                of.shrinks() ? Math.min(1, of.thicknessMm() / book.times().thinSheetMm()) : 1,
                0,
                0);
    }

    private Observed noted(double counted, double timed) {
        return new Observed(
                strip,
                reading,
                rowStrains,
                strokesPerPass,
                thicknessMm,
                offset,
                k,
                n,
                thinShare,
                counted,
                timed);
    }

    double edgeStrain() {
        return rowStrains.get(rowStrains.size() - 1);
    }

    /** Strokes that the method reckons for it, passes not rounded up. */
    double strokesBy(double bite, double workPerArea) {
        return overRows(
                strain ->
                        Passes.needed(
                                strain, offset, k, n, thicknessMm, workPerArea, bite * thinShare));
    }

    /** Those of them that are held by the bite. */
    double strokesHeldByBite(double bite, double workPerArea) {
        return overRows(strain -> byBite(strain, bite, workPerArea) / (bite * thinShare));
    }

    Held heldBy(double bite, double workPerArea) {
        boolean bitten = rowStrains.stream().allMatch(x -> byBite(x, bite, workPerArea) >= x);
        boolean worked = rowStrains.stream().allMatch(x -> byBite(x, bite, workPerArea) <= 0);
        return bitten ? Held.BITE : worked ? Held.WORK : Held.BOTH;
    }

    /** Strain of the outermost row up to which the bite holds it. */
    double partingStrain(double bite, double workPerArea) {
        return byBite(edgeStrain(), bite, workPerArea);
    }

    /** Force per length in N/mm that the metal takes at first; with less, work always holds. */
    double firstForce() {
        return thicknessMm * thinShare * k * Math.pow(offset, n);
    }

    /** The same at the end; with more, the bite always holds. */
    double lastForce() {
        return thicknessMm * thinShare * k * Math.pow(offset + edgeStrain(), n);
    }

    private double byBite(double strain, double bite, double workPerArea) {
        return Passes.heldByBite(strain, offset, k, n, thicknessMm, workPerArea, bite * thinShare);
    }

    private double overRows(ToDoubleFunction<Double> passes) {
        return strokesPerPass * rowStrains.stream().mapToDouble(passes).sum();
    }
}
