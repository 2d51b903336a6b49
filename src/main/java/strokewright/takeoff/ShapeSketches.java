package strokewright.takeoff;

import strokewright.web.Drawing;

/**
 * Sketches of the shapes with the letters of their dimensions, as the page's fields bear them. Not
 * to scale; each says in its description what it shows.
 */
final class ShapeSketches {

    private static final double WIDTH = 300;
    private static final double HEIGHT = 170;

    private ShapeSketches() {}

    /**
     * @param choice of the field that changes the picture, e.g. the flange; empty for the first
     */
    static String of(ShapeKind kind, String choice, String id) {
        return switch (kind) {
            case RING -> ring(360, !choice.equals("outside"), id);
            case ARC -> ring(130, !choice.equals("outside"), id);
            case U_FRAME -> uFrame(!choice.equals("outside"), id);
            case FLANGED_DISC -> flangedDisc(id);
            case BOWL -> bowl(false, false, id);
            case BOWL_WITH_RIM -> bowl(true, choice.equals("turned"), id);
            case ARCH_EDGE -> archEdge(!choice.equals("shrink"), id);
            case CURVED_RIB -> rib(!choice.equals("outside"), id);
            case PANEL_WITH_DENTS -> panel(id);
        };
    }

    private static Drawing sheet(String id, String title, String description) {
        return new Drawing(WIDTH, HEIGHT, id, title, description);
    }

    private static String ring(double sweep, boolean inside, String id) {
        boolean closed = sweep >= 360;
        Drawing drawing =
                sheet(
                        id,
                        closed ? "Ring" : "Arc",
                        (closed
                                        ? "Plan of a ring with outside Ø D"
                                        : "Plan of an arc with outside Ø D and sweep α")
                                + ", and its section: flange F pointing "
                                + (inside ? "inside" : "outside")
                                + ", return B.");
        double x = 90;
        double y = closed ? 88 : 112;
        double big = closed ? 66 : 92;
        double small = big - 15;
        double from = 90 - sweep / 2;
        drawing.arc(inside ? "ink" : "thin", x, y, big, closed ? 0 : from, sweep);
        drawing.arc(inside ? "thin" : "ink", x, y, small, closed ? 0 : from, sweep);
        drawing.line("centre", x - 9, y, x + 9, y).line("centre", x, y - 9, x, y + 9);
        if (closed) {
            drawing.dimension(x - big, y, x + big, y, "");
            drawing.text("m", x - 26, y - 5, "Ø D");
        } else {
            for (int side = 0; side < 2; side++) {
                double at = Math.toRadians(from + side * sweep);
                ray(drawing, "ink", x, y, small, big, at);
                ray(drawing, "dim", x, y, 8, small - 4, at);
            }
            drawing.arc("dim", x, y, 34, from, sweep);
            drawing.text("m", x, y - 38, "α");
            double at = Math.toRadians(68);
            drawing.line("dim", x, y, x + big * Math.cos(at), y - big * Math.sin(at));
            drawing.arrowhead(x + big * Math.cos(at), y - big * Math.sin(at), -at);
            drawing.text("", x + 40, y - 92, "D / 2");
        }
        angle(drawing, 226, 58, inside, "B");
        return drawing.svg();
    }

    private static void ray(
            Drawing drawing, String look, double x, double y, double a, double b, double at) {
        drawing.line(
                look,
                x + a * Math.cos(at),
                y - a * Math.sin(at),
                x + b * Math.cos(at),
                y - b * Math.sin(at));
    }

    /** The section of an angle: flange lying, return hanging from the heel. */
    private static void angle(
            Drawing drawing, double x, double y, boolean inside, String returning) {
        double heel = inside ? x + 48 : x;
        double edge = inside ? x : x + 48;
        drawing.line("ink", edge, y, heel, y).line("ink", heel, y, heel, y + 58);
        drawing.line("dim", x, y - 4, x, y - 20).line("dim", x + 48, y - 4, x + 48, y - 20);
        drawing.dimension(x, y - 16, x + 48, y - 16, "F");
        double beside = inside ? heel - 16 : heel + 16;
        drawing.line("dim", heel, y + 58, beside, y + 58);
        drawing.dimension(beside, y + 1, beside, y + 58, "");
        drawing.text(inside ? "n" : "", beside + (inside ? -4 : 5), y + 34, returning);
        drawing.text("soft m", x + 24, y + 82, "← centre");
    }

