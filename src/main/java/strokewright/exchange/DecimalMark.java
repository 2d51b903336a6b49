package strokewright.exchange;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * The decimal mark of a file, from all the numbers that stand in it as text. One that can only be
 * read one way tells for all; {@code 1,234} alone tells nothing.
 */
final class DecimalMark {

    private static final Pattern NUMBER = Pattern.compile("\\d[\\d.,]*");
    private static final Pattern EITHER = Pattern.compile("[1-9]\\d{0,2}[.,]\\d{3}");
    private static final int EXAMPLES = 5;

    private final List<String> open = new ArrayList<>();
    private boolean point;
    private boolean comma;

    void look(String text) {
        Matcher m = NUMBER.matcher(text);
        while (m.find()) {
            number(m.group().replaceAll("[.,]+$", ""), text);
        }
    }

    private void number(String number, String text) {
        int lastPoint = number.lastIndexOf('.');
        int lastComma = number.lastIndexOf(',');
        if (lastPoint < 0 && lastComma < 0) {
            return;
        }
        if (EITHER.matcher(number).matches()) {
            if (open.size() < EXAMPLES && !open.contains(text)) {
                open.add(text);
            }
            return;
        }
        boolean twice = number.indexOf('.') != lastPoint || number.indexOf(',') != lastComma;
        boolean byPoint = lastPoint > lastComma;
        if (twice && (lastPoint < 0 || lastComma < 0)) {
            byPoint = !byPoint; // 1.234.567: a mark that stands twice parts thousands
        }
        point |= byPoint;
        comma |= !byPoint;
    }

    /** The one that is certain; null where both or neither are. */
    @Nullable Character certain() {
        return point == comma ? null : Character.valueOf(point ? '.' : ',');
    }

    /** Numbers that mean one thing or another a thousandfold apart; empty where that is settled. */
    List<String> open() {
        return certain() == null ? List.copyOf(open) : List.of();
    }
}
