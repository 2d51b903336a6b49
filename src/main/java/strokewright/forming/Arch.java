package strokewright.forming;

/**
 * An arc of a circle as a drawing of an opening states it, and the rectangle that a flat band along
 * it is cut from. Pure geometry.
 *
 * @param radiusMm of the arc
 * @param sweepDeg how far round it runs, over 0 and at most 360
 */
public record Arch(double radiusMm, double sweepDeg) {

    /**
     * @throws IllegalArgumentException unless the radius is over 0 and the sweep within its bounds
     */
    public Arch {
        if (!(radiusMm > 0 && sweepDeg > 0 && sweepDeg <= 360)) {
            throw new IllegalArgumentException("radius " + radiusMm + ", sweep " + sweepDeg);
        }
    }

    /**
     * The arc over a chord: radius = (c²/4 + f²) / 2f, sweep = 4 atan(2f/c). Holds for more than a
     * half circle too.
     *
     * @param widthMm c, the chord
     * @param riseMm f, from the chord to the crown
     */
    public static Arch ofOpening(double widthMm, double riseMm) {
        return new Arch(
                (widthMm * widthMm / 4 + riseMm * riseMm) / (2 * riseMm),
                Math.toDegrees(4 * Math.atan2(2 * riseMm, widthMm)));
    }

    /** Length of a line at another radius about the same centre. */
    public double lengthAtMm(double otherRadiusMm) {
        return otherRadiusMm * Math.toRadians(sweepDeg);
    }

    /** Longest straight size of a band that ends at this radius, measured across the arch. */
    public double bandWidthMm(double outerRadiusMm) {
        return 2 * outerRadiusMm * Math.sin(Math.min(halfSweep(), Math.PI / 2));
    }

    /** The band's size the other way: from its crown to the lowest points of its ends. */
    public double bandHeightMm(double innerRadiusMm, double outerRadiusMm) {
        double down = Math.cos(halfSweep());
        return outerRadiusMm - (down > 0 ? innerRadiusMm : outerRadiusMm) * down;
    }

    private double halfSweep() {
        return Math.toRadians(sweepDeg) / 2;
    }
}