    private static String uFrame(boolean inside, String id) {
        Drawing drawing =
                sheet(
                        id,
                        "U-frame",
                        "Plan of a U with outside width W, outside height H and corner radius R, and"
                                + " its section: flange F pointing "
                                + (inside ? "inside" : "outside")
                                + ", return B.");
        u(drawing, inside ? "ink" : "thin", 40, 40, 120, 112, 36);
        u(drawing, inside ? "thin" : "ink", 52, 52, 96, 100, 24);
        drawing.line("ink", 40, 152, 52, 152).line("ink", 148, 152, 160, 152);
        drawing.line("dim", 40, 72, 40, 16).line("dim", 160, 72, 160, 16);
        drawing.dimension(40, 22, 160, 22, "W");
        drawing.line("dim", 76, 40, 12, 40).line("dim", 36, 152, 12, 152);
        drawing.dimension(18, 40, 18, 152, "H");
        double at = Math.toRadians(45);
        double cx = 124;
        double cy = 76;
        drawing.line("dim", cx, cy, cx + 36 * Math.cos(at), cy - 36 * Math.sin(at));
        drawing.arrowhead(cx + 36 * Math.cos(at), cy - 36 * Math.sin(at), -at);
        drawing.text("n", cx - 2, cy + 12, "R");
        angle(drawing, 226, 58, inside, "B");
        return drawing.svg();
    }

    private static void u(
            Drawing drawing, String look, double x, double y, double w, double h, double r) {
        drawing.line(look, x, y + h, x, y + r);
        drawing.arc(look, x + r, y + r, r, 180, -90);
        drawing.line(look, x + r, y, x + w - r, y);
        drawing.arc(look, x + w - r, y + r, r, 90, -90);
        drawing.line(look, x + w, y + r, x + w, y + h);
    }

    private static String flangedDisc(String id) {
        Drawing drawing =
                sheet(
                        id,
                        "Flanged disc",
                        "Section of a disc, Ø D at the bend line, with a flange F turned up by α.");
        double floor = 108;
        double lean = 14;
        double up = 52;
        drawing.line("ink", 60, floor, 200, floor);
        drawing.line("ink", 60, floor, 60 - lean, floor - up);
        drawing.line("ink", 200, floor, 200 + lean, floor - up);
        drawing.line("centre", 130, floor - 66, 130, floor + 16);
        drawing.line("dim", 60, floor + 4, 60, floor + 38);
        drawing.line("dim", 200, floor + 4, 200, floor + 38);
        drawing.dimension(60, floor + 34, 200, floor + 34, "Ø D");
        drawing.line("hidden-line", 200, floor, 246, floor);
        drawing.arc("dim", 200, floor, 34, 0, 75);
        drawing.text("", 230, floor - 20, "α");
        // along the flange, beside it
        drawing.line("dim", 58, floor, 40, floor + 5);
        drawing.line("dim", 60 - lean, floor - up, 28, floor - up + 5);
        drawing.dimension(44, floor + 4, 44 - lean, floor - up + 4, "");
        drawing.text("n", 30, floor - 20, "F");
        return drawing.svg();
    }

