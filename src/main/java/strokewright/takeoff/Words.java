package strokewright.takeoff;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;
import strokewright.estimate.TakeOff;
import strokewright.web.Numbers;

/** What an estimate's lines are called where people read them. */
public final class Words {

    private Words() {}

    /** Where and what, e.g. "Rim 2: Curve an edge". */
    public static String operation(Estimate.Line line) {
        String where = line.part() == null ? "Assembly" : line.part();
        return where
                + (line.proposal() == null ? " " + line.position() : ", proposed")
                + ": "
                + (line.standard() == null ? kind(line.type()) : line.standard())
                + (line.outline() == null ? "" : outline(line.outline()));
    }

    /** ", 1 520 mm, 2 stretches, 3 corners"; thousands parted as in ISO 80000-1. */
    private static String outline(Estimate.Outlined outline) {
        String length =
                String.format(Locale.ROOT, "%,d", Math.round(outline.lengthMm()))
                        .replace(',', '\u00a0');
        int stretches = outline.stretches().size();
        int corners = outline.corners().size();
        return ", "
                + length
                + "\u00a0mm, "
                + (stretches == 1 ? "1 stretch" : stretches + " stretches")
                + (corners == 0 ? "" : corners == 1 ? ", 1 corner" : ", " + corners + " corners");
    }

    /** What a type of forming is called. */
    public static String kind(String type) {
        return Work.of(type).map(Work::label).orElse(type);
    }

    /** The tools that it takes, and on which machine; for a time standard its work centre. */
    public static String tools(Estimate.Line line) {
        return Stream.concat(
                        toolsAlone(line).stream(),
                        Stream.of(Objects.requireNonNullElse(line.machine(), line.workCentre())))
                .distinct()
                .collect(Collectors.joining(", "));
    }

    /** In the order of their use. */
    static List<String> toolsAlone(Estimate.Line line) {
        Stream<String> ofStretches =
                line.outline() == null
                        ? Stream.of()
                        : line.outline().stretches().stream().map(Estimate.Stretched::tool);
        return Stream.concat(Stream.of(line.tool(), line.crownTool()), ofStretches)
                .filter(Objects::nonNull)
                .distinct()
                .toList();
    }

    /** Passes of each row, the inmost first; null where there are none. */
    public static @Nullable String passes(Estimate.Line line) {
        return line.passes() == null || line.passes().isEmpty() ? null : joined(line.passes());
    }

    /** Correction and tipping passes, those that the line has. */
    public static @Nullable String furtherPasses(Estimate.Line line) {
        List<Integer> further =
                Stream.of(line.correctionPasses(), line.tippingPasses())
                        .filter(passes -> passes != null && passes > 0)
                        .toList();
        return further.isEmpty() ? null : joined(further);
    }

    /** All of them as one reads them: "3 + 8, then 2". */
    public static @Nullable String allPasses(Estimate.Line line) {
        String passes = passes(line);
        String further = furtherPasses(line);
        return further == null ? passes : passes == null ? further : passes + ", then " + further;
    }

    /** That the minutes of a line are somebody's own, and why; empty where they are computed. */
    public static String own(Estimate.Line line, Numbers numbers) {
        return line.override() == null
                ? ""
                : "Own minutes instead of %s computed: %s"
                        .formatted(
                                numbers.show(line.machineMinutes(), 1), line.override().reason());
    }

    /**
     * How so many items go over the machines, e.g. "As a batch, 4 tool changes, first one proved
     * right through".
     *
     * @return empty where no tool is put in
     */
    static String passage(Estimate.ForQuantity quantity) {
        int changes = quantity.toolChanges();
        if (changes == 0) {
            return "";
        }
        String counted = changes == 1 ? "1 tool change" : changes + " tool changes";
        if (quantity.quantity() == 1 || quantity.passage() == null) {
            return counted; // method 1 knew nothing of batches
        }
        return quantity.passage() == Estimate.Passage.PIECE
                ? "Piece by piece, " + counted
                : "As a batch, "
                        + counted
                        + (quantity.provingRound() ? ", first one proved right through" : "");
    }

    /**
     * What a pointer into a take-off leads to, as people call it: "Rim, line 2".
     *
     * @return empty for the take-off as a whole
     */
    public static String where(String pointer, TakeOff takeOff) {
        String[] steps = pointer.split("/");
        if (steps.length < 3) {
            return "";
        }
        int index = Integer.parseInt(steps[2]);
        return switch (steps[1]) {
            case "parts" ->
                    takeOff.parts().get(index).name()
                            + (steps.length > 4 && steps[3].equals("operations")
                                    ? ", line " + (Integer.parseInt(steps[4]) + 1)
                                    : "");
            case "assembly" -> "Assembly, line " + (index + 1);
            default -> "";
        };
    }

    /** "3 sheets of 2 000 × 1 000 mm, 71 % used". */
    static String sheets(Estimate.MetalUsed metal, Numbers numbers) {
        int sheets = Objects.requireNonNullElse(metal.sheets(), 0);
        return sheets
                + (sheets == 1 ? " sheet" : " sheets")
                + (metal.sheetLengthMm() == null || metal.sheetWidthMm() == null
                        ? ""
                        : " of %s × %s mm"
                                .formatted(
                                        numbers.show(metal.sheetLengthMm()),
                                        numbers.show(metal.sheetWidthMm())))
                + (metal.yieldPercent() == null
                        ? ""
                        : ", " + numbers.show(metal.yieldPercent(), 0) + " % used");
    }

    /** "about 7 times in 100". */
    static String timesInHundred(double chance) {
        if (chance < 0.005) {
            return "less than once in 200 times";
        }
        long times = Math.round(chance * 100);
        return times == 1
                ? "about once in 100 times"
                : times > 99 ? "nearly every time" : "about " + times + " times in 100";
    }

    /** "7 %", never nothing where there is a chance. */
    static String percentOf(@Nullable Double chance) {
        if (chance == null) {
            return "";
        }
        return chance > 0 && chance < 0.005 ? "< 1 %" : Math.round(chance * 100) + " %";
    }

    private static String joined(List<Integer> numbers) {
        return numbers.stream().map(String::valueOf).collect(Collectors.joining(" + "));
    }
}
