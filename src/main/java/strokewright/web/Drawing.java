package strokewright.web;

import java.util.Locale;

/**
 * A picture in SVG, drawn as in a drawing office: ink lines, thin lines, dimension lines with
 * arrowheads. It carries classes of the style sheet instead of styles (the content security policy
 * allows no others), and a title and a description for people who do not see it.
 */
public final class Drawing {

    private static final double ARROW = 7;
    private static final double HATCH = 4;

    /** Wider ones take more room on a page. */
    private static final double WIDE = 300;

    private final StringBuilder svg = new StringBuilder();

    /**
     * @param id unique on its page
     * @param title what is shown, in a few words
     * @param description the same as the picture says, in words
     */
    public Drawing(double width, double height, String id, String title, String description) {
        svg.append("<svg class=\"drawing")
                .append(width > WIDE ? " wide" : "")
                .append("\" role=\"img\" xmlns=\"http://www.w3.org/2000/svg\"")
                .append(" viewBox=\"0 0 ")
                .append(plain(width))
                .append(' ')
                .append(plain(height))
                .append("\" aria-labelledby=\"")
                .append(escaped(id))
                .append("-t\" aria-describedby=\"")
                .append(escaped(id))
                .append("-d\"><title id=\"")
                .append(escaped(id))
                .append("-t\">")
                .append(escaped(title))
                .append("</title><desc id=\"")
                .append(escaped(id))
                .append("-d\">")
                .append(escaped(description))
                .append("</desc>");
    }

    public Drawing line(String look, double x1, double y1, double x2, double y2) {
        return path(look, "M" + at(x1, y1) + "L" + at(x2, y2));
    }

    public Drawing path(String look, String data) {
        svg.append("<path class=\"")
                .append(escaped(look))
                .append("\" d=\"")
                .append(escaped(data))
                .append("\"/>");
        return this;
    }

    public Drawing bar(String look, double x, double y, double width, double height) {
        svg.append("<rect class=\"")
                .append(escaped(look))
                .append("\" x=\"")
                .append(plain(x))
                .append("\" y=\"")
                .append(plain(y))
                .append("\" width=\"")
                .append(plain(Math.max(0, width)))
                .append("\" height=\"")
                .append(plain(Math.max(0, height)))
                .append("\"/>");
        return this;
    }

    /** A box with slanted lines in it, to be told from an empty one without any colour. */
    public Drawing hatched(double x, double y, double width, double height) {
        StringBuilder lines = new StringBuilder();
        for (double from = x - height; from < x + width; from += HATCH) {
            double left = Math.max(from, x);
            double right = Math.min(from + height, x + width);
            if (right > left) {
                lines.append('M').append(at(left, y + height - (left - from)));
                lines.append('L').append(at(right, y + height - (right - from)));
            }
        }
        return path("thin", lines.toString()).bar("open", x, y, width, height);
    }

    /** An arc about a centre, angles in degrees against the clock from three o'clock. */
    public Drawing arc(String look, double x, double y, double radius, double from, double sweep) {
        return path(look, arcData(x, y, radius, from, sweep));
    }

    static String arcData(double x, double y, double radius, double from, double sweep) {
        if (Math.abs(sweep) >= 360) {
            return arcData(x, y, radius, from, 180) + arcData(x, y, radius, from + 180, 180);
        }
        double start = Math.toRadians(from);
        double end = Math.toRadians(from + sweep);
        return "M"
                + at(x + radius * Math.cos(start), y - radius * Math.sin(start))
                + "A"
                + plain(radius)
                + " "
                + plain(radius)
                + " 0 "
                + (Math.abs(sweep) > 180 ? 1 : 0)
                + " "
                + (sweep > 0 ? 0 : 1)
                + " "
                + at(x + radius * Math.cos(end), y - radius * Math.sin(end));
    }

    /** Text whose point is at its left; looks {@code n} right, {@code m} middle. */
    public Drawing text(String look, double x, double y, String words) {
        svg.append("<text class=\"t ")
                .append(escaped(look))
                .append("\" x=\"")
                .append(plain(x))
                .append("\" y=\"")
                .append(plain(y))
                .append("\">")
                .append(escaped(words))
                .append("</text>");
        return this;
    }

    /** A dimension line with an arrowhead at each end, its figure (if any) above the middle. */
    public Drawing dimension(double x1, double y1, double x2, double y2, String figure) {
        line("dim", x1, y1, x2, y2);
        double angle = Math.atan2(y2 - y1, x2 - x1);
        arrowhead(x1, y1, angle + Math.PI);
        arrowhead(x2, y2, angle);
        double middleX = (x1 + x2) / 2;
        double middleY = (y1 + y2) / 2;
        if (figure.isEmpty()) {
            return this;
        }
        boolean upright = Math.abs(Math.cos(angle)) < 0.5;
        return upright
                ? text("", middleX + 4, middleY + 4, figure)
                : text("m", middleX, middleY - 4, figure);
    }

    /** An arrowhead whose point is here, pointing in this direction (radians, down is positive). */
    public Drawing arrowhead(double x, double y, double angle) {
        double back = angle + Math.PI;
        String data =
                "M"
                        + at(x, y)
                        + "L"
                        + at(x + ARROW * Math.cos(back - 0.2), y + ARROW * Math.sin(back - 0.2))
                        + "L"
                        + at(x + ARROW * Math.cos(back + 0.2), y + ARROW * Math.sin(back + 0.2))
                        + "Z";
        return path("arrow", data);
    }

    /** The whole picture. */
    public String svg() {
        return svg + "</svg>";
    }

    static String at(double x, double y) {
        return plain(x) + " " + plain(y);
    }

    /** At most two decimals, always a point: SVG knows no other mark. */
    public static String plain(double value) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException("cannot be drawn: " + value);
        }
        String text = String.format(Locale.ROOT, "%.2f", value);
        String plain = text.endsWith(".00") ? text.substring(0, text.length() - 3) : text;
        return plain.equals("-0") ? "0" : plain;
    }

    private static String escaped(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;");
    }
}
