package strokewright.takeoff;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.MainSize;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.TakeOff;
import strokewright.estimate.TakeOff.Information;
import strokewright.estimate.TakeOff.Part;
import strokewright.estimate.Variant;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.SheetGauge;
import strokewright.web.Numbers;
import strokewright.web.Reading;

/**
 * Reads what somebody wants instead as it is said at the bench: {@code steel}, {@code 3 mm}, {@code
 * Ø 800}, {@code 16 ga stainless}, {@code lid: 2 mm}, or several at once. A number alone is a
 * thickness as long as it can be one, and the item's size from where it can be none.
 */
final class Instead {

    private static final int LONGEST = 200;

    /** Sheet that is formed by hand is thinner. */
    private static final double THICKEST_MM = 12;

    /** A smaller number alone could be either. */
    private static final double SMALLEST_SIZE_MM = 60;

    private static final String DIAMETER = "ø|⌀|\u2205|dia(?:meter|m)?\\.?|d";
    private static final Pattern DIAMETER_BEFORE =
            Pattern.compile("(?:" + DIAMETER + "|o(?=\\s*\\d))\\s*[=:]?\\s*(.*\\d.*)");
    private static final Pattern DIAMETER_BEHIND =
            Pattern.compile("(.*\\d.*?)\\s*(?:ø|dia(?:meter|m)?\\.?)");
    private static final Pattern RADIUS =
            Pattern.compile("(?:radius|rad\\.?|r)\\s*[=:]?\\s*(.*\\d.*)");
    private static final Pattern RADIUS_BEHIND =
            Pattern.compile("(.*\\d.*?)\\s*(?:radius|rad\\.?|r)");
    private static final Pattern LENGTH_BEFORE =
            Pattern.compile("(?:length|len|l)\\s*[=:]?\\s*(.*\\d.*)");
    private static final Pattern LENGTH_BEHIND = Pattern.compile("(.*\\d.*?)\\s*(?:long|length)");
    private static final Pattern THICKNESS_BEFORE =
            Pattern.compile("(?:thickness|thick|t)\\s*[=:]?\\s*(.*\\d.*)");
    private static final Pattern THICKNESS_BEHIND =
            Pattern.compile("(.*\\d.*?)\\s*(?:thick(?:ness)?|t)");
    private static final Pattern SIZE_BEHIND =
            Pattern.compile(
                    "(.*\\d.*?)\\s*(?:" + DIAMETER + "|radius|rad\\.?|r|length|len|l)[=:]?");
    private static final Pattern FRACTION = Pattern.compile("(?:\\d+\\s+)?\\d+/\\d+");
    private static final Pattern OR_INCHES =
            Pattern.compile(
                    "(.*?)(?<![\\d.,/])(\\d[\\d.,]*)\\s+in\\s+(\\p{L}.*)",
                    Pattern.CASE_INSENSITIVE);
    private static final Pattern ENDS_WITH_SIZE =
            Pattern.compile(
                    "(?:.*[\\s\\d])?(?:"
                            + DIAMETER
                            + "|radius|rad\\.?|r|length|len|l)\\s*[=:]?\\s*");

    /** A bare number that is no thickness in inches any more, and one that is none in mm yet. */
    private static final double THICKEST_IN = 0.48;

    private static final double THINNEST_MM = 0.3;

    /** Longer than what is made at the bench, if it were inches. */
    private static final double LONGEST_IN = 100;

    private static final double SMALLEST_IN = 13;
    private static final Pattern NUMBER =
            Pattern.compile("[-+]?[\\d.,]*\\d[\\d.,]*(?:\\s*(?:mm|cm|m|in|\"))?");
    private static final Pattern QUANTITY =
            Pattern.compile("\\d+\\s*(?:off|pcs?\\.?|pieces?|×|x)|(?:×|x)\\s*\\d+");
    private static final Pattern BETWEEN =
            Pattern.compile(";|\\+|,(?=\\s)|\\band\\b|\\binstead\\b");

