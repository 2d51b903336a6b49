package strokewright.sheet;

/** Mass of flat sheet. */
public final class Mass {

    private Mass() {}

    /**
     * @param areaMm2 area of the blank
     * @param thicknessMm sheet thickness
     * @param densityKgM3 density
     * @return kg
     */
    public static double kg(double areaMm2, double thicknessMm, double densityKgM3) {
        return areaMm2 * 1e-6 * thicknessMm * 1e-3 * densityKgM3;
    }
}
