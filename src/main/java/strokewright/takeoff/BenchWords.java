package strokewright.takeoff;

import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * Brings what is said at the bench into the few forms that are read: words that say nothing go,
 * units get their short form, a gauge its number first.
 */
final class BenchWords {

    private static final Pattern NOW =
            Pattern.compile(
                    "\\b(?:instead of|rather than|not)\\s[^,;+]*", Pattern.CASE_INSENSITIVE);
    private static final Pattern GAUGE_FIRST =
            Pattern.compile(
                    "(?<![\\p{L}\\d])(?<!\\d\\s)(?:(?:gauge|gage|ga\\.?)\\s*|#\\s*)(\\d{1,2})(?![\\d.,/])"
                            + "(?!\\s*(?:gauge|gage|ga|g)\\b)",
                    Pattern.CASE_INSENSITIVE);
    private static final Pattern FEET =
            Pattern.compile(
                    "(?<![\\d.,/])(\\d{1,3}(?:[.,]\\d)?)\\s*(?:ft\\b\\.?|feet\\b|foot\\b|['\u2019\u2032](?!['\u2019\u2032]))",
                    Pattern.CASE_INSENSITIVE);
    private static final List<Unit> UNITS =
            List.of(
                    new Unit("millimet(?:re|er)s?", "mm"),
                    new Unit("centimet(?:re|er)s?", "cm"),
                    new Unit("met(?:re|er)s?", "m"));

    private static final Set<String> SAYING_NOTHING =
            Set.of(
                    "a", "an", "the", "in", "of", "from", "with", "at", "as", "to", "it", "is",
                    "be", "made", "make", "use", "using", "try", "what", "if", "how", "about",
                    "please", "only", "sheet", "surface", "edge", "edges", "same", "but");

    private BenchWords() {}

    private record Unit(Pattern said, String shortly) {

        Unit(String said, String shortly) {
            this(Pattern.compile("(?<=\\d)\\s*" + said + "\\b", Pattern.CASE_INSENSITIVE), shortly);
        }
    }

    static String tidy(String said) {
        String text = NOW.matcher(said).replaceAll(" ");
        text = text.replaceAll("[!?]+", " ").strip();
        text = text.replaceAll("(?<=[\\p{L}\\d])\\.$", "");
        for (Unit unit : UNITS) {
            text = unit.said.matcher(text).replaceAll(" " + unit.shortly);
        }
        text = FEET.matcher(text).replaceAll(m -> inches(m.group(1)));
        return GAUGE_FIRST.matcher(text).replaceAll("$1 ga").strip();
    }

    private static String inches(String feet) {
        BigDecimal number = new BigDecimal(feet.replace(',', '.'));
        return number.multiply(BigDecimal.valueOf(12)).stripTrailingZeros().toPlainString() + " in";
    }

    /** Whether a word may be passed over where nothing is read from it. */
    static boolean saysNothing(String word) {
        return SAYING_NOTHING.contains(word.toLowerCase(Locale.ROOT));
    }
}
