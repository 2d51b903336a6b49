package strokewright.exchange;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import strokewright.office.Column;

/**
 * A column that a file may have, found by its name wherever it stands.
 *
 * @param name without its unit, as it is written over the column
 * @param also other names that are understood
 * @param unit written behind the name in brackets; empty for none
 * @param needed whether a file without it makes no sense
 * @param hint what stands in it, for whoever fills it in
 */
public record FileColumn(
        String name,
        List<String> also,
        String unit,
        Kind kind,
        boolean needed,
        String hint,
        Column look) {

    /** How its cells are read. */
    public enum Kind {
        TEXT,
        /** Text that may have lines. */
        PROSE,
        /** A number; the file's decimal mark counts. */
        NUMBER,
        /** A number of mm that may be typed with another unit, or its column headed by one. */
        LENGTH,
        /** An amount in {@code unit}, which begins with the code of the currency. */
        MONEY,
        YES_NO,
        /** A day, read as 2026-03-31. */
        DATE,
        /** A number, or hours and minutes as 1:30. */
        DURATION
    }

    public static FileColumn text(String name, int width, String hint) {
        return new FileColumn(
                name, List.of(), "", Kind.TEXT, false, hint, Column.text(name, width));
    }

    public static FileColumn prose(String name, int width, String hint) {
        return new FileColumn(
                name, List.of(), "", Kind.PROSE, false, hint, Column.text(name, width));
    }

    public static FileColumn number(String name, String unit, String hint) {
        return figure(name, unit, Kind.NUMBER, hint);
    }

    public static FileColumn length(String name, String hint) {
        return figure(name, "mm", Kind.LENGTH, hint);
    }

    private static FileColumn figure(String name, String unit, Kind kind, String hint) {
        String head = head(name, unit);
        return new FileColumn(
                name,
                List.of(),
                unit,
                kind,
                false,
                hint,
                Column.number(head, 6, Math.max(9, Math.min(14, head.length()))));
    }

    /**
     * @param decimals that the currency has
     */
    public static FileColumn money(String name, String unit, int decimals, String hint) {
        String head = head(name, unit);
        return new FileColumn(
                name, List.of(), unit, Kind.MONEY, false, hint, Column.money(head, decimals, 12));
    }

    public static FileColumn yesNo(String name, String hint) {
        return new FileColumn(name, List.of(), "", Kind.YES_NO, false, hint, Column.yesNo(name));
    }

    public static FileColumn date(String name, String hint) {
        return new FileColumn(name, List.of(), "", Kind.DATE, false, hint, Column.text(name, 12));
    }

    public static FileColumn duration(String name, String unit, String hint) {
        return figure(name, unit, Kind.DURATION, hint);
    }

    public FileColumn alsoCalled(String... names) {
        return new FileColumn(name, List.of(names), unit, kind, needed, hint, look);
    }

    public FileColumn isNeeded() {
        return new FileColumn(name, also, unit, kind, true, hint, look);
    }

    /** As it stands over the column. */
    public String head() {
        return head(name, unit);
    }

    private static String head(String name, String unit) {
        return unit.isEmpty() ? name : name + " (" + unit + ")";
    }

    boolean isFigure() {
        return kind == Kind.NUMBER
                || kind == Kind.LENGTH
                || kind == Kind.MONEY
                || kind == Kind.DURATION;
    }

    /** All that it is called by, tidy. */
    List<String> names() {
        List<String> names = new ArrayList<>();
        names.add(tidy(name));
        names.add(tidy(head()));
        also.forEach(n -> names.add(tidy(n)));
        return names;
    }

    /** Names are the same however they are spaced, cased or joined. */
    static String tidy(String name) {
        return name.toLowerCase(Locale.ROOT).replaceAll("[\\s\\p{Punct}\u00a0\u202f]+", "");
    }
}
