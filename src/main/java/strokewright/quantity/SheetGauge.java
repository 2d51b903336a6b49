package strokewright.quantity;

import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * A thickness that only a table turns into mm.
 *
 * @param ounces whether the number is a weight per ft² and no gauge
 * @param metal as it was said, in small letters; null where none was
 */
public record SheetGauge(int number, boolean ounces, @Nullable String metal) {

    /** The table of copper by its weight in oz/ft². */
    public static final String COPPER_OUNCES = "copper_ounces";

    private static final String COPPER = "copper";

    /** 16 ga, #16, gauge 16; the metal before or behind. */
    private static final Pattern GAUGE =
            Pattern.compile(
                    "(?:(\\p{L}{2,})\\s+(?:(?:steel|sheet)\\s+)?)??(?:#\\s*(\\d{1,2})(?:\\s*(?:gauge|gage|ga\\.?|g))?"
                            + "|(\\d{1,2})\\s*-?\\s*(?:gauge|gage|ga\\.?|g)"
                            + "|(?:gauge|gage|ga\\.?)\\s*(\\d{1,2}))"
                            + "(?:,?\\s+(\\p{L}+)\\.?(?:\\s+(?:steel|sheet))?)?");

    /** 20 oz, 20 oz/ft²; the metal before or behind. */
    private static final Pattern OUNCES =
            Pattern.compile(
                    "(?:(\\p{L}{2,})\\s+(?:sheet\\s+)?)??(\\d{1,3})\\s*-?\\s*(?:oz\\.?|ounces?)"
                            + "(?:\\s*(?:/|per)\\s*(?:ft(?:\u00b2|\\^?2)|(?:sq\\.?|square)\\s*(?:ft\\.?|foot)))?"
                            + "(?:,?\\s+(\\p{L}+)\\.?(?:\\s+sheet)?)?");

    private static final Map<String, String> WORDS =
            Map.ofEntries(
                    Map.entry("steel", "steel"),
                    Map.entry("mild", "steel"),
                    Map.entry("ms", "steel"),
                    Map.entry("galvanised", "galvanised"),
                    Map.entry("galvanized", "galvanised"),
                    Map.entry("galv", "galvanised"),
                    Map.entry("stainless", "stainless"),
                    Map.entry("inox", "stainless"),
                    Map.entry("ss", "stainless"),
                    Map.entry("aluminium", "aluminium"),
                    Map.entry("aluminum", "aluminium"),
                    Map.entry("alu", "aluminium"),
                    Map.entry("al", "aluminium"),
                    Map.entry("copper", COPPER),
                    Map.entry("cu", COPPER),
                    Map.entry("brass", "aluminium"));

    /** What is said as a gauge, or as a weight of copper; empty for every other thickness. */
    public static Optional<SheetGauge> read(@Nullable String said) {
        String text =
                said == null ? "" : said.strip().replace('\u2212', '-').toLowerCase(Locale.ROOT);
        Matcher m = GAUGE.matcher(text);
        if (m.matches()) {
            int number = Integer.parseInt(firstOf(m.group(2), m.group(3), m.group(4)));
            return Optional.of(new SheetGauge(number, false, metal(m.group(5), m.group(1))));
        }
        m = OUNCES.matcher(text);
        return m.matches()
                ? Optional.of(
                        new SheetGauge(
                                Integer.parseInt(m.group(2)), true, metal(m.group(3), m.group(1))))
                : Optional.empty();
    }

    private static @Nullable String metal(@Nullable String behind, @Nullable String before) {
        String said = firstOf(behind, before);
        return said.isEmpty() ? null : said;
    }

    private static String firstOf(@Nullable String... groups) {
        return Stream.of(groups).filter(Objects::nonNull).findFirst().orElse("");
    }

    /**
     * By which table it goes; null where nobody said of which metal it is.
     *
     * @param otherwise where no metal is named with it
     */
    public @Nullable String table(@Nullable String otherwise) {
        String named = metal == null ? otherwise : WORDS.get(metal);
        return ounces ? COPPER.equals(named) ? COPPER_OUNCES : null : named;
    }

    /** Whether a metal is named that has a table. */
    public boolean ofKnownMetal() {
        return metal != null && WORDS.containsKey(metal);
    }
}
