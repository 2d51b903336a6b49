package strokewright.quantity;

/**
 * One thing wrong with what somebody typed or sent.
 *
 * @param pointer JSON Pointer (RFC 6901) to the field; empty for the whole document
 * @param message says what would be right
 */
public record Fault(String pointer, String message) {}
