package strokewright.estimate;

import static strokewright.costing.CostingFormula.MASS_AT_PRICE;
import static strokewright.costing.CostingFormula.SHEETS_AT_PRICE;
import static strokewright.costing.CostingFormula.WITHOUT_KEPT_OFFCUTS;
import static strokewright.quantity.Why.Input.computed;
import static strokewright.quantity.Why.Input.drawing;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.ToIntFunction;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate.MetalUsed;
import strokewright.estimate.Estimate.OtherSheet;
import strokewright.estimate.Estimate.PricedPer;
import strokewright.estimate.ShopBook.PriceBreak;
import strokewright.estimate.ShopBook.Sheet;
import strokewright.estimate.TakeOff.Grain;
import strokewright.estimate.TakeOff.Part;
import strokewright.quantity.Arithmetic;
import strokewright.quantity.Money;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;
import strokewright.sheet.Mass;
import strokewright.sheet.Nest;
import strokewright.sheet.Nesting;
import strokewright.sheet.SheetFormula;
import strokewright.sheet.StockSheet;

/** Parts of one grade and thickness that are cut from the same stock sheets. */
final class MetalBySheet {

    private final ShopBook book;
    private final List<Part> parts;
    private final double densityKgM3;
    private final List<Size> sizes;

    /**
     * @param sheets stock sizes, each of which holds every one of the blanks
     */
    MetalBySheet(ShopBook book, List<Part> parts, List<Sheet> sheets) {
        this.book = book;
        this.parts = parts;
        densityKgM3 = book.grade(parts.get(0).grade()).orElseThrow().densityKgM3();
        sizes = sheets.stream().map(Size::new).toList();
    }

    static boolean fits(Part part, Sheet sheet, ShopBook book) {
        return Nesting.of(List.of(named(part.name(), part)), stock(sheet, book.cutting()))
                .tooLarge()
                .isEmpty();
    }

    private static Nesting.Blank named(String name, Part part) {
        return new Nesting.Blank(
                name,
                part.blank().lengthMm(),
                part.blank().widthMm(),
                0,
                part.grain() == Grain.FREE);
    }

    private static StockSheet stock(Sheet sheet, Cutting cutting) {
        return new StockSheet(
                sheet.lengthMm(),
                sheet.widthMm(),
                cutting.kerfMm(),
                cutting.edgeMarginMm(),
                cutting.keptFromMm());
    }

    void buy(ToIntFunction<Part> blanks, Bought bought) {
        int[] counts = counts(blanks);
        List<Purchase> purchases = purchases(counts);
        Purchase best = cheapest(purchases);
        Nest nest = best.size.nesting.nest(counts);
        double yieldPercent = best.writeDown(bought.working(), nest, counts);
        bought.add(metal(), best.cost);
        best.size.cheaperAtBreak(best, bought);
        bought.add(used(best, nest, yieldPercent, purchases));
    }

    BigDecimal cost(ToIntFunction<Part> blanks) {
        return cheapest(purchases(counts(blanks))).cost;
    }

    /** What more blanks may make the whole cheaper by, at the very most. */
    double mostFall() {
        return sizes.stream().mapToDouble(Size::mostFall).max().orElseThrow();
    }

    private int[] counts(ToIntFunction<Part> blanks) {
        return parts.stream().mapToInt(blanks).toArray();
    }

    private List<Purchase> purchases(int[] counts) {
        return sizes.stream().map(s -> s.purchase(counts)).toList();
    }

    /** The size whose metal costs least; of equals the one that the shop book has first. */
    private static Purchase cheapest(List<Purchase> purchases) {
        Purchase best = purchases.get(0);
        for (Purchase purchase : purchases) {
            best = purchase.cost.compareTo(best.cost) < 0 ? purchase : best;
        }
        return best;
    }

    private String metal() {
        return parts.get(0).grade() + " " + plain(parts.get(0).thicknessMm()) + " mm";
    }

