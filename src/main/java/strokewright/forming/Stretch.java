package strokewright.forming;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import strokewright.forming.Outline.Bit;
import strokewright.forming.Outline.Corner;
import strokewright.forming.Outline.Run;

/**
 * A part of an outline that is worked in one sense from one end to the other.
 *
 * @param fromMm where it begins along its run
 * @param lengthMm straights within it included
 * @param bits what is bent of it, along the line
 * @param bends the same with positive curvatures, the tightest last; alike ones together
 */
public record Stretch(
        boolean shrink, double fromMm, double lengthMm, List<Bit> bits, List<Bend> bends) {

    /** Bends are put together until so many are left: enough for six digits of the passes. */
    private static final int MOST_BENDS = 100;

    private static final double SLIP = Math.toRadians(0.5);

    public Stretch {
        bits = List.copyOf(bits);
        bends = List.copyOf(bends);
    }

    public double tightest() {
        return bends.get(bends.size() - 1).curvature();
    }

    public double bentMm() {
        return bends.stream().mapToDouble(Bend::lengthMm).sum();
    }

    /** Curvatures as the strain formulas take them: shrinking positive, stretching negative. */
    List<Bend> signed() {
        return shrink
                ? bends
                : bends.stream().map(b -> new Bend(b.lengthMm(), -b.curvature())).toList();
    }

    /**
     * @param shrinks 1 where a turn from x towards y is shrunk, −1 where it is stretched
     */
    static List<Stretch> of(Run run, int shrinks, double worthACurvature) {
        List<Growing> found = new ArrayList<>();
        boolean afterCorner = false;
        int corner = 0;
        Growing growing = null;
        for (Bit bit : run.bits()) {
            while (corner < run.corners().size()
                    && run.corners().get(corner).atMm() <= bit.atMm() + bit.lengthMm() - 1e-9) {
                afterCorner = true;
                growing = null;
                corner++;
            }
            if (Math.abs(bit.curvature()) < worthACurvature) {
                continue;
            }
            boolean shrink = bit.curvature() * shrinks > 0;
            if (growing == null || growing.shrink != shrink) {
                growing = new Growing(shrink, bit.atMm(), afterCorner);
                found.add(growing);
                afterCorner = false;
            }
            growing.add(bit);
        }
        List<Growing> stretches = withoutSlips(found);
        joinOverTheStart(run, stretches);
        return stretches.stream().map(Growing::grown).toList();
    }

    /** What hardly turns is a slip of drawing, and does not part its neighbours. */
    private static List<Growing> withoutSlips(List<Growing> found) {
        List<Growing> kept = new ArrayList<>();
        boolean afterCorner = false;
        for (Growing next : found) {
            afterCorner |= next.afterCorner;
            if (next.turning() < SLIP) {
                continue;
            }
            Growing before = kept.isEmpty() ? null : kept.get(kept.size() - 1);
            if (before != null && before.shrink == next.shrink && !afterCorner) {
                before.to = next.to;
                before.bits.addAll(next.bits);
            } else {
                kept.add(next);
            }
            afterCorner = false;
        }
        return kept;
    }

    /** A closed line without a corner at its start goes on where it began. */
    private static void joinOverTheStart(Run run, List<Growing> found) {
        if (!run.closed() || found.isEmpty()) {
            return;
        }
        Growing first = found.get(0);
        Growing last = found.get(found.size() - 1);
        boolean cornerBetween =
                run.corners().stream()
                        .mapToDouble(Corner::atMm)
                        .anyMatch(at -> at <= first.from || at >= last.to);
        if (first.shrink != last.shrink || cornerBetween) {
            return;
        }
        if (first == last) {
            first.to = first.from + run.lengthMm();
            return;
        }
        last.to = run.lengthMm() + first.to;
        last.bits.addAll(first.bits);
        found.remove(0);
    }

    private static final class Growing {
        final boolean shrink;
        final double from;
        final boolean afterCorner;
        double to;
        final List<Bit> bits = new ArrayList<>();

        Growing(boolean shrink, double from, boolean afterCorner) {
            this.shrink = shrink;
            this.from = from;
            this.afterCorner = afterCorner;
        }

        double turning() {
            return bits.stream().mapToDouble(b -> b.lengthMm() * Math.abs(b.curvature())).sum();
        }

        void add(Bit bit) {
            bits.add(bit);
            to = bit.atMm() + bit.lengthMm();
        }

        Stretch grown() {
            return new Stretch(shrink, from, to - from, bits, bends());
        }

        /** Alike ones together; of many, neighbours by curvature too, but never the tightest. */
        private List<Bend> bends() {
            List<Bend> sorted =
                    bits.stream()
                            .map(b -> new Bend(b.lengthMm(), Math.abs(b.curvature())))
                            .sorted(Comparator.comparingDouble(Bend::curvature))
                            .toList();
            List<Bend> alike = together(sorted, 1e-9);
            double alikeWithin = 1e-7;
            while (alike.size() > MOST_BENDS) {
                List<Bend> loose = together(alike.subList(0, alike.size() - 1), alikeWithin);
                List<Bend> all = new ArrayList<>(loose);
                all.add(alike.get(alike.size() - 1));
                alike = all;
                alikeWithin = Math.max(2 * alikeWithin, 1e-4);
            }
            return alike;
        }

        private List<Bend> together(List<Bend> sorted, double within) {
            List<Bend> together = new ArrayList<>();
            double reach = within * sorted.get(sorted.size() - 1).curvature();
            int i = 0;
            while (i < sorted.size()) {
                double first = sorted.get(i).curvature();
                double length = 0;
                double turning = 0;
                while (i < sorted.size() && sorted.get(i).curvature() - first <= reach) {
                    length += sorted.get(i).lengthMm();
                    turning += sorted.get(i).lengthMm() * sorted.get(i).curvature();
                    i++;
                }
                together.add(new Bend(length, turning / length));
            }
            return together;
        }
    }
}
