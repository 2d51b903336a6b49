package strokewright.sheet;

import java.util.List;

/**
 * How blanks are cut from stock sheets, edge to edge.
 *
 * @param patterns each with how many sheets are cut to it
 * @param tooLarge names of the blanks that fit no sheet; they are in no pattern
 * @param leastSheets that no way of cutting edge to edge can do with fewer than; equal to {@link
 *     #sheets()} where the nest is proved to be best
 */
public record Nest(
        StockSheet sheet, List<Pattern> patterns, List<String> tooLarge, long leastSheets) {

    public Nest {
        patterns = List.copyOf(patterns);
        tooLarge = List.copyOf(tooLarge);
    }

    public long sheets() {
        return patterns.stream().mapToLong(Pattern::times).sum();
    }

    /** Area of all blanks, mm². */
    public double blankAreaMm2() {
        return patterns.stream().mapToDouble(p -> p.times() * p.blankAreaMm2()).sum();
    }

    /** Area of the offcuts that are worth keeping, mm². */
    public double keptAreaMm2() {
        return patterns.stream().mapToDouble(p -> p.times() * p.keptAreaMm2()).sum();
    }

    /** Share of the sheets' area that goes into blanks; 0 without a sheet. */
    public double yield() {
        return sheets() == 0 ? 0 : blankAreaMm2() / (sheets() * sheet.areaMm2());
    }

    /**
     * One way of cutting a sheet.
     *
     * @param times sheets cut like this
     * @param blocks what is cut from it
     * @param offcuts rectangles that are left over, cut free edge to edge, largest first
     */
    public record Pattern(long times, List<Block> blocks, List<Offcut> offcuts) {

        public Pattern {
            blocks = List.copyOf(blocks);
            offcuts = List.copyOf(offcuts);
        }

        double blankAreaMm2() {
            return blocks.stream().mapToDouble(b -> b.pieces() * b.lengthMm() * b.widthMm()).sum();
        }

        double keptAreaMm2() {
            return offcuts.stream().filter(Offcut::kept).mapToDouble(Offcut::areaMm2).sum();
        }
    }

    /**
     * Blanks of one size, all lying alike in columns along the sheet and rows across it, one kerf
     * apart.
     *
     * @param xMm near corner of the first, along the sheet
     * @param yMm near corner of the first, across the sheet
     * @param lengthMm of one blank as it lies, along the sheet
     * @param widthMm of one blank as it lies, across the sheet
     * @param turned whether its length lies across the sheet
     */
    public record Block(
            String blank,
            double xMm,
            double yMm,
            double lengthMm,
            double widthMm,
            boolean turned,
            int columns,
            int rows) {

        public int pieces() {
            return columns * rows;
        }
    }

    /**
     * A rectangle left over. Where it lies at an edge of the sheet it reaches to that edge.
     *
     * @param kept whether it is worth keeping
     */
    public record Offcut(double xMm, double yMm, double lengthMm, double widthMm, boolean kept) {

        public double areaMm2() {
            return lengthMm * widthMm;
        }
    }
}
