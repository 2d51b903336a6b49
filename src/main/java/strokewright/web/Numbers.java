package strokewright.web;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Money;
import strokewright.quantity.SheetGauge;

/**
 * Numbers and units as people type and read them, in one locale.
 *
 * <p>Reading: comma and point are both taken as the decimal mark wherever only one meaning is
 * possible. The locale's own decimal mark is always the decimal mark. The one form that could mean
 * two numbers a thousandfold apart, the locale's <em>other</em> mark once with three digits behind
 * it ({@code 1,234} in English, {@code 1.234} in German), is refused with a question: many people
 * type on a keyboard of one country in a browser of another.
 *
 * <p>Writing: thousands are parted by a thin space (ISO 80000-1), which no locale takes for a
 * decimal mark, and which is read back here.
 */
public final class Numbers {

    /**
     * Thickness in mm of a sheet gauge, or of so many ounces in the table {@link
     * SheetGauge#COPPER_OUNCES}; empty when that table has no such number.
     */
    public interface Gauges {
        OptionalDouble thicknessMm(String table, int number);
    }

    /** Names of the gauge tables, as asked for and as given to {@link Gauges}. */
    public static final List<String> GAUGE_TABLES =
            List.of("steel", "galvanised", "stainless", "aluminium");

    private static final BigDecimal MM_PER_INCH = new BigDecimal("25.4");
    private static final int LONGEST = 40;
    private static final char THIN_SPACE = '\u202f';

    private static final Pattern SPACED_GROUPS =
            Pattern.compile("\\d{1,3}(?:[ '\u2019\u00a0\u2009\u202f]\\d{3})+(?:[.,]\\d*)?");
    private static final Pattern COULD_BE_GROUPED = Pattern.compile("[1-9]\\d{0,2}[.,]\\d{3}");
    private static final Pattern LENGTH =
            Pattern.compile("(.*?)\\s*(mm|cm|m|inches|inch|in\\.?|\"|\u2033|\u201d|'')?");
    private static final Pattern AREA_UNIT =
            Pattern.compile("(.*?)\\s*(mm|cm|dm|m|in)(?:\u00b2|\\^?2)");
    private static final Pattern FRACTION =
            Pattern.compile("(?:(\\d{1,6})(?:\\s+|\\s*-\\s*))?(\\d{1,6})\\s*/\\s*(\\d{1,6})");

    private static final Pattern MEANT_AS_GAUGE =
            Pattern.compile("(?:.*(?:\\bg(?:au|a)ge\\b|\\d\\s*-?\\s*(?:ga|oz)\\b|\\bga\\b|#).*)");

    private final char decimalMark;

    /** Whether the other mark, with three digits behind it, can only part thousands. */
    private final boolean sure;

    private Numbers(char decimalMark, boolean sure) {
        this.decimalMark = decimalMark;
        this.sure = sure;
    }

    /** German writes a decimal comma; everything else here a point. */
    public static Numbers of(Locale locale) {
        return new Numbers(locale.getLanguage().equals("de") ? ',' : '.', false);
    }

    /** As in a file whose decimal mark is known: nothing is left to ask. */
    public static Numbers withMark(char decimalMark) {
        return new Numbers(decimalMark, true);
    }

    /** Comma or point. */
    public char decimalMark() {
        return decimalMark;
    }

    // Reading ---------------------------------------------------------------------------------

    /** A plain number. */
    public Reading number(@Nullable String typed) {
        String text = tidy(typed);
        if (text.isEmpty()) {
            return Reading.EMPTY;
        }
        if (text.length() > LONGEST) {
            return Reading.fault("is too long for a number");
        }
        boolean negative = text.startsWith("-");
        String body = negative || text.startsWith("+") ? text.substring(1).strip() : text;
        Reading read = unsigned(body);
        return negative ? read.map(BigDecimal::negate) : read;
    }

    /** A number without decimals. */
    public Reading whole(@Nullable String typed) {
        Reading read = number(typed);
        if (read.value() == null || read.value().stripTrailingZeros().scale() <= 0) {
            return read;
        }
        return Reading.fault("must be a whole number, like 5");
    }