    /** Words of the trade that stand in no name of a grade. */
    private static final Map<String, List<String>> SAID_FOR =
            Map.ofEntries(
                    Map.entry("mild", List.of("low", "carbon")),
                    Map.entry("ms", List.of("low", "carbon", "steel")),
                    Map.entry("aluminum", List.of("aluminium")),
                    Map.entry("al", List.of("aluminium")),
                    Map.entry("inox", List.of("stainless")),
                    Map.entry("ss", List.of("stainless")),
                    Map.entry("galvanized", List.of("galvanised")),
                    Map.entry("galv", List.of("galvanised")),
                    Map.entry("cu", List.of("copper")),
                    Map.entry("ti", List.of("titanium")));

    private static final Map<String, Information> INFORMATION =
            Map.ofEntries(
                    Map.entry("phone", Information.PHONE),
                    Map.entry("phone call", Information.PHONE),
                    Map.entry("sketch", Information.SKETCH),
                    Map.entry("photo", Information.PHOTO),
                    Map.entry("drawing", Information.DRAWING),
                    Map.entry("drawing and template", Information.DRAWING_AND_TEMPLATE),
                    Map.entry("template", Information.DRAWING_AND_TEMPLATE),
                    Map.entry("old part", Information.OLD_PART),
                    Map.entry("repeat", Information.REPEAT),
                    Map.entry("made before", Information.REPEAT));

    private final TakeOff takeOff;
    private final ShopBook book;
    private final Numbers numbers;

    Instead(TakeOff takeOff, ShopBook book, Numbers numbers) {
        this.takeOff = takeOff;
        this.book = book;
        this.numbers = numbers;
    }

    /**
     * @throws InvalidInput with what would be right, where it is not understood
     */
    Variant read(String said) {
        if (said.length() > LONGEST) {
            throw misread("is too long: say it in a few words");
        }
        String text = BETWEEN.matcher(BenchWords.tidy(said)).replaceAll(" ").strip();
        if (text.isEmpty()) {
            throw misread("say what instead: steel, 3 mm, Ø 800, 16 ga");
        }
        text = withoutIn(text);
        Variant begun = Variant.nothing();
        Optional<Variant> named = machineOrTool(said.strip(), begun); // there may be commas in it
        if (named.isPresent()) {
            return named.get();
        }
        for (int i = 0; i < takeOff.parts().size(); i++) {
            Optional<String> rest = behindName(text, takeOff.parts().get(i));
            if (rest.isPresent()) {
                return changes(words(rest.get()), begun.ofPart(i));
            }
        }
        return changes(words(text), begun);
    }

    /** “3 in steel” are no inches, “0.063 in steel” are; what could be both is asked. */
    private String withoutIn(String text) {
        Matcher m = OR_INCHES.matcher(text);
        if (!m.matches() || !beginsWithMetal(words(m.group(3)))) {
            return text;
        }
        BigDecimal value = numbers.number(m.group(2)).value();
        if (value == null) {
            return text;
        }
        double number = value.doubleValue();
        boolean sized = ENDS_WITH_SIZE.matcher(m.group(1).toLowerCase(Locale.ROOT)).matches();
        boolean thickness = !sized && number < SMALLEST_IN;
        if (thickness && number < THINNEST_MM) {
            return text;
        }
        if (thickness ? number >= THICKEST_IN : number >= LONGEST_IN) {
            return m.group(1) + m.group(2) + " " + m.group(3);
        }
        throw misread(
                "could be inches or a metal: say %s\" or %s mm".formatted(m.group(2), m.group(2)));
    }

    private boolean beginsWithMetal(List<String> words) {
        for (int n = words.size(); n > 0; n--) {
            String said = String.join(" ", words.subList(0, n)).toLowerCase(Locale.ROOT);
            if (grade(said, Variant.nothing()).isPresent()) {
                return true;
            }
        }
        return false;
    }

