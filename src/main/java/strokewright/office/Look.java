package strokewright.office;

import java.util.Currency;

/**
 * How a cell looks and whether it may be typed into.
 *
 * @param format number format in the file format's own words; "@" keeps text as text
 * @param input to be changed by the reader: tinted, and not locked
 * @param size in points
 */
public record Look(
        String format,
        boolean bold,
        boolean quiet,
        boolean input,
        boolean wrap,
        Align align,
        Rule rule,
        int size) {

    /** Where the content stands in its cell; numbers to the right, text to the left by nature. */
    public enum Align {
        BY_NATURE,
        LEFT,
        RIGHT
    }

    /** A thin line at the edge of a cell. */
    public enum Rule {
        NONE,
        ABOVE,
        BELOW,
        /** One above, as over a sum, and one below. */
        BOTH
    }

    public static final Look PLAIN =
            new Look("General", false, false, false, false, Align.BY_NATURE, Rule.NONE, 10);

    /** Text that wraps within its column. */
    public static final Look PROSE = PLAIN.wrapped();

    /** Over a table's columns. */
    public static final Look HEAD = PLAIN.inBold().wrapped().ruled(Rule.BELOW);

    public static final Look DATE = PLAIN.formatted("yyyy-mm-dd").aligned(Align.LEFT);

    /** An amount with as many decimals as the currency has minor digits. */
    public static Look money(Currency currency) {
        return number(Math.max(0, currency.getDefaultFractionDigits()));
    }

    /** A number with thousands apart and exactly so many decimals. */
    public static Look number(int decimals) {
        return PLAIN.formatted(decimals == 0 ? "#,##0" : "#,##0." + "0".repeat(decimals));
    }

    public Look formatted(String numberFormat) {
        return new Look(numberFormat, bold, quiet, input, wrap, align, rule, size);
    }

    public Look inBold() {
        return new Look(format, true, quiet, input, wrap, align, rule, size);
    }

    /** In grey, for what is said beside the figures. */
    public Look quietly() {
        return new Look(format, bold, true, input, wrap, align, rule, size);
    }

    public Look asInput() {
        return new Look(format, bold, quiet, true, wrap, align, rule, size);
    }

    public Look wrapped() {
        return new Look(format, bold, quiet, input, true, align, rule, size);
    }

    public Look aligned(Align where) {
        return new Look(format, bold, quiet, input, wrap, where, rule, size);
    }

    public Look ruled(Rule line) {
        return new Look(format, bold, quiet, input, wrap, align, line, size);
    }

    public Look sized(int points) {
        return new Look(format, bold, quiet, input, wrap, align, rule, points);
    }
}
