package strokewright.forming;

/**
 * A full ring or an arc as a drawing states it, and what the forming of its edge and the cutting of
 * its blank need to know instead. Pure geometry; the sheet's thickness is left out of it.
 *
 * <p>The flange lies in the plane of the curve. Inside, it has to shrink, and the heel is the
 * outside of the ring: heel radius = Ø / 2. Outside, it has to stretch, and its edge is the outside
 * of the ring: heel radius = Ø / 2 − height. Heel length = heel radius × sweep.
 *
 * @param outsideDiameterMm over everything
 * @param sweepDeg how far round it runs, 360 for a full ring
 * @param heightMm height of the flange from the heel
 * @param flangeInside whether the flange points to the centre
 */
public record CurvedStrip(
        double outsideDiameterMm, double sweepDeg, double heightMm, boolean flangeInside) {

    /** Added at each end to get hold of the strip and cut it true; common practice, no source. */
    public static final double RUN_OUT_MM = 30;

    /**
     * @throws IllegalArgumentException unless diameter, sweep and height are over 0, the sweep at
     *     most 360 and the height under half the diameter
     */
    public CurvedStrip {
        if (!(outsideDiameterMm > 0 && sweepDeg > 0 && sweepDeg <= 360)) {
            throw new IllegalArgumentException("Ø " + outsideDiameterMm + ", sweep " + sweepDeg);
        }
        if (!(heightMm > 0 && heightMm < outsideDiameterMm / 2)) {
            throw new IllegalArgumentException(
                    "height " + heightMm + " in a ring of Ø " + outsideDiameterMm);
        }
    }

    public double heelRadiusMm() {
        return flangeInside ? outsideDiameterMm / 2 : outsideDiameterMm / 2 - heightMm;
    }

    public double heelLengthMm() {
        return heelRadiusMm() * Math.toRadians(sweepDeg);
    }

    /** Width of strip to cut: the flange and the leg that stands across the plane of the curve. */
    public double blankWidthMm(double otherLegMm) {
        return heightMm + otherLegMm;
    }
}