    private static Optional<String> behindName(String text, Part part) {
        String name = String.valueOf(part.name()).strip();
        if (name.isEmpty() || !text.regionMatches(true, 0, name, 0, name.length())) {
            return Optional.empty();
        }
        String rest = text.substring(name.length());
        boolean ends = rest.startsWith(":") || rest.startsWith(" ");
        String behind = rest.startsWith(":") ? rest.substring(1).strip() : rest.strip();
        return ends && !behind.isEmpty() ? Optional.of(behind) : Optional.empty();
    }

    private static List<String> words(String text) {
        return List.of(text.strip().split("\\s+"));
    }

    /** As many words as make one change, then the rest; a grade said earlier names the gauge. */
    private Variant changes(List<String> words, Variant begun) {
        if (words.isEmpty()) {
            Variant nothing = Variant.nothing();
            if (begun.equals(begun.part() == null ? nothing : nothing.ofPart(begun.part()))) {
                throw misread("say what instead: steel, 3 mm, Ø 800, 16 ga");
            }
            return begun;
        }
        for (int n = words.size(); n > 0; n--) {
            List<String> rest = words.subList(n, words.size());
            String said = String.join(" ", words.subList(0, n));
            if (belongsToTheNext(said, rest)) {
                continue;
            }
            Optional<Variant> one = change(said, begun);
            if (one.isPresent()) {
                requireOnce(begun, one.get());
                return changes(rest, one.get());
            }
        }
        if (BenchWords.saysNothing(words.get(0))) {
            return changes(words.subList(1, words.size()), begun);
        }
        throw misread(
                "“"
                        + String.join(" ", words)
                        + "” is not understood: say a grade or its metal, a thickness, or a size"
                        + " like Ø 800 or 1200 long");
    }

    /** “3 mm Ø 800” is no Ø 3: what stands between two numbers is of the one that it fits. */
    private boolean belongsToTheNext(String said, List<String> rest) {
        Matcher named = SIZE_BEHIND.matcher(said.toLowerCase(Locale.ROOT));
        if (rest.isEmpty() || !rest.get(0).matches("[=:]?\\d.*") || !named.matches()) {
            return false;
        }
        BigDecimal mm = numbers.lengthMm(named.group(1)).value();
        return mm != null && mm.doubleValue() <= THICKEST_MM;
    }

    /** Two metals or two sizes are two variants. */
    private static void requireOnce(Variant before, Variant after) {
        twice("metals", before.grade(), after.grade());
        twice("thicknesses", before.thicknessMm(), after.thicknessMm());
        twice("sizes", before.diameterMm(), after.diameterMm());
        twice("lengths", before.lengthMm(), after.lengthMm());
    }

    private static void twice(String what, @Nullable Object before, @Nullable Object after) {
        if (before != null && !before.equals(after)) {
            throw misread("says two " + what + ": add one, then the other");
        }
    }

    private Optional<Variant> change(String text, Variant begun) {
        String said = text.toLowerCase(Locale.ROOT);
        Matcher quantity = QUANTITY.matcher(said);
        if (quantity.matches()) {
            throw misread("quantities stand in the item’s own field, side by side");
        }
        Optional<Double> diameter =
                size(said, DIAMETER_BEFORE, DIAMETER_BEHIND)
                        .or(() -> size(said, RADIUS, RADIUS_BEHIND).map(r -> 2 * r));
        if (diameter.isPresent()) {
            return diameter.map(begun::withDiameter);
        }
        Optional<Double> length = size(said, LENGTH_BEFORE, LENGTH_BEHIND);
        if (length.isPresent()) {
            return length.map(begun::withLength);
        }
        return grade(said, begun)
                .map(g -> begun.withGrade(g.code()))
                .or(() -> gauge(said, begun))
                .or(() -> thickness(said, begun))
                .or(() -> number(said, begun))
                .or(() -> otherwise(said, begun));
    }

