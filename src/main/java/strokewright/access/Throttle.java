package strokewright.access;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Slows down who guesses passwords. Counted are failures within a window, by name and address
 * together, by address, and by name; the last has the highest limit, for it also shuts out the
 * name's owner.
 */
class Throttle {

    static final Duration WINDOW = Duration.ofMinutes(5);

    private static final int OF_NAME_AND_ADDRESS = 10;
    private static final int OF_ADDRESS = 60;
    private static final int OF_NAME = 100;
    private static final int MOST_KEYS = 20_000;

    private final Map<String, Failures> failures = new ConcurrentHashMap<>();
    private final Clock clock;

    Throttle(Clock clock) {
        this.clock = clock;
    }

    boolean isShut(String name, String address) {
        return limits(name, address).stream()
                .anyMatch(limit -> count(limit.key) >= limit.mostFailures);
    }

    void failed(String name, String address) {
        Instant now = clock.instant();
        if (failures.size() > MOST_KEYS) {
            failures.values().removeIf(f -> f.isOver(now));
        }
        for (Limit limit : limits(name, address)) {
            failures.merge(
                    limit.key,
                    new Failures(1, now),
                    (before, one) ->
                            before.isOver(now)
                                    ? one
                                    : new Failures(before.count + 1, before.since));
        }
    }

    void succeeded(String name, String address) {
        failures.remove(limits(name, address).get(0).key);
    }

    private int count(String key) {
        Failures found = failures.get(key);
        return found == null || found.isOver(clock.instant()) ? 0 : found.count;
    }

    private static List<Limit> limits(String name, String address) {
        return List.of(
                new Limit(name + "\n" + address, OF_NAME_AND_ADDRESS),
                new Limit("\n" + address, OF_ADDRESS),
                new Limit(name + "\n", OF_NAME));
    }

    private record Limit(String key, int mostFailures) {}

    private record Failures(int count, Instant since) {

        boolean isOver(Instant now) {
            return !now.isBefore(since.plus(WINDOW));
        }
    }
}
