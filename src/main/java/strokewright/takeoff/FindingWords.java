package strokewright.takeoff;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;
import strokewright.quantity.Fault;
import strokewright.quantity.Finding;
import strokewright.quantity.Money;
import strokewright.quantity.Severity;
import strokewright.web.Numbers;

/** Findings in words: what is the matter, and the change that would clear it. */
public final class FindingWords {

    private final Numbers numbers;

    public FindingWords(Numbers numbers) {
        this.numbers = numbers;
    }

    /** The severity as a style and as a word at the head of the sentence. */
    public record Told(String style, String word, String text, @Nullable String change) {}

    public Told tell(Finding finding) {
        return new Told(
                TakeOffReading.kebab(finding.severity()),
                word(finding.severity()),
                text(finding),
                change(finding));
    }

    private static String word(Severity severity) {
        return switch (severity) {
            case NOTE -> "Note";
            case DOUBT -> "Doubt";
            case REFUSAL -> "Not possible";
        };
    }

    /**
     * What keeps it from being made as described.
     *
     * @param at pointer of the take-off
     */
    public static List<Fault> refusals(String at, Estimate estimate) {
        FindingWords words = new FindingWords(Numbers.of(Locale.ENGLISH));
        return estimate.findings().stream()
                .filter(finding -> finding.severity() == Severity.REFUSAL)
                .map(finding -> new Fault(at + finding.pointer(), words.text(finding)))
                .toList();
    }

