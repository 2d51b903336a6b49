package strokewright.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.ToDoubleFunction;

/** Cuts a pattern apart again with nothing but its rectangles. */
final class GuillotineCheck {

    private static final double ROUNDING = 0.002;

    private GuillotineCheck() {}

    private record Rectangle(double x, double y, double toX, double toY) {}

    static void assertCuttable(Nest.Pattern pattern, StockSheet sheet) {
        List<Rectangle> all = new ArrayList<>();
        double margin = sheet.edgeMarginMm();
        for (Nest.Block b : pattern.blocks()) {
            assertThat(b.xMm()).isGreaterThanOrEqualTo(margin - ROUNDING);
            assertThat(b.yMm()).isGreaterThanOrEqualTo(margin - ROUNDING);
            double length = b.columns() * (b.lengthMm() + sheet.kerfMm()) - sheet.kerfMm();
            double width = b.rows() * (b.widthMm() + sheet.kerfMm()) - sheet.kerfMm();
            assertThat(b.xMm() + length)
                    .isLessThanOrEqualTo(sheet.lengthMm() - margin + rounding(b));
            assertThat(b.yMm() + width).isLessThanOrEqualTo(sheet.widthMm() - margin + rounding(b));
            all.add(new Rectangle(b.xMm(), b.yMm(), b.xMm() + length, b.yMm() + width));
        }
        for (Nest.Offcut o : pattern.offcuts()) {
            assertThat(o.lengthMm()).isPositive();
            assertThat(o.widthMm()).isPositive();
            assertThat(o.xMm() + o.lengthMm()).isLessThanOrEqualTo(sheet.lengthMm() + ROUNDING);
            assertThat(o.yMm() + o.widthMm()).isLessThanOrEqualTo(sheet.widthMm() + ROUNDING);
            assertThat(o.kept())
                    .isEqualTo(Math.min(o.lengthMm(), o.widthMm()) >= sheet.keptFromMm());
            all.add(new Rectangle(o.xMm(), o.yMm(), o.xMm() + o.lengthMm(), o.yMm() + o.widthMm()));
        }
        assertThat(cuttable(all, sheet.kerfMm() - ROUNDING * 2)).as("%s", pattern).isTrue();
    }

    private static double rounding(Nest.Block b) {
        return ROUNDING * Math.max(b.columns(), b.rows());
    }

    private static boolean cuttable(List<Rectangle> all, double kerf) {
        if (all.size() <= 1) {
            return true;
        }
        return cuttable(all, kerf, Rectangle::x, Rectangle::toX)
                || cuttable(all, kerf, Rectangle::y, Rectangle::toY);
    }

    /** A cut that divides can be made first: it takes nothing from the others. */
    private static boolean cuttable(
            List<Rectangle> all,
            double kerf,
            ToDoubleFunction<Rectangle> from,
            ToDoubleFunction<Rectangle> to) {
        List<Rectangle> sorted = new ArrayList<>(all);
        sorted.sort(Comparator.comparingDouble(from));
        double reached = to.applyAsDouble(sorted.get(0));
        for (int i = 1; i < sorted.size(); i++) {
            if (from.applyAsDouble(sorted.get(i)) >= reached + kerf) {
                return cuttable(sorted.subList(0, i), kerf)
                        && cuttable(sorted.subList(i, sorted.size()), kerf);
            }
            reached = Math.max(reached, to.applyAsDouble(sorted.get(i)));
        }
        return false;
    }
}
