package strokewright.shopbook;

import java.math.BigDecimal;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A fault of the shop book as its page tells it: fields by their labels, numbers in the unit and
 * the manner of writing of the field.
 */
final class FaultWords {

    private static final Pattern NAME = Pattern.compile("/?\\b[a-z]+(?:[A-Z][a-zA-Z0-9]*)+\\b");
    private static final Pattern NUMBER =
            Pattern.compile("(?<=\\b(?:from|over|to|is|at most) )\\d+(?:\\.\\d+(?:E-?\\d+)?)?\\b");

    /** Names in messages that are no field of their section, or lack a label that reads well. */
    private static final Map<String, String> ELSEWHERE =
            Map.ofEntries(
                    Map.entry("familyBite", "Bite by family"),
                    Map.entry("labourBasis", "build-up of the labour rate"),
                    Map.entry("machineBasis", "build-up of the machine rate"));

    private FaultWords() {}

    static String of(String message, BookSection section, String path, Kind.With with) {
        String said = message.replace("of /cutting", "at Cutting");
        said = named(said, section, path);
        return numbers(said, Draft.leaf(section, path).orElse(null), with);
    }

    private static String named(String message, BookSection section, String path) {
        Matcher m = NAME.matcher(message);
        StringBuilder said = new StringBuilder();
        while (m.find()) {
            m.appendReplacement(said, Matcher.quoteReplacement(label(m.group(), section, path)));
        }
        return m.appendTail(said).toString();
    }

    private static String label(String name, BookSection section, String path) {
        String other = ELSEWHERE.get(name);
        if (other != null) {
            return other;
        }
        String beside = path.contains("/") ? path.substring(0, path.lastIndexOf('/') + 1) : "";
        return section.field(beside + name)
                .or(() -> section.field(name))
                .map(f -> "“" + f.label() + "”")
                .orElse(name);
    }

    private static String numbers(String message, @Nullable BookField field, Kind.With with) {
        boolean percent = field != null && field.kind() instanceof Kind.Figure f && f.percent();
        Matcher m = NUMBER.matcher(message);
        StringBuilder said = new StringBuilder();
        while (m.find()) {
            BigDecimal value = new BigDecimal(m.group());
            String shown = with.numbers().typed(percent ? value.movePointRight(2) : value);
            m.appendReplacement(said, Matcher.quoteReplacement(shown));
        }
        return m.appendTail(said).toString();
    }
}
