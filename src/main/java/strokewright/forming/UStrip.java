package strokewright.forming;

/**
 * A strip bent round two equal corners into a U: two legs and the run between them. With corners of
 * half the width there is no run left and the two quarters are one half circle. Pure geometry; the
 * sheet's thickness is left out of it, as in {@link CurvedStrip}.
 *
 * @param outsideWidthMm over everything
 * @param outsideHeightMm from the ends of the legs to the outside of the run
 * @param cornerRadiusMm outside radius of the corners, at most half the width and the height
 * @param heightMm height of the flange from the heel, under the corner radius
 * @param flangeInside whether the flange points into the U
 */
public record UStrip(
        double outsideWidthMm,
        double outsideHeightMm,
        double cornerRadiusMm,
        double heightMm,
        boolean flangeInside) {

    /**
     * @throws IllegalArgumentException unless the numbers keep within the bounds stated above
     */
    public UStrip {
        if (!(cornerRadiusMm > 0
                && cornerRadiusMm <= outsideWidthMm / 2
                && cornerRadiusMm <= outsideHeightMm
                && heightMm > 0
                && heightMm < cornerRadiusMm)) {
            throw new IllegalArgumentException(
                    "corner " + cornerRadiusMm + " with flange " + heightMm);
        }
    }

    public boolean halfCircle() {
        return straightRunMm() < 1e-6;
    }

    /** At the corners. Outside, the flange's edge is the outside, so the heel is tighter. */
    public double heelRadiusMm() {
        return flangeInside ? cornerRadiusMm : cornerRadiusMm - heightMm;
    }

    /** Heel length of one bend: of a quarter, or of the whole half circle. */
    public double bendMm() {
        return heelRadiusMm() * (halfCircle() ? Math.PI : Math.PI / 2);
    }

    public int bends() {
        return halfCircle() ? 1 : 2;
    }

    public double legMm() {
        return outsideHeightMm - cornerRadiusMm;
    }

    public double straightRunMm() {
        return outsideWidthMm - 2 * cornerRadiusMm;
    }

    public double heelLengthMm() {
        return 2 * legMm() + straightRunMm() + Math.PI * heelRadiusMm();
    }
}
