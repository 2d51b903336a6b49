package strokewright.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;

class ThrottleTests {

    private final Ticking clock = new Ticking();
    private final Throttle throttle = new Throttle(clock);

    @Test
    void theTenthFailureShutsTheNameForThatAddressOnly() {
        fail(9, "sam", "10.0.0.1");
        assertThat(throttle.isShut("sam", "10.0.0.1")).isFalse();
        fail(1, "sam", "10.0.0.1");
        assertThat(throttle.isShut("sam", "10.0.0.1")).isTrue();
        assertThat(throttle.isShut("sam", "10.0.0.2")).isFalse();
        assertThat(throttle.isShut("kim", "10.0.0.1")).isFalse();
    }

    @Test
    void itOpensAgainAfterFiveMinutes() {
        fail(10, "sam", "10.0.0.1");
        clock.now = clock.now.plus(Throttle.WINDOW).minusMillis(1);
        assertThat(throttle.isShut("sam", "10.0.0.1")).isTrue();
        clock.now = clock.now.plusMillis(1);
        assertThat(throttle.isShut("sam", "10.0.0.1")).isFalse();
    }

    @Test
    void anAddressThatTriesManyNamesIsShutForAllNames() {
        for (int i = 0; i < 60; i++) {
            fail(1, "name" + i, "10.0.0.1");
        }
        assertThat(throttle.isShut("untried", "10.0.0.1")).isTrue();
        assertThat(throttle.isShut("untried", "10.0.0.2")).isFalse();
    }

    @Test
    void aNameThatIsTriedFromManyAddressesIsShutEverywhere() {
        for (int i = 0; i < 100; i++) {
            fail(1, "sam", "10.0.0." + i);
        }
        assertThat(throttle.isShut("sam", "192.0.2.1")).isTrue();
    }

    @Test
    void aRightPasswordForgetsTheMistypedOnes() {
        fail(9, "sam", "10.0.0.1");
        throttle.succeeded("sam", "10.0.0.1");
        fail(9, "sam", "10.0.0.1");
        assertThat(throttle.isShut("sam", "10.0.0.1")).isFalse();
    }

    private void fail(int times, String name, String address) {
        for (int i = 0; i < times; i++) {
            throttle.failed(name, address);
        }
    }

    private static class Ticking extends Clock {

        private Instant now = Instant.parse("2026-01-05T08:00:00Z");

        @Override
        public ZoneId getZone() {
            return ZoneOffset.UTC;
        }

        @Override
        public Clock withZone(ZoneId zone) {
            return this;
        }

        @Override
        public Instant instant() {
            return now;
        }
    }
}
