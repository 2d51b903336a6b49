package strokewright.access;

import java.util.Locale;

/** What somebody may do; docs/security.md has the table, {@link Rules} the same in code. */
public enum Role {
    /** Prices: take-offs and quotes; reads the shop book. */
    ESTIMATOR,
    /** Everything; alone changes the shop book and the users. */
    OWNER,
    /** Customers, and quotes as they stand: reads, issues, downloads. */
    OFFICE,
    /** The shop floor: nothing that is priced. */
    FLOOR;

    /** As stored and sent. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    static Role of(String word) {
        return valueOf(word.toUpperCase(Locale.ROOT));
    }
}
