package strokewright.takeoff;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import strokewright.forming.SvgText;
import strokewright.web.Numbers;

/**
 * What the take-off page learns of a text that was pasted or dropped as an outline.
 *
 * @param path path data to put into the field; null when there is a fault
 * @param told what was done with the text, for people
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record OutlineReading(@Nullable String path, @Nullable String told, @Nullable String fault) {

    static OutlineReading of(String text, Numbers numbers) {
        try {
            SvgText.Read read = SvgText.read(text);
            return new OutlineReading(read.path(), told(read, numbers), null);
        } catch (IllegalArgumentException e) {
            return new OutlineReading(null, null, e.getMessage());
        }
    }

    private static String told(SvgText.Read read, Numbers numbers) {
        String unit = numbers.typed(new BigDecimal(read.mmPerUnit()).round(new MathContext(4)));
        return (read.shapes() == 1 ? "Read one shape. " : "Read " + read.shapes() + " shapes. ")
                + (read.sized()
                        ? "By its size one unit is " + unit + " mm."
                        : "It states no size: one unit is taken as 1 mm.")
                + (read.leftOut().isEmpty()
                        ? ""
                        : " Left out: " + String.join(", ", new TreeSet<>(read.leftOut())) + ".");
    }
}
