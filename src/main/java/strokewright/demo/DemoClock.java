package strokewright.demo;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import org.jspecify.annotations.Nullable;

/**
 * The time of day, but for whoever brings the invented shop's past in: to that thread, and only
 * while it does so, some days ago is now.
 */
final class DemoClock extends Clock {

    private final Clock real;
    private final ThreadLocal<@Nullable Duration> ago = new ThreadLocal<>();

    DemoClock(Clock real) {
        this.real = real;
    }

    void daysAgo(int days, Runnable work) {
        ago.set(Duration.ofDays(days));
        try {
            work.run();
        } finally {
            ago.remove();
        }
    }

    @Override
    public Instant instant() {
        Duration back = ago.get();
        return back == null ? real.instant() : real.instant().minus(back);
    }

    @Override
    public ZoneId getZone() {
        return real.getZone();
    }

    @Override
    public Clock withZone(ZoneId zone) {
        DemoClock other = new DemoClock(real.withZone(zone));
        other.ago.set(ago.get());
        return other;
    }
}