    private Optional<Double> size(String said, Pattern... forms) {
        return Arrays.stream(forms)
                .map(form -> form.matcher(said))
                .filter(Matcher::matches)
                .map(m -> length(m.group(1)).asDouble())
                .filter(Objects::nonNull)
                .findFirst();
    }

    /** Empty where there are words in it, which may be the next change. */
    private Reading length(String said) {
        Reading read = numbers.lengthMm(said);
        boolean meant = NUMBER.matcher(said).matches() || FRACTION.matcher(said).matches();
        if (read.fault() != null && meant) {
            throw misread(read.fault());
        }
        return read;
    }

    // Thickness -------------------------------------------------------------------------------

    private Optional<Variant> thickness(String said, Variant begun) {
        return size(said, THICKNESS_BEFORE, THICKNESS_BEHIND).map(begun::withThickness);
    }

    /** Of the metal that is named with it, which becomes the grade where it is another. */
    private Optional<Variant> gauge(String said, Variant begun) {
        Optional<SheetGauge> gauge = SheetGauge.read(said);
        if (gauge.isEmpty() || saysMoreBefore(said, gauge.get())) {
            return Optional.empty();
        }
        Reading read = TakeOffReading.thickness(said, gradeNow(begun), book, numbers);
        if (read.value() == null) {
            throw misread(String.valueOf(read.fault()));
        }
        Variant made = begun.withThickness(read.value().doubleValue());
        String metal = gauge.get().metal();
        if (metal == null || begun.grade() != null) {
            return Optional.of(made);
        }
        return Optional.of(
                grade(metal, begun)
                        .filter(g -> !sameFamily(g, gradeNow(begun)))
                        .map(g -> made.withGrade(g.code()))
                        .orElse(made));
    }

    /** A word before it that is no metal is one of another change. */
    private static boolean saysMoreBefore(String said, SheetGauge gauge) {
        return gauge.metal() != null && !gauge.ofKnownMetal() && said.startsWith(gauge.metal());
    }

    private boolean sameFamily(Grade grade, @Nullable String other) {
        return book.grade(other)
                .filter(o -> String.valueOf(o.family()).equals(grade.family()))
                .isPresent();
    }

    private @Nullable String gradeNow(Variant begun) {
        if (begun.grade() != null) {
            return begun.grade();
        }
        int part = begun.part() == null ? 0 : begun.part();
        return takeOff.parts().isEmpty() ? null : takeOff.parts().get(part).grade();
    }

    /** Without a word what it is. */
    private Optional<Variant> number(String said, Variant begun) {
        BigDecimal value = length(said).value();
        if (value == null) {
            return Optional.empty();
        }
        double mm = value.doubleValue();
        if (mm <= THICKEST_MM) {
            return Optional.of(begun.withThickness(mm));
        }
        if (mm < SMALLEST_SIZE_MM) {
            String typed = numbers.show(value.stripTrailingZeros());
            throw misread(
                    "could be a thickness or a size: say t "
                            + typed
                            + ", Ø "
                            + typed
                            + " or "
                            + typed
                            + " long");
        }
        boolean length =
                MainSize.of(takeOff, begun.part(), book)
                        .filter(s -> s.kind() == MainSize.Kind.LENGTH)
                        .isPresent();
        return Optional.of(length ? begun.withLength(mm) : begun.withDiameter(mm));
    }

    // Grades ----------------------------------------------------------------------------------

    /** By its code, a number or words of its name, or its family; never the one that it is now. */
    private Optional<Grade> grade(String said, Variant begun) {
        Optional<Grade> byCode =
                book.grades().stream().filter(g -> plain(g.code()).equals(plain(said))).findFirst();
        if (byCode.isPresent()) {
            return byCode;
        }
        List<String> wanted = new ArrayList<>();
        for (String word : words(said)) {
            wanted.addAll(SAID_FOR.getOrDefault(word, List.of(word)));
        }
        List<Grade> found =
                book.grades().stream()
                        .filter(g -> isSaid(wanted, g.code() + " " + g.name()))
                        .toList();
        List<Grade> byFamily =
                book.grades().stream()
                        .filter(g -> isSaid(wanted, g.code() + " " + g.name() + " " + g.family()))
                        .toList();
        String now = gradeNow(begun);
        return Stream.concat(found.stream(), byFamily.stream())
                .filter(g -> !g.code().equals(now))
                .findFirst()
                .or(() -> byFamily.stream().findFirst());
    }

