package strokewright.office;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * What stands in a cell. Text is never taken for a formula, whatever it begins with; a formula is
 * only what {@link #formula} was given.
 */
public sealed interface Cell {

    Look look();

    record Text(String text, Look look) implements Cell {}

    record Number(double value, Look look) implements Cell {}

    record Day(LocalDate date, Look look) implements Cell {}

    /** Without the leading equals sign, function names and separators in English form. */
    record Formula(String formula, Look look) implements Cell {}

    record Blank(Look look) implements Cell {}

    static Cell text(@Nullable String text) {
        return text(text, Look.PLAIN);
    }

    static Cell text(@Nullable String text, Look look) {
        return text == null ? new Blank(look) : new Text(text, look);
    }

    /** A number, or an empty cell where there is none. */
    static Cell number(java.lang.@Nullable Number value, Look look) {
        return value == null ? new Blank(look) : new Number(value.doubleValue(), look);
    }

    static Cell day(@Nullable LocalDate date, Look look) {
        return date == null ? new Blank(look) : new Day(date, look);
    }

    static Cell formula(String formula, Look look) {
        return new Formula(formula, look);
    }
}