    private MetalUsed used(Purchase best, Nest nest, double yieldPercent, List<Purchase> all) {
        Currency currency = currency();
        List<OtherSheet> others = new ArrayList<>();
        for (Purchase other : all) {
            if (other != best) {
                others.add(
                        new OtherSheet(
                                other.size.sheet.lengthMm(),
                                other.size.sheet.widthMm(),
                                Math.toIntExact(other.sheets),
                                Money.rounded(other.cost, currency)));
            }
        }
        return new MetalUsed(
                parts.get(0).grade(),
                parts.get(0).thicknessMm(),
                best.size.sheet.lengthMm(),
                best.size.sheet.widthMm(),
                Math.toIntExact(best.sheets),
                yieldPercent,
                best.kg(),
                Money.rounded(best.cost, currency),
                best.price,
                best.size.price.per(),
                keepsOffcuts() ? best.keptShare() * best.kg() : null,
                Math.toIntExact(nest.leastSheets()),
                nest.patterns(),
                others);
    }

    private boolean keepsOffcuts() {
        return book.cutting().offcuts() == Cutting.Offcuts.KEPT;
    }

    /** One stock size with what was nested on it. */
    private final class Size {
        final Sheet sheet;
        final SheetPrice price;
        final double sheetKg;
        private final Nesting.OnSheet nesting;

        Size(Sheet sheet) {
            this.sheet = sheet;
            price = new SheetPrice(sheet);
            sheetKg =
                    Mass.kg(
                            sheet.lengthMm() * sheet.widthMm(),
                            parts.get(0).thicknessMm(),
                            densityKgM3);
            nesting =
                    new Nesting.OnSheet(
                            IntStream.range(0, parts.size()).mapToObj(i -> numbered(i)).toList(),
                            stock(sheet, book.cutting()));
        }

        /** Parts of one name stay apart in the nest. */
        private Nesting.Blank numbered(int part) {
            Part of = parts.get(part);
            long before =
                    parts.subList(0, part).stream().filter(p -> p.name().equals(of.name())).count();
            return named(before == 0 ? of.name() : of.name() + " (" + (before + 1) + ")", of);
        }

        Purchase purchase(int[] counts) {
            long sheets = nesting.sheets(counts);
            Nest nest = keepsOffcuts() ? nesting.nest(counts) : null;
            double amount = price.per() == PricedPer.KG ? sheets * sheetKg : sheets;
            return new Purchase(this, sheets, nest, price.at(amount));
        }

        /** By a price break; and where the nest is not exact, by sheets or offcuts. */
        double mostFall() {
            boolean exact = parts.size() == 1 && !keepsOffcuts();
            double sheet = cost(1, price.at(0)).doubleValue();
            return price.mostFall() + (exact ? 0 : (1 + parts.size()) * sheet);
        }

        BigDecimal cost(long sheets, Money price) {
            return this.price.per() == PricedPer.KG
                    ? MASS_AT_PRICE.exact(
                            BigDecimal.valueOf(sheetKg), BigDecimal.valueOf(sheets), price.amount())
                    : SHEETS_AT_PRICE.exact(BigDecimal.valueOf(sheets), price.amount());
        }

        /** Told once, for the break that makes it cheapest. */
        void cheaperAtBreak(Purchase bought, Bought to) {
            long sheets = bought.sheets;
            double amount = price.per() == PricedPer.KG ? bought.kg() : sheets;
            BigDecimal least = cost(sheets, bought.price);
            Map<String, Object> values = null;
            for (PriceBreak line : price.beyond(amount)) {
                long needed =
                        (long)
                                Math.ceil(
                                        price.per() == PricedPer.KG
                                                ? line.from() / sheetKg * (1 - 1e-9)
                                                : line.from());
                BigDecimal there = cost(needed, line.price());
                if (there.compareTo(least) < 0) {
                    values = new LinkedHashMap<>();
                    values.put("grade", parts.get(0).grade());
                    values.put("thicknessMm", parts.get(0).thicknessMm());
                    values.put("sheets", sheets);
                    values.put("sheetsAtBreak", needed);
                    values.put("cost", rounded(cost(sheets, bought.price)));
                    values.put("costAtBreak", rounded(there));
                    values.put("currency", currency().getCurrencyCode());
                    least = there;
                }
            }
            if (values != null) {
                to.cheaperAtBreak(values);
            }
        }
    }

    private BigDecimal rounded(BigDecimal amount) {
        return Money.rounded(amount, currency()).amount();
    }

    private Currency currency() {
        return Objects.requireNonNull(book.currency());
    }

    /** So many sheets of one size at their price. */
    private final class Purchase {
        final Size size;
        final long sheets;
        final @Nullable Nest kept;
        final Money price;
        final BigDecimal whole;
        final BigDecimal cost;

