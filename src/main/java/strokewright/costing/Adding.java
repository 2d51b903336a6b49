package strokewright.costing;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/** Rounds parts so that they add up to a whole that is already rounded. */
public final class Adding {

    private Adding() {}

    /**
     * Every part is rounded down to the whole's last digit, and what is then missing is given, one
     * digit each, to those that lost most. So no part is off by a digit or more where the whole is
     * the rounded sum of the exact parts; a part that is nothing stays nothing.
     *
     * @param whole rounded; its scale is that of the parts that come out
     * @param exact any sign, at least one
     * @return in the order of {@code exact}; their sum is {@code whole}
     */
    public static List<BigDecimal> upTo(BigDecimal whole, List<BigDecimal> exact) {
        List<BigDecimal> parts = new ArrayList<>();
        BigDecimal missing = whole;
        for (BigDecimal part : exact) {
            BigDecimal down = part.setScale(whole.scale(), RoundingMode.FLOOR);
            parts.add(down);
            missing = missing.subtract(down);
        }
        List<Integer> byLoss =
                IntStream.range(0, exact.size())
                        .filter(i -> exact.get(i).signum() != 0)
                        .boxed()
                        .sorted(
                                Comparator.comparing(
                                        (Integer i) -> parts.get(i).subtract(exact.get(i))))
                        .toList();
        if (byLoss.isEmpty()) {
            byLoss = List.of(0);
        }
        BigDecimal digit = BigDecimal.ONE.movePointLeft(whole.scale());
        long digits = missing.divide(digit).longValueExact();
        long each = Math.floorDiv(digits, byLoss.size());
        long more = Math.floorMod(digits, byLoss.size());
        for (int i = 0; i < byLoss.size(); i++) {
            int at = byLoss.get(i);
            BigDecimal given = digit.multiply(BigDecimal.valueOf(i < more ? each + 1 : each));
            parts.set(at, parts.get(at).add(given));
        }
        return parts;
    }
}
