package strokewright.takeoff;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimate.MetalUsed;
import strokewright.estimate.Estimate.PricedPer;
import strokewright.takeoff.TakeOffView.Figure;
import strokewright.web.Numbers;

/**
 * What is bought of sheet for one quantity, and how it is cut.
 *
 * @param id unique on its page
 * @param pictures of the patterns that are cut most
 * @param more pictures of the others, shown on demand
 */
public record NestView(
        String id, int quantity, List<Row> rows, List<String> pictures, List<String> more) {

    private static final int SHOWN = 2;

    /** More patterns than these tell nothing by their pictures. */
    private static final int MOST = 12;

    /**
     * One metal.
     *
     * @param notes on the count, on offcuts and on other sizes
     */
    record Row(String metal, List<Figure> figures, List<String> notes) {}

    /** Null where nothing is bought of sheet. */
    public static @Nullable NestView of(Estimate.ForQuantity quantity, String id, Numbers numbers) {
        if (quantity.metal().isEmpty()) {
            return null;
        }
        NestPicture picture = new NestPicture(numbers);
        List<String> pictures = new ArrayList<>();
        List<Row> rows = new ArrayList<>();
        for (MetalUsed metal : quantity.metal()) {
            rows.add(row(metal, numbers));
            for (int p = 0; p < metal.patterns().size() && pictures.size() < MOST; p++) {
                String picturesId = id + "-" + rows.size() + "-" + p;
                pictures.add(picture.of(metal, metal.patterns().get(p), picturesId));
            }
        }
        int shown = Math.min(SHOWN, pictures.size());
        return new NestView(
                id,
                quantity.quantity(),
                rows,
                pictures.subList(0, shown),
                pictures.subList(shown, pictures.size()));
    }

    static Row row(MetalUsed metal, Numbers numbers) {
        List<Figure> figures = new ArrayList<>();
        if (metal.sheets() != null) {
            figures.add(
                    new Figure(
                            metal.sheets() == 1 ? "sheet" : "sheets",
                            numbers.show(metal.sheets())
                                    + " of "
                                    + size(metal.sheetLengthMm(), metal.sheetWidthMm(), numbers),
                            "mm"));
        }
        if (metal.yieldPercent() != null) {
            figures.add(new Figure("yield", numbers.show(metal.yieldPercent(), 1), "%"));
        }
        figures.add(
                new Figure(
                        metal.sheets() == null ? "by mass" : "bought",
                        numbers.show(metal.kg(), 1),
                        "kg"));
        if (metal.price() != null) {
            String per = metal.per() == PricedPer.SHEET ? "a sheet" : "a kg";
            figures.add(new Figure("at", numbers.show(metal.price()), per));
        }
        figures.add(new Figure("cost", numbers.show(metal.cost()), ""));
        return new Row(
                metal.grade() + ", " + numbers.show(metal.thicknessMm()) + "\u00a0mm",
                figures,
                notes(metal, numbers));
    }

    private static List<String> notes(MetalUsed metal, Numbers numbers) {
        List<String> notes = new ArrayList<>();
        if (metal.sheets() != null && metal.leastSheets() != null) {
            notes.add(
                    metal.sheets().equals(metal.leastSheets())
                            ? "No way of cutting edge to edge takes fewer."
                            : "At least " + numbers.show(metal.leastSheets()) + " in any case.");
        }
        if (metal.keptKg() != null) {
            notes.add(
                    metal.keptKg() > 0
                            ? "Offcuts kept: "
                                    + numbers.show(metal.keptKg(), 1)
                                    + "\u00a0kg, not paid for."
                            : "No offcut is of a size to keep.");
        }
        for (Estimate.OtherSheet other : metal.others()) {
            notes.add(
                    "Of "
                            + size(other.lengthMm(), other.widthMm(), numbers)
                            + ": "
                            + numbers.show(other.sheets())
                            + " for "
                            + numbers.show(other.cost())
                            + ".");
        }
        return notes;
    }

    private static String size(double length, double width, Numbers numbers) {
        return numbers.show(length) + " × " + numbers.show(width);
    }
}
