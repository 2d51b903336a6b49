package strokewright.forming;

import java.io.StringReader;
import org.apache.batik.parser.ParseException;
import org.apache.batik.parser.PathHandler;
import org.apache.batik.parser.PathParser;

/**
 * Follows SVG path data (W3C, SVG 1.1 chapter 8) command by command, each with the places it leads
 * to instead of the ways. The parser is a library's; it hands over single-precision numbers, seven
 * digits, which are taken as they were typed: 0.1 is not 0.100000001.
 */
abstract class Pen implements PathHandler {

    /** Where it is. */
    double x;

    double y;

    /** Where the part that is being drawn began. */
    double startX;

    double startY;

    /**
     * @throws IllegalArgumentException with what is wrong, in words
     */
    final void follow(String path) {
        PathParser parser = new PathParser();
        parser.setPathHandler(this);
        try {
            parser.parse(new StringReader(path));
        } catch (ParseException e) {
            throw new IllegalArgumentException(
                    "is not SVG path data"
                            + (e.getColumnNumber() > 0
                                    ? ": cannot be read from character " + e.getColumnNumber()
                                    : ""),
                    e);
        }
    }

    abstract void move(double toX, double toY);

    abstract void line(double toX, double toY);

    abstract void cubic(double x1, double y1, double x2, double y2, double toX, double toY);

    abstract void smoothCubic(double x2, double y2, double toX, double toY);

    abstract void quadratic(double x1, double y1, double toX, double toY);

    abstract void smoothQuadratic(double toX, double toY);

    abstract void arc(
            double rx,
            double ry,
            double degrees,
            boolean large,
            boolean sweep,
            double toX,
            double toY);

    abstract void close();

    private static double typed(float value) {
        return Double.parseDouble(Float.toString(value));
    }

    private void at(double toX, double toY) {
        x = toX;
        y = toY;
    }

    @Override
    public void startPath() {}

    @Override
    public void endPath() {}

    @Override
    public final void movetoRel(float dx, float dy) {
        moveTo(x + typed(dx), y + typed(dy));
    }

    @Override
    public final void movetoAbs(float toX, float toY) {
        moveTo(typed(toX), typed(toY));
    }

    private void moveTo(double toX, double toY) {
        move(toX, toY);
        startX = toX;
        startY = toY;
        at(toX, toY);
    }

    @Override
    public final void closePath() {
        close();
        at(startX, startY);
    }

    @Override
    public final void linetoRel(float dx, float dy) {
        lineTo(x + typed(dx), y + typed(dy));
    }

    @Override
    public final void linetoAbs(float toX, float toY) {
        lineTo(typed(toX), typed(toY));
    }

    @Override
    public final void linetoHorizontalRel(float dx) {
        lineTo(x + typed(dx), y);
    }

    @Override
    public final void linetoHorizontalAbs(float toX) {
        lineTo(typed(toX), y);
    }

    @Override
    public final void linetoVerticalRel(float dy) {
        lineTo(x, y + typed(dy));
    }

    @Override
    public final void linetoVerticalAbs(float toY) {
        lineTo(x, typed(toY));
    }

    private void lineTo(double toX, double toY) {
        line(toX, toY);
        at(toX, toY);
    }

    @Override
    public final void curvetoCubicRel(float x1, float y1, float x2, float y2, float dx, float dy) {
        cubicTo(
                x + typed(x1),
                y + typed(y1),
                x + typed(x2),
                y + typed(y2),
                x + typed(dx),
                y + typed(dy));
    }

    @Override
    public final void curvetoCubicAbs(
            float x1, float y1, float x2, float y2, float toX, float toY) {
        cubicTo(typed(x1), typed(y1), typed(x2), typed(y2), typed(toX), typed(toY));
    }

    private void cubicTo(double x1, double y1, double x2, double y2, double toX, double toY) {
        cubic(x1, y1, x2, y2, toX, toY);
        at(toX, toY);
    }

    @Override
    public final void curvetoCubicSmoothRel(float x2, float y2, float dx, float dy) {
        smoothCubicTo(x + typed(x2), y + typed(y2), x + typed(dx), y + typed(dy));
    }

    @Override
    public final void curvetoCubicSmoothAbs(float x2, float y2, float toX, float toY) {
        smoothCubicTo(typed(x2), typed(y2), typed(toX), typed(toY));
    }

    private void smoothCubicTo(double x2, double y2, double toX, double toY) {
        smoothCubic(x2, y2, toX, toY);
        at(toX, toY);
    }

    @Override
    public final void curvetoQuadraticRel(float x1, float y1, float dx, float dy) {
        quadraticTo(x + typed(x1), y + typed(y1), x + typed(dx), y + typed(dy));
    }

    @Override
    public final void curvetoQuadraticAbs(float x1, float y1, float toX, float toY) {
        quadraticTo(typed(x1), typed(y1), typed(toX), typed(toY));
    }

    private void quadraticTo(double x1, double y1, double toX, double toY) {
        quadratic(x1, y1, toX, toY);
        at(toX, toY);
    }

    @Override
    public final void curvetoQuadraticSmoothRel(float dx, float dy) {
        smoothQuadraticTo(x + typed(dx), y + typed(dy));
    }

    @Override
    public final void curvetoQuadraticSmoothAbs(float toX, float toY) {
        smoothQuadraticTo(typed(toX), typed(toY));
    }

    private void smoothQuadraticTo(double toX, double toY) {
        smoothQuadratic(toX, toY);
        at(toX, toY);
    }

    @Override
    public final void arcRel(
            float rx, float ry, float degrees, boolean large, boolean sweep, float dx, float dy) {
        arcTo(rx, ry, degrees, large, sweep, x + typed(dx), y + typed(dy));
    }

    @Override
    public final void arcAbs(
            float rx, float ry, float degrees, boolean large, boolean sweep, float toX, float toY) {
        arcTo(rx, ry, degrees, large, sweep, typed(toX), typed(toY));
    }

    private void arcTo(
            float rx,
            float ry,
            float degrees,
            boolean large,
            boolean sweep,
            double toX,
            double toY) {
        if (toX == x && toY == y) {
            return; // SVG 1.1, F.6.2: nothing is drawn
        }
        if (rx == 0 || ry == 0) {
            lineTo(toX, toY);
            return;
        }
        arc(typed(rx), typed(ry), typed(degrees), large, sweep, toX, toY);
        at(toX, toY);
    }
}
