package strokewright.job;

import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook;
import strokewright.quantity.Money;
import strokewright.quote.PricedItem;

/**
 * Everything that is known about one job: what was planned, and what came back.
 *
 * @param estimator who made the quote, or released a job without one
 * @param finishedOn null as long as it is not finished
 * @param orders the job's own first, then its change orders
 * @param steps over all orders
 * @param bookings those that count, of clocks that still run too
 */
public record JobRecord(
        String number,
        JobKind kind,
        JobState state,
        String title,
        UUID customerId,
        String customer,
        @Nullable String quote,
        String estimator,
        LocalDate releasedOn,
        @Nullable LocalDate finishedOn,
        List<Ordered> orders,
        List<Step> steps,
        List<Booking> bookings,
        List<MetalUsed> metal,
        List<BillEntry> bills) {

    public JobRecord {
        orders = List.copyOf(orders);
        steps = List.copyOf(steps);
        bookings = List.copyOf(bookings);
        metal = List.copyOf(metal);
        bills = List.copyOf(bills);
    }

    /**
     * What was ordered at one time.
     *
     * @param changeOrder 0 of the job itself
     * @param book the edition that it was planned with
     * @param net what the customer pays for it, before tax
     */
    public record Ordered(
            int changeOrder, int edition, ShopBook book, List<Line> items, Money net) {

        public Ordered {
            items = List.copyOf(items);
        }
    }

    /**
     * @param quantity ordered
     * @param made good pieces; as many as ordered until the job is finished
     */
    public record Line(PricedItem item, int quantity, int made) {}

    /** Whether somebody's clock still runs on it. */
    public boolean isBookedToTheEnd() {
        return bookings.stream().noneMatch(Booking::runs);
    }
}