    /** A length in mm, typed in mm, cm, m or inch (also as fraction: 1 1/4 in). */
    public Reading lengthMm(@Nullable String typed) {
        Matcher m = LENGTH.matcher(tidy(typed).toLowerCase(Locale.ROOT));
        if (!m.matches()) {
            return Reading.fault("must be a length, like " + example("12.5") + " or 1/2 in");
        }
        String unit = m.group(2) == null ? "" : m.group(2);
        return switch (unit) {
            case "", "mm" ->
                    isFraction(m.group(1))
                            ? Reading.fault(
                                    "is a fraction of what? Type "
                                            + m.group(1).strip()
                                            + " in for inches, or the millimetres in decimals")
                            : number(m.group(1));
            case "cm" -> number(m.group(1)).times(BigDecimal.TEN);
            case "m" -> number(m.group(1)).times(BigDecimal.valueOf(1000));
            default -> inches(m.group(1)).times(MM_PER_INCH);
        };
    }

    /** An area in mm², typed in dm² (when it stands alone), mm², cm², m² or in². */
    public Reading areaMm2(@Nullable String typed) {
        String text = tidy(typed).toLowerCase(Locale.ROOT);
        Matcher m = AREA_UNIT.matcher(text);
        if (!m.matches()) {
            return number(text).times(BigDecimal.valueOf(10_000));
        }
        BigDecimal factor =
                switch (m.group(2)) {
                    case "mm" -> BigDecimal.ONE;
                    case "cm" -> BigDecimal.valueOf(100);
                    case "dm" -> BigDecimal.valueOf(10_000);
                    case "m" -> BigDecimal.valueOf(1_000_000);
                    default -> MM_PER_INCH.multiply(MM_PER_INCH);
                };
        return number(m.group(1)).times(factor);
    }

    /**
     * A sheet thickness in mm, typed in mm, inch or gauge, copper also by its weight.
     *
     * @param table the gauge table where the text names none; null to ask for it
     */
    public Reading thicknessMm(@Nullable String typed, Gauges gauges, @Nullable String table) {
        Optional<SheetGauge> gauge = SheetGauge.read(typed);
        if (gauge.isPresent()) {
            return thicknessMm(gauge.get(), gauges, table);
        }
        String text = tidy(typed).toLowerCase(Locale.ROOT);
        Reading read = lengthMm(text);
        return read.fault() != null && MEANT_AS_GAUGE.matcher(text).matches()
                ? Reading.fault(
                        "must be a thickness in mm or inch, or a whole gauge and its metal,"
                                + " like 16 ga galvanised")
                : read;
    }

    private Reading thicknessMm(SheetGauge gauge, Gauges gauges, @Nullable String table) {
        int number = gauge.number();
        String named = gauge.table(table);
        if (named == null) {
            return Reading.fault(
                    gauge.ounces() ? whichOunces(number, gauges) : whichGauge(number, gauges));
        }
        OptionalDouble mm = gauges.thicknessMm(named, number);
        if (mm.isPresent()) {
            return Reading.of(BigDecimal.valueOf(mm.getAsDouble()));
        }
        return Reading.fault(
                (gauge.ounces()
                                ? number + " oz is no weight of sheet copper"
                                : "gauge " + number + " is not in the table for " + named)
                        + ": type the thickness in mm or inch");
    }

    private String whichOunces(int ounces, Gauges gauges) {
        OptionalDouble mm = gauges.thicknessMm(SheetGauge.COPPER_OUNCES, ounces);
        return "only copper goes by its weight per square foot"
                + (mm.isPresent()
                        ? ": %d oz of it is %s mm. Type %d oz copper, or"
                                .formatted(ounces, show(mm.getAsDouble(), 3), ounces)
                        : ". Type")
                + " the thickness in mm, inch or gauge";
    }

    private String whichGauge(int gauge, Gauges gauges) {
        String each =
                GAUGE_TABLES.stream()
                        .filter(t -> gauges.thicknessMm(t, gauge).isPresent())
                        .map(
                                t ->
                                        t
                                                + " "
                                                + show(
                                                        gauges.thicknessMm(t, gauge).getAsDouble(),
                                                        3)
                                                + " mm")
                        .collect(Collectors.joining(", "));
        return each.isEmpty()
                ? "gauge " + gauge + " is in none of the tables: type the thickness in mm or inch"
                : "gauge "
                        + gauge
                        + " of which metal? "
                        + each
                        + ". Type "
                        + gauge
                        + " ga and the metal, or the thickness in mm or inch";
    }

    private Reading inches(String text) {
        Matcher m = FRACTION.matcher(text.strip());
        if (!m.matches()) {
            return number(text);
        }
        BigDecimal below = new BigDecimal(m.group(3));
        if (below.signum() == 0) {
            return Reading.fault("has a fraction with nothing below the line");
        }
        BigDecimal whole = m.group(1) == null ? BigDecimal.ZERO : new BigDecimal(m.group(1));
        return Reading.of(
                whole.add(new BigDecimal(m.group(2)).divide(below, MathContext.DECIMAL64)));
    }

