package strokewright.costing;

/**
 * Unit learning curve: the N-th piece takes (N / reference unit)^b of the standard time, b =
 * log₂(slope), and from the floor unit on no piece gets quicker. Source: Wright 1936, J. Aeronaut.
 * Sci. 3(4), in Crawford's unit form; reference unit and floor are common practice, no source.
 *
 * @param slope what remains of the time at each doubling, over 0 to 1; 1 for none
 * @param referenceUnit the piece that standard times belong to; 1 gives the plain Crawford curve
 * @param floorUnit the last piece that still gets quicker
 */
public record Practice(double slope, int referenceUnit, int floorUnit) {

    public double exponent() {
        return Math.log(slope) / Math.log(2);
    }

    /** What the N-th piece takes of the standard time, N from one. */
    public double factor(long piece) {
        return Math.pow((double) Math.min(piece, floorUnit) / referenceUnit, exponent());
    }

    /** Sum of the factors of so many pieces when some were made before. */
    public double sum(long alreadyMade, long pieces) {
        double sum = 0;
        long last = alreadyMade + pieces;
        long lastOnTheCurve = Math.min(last, floorUnit);
        for (long piece = alreadyMade + 1; piece <= lastOnTheCurve; piece++) {
            sum += factor(piece);
        }
        long onTheFloor = last - Math.max(alreadyMade, floorUnit);
        return onTheFloor > 0 ? sum + onTheFloor * factor(floorUnit) : sum;
    }
}
