package strokewright.learning;

import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Learned;
import strokewright.web.Drawing;
import strokewright.web.Numbers;

/**
 * A factor beside the estimate: what is proposed with how far the next job may be off, and what is
 * in use. All of a page have one logarithmic scale.
 */
final class FactorPicture {

    private static final double WIDTH = 200;
    private static final double HEIGHT = 20;
    private static final double EDGE = 6;

    private final Numbers numbers;
    private final double low;
    private final double high;
    private int drawn;

    FactorPicture(List<Factors.Line> lines, Numbers numbers) {
        this.numbers = numbers;
        List<Double> ends =
                lines.stream()
                        .flatMap(
                                l ->
                                        Stream.of(
                                                end(l.proposed(), -1),
                                                end(l.proposed(), 1),
                                                log(l.inUse())))
                        .filter(Objects::nonNull)
                        .toList();
        low = Math.min(-0.1, ends.stream().mapToDouble(e -> e).min().orElse(0));
        high = Math.max(0.1, ends.stream().mapToDouble(e -> e).max().orElse(0));
    }

    private static @Nullable Double log(@Nullable Learned factor) {
        return factor == null || factor.planFactor() == null ? null : Math.log(factor.planFactor());
    }

    private static @Nullable Double end(Learned factor, int side) {
        Double log = log(factor);
        return log == null ? null : log + side * (factor.spread() == null ? 0 : factor.spread());
    }

    /** Nothing where no factor is proposed. */
    String of(Factors.Line line, String name) {
        Double at = log(line.proposed());
        if (at == null) {
            return "";
        }
        Double inUse = log(line.inUse());
        Drawing drawing =
                new Drawing(
                        WIDTH,
                        HEIGHT,
                        "factor-" + drawn++,
                        "Factor, " + name,
                        "Proposed × "
                                + numbers.show(Math.exp(at), 2)
                                + ", two jobs in three from × "
                                + numbers.show(Math.exp(end(line.proposed(), -1)), 2)
                                + " to × "
                                + numbers.show(Math.exp(end(line.proposed(), 1)), 2)
                                + (inUse == null
                                        ? ", none in use"
                                        : ", in use × " + numbers.show(Math.exp(inUse), 2)));
        double from = x(end(line.proposed(), -1));
        double middle = HEIGHT / 2;
        drawing.line("thin", x(0), 0, x(0), HEIGHT)
                .bar("interval", from, middle - 4, x(end(line.proposed(), 1)) - from, 8)
                .bar("fill", x(at) - 1.5, 2, 3, HEIGHT - 4);
        if (inUse != null) {
            drawing.arc("ring-ink", x(inUse), middle, 4, 0, 360);
        }
        return drawing.svg();
    }

    private double x(double log) {
        return EDGE + (WIDTH - 2 * EDGE) * (log - low) / (high - low);
    }
}