        /**
         * @param kept the nest, where its offcuts are kept
         */
        Purchase(Size size, long sheets, @Nullable Nest kept, Money price) {
            this.size = size;
            this.sheets = sheets;
            this.kept = kept;
            this.price = price;
            whole = size.cost(sheets, price);
            cost =
                    kept != null
                            ? WITHOUT_KEPT_OFFCUTS.exact(whole, BigDecimal.valueOf(keptShare()))
                            : whole;
        }

        double kg() {
            return sheets * size.sheetKg;
        }

        double keptShare() {
            return SheetFormula.KEPT_SHARE.apply(
                    Objects.requireNonNull(kept).keptAreaMm2(),
                    sheets,
                    size.sheet.lengthMm(),
                    size.sheet.widthMm());
        }

        /** Gives the yield in percent. */
        double writeDown(Working working, Nest nest, int[] counts) {
            String name = metal() + "/sheet.";
            String origin = Bench.origin(book, size.sheet.origin());
            Input length = new Input("sheet length", size.sheet.lengthMm(), "mm", origin);
            Input width = new Input("sheet width", size.sheet.widthMm(), "mm", origin);
            Input sheets =
                    computed(
                            "sheets",
                            working.figure(name + "sheets", Arithmetic.SUM, patterns(nest)),
                            "");
            double blankArea =
                    working.figure(
                            name + "blankAreaMm2", SheetFormula.BLANK_AREA, blankInputs(counts));
            double yieldPercent =
                    working.figure(
                            name + "yieldPercent",
                            SheetFormula.SHEET_YIELD,
                            computed("area of blanks", blankArea, "mm²"),
                            sheets,
                            length,
                            width);
            double mass =
                    working.figure(
                            name + "sheetKg",
                            SheetFormula.SHEET_MASS,
                            length,
                            width,
                            parts.get(0).thickness("thickness"),
                            new Input("density", densityKgM3, "kg/m³", Bench.origin(book, null)));
            working.figure(
                    name + "boughtKg",
                    SheetFormula.BOUGHT_KG,
                    sheets,
                    computed("mass of a sheet", mass, "kg"));
            Input priceOfIt =
                    new Input(
                            size.price.per() == PricedPer.KG ? "price per kg" : "price of a sheet",
                            price.amount().doubleValue(),
                            "",
                            origin);
            if (size.price.per() == PricedPer.KG) {
                working.note(
                        name + (keepsOffcuts() ? "bought" : "material"),
                        MASS_AT_PRICE,
                        whole.doubleValue(),
                        computed("mass of a sheet", mass, "kg"),
                        sheets,
                        priceOfIt);
            } else {
                working.note(
                        name + (keepsOffcuts() ? "bought" : "material"),
                        SHEETS_AT_PRICE,
                        whole.doubleValue(),
                        sheets,
                        priceOfIt);
            }
            if (keepsOffcuts()) {
                double share =
                        working.figure(
                                name + "keptShare",
                                SheetFormula.KEPT_SHARE,
                                computed("area of kept offcuts", nest.keptAreaMm2(), "mm²"),
                                sheets,
                                length,
                                width);
                working.note(
                        name + "material",
                        WITHOUT_KEPT_OFFCUTS,
                        cost.doubleValue(),
                        computed("cost", whole.doubleValue(), ""),
                        computed("share kept", share, ""));
            }
            return yieldPercent;
        }

        private Input[] patterns(Nest nest) {
            return nest.patterns().stream()
                    .map(p -> computed("sheets cut to a pattern", p.times(), ""))
                    .toArray(Input[]::new);
        }

        private Input[] blankInputs(int[] counts) {
            List<Input> inputs = new ArrayList<>();
            for (int i = 0; i < counts.length; i++) {
                inputs.add(computed("blanks of " + parts.get(i).name(), counts[i], ""));
                inputs.add(drawing("length", parts.get(i).blank().lengthMm(), "mm"));
                double width = parts.get(i).blank().widthMm();
                inputs.add(
                        Folding.isDeveloped(parts.get(i), book)
                                ? computed("width", width, "mm")
                                : drawing("width", width, "mm"));
            }
            return inputs.toArray(Input[]::new);
        }
    }

    private static String plain(double mm) {
        return BigDecimal.valueOf(mm).stripTrailingZeros().toPlainString();
    }
}
