package strokewright.costing;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Arrays;
import java.util.Locale;
import java.util.function.Function;
import strokewright.quantity.Formula;

/**
 * The formulas from minutes to money, each by name. They reckon in exact decimals of 34 digits, so
 * that half a cent stays half a cent until it is rounded; money in the shop's currency.
 */
public enum CostingFormula implements Formula {
    ABSENT_HOURS(
            "(leave + public holidays + sick days) × hours a day",
            "arithmetic",
            x -> x[0].add(x[1]).add(x[2]).multiply(x[3])),
    PRESENT_HOURS("paid hours − absent hours", "arithmetic", x -> x[0].subtract(x[1])),
    PRODUCTIVE_HOURS(
            "hours present × productive share / 100",
            "arithmetic; what the share has to bear is common practice, no source",
            x -> x[0].multiply(x[1].movePointLeft(2))),
    LABOUR_PER_YEAR(
            "wage × (1 + on-costs / 100) × paid hours + other",
            "arithmetic: every paid hour costs",
            x -> x[0].multiply(onePlus(x[1])).multiply(x[2]).add(x[3])),
    PER_HOUR(
            "cost of a year / hours of a year",
            "arithmetic",
            x -> x[0].divide(x[1], MathContext.DECIMAL128)),
    RUNNING_HOURS(
            "(total − idle − under maintenance) × share used / 100",
            "VDI 3258 sheet 1",
            x -> x[0].subtract(x[1]).subtract(x[2]).multiply(x[3].movePointLeft(2))),
    REPLACEMENT_VALUE(
            "acquisition value × price index now / price index then",
            "VDI 3258 sheet 1: depreciated is what the machine would cost today",
            x -> x[0].multiply(x[1]).divide(x[2], MathContext.DECIMAL128)),
    DEPRECIATION(
            "(replacement value + scrapping cost − residual value) / years of life",
            "VDI 3258 sheet 1",
            x -> x[0].add(x[1]).subtract(x[2]).divide(x[3], MathContext.DECIMAL128)),
    INTEREST(
            "(value + residual value) / 2 × interest / 100",
            "VDI 3258 sheet 1: half of the value is tied up on average",
            x ->
                    x[0].add(x[1])
                            .multiply(x[2].movePointLeft(2))
                            .divide(BigDecimal.valueOf(2), MathContext.DECIMAL128)),
    SPACE(
            "area × price of a m² × times a year",
            "VDI 3258 sheet 1",
            x -> x[0].multiply(x[1]).multiply(x[2])),
    ENERGY(
            "power × load factor × price of a kWh",
            "VDI 3258 sheet 1",
            x -> x[0].multiply(x[1]).multiply(x[2])),
    MAINTENANCE_OVER_LIFE(
            "maintenance over the life / years of life",
            "arithmetic",
            x -> x[0].divide(x[1], MathContext.DECIMAL128)),
    MAINTENANCE_SHARE(
            "value × share a year / 100",
            "VDI 3258 sheet 1: upkeep as a share of the value",
            x -> x[0].multiply(x[1].movePointLeft(2))),
    TOOL_LIFE(
            "cost of a set of tools / hours of its life",
            "arithmetic",
            x -> x[0].divide(x[1], MathContext.DECIMAL128)),
    RATE_TO_THE_CENT(
            "rate, rounded half up to a multiple of the smallest coin",
            "arithmetic",
            x -> toStep(x[0], BigDecimal.ONE, x[1], RoundingMode.HALF_UP)),
    LIFTING_ALLOWANCE(
            "percent for the mass: up to 2.5 kg 0, 5: 1, 7.5: 2, 10: 3, 12.5: 4, 15: 5, 17.5: 7,"
                    + " 20: 9, 22.5: 11, 25: 13, 30: 17, 33.5: 22, between them in a straight line",
            "ILO, Introduction to Work Study, 3rd edition (from memory); the straight line is"
                    + " assumed",
            x -> BigDecimal.valueOf(AllowanceTable.lifted(x[0].doubleValue()))),
    ALLOWANCE_OF_SHIFT(
            "allowance / (100 + allowance) × 100",
            "Stevenson, Operations Management, equations 7-7 and 7-8: the same as a share of the"
                    + " shift",
            x ->
                    x[0].movePointRight(2)
                            .divide(x[0].add(BigDecimal.valueOf(100)), MathContext.DECIMAL128)),
    STANDARD_MINUTES(
            "normal minutes × (1 + allowance / 100)",
            "ILO, Introduction to Work Study: allowance on normal time",
            x -> x[0].multiply(onePlus(x[1]))),
    RUN_MINUTES(
            "(paced × pieces + hand-paced × sum of practice factors) × (1 + allowance / 100)",
            "unit learning curve with a fixed part: DeJong 1957, Ergonomics 1",
            x -> x[0].multiply(x[1]).add(x[2].multiply(x[3])).multiply(onePlus(x[4]))),
    PRACTICE(
            "Σ (min(N, floor) / reference)^log₂(slope) for N from made + 1 to made + pieces; inputs"
                    + " made, pieces, slope, reference, floor",
            "Wright 1936, J. Aeronaut. Sci. 3(4), in Crawford's unit form",
            x ->
                    BigDecimal.valueOf(
                            new Practice(x[2].doubleValue(), x[3].intValue(), x[4].intValue())
                                    .sum(x[0].longValue(), x[1].longValue()))),
    INSPECTED_PIECES(
            "pieces up to the lot that is checked piece by piece; above it the sample of the lot,"
                    + " and all where that is not smaller; inputs pieces, checked piece by piece up"
                    + " to, level (S-1 is 1 … III is 7), acceptance quality limit in percent",
            "ISO 2859-1, tables 1 and 2-A, single sampling, normal inspection",
            x ->
                    BigDecimal.valueOf(
                            SamplingPlan.of(
                                            x[0].intValueExact(),
                                            x[1].intValueExact(),
                                            InspectionLevel.values()[x[2].intValueExact() - 1],
                                            x[3].doubleValue())
                                    .inspected())),
    LEARNED_MINUTES(
            "minutes × learned factor", "the shop's finished jobs", x -> x[0].multiply(x[1])),
    SPARE_BLANKS(
            "1 where most strain > its limit, or t < thinnest sheet without, or irreplaceable; else"
                    + " 0; inputs most strain, limit, t, thinnest, irreplaceable (1 or 0)",
            "common practice, no source",
            x ->
                    x[0].compareTo(x[1]) > 0 || x[2].compareTo(x[3]) < 0 || x[4].signum() > 0
                            ? BigDecimal.ONE
                            : BigDecimal.ZERO),
    HOURS(
            "minutes / 60",
            "arithmetic",
            x -> x[0].divide(BigDecimal.valueOf(60), MathContext.DECIMAL128)),
    PRICED_SHARE(
            "hours that the price is made from / plan hours",
            "arithmetic",
            x -> x[0].divide(x[1], MathContext.DECIMAL128)),
    AT_PRICED_SHARE("hours or minutes × priced share", "arithmetic", x -> x[0].multiply(x[1])),
    HOURS_AT_RATE("hours × rate", "arithmetic", x -> x[0].multiply(x[1])),
    MASS_AT_PRICE(
            "mass × pieces × price per kg", "arithmetic", x -> x[0].multiply(x[1]).multiply(x[2])),
    SHEETS_AT_PRICE("sheets × price of a sheet", "arithmetic", x -> x[0].multiply(x[1])),
    WITHOUT_KEPT_OFFCUTS(
            "cost × (1 − share kept)",
            "arithmetic: what goes back to stock is not paid for",
            x -> x[0].multiply(BigDecimal.ONE.subtract(x[1]))),
    COST_OF_WORN_TOOLS(
            "cost × (pieces / life, rounded up)",
            "arithmetic: a tool is bought anew for every begun life",
            x -> x[0].multiply(x[1].divide(x[2], 0, RoundingMode.CEILING))),
    LINE_COST(
            "elapsed minutes / 60 × (people × labour rate + machine rate)",
            "arithmetic",
            x ->
                    x[0].multiply(x[1].multiply(x[2]).add(x[3]))
                            .divide(BigDecimal.valueOf(60), MathContext.DECIMAL128)),
    UP_TO_MINIMUM_CHARGE(
            "max(0, minimum charge − cost)",
            "arithmetic",
            x -> x[0].subtract(x[1]).max(BigDecimal.ZERO)),
    PERCENT_OF(
            "base × percent / 100",
            "surcharge calculation",
            x -> x[0].multiply(x[1].movePointLeft(2))),
    SHARE_OF_PRICE_AFTER(
            "base / (1 − all shares / 100) × share / 100, taken as a share of the price after it",
            "surcharge calculation, reckoned in the hundred",
            x ->
                    x[0].divide(
                                    BigDecimal.ONE.subtract(x[1].movePointLeft(2)),
                                    MathContext.DECIMAL128)
                            .multiply(x[2].movePointLeft(2))),
    PRICE_EACH(
            "price / pieces, rounded half up to a multiple of the step",
            "arithmetic",
            x -> toStep(x[0], x[1], x[2], RoundingMode.HALF_UP)),
    PRICE_EACH_OF_MINIMUM(
            "minimum order / pieces, rounded up to a multiple of the step",
            "arithmetic",
            x -> toStep(x[0], x[1], x[2], RoundingMode.UP)),
    MULTIPLE("price each × pieces", "arithmetic", x -> x[0].multiply(x[1])),
    LESS(
            "first input − sum of the others",
            "arithmetic",
            x ->
                    x[0].add(x[0])
                            .subtract(Arrays.stream(x).reduce(BigDecimal.ZERO, BigDecimal::add))),
    AFTER_DISCOUNTS(
            "offer × (1 − trade discount / 100) × (1 − (settlement discount + commission) / 100)",
            "surcharge calculation, read backward",
            x ->
                    x[0].multiply(BigDecimal.ONE.subtract(x[1].movePointLeft(2)))
                            .multiply(BigDecimal.ONE.subtract(x[2].add(x[3]).movePointLeft(2)))),
    BEFORE_SURCHARGE(
            "amount / (1 + percent / 100)",
            "surcharge calculation, read backward",
            x -> x[0].divide(onePlus(x[1]), MathContext.DECIMAL128)),
    PERCENT_OF_WHOLE(
            "part / whole × 100",
            "arithmetic",
            x -> x[0].movePointRight(2).divide(x[1], MathContext.DECIMAL128)),
    SHARE_OF_HOURS(
            "max(0, (manufacturing cost − without hours) / cost of planned hours), at most the"
                    + " share at which one line more would be over its minimum charge",
            "surcharge calculation, read backward",
            CostingFormula::shareOfHours),
    RATE_VARIANCE(
            "(actual rate − planned rate) × actual hours",
            "standard costing, labour rate variance; over is positive",
            x -> x[0].subtract(x[1]).multiply(x[2])),
    EFFICIENCY_VARIANCE(
            "(actual hours − planned hours) × planned rate",
            "standard costing, labour efficiency variance; over is positive",
            x -> x[0].subtract(x[1]).multiply(x[2])),
    PRICE_VARIANCE(
            "(actual price − planned price) × actual amount",
            "standard costing, material price variance; over is positive",
            x -> x[0].subtract(x[1]).multiply(x[2])),
    USAGE_VARIANCE(
            "(actual amount − planned amount) × planned price",
            "standard costing, material usage variance; over is positive",
            x -> x[0].subtract(x[1]).multiply(x[2])),
    VARIABLE_OVERHEAD_SPENDING(
            "(actual rate − planned rate) × actual hours",
            "standard costing, variable overhead; over is positive",
            x -> x[0].subtract(x[1]).multiply(x[2])),
    VARIABLE_OVERHEAD_EFFICIENCY(
            "(actual hours − planned hours) × planned rate",
            "standard costing, variable overhead; over is positive",
            x -> x[0].subtract(x[1]).multiply(x[2])),
    FIXED_OVERHEAD_SPENDING(
            "actual − budget",
            "standard costing, fixed overhead; over is positive",
            x -> x[0].subtract(x[1])),
    FIXED_OVERHEAD_CAPACITY(
            "(budgeted hours − actual hours) × rate",
            "standard costing, fixed overhead; over is positive",
            x -> x[0].subtract(x[1]).multiply(x[2])),
    FIXED_OVERHEAD_EFFICIENCY(
            "(actual hours − planned hours) × rate",
            "standard costing, fixed overhead; over is positive",
            x -> x[0].subtract(x[1]).multiply(x[2])),
    FIXED_OVERHEAD_VOLUME(
            "capacity + efficiency, which is (budgeted hours − planned hours) × rate",
            "standard costing, fixed overhead; over is positive",
            x -> x[0].add(x[1])),
    COST_OVER("actual − planned", "arithmetic; over is positive", x -> x[0].subtract(x[1])),
    MORE_OR_FEWER_PIECES(
            "planned minutes of the quantity made − of the quantity ordered",
            "split by cause: each step changes one thing; over is positive",
            x -> x[0].subtract(x[1])),
    MORE_PASSES(
            "made × (passes each, actual − planned) × planned minutes of a pass",
            "split by cause: each step changes one thing; over is positive",
            x -> x[0].multiply(x[1].subtract(x[2])).multiply(x[3])),
    LONGER_PASSES(
            "made × passes each, actual × (minutes of a pass, actual − planned)",
            "split by cause: each step changes one thing; over is positive",
            x -> x[0].multiply(x[1]).multiply(x[2].subtract(x[3]))),
    MORE_CHECKS(
            "made × (checks each, actual − planned) × minutes of a check",
            "split by cause: each step changes one thing; over is positive",
            x -> x[0].multiply(x[1].subtract(x[2])).multiply(x[3])),
    MINUTES_OF_A_PASS(
            "(minutes of an item at work − checks each × minutes of a check) / passes each",
            "arithmetic: what the clock says, less the checks",
            x -> x[0].subtract(x[1].multiply(x[2])).divide(x[3], MathContext.DECIMAL128)),
    LOG_RATIO(
            "ln(actual / planned)",
            "arithmetic: ratios of causes multiply, so their logarithms add up",
            x ->
                    BigDecimal.valueOf(
                            Math.log(x[0].divide(x[1], MathContext.DECIMAL128).doubleValue())));

