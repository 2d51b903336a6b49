package strokewright.takeoff;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import strokewright.estimate.Estimate.MetalUsed;
import strokewright.sheet.Nest;
import strokewright.sheet.Nest.Block;
import strokewright.sheet.Nest.Offcut;
import strokewright.web.Drawing;
import strokewright.web.Numbers;

/**
 * A stock sheet with the blanks that are cut from it, to scale. Blanks carry a letter that stands
 * for them below the sheet; offcuts that are kept are drawn in broken lines with their size.
 */
final class NestPicture {

    private static final double WIDE = 400;
    private static final double LEFT = 8;
    private static final double TOP = 40;
    private static final double ROOM = 330;
    private static final double TALL = 260;
    private static final double LINE = 15;

    /** Finer lines than these run into each other. */
    private static final double FINEST = 2;

    private final Numbers numbers;

    NestPicture(Numbers numbers) {
        this.numbers = numbers;
    }

    /**
     * @param id unique on its page
     */
    String of(MetalUsed metal, Nest.Pattern pattern, String id) {
        Map<String, Character> letters = letters(metal);
        double scale = Math.min(ROOM / metal.sheetLengthMm(), TALL / metal.sheetWidthMm());
        double length = metal.sheetLengthMm() * scale;
        double width = metal.sheetWidthMm() * scale;
        List<String> key = key(pattern, letters);
        Drawing drawing =
                new Drawing(
                        WIDE,
                        TOP + width + 12 + key.size() * LINE,
                        id,
                        "Nest of " + metal.grade() + ", " + times(pattern),
                        described(metal, pattern));
        drawing.text("strong", LEFT, 12, times(pattern));
        drawing.dimension(
                LEFT, TOP - 8, LEFT + length, TOP - 8, numbers.show(metal.sheetLengthMm()));
        drawing.dimension(
                LEFT + length + 10,
                TOP,
                LEFT + length + 10,
                TOP + width,
                numbers.show(metal.sheetWidthMm()));
        for (Block block : pattern.blocks()) {
            block(drawing, block, scale, letters.get(block.blank()));
        }
        pattern.offcuts().stream().filter(Offcut::kept).forEach(o -> kept(drawing, o, scale));
        drawing.path(
                "ink",
                "M%s %sh%sv%sh-%sZ"
                        .formatted(
                                Drawing.plain(LEFT),
                                Drawing.plain(TOP),
                                Drawing.plain(length),
                                Drawing.plain(width),
                                Drawing.plain(length)));
        for (int i = 0; i < key.size(); i++) {
            drawing.text("", LEFT, TOP + width + 16 + i * LINE, key.get(i));
        }
        return drawing.svg();
    }

    /**
     * By the order in which blanks first come, over all patterns: a letter means the same in each.
     */
    private static Map<String, Character> letters(MetalUsed metal) {
        Map<String, Character> letters = new LinkedHashMap<>();
        for (Nest.Pattern pattern : metal.patterns()) {
            for (Block block : pattern.blocks()) {
                letters.putIfAbsent(block.blank(), (char) ('A' + letters.size() % 26));
            }
        }
        return letters;
    }

    private List<String> key(Nest.Pattern pattern, Map<String, Character> letters) {
        Map<String, Integer> pieces = pieces(pattern);
        List<String> key = new ArrayList<>();
        letters.forEach(
                (blank, letter) -> {
                    if (pieces.containsKey(blank)) {
                        key.add(letter + "  " + pieces.get(blank) + " × " + cut(pattern, blank));
                    }
                });
        if (pattern.offcuts().stream().anyMatch(Offcut::kept)) {
            key.add("Broken lines: offcuts of a size to keep");
        }
        return key;
    }

    /** The name and size of a blank as it was stated. */
    private String cut(Nest.Pattern pattern, String blank) {
        Block block =
                pattern.blocks().stream()
                        .filter(b -> b.blank().equals(blank))
                        .findFirst()
                        .orElseThrow();
        double length = block.turned() ? block.widthMm() : block.lengthMm();
        double width = block.turned() ? block.lengthMm() : block.widthMm();
        return blank + ", " + numbers.show(length) + " × " + numbers.show(width);
    }

