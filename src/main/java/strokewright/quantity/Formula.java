package strokewright.quantity;

/**
 * A named formula: what is written in the trace and what is computed are the same thing, because a
 * figure is had by giving the traced inputs to {@link #apply}.
 */
public interface Formula {

    /** Name in kebab case, as it stands in a {@link Why}. */
    String code();

    /** The formula as a person would write it. */
    String text();

    /** Published source, "assumed", or "common practice, no source". */
    String source();

    double apply(double... inputs);
}