    private final String text;
    private final String source;
    private final Function<BigDecimal[], BigDecimal> function;

    CostingFormula(String text, String source, Function<BigDecimal[], BigDecimal> function) {
        this.text = text;
        this.source = source;
        this.function = function;
    }

    public BigDecimal exact(BigDecimal... inputs) {
        return function.apply(inputs).round(MathContext.DECIMAL128);
    }

    @Override
    public String code() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    @Override
    public String text() {
        return text;
    }

    @Override
    public String source() {
        return source;
    }

    @Override
    public double apply(double... inputs) {
        BigDecimal[] decimals = new BigDecimal[inputs.length];
        for (int i = 0; i < inputs.length; i++) {
            decimals[i] = BigDecimal.valueOf(inputs[i]);
        }
        return exact(decimals).doubleValue();
    }

    private static BigDecimal onePlus(BigDecimal percent) {
        return BigDecimal.ONE.add(percent.movePointLeft(2));
    }

    /** What stays comes first, then what scales, then the bound where there is one. */
    private static BigDecimal shareOfHours(BigDecimal[] x) {
        BigDecimal room = x[0].subtract(x[1]);
        if (room.signum() < 0) {
            return BigDecimal.ZERO;
        }
        if (x[2].signum() == 0) {
            return x[3];
        }
        BigDecimal share = room.divide(x[2], MathContext.DECIMAL128);
        return x.length > 3 ? share.min(x[3]) : share;
    }

    private static BigDecimal toStep(
            BigDecimal price, BigDecimal pieces, BigDecimal step, RoundingMode mode) {
        BigDecimal each = price.divide(pieces, MathContext.DECIMAL128);
        return each.divide(step, 0, mode).multiply(step);
    }
}
