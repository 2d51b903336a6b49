package strokewright.comparison;

/** What a plan is made for. */
enum Plan {
    /** What was ordered. */
    QUOTED,
    /** What was made. */
    MADE
}
