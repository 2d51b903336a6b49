package strokewright.sheet;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import strokewright.sheet.Layout.Grid;
import strokewright.sheet.Layout.Stack;
import strokewright.sheet.Nest.Block;
import strokewright.sheet.Nest.Offcut;

/**
 * Lays a tree of cuts on the sheet and cuts what is left over into offcuts, the way that keeps
 * most: a strip may be cut off above before beside, or beside before above, or be left to the
 * parts.
 */
final class Laying {

    /** Cuts deeper than this leave their strips in the one way that is plain. */
    private static final int CHOSEN_DEPTH = 5;

    private final StockSheet sheet;
    private final List<String> names;

    Laying(StockSheet sheet, List<String> names) {
        this.sheet = sheet;
        this.names = names;
    }

    private record Area(int x, int y, int length, int width) {}

    /**
     * @param worth area that is kept; among equals the larger single offcuts decide
     */
    private record Laid(List<Placed> placed, List<Offcut> offcuts, double worth) {}

    private record Placed(Grid grid, int x, int y) {}

    /** What is cut from a sheet with the layout that leaves most of worth. */
    Nest.Pattern best(List<Layout> layouts, long times) {
        Laid best = null;
        for (Layout layout : layouts) {
            Laid laid = lay(layout, new Area(0, 0, sheet.usableLength(), sheet.usableWidth()), 0);
            if (best == null || laid.worth > best.worth * (1 + 1e-12) + 1e-9) {
                best = laid;
            }
        }
        List<Offcut> offcuts = new ArrayList<>(best.offcuts);
        offcuts.sort(
                Comparator.comparingDouble(Offcut::areaMm2)
                        .reversed()
                        .thenComparingDouble(Offcut::xMm)
                        .thenComparingDouble(Offcut::yMm));
        return new Nest.Pattern(times, best.placed.stream().map(this::block).toList(), offcuts);
    }

    private Laid lay(Layout layout, Area in, int depth) {
        int length = layout.width();
        int width = layout.height();
        Area right = new Area(in.x + length, in.y, in.length - length, in.width);
        Area above = new Area(in.x, in.y + width, in.length, in.width - width);
        Area rightOfIt = new Area(right.x, in.y, right.length, width);
        Area aboveIt = new Area(in.x, above.y, length, above.width);
        List<Laid> ways = new ArrayList<>();
        Laid tight = tight(layout, new Area(in.x, in.y, length, width), depth);
        ways.add(with(tight, above, rightOfIt));
        ways.add(with(tight, right, aboveIt));
        if (layout instanceof Stack stack && depth < CHOSEN_DEPTH) {
            Area all =
                    stack.along()
                            ? new Area(in.x, in.y, length, in.width)
                            : new Area(in.x, in.y, in.length, width);
            ways.add(with(tight(layout, all, depth), stack.along() ? right : above));
        }
        Laid best = ways.get(0);
        for (Laid way : ways) {
            best = way.worth > best.worth * (1 + 1e-12) + 1e-9 ? way : best;
        }
        return best;
    }

    /** The parts of a stack, each in the whole of its share; a block as it is. */
    private Laid tight(Layout layout, Area in, int depth) {
        if (layout instanceof Grid grid) {
            return new Laid(List.of(new Placed(grid, in.x, in.y)), List.of(), 0);
        }
        Stack stack = (Stack) layout;
        List<Placed> placed = new ArrayList<>();
        List<Offcut> offcuts = new ArrayList<>();
        double worth = 0;
        int at = 0;
        for (Layout part : stack.parts()) {
            Area share =
                    stack.along()
                            ? new Area(in.x + at, in.y, part.width(), in.width)
                            : new Area(in.x, in.y + at, in.length, part.height());
            Laid laid = lay(part, share, depth + 1);
            placed.addAll(laid.placed);
            offcuts.addAll(laid.offcuts);
            worth += laid.worth;
            at += stack.along() ? part.width() : part.height();
        }
        return new Laid(placed, offcuts, worth);
    }

    private Laid with(Laid laid, Area... left) {
        List<Offcut> offcuts = new ArrayList<>(laid.offcuts);
        double worth = laid.worth;
        for (Area area : left) {
            if (area.length > sheet.kerf() && area.width > sheet.kerf()) {
                Offcut offcut = offcut(area);
                offcuts.add(offcut);
                worth += worth(offcut);
            }
        }
        return new Laid(laid.placed, offcuts, worth);
    }

    /** A large offcut is worth more than two of half its size. */
    private double worth(Offcut offcut) {
        double share = offcut.areaMm2() / sheet.areaMm2();
        return (offcut.kept() ? share : 0) + 1e-4 * share * share;
    }

    private Offcut offcut(Area area) {
        double margin = sheet.edgeMarginMm();
        double x = area.x == 0 ? 0 : margin + area.x / 1000.0;
        double y = area.y == 0 ? 0 : margin + area.y / 1000.0;
        double toX =
                area.x + area.length == sheet.usableLength()
                        ? sheet.lengthMm()
                        : margin + (area.x + area.length - sheet.kerf()) / 1000.0;
        double toY =
                area.y + area.width == sheet.usableWidth()
                        ? sheet.widthMm()
                        : margin + (area.y + area.width - sheet.kerf()) / 1000.0;
        double length = thousandths(toX - x);
        double width = thousandths(toY - y);
        return new Offcut(
                thousandths(x), thousandths(y), length, width, sheet.keeps(length, width));
    }

    /** Without the stray digits of binary fractions. */
    private static double thousandths(double mm) {
        return Math.round(mm * 1000) / 1000.0;
    }

    private Block block(Placed placed) {
        Grid grid = placed.grid;
        return new Block(
                names.get(grid.size()),
                thousandths(sheet.edgeMarginMm() + placed.x / 1000.0),
                thousandths(sheet.edgeMarginMm() + placed.y / 1000.0),
                (grid.pieceWidth() - sheet.kerf()) / 1000.0,
                (grid.pieceHeight() - sheet.kerf()) / 1000.0,
                grid.turned(),
                grid.columns(),
                grid.rows());
    }
}