    private static Map<String, Integer> pieces(Nest.Pattern pattern) {
        Map<String, Integer> pieces = new LinkedHashMap<>();
        pattern.blocks().forEach(b -> pieces.merge(b.blank(), b.pieces(), Integer::sum));
        return pieces;
    }

    private void block(Drawing drawing, Block block, double scale, char letter) {
        double length = block.columns() * block.lengthMm(); // kerfs are too thin to be seen
        double width = block.rows() * block.widthMm();
        double x = LEFT + block.xMm() * scale;
        double y = TOP + block.yMm() * scale;
        drawing.bar("fill-tint", x, y, length * scale, width * scale);
        StringBuilder lines = new StringBuilder();
        if (block.lengthMm() * scale >= FINEST) {
            for (int c = 1; c < block.columns(); c++) {
                lines.append(
                        "M%s %sv%s"
                                .formatted(
                                        Drawing.plain(x + c * block.lengthMm() * scale),
                                        Drawing.plain(y),
                                        Drawing.plain(width * scale)));
            }
        }
        if (block.widthMm() * scale >= FINEST) {
            for (int r = 1; r < block.rows(); r++) {
                lines.append(
                        "M%s %sh%s"
                                .formatted(
                                        Drawing.plain(x),
                                        Drawing.plain(y + r * block.widthMm() * scale),
                                        Drawing.plain(length * scale)));
            }
        }
        if (!lines.isEmpty()) {
            drawing.path("thin", lines.toString());
        }
        boolean each = block.lengthMm() * scale >= 14 && block.widthMm() * scale >= 13;
        if (each) {
            for (int c = 0; c < block.columns(); c++) {
                for (int r = 0; r < block.rows(); r++) {
                    letter(
                            drawing,
                            x + (c + 0.5) * block.lengthMm() * scale,
                            y + (r + 0.5) * block.widthMm() * scale,
                            letter);
                }
            }
        } else if (length * scale >= 14 && width * scale >= 13) {
            letter(drawing, x + length * scale / 2, y + width * scale / 2, letter);
        }
    }

    private static void letter(Drawing drawing, double x, double y, char letter) {
        drawing.text("m", x, y + 4, String.valueOf(letter));
    }

    private void kept(Drawing drawing, Offcut offcut, double scale) {
        double x = LEFT + offcut.xMm() * scale + 2;
        double y = TOP + offcut.yMm() * scale + 2;
        double length = offcut.lengthMm() * scale - 4;
        double width = offcut.widthMm() * scale - 4;
        drawing.path(
                "hidden-line",
                "M%s %sh%sv%sh-%sZ"
                        .formatted(
                                Drawing.plain(x),
                                Drawing.plain(y),
                                Drawing.plain(length),
                                Drawing.plain(width),
                                Drawing.plain(length)));
        if (length > 62 && width > 16) {
            drawing.text("m soft", x + length / 2, y + width / 2 + 4, size(offcut));
        }
    }

    private String size(Offcut offcut) {
        return numbers.show(offcut.lengthMm(), 0) + " × " + numbers.show(offcut.widthMm(), 0);
    }

    private String times(Nest.Pattern pattern) {
        return pattern.times() == 1
                ? "1 sheet like this"
                : numbers.show(pattern.times()) + " sheets like this";
    }

    private String described(MetalUsed metal, Nest.Pattern pattern) {
        String blanks =
                pieces(pattern).entrySet().stream()
                        .map(e -> e.getValue() + " × " + cut(pattern, e.getKey()))
                        .collect(Collectors.joining("; "));
        String kept =
                pattern.offcuts().stream()
                        .filter(Offcut::kept)
                        .map(this::size)
                        .collect(Collectors.joining(", "));
        return "A sheet of "
                + numbers.show(metal.sheetLengthMm())
                + " × "
                + numbers.show(metal.sheetWidthMm())
                + " mm with "
                + blanks
                + (kept.isEmpty() ? "" : "; offcuts of a size to keep: " + kept)
                + ".";
    }
}
