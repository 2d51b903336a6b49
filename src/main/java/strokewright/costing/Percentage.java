package strokewright.costing;

import java.util.Arrays;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;

/** The percentages of a price scheme, in the order in which they are taken. */
public enum Percentage {
    MATERIAL_OVERHEAD(
            "materialOverhead",
            "Material overhead",
            "of material",
            1000,
            true,
            PriceScheme::materialOverheadPercent),
    PRODUCTION_OVERHEAD(
            "productionOverhead",
            "Production overhead",
            "of labour",
            1000,
            false,
            PriceScheme::productionOverheadPercent),
    ADMINISTRATION(
            "administration",
            "Administration",
            "of manufacturing cost",
            500,
            false,
            PriceScheme::administrationPercent),
    SALES("sales", "Sales", "of manufacturing cost", 500, false, PriceScheme::salesPercent),
    PROFIT("profit", "Profit", "of total cost", 500, true, PriceScheme::profitPercent),
    URGENCY(
            "urgency",
            "Urgency",
            "of total cost and profit",
            500,
            true,
            PriceScheme::urgencyPercent),
    SETTLEMENT_DISCOUNT(
            "settlementDiscount",
            "Settlement discount",
            "of the price before trade discount",
            90,
            false,
            PriceScheme::settlementDiscountPercent),
    COMMISSION(
            "commission",
            "Commission",
            "of the price before trade discount",
            90,
            false,
            PriceScheme::commissionPercent),
    TRADE_DISCOUNT(
            "tradeDiscount",
            "Trade discount",
            "of the list price",
            90,
            false,
            PriceScheme::tradeDiscountPercent),
    TAX("tax", "Tax", "of the offer", 100, true, PriceScheme::taxPercent);

    private final String figure;

    private final String base;

    private final int most;

    private final boolean alsoSimple;

    private final String label;
    private final ToDoubleFunction<PriceScheme> stated;

    Percentage(
            String figure,
            String label,
            String base,
            int most,
            boolean alsoSimple,
            ToDoubleFunction<PriceScheme> stated) {
        this.figure = figure;
        this.label = label;
        this.base = base;
        this.most = most;
        this.alsoSimple = alsoSimple;
        this.stated = stated;
    }

    /** Its name in the estimate. */
    public String figure() {
        return figure;
    }

    /** What it is taken of, in words. */
    public String base() {
        return base;
    }

    /** As much as a shop book allows. */
    public int most() {
        return most;
    }

    /** The simple scheme has it too. */
    public boolean isAlsoSimple() {
        return alsoSimple;
    }

    public double of(PriceScheme scheme) {
        return stated.applyAsDouble(scheme);
    }

    public String label(boolean surcharge) {
        return this == MATERIAL_OVERHEAD && !surcharge ? "Mark-up on material" : label;
    }

    /** Its name in JSON. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** By its name in JSON. */
    public static Percentage of(String word) {
        return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
    }

    /** Those that the price before tax is made with. */
    public static Stream<Percentage> beforeTax(boolean surcharge) {
        return Arrays.stream(values()).filter(p -> p != TAX && (surcharge || p.alsoSimple));
    }

    /** The scheme with this one stated otherwise. */
    public PriceScheme in(PriceScheme scheme, double value) {
        return new PriceScheme(
                scheme.kind(),
                scheme.priceFrom(),
                MATERIAL_OVERHEAD.unless(this, scheme, value),
                PRODUCTION_OVERHEAD.unless(this, scheme, value),
                ADMINISTRATION.unless(this, scheme, value),
                SALES.unless(this, scheme, value),
                PROFIT.unless(this, scheme, value),
                SETTLEMENT_DISCOUNT.unless(this, scheme, value),
                COMMISSION.unless(this, scheme, value),
                TRADE_DISCOUNT.unless(this, scheme, value),
                TAX.unless(this, scheme, value),
                scheme.roundEachTo(),
                scheme.minimumOrder(),
                URGENCY.unless(this, scheme, value),
                scheme.boughtOutHandlingPercent());
    }

    private double unless(Percentage changed, PriceScheme scheme, double value) {
        return this == changed ? value : of(scheme);
    }
}