    public String text(Finding finding) {
        Map<String, Object> v = finding.values();
        return switch (finding.code()) {
            case "no-tool" -> "The shop book has no tool for this work.";
            case "marks-on-visible-surface" ->
                    v.get("tool")
                            + " is steel-faced and leaves marks on a visible surface. Add the time to"
                            + " dress them out, or take a soft-faced tool.";
            case "starting-radius-too-tight" ->
                    "The starting radius of "
                            + mm(v.get("startRadiusMm"))
                            + " is already tighter than the "
                            + mm(v.get("radiusMm"))
                            + " to reach.";
            case "depth-over-half-diameter" ->
                    "A depth of "
                            + mm(v.get("depthMm"))
                            + " is more than a half ball of Ø "
                            + mm(v.get("diameterMm"))
                            + ".";
            case "rim-buckles" ->
                    "The sheet of "
                            + mm(v.get("thicknessMm"))
                            + " is thin for a blank of Ø "
                            + mm(v.get("blankDiameterMm"))
                            + ": the rim buckles. Work it in sectors (assumed limit).";
            case "height-not-under-radius" ->
                    "A flange of "
                            + mm(v.get("heightMm"))
                            + " does not fit into a radius of "
                            + mm(v.get("radiusMm"))
                            + ".";
            case "over-capacity", "over-tool-capacity" -> capacity(v);
            case "beyond-throat" ->
                    v.get("machine")
                            + " reaches "
                            + mm(v.get("throatMm"))
                            + " into the sheet; this work needs "
                            + mm(v.get("reachMm"))
                            + ".";
            case "anneals-needed" ->
                    "Needs "
                            + count(v.get("anneals"), "anneal")
                            + ": without one the metal takes a strain of "
                            + percent(v.get("strainPerCycle"))
                            + ".";
            case "no-anneal-standard" ->
                    "The shop book names no time standard for annealing: these anneals take no time"
                            + " here.";
            case "not-annealable" ->
                    v.get("grade")
                            + " takes a strain of "
                            + percent(v.get("strainWithoutAnneal"))
                            + " and may not be annealed here; this needs "
                            + percent(v.get("strain"))
                            + ".";
            case "corners-in-outline" -> corners(v);
            case "longer-than-stock" ->
                    "A length of "
                            + mm(v.get("lengthMm"))
                            + " is longer than the stock of "
                            + mm(v.get("longestMm"))
                            + ": "
                            + joints(v)
                            + ".";
            case "longer-than-folder" ->
                    "A length of "
                            + mm(v.get("lengthMm"))
                            + " is longer than the "
                            + mm(v.get("longestMm"))
                            + " that the folder takes: "
                            + joints(v)
                            + ".";
            case "bend-radius-too-small" -> tightBend(v);
            case "bend-force-over-press" ->
                    "Bending "
                            + mm(v.get("lengthMm"))
                            + " at once takes "
                            + kn(v.get("forceKn"))
                            + " in a die of "
                            + mm(v.get("dieOpeningMm"))
                            + "; the press has "
                            + kn(v.get("pressForceKn"))
                            + ".";
            case "leg-shorter-than-die" ->
                    legs(v)
                            + ": it does not reach over the shoulder of a die of "
                            + mm(v.get("dieOpeningMm"))
                            + ". A narrower die, or a folder with a beam, may do it.";
            case "leg-inside-bend" -> legs(v) + ": its bends alone take more than that.";
            case "blank-not-developed" ->
                    "The blank of "
                            + size(v.get("lengthMm"), v.get("widthMm"))
                            + " stands; the fold develops to "
                            + size(v.get("foldLengthMm"), v.get("developedMm"))
                            + ".";
            case "no-k-factor" ->
                    "The shop book has no K-factor for "
                            + v.get("grade")
                            + " at a radius of "
                            + figure(v.get("radiusOfThickness"))
                            + " thicknesses: developed by DIN 6935.";
            case "outline-straight" -> "Nothing along this outline is bent enough to be worked.";
            case "line-left-out" -> leftOut(v);
            case "no-metal-price" ->
                    "The shop book has no price for "
                            + v.get("grade")
                            + ", "
                            + mm(v.get("thicknessMm"))
                            + ": the metal is priced at nothing.";
            case "customers-metal" ->
                    "The customer supplies "
                            + v.get("grade")
                            + ", "
                            + mm(v.get("thicknessMm"))
                            + ": agree in writing who pays for metal that is spoilt, and how many"
                            + " blanks are supplied beyond the pieces.";
            case "no-blank-to-nest" ->
                    "There are stock sheets of "
                            + v.get("grade")
                            + ", "
                            + mm(v.get("thicknessMm"))
                            + ", but this part has no blank to lay on them: its metal is priced by"
                            + " its mass, with no offcut.";
            case "blank-over-sheet" ->
                    "A blank of "
                            + size(v.get("lengthMm"), v.get("widthMm"))
                            + " fits no stock sheet of "
                            + v.get("grade")
                            + "; the largest is "
                            + size(v.get("sheetLengthMm"), v.get("sheetWidthMm"))
                            + ". Its metal is priced by its mass, as if joined; the joint and its"
                            + " time are not in it.";
            case "cheaper-at-break" ->
                    count(v.get("sheetsAtBreak"), "sheet")
                            + " of "
                            + v.get("grade")
                            + ", "
                            + mm(v.get("thicknessMm"))
                            + " would cost "
                            + money(v.get("costAtBreak"), v)
                            + ", less than the "
                            + count(v.get("sheets"), "sheet")
                            + " that are needed at "
                            + money(v.get("cost"), v)
                            + ": a price break is near.";
            case "tolerance-finer-than-forming" ->
                    "Class "
                            + v.get("class")
                            + " of ISO 2768-1 allows ±"
                            + mm(v.get("toleranceMm"))
                            + " at "
                            + mm(v.get("sizeMm"))
                            + ", the template "
                            + mm(v.get("templateGapMm"))
                            + ": forming by hand to this template does not hold the class. State a"
                            + " gap as tight as the class, or agree that formed contours go by the"
                            + " template (common practice).";
            case "template-gap-tighter-than-class" ->
                    "A gap of "
                            + mm(v.get("templateGapMm"))
                            + " is tighter than class "
                            + v.get("class")
                            + " of ISO 2768-1 asks for, ±"
                            + mm(v.get("toleranceMm"))
                            + " at "
                            + mm(v.get("sizeMm"))
                            + ": it takes "
                            + count(v.get("correctionPasses"), "correction pass", "es")
                            + " where the class would take "
                            + figure(v.get("correctionPassesByClass"))
                            + ".";
            case "size-beyond-tolerances" -> beyondTolerances(v);
            case "sample-is-whole-lot" ->
                    (v.containsKey("part") ? v.get("part") + ": the" : "The")
                            + " sample of ISO 2859-1 is not smaller than the "
                            + count(v.get("pieces"), "piece")
                            + " of the order: every one is checked.";
            case "heat-on-stainless" ->
                    "Heat discolours and warps stainless sheet and can cost it its resistance to"
                            + " corrosion: ask whether "
                            + v.get("grade")
                            + " may be heated here at all.";
            case "heat-on-zinc" ->
                    "Heat burns the zinc of "
                            + v.get("grade")
                            + " off, with fume: strip the edge first, or choose another route.";
            case "heat-on-temper" ->
                    "The shop book has "
                            + v.get("grade")
                            + " as not annealable: heat can cost it the strength that it was bought"
                            + " for.";
            case "made-in-segments" ->
                    "Made in "
                            + count(v.get("segments"), "segment")
                            + " with "
                            + count(v.get("joints"), "joint")
                            + ": each blank is its share of the whole and "
                            + mm(v.get("trimMm"))
                            + " more, to hold it and to cut its welded ends true.";
            case "joint-length" ->
                    "Each joint is reckoned "
                            + mm(v.get("lengthMm"))
                            + " long, right across the strip.";
            case "joints-stood-before" ->
                    "Joints were in the take-off already and are still there: take out what is now"
                            + " counted twice.";
            case "own-minutes-left-out" -> "The own minutes were for the whole and are left out.";
            case "shrunk-by-hand" ->
                    rounded((Number) v.get("metres"), 2)
                            + "\u00a0m of edge, at the shop’s time for a metre however tight it is.";
            case "left-at-the-machine" -> "Nothing to shrink with heat: it stays at the machine.";
            case "proposed-lines-typed" ->
                    "What the shop book proposed because of the forming that is gone now stands typed: "
                            + String.join(
                                    ", ",
                                    ((List<?>) v.get("standards"))
                                            .stream().map(String::valueOf).toList())
                            + ". Look which of it this route still needs.";
            case "pressed-instead" ->
                    "One stroke a piece instead of all forming; blank and other work as they were.";
            case "already-so" -> "It is so already: nothing changes.";
            case "size-stays" ->
                    v.get("part")
                            + " keeps its size, and so does all work on it: nothing on it hangs on"
                            + " the size that changes.";
            case "amount-follows" ->
                    v.get("standard")
                            + ": "
                            + figure(v.get("to"))
                            + " instead of "
                            + figure(v.get("from"))
                            + ".";
            case "own-minutes-follow" ->
                    "The own minutes follow the computed ones: "
                            + figure(v.get("to"))
                            + " instead of "
                            + figure(v.get("from"))
                            + ".";
            case "over-full-turn" ->
                    "At this radius the strip would go round "
                            + (v.get("sweepDeg") instanceof Number n ? rounded(n, 0) : "")
                            + "°: it runs into itself.";
            case "tool-without-cost" -> "What the tool costs has to be filled in.";
            default -> anyOther(finding);
        };
    }

