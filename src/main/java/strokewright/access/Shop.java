package strokewright.access;

import java.time.ZoneId;
import java.util.Currency;
import java.util.UUID;

/** A shop: the one owner of every priced row. */
public record Shop(UUID id, String name, Currency currency, ZoneId timeZone) {}
