package strokewright.access;

import java.util.UUID;

/**
 * A shop was opened. Published inside the transaction that opens it, as its owner: a plain
 * {@code @EventListener} adds what belongs to a new shop, and if it fails the shop is not opened.
 */
public record ShopOpened(UUID shopId) {}
