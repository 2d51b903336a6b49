package strokewright.learning;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Learned;
import strokewright.estimate.ShopBook;

/**
 * Proposed lines that were taken over, with what stood in their place.
 *
 * @param jobEffect null when it stayed as it was
 */
record Adopted(List<Swap> lines, @Nullable JobEffect jobEffect) {

    Adopted {
        lines = List.copyOf(lines);
    }

    /**
     * @param before null where there was no such line
     */
    record Swap(@Nullable Learned before, Learned after) {}

    record JobEffect(
            @Nullable Double before, @Nullable Integer beforeJobs, double after, int afterJobs) {}

    boolean isNothing() {
        return lines.isEmpty() && jobEffect == null;
    }

    ShopBook in(ShopBook book) {
        ShopBook with = Factors.in(book, lines.stream().map(Swap::after).toList());
        return jobEffect == null
                ? with
                : with.withUncertainty(
                        book.uncertainty().withJobSpread(jobEffect.after, jobEffect.afterJobs));
    }

    /** The book with what stood there before; what was changed since stays. */
    ShopBook undoneIn(ShopBook book) {
        List<Learned> left = new ArrayList<>();
        for (Learned line : book.learned()) {
            Swap swap = lines.stream().filter(s -> s.after.equals(line)).findFirst().orElse(null);
            if (swap == null) {
                left.add(line);
            } else if (swap.before != null) {
                left.add(swap.before);
            }
        }
        ShopBook undone = book.withLearned(left);
        boolean stands =
                jobEffect != null
                        && Objects.equals(book.uncertainty().jobSpread(), jobEffect.after)
                        && Objects.equals(book.uncertainty().jobSpreadJobs(), jobEffect.afterJobs);
        return stands
                ? undone.withUncertainty(
                        book.uncertainty().withJobSpread(jobEffect.before, jobEffect.beforeJobs))
                : undone;
    }
}
