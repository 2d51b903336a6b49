package strokewright.estimate;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Comparator;
import java.util.List;
import strokewright.estimate.Estimate.PricedPer;
import strokewright.estimate.ShopBook.PriceBreak;
import strokewright.estimate.ShopBook.Sheet;
import strokewright.quantity.Money;

/** What a sheet line asks for a kg or a sheet, by how much is bought. */
final class SheetPrice {

    private final Sheet sheet;
    private final List<PriceBreak> breaks;

    SheetPrice(Sheet sheet) {
        this.sheet = sheet;
        breaks = sheet.breaks().stream().sorted(Comparator.comparing(PriceBreak::from)).toList();
    }

    PricedPer per() {
        return sheet.pricePerSheet() == null ? PricedPer.KG : PricedPer.SHEET;
    }

    /** For all of it, at the highest break that it reaches. */
    Money at(double amount) {
        Money price = per() == PricedPer.KG ? sheet.pricePerKg() : sheet.pricePerSheet();
        for (PriceBreak line : breaks) {
            price = reaches(amount, line) ? line.price() : price;
        }
        return price;
    }

    /** Of a line without a size, or of a sheet that is cut from no more, by mass. */
    BigDecimal perKg(double kg, double sheetKg) {
        return per() == PricedPer.KG
                ? at(kg).amount()
                : at(kg / sheetKg)
                        .amount()
                        .divide(BigDecimal.valueOf(sheetKg), MathContext.DECIMAL128);
    }

    /** What one more kg or sheet may make the whole cheaper by, at the very most. */
    double mostFall() {
        double fall = 0;
        for (PriceBreak line : breaks) {
            BigDecimal before = at(line.from() * (1 - 1e-6)).amount();
            fall += before.subtract(line.price().amount()).doubleValue() * line.from();
        }
        return fall;
    }

    /** The next breaks that are not reached yet, lowest first. */
    List<PriceBreak> beyond(double amount) {
        return breaks.stream().filter(b -> !reaches(amount, b)).toList();
    }

    /** A break of 100 kg is reached by 100 kg, whatever binary fractions make of it. */
    private static boolean reaches(double amount, PriceBreak line) {
        return amount >= line.from() * (1 - 1e-9);
    }
}