    private String capacity(Map<String, Object> v) {
        Object what = v.containsKey("machine") ? v.get("machine") : v.get("tool");
        return what
                + " takes "
                + mm(v.get("capacityMm"))
                + " of metal of "
                + figure(v.get("tensileMpa"))
                + " MPa; this is "
                + mm(v.get("thicknessMm"))
                + " when finished.";
    }

    /** What a later calculation tells and this page has no sentence for yet. */
    private String anyOther(Finding finding) {
        String values =
                finding.values().entrySet().stream()
                        .map(e -> e.getKey() + " " + figure(e.getValue()))
                        .collect(Collectors.joining(", "));
        return finding.code().replace('-', ' ') + (values.isEmpty() ? "." : ": " + values + ".");
    }

    private String corners(Map<String, Object> v) {
        boolean one = v.get("corners") instanceof Number n && n.intValue() == 1;
        return "The outline has "
                + count(v.get("corners"), "corner")
                + " under a radius of "
                + mm(v.get("smallestRadiusMm"))
                + (one ? ": it is" : ": they are")
                + " to fold or to join, and that takes no time here.";
    }

    private String tightBend(Map<String, Object> v) {
        boolean several = v.get("bends") instanceof Number n && n.intValue() > 1;
        return v.get("grade")
                + ", "
                + mm(v.get("thicknessMm"))
                + ", may crack at an inside radius under "
                + mm(v.get("smallestMm"))
                + ("reduction-of-area".equals(v.get("from"))
                        ? ", as far as its reduction of area tells: bend a sample; "
                        : "; ")
                + (several
                        ? count(v.get("bends"), "bend") + " are tighter, down to "
                        : "this bend has ")
                + mm(v.get("radiusMm"))
                + ("along-bend".equals(v.get("grain"))
                        ? ". The grain lies along the bend here; across the grain it takes a tighter"
                                + " one."
                        : ". Lay the bend across the grain of the sheet.");
    }

    private String legs(Map<String, Object> v) {
        boolean several = v.get("legs") instanceof Number n && n.intValue() > 1;
        return "A leg of "
                + mm(v.get("legMm"))
                + " is short"
                + (several ? ", the worst of " + figure(v.get("legs")) : "");
    }

    private String kn(@Nullable Object value) {
        return value instanceof Number n ? rounded(n, 1) + "\u00a0kN" : String.valueOf(value);
    }

    private String joints(Map<String, Object> v) {
        return count(v.get("pieces"), "piece")
                + " and "
                + count(v.get("joints"), "joint")
                + ", which take no time here";
    }

    @Nullable String change(Finding finding) {
        if (finding.change() == null) {
            return null;
        }
        List<String> ways = new ArrayList<>();
        finding.change()
                .forEach(
                        (field, value) -> {
                            String way = way(finding.code(), field, value);
                            if (way != null) {
                                ways.add(way);
                            }
                        });
        return ways.isEmpty() ? null : "Cleared " + String.join(", or ", ways) + ".";
    }

