package strokewright.job;

import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Person-minutes booked on a step so far, without what was corrected. */
final class Booked {

    private Booked() {}

    static Map<Integer, Double> byStep(List<Booking> bookings) {
        Map<Integer, Double> minutes = new HashMap<>();
        for (Booking b : bookings) {
            if (b.replacedBy() == null && b.minutes() != null && b.step() != null) {
                minutes.merge(b.step(), b.minutes() * (b.withHelper() ? 2 : 1), Double::sum);
            }
        }
        return minutes;
    }
}
