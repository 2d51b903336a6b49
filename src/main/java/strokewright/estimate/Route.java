package strokewright.estimate;

import org.jspecify.annotations.Nullable;

/** One way to make an item: a take-off of its own, under the name that it is compared by. */
public record Route(@Nullable String name, @Nullable TakeOff takeOff) {}
