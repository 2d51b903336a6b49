package strokewright.estimate;

import org.jspecify.annotations.Nullable;

/**
 * What finished jobs taught about one kind of work: a factor on its run minutes, on the set-up of
 * the whole job, or on the risk reserve. The line of the metal family goes before the line of the
 * kind alone.
 *
 * @param kind of an operation, such as "curve-edge"; the name of a time standard; {@link #SETUP};
 *     {@link #OTHER}; or {@link #RESERVE}
 * @param family metals that it holds for; null for all others
 * @param planFactor on the plan minutes
 * @param meanFactor what is to be expected on average; the plan factor when left out
 * @param spread standard deviation of the natural logarithm for a new job; null where unknown
 * @param jobs how many it was learned from
 * @param origin where it comes from
 */
public record Learned(
        @Nullable String kind,
        @Nullable String family,
        @Nullable Double planFactor,
        @Nullable Double meanFactor,
        @Nullable Double spread,
        @Nullable Integer jobs,
        @Nullable String origin) {

    /** Stands for the set-up of a job. */
    public static final String SETUP = "set-up";

    /** Stands for the run minutes of every kind of work without a line of its own. */
    public static final String OTHER = "other";

    /** Stands for the risk reserve of the shop book, for one piece and for more. */
    public static final String RESERVE = "reserve";
}