    private static String bowl(boolean rim, boolean turned, String id) {
        Drawing drawing =
                sheet(
                        id,
                        rim ? "Bowl with rim" : "Bowl",
                        "Section of a bowl, Ø D at the mouth, H deep"
                                + (!rim
                                        ? "."
                                        : turned
                                                ? ", its rim of width C turned down at the mouth."
                                                : ", in a flat collar of width C."));
        double x = 138;
        double mouth = 62;
        double half = 78;
        double depth = 52;
        double r = (half * half + depth * depth) / (2 * depth);
        double angle = Math.toDegrees(Math.asin(half / r));
        drawing.arc("ink", x, mouth - (r - depth), r, 270 - angle, 2 * angle);
        if (!rim) {
            drawing.line("thin", x - half, mouth, x + half, mouth);
        }
        drawing.line("centre", x, mouth - 10, x, mouth + depth + 14);
        drawing.line("dim", x - half, mouth - 4, x - half, mouth - 34);
        drawing.line("dim", x + half, mouth - 4, x + half, mouth - 34);
        drawing.dimension(x - half, mouth - 30, x + half, mouth - 30, "Ø D");
        double right = x + half + (rim && !turned ? 52 : 34);
        drawing.line("dim", x + half + (rim && !turned ? 30 : 4), mouth, right + 4, mouth);
        drawing.line("dim", x + 4, mouth + depth, right + 4, mouth + depth);
        drawing.dimension(right, mouth, right, mouth + depth, "H");
        if (rim && turned) {
            drawing.line("ink", x - half, mouth, x - half, mouth + 28);
            drawing.line("ink", x + half, mouth, x + half, mouth + 28);
            double left = x - half - 18;
            drawing.line("dim", x - half - 3, mouth, left - 4, mouth);
            drawing.line("dim", x - half - 3, mouth + 28, left - 4, mouth + 28);
            drawing.dimension(left, mouth, left, mouth + 28, "");
            drawing.text("n", left - 5, mouth + 18, "C");
        } else if (rim) {
            drawing.line("ink", x - half - 26, mouth, x - half, mouth);
            drawing.line("ink", x + half, mouth, x + half + 26, mouth);
            drawing.line("dim", x - half, mouth + 4, x - half, mouth + 26);
            drawing.line("dim", x - half - 26, mouth + 4, x - half - 26, mouth + 26);
            drawing.dimension(x - half - 26, mouth + 22, x - half, mouth + 22, "");
            drawing.text("m", x - half - 13, mouth + 38, "C");
        }
        return drawing.svg();
    }

    private static String archEdge(boolean hollow, String id) {
        Drawing drawing =
                sheet(
                        id,
                        "Arch edge",
                        "A flat arched band, B wide, with a flange F turned up along its "
                                + (hollow ? "hollow" : "outer")
                                + " edge; opening width W, rise H, or radius R and sweep α, at the"
                                + " bend line.");
        double x = 116;
        double y = 144;
        double bend = hollow ? 74 : 104;
        double other = hollow ? 104 : 74;
        double flange = hollow ? 66 : 112;
        double from = 15;
        double sweep = 150;
        drawing.arc("ink", x, y, bend, from, sweep);
        drawing.arc("ink", x, y, other, from, sweep);
        drawing.arc("thin", x, y, flange, from, sweep);
        for (double at : new double[] {Math.toRadians(from), Math.toRadians(from + sweep)}) {
            ray(drawing, "ink", x, y, Math.min(flange, 74), Math.max(flange, 104), at);
        }
        double foot = y - bend * Math.sin(Math.toRadians(from));
        double reach = bend * Math.cos(Math.toRadians(from));
        drawing.line("centre", x, y - 122, x, foot - 4);
        drawing.line("dim", x - reach, foot + 3, x - reach, y + 20);
        drawing.line("dim", x + reach, foot + 3, x + reach, y + 20);
        drawing.dimension(x - reach, y + 15, x + reach, y + 15, "");
        drawing.text("m", x - 30, y + 11, "W");
        drawing.line("dim", x - 22, foot, x + 10, foot);
        drawing.dimension(x - 12, y - bend, x - 12, foot, "");
        drawing.text("n", x - 17, foot - 22, "H");
        double at = Math.toRadians(52);
        double tip = hollow ? bend : 74;
        ray(drawing, "dim", x, y, hollow ? 0 : tip, bend, at);
        if (!hollow) {
            ray(drawing, "dim", x, y, 0, tip, at);
        }
        drawing.arrowhead(x + bend * Math.cos(at), y - bend * Math.sin(at), -at);
        drawing.text("", x + 30, y - 30, "R");
        // the section, flange up
        double sx = 244;
        double sy = 92;
        drawing.line("ink", sx, sy, sx + 44, sy);
        double up = hollow ? sx : sx + 44;
        drawing.line("ink", up, sy, up, sy - 30);
        drawing.line("dim", sx, sy + 4, sx, sy + 20).line("dim", sx + 44, sy + 4, sx + 44, sy + 20);
        drawing.dimension(sx, sy + 16, sx + 44, sy + 16, "");
        drawing.text("m", sx + 22, sy + 32, "B");
        double beside = hollow ? up + 14 : up - 14;
        drawing.line("dim", up, sy - 30, beside, sy - 30);
        drawing.dimension(beside, sy - 1, beside, sy - 30, "");
        drawing.text(hollow ? "" : "n", beside + (hollow ? 5 : -4), sy - 12, "F");
        return drawing.svg();
    }

