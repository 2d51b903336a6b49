package strokewright.sheet;

/**
 * A sheet as it is bought and what cutting takes of it.
 *
 * @param lengthMm along the grain
 * @param widthMm across it
 * @param kerfMm width of every cut
 * @param edgeMarginMm that no blank may reach into, at every edge of the sheet
 * @param keptFromMm an offcut both of whose sides reach this is worth keeping; infinite where none
 *     is
 */
public record StockSheet(
        double lengthMm, double widthMm, double kerfMm, double edgeMarginMm, double keptFromMm) {

    /** Longest side, for which areas in whole micrometres still fit a long many times over. */
    private static final double LONGEST_MM = 1e6;

    public StockSheet {
        if (!(lengthMm > 0 && lengthMm <= LONGEST_MM && widthMm > 0 && widthMm <= LONGEST_MM)) {
            throw new IllegalArgumentException("no sheet: " + lengthMm + " × " + widthMm);
        }
        if (!(kerfMm >= 0 && kerfMm <= LONGEST_MM)
                || !(edgeMarginMm >= 0 && edgeMarginMm <= LONGEST_MM)
                || !(keptFromMm >= 0)) {
            throw new IllegalArgumentException(
                    "no cutting: " + kerfMm + ", " + edgeMarginMm + ", " + keptFromMm);
        }
    }

    public double areaMm2() {
        return lengthMm * widthMm;
    }

    boolean keeps(double lengthOfOffcut, double widthOfOffcut) {
        return Math.min(lengthOfOffcut, widthOfOffcut) >= keptFromMm;
    }

    int kerf() {
        return micrometres(kerfMm);
    }

    /** What pieces that carry their kerf may fill; nothing or less where the margins leave none. */
    int usableLength() {
        return micrometres(lengthMm) - 2 * micrometres(edgeMarginMm) + kerf();
    }

    int usableWidth() {
        return micrometres(widthMm) - 2 * micrometres(edgeMarginMm) + kerf();
    }

    static int micrometres(double mm) {
        return (int) Math.round(mm * 1000);
    }
}
