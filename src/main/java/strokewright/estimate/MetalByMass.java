package strokewright.estimate;

import static strokewright.costing.CostingFormula.MASS_AT_PRICE;
import static strokewright.quantity.Why.Input.computed;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import java.util.Objects;
import java.util.function.ToIntFunction;
import strokewright.estimate.Estimate.MetalUsed;
import strokewright.estimate.Estimate.PricedPer;
import strokewright.estimate.ShopBook.Sheet;
import strokewright.estimate.TakeOff.Part;
import strokewright.quantity.Money;
import strokewright.quantity.Why.Input;
import strokewright.sheet.Mass;

/** Parts of one grade and thickness whose metal is paid for by the mass of their blanks. */
final class MetalByMass {

    private final ShopBook book;
    private final Sheet sheet;
    private final SheetPrice price;
    private final List<Part> parts = new ArrayList<>();

    MetalByMass(ShopBook book, Sheet sheet) {
        this.book = book;
        this.sheet = sheet;
        price = new SheetPrice(sheet);
    }

    void add(Part part) {
        parts.add(part);
    }

    private double kg(ToIntFunction<Part> blanks) {
        double kg = 0;
        for (Part part : parts) {
            kg += Bench.blankMassKg(book, part) * blanks.applyAsInt(part);
        }
        return kg;
    }

    BigDecimal cost(ToIntFunction<Part> blanks) {
        BigDecimal perKg = price.perKg(kg(blanks), sheetKg());
        BigDecimal cost = BigDecimal.ZERO;
        for (Part part : parts) {
            cost = cost.add(cost(part, blanks.applyAsInt(part), perKg));
        }
        return cost;
    }

    private BigDecimal cost(Part part, int pieces, BigDecimal perKg) {
        return MASS_AT_PRICE.exact(
                BigDecimal.valueOf(Bench.blankMassKg(book, part)),
                BigDecimal.valueOf(pieces),
                perKg);
    }

    /** What more blanks may make the whole cheaper by, at the very most. */
    double mostFall() {
        return price.mostFall();
    }

    void buy(ToIntFunction<Part> blanks, Bought bought) {
        double kg = kg(blanks);
        BigDecimal perKg = price.perKg(kg, sheetKg());
        BigDecimal cost = BigDecimal.ZERO;
        for (Part part : parts) {
            cost = cost.add(buy(part, blanks.applyAsInt(part), perKg, bought));
        }
        Part first = parts.get(0);
        Currency currency = Objects.requireNonNull(book.currency());
        bought.add(
                new MetalUsed(
                        first.grade(),
                        first.thicknessMm(),
                        null,
                        null,
                        null,
                        null,
                        kg,
                        Money.rounded(cost, currency),
                        sheet.pricePerSheet() == null
                                ? new Money(perKg, currency)
                                : Money.rounded(perKg, currency),
                        PricedPer.KG,
                        null,
                        null,
                        List.of(),
                        List.of()));
    }

    private BigDecimal buy(Part part, int pieces, BigDecimal perKg, Bought bought) {
        double mass = Bench.blankMassKg(book, part);
        BigDecimal cost = cost(part, pieces, perKg);
        bought.working()
                .note(
                        part.name() + ".material",
                        MASS_AT_PRICE,
                        cost.doubleValue(),
                        computed("mass", mass, "kg"),
                        computed("pieces", pieces, ""),
                        new Input(
                                "price per kg",
                                perKg.doubleValue(),
                                "",
                                Bench.origin(book, sheet.origin())));
        bought.add(part.name(), cost);
        return cost;
    }

    /** 1 where the line is priced by kg: then nothing asks for it. */
    private double sheetKg() {
        Part part = parts.get(0);
        return sheet.lengthMm() == null
                ? 1
                : Mass.kg(
                        sheet.lengthMm() * sheet.widthMm(),
                        part.thicknessMm(),
                        book.grade(part.grade()).orElseThrow().densityKgM3());
    }
}
