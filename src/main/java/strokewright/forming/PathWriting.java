package strokewright.forming;

import java.awt.geom.AffineTransform;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;
import strokewright.forming.PathReading.Ellipse;

/**
 * Writes path data anew, moved, turned and scaled. An arc becomes arcs of at most a quarter: how
 * far a half arc bulges hangs on the last digit of its radius.
 */
final class PathWriting extends Pen {

    private static final int DECIMALS = 6;

    private final StringBuilder out;
    private final AffineTransform matrix;
    private final int most;

    private PathWriting(StringBuilder out, AffineTransform matrix, int most) {
        this.out = out;
        this.matrix = matrix;
        this.most = most;
    }

    /**
     * Writes behind what is there already.
     *
     * @param most characters that may be there then
     * @throws IllegalArgumentException where this is no path data, or becomes too long
     */
    static void append(StringBuilder out, String path, AffineTransform matrix, int most) {
        new PathWriting(out, matrix, most).follow(path);
    }

    @Override
    void move(double toX, double toY) {
        write("M", toX, toY);
    }

    @Override
    void line(double toX, double toY) {
        write("L", toX, toY);
    }

    @Override
    void cubic(double x1, double y1, double x2, double y2, double toX, double toY) {
        write("C", x1, y1, x2, y2, toX, toY);
    }

    @Override
    void smoothCubic(double x2, double y2, double toX, double toY) {
        write("S", x2, y2, toX, toY);
    }

    @Override
    void quadratic(double x1, double y1, double toX, double toY) {
        write("Q", x1, y1, toX, toY);
    }

    @Override
    void smoothQuadratic(double toX, double toY) {
        write("T", toX, toY);
    }

    @Override
    void close() {
        append("Z");
    }

    /** An ellipse under a linear map is an ellipse: its axes are the map's singular directions. */
    @Override
    void arc(
            double rx,
            double ry,
            double degrees,
            boolean large,
            boolean sweep,
            double toX,
            double toY) {
        Ellipse whole = Ellipse.between(x, y, rx, ry, degrees, large, sweep, toX, toY);
        double cos = Math.cos(whole.turned());
        double sin = Math.sin(whole.turned());
        double a = whole.radiusX() * (matrix.getScaleX() * cos + matrix.getShearX() * sin);
        double b = whole.radiusX() * (matrix.getShearY() * cos + matrix.getScaleY() * sin);
        double c = whole.radiusY() * (matrix.getShearX() * cos - matrix.getScaleX() * sin);
        double d = whole.radiusY() * (matrix.getScaleY() * cos - matrix.getShearY() * sin);
        double half = (a * a + b * b + c * c + d * d) / 2;
        double apart = Math.hypot((a * a + c * c - b * b - d * d) / 2, a * b + c * d);
        double turned = Math.atan2(2 * (a * b + c * d), a * a + c * c - b * b - d * d) / 2;
        double longer = Math.sqrt(half + apart);
        double shorter = longer > 0 ? Math.abs(a * d - b * c) / longer : 0;
        boolean mirrored = matrix.getDeterminant() < 0;
        String begins =
                "A"
                        + plain(longer)
                        + " "
                        + plain(shorter)
                        + " "
                        + plain(Math.toDegrees(turned))
                        + " 0 "
                        + (sweep != mirrored ? 1 : 0)
                        + " ";
        int quarters = (int) Math.ceil(Math.abs(whole.through()) / (Math.PI / 2) - 1e-9);
        for (int i = 1; i < quarters; i++) {
            double t = (double) i / quarters;
            write(begins, whole.x(t), whole.y(t));
        }
        write(begins, toX, toY);
    }

    private void write(String command, double... places) {
        double[] moved = new double[places.length];
        matrix.transform(places, 0, moved, 0, places.length / 2);
        StringBuilder written = new StringBuilder(command);
        for (int i = 0; i < moved.length; i++) {
            written.append(i == 0 ? "" : " ").append(plain(moved[i]));
        }
        append(written);
    }

    private void append(CharSequence written) {
        out.append(written);
        if (out.length() > most) {
            throw new IllegalArgumentException(
                    String.format(
                            Locale.ROOT,
                            "gives more than %,d characters of path data: draw it with fewer points",
                            most));
        }
    }

    private static String plain(double value) {
        if (!(Math.abs(value) < 1e12)) {
            throw new IllegalArgumentException("reaches further than 100 m: lengths are in mm");
        }
        BigDecimal rounded =
                new BigDecimal(value)
                        .setScale(DECIMALS, RoundingMode.HALF_EVEN)
                        .stripTrailingZeros();
        return rounded.signum() == 0 ? "0" : rounded.toPlainString();
    }
}