    private static String rib(boolean inside, String id) {
        Drawing drawing =
                sheet(
                        id,
                        "Curved rib",
                        "Side view of a curved channel, heel radius R, heel length L or sweep α, and"
                                + " its section: two flanges F pointing "
                                + (inside ? "inside" : "outside")
                                + ", web B.");
        double x = 100;
        double y = 168;
        double heel = inside ? 132 : 112;
        double edge = inside ? 112 : 132;
        double from = 55;
        double sweep = 70;
        drawing.arc("ink", x, y, heel, from, sweep).arc("thin", x, y, edge, from, sweep);
        for (double at : new double[] {Math.toRadians(from), Math.toRadians(from + sweep)}) {
            ray(drawing, "ink", x, y, 112, 132, at);
        }
        drawing.arc("dim", x, y, 146, from, sweep);
        for (int side = 0; side < 2; side++) {
            double at = Math.toRadians(from + side * sweep);
            ray(drawing, "dim", x, y, 134, 150, at);
            drawing.arrowhead(
                    x + 146 * Math.cos(at),
                    y - 146 * Math.sin(at),
                    side == 0 ? Math.PI / 2 - at : -Math.PI / 2 - at);
        }
        drawing.text("m", x, y - 150, "L");
        drawing.line("centre", x - 8, y - 4, x + 8, y - 4);
        double at = Math.toRadians(72);
        ray(drawing, "dim", x, y, 0, heel, at);
        drawing.arrowhead(x + heel * Math.cos(at), y - heel * Math.sin(at), -at);
        drawing.text("", x + 22, y - 46, "R");
        drawing.arc("dim", x, y, 76, from, sweep);
        drawing.text("m", x - 12, y - 80, "α");
        // the section of the channel
        double sx = 226;
        double sy = 62;
        double web = inside ? sx + 44 : sx;
        drawing.line("ink", sx, sy, sx + 44, sy).line("ink", sx, sy + 54, sx + 44, sy + 54);
        drawing.line("ink", web, sy, web, sy + 54);
        drawing.line("dim", sx, sy - 4, sx, sy - 20).line("dim", sx + 44, sy - 4, sx + 44, sy - 20);
        drawing.dimension(sx, sy - 16, sx + 44, sy - 16, "F");
        double beside = inside ? web - 14 : web + 14;
        drawing.dimension(beside, sy + 1, beside, sy + 53, "");
        drawing.text(inside ? "n" : "", beside + (inside ? -4 : 5), sy + 31, "B");
        drawing.text("soft m", sx + 22, sy + 76, "← centre");
        return drawing.svg();
    }

    private static String panel(String id) {
        Drawing drawing =
                sheet(id, "Panel with dents", "A panel, L long and W wide, with dents in it.");
        drawing.bar("fill-tint", 60, 34, 170, 92);
        double[][] spots = {{96, 62}, {150, 88}, {196, 58}, {120, 104}};
        for (double[] spot : spots) {
            drawing.arc("hidden-line", spot[0], spot[1], 11, 0, 360);
            drawing.arc("thin", spot[0], spot[1], 4, 0, 360);
        }
        drawing.line("dim", 60, 130, 60, 156).line("dim", 230, 130, 230, 156);
        drawing.dimension(60, 151, 230, 151, "L");
        drawing.line("dim", 234, 34, 256, 34).line("dim", 234, 126, 256, 126);
        drawing.dimension(251, 34, 251, 126, "W");
        return drawing.svg();
    }
}