    private static boolean isSaid(List<String> wanted, String called) {
        return wanted.stream().allMatch(w -> isSaidOf(w, wanted.size() > 1, called));
    }

    /**
     * @param beside whether other words say which metal it is, so that a figure may be a part of a
     *     code
     */
    private static boolean isSaidOf(String word, boolean beside, String called) {
        boolean figure = word.matches("[\\d./]+");
        if (word.length() < 3
                || BenchWords.saysNothing(word)
                || (figure && !word.matches(".*\\d.*"))) {
            return false;
        }
        return Stream.of("[\\s(),]+", "[\\s(),-]+")
                .flatMap(between -> Arrays.stream(called.toLowerCase(Locale.ROOT).split(between)))
                .anyMatch(
                        w ->
                                figure
                                        ? w.equals(word) || beside && isFigureOf(word, w)
                                        : w.startsWith(word));
    }

    /** “al 99.5” means AL99.5. */
    private static boolean isFigureOf(String figure, String word) {
        return word.endsWith(figure)
                && word.substring(0, word.length() - figure.length())
                        .chars()
                        .allMatch(Character::isLetter);
    }

    private static String plain(String code) {
        return code.toLowerCase(Locale.ROOT).replaceAll("[\\s.+-]", "");
    }

    // Everything else -------------------------------------------------------------------------

    private Optional<Variant> otherwise(String said, Variant b) {
        if (INFORMATION.containsKey(said)) {
            return Optional.of(
                    with(b, INFORMATION.get(said), b.surface(), b.edge(), b.machine(), b.tool()));
        }
        return switch (said) {
            case "visible", "hidden" ->
                    Optional.of(
                            with(
                                    b,
                                    b.information(),
                                    TakeOff.Surface.valueOf(said.toUpperCase(Locale.ROOT)),
                                    b.edge(),
                                    b.machine(),
                                    b.tool()));
            case "sheared", "dressed" ->
                    Optional.of(
                            with(
                                    b,
                                    b.information(),
                                    b.surface(),
                                    TakeOff.Edge.valueOf(said.toUpperCase(Locale.ROOT)),
                                    b.machine(),
                                    b.tool()));
            default -> machineOrTool(said, b);
        };
    }

    private Optional<Variant> machineOrTool(String said, Variant b) {
        Optional<Variant> machine =
                named(said, book.machines().stream().map(ShopBook.Machine::name).toList())
                        .map(m -> with(b, b.information(), b.surface(), b.edge(), m, b.tool()));
        return machine.or(
                () ->
                        named(said, book.tools().stream().map(ShopBook.Tool::name).toList())
                                .map(
                                        t ->
                                                with(
                                                        b,
                                                        b.information(),
                                                        b.surface(),
                                                        b.edge(),
                                                        b.machine(),
                                                        t)));
    }

    private static Optional<String> named(String said, List<String> names) {
        return names.stream().filter(n -> n.equalsIgnoreCase(said)).findFirst();
    }

    private static Variant with(
            Variant b,
            @Nullable Information information,
            TakeOff.@Nullable Surface surface,
            TakeOff.@Nullable Edge edge,
            @Nullable String machine,
            @Nullable String tool) {
        return new Variant(
                b.name(),
                b.part(),
                b.grade(),
                b.thicknessMm(),
                b.diameterMm(),
                b.lengthMm(),
                information,
                surface,
                edge,
                machine,
                tool);
    }

    private static InvalidInput misread(String whatWouldBeRight) {
        return new InvalidInput("", whatWouldBeRight);
    }
}
