package strokewright.shopbook;

import java.time.Instant;

/**
 * An edition in the list of them.
 *
 * @param addedBy display name
 */
record EditionEntry(int edition, String addedBy, Instant addedAt, String note) {}