    private static boolean isFraction(String text) {
        return FRACTION.matcher(text.strip()).matches();
    }

    private Reading unsigned(String given) {
        String text = given;
        boolean grouped = SPACED_GROUPS.matcher(text).matches();
        if (grouped) {
            text = text.replaceAll("[ '\u2019\u00a0\u2009\u202f]", "");
        }
        if (!text.matches("[0-9.,]*[0-9][0-9.,]*")) {
            return Reading.fault("must be a number, like " + example("12.5"));
        }
        int comma = text.lastIndexOf(',');
        int point = text.lastIndexOf('.');
        if (comma < 0 && point < 0) {
            return Reading.of(new BigDecimal(text));
        }
        if (comma >= 0 && point >= 0) {
            return withBoth(text, comma > point ? ',' : '.');
        }
        char mark = comma >= 0 ? ',' : '.';
        if (text.indexOf(mark) != text.lastIndexOf(mark)) {
            return groupsOnly(text, mark);
        }
        if (!grouped && mark != decimalMark && COULD_BE_GROUPED.matcher(text).matches()) {
            if (sure) {
                return groupsOnly(text, mark);
            }
            return Reading.fault(
                    "could be two numbers: did you mean "
                            + text.replace(String.valueOf(mark), "")
                            + " or "
                            + text.replace(mark, decimalMark)
                            + "? Type it that way");
        }
        return decimal(text, mark);
    }

    private Reading withBoth(String text, char decimal) {
        String group = decimal == ',' ? "." : ",";
        int at = text.indexOf(decimal);
        String whole = text.substring(0, at);
        if (at != text.lastIndexOf(decimal)
                || !whole.matches("\\d{1,3}(?:" + Pattern.quote(group) + "\\d{3})+")) {
            return Reading.fault("must be a number, like " + example("1234.5"));
        }
        return decimal(text.replace(group, ""), decimal);
    }

    private Reading groupsOnly(String text, char group) {
        return text.matches("\\d{1,3}(?:" + Pattern.quote(String.valueOf(group)) + "\\d{3})+")
                ? Reading.of(new BigDecimal(text.replace(String.valueOf(group), "")))
                : Reading.fault("must be a number, like " + example("1234.5"));
    }

    private static Reading decimal(String text, char mark) {
        String plain = text.replace(mark, '.');
        plain = plain.endsWith(".") ? plain.substring(0, plain.length() - 1) : plain;
        return Reading.of(new BigDecimal(plain.startsWith(".") ? "0" + plain : plain));
    }

    private static String tidy(@Nullable String typed) {
        return typed == null ? "" : typed.strip().replace('\u2212', '-');
    }

    private String example(String english) {
        return english.replace('.', decimalMark);
    }

    // Writing ---------------------------------------------------------------------------------

    /** Rounded half up to so many decimals, thousands parted by a thin space. */
    public String show(double value, int decimals) {
        if (!Double.isFinite(value)) {
            return "–";
        }
        return grouped(BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP));
    }

    public String show(BigDecimal value, int decimals) {
        return grouped(value.setScale(decimals, RoundingMode.HALF_UP));
    }

    /** At most three decimals, and no more than it has. */
    public String show(Number value) {
        BigDecimal exact = new BigDecimal(value.toString());
        BigDecimal rounded = exact.setScale(3, RoundingMode.HALF_UP).stripTrailingZeros();
        return grouped(rounded.scale() < 0 ? rounded.setScale(0) : rounded);
    }

    /** An amount with its currency, in as many decimals as it has. */
    public String show(Money money) {
        return grouped(money.amount()) + "\u00a0" + money.currency().getCurrencyCode();
    }

    /** As one would type it: every digit, no thousands, so that it reads back as the same value. */
    public String typed(@Nullable Number value) {
        if (value == null) {
            return "";
        }
        BigDecimal plain = new BigDecimal(value.toString()).stripTrailingZeros();
        return (plain.scale() < 0 ? plain.setScale(0) : plain)
                .toPlainString()
                .replace('.', decimalMark);
    }

    private String grouped(BigDecimal value) {
        String plain = value.abs().toPlainString();
        int point = plain.indexOf('.');
        String whole = point < 0 ? plain : plain.substring(0, point);
        StringBuilder out = new StringBuilder(whole);
        for (int i = whole.length() - 3; i > 0; i -= 3) {
            out.insert(i, THIN_SPACE);
        }
        if (point >= 0) {
            out.append(decimalMark).append(plain, point + 1, plain.length());
        }
        return value.signum() < 0 ? "\u2212" + out : out.toString();
    }
}
