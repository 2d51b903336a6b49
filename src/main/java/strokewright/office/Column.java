package strokewright.office;

/**
 * A column of a table to be written.
 *
 * @param format number format in the workbook's own words
 * @param width in characters
 */
public record Column(String head, boolean figure, String format, int width) {

    /** Text, marked as text so that a spreadsheet program keeps leading noughts and {@code 1/2}. */
    public static Column text(String head, int width) {
        return new Column(head, false, "@", width);
    }

    /** A number shown with as many decimals as it has, at most so many. */
    public static Column number(String head, int mostDecimals, int width) {
        return new Column(
                head, true, mostDecimals == 0 ? "0" : "0." + "#".repeat(mostDecimals), width);
    }

    /** An amount, thousands apart, with so many decimals at least. */
    public static Column money(String head, int decimals, int width) {
        String places = "0".repeat(decimals) + "#".repeat(Math.max(0, 4 - decimals));
        return new Column(head, true, "#,##0" + (places.isEmpty() ? "" : "." + places), width);
    }

    public static Column day(String head) {
        return new Column(head, false, "yyyy-mm-dd", 11);
    }

    /** "yes" or "no", as text. */
    public static Column yesNo(String head) {
        return new Column(head, false, "@", Math.max(6, head.length() + 2));
    }
}
