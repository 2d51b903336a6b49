package strokewright.office;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalDateTime;
import org.jspecify.annotations.Nullable;

/** What stands in a cell of a table that is read or written as rows: no looks, no formulas. */
public sealed interface Value {

    /** Nothing, or nothing but spaces. */
    Value BLANK = new Blank();

    record Blank() implements Value {}

    /** As it stands, spaces around it included; never empty. */
    record Text(String text) implements Value {}

    /** In a workbook a double, read as the shortest decimal that means it. */
    record Number(BigDecimal number) implements Value {}

    /** A date, or a date with a time of day. */
    record Moment(LocalDateTime at) implements Value {}

    record YesNo(boolean yes) implements Value {}

    /**
     * Something that no value can be taken from.
     *
     * @param reason how it goes on after the cell was named
     */
    record Unusable(String reason) implements Value {}

    static Value text(@Nullable String text) {
        return text == null || text.isBlank() ? BLANK : new Text(text);
    }

    static Value number(@Nullable BigDecimal number) {
        return number == null ? BLANK : new Number(number);
    }

    static Value number(@Nullable Double number) {
        return number == null ? BLANK : new Number(BigDecimal.valueOf(number));
    }

    static Value number(@Nullable Integer number) {
        return number == null ? BLANK : new Number(BigDecimal.valueOf(number));
    }

    static Value day(@Nullable LocalDate day) {
        return day == null ? BLANK : new Moment(day.atStartOfDay());
    }

    static Value yesNo(@Nullable Boolean yes) {
        return yes == null ? BLANK : new YesNo(yes);
    }
}