    /** Null where nothing is left of it. */
    private @Nullable String way(String code, String field, Object value) {
        return switch (field) {
            case "machine" -> "on the machine “" + value + "”";
            case "tool" -> "with the tool “" + value + "”";
            case "crownTool" -> "with the tool “" + value + "” for the crown";
            case "stretchTool" -> "with the tool “" + value + "” for what stretches";
            case "legMm" -> size("by a leg", true, value, 1);
            case "lengthMm" ->
                    code.equals("blank-not-developed")
                            ? "by a blank length of " + mm(value)
                            : size("by a length", false, value, 1);
            case "widthMm" -> "by a blank width of " + mm(value);
            case "heightMm" -> size("by a flange height", false, value, 1);
            case "radiusMm" -> size("by a radius", true, value, 1);
            case "startRadiusMm" -> size("by a starting radius", true, value, 1);
            case "depthMm" -> size("by a depth", false, value, 1);
            case "thicknessMm" -> size("by a thickness", code.equals("rim-buckles"), value, 2);
            case "reachMm" -> size("by a reach", false, value, 1);
            default -> "by " + field + " " + value;
        };
    }

    /** Rounded to the side on which it stays cleared when it is typed as printed. */
    private @Nullable String size(String what, boolean atLeast, Object value, int decimals) {
        BigDecimal size =
                new BigDecimal(String.valueOf(value))
                        .setScale(decimals, atLeast ? RoundingMode.CEILING : RoundingMode.FLOOR)
                        .stripTrailingZeros();
        return size.signum() <= 0
                ? null
                : what
                        + (atLeast ? " of at least " : " of at most ")
                        + numbers.show(size)
                        + "\u00a0mm";
    }

    private String mm(@Nullable Object value) {
        return value instanceof Number n ? rounded(n, 2) + "\u00a0mm" : String.valueOf(value);
    }

    private String size(@Nullable Object length, @Nullable Object width) {
        return figure(length) + " × " + mm(width);
    }

    private String money(@Nullable Object amount, Map<String, Object> values) {
        return amount instanceof Number n && values.get("currency") instanceof String currency
                ? numbers.show(new Money(decimal(n), Currency.getInstance(currency)))
                : String.valueOf(amount);
    }

    private static BigDecimal decimal(Number amount) {
        return new BigDecimal(amount.toString());
    }

    private String percent(@Nullable Object strain) {
        return strain instanceof Number n
                ? numbers.show(n.doubleValue() * 100, 1) + "\u00a0%"
                : String.valueOf(strain);
    }

    private String beyondTolerances(Map<String, Object> v) {
        boolean large =
                v.get("sizeMm") instanceof Number size
                        && v.get("upToMm") instanceof Number upTo
                        && size.doubleValue() > upTo.doubleValue();
        boolean several = v.get("sizes") instanceof Number n && n.intValue() > 1;
        return "Class "
                + v.get("class")
                + " of ISO 2768-1 has no tolerance for "
                + mm(v.get("sizeMm"))
                + (several ? ", the worst of " + count(v.get("sizes"), "size") : "")
                + ": it "
                + (large
                        ? "ends at " + mm(v.get("upToMm"))
                        : "begins "
                                + ("v".equals(v.get("class")) ? "above " : "at ")
                                + mm(v.get("fromMm")))
                + ". Write the tolerance beside "
                + (several ? "each of them" : "it")
                + " on the drawing"
                + (v.containsKey("otherClass")
                        ? ", or agree on class " + v.get("otherClass") + ", which has one."
                        : ", and agree on it.");
    }

    private String leftOut(Map<String, Object> v) {
        double each = ((Number) v.get("minutesEach")).doubleValue();
        double once = ((Number) v.get("setupMinutes")).doubleValue();
        String minutes =
                (each > 0 ? numbers.show(each, 1) + " min each" : "")
                        + (each > 0 && once > 0 ? " and " : "")
                        + (once > 0 ? numbers.show(once, 1) + " min once" : "");
        return v.get("standard") + " was taken out: " + minutes + " that nothing pays for.";
    }

    private String count(@Nullable Object value, String what) {
        return count(value, what, "s");
    }

    private String count(@Nullable Object value, String what, String plural) {
        String one = value instanceof Number n && n.intValue() == 1 ? what : what + plural;
        return figure(value) + " " + one;
    }

    private String figure(@Nullable Object value) {
        return value instanceof Number n ? rounded(n, 3) : String.valueOf(value);
    }

    private String rounded(Number value, int decimals) {
        return numbers.show(
                BigDecimal.valueOf(value.doubleValue())
                        .setScale(decimals, RoundingMode.HALF_UP)
                        .stripTrailingZeros());
    }
}
